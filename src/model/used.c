/* What a kitchen takes in from elsewhere: text files, and one library pack. */
#include <errno.h>
#include <string.h>
#include <sys/stat.h>

#include "model/folder.h"
#include "model/model.h"

static void fail_use(struct kitchen *kitchen, enum words_code code, const struct follow *use, const char *why)
{
    finding_add(&kitchen->gatherings[0].findings, code, use->place, GAPS(use->name, text_of(why)));
}

/* What is not there is a mistake of the text; what is there and cannot be read leaves the work undone. */
static void note_unread(struct kitchen *kitchen, enum status status, const char *path)
{
    if (status != STATUS_IO || errno == ENOENT || errno == ENOTDIR || kitchen->unread_path)
        return;
    kitchen->unread_path = path;
    kitchen->unread_reason = errno;
}

/* `use "shop.pack"`: the pack lies between the library and what the kitchen declares itself. */
static void use_pack(struct kitchen *kitchen, const struct follow *use, const char *path)
{
    if (kitchen->used_pack.bytes) {
        fail_use(kitchen, FINDING_SECOND_PACK, use, "");
        return;
    }
    enum status status = file_map(path, LIMIT_PACK_BYTES, &kitchen->used_pack);
    if (status != STATUS_OK) {
        note_unread(kitchen, status, path);
        fail_use(kitchen, FINDING_BAD_USED_PACK, use, status == STATUS_LIMIT ? "it is larger than 4 GiB" : strerror(errno));
        return;
    }
    enum pack_trouble trouble = pack_verify_head(kitchen->used_pack.bytes, kitchen->used_pack.size, kitchen->stdlib);
    if (trouble != PACK_SOUND) {
        fail_use(kitchen, FINDING_BAD_USED_PACK, use, pack_trouble_words(trouble));
        file_unmap(&kitchen->used_pack);
        return;
    }
    library_view(&kitchen->used, kitchen->used_pack.bytes, kitchen->stdlib);
    kitchen->used.is_mapped = true;
    kitchen->below = kitchen->library = &kitchen->used;
}

static bool is_pack_name(struct text name)
{
    return name.length > 5 && memcmp(name.bytes + name.length - 5, ".pack", 5) == 0;
}

/* `use "pantry/shop-labels.quern"`: a file from elsewhere joins the kitchen; its own findings are not asked for. */
static bool use_text(struct kitchen *kitchen, const struct follow *use, const char *path)
{
    struct stat facts;
    bool is_there = stat(path, &facts) == 0;
    if (!is_there)
        note_unread(kitchen, STATUS_IO, path);
    if (!is_there || !S_ISREG(facts.st_mode)) {
        fail_use(kitchen, FINDING_MISSING_USED_FILE, use, strerror(errno));
        return true;
    }
    if (!kitchen_add_file(kitchen, path, false, false))
        return false;
    kitchen->files[kitchen->files_count - 1].is_used = true;
    return true;
}

/* A kitchen reads below its own folder, or the folder of a file on its own, and where it was allowed to on the command line; links
 * are followed first. What is not there is told as missing. */
static bool may_use(struct kitchen *kitchen, const char *folder, const char *path)
{
    enum path_place place = path_place(path, kitchen->root ? kitchen->root : folder);
    for (size_t i = 0; place == PATH_OUTSIDE && i < kitchen->allowed_count; i++) {
        enum path_place allowed = path_place(path, kitchen->allowed[i]);
        place = allowed == PATH_MISSING ? PATH_OUTSIDE : allowed;
    }
    if (place == PATH_UNTOLD)
        note_unread(kitchen, STATUS_IO, path);
    return place == PATH_MISSING || place == PATH_WITHIN;
}

enum status kitchen_add_used(struct kitchen *kitchen)
{
    for (uint32_t i = 0; i < kitchen->uses_count; i++) {
        const struct follow *use = &kitchen->uses[i];
        const char *from = kitchen->files[use->place.file].path, *slash = strrchr(from, '/');
        int folder = slash ? (int)(slash - from + 1) : 0;
        if (use->name.length == 0 || use->name.bytes[0] == '/') {
            fail_use(kitchen, FINDING_USE_OUTSIDE, use, "");
            continue;
        }
        const char *within = folder ? arena_copy(&kitchen->arena, from, (size_t)folder) : ".";
        char *path = arena_print(&kitchen->arena, "%.*s%.*s", folder, from, (int)use->name.length, use->name.bytes);
        if (!path || !within)
            return STATUS_NO_MEMORY;
        if (!may_use(kitchen, within, path)) {
            fail_use(kitchen, FINDING_USE_NOT_ALLOWED, use, "");
            continue;
        }
        if (is_pack_name(use->name))
            use_pack(kitchen, use, path);
        else if (!use_text(kitchen, use, path))
            return STATUS_NO_MEMORY;
    }
    return STATUS_OK;
}

/* The declaration of rules in a file taken in by `use` that the place lies in and that the kitchen follows, or NULL. */
static const struct declaration *followed_rules_at(const struct kitchen *kitchen, const struct declaration *declarations, struct place place)
{
    char followed[KEY_BYTES], key[KEY_BYTES];
    struct text wanted = { followed, name_key_of(kitchen->rules_name, false, followed) };
    for (const struct declaration *at = declarations; at; at = at->next) {
        const struct item *word = at->node->items.first;
        if (at->file != place.file || place.span.start < at->node->span.start || place.span.start > at->node->span.end
            || !library_takes_rules(at) || !word->next)
            continue;
        struct span name = { word->next->span.start, at->node->items.last->span.end };
        if (text_equal((struct text){ key, name_key_of(span_text(at->text, name), false, key) }, wanted))
            return at;
    }
    return NULL;
}

void kitchen_tell_used_rules(struct kitchen *kitchen, const struct declaration *declarations)
{
    if (!kitchen->rules_said || !kitchen->uses_count)
        return;
    for (uint32_t i = 0; i < kitchen->gatherings_count; i++) {
        struct findings *findings = &kitchen->gatherings[i].findings;
        for (struct finding *at = findings->first; at; at = at->next) {
            if (at->place.file == FILE_NONE || !kitchen->files[at->place.file].is_used || !followed_rules_at(kitchen, declarations, at->place))
                continue;
            finding_label(findings, at, at->place, WORDS_USED_RULES_HERE, GAPS(kitchen->rules_name));
            at->place = kitchen->rules_place;
        }
    }
}
