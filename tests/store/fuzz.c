/* Replay of seeded damage: each text is read and survives a round trip, or gives an error with a
 * sentence; never a crash. */
#include "brief_file.h"
#include "exchange.h"
#include "random.h"
#include "scratch.h"

#define BRIEF_ROUNDS 5000
#define CATALOGUE_ROUNDS 2000

static const char alphabet[] = "{}[]\",:\\ \n0123456789.eE+-truefalsn/x\x01\x7f\xc3\xa9\xff";

static void damage(GString *text, WbRandom *random)
{
    uint64_t edits = 1 + wb_random_below(random, 4);
    for (uint64_t i = 0; i < edits && text->len > 0; i++) {
        gsize at = wb_random_below(random, text->len);
        gsize wanted = 1 + wb_random_below(random, 12), n = MIN(wanted, text->len - at);
        char letter = alphabet[wb_random_below(random, sizeof alphabet - 1)];
        switch (wb_random_below(random, 5)) {
        case 0:
            text->str[at] = letter;
            break;
        case 1:
            g_string_insert_c(text, (gssize)at, letter);
            break;
        case 2:
            g_string_erase(text, (gssize)at, (gssize)n);
            break;
        case 3:
            text->str[at] = (char)wb_random_below(random, 256);
            break;
        default: {
            g_autofree char *copy = g_strndup(text->str + at, n);
            g_string_insert(text, (gssize)wb_random_below(random, text->len), copy);
        }
        }
    }
}

/* The next damaged text. (transfer full) */
static GString *damaged(GBytes *bytes, WbRandom *random)
{
    GString *text =
        g_string_new_len(g_bytes_get_data(bytes, NULL), (gssize)g_bytes_get_size(bytes));
    damage(text, random);
    return text;
}

static void check_message(const GError *error)
{
    g_assert_nonnull(error);
    g_assert_cmpuint(strlen(error->message), >, 10);
    g_assert_true(g_str_has_suffix(error->message, "."));
    g_assert_null(strchr(error->message, '\n'));
    g_assert_true(g_utf8_validate(error->message, -1, NULL));
}

static void check_brief(WbBriefFile *file)
{
    g_autoptr(GError) error = NULL;
    g_autofree char *once = wb_brief_file_text(file);
    g_autoptr(WbBriefFile) again = wb_brief_file_parse(once, -1, "again", &error);
    g_assert_no_error(error);
    g_autofree char *twice = wb_brief_file_text(again);
    g_assert_cmpstr(once, ==, twice);
}

static void test_brief(void)
{
    g_autoptr(GBytes) bytes = scratch_read(WB_DATA_DIR "/brief.example.json");
    WbRandom random;
    wb_random_seed(&random, 20261124);
    int valid = 0;
    for (int round = 0; round < BRIEF_ROUNDS; round++) {
        g_autoptr(GError) error = NULL;
        g_autoptr(GString) text = damaged(bytes, &random);
        g_autoptr(WbBriefFile) file =
            wb_brief_file_parse(text->str, (gssize)text->len, "fuzz", &error);
        if (file)
            check_brief(file);
        else
            check_message(error);
        valid += file != NULL;
    }
    g_test_message("%d of %d were still valid", valid, BRIEF_ROUNDS);
    g_assert_cmpint(valid, >, 0);
    g_assert_cmpint(valid, <, BRIEF_ROUNDS);
}

static void test_catalogue(void)
{
    g_autoptr(GBytes) bytes = scratch_read(WB_DATA_DIR "/catalogue.example.json");
    g_autoptr(GError) failure = NULL;
    g_autoptr(WbDatabase) database = wb_database_open(":memory:", TRUE, &failure);
    g_assert_no_error(failure);
    WbRandom random;
    wb_random_seed(&random, 20261125);
    int valid = 0;
    for (int round = 0; round < CATALOGUE_ROUNDS; round++) {
        g_autoptr(GError) error = NULL;
        WbImportReport report;
        g_autoptr(GString) text = damaged(bytes, &random);
        gboolean read = wb_exchange_import(database, text->str, (gssize)text->len, "fuzz", FALSE,
                                           &report, &error);
        if (!read)
            check_message(error);
        valid += read;
    }
    /* Whatever got in is acceptable: the load checks every value. */
    g_autoptr(WbCatalogueView) view = wb_database_load(database, &failure);
    g_assert_no_error(failure);
    g_test_message("%d of %d were still valid", valid, CATALOGUE_ROUNDS);
    g_assert_cmpint(valid, >, 0);
    g_assert_cmpint(valid, <, CATALOGUE_ROUNDS);
}

int main(int argc, char **argv)
{
    g_test_init(&argc, &argv, NULL);
    g_test_add_func("/fuzz/brief", test_brief);
    g_test_add_func("/fuzz/catalogue", test_catalogue);
    return g_test_run();
}
