/* Chemical formulas, by recursive descent: parts, sequences, units. */
#include <string.h>

#include "library/formula.h"

struct reader {
    struct text text;
    uint32_t at;
    uint32_t depth;             /* open parentheses */
    element_finder *find;
    const void *context;
    enum formula_trouble trouble;
    struct span where;
};

static bool stop(struct reader *reader, enum formula_trouble trouble, uint32_t start, uint32_t end)
{
    reader->trouble = trouble;
    reader->where = (struct span){ start, end };
    return false;
}

/* ---- signs --------------------------------------------------------------------------------------------------- */

static bool stands(const struct reader *reader, const char *sign)
{
    uint32_t length = (uint32_t)strlen(sign);
    return reader->text.length - reader->at >= length && memcmp(reader->text.bytes + reader->at, sign, length) == 0;
}

static char byte_at(const struct reader *reader)
{
    return reader->at < reader->text.length ? reader->text.bytes[reader->at] : '\0';
}

/* The first of the signs that stands here is passed; its number, or `count` where none does. */
static uint32_t take_one(struct reader *reader, const char *const *signs, uint32_t count)
{
    for (uint32_t i = 0; i < count; i++) {
        if (!stands(reader, signs[i]))
            continue;
        reader->at += (uint32_t)strlen(signs[i]);
        return i;
    }
    return count;
}

static void skip_blanks(struct reader *reader)
{
    static const char *const blanks[] = { " ", "\t", "\xc2\xa0" };
    while (take_one(reader, blanks, COUNT_OF(blanks)) < COUNT_OF(blanks)) { }
}

/* Middle dot, dot operator, bullet, and what keyboards have. */
static bool take_joint(struct reader *reader)
{
    static const char *const joints[] = { "\xc2\xb7", "\xe2\x8b\x85", "\xe2\x80\xa2", ".", "*" };
    return take_one(reader, joints, COUNT_OF(joints)) < COUNT_OF(joints);
}

/* The value of the digit here, which is passed, or -1: 0 to 9, or one of the subscripts. */
static int take_digit(struct reader *reader)
{
    char byte = byte_at(reader);
    if (byte >= '0' && byte <= '9') {
        reader->at++;
        return byte - '0';
    }
    if (!stands(reader, "\xe2\x82") || reader->text.length - reader->at < 3)
        return -1;
    int digit = (unsigned char)reader->text.bytes[reader->at + 2] - 0x80;
    if (digit < 0 || digit > 9)
        return -1;
    reader->at += 3;
    return digit;
}

static bool is_closing(char byte)
{
    return byte == ')' || byte == ']';
}

/* ---- numbers ------------------------------------------------------------------------------------------------- */

/* What stands behind the point of a number, which is added; false where there are no digits or too many. */
static bool take_decimals(struct reader *reader, double *number)
{
    uint32_t count = 0;
    double step = 0.1;
    reader->at++;
    for (int digit; (digit = take_digit(reader)) >= 0; count++, step /= 10)
        *number += digit * step;
    return count > 0 && count <= 4;
}

/* A number, or 1 where none stands here. */
static bool take_number(struct reader *reader, bool decimals, double *number)
{
    uint32_t start = reader->at, count = 0;
    bool zero_first = false;
    *number = 0;
    for (int digit; (digit = take_digit(reader)) >= 0; count++) {
        zero_first = zero_first || (count == 0 && digit == 0);
        *number = *number < 1e9 ? *number * 10 + digit : *number;
    }
    if (count == 0) {
        *number = 1;
        return true;
    }
    bool good = !zero_first || count == 1;
    if (decimals && byte_at(reader) == '.')
        good = take_decimals(reader, number) && good;
    if (!good || *number <= 0 || *number > LIMIT_FORMULA_NUMBER)
        return stop(reader, FORMULA_BAD_NUMBER, start, reader->at);
    return true;
}

/* ---- units, sequences, parts ----------------------------------------------------------------------------------- */

static void add_formula(struct formula *sum, const struct formula *more, double times)
{
    sum->mass += more->mass * times;
    for (uint32_t i = 0; i < LIMIT_NUTRIENTS; i++)
        sum->counted[i] += more->counted[i] * times;
}

static bool take_element(struct reader *reader, struct formula *unit)
{
    uint32_t start = reader->at++;
    while (byte_at(reader) >= 'a' && byte_at(reader) <= 'z')
        reader->at++;
    const struct element *element = reader->find(reader->context, (struct text){ reader->text.bytes + start, reader->at - start });
    if (!element)
        return stop(reader, FORMULA_UNKNOWN_ELEMENT, start, reader->at);
    unit->mass = element->weight;
    if (element->nutrient < LIMIT_NUTRIENTS)
        unit->counted[element->nutrient] = element->weight;
    return true;
}

static bool take_sequence(struct reader *reader, struct formula *sum);

/* What stands between parentheses or brackets. */
static bool take_group(struct reader *reader, struct formula *unit)
{
    uint32_t start = reader->at++;
    char closing = reader->text.bytes[start] == '(' ? ')' : ']';
    if (reader->depth == LIMIT_FORMULA_DEPTH)
        return stop(reader, FORMULA_TOO_DEEP, start, start + 1);
    reader->depth++;
    if (is_closing(byte_at(reader)))
        return stop(reader, FORMULA_EMPTY, start, reader->at + 1);
    if (!take_sequence(reader, unit))
        return false;
    if (byte_at(reader) != closing)
        return stop(reader, FORMULA_UNBALANCED, start, start + 1);
    reader->at++;
    reader->depth--;
    return true;
}

/* The bytes of the sign that cannot stand here; behind blanks it is a whole word, `purity` rather than its p. */
static bool stray(struct reader *reader)
{
    uint32_t start = reader->at;
    skip_blanks(reader);
    bool word = reader->at > start;
    start = reader->at;
    do {
        uint32_t length = utf8_length(reader->text.bytes + reader->at, reader->text.length - reader->at);
        reader->at += length ? length : 1;
    } while (word && reader->at < reader->text.length && byte_at(reader) != ' ' && byte_at(reader) != '\t');
    return stop(reader, FORMULA_STRAY, start, reader->at);
}

/* An element or a group, with its number; added to the sum. */
static bool take_unit(struct reader *reader, struct formula *sum)
{
    struct formula unit = { 0 };
    double number;
    char byte = byte_at(reader);
    if (byte == '(' || byte == '[') {
        if (!take_group(reader, &unit))
            return false;
    } else if (byte < 'A' || byte > 'Z') {
        return stray(reader);
    } else if (!take_element(reader, &unit)) {
        return false;
    }
    if (!take_number(reader, false, &number))
        return false;
    add_formula(sum, &unit, number);
    return true;
}

/* Blanks stand beside joints and at the ends only. */
static bool ends_sequence(struct reader *reader)
{
    uint32_t before = reader->at;
    skip_blanks(reader);
    bool ends = reader->at == reader->text.length || take_joint(reader);
    reader->at = before;
    return ends || is_closing(byte_at(reader));
}

/* Units up to a joint, a closing parenthesis or the end. */
static bool take_sequence(struct reader *reader, struct formula *sum)
{
    while (!ends_sequence(reader)) {
        if (!take_unit(reader, sum))
            return false;
    }
    return true;
}

/* `2H2O`. A closing parenthesis that ends it has no partner. */
static bool take_part(struct reader *reader, struct formula *sum)
{
    struct formula part = { 0 };
    double number;
    skip_blanks(reader);
    uint32_t start = reader->at;
    if (!take_number(reader, true, &number))
        return false;
    skip_blanks(reader);
    if (!take_sequence(reader, &part))
        return false;
    if (is_closing(byte_at(reader)))
        return stop(reader, FORMULA_UNBALANCED, reader->at, reader->at + 1);
    if (part.mass <= 0)
        return stop(reader, FORMULA_EMPTY, start, reader->at);
    add_formula(sum, &part, number);
    return true;
}

enum formula_trouble formula_read(struct text written, element_finder *find, const void *context,
                                  struct formula *formula, struct span *at)
{
    struct reader reader = { .text = written, .find = find, .context = context };
    bool good;
    *formula = (struct formula){ 0 };
    do {
        good = take_part(&reader, formula);
        skip_blanks(&reader);
    } while (good && take_joint(&reader));
    *at = reader.where;
    return reader.trouble;
}
