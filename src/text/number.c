/* Written numbers: `2`, `0.5`, `1/2`, `1 1/2`, `1-1/2`, `½`, `1½`. A number that cannot be is a finding and
 * has no value (NaN): all that is computed from it stays silent. */
#include <math.h>
#include <string.h>

#include "text/scan.h"

/* Twelve values of the code points U+2150 to U+215E, and of U+00BC to U+00BE before them. */
static double vulgar_value(uint32_t code_point)
{
    static const double values[] = { 1.0 / 7, 1.0 / 9, 1.0 / 10, 1.0 / 3, 2.0 / 3, 1.0 / 5, 2.0 / 5, 3.0 / 5,
                                     4.0 / 5, 1.0 / 6, 5.0 / 6,  1.0 / 8, 3.0 / 8, 5.0 / 8, 7.0 / 8 };
    if (code_point >= 0xbc && code_point <= 0xbe)
        return (code_point - 0xbb) / 4.0;
    return code_point >= 0x2150 && code_point <= 0x215e ? values[code_point - 0x2150] : 0;
}

struct reading {
    const char *at, *end;
    uint32_t digits;
};

static double read_digits(struct reading *reading)
{
    double value = 0;
    for (; reading->at < reading->end && *reading->at >= '0' && *reading->at <= '9'; reading->at++) {
        value = value * 10 + (*reading->at - '0');
        reading->digits += value != 0;
    }
    return value;
}

/* Whole and decimal digits as one whole number over a power of ten: the nearest double to what is written. */
static double read_decimal(struct reading *reading)
{
    double value = read_digits(reading), power = 1;
    if (reading->at + 1 >= reading->end || *reading->at != '.')
        return value;
    for (reading->at++; reading->at < reading->end && *reading->at >= '0' && *reading->at <= '9'; reading->at++) {
        value = value * 10 + (*reading->at - '0');
        power *= 10;
        reading->digits += value != 0;
    }
    return value / power;
}

static void skip_to_digit(struct reading *reading)
{
    while (reading->at < reading->end && (*reading->at < '0' || *reading->at > '9'))
        reading->at++;
}

static const char *find_slash(const char *at, const char *end)
{
    for (; at < end; at++) {
        if (*at == '/' || (end - at > 2 && memcmp(at, "\xe2\x81\x84", 3) == 0))
            return at;
    }
    return NULL;
}

static double bad_number(struct parse *parse, enum words_code code, struct span span)
{
    struct text text = span_text(parse->text, span);
    finding_add(parse->findings, code, (struct place){ parse->file, span }, GAPS(text));
    return NAN;
}

/* `2,300` may be two thousand three hundred or a European two point three: both are offered, neither is taken. */
static double comma_number(struct parse *parse, struct span span)
{
    struct text text = span_text(parse->text, span);
    char joined[64], pointed[64];
    uint32_t used = 0;
    const char *comma = memchr(text.bytes, ',', text.length);
    bool three = text.bytes + text.length - comma == 4;
    for (uint32_t i = 0; i < text.length && used < sizeof joined - 1; i++) {
        if (text.bytes[i] != ',')
            joined[used++] = text.bytes[i];
    }
    joined[used] = '\0';
    snprintf(pointed, sizeof pointed, "%.*s.%.*s", (int)(comma - text.bytes), text.bytes,
             (int)(text.bytes + text.length - comma - 1), comma + 1);
    finding_add(parse->findings, three ? FINDING_DIGIT_COMMA_THREE : FINDING_DIGIT_COMMA,
                (struct place){ parse->file, span }, GAPS(text, text_of(joined), text_of(pointed)));
    return NAN;
}

/* `1.2.3`, `1e5`, `.5` and the like; NaN after a finding, 0 when the form is fine. */
static double check_form(struct parse *parse, struct span span, struct text text)
{
    uint32_t points = 0;
    for (uint32_t i = 0; i < text.length; i++) {
        char byte = text.bytes[i];
        points += byte == '.';
        if (byte == ',')
            return comma_number(parse, span);
        if (byte == 'e' || byte == 'E')
            return bad_number(parse, FINDING_NUMBER_FORM, span);
    }
    if (text.bytes[0] == '.') {
        double nothing = bad_number(parse, FINDING_NUMBER_POINT, span);
        char fixed[64];
        snprintf(fixed, sizeof fixed, "0%.*s", (int)text.length, text.bytes);
        finding_fix(parse->findings, parse->findings->last, (struct place){ parse->file, span }, text_of(fixed),
                    WORDS_FIX_WRITE, GAPS(text_of(fixed)));
        return nothing;
    }
    return points > 1 ? bad_number(parse, FINDING_NUMBER_FORM, span) : 0;
}

static double read_fraction(struct parse *parse, struct reading *reading, struct span span)
{
    double over = read_digits(reading);
    skip_to_digit(reading);
    double under = read_digits(reading);
    return under == 0 ? bad_number(parse, FINDING_DIVISION_BY_ZERO, span) : over / under;
}

static double read_number(struct parse *parse, struct reading *reading, struct span span)
{
    const char *slash = find_slash(reading->at, reading->end);
    double whole = 0;
    if (slash) {
        struct reading first = *reading;
        read_digits(&first);
        if (first.at != slash) {            /* digits, then something else before the slash: a mixed number */
            whole = read_digits(reading);
            skip_to_digit(reading);
        }
        return whole + read_fraction(parse, reading, span);
    }
    if ((unsigned char)*reading->at < 0x80)
        whole = read_decimal(reading);
    while (reading->at < reading->end) {    /* a fraction in one character, perhaps after blanks */
        uint32_t length = utf8_length(reading->at, (size_t)(reading->end - reading->at));
        whole += vulgar_value(utf8_code_point(reading->at, length));
        reading->at += length ? length : 1;
    }
    return whole;
}

double number_value(struct parse *parse, uint32_t start, uint32_t length)
{
    struct span span = { start, start + length };
    struct text text = span_text(parse->text, span);
    if (text.length && text.bytes[text.length - 1] == '%')
        text.length--;
    if (isnan(check_form(parse, span, text)))
        return NAN;
    struct reading reading = { text.bytes, text.bytes + text.length, 0 };
    double value = read_number(parse, &reading, span);
    if (value > LIMIT_NUMBER || reading.digits > LIMIT_NUMBER_DIGITS) {
        text.length = text.length > 24 ? 24 : text.length;
        finding_add(parse->findings, FINDING_NUMBER_TOO_LARGE, (struct place){ parse->file, span }, GAPS(text));
        return NAN;
    }
    return length > text.length ? value / 100 : value;
}

static uint32_t digits_at(const char *text, uint32_t at, uint32_t length, double *value)
{
    *value = 0;
    while (at < length && text[at] >= '0' && text[at] <= '9')
        *value = *value * 10 + (text[at++] - '0');
    return at;
}

uint32_t scan_mixed_length(struct parse *parse, const char *text, uint32_t length)
{
    double whole, over, under;
    uint32_t end = digits_at(text, 0, length, &whole), at = end;
    while (at < length && (text[at] < '0' || text[at] > '9'))
        at++;
    at = digits_at(text, at, length, &over);
    while (at < length && (text[at] < '0' || text[at] > '9'))
        at++;
    digits_at(text, at, length, &under);
    if (over < under || under == 0)
        return length;
    parse->scanned = parse->token_start + end;
    return end;
}
