#include "json_read.h"
#include "store_fail.h"
#include <math.h>
#include <string.h>

WbJsonReader wb_json_begin(const char *file)
{
    return (WbJsonReader){.file = file, .asked = wb_json_asked_new()};
}

/* Only now it is known which members of the object are read, and so which may be a slip. */
static void add_similar(WbJsonReader *reader)
{
    const char *similar =
        reader->missing_parent
            ? wb_json_asked_similar(reader->asked, reader->missing_parent, reader->missing_key)
            : NULL;
    if (!similar)
        return;
    g_autofree char *written = wb_json_shorten(similar);
    g_autofree char *old = reader->error->message;
    old[strlen(old) - 1] = '\0'; /* its full stop */
    reader->error->message =
        g_strdup_printf("%s; \"%s\" stands there and may be meant for it.", old, written);
}

gboolean wb_json_end(WbJsonReader *reader, const cJSON *tree, GPtrArray **rest, GError **error)
{
    gboolean done = reader->error == NULL;
    if (done && rest)
        *rest = wb_json_asked_rest(reader->asked, tree);
    if (!done) {
        add_similar(reader);
        g_propagate_error(error, g_steal_pointer(&reader->error));
    }
    g_clear_pointer(&reader->asked, g_hash_table_unref);
    return done;
}

WbJson wb_json_root(WbJsonReader *reader, const cJSON *tree)
{
    return (WbJson){.reader = reader, .item = tree};
}

WbJson wb_json_member(const WbJson *object, const char *key)
{
    if (cJSON_IsObject(object->item))
        wb_json_asked_add(object->reader->asked, object->item, key);
    return (WbJson){
        .reader = object->reader,
        .parent = object,
        .item = cJSON_GetObjectItemCaseSensitive(object->item, key),
        .key = key,
    };
}

WbJson wb_json_first(const WbJson *list)
{
    const cJSON *first = cJSON_IsArray(list->item) ? list->item->child : NULL;
    return (WbJson){.reader = list->reader, .parent = list, .item = first};
}

WbJson wb_json_next(const WbJson *item)
{
    WbJson next = *item;
    next.item = item->item->next;
    next.index++;
    return next;
}

static void append_place(GString *pointer, const WbJson *at)
{
    if (!at->parent)
        return;
    append_place(pointer, at->parent);
    if (at->key)
        wb_json_append_step(pointer, at->key);
    else
        g_string_append_printf(pointer, "/%d", at->index);
}

/* What the list item a value stands in is called, NULL when it has no name or is the name. */
static const char *name_of(const WbJson *at)
{
    const WbJson *item = at;
    while (item && (item->key || !item->parent || !cJSON_IsObject(item->item)))
        item = item->parent;
    if (!item)
        return NULL;
    const cJSON *name = cJSON_GetObjectItemCaseSensitive(item->item, "name");
    if (!cJSON_IsString(name))
        name = cJSON_GetObjectItemCaseSensitive(item->item, "id");
    return cJSON_IsString(name) && name != at->item && *name->valuestring ? name->valuestring
                                                                          : NULL;
}

static char *place_of(const WbJson *at)
{
    g_autoptr(GString) pointer = g_string_new(NULL);
    append_place(pointer, at);
    if (pointer->len == 0)
        return g_strdup("the document");
    return wb_json_shorten(pointer->str);
}

void wb_json_complain(const WbJson *at, WbStoreError code, const char *problem, ...)
{
    if (at->reader->error)
        return;
    va_list arguments;
    va_start(arguments, problem);
    g_autofree char *text = g_strdup_vprintf(problem, arguments);
    va_end(arguments);
    g_autofree char *place = place_of(at);
    const char *named = name_of(at);
    g_autofree char *name = named ? wb_json_shorten(named) : NULL;
    if (name)
        wb_store_fail(&at->reader->error, code, "%s, \"%s\": %s %s.", at->reader->file, name, place,
                      text);
    else
        wb_store_fail(&at->reader->error, code, "%s: %s %s.", at->reader->file, place, text);
}

void wb_json_refuse(const WbJson *at, const char *accepted, ...)
{
    va_list arguments;
    va_start(arguments, accepted);
    g_autofree char *text = g_strdup_vprintf(accepted, arguments);
    va_end(arguments);
    if (!at->item) {
        if (!at->reader->error && at->key) {
            at->reader->missing_parent = at->parent->item;
            at->reader->missing_key = at->key;
        }
        wb_json_complain(at, WB_STORE_ERROR_VALUE, "is missing; it must be %s", text);
        return;
    }
    g_autofree char *value = wb_json_excerpt(at->item);
    wb_json_complain(at, WB_STORE_ERROR_VALUE, "is %s, but must be %s", value, text);
}

char *wb_json_range_text(const char *what, double least, double most)
{
    g_autofree char *from = wb_json_number_text(least);
    g_autofree char *to = wb_json_number_text(most);
    if (most >= WB_JSON_NUMBER_MOST)
        return least <= -WB_JSON_NUMBER_MOST ? g_strdup(what)
                                             : g_strdup_printf("%s, %s or more", what, from);
    return g_strdup_printf("%s from %s to %s", what, from, to);
}

double wb_json_number(const WbJson *at, double least, double most)
{
    if (cJSON_IsNumber(at->item) && at->item->valuedouble >= least && at->item->valuedouble <= most)
        return at->item->valuedouble;
    g_autofree char *accepted = wb_json_range_text("a number", least, most);
    wb_json_refuse(at, "%s", accepted);
    return least;
}

int64_t wb_json_integer(const WbJson *at, int64_t least, int64_t most)
{
    double value = cJSON_IsNumber(at->item) ? at->item->valuedouble : NAN;
    if (value >= (double)least && value <= (double)most && value == floor(value))
        return (int64_t)value;
    g_autofree char *accepted = wb_json_range_text("a whole number", (double)least, (double)most);
    wb_json_refuse(at, "%s", accepted);
    return least;
}

bool wb_json_flag(const WbJson *at)
{
    if (!cJSON_IsBool(at->item))
        wb_json_refuse(at, "true or false");
    return cJSON_IsTrue(at->item);
}

const char *wb_json_text(const WbJson *at, glong most_characters)
{
    if (cJSON_IsString(at->item) && g_utf8_strlen(at->item->valuestring, -1) <= most_characters)
        return at->item->valuestring;
    wb_json_refuse(at, "a text of at most %ld characters", most_characters);
    return "";
}

static char *words_text(const char *const *words)
{
    g_autoptr(GString) text = g_string_new(NULL);
    for (int i = 0; words[i]; i++)
        g_string_append_printf(text, "%s\"%s\"",
                               i == 0         ? ""
                               : words[i + 1] ? ", "
                                              : " or ",
                               words[i]);
    return g_string_free(g_steal_pointer(&text), FALSE);
}

int wb_json_word(const WbJson *at, const char *const *words)
{
    if (cJSON_IsString(at->item))
        for (int i = 0; words[i]; i++)
            if (strcmp(at->item->valuestring, words[i]) == 0)
                return i;
    g_autofree char *accepted = words_text(words);
    wb_json_refuse(at, "%s", accepted);
    return 0;
}

int wb_json_list(const WbJson *at, int least, int most)
{
    if (!cJSON_IsArray(at->item)) {
        wb_json_refuse(at, "a list");
        return 0;
    }
    int n = cJSON_GetArraySize(at->item);
    if (n >= least && n <= most)
        return n;
    if (least == most)
        wb_json_complain(at, WB_STORE_ERROR_VALUE, "has %d items, but must have %d", n, least);
    else
        wb_json_complain(at, WB_STORE_ERROR_VALUE, "has %d items, but must have from %d to %d", n,
                         least, most);
    return 0;
}

bool wb_json_object(const WbJson *at)
{
    if (!cJSON_IsObject(at->item))
        wb_json_refuse(at, "an object");
    return cJSON_IsObject(at->item);
}

double wb_json_number_or(const WbJson *at, double least, double most, double fallback)
{
    return at->item ? wb_json_number(at, least, most) : fallback;
}

double wb_json_number_or_null(const WbJson *at, double least, double most, double fallback)
{
    if (!at->item || cJSON_IsNull(at->item))
        return fallback;
    if (cJSON_IsNumber(at->item))
        return wb_json_number(at, least, most);
    g_autofree char *accepted = wb_json_range_text("a number", least, most);
    wb_json_refuse(at, "%s, or null", accepted);
    return fallback;
}

int64_t wb_json_integer_or(const WbJson *at, int64_t least, int64_t most, int64_t fallback)
{
    return at->item ? wb_json_integer(at, least, most) : fallback;
}

bool wb_json_flag_or(const WbJson *at, bool fallback)
{
    return at->item ? wb_json_flag(at) : fallback;
}

const char *wb_json_text_or(const WbJson *at, glong most_characters, const char *fallback)
{
    return at->item ? wb_json_text(at, most_characters) : fallback;
}

int wb_json_word_or(const WbJson *at, const char *const *words, int fallback)
{
    return at->item ? wb_json_word(at, words) : fallback;
}

void wb_json_check_format(const WbJson *root, const char *format, int version)
{
    if (!wb_json_object(root))
        return;
    WbJson format_member = wb_json_member(root, "format");
    WbJson version_member = wb_json_member(root, "version");
    const char *const accepted[] = {format, NULL};
    wb_json_word(&format_member, accepted);
    double found = cJSON_IsNumber(version_member.item) ? version_member.item->valuedouble : NAN;
    if (!(found >= 1) || found != floor(found))
        wb_json_refuse(&version_member, "a whole number from 1 to %d", version);
    else if (found > version)
        wb_json_complain(&version_member, WB_STORE_ERROR_FORMAT,
                         "is %.0f, but this program reads versions up to %d; a newer one is needed",
                         found, version);
}
