/* UTF-8: validity, widths and the folding that makes `Jalapeño` and `jalapeno` one word. The tables are
 * utf8proc's (docs/decisions/libraries.md); plain ASCII never asks it. */
#include <string.h>
#include <utf8proc.h>

#include "base/base.h"

uint32_t utf8_length(const char *bytes, size_t size)
{
    utf8proc_int32_t code_point;
    if (size > 0 && (unsigned char)bytes[0] < 0x80)
        return 1;
    utf8proc_ssize_t length = utf8proc_iterate((const utf8proc_uint8_t *)bytes,
                                               (utf8proc_ssize_t)(size < 4 ? size : 4), &code_point);
    return length > 0 ? (uint32_t)length : 0;
}

uint32_t utf8_code_point(const char *bytes, uint32_t length)
{
    utf8proc_int32_t code_point = 0;
    utf8proc_iterate((const utf8proc_uint8_t *)bytes, (utf8proc_ssize_t)length, &code_point);
    return code_point < 0 ? 0xfffd : (uint32_t)code_point;
}

bool utf8_is_forbidden(uint32_t code_point)
{
    if (code_point < 0x20)
        return code_point != '\t' && code_point != '\n' && code_point != '\r';
    if (code_point >= 0x7f && code_point <= 0x9f)
        return true;
    return (code_point >= 0x202a && code_point <= 0x202e) || (code_point >= 0x2066 && code_point <= 0x2069)
        || code_point == 0x200e || code_point == 0x200f || code_point == 0x061c;
}

bool utf8_is_printable(uint32_t code_point)
{
    bool unseen = code_point == 0x200b || (code_point >= 0x2060 && code_point <= 0x206f) || code_point == 0xfeff
               || code_point == 0x180e || code_point == 0xad || (code_point >= 0xe0000 && code_point <= 0xe007f)
               || (code_point >= 0xfff9 && code_point <= 0xfffb);
    return !unseen && !utf8_is_forbidden(code_point);
}

int utf8_width(uint32_t code_point)
{
    return code_point < 0x80 ? 1 : utf8proc_charwidth((utf8proc_int32_t)code_point);
}

static bool is_dropped(uint32_t code_point)
{
    return code_point == '\'' || code_point == 0x2019 || code_point == 0x2018
        || code_point == '.';
}

/* Letters of one code point without their marks; at most four code points come out of it. */
static int fold_code_point(uint32_t code_point, utf8proc_int32_t *folded)
{
    int boundary = 0;
    utf8proc_option_t options = UTF8PROC_DECOMPOSE | UTF8PROC_CASEFOLD | UTF8PROC_STRIPMARK;
    utf8proc_ssize_t count =
        utf8proc_decompose_char((utf8proc_int32_t)code_point, folded, 4, options, &boundary);
    return count < 0 ? 0 : count > 4 ? 4 : (int)count;
}

static uint32_t fold_wide(const char *bytes, uint32_t length, char *folded, uint32_t capacity)
{
    utf8proc_int32_t points[4];
    uint32_t code_point = utf8_code_point(bytes, length), used = 0;
    if (is_dropped(code_point))
        return 0;
    int count = fold_code_point(code_point, points);
    for (int i = 0; i < count; i++) {
        utf8proc_uint8_t encoded[4];
        uint32_t size = (uint32_t)utf8proc_encode_char(points[i], encoded);
        if (used + size > capacity)
            return UINT32_MAX;
        memcpy(folded + used, encoded, size);
        used += size;
    }
    return used;
}

static char fold_ascii(char byte)
{
    return byte >= 'A' && byte <= 'Z' ? (char)(byte + 'a' - 'A') : byte;
}

uint32_t utf8_fold(const char *bytes, uint32_t length, char *folded, uint32_t capacity)
{
    uint32_t used = 0;
    for (uint32_t at = 0; at < length;) {
        uint32_t size = utf8_length(bytes + at, length - at);
        if (size == 0 || used == capacity)
            return 0;
        uint32_t wide = size > 1 ? fold_wide(bytes + at, size, folded + used, capacity - used) : 0;
        if (wide == UINT32_MAX)
            return 0;
        used += wide;
        if (size == 1 && !is_dropped((unsigned char)bytes[at]))
            folded[used++] = fold_ascii(bytes[at]);
        at += size;
    }
    return used;
}

uint32_t utf8_lower(const char *bytes, uint32_t length, char *lowered, bool *is_mark)
{
    utf8proc_int32_t code_point = (utf8proc_int32_t)utf8_code_point(bytes, length);
    utf8proc_category_t category = utf8proc_category(code_point);
    bool is_letter = category >= UTF8PROC_CATEGORY_LU && category <= UTF8PROC_CATEGORY_LO;
    *is_mark = category >= UTF8PROC_CATEGORY_MN && category <= UTF8PROC_CATEGORY_ME;
    if (!is_letter && !*is_mark)
        return 0;
    return (uint32_t)utf8proc_encode_char(utf8proc_tolower(code_point), (utf8proc_uint8_t *)lowered);
}

static void add_visible(struct buffer *buffer, struct text text, bool lines)
{
    for (uint32_t at = 0; at < text.length;) {
        uint32_t size = utf8_length(text.bytes + at, text.length - at);
        bool plain = size > 0 && utf8_is_printable(utf8_code_point(text.bytes + at, size));
        if (plain && (lines || (text.bytes[at] != '\n' && text.bytes[at] != '\r')))
            buffer_add(buffer, text.bytes + at, size);
        else
            buffer_add_string(buffer, "\xef\xbf\xbd");
        at += size ? size : 1;
    }
}

void buffer_add_visible(struct buffer *buffer, struct text text)
{
    add_visible(buffer, text, false);
}

void buffer_add_visible_lines(struct buffer *buffer, struct text text)
{
    add_visible(buffer, text, true);
}

void buffer_add_json(struct buffer *buffer, struct text json)
{
    uint32_t from = 0;
    for (uint32_t at = 0; at < json.length;) {
        uint32_t size = utf8_length(json.bytes + at, json.length - at), code_point = size ? utf8_code_point(json.bytes + at, size) : 0;
        if (size && utf8_is_printable(code_point)) {
            at += size;
            continue;
        }
        buffer_add(buffer, json.bytes + from, at - from);
        if (code_point > 0xffff)
            buffer_print(buffer, "\\u%04x\\u%04x", 0xd800 + ((code_point - 0x10000) >> 10), 0xdc00 + ((code_point - 0x10000) & 0x3ff));
        else
            buffer_print(buffer, "\\u%04x", size ? code_point : 0xfffd);
        at += size ? size : 1;
        from = at;
    }
    buffer_add(buffer, json.bytes + from, json.length - from);
}
