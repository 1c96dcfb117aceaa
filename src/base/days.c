/* Days of the calendar that is used nearly everywhere (ISO 8601), counted from 1 January 1970. */
#include <stdio.h>
#include <string.h>

#include "base/base.h"

static bool is_leap(uint32_t year)
{
    return (year % 4 == 0 && year % 100 != 0) || year % 400 == 0;
}

static uint32_t month_days(uint32_t year, uint32_t month)
{
    static const uint8_t days[] = { 31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31 };
    return days[month - 1] + (month == 2 && is_leap(year));
}

static bool read_digits(const char *bytes, uint32_t count, uint32_t *value)
{
    *value = 0;
    for (uint32_t i = 0; i < count; i++) {
        if (bytes[i] < '0' || bytes[i] > '9')
            return false;
        *value = *value * 10 + (uint32_t)(bytes[i] - '0');
    }
    return true;
}

uint32_t day_of(struct text date)
{
    uint32_t year, month, day, count = 0;
    if (date.length != 10 || date.bytes[4] != '-' || date.bytes[7] != '-' || !read_digits(date.bytes, 4, &year)
        || !read_digits(date.bytes + 5, 2, &month) || !read_digits(date.bytes + 8, 2, &day))
        return 0;
    if (year < 1971 || month < 1 || month > 12 || day < 1 || day > month_days(year, month))
        return 0;
    for (uint32_t at = 1970; at < year; at++)
        count += is_leap(at) ? 366 : 365;
    for (uint32_t at = 1; at < month; at++)
        count += month_days(year, at);
    return count + day - 1;
}

struct text day_print(uint32_t day, char *storage, size_t size)
{
    uint32_t year = 1970, month = 1;
    for (; day >= (is_leap(year) ? 366u : 365u); year++)
        day -= is_leap(year) ? 366 : 365;
    for (; day >= month_days(year, month); month++)
        day -= month_days(year, month);
    int length = snprintf(storage, size, "%04u-%02u-%02u", year, month, day + 1);
    return (struct text){ storage, (uint32_t)length };
}
