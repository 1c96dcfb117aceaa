/* Numbers of cells, and how they are written in our language: plain digits, at most 15 of them. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "import/parts.h"

#define EXACT_POWERS 22             /* powers of ten up to this one are exact in a double */
#define DIGITS_MOST 60

static const double powers[EXACT_POWERS + 1] = {
    1, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15, 1e16, 1e17, 1e18, 1e19, 1e20,
    1e21, 1e22,
};

struct text text_trimmed(struct text text)
{
    while (text.length && (*text.bytes == ' ' || *text.bytes == '\t'))
        text.bytes++, text.length--;
    while (text.length && (text.bytes[text.length - 1] == ' ' || text.bytes[text.length - 1] == '\t'))
        text.length--;
    return text;
}

struct digits {
    uint64_t mantissa;
    int exponent;
    uint32_t count;                 /* digits that count */
    bool any;
};

static uint32_t read_digits(struct digits *digits, struct text text, uint32_t at, bool behind_point)
{
    for (; at < text.length && text.bytes[at] >= '0' && text.bytes[at] <= '9'; at++) {
        digits->any = true;
        digits->count += digits->count > 0 || text.bytes[at] != '0';
        if (digits->count <= 18)
            digits->mantissa = digits->mantissa * 10 + (uint64_t)(text.bytes[at] - '0');
        digits->exponent -= behind_point;
    }
    return at;
}

/* [e [+|-] digits]; the place behind it, or 0 where it is none. */
static uint32_t read_exponent(struct digits *digits, struct text text, uint32_t at)
{
    bool negative = at + 1 < text.length && text.bytes[at + 1] == '-';
    uint32_t first = at + 1 + (at + 1 < text.length && (text.bytes[at + 1] == '-' || text.bytes[at + 1] == '+'));
    int value = 0;
    for (at = first; at < text.length && text.bytes[at] >= '0' && text.bytes[at] <= '9'; at++)
        value = value < 10000 ? value * 10 + (text.bytes[at] - '0') : value;
    digits->exponent += negative ? -value : value;
    return at > first ? at : 0;
}

/* The nearest double: by hand where both parts are exact, else by the C library. */
static double digits_value(const struct digits *digits, struct text text, uint32_t first, bool comma)
{
    char copy[DIGITS_MOST + 1];
    if (digits->count <= 15 && digits->exponent >= -EXACT_POWERS && digits->exponent <= 0)
        return (double)digits->mantissa / powers[-digits->exponent];
    if (text.length - first > DIGITS_MOST)
        return HUGE_VAL;
    memcpy(copy, text.bytes + first, text.length - first);
    copy[text.length - first] = '\0';
    char *point = comma ? strchr(copy, ',') : NULL;
    if (point)
        *point = '.';
    return strtod(copy, NULL);
}

enum cell number_read(struct text text, bool comma, double *value)
{
    struct digits digits = { 0 };
    text = text_trimmed(text);
    *value = 0;
    if (text.length == 0)
        return CELL_EMPTY;
    bool negative = text.bytes[0] == '-';
    uint32_t first = negative || text.bytes[0] == '+';
    uint32_t at = read_digits(&digits, text, first, false);
    if (at < text.length && text.bytes[at] == (comma ? ',' : '.'))
        at = read_digits(&digits, text, at + 1, true);
    if (digits.any && at < text.length && (text.bytes[at] | 0x20) == 'e')
        at = read_exponent(&digits, text, at);
    if (!digits.any || at != text.length)
        return CELL_WORDS;
    if (negative)
        return CELL_NEGATIVE;
    *value = digits_value(&digits, text, first, comma);
    return *value <= LIMIT_NUMBER && (*value >= 1e-30 || digits.count == 0) ? CELL_NUMBER : CELL_ABSURD;
}

double number_rounded(double value)
{
    char digits[40];
    snprintf(digits, sizeof digits, "%.12g", value);
    return strtod(digits, NULL);
}

/* Few decimals: the integer behind the shifted point, if it stands for exactly this number. */
static bool add_short(struct buffer *buffer, double value)
{
    for (int decimals = 0; decimals <= 6; decimals++) {
        if (value * powers[decimals] >= 1e15)
            return false;
        uint64_t whole = (uint64_t)(value * powers[decimals] + 0.5);
        if ((double)whole / powers[decimals] != value)
            continue;
        char digits[24];
        int at = sizeof digits, behind = decimals;
        do {
            digits[--at] = (char)('0' + whole % 10);
            whole /= 10;
            if (--behind == 0)
                digits[--at] = '.';
        } while (whole > 0 || behind >= 0);
        buffer_add(buffer, digits + at, sizeof digits - (size_t)at);
        return true;
    }
    return false;
}

void number_add(struct buffer *buffer, double value)
{
    char digits[128];
    if (add_short(buffer, value))
        return;
    int exponent = amount_decade(value);
    int decimals = 14 - exponent > 0 ? 14 - exponent : 0;
    int length = snprintf(digits, sizeof digits, "%.*f", decimals, value);
    while (decimals > 0 && length > 0 && digits[length - 1] == '0')
        length--;
    buffer_add(buffer, digits, (size_t)length);
}
