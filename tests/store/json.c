#include "json.h"
#include "scratch.h"
#include <locale.h>
#include <stdlib.h>

/* RFC 8259 sections 2 to 8; the last ones are what cJSON 1.7.15 would have taken. */
static const struct {
    const char *text, *words;
} refused[] = {
    {"", "t.json is empty"},
    {" \n ", "line 2, column 2|the text ends|a value"},
    {"{", "the text ends|member's name"},
    {"[1, 2", "the text ends|\"]\""},
    {"{\"a\": 1", "the text ends|\"}\""},
    {"{\"a\" 1}", "found \"1\"|a colon"},
    {"{a: 1}", "found \"a\"|member's name"},
    {"{\"a\": 1,}", "found \"}\"|member's name"},
    {"[1,]", "found \"]\"|a value"},
    {"[1 2]", "found \"2\"|a comma"},
    {"{\n  \"a\": 1,\n  \"b\": tru\n}", "line 3, column 8|a value"},
    {"\"ab", "the text ends|closing quote"},
    {"\"\\x\"", "found \"x\"|escapes"},
    {"\"\\u12g4\"", "found \"g\"|hexadecimal"},
    {"\"\\ud800\"", "surrogate"},
    {"\"\\ud800\\u0041\"", "surrogate"},
    {"\"\\udc00\"", "surrogate"},
    {"tRue", "a value"},
    {"NaN", "found \"N\"|a value"},
    {"-Infinity", "found \"I\"|a digit"},
    {"+1", "found \"+\""},
    {".5", "found \".\""},
    {"0x10", "found \"x\"|the end of the text"},
    {"1e", "a digit"},
    {"[1] x", "line 1, column 5|found \"x\"|the end of the text"},
    {"{} {}", "the end of the text"},
    {"01", "zero"},
    {"-01", "zero"},
    {"1.", "a digit"},
    {"\"\t\"", "U+0009"},
    {"\"\\u0000x\"", "U+0000"},
    {"\"\xff\"", "column 2|UTF-8"},
    {"\"\xc3\"", "UTF-8"},
    {"\"\xed\xa0\x80\"", "UTF-8"},
    {"1e999", "1e999 is too large|15 digits"},
    {"9007199254740993.5", "too large"},
    {"-9007199254740994", "too large"},
    {"0.1000000000000000000000000000000000000000000000000000000000000001", "48 characters"},
    {"{\"a\": 1, \"a\": 2}", "t.json: the member /a stands twice"},
    {"{\"x\": [0, {\"b/c\": 1, \"d\": 2, \"b\\u002fc\": 3}]}", "/x/1/b~1c stands twice"},
};

static void test_refused(void)
{
    for (size_t i = 0; i < G_N_ELEMENTS(refused); i++) {
        g_autoptr(GError) error = NULL;
        g_autoptr(WbJsonTree) tree = wb_json_parse(refused[i].text, -1, "t.json", &error);
        g_assert_null(tree);
        assert_sentence(error, refused[i].words);
    }
}

static const char *const accepted[] = {
    "null",
    " [ ] ",
    "{}",
    "\"\"",
    "0",
    "-0",
    "1E+2",
    "1e-7",
    "9007199254740992",
    "\"\\ud83d\\ude00 \\/ \\b\\f\\n\\r\\t\\\"\\\\\"",
    "\"\xe2\x82\xac \x7f\"",
    "\xEF\xBB\xBF[true, false]",
    "{\"a\": {\"a\": 1}, \"A\": 2, \"\": 3}",
};

static void test_accepted(void)
{
    for (size_t i = 0; i < G_N_ELEMENTS(accepted); i++) {
        g_autoptr(GError) error = NULL;
        g_autoptr(WbJsonTree) tree = wb_json_parse(accepted[i], -1, "t.json", &error);
        g_assert_no_error(error);
        g_autofree char *once = wb_json_print(tree);
        g_autoptr(WbJsonTree) again = wb_json_parse(once, -1, "t.json", &error);
        g_assert_no_error(error);
        g_autofree char *twice = wb_json_print(again);
        g_assert_cmpstr(once, ==, twice);
    }
}

static char *nested(int depth)
{
    GString *text = g_string_new(NULL);
    for (int i = 0; i < depth; i++)
        g_string_append_c(text, '[');
    for (int i = 0; i < depth; i++)
        g_string_append_c(text, ']');
    return g_string_free(text, FALSE);
}

static void test_depth(void)
{
    g_autoptr(GError) error = NULL;
    g_autofree char *deep = nested(64), *deeper = nested(65), *deepest = nested(1000000);
    g_autoptr(WbJsonTree) tree = wb_json_parse(deep, -1, "t.json", &error);
    g_assert_no_error(error);
    g_assert_nonnull(tree);
    g_assert_null(wb_json_parse(deeper, -1, "t.json", &error));
    assert_sentence(error, "nested more than 64 deep");
    g_clear_error(&error);
    g_assert_null(wb_json_parse(deepest, -1, "t.json", &error));
    assert_sentence(error, "nested more than 64 deep");
}

static void test_size(void)
{
    g_autoptr(GError) error = NULL;
    gsize length = 16 * 1024 * 1024 + 1;
    g_autofree char *spaces = g_strnfill(length, ' ');
    g_assert_null(wb_json_parse(spaces, (gssize)length, "t.json", &error));
    assert_sentence(error, "t.json is larger than 16 MiB");
}

/* A hundred thousand members: the search for duplicates must not take the square of it. */
static void test_many_members(void)
{
    g_autoptr(GError) error = NULL;
    g_autoptr(GString) text = g_string_new("{");
    for (int i = 0; i < 100000; i++)
        g_string_append_printf(text, "\"m%d\": %d, ", i, i);
    g_string_append(text, "\"m7\": 0}");
    g_assert_null(wb_json_parse(text->str, -1, "t.json", &error));
    assert_sentence(error, "/m7 stands twice");
}

static const struct {
    double value;
    const char *text;
} numbers[] = {
    {0, "0"},
    {1.17, "1.17"},
    {0.1, "0.1"},
    {1e-7, "1e-07"},
    {0.1 + 0.2, "0.30000000000000004"},
    {9007199254740991, "9007199254740991"},
    {-2.5, "-2.5"},
    {1.0 / 3, "0.3333333333333333"},
    {260000, "260000"},
};

static void check_numbers(void)
{
    for (size_t i = 0; i < G_N_ELEMENTS(numbers); i++) {
        g_autoptr(GError) error = NULL;
        g_autoptr(WbJsonTree) tree = wb_json_parse(numbers[i].text, -1, "t.json", &error);
        g_assert_no_error(error);
        g_assert_true(tree->valuedouble == numbers[i].value);
        g_autofree char *text = wb_json_print(tree);
        g_assert_cmpstr(text, ==, numbers[i].text);
    }
}

static void test_numbers(void)
{
    check_numbers();
}

/* The same bytes where the decimal sign is a comma. The locale is made here, so that the test does
 * not depend on which ones are installed. */
static void test_decimal_comma(Scratch *scratch, gconstpointer data)
{
    g_autofree char *target = scratch_file(scratch, "de_DE.UTF-8");
    const char *command[] = {"localedef", "-i",           "de_DE", "-f",
                             "UTF-8",     "--no-archive", target,  NULL};
    if (!setlocale(LC_ALL, "de_DE.UTF-8")) {
        g_spawn_sync(NULL, (char **)command, NULL,
                     G_SPAWN_SEARCH_PATH | G_SPAWN_STDOUT_TO_DEV_NULL | G_SPAWN_STDERR_TO_DEV_NULL,
                     NULL, NULL, NULL, NULL, NULL, NULL);
        g_setenv("LOCPATH", scratch->path, TRUE);
    }
    if (setlocale(LC_ALL, "de_DE.UTF-8")) {
        g_autofree char *comma = g_strdup_printf("%.1f", 0.5);
        g_assert_cmpstr(comma, ==, "0,5");
        check_numbers();
        setlocale(LC_ALL, "C");
    } else {
        g_test_skip("no locale with a decimal comma, and localedef cannot make one");
    }
    g_unsetenv("LOCPATH");
    const char *removal[] = {"rm", "-rf", target, NULL};
    g_spawn_sync(NULL, (char **)removal, NULL, G_SPAWN_SEARCH_PATH, NULL, NULL, NULL, NULL, NULL,
                 NULL);
}

typedef enum { SET, INSERT, REMOVE } Edit;

/* `result` NULL: refused with `words`. */
static const struct {
    Edit edit;
    const char *pointer, *result, *words;
} edits[] = {
    {SET, "/a", "{\"a\":9,\"l\":[1,2],\"x/y\":{\"~\":3}}", NULL},
    {SET, "/l/1", "{\"a\":0,\"l\":[1,9],\"x/y\":{\"~\":3}}", NULL},
    {SET, "/x~1y/~0", "{\"a\":0,\"l\":[1,2],\"x/y\":{\"~\":9}}", NULL},
    {SET, "/n/m/o", "{\"a\":0,\"l\":[1,2],\"x/y\":{\"~\":3},\"n\":{\"m\":{\"o\":9}}}", NULL},
    {SET, "/A", "{\"a\":0,\"l\":[1,2],\"x/y\":{\"~\":3},\"A\":9}", NULL},
    {SET, "/l/2", NULL, "/l/2|does not exist"},
    {SET, "/l/01", NULL, "/l/01|does not exist"},
    {SET, "/a/b", NULL, "/a/b|does not exist"},
    {SET, "", NULL, "names no member"},
    {SET, "a", NULL, "names no member"},
    {SET, "/a~2", NULL, "names no member"},
    {INSERT, "/l/0", "{\"a\":0,\"l\":[9,1,2],\"x/y\":{\"~\":3}}", NULL},
    {INSERT, "/l/1", "{\"a\":0,\"l\":[1,9,2],\"x/y\":{\"~\":3}}", NULL},
    {INSERT, "/l/2", "{\"a\":0,\"l\":[1,2,9],\"x/y\":{\"~\":3}}", NULL},
    {INSERT, "/l/-", "{\"a\":0,\"l\":[1,2,9],\"x/y\":{\"~\":3}}", NULL},
    {INSERT, "/l/3", NULL, "beyond the end"},
    {INSERT, "/a/0", NULL, "not in a list"},
    {INSERT, "/q/0", NULL, "does not exist"},
    {REMOVE, "/l/0", "{\"a\":0,\"l\":[2],\"x/y\":{\"~\":3}}", NULL},
    {REMOVE, "/x~1y", "{\"a\":0,\"l\":[1,2]}", NULL},
    {REMOVE, "/l/-", NULL, "does not exist"},
    {REMOVE, "/nothing", NULL, "does not exist"},
};

static void test_edits(void)
{
    for (size_t i = 0; i < G_N_ELEMENTS(edits); i++) {
        g_autoptr(GError) error = NULL;
        g_autoptr(WbJsonTree) tree = cJSON_Parse("{\"a\": 0, \"l\": [1, 2], \"x/y\": {\"~\": 3}}");
        cJSON *nine = edits[i].edit == REMOVE ? NULL : cJSON_CreateNumber(9);
        gboolean done = edits[i].edit == SET ? wb_json_set(tree, edits[i].pointer, nine, &error)
                        : edits[i].edit == INSERT
                            ? wb_json_insert(tree, edits[i].pointer, nine, &error)
                            : wb_json_remove(tree, edits[i].pointer, &error);
        g_assert_cmpint(done, ==, edits[i].result != NULL);
        if (!done) {
            assert_sentence(error, edits[i].words);
            continue;
        }
        char *text = cJSON_PrintUnformatted(tree);
        g_assert_cmpstr(text, ==, edits[i].result);
        cJSON_free(text);
    }
}

static void test_move(void)
{
    static const struct {
        int from, to;
        const char *result;
    } moves[] = {
        {0, 2, "[1,2,0,3]"}, {3, 0, "[3,0,1,2]"}, {0, 3, "[1,2,3,0]"}, {1, 1, "[0,1,2,3]"},
        {2, 1, "[0,2,1,3]"}, {0, 4, NULL},        {-1, 0, NULL},       {4, 0, NULL},
    };
    for (size_t i = 0; i < G_N_ELEMENTS(moves); i++) {
        g_autoptr(GError) error = NULL;
        g_autoptr(WbJsonTree) tree = cJSON_Parse("[0, 1, 2, 3]");
        gboolean done = wb_json_move(tree, "", moves[i].from, moves[i].to, &error);
        g_assert_cmpint(done, ==, moves[i].result != NULL);
        if (!done) {
            assert_sentence(error, "no such item");
            continue;
        }
        char *text = cJSON_PrintUnformatted(tree);
        g_assert_cmpstr(text, ==, moves[i].result);
        cJSON_free(text);
    }
}

static void test_at(void)
{
    /* Examples of RFC 6901, section 5. */
    g_autoptr(WbJsonTree) tree =
        cJSON_Parse("{\"foo\": [\"bar\", \"baz\"], \"\": 0, \"a/b\": 1, \"c%d\": 2, \" \": 7, "
                    "\"m~n\": 8}");
    g_assert_true(wb_json_at(tree, "") == tree);
    g_assert_cmpstr(wb_json_at(tree, "/foo/0")->valuestring, ==, "bar");
    g_assert_true(wb_json_at(tree, "/")->valuedouble == 0);
    g_assert_true(wb_json_at(tree, "/a~1b")->valuedouble == 1);
    g_assert_true(wb_json_at(tree, "/c%d")->valuedouble == 2);
    g_assert_true(wb_json_at(tree, "/ ")->valuedouble == 7);
    g_assert_true(wb_json_at(tree, "/m~0n")->valuedouble == 8);
    g_assert_null(wb_json_at(tree, "/foo/2"));
    g_assert_null(wb_json_at(tree, "/FOO"));
    g_assert_null(wb_json_at(tree, "foo"));
}

int main(int argc, char **argv)
{
    g_test_init(&argc, &argv, NULL);
    g_test_add_func("/json/refused", test_refused);
    g_test_add_func("/json/accepted", test_accepted);
    g_test_add_func("/json/depth", test_depth);
    g_test_add_func("/json/size", test_size);
    g_test_add_func("/json/many-members", test_many_members);
    g_test_add_func("/json/numbers", test_numbers);
    g_test_add("/json/decimal-comma", Scratch, NULL, scratch_set_up, test_decimal_comma,
               scratch_tear_down);
    g_test_add_func("/json/edits", test_edits);
    g_test_add_func("/json/move", test_move);
    g_test_add_func("/json/at", test_at);
    return g_test_run();
}
