/* Names of tables as bare words of our language: punctuation becomes blanks, and what the language would read as
 * something else is parted: long numbers, `1e3`, `1.5.2`, `6 to 5`, a fraction with nothing below its line. */
#include <string.h>

#include "import/parts.h"

#define WORD_BYTES 60
#define NUMBER_DIGITS 9             /* in a row; LIMIT_NUMBER has one more */
#define FRACTION_DIGITS 3

struct wording {
    struct buffer *buffer;
    size_t start;                   /* of all words, in the buffer */
    size_t word;                    /* where the last one begins */
    uint32_t count, run;            /* words; digits in a row */
    bool open, is_number, marked;   /* in a word; only digits so far; with a point or a line in it */
    bool after_number;              /* the word before is a number */
};

static bool is_digit(char byte)
{
    return byte >= '0' && byte <= '9';
}

static void end_word(struct wording *wording)
{
    struct buffer *buffer = wording->buffer;
    if (!wording->open || buffer->failed)
        return;
    bool is_to = buffer->length - wording->word == 2 && memcmp(buffer->bytes + wording->word, "to", 2) == 0;
    wording->open = false;
    if (wording->after_number && is_to) {           /* between numbers it would be a range */
        buffer->length = wording->word - 1;
        wording->count--;
        return;
    }
    wording->after_number = is_digit(buffer->bytes[wording->word]);
}

static void begin_word(struct wording *wording, bool is_number)
{
    if (wording->buffer->length > wording->start)
        buffer_add(wording->buffer, " ", 1);
    wording->word = wording->buffer->length;
    wording->count++;
    wording->open = true;
    wording->is_number = is_number;
    wording->marked = false;
    wording->run = 0;
}

static void add_digit(struct wording *wording, char byte)
{
    if (wording->open && wording->is_number && wording->run == NUMBER_DIGITS)
        end_word(wording);
    if (!wording->open)
        begin_word(wording, true);
    buffer_add(wording->buffer, &byte, 1);
    wording->run++;
}

static void add_letter(struct wording *wording, const char *bytes, uint32_t length)
{
    bool is_long = wording->open && wording->buffer->length - wording->word + length > WORD_BYTES;
    if (is_long || (wording->open && wording->is_number))
        end_word(wording);
    if (!wording->open)
        begin_word(wording, false);
    buffer_add(wording->buffer, bytes, length);
}

/* `1.5`, `80/20`: the sign at `at` stands between two plain numbers. */
static bool joins_numbers(const struct wording *wording, struct text text, uint32_t at)
{
    uint32_t digits = 0;
    bool above_zero = false;
    if (!wording->open || !wording->is_number || wording->marked || wording->run > FRACTION_DIGITS)
        return false;
    for (uint32_t next = at + 1; next < text.length && is_digit(text.bytes[next]); next++) {
        digits++;
        above_zero = above_zero || text.bytes[next] != '0';
    }
    return digits > 0 && digits <= FRACTION_DIGITS && (text.bytes[at] == '.' || above_zero);
}

static void add_sign(struct wording *wording, struct text text, uint32_t at)
{
    char byte = text.bytes[at];
    bool is_share = byte == '%' && wording->open && wording->is_number;
    if (byte == '\'' && wording->open && !wording->is_number)
        return;                                     /* cook's: the library leaves it out of keys, too */
    if ((byte == '.' || byte == '/') && joins_numbers(wording, text, at)) {
        buffer_add(wording->buffer, &byte, 1);
        wording->marked = true;
        wording->run = 0;
        return;
    }
    if (is_share)
        buffer_add(wording->buffer, &byte, 1);
    end_word(wording);
}

static void add_wide(struct wording *wording, const char *bytes, uint32_t size)
{
    char lowered[4];
    bool is_mark;
    uint32_t length = utf8_lower(bytes, size, lowered, &is_mark);
    bool is_apostrophe = size == 3 && memcmp(bytes, "\xe2\x80\x99", 3) == 0;
    if (length > 0 && (!is_mark || (wording->open && !wording->is_number)))
        add_letter(wording, lowered, length);
    else if (!(is_apostrophe && wording->open && !wording->is_number))
        end_word(wording);
}

uint32_t words_add(struct buffer *buffer, struct text text, uint32_t most)
{
    struct wording wording = { .buffer = buffer, .start = buffer->length };
    for (uint32_t at = 0; at < text.length && !buffer->failed;) {
        char byte = text.bytes[at];
        size_t before = buffer->length;
        uint32_t size = utf8_length(text.bytes + at, text.length - at);
        char lower = byte >= 'A' && byte <= 'Z' ? (char)(byte + 'a' - 'A') : byte;
        if (size > 1)
            add_wide(&wording, text.bytes + at, size);
        else if (is_digit(byte))
            add_digit(&wording, byte);
        else if (lower >= 'a' && lower <= 'z')
            add_letter(&wording, &lower, 1);
        else
            add_sign(&wording, text, at);
        at += size ? size : 1;
        if (wording.count > most) {
            buffer->length = before;
            return most;
        }
    }
    end_word(&wording);
    return wording.count;
}

void words_add_quoted(struct buffer *buffer, struct text text, uint32_t most)
{
    size_t start = buffer->length;
    for (uint32_t at = 0; at < text.length;) {
        uint32_t size = utf8_length(text.bytes + at, text.length - at);
        uint32_t code_point = size ? utf8_code_point(text.bytes + at, size) : 0;
        bool is_quote = code_point == '"' || (code_point >= 0x2018 && code_point <= 0x201f) || code_point == 0xab || code_point == 0xbb;
        bool is_gap = code_point <= ' ' || !utf8_is_printable(code_point) || is_quote;
        if (buffer->length - start + size > most)
            break;
        if (!is_gap)
            buffer_add(buffer, text.bytes + at, size);
        else if (buffer->length > start && buffer->bytes[buffer->length - 1] != ' ')
            buffer_add(buffer, " ", 1);
        at += size ? size : 1;
    }
    while (buffer->length > start && buffer->bytes[buffer->length - 1] == ' ')
        buffer->length--;
}

bool words_decode(struct buffer *buffer, struct text text, bool latin_1)
{
    for (uint32_t at = 0; at < text.length;) {
        unsigned char byte = (unsigned char)text.bytes[at];
        uint32_t size = latin_1 ? 1 : utf8_length(text.bytes + at, text.length - at);
        if (size == 0)
            return false;
        if (latin_1 && byte >= 0x80) {
            char two[2] = { (char)(0xc0 | byte >> 6), (char)(0x80 | (byte & 0x3f)) };
            buffer_add(buffer, two, 2);
        } else {
            buffer_add(buffer, text.bytes + at, size);
        }
        at += size;
    }
    return true;
}

bool words_fit(struct buffer *name, size_t start)
{
    char key[KEY_BYTES];
    while (name->length > start) {
        struct text text = { name->bytes + start, (uint32_t)(name->length - start) };
        if (name_key_of(text, false, key) > 0)
            return true;
        while (name->length > start && name->bytes[name->length - 1] != ' ')
            name->length--;
        while (name->length > start && name->bytes[name->length - 1] == ' ')
            name->length--;
    }
    return false;
}
