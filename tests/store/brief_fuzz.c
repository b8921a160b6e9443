/* Replay of seeded damage: each text gives a valid brief that survives a round trip, or an error
 * with a sentence; never a crash. */
#include "brief_file.h"
#include "random.h"
#include "scratch.h"

#define ROUNDS 5000

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

static void check_valid(WbBriefFile *file)
{
    g_autoptr(GError) error = NULL;
    g_autofree char *once = wb_brief_file_text(file);
    g_autoptr(WbBriefFile) again = wb_brief_file_parse(once, -1, "again", &error);
    g_assert_no_error(error);
    g_autofree char *twice = wb_brief_file_text(again);
    g_assert_cmpstr(once, ==, twice);
}

static void test_damage(void)
{
    g_autoptr(GBytes) bytes = scratch_read(WB_DATA_DIR "/brief.example.json");
    WbRandom random;
    wb_random_seed(&random, 20261124);
    int valid = 0;
    for (int round = 0; round < ROUNDS; round++) {
        g_autoptr(GError) error = NULL;
        g_autoptr(GString) text =
            g_string_new_len(g_bytes_get_data(bytes, NULL), (gssize)g_bytes_get_size(bytes));
        damage(text, &random);
        g_autoptr(WbBriefFile) file =
            wb_brief_file_parse(text->str, (gssize)text->len, "fuzz", &error);
        g_assert_true((file != NULL) != (error != NULL));
        if (file) {
            valid++;
            check_valid(file);
        } else {
            g_assert_cmpuint(strlen(error->message), >, 10);
            g_assert_true(g_str_has_suffix(error->message, "."));
            g_assert_null(strchr(error->message, '\n'));
            g_assert_true(g_utf8_validate(error->message, -1, NULL));
        }
    }
    g_test_message("%d of %d were still valid", valid, ROUNDS);
    g_assert_cmpint(valid, >, 0);
    g_assert_cmpint(valid, <, ROUNDS);
}

int main(int argc, char **argv)
{
    g_test_init(&argc, &argv, NULL);
    g_test_add_func("/brief-fuzz/damage", test_damage);
    return g_test_run();
}
