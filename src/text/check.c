/* One look over the whole file before it is scanned: what no text may hold becomes a finding and a blank, so
 * that the scanner never meets it. A byte-order mark at the start is a blank, too. */
#include <string.h>

#include "text/text.h"

#define EACH(byte) (UINT64_C(0x0101010101010101) * (byte))

/* Whether one of eight bytes is below 0x20, above 0x7e, or may be: line ends and tabs are looked at one by one. */
static bool may_be_bad(uint64_t piece)
{
    uint64_t below = (piece - EACH(0x20)) & ~piece, above = piece + EACH(0x01);
    return ((below | above | piece) & EACH(0x80)) != 0;
}

static bool is_plain(unsigned char byte)
{
    return (byte >= 0x20 && byte < 0x7f) || byte == '\n' || byte == '\r' || byte == '\t';
}

static bool all_plain(const unsigned char *bytes, uint32_t length)
{
    uint32_t at = 0;
    while (at < length) {
        uint64_t piece;
        uint32_t end = length - at < 8 ? length : at + 8;
        if (length - at >= 8) {
            memcpy(&piece, bytes + at, 8);
            if (!may_be_bad(piece)) {
                at += 8;
                continue;
            }
        }
        for (; at < end; at++) {
            if (!is_plain(bytes[at]))
                return false;
        }
    }
    return true;
}

/* Bad bytes that follow each other are one finding. */
struct damage {
    struct parse *parse;
    char *bytes;
    uint32_t end;           /* where the last finding's run ended */
    uint32_t count;
    struct finding *finding;
};

static void report(struct damage *damage, uint32_t at, uint32_t length, enum words_code code)
{
    char shown[16];
    uint32_t value = code == FINDING_BAD_UTF8 ? (unsigned char)damage->bytes[at]
                                              : utf8_code_point(damage->bytes + at, length);
    if (damage->finding && damage->end == at && damage->finding->words.code == code) {
        damage->finding->place.span.end = at + length;
    } else if (damage->count++ < LIMIT_DAMAGE_TOLD) {
        snprintf(shown, sizeof shown, code == FINDING_BAD_UTF8 ? "%02X" : "U+%04X", value);
        damage->finding = finding_add(damage->parse->findings, code,
                                      (struct place){ damage->parse->file, { at, at + length } }, GAPS(text_of(shown)));
    }
    damage->end = at + length;
    memset(damage->bytes + at, ' ', length);
}

void text_check(struct parse *parse, char *bytes, uint32_t length)
{
    struct damage damage = { .parse = parse, .bytes = bytes };
    if (all_plain((const unsigned char *)bytes, length))
        return;
    if (length >= 3 && memcmp(bytes, "\xef\xbb\xbf", 3) == 0)
        memset(bytes, ' ', 3);
    for (uint32_t at = 0; at < length;) {
        uint32_t size = utf8_length(bytes + at, length - at);
        if (size == 0)
            report(&damage, at, 1, FINDING_BAD_UTF8);
        else if (utf8_is_forbidden(utf8_code_point(bytes + at, size)))
            report(&damage, at, size, FINDING_BAD_CHARACTER);
        at += size ? size : 1;
    }
}
