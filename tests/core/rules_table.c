/* The table of rules in data/METHOD.md against the program's own: same rules in the same order, of
 * the same severity and source, each with tests that are there. */
#include "finding.h"
#include <glib.h>
#include <string.h>

enum { NUMBER, CODE, SEVEREST, FORMULA, SOURCE, TESTS, N_CELLS };

static char *read_under_root(const char *path)
{
    g_autofree char *full = g_build_filename(g_getenv("WB_TEST_DATA"), "..", "..", path, NULL);
    char *text = NULL;
    g_autoptr(GError) error = NULL;
    g_file_get_contents(full, &text, NULL, &error);
    g_assert_no_error(error);
    return text;
}

/* Cells of a row "| a | b |", without the blanks round them. */
static char **cells_of(const char *line)
{
    char **cells = g_strsplit(line + 1, "|", -1);
    for (guint i = 0; cells[i] != NULL; i++)
        g_strstrip(cells[i]);
    return cells;
}

/* The rows of the table that follows the heading of the rules. */
static GPtrArray *rows(void)
{
    g_autofree char *text = read_under_root("data/METHOD.md");
    const char *table = strstr(text, "\n| # | code |");
    g_assert_nonnull(table);
    g_auto(GStrv) lines = g_strsplit(table + 1, "\n", -1);
    GPtrArray *found = g_ptr_array_new_with_free_func((GDestroyNotify)g_strfreev);
    for (guint i = 2; lines[i] != NULL && lines[i][0] == '|'; i++)
        g_ptr_array_add(found, cells_of(lines[i]));
    return found;
}

static void test_same_table(void)
{
    g_autoptr(GPtrArray) table = rows();
    g_assert_cmpuint(table->len, ==, WB_N_RULES);
    for (guint r = 0; r < table->len; r++) {
        char **cell = table->pdata[r];
        const WbRuleInfo *info = wb_rule_info((WbRule)r);
        g_assert_cmpuint(g_strv_length(cell), ==, N_CELLS + 1); /* one after the last bar */
        g_assert_cmpuint(g_ascii_strtoull(cell[NUMBER], NULL, 10), ==, r + 1);
        g_assert_cmpstr(cell[CODE], ==, info->code);
        g_assert_cmpstr(cell[SEVEREST], ==, wb_severity_name(info->severity));
        g_assert_cmpstr(cell[SOURCE], ==, info->source);
        g_assert_cmpuint(strlen(cell[FORMULA]), >, 5);
    }
}

/* Words of the column, and the file that has such a test and what it must say of the rule. */
static const struct {
    const char *word, *file;
    bool names_rule;
} kinds[] = {
    {"sides", "tests/core/rules_sides.inc", true},
    {"published", "tests/core/rules_published.c", true},
    {"solar-amps", "tests/core/rules.c", false},
    {"money", "tests/core/money.c", false},
    {"roof", "tests/core/roof.c", false},
    {"undecided", "tests/core/rank.c", false},
    {"wiring", "tests/core/wiring.c", false},
};

/* "cold-voc" as the rule's constant or function is written: WB_RULE_COLD_VOC, wb_rule_cold_voc. */
static bool names(const char *text, const char *code)
{
    g_autofree char *lower = g_strdelimit(g_strdup(code), "-", '_');
    g_autofree char *upper = g_ascii_strup(lower, -1);
    g_autofree char *constant = g_strdup_printf("WB_RULE_%s,", upper);
    g_autofree char *function = g_strdup_printf("wb_rule_%s(", lower);
    return strstr(text, constant) != NULL || strstr(text, function) != NULL;
}

static void check_word(const char *code, const char *word)
{
    for (guint k = 0; k < G_N_ELEMENTS(kinds); k++) {
        if (!g_str_equal(word, kinds[k].word))
            continue;
        g_autofree char *text = read_under_root(kinds[k].file);
        g_assert_true(!kinds[k].names_rule || names(text, code));
        g_assert_true(kinds[k].names_rule || strstr(text, word) != NULL);
        return;
    }
    g_error("%s: no kind of test is called %s", code, word);
}

static void test_tests_are_there(void)
{
    g_autoptr(GPtrArray) table = rows();
    for (guint r = 0; r < table->len; r++) {
        char **cell = table->pdata[r];
        g_auto(GStrv) words = g_strsplit(cell[TESTS], ", ", -1);
        g_assert_cmpuint(g_strv_length(words), >, 0);
        for (guint w = 0; words[w] != NULL; w++)
            check_word(cell[CODE], words[w]);
    }
}

/* And the other way round: what rules_published.c checks is told. */
static void test_published_are_told(void)
{
    g_autofree char *published = read_under_root("tests/core/rules_published.c");
    g_autoptr(GPtrArray) table = rows();
    for (guint r = 0; r < table->len; r++) {
        char **cell = table->pdata[r];
        g_test_message("%s", cell[CODE]);
        g_assert_cmpint(names(published, cell[CODE]), ==, strstr(cell[TESTS], "published") != NULL);
    }
}

int main(int argc, char **argv)
{
    g_test_init(&argc, &argv, NULL);
    g_test_add_func("/rules-table/same-table", test_same_table);
    g_test_add_func("/rules-table/tests-are-there", test_tests_are_there);
    g_test_add_func("/rules-table/published-are-told", test_published_are_told);
    return g_test_run();
}
