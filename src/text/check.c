/* One look over the whole file before it is scanned: what no text may hold becomes a finding and a blank, so
 * that the scanner never meets it. A byte-order mark at the start is a blank, too. */
#include <string.h>

#include "text/text.h"

static bool all_plain(const unsigned char *bytes, uint32_t length)
{
    for (uint32_t i = 0; i < length; i++) {
        if (bytes[i] >= 0x7f || (bytes[i] < 0x20 && bytes[i] != '\n' && bytes[i] != '\r' && bytes[i] != '\t'))
            return false;
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
    } else if (damage->count++ < LIMIT_FINDINGS_PER_FILE) {
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
