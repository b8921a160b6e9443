/* Are packing instances read to the letter, and wrong ones refused with a sentence that tells
 * where?
 */
#include "roof_instances.h"
#include "random.h"
#include "scratch.h"

#define FUZZ_ROUNDS 3000

static const char plain[] = "# two roofs\n"
                            "van 3200 1700 2 1 1 1\n"
                            "1320 1490 300 200\n"
                            "\n"
                            "  -80\t400  700 500 \r\n"
                            "760 350 999\n"
                            "mix 41 18 0 2 0 0\n"
                            "10 6 8\n"
                            "7 3 1\n";
static const char pallets[] = "\xef\xbb\xbf# from elsewhere\n"
                              "source,l,w,L,W,optimal\n"
                              "\"a, b\",5,3,22,16,23\n"
                              "c,11,6,46,34,\n";

static WbRoofInstances *read_good(const char *text)
{
    g_autoptr(GError) error = NULL;
    WbRoofInstances *instances = wb_roof_instances_parse(text, -1, "good.txt", &error);
    g_assert_no_error(error);
    return instances;
}

static void test_plain(void)
{
    g_autoptr(WbRoofInstances) instances = read_good(plain);
    g_assert_cmpuint(wb_roof_instances_count(instances), ==, 2);
    g_assert_cmpuint(wb_roof_instances_not_read(instances)->len, ==, 0);
    const WbRoofInstance *van = wb_roof_instances_get(instances, 0);
    g_assert_cmpstr(van->name, ==, "van");
    g_assert_cmpint(van->line, ==, 2);
    g_assert_cmpint(van->roof.length_mm, ==, 3200);
    g_assert_cmpint(van->roof.width_mm, ==, 1700);
    g_assert_cmpint(van->roof.margin_mm + van->roof.gap_mm, ==, 0);
    g_assert_cmpuint(van->roof.n_obstacles, ==, 2);
    g_assert_cmpint(van->roof.obstacles[0].x_mm, ==, 1320);
    g_assert_cmpint(van->roof.obstacles[0].y_mm, ==, 1490);
    g_assert_cmpint(van->roof.obstacles[0].length_mm, ==, 300);
    g_assert_cmpint(van->roof.obstacles[0].width_mm, ==, 200);
    g_assert_cmpint(van->roof.obstacles[1].x_mm, ==, -80);
    g_assert_cmpint(van->roof.obstacles[1].clearance_mm, ==, 0);
    g_assert_true(van->most);
    g_assert_cmpuint(van->n_items, ==, 1);
    g_assert_cmpint(van->items[0].length_mm, ==, 760);
    g_assert_cmpint(van->items[0].width_mm, ==, 350);
    g_assert_cmpint(van->items[0].count, ==, 999);
    g_assert_true(van->items[0].turns);
    const WbRoofInstance *mix = wb_roof_instances_get(instances, 1);
    g_assert_cmpint(mix->line, ==, 7);
    g_assert_cmpuint(mix->roof.n_obstacles, ==, 0);
    g_assert_false(mix->most);
    g_assert_cmpuint(mix->n_items, ==, 2);
    g_assert_cmpint(mix->items[1].width_mm, ==, 3);
    g_assert_cmpint(mix->items[1].count, ==, 1);
    g_assert_false(mix->items[0].turns || mix->items[1].turns);
}

static void test_pallets(void)
{
    g_autoptr(WbRoofInstances) instances = read_good(pallets);
    g_assert_cmpuint(wb_roof_instances_count(instances), ==, 2);
    const WbRoofInstance *second = wb_roof_instances_get(instances, 1);
    g_assert_cmpstr(second->name, ==, "46x34/11x6");
    g_assert_cmpint(second->line, ==, 4);
    g_assert_cmpint(second->roof.length_mm, ==, 46);
    g_assert_cmpint(second->roof.width_mm, ==, 34);
    g_assert_cmpint(second->items[0].length_mm, ==, 11);
    g_assert_cmpint(second->items[0].width_mm, ==, 6);
    g_assert_true(second->most && second->items[0].turns);
    const GPtrArray *not_read = wb_roof_instances_not_read(instances);
    g_assert_cmpuint(not_read->len, ==, 2);
    g_assert_cmpstr(not_read->pdata[0], ==, "source");
    g_assert_cmpstr(not_read->pdata[1], ==, "optimal");
}

static void refused(const char *text, gssize length, const char *words)
{
    g_autoptr(GError) error = NULL;
    g_assert_null(wb_roof_instances_parse(text, length, "roofs.txt", &error));
    assert_sentence(error, "roofs.txt");
    assert_sentence(error, words);
}

/* What the sentence must hold stands between bars. */
static const struct {
    const char *text, *words;
} wrong[] = {
    {"", "no instance"},
    {"\n# nothing\n \t \n", "no instance"},
    {"L,W,l,w\n", "no instance"},
    {"van 3200 1700 0 1 1\n760 350 9\n", "line 1|6 fields|n_obstacles"},
    {"van 3200 1700 0 1 1 1 1\n760 350 9\n", "line 1|8 fields"},
    {"van 3200 1700 0 1 1 1\n760 350\n", "line 2|2 fields|size 1 of 1|a b count|van"},
    {"van 3200 1700 1 1 1 1\n760 350 9\n", "line 2|3 fields|obstacle 1 of 1|x y w h"},
    {"van 3200 1700 0 1 1 1\n1 1 5 5\n760 350 9\n", "line 2|4 fields|size 1 of 1"},
    {"van 3200 1700 0 2 0 1\n760 350 9\n", "ends at line 2|van of line 1|size 2 of 2"},
    {"van 3200 1700 2 1 1 1\n1 1 5 5\n", "ends at line 2|obstacle 2 of 2|x y w h"},
    {"van 3200 1700 0 1 1 1\n760 350 9\n760 350 9\n", "line 3|3 fields"},
    {"van 3200.5 1700 0 1 1 1\n760 350 9\n", "line 1|W|3200.5|whole number|1 to 100000 mm"},
    {"van 3200 -1700 0 1 1 1\n760 350 9\n", "line 1|H|-1700"},
    {"van 0 1700 0 1 1 1\n760 350 9\n", "line 1|W|\"0\""},
    {"van 3200 100001 0 1 1 1\n760 350 9\n", "line 1|H|100001"},
    {"van 3200 1700 1001 1 1 1\n", "line 1|n_obstacles|1001|1000"},
    {"van 3200 1700 -1 1 1 1\n", "line 1|n_obstacles|-1"},
    {"van 3200 1700 0 65 0 1\n", "line 1|n_sizes|65|64"},
    {"van 3200 1700 0 0 0 1\n", "line 1|n_sizes|\"0\""},
    {"van 3200 1700 0 2 1 1\n7 5 1\n8 5 1\n", "line 1|n_sizes is 2|most 1"},
    {"van 3200 1700 0 1 2 1\n760 350 9\n", "line 1|most|\"2\"|0 to 1"},
    {"van 3200 1700 0 1 1 yes\n760 350 9\n", "line 1|turns|yes"},
    {"van 3200 1700 0 1 1 1\n760 0x5 9\n", "line 2|b|0x5"},
    {"van 3200 1700 0 1 1 1\n760 1e999 9\n", "line 2|b|1e999"},
    {"van 3200 1700 0 1 1 1\n-760 350 9\n", "line 2|a|-760"},
    {"van 3200 1700 0 1 1 1\n760 350 0\n", "line 2|count|1 to 100000"},
    {"van 3200 1700 0 1 0 1\n760 350 401\n", "line 2|count|401|1 to 400"},
    {"van 3200 1700 0 2 0 1\n760 350 400\n7 5 1\n", "line 3|401|400|van"},
    {"van 3200 1700 1 1 1 1\n10 10 0 5\n760 350 9\n", "line 2|w|\"0\""},
    {"van 3200 1700 1 1 1 1\n3200 10 5 5\n760 350 9\n", "line 2|outside the roof|3205"},
    {"van 3200 1700 1 1 1 1\n10 -5 5 5\n760 350 9\n", "line 2|outside the roof"},
    {"v\x01n 3200 1700 0 1 1 1\n760 350 9\n", "line 1|name|control"},
    {"L;W;l;w\n22;16;5;3\n", "line 1|1 field|name W H"},
    {"L,W,l\n22,16,5\n", "line 1|column w|missing"},
    {"length,width,l,w\n22,16,5,3\n", "line 1|column L|missing|as they are written"},
    {"L,W,l,w,L\n22,16,5,3,1\n", "line 1|column L|twice"},
    {"L,W,l,w\n22,16,5\n", "line 2|3 cells|4"},
    {"L,W,l,w\n22,16,5,3,1\n", "line 2|5 cells|4"},
    {"L,W,l,w\n22,16,5,\n", "line 2|w is|\"\""},
    {"L,W,l,w\n22,16,-5,3\n", "line 2|l|-5"},
    {"L,W,l,w,x\n22,16,\"5,3,1\n", "line 2|3 cells"},
};

static void test_refused(void)
{
    for (gsize i = 0; i < G_N_ELEMENTS(wrong); i++)
        refused(wrong[i].text, -1, wrong[i].words);
}

static void test_no_text(void)
{
    static const char nul[] = "van 3200 1700 0 1 1 1\n760 35\0 9\n";
    refused(nul, sizeof nul - 1, "line 2|NUL");
    refused("van 3200 1700 0 1 1 1\n\xff\xfe", -1, "line 2|UTF-8");
    g_autofree char *long_name = g_strnfill(201, 'x');
    g_autofree char *long_text = g_strconcat(long_name, " 10 10 0 1 1 1\n5 5 5\n", NULL);
    refused(long_text, -1, "line 1|name|200");
    g_autoptr(WbRoofInstances) just = read_good(long_text + 1);
    g_assert_cmpuint(strlen(wb_roof_instances_get(just, 0)->name), ==, 200);
    g_autoptr(GString) columns = g_string_new("L,W,l,w");
    for (int i = 0; i < 97; i++)
        g_string_append(columns, ",x");
    refused(columns->str, -1, "line 1|101 columns|100");
}

static void test_too_many(void)
{
    g_autoptr(GString) text = g_string_new(NULL);
    for (int i = 0; i < WB_ROOF_INSTANCES_MOST; i++)
        g_string_append(text, "r 10 10 0 1 1 1\n5 5 5\n");
    g_autoptr(WbRoofInstances) just = read_good(text->str);
    g_assert_cmpuint(wb_roof_instances_count(just), ==, WB_ROOF_INSTANCES_MOST);
    g_string_append(text, "r 10 10 0 1 1 1\n5 5 5\n");
    refused(text->str, -1, "line 20001|instance 10001|10000");
    g_autoptr(GString) rows = g_string_new("L,W,l,w\n");
    for (int i = 0; i <= WB_ROOF_INSTANCES_MOST; i++)
        g_string_append(rows, "10,10,5,5\n");
    refused(rows->str, -1, "line 10002|10000");
}

static void test_file(Scratch *scratch, gconstpointer data)
{
    g_autofree char *path = scratch_file(scratch, "mine.txt");
    g_autoptr(GError) error = NULL;
    g_assert_null(wb_roof_instances_read(path, &error));
    assert_sentence(error, "mine.txt|cannot be opened");
    g_clear_error(&error);
    g_assert_null(wb_roof_instances_read(scratch->path, &error));
    assert_sentence(error, "cannot be read");
    g_clear_error(&error);
    scratch_write(path, pallets, -1);
    g_autoptr(WbRoofInstances) instances = wb_roof_instances_read(path, &error);
    g_assert_no_error(error);
    g_assert_cmpuint(wb_roof_instances_count(instances), ==, 2);
}

/* A byte changed, put in or taken out: read, or refused with a sentence. */
static void test_damaged(void)
{
    static const char letters[] = "0123456789-. \n#,x\t\"\x80";
    WbRandom random;
    wb_random_seed(&random, 20261128);
    int good = 0;
    for (int round = 0; round < FUZZ_ROUNDS; round++) {
        g_autoptr(GString) text = g_string_new(round % 2 ? plain : pallets);
        for (int edit = 0; edit <= round % 3; edit++) {
            gsize at = wb_random_below(&random, text->len);
            char letter = letters[wb_random_below(&random, sizeof letters)];
            if (wb_random_below(&random, 3) == 0)
                g_string_erase(text, (gssize)at, 1);
            else if (wb_random_below(&random, 2) == 0)
                g_string_insert_c(text, (gssize)at, letter);
            else
                text->str[at] = letter;
        }
        g_autoptr(GError) error = NULL;
        g_autoptr(WbRoofInstances) read =
            wb_roof_instances_parse(text->str, (gssize)text->len, "damaged", &error);
        good += read != NULL;
        if (read == NULL) {
            g_assert_true(g_str_has_prefix(error->message, "damaged"));
            g_assert_true(g_str_has_suffix(error->message, "."));
            g_assert_true(g_utf8_validate(error->message, -1, NULL));
        }
    }
    g_test_message("%d of %d could still be read", good, FUZZ_ROUNDS);
    g_assert_cmpint(good, >, FUZZ_ROUNDS / 20);
    g_assert_cmpint(good, <, FUZZ_ROUNDS);
}

int main(int argc, char **argv)
{
    g_test_init(&argc, &argv, NULL);
    g_test_add_func("/roof-instances/plain", test_plain);
    g_test_add_func("/roof-instances/pallets", test_pallets);
    g_test_add_func("/roof-instances/refused", test_refused);
    g_test_add_func("/roof-instances/no-text", test_no_text);
    g_test_add_func("/roof-instances/too-many", test_too_many);
    g_test_add("/roof-instances/file", Scratch, NULL, scratch_set_up, test_file, scratch_tear_down);
    g_test_add_func("/roof-instances/damaged", test_damaged);
    return g_test_run();
}
