/* Sentences: every rule, kept and broken, with both numbers; cautions, kits and money in words. */
#include "words.h"

#include "brief_file.h"
#include "database.h"
#include "random.h"
#include "rules.h"
#include <math.h>
#include <stdio.h>
#include <string.h>

typedef struct {
    WbBriefFile *file;
    WbCatalogueView *view;
    WbProblem *problem;
    WbVerdict verdict; /* of a kit with every part there is */
} Fixture;

static void set_up(Fixture *f, gconstpointer data)
{
    GError *error = NULL;
    f->file = wb_brief_file_demo();
    g_autoptr(WbDatabase) database = wb_database_open(":memory:", FALSE, &error);
    g_assert_no_error(error);
    f->view = wb_database_load(database, &error);
    g_assert_no_error(error);
    WbStatus status = wb_problem_new(wb_brief_file_brief(f->file), wb_catalogue_view_get(f->view),
                                     NULL, &f->problem);
    g_assert_cmpint(status, ==, WB_OK);
    const WbKit kit = {.n_series = 2,
                       .n_parallel = 1,
                       .n_controllers = 1,
                       .bank_series = 1,
                       .bank_parallel = 1,
                       .inverter = 1,
                       .dcdc = 1};
    wb_judge(f->problem, &kit, &f->verdict);
}

static void tear_down(Fixture *f, gconstpointer data)
{
    wb_problem_free(f->problem);
    wb_catalogue_view_unref(f->view);
    wb_brief_file_unref(f->file);
}

static WbFinding finding(WbRule rule, bool holds, double value, double limit)
{
    return (WbFinding){.rule = rule,
                       .severity = holds ? WB_NOTE : WB_STOP,
                       .holds = holds,
                       .value = value,
                       .limit = limit,
                       .margin = NAN,
                       .month = 2};
}

static void assert_is_sentence(const char *text)
{
    g_assert_cmpstr(text, !=, "");
    g_assert_true(g_str_has_suffix(text, "."));
    g_assert_null(strchr(text, '{'));
    g_assert_null(strstr(text, "nan"));
    g_assert_true(g_utf8_validate(text, -1, NULL));
}

static void test_every_rule(Fixture *f, gconstpointer data)
{
    for (int r = 0; r < WB_N_RULES; r++) {
        WbFinding kept = finding((WbRule)r, true, 17, 23);
        WbFinding broken = finding((WbRule)r, false, 23, 17);
        g_autofree char *kept_text = wb_words_finding(f->problem, &f->verdict, &kept);
        g_autofree char *broken_text = wb_words_finding(f->problem, &f->verdict, &broken);
        g_test_message("%s / %s", kept_text, broken_text);
        assert_is_sentence(kept_text);
        assert_is_sentence(broken_text);
        g_assert_cmpstr(wb_words_rule((WbRule)r), !=, NULL);
    }
}

static const struct {
    WbRule rule;
    bool holds;
    double value, limit;
    const char *sentence;
} exact[] = {
    {WB_RULE_COLD_VOC, true, 46.86, 50,
     "Two of these in series reach 46.9 V on the coldest morning; the controller takes 50 V."},
    {WB_RULE_COLD_VOC, false, 50.04, 50,
     "Two of these in series reach 50.04 V on the coldest morning; the controller takes only 50 V "
     "and can be destroyed."},
    {WB_RULE_ROOF_FIT, false, 2, 1, "The kit has 2 panels; the roof takes no more than 1."},
    {WB_RULE_SUPPLY, false, 1204.4, 1860.2,
     "In March only 1,204 Wh come in a day; the loads need 1,860 Wh."},
    {WB_RULE_SUPPLY, false, -17.4, 480.2,
     "In March own draw and losses take more than comes in: -17 Wh a day are left; the loads need "
     "480 Wh."},
    {WB_RULE_MONEY, false, 161200, 150000,
     "The kit costs 1,612.00 EUR; you want to spend 1,500.00 EUR at most."},
    {WB_RULE_WEIGHT, true, 74.26, 120.5, "The kit weighs 74.3 kg; you allow 120.5 kg."},
    {WB_RULE_AUTONOMY, false, 1.46, 1.5,
     "In March the bank alone carries the loads for only 1.46 days; you want 1.50."},
};

static void test_exact(Fixture *f, gconstpointer data)
{
    for (size_t i = 0; i < G_N_ELEMENTS(exact); i++) {
        WbFinding told = finding(exact[i].rule, exact[i].holds, exact[i].value, exact[i].limit);
        g_autofree char *text = wb_words_finding(f->problem, &f->verdict, &told);
        g_assert_cmpstr(text, ==, exact[i].sentence);
    }
}

/* Whatever the two numbers are, a reader can tell them apart when the rule is broken. */
static void test_numbers_told_apart(Fixture *f, gconstpointer data)
{
    for (double excess = 10; excess > 1e-4; excess /= 10) {
        WbFinding told = finding(WB_RULE_PV_CURRENT, false, 15.3 + excess, 15.3);
        g_autofree char *text = wb_words_finding(f->problem, &f->verdict, &told);
        double value, limit;
        g_assert_cmpint(sscanf(text,
                               "In the brightest sun the panels push up to %lf A; the controller "
                               "takes only %lf A.",
                               &value, &limit),
                        ==, 2);
        g_assert_cmpfloat(value, >, limit);
    }
}

/* The load the rule decides by is named: the first of another voltage, else the first in watts. */
static void test_load_voltage(Fixture *f, gconstpointer data)
{
    WbLoad loads[] = {{.name = "Lights",
                       .power_w = 5,
                       .volts = NAN,
                       .count = 3,
                       .hours_day = 4,
                       .duty = 1,
                       .months = 0xfff,
                       .days_week = 7},
                      {.name = "VHF radio",
                       .power_w = 25,
                       .volts = 12,
                       .count = 1,
                       .hours_day = 2,
                       .duty = 1,
                       .months = 0xfff,
                       .days_week = 7}};
    WbBrief brief = *f->problem->brief;
    WbProblem problem = *f->problem;
    brief.loads = loads;
    problem.brief = &brief;
    f->verdict.bank.system_v = 24;
    for (brief.n_loads = 2; brief.n_loads > 0; brief.n_loads--) {
        WbFinding told = wb_rule_load_voltage(&brief, &f->verdict.bank);
        g_autofree char *text = wb_words_finding(&problem, &f->verdict, &told);
        g_assert_cmpstr(text, ==,
                        brief.n_loads == 2
                            ? "The load “VHF radio” runs on 12 V; this bank makes 24 V, so it "
                              "needs a converter."
                            : "This bank makes 24 V: whatever DC load is given in watts, such as "
                              "“Lights”, must be made for that or needs a converter.");
    }
}

/* A fit that hangs on less than a millimetre is no matter of searching on. */
static void test_hangs_on_1_mm(Fixture *f, gconstpointer data)
{
    WbProblem problem = *f->problem;
    int index = f->verdict.kit.panel;
    g_autofree WbPanelChoice *panels =
        g_memdup2(problem.panels, ((gsize)index + 1) * sizeof *panels);
    problem.panels = panels;
    for (int mm_bound = 1; mm_bound <= 2; mm_bound++) {
        panels[index].fit = (WbRoofFit){.most = 1, .bound = 2, .mm_bound = mm_bound, .at_most = 5};
        WbFinding told = wb_rule_roof_undecided(problem.brief, &panels[index].fit, 2);
        g_autofree char *text = wb_words_finding(&problem, &f->verdict, &told);
        g_assert_cmpstr(text, ==,
                        mm_bound == 1 ? "The kit has 2 panels; 1 are known to fit, and whether "
                                        "more do hangs on less than 1 mm of the roof."
                                      : "The kit has 2 panels; 1 are known to fit and the search "
                                        "could not decide whether more do.");
    }
}

/* Every number that stands in a text, thousands apart or not; the last one's decimals count. */
static bool tells(const char *text, double number)
{
    g_autoptr(GRegex) pattern = g_regex_new("-?[0-9][0-9,]*(\\.[0-9]+)?", 0, 0, NULL);
    g_autoptr(GMatchInfo) match = NULL;
    bool told = false;
    for (g_regex_match(pattern, text, 0, &match); g_match_info_matches(match);
         g_match_info_next(match, NULL)) {
        g_autofree char *word = g_match_info_fetch(match, 0);
        g_auto(GStrv) groups = g_strsplit(word, ",", -1);
        g_autofree char *plain = g_strjoinv("", groups);
        const char *point = strchr(plain, '.');
        double step = point != NULL ? pow(10, -(double)strlen(point + 1)) : 1;
        told |= fabs(g_ascii_strtod(plain, NULL) - number) <= step / 2 * (1 + 1e-9);
    }
    return told;
}

static WbKit any_kit(const WbProblem *problem, WbRandom *random)
{
    return (WbKit){.panel = (int)wb_random_below(random, problem->n_panels),
                   .n_series = 1 + (int)wb_random_below(random, 3),
                   .n_parallel = 1 + (int)wb_random_below(random, 4),
                   .controller = (int)wb_random_below(random, problem->n_controllers),
                   .n_controllers = 1 + (int)wb_random_below(random, 2),
                   .storage = (int)wb_random_below(random, problem->n_storage),
                   .bank_series = 1 + (int)wb_random_below(random, 2),
                   .bank_parallel = 1 + (int)wb_random_below(random, 3),
                   .inverter = (int)wb_random_below(random, problem->n_inverters),
                   .dcdc = (int)wb_random_below(random, problem->n_dcdc)};
}

/* Of any kit, whatever it keeps or breaks: the sentence tells both numbers that were compared. */
static void test_both_numbers(Fixture *f, gconstpointer data)
{
    WbRandom random;
    wb_random_seed(&random, 20261128);
    bool met[WB_N_RULES][2] = {0};
    for (int round = 0; round < 400; round++) {
        WbVerdict verdict;
        WbKit kit = any_kit(f->problem, &random);
        wb_judge_without_year(f->problem, &kit, &verdict);
        for (int r = 0; r < WB_N_RULES; r++) {
            const WbFinding *of = &verdict.finding[r];
            if (isnan(of->value) || isnan(of->limit))
                continue;
            double unit = r == WB_RULE_MONEY ? 0.01 : 1;
            g_autofree char *text = wb_words_finding(f->problem, &verdict, of);
            if (!tells(text, of->value * unit) || !tells(text, of->limit * unit))
                g_error("%s: %.9g and %.9g in: %s", wb_rule_info((WbRule)r)->code, of->value,
                        of->limit, text);
            met[r][of->holds] = true;
        }
    }
    int n = 0;
    for (int r = 0; r < WB_N_RULES; r++)
        n += met[r][0] + met[r][1];
    g_test_message("%d of %d sentences met", n, 2 * WB_N_RULES);
    g_assert_cmpint(n, >=, 70);
}

static void test_idle(Fixture *f, gconstpointer data)
{
    WbFinding idle = finding(WB_RULE_SYSTEM_VOLTAGE, true, NAN, NAN);
    g_autofree char *text = wb_words_finding(f->problem, &f->verdict, &idle);
    g_assert_cmpstr(text, ==, "This does not concern the kit.");
    g_autofree char *caution = wb_words_safety(f->problem, &f->verdict, &idle);
    g_assert_null(caution);
}

/* Every assumption is named in a sentence of its own behind the first. */
static void test_assumed(Fixture *f, gconstpointer data)
{
    for (uint32_t bit = 1; bit <= WB_ASSUMED_LAST; bit <<= 1) {
        WbFinding plain = finding(WB_RULE_COLD_VOC, true, 40, 50);
        WbFinding assuming = plain;
        assuming.assumed = bit;
        g_autofree char *first = wb_words_finding(f->problem, &f->verdict, &plain);
        g_autofree char *both = wb_words_finding(f->problem, &f->verdict, &assuming);
        g_assert_true(g_str_has_prefix(both, first));
        g_assert_nonnull(strstr(both + strlen(first), "The data sheet of "));
        assert_is_sentence(both);
    }
}

static void test_limit_off(Fixture *f, gconstpointer data)
{
    WbFinding over = finding(WB_RULE_WEIGHT, false, 130, 120);
    over.severity = WB_NOTE;
    g_autofree char *text = wb_words_finding(f->problem, &f->verdict, &over);
    g_assert_nonnull(strstr(text, "switched this limit off"));
}

static bool any_holds(char **texts, const char *wanted)
{
    for (int i = 0; texts[i] != NULL; i++)
        if (strstr(texts[i], wanted) != NULL)
            return true;
    return false;
}

/* Cautions follow the chemistry and what is in the kit. */
static void test_safety_notes(Fixture *f, gconstpointer data)
{
    bool met[2] = {false, false};
    for (int i = 0; i < (int)f->problem->n_storage; i++) {
        WbVerdict verdict = f->verdict;
        verdict.kit.storage = i;
        const WbChemistry *chemistry = f->problem->storage[i].chemistry;
        bool lithium = chemistry->family == WB_FAMILY_LITHIUM;
        g_auto(GStrv) notes = wb_words_safety_notes(f->problem, &verdict);
        g_assert_cmpint(any_holds(notes, "dangerous-goods"), ==, lithium);
        g_assert_cmpint(any_holds(notes, "hydrogen"), ==, chemistry->gassing != WB_GAS_NONE);
        g_assert_true(any_holds(notes, "changeover"));
        g_assert_true(any_holds(notes, "licensed practice"));
        met[lithium] = true;
    }
    g_assert_true(met[0] && met[1]);
    WbVerdict without = f->verdict;
    without.kit.inverter = 0;
    g_auto(GStrv) notes = wb_words_safety_notes(f->problem, &without);
    g_assert_false(any_holds(notes, "changeover"));
}

static void test_kit(Fixture *f, gconstpointer data)
{
    WbKit kit = f->verdict.kit;
    g_autofree char *with = wb_words_kit(f->problem, &kit);
    g_assert_true(g_str_has_prefix(with, "2 x "));
    g_assert_nonnull(strstr(with, "W inverter"));
    g_assert_nonnull(strstr(with, "DC-DC charger"));
    kit.inverter = kit.dcdc = 0;
    kit.n_controllers = 2;
    g_autofree char *without = wb_words_kit(f->problem, &kit);
    g_assert_null(strstr(without, "inverter"));
    g_assert_null(strstr(without, "DC-DC"));
    g_assert_nonnull(strstr(without, ", 2 x "));
}

static void test_money(void)
{
    static const struct {
        int64_t minor;
        const char *currency, *text;
    } rows[] = {
        {161200, "EUR", "1,612.00 EUR"},       {5, "GBP", "0.05 GBP"},     {0, "EUR", "0.00 EUR"},
        {123456789, "JPY", "123,456,789 JPY"}, {1234, "KWD", "1.234 KWD"},
    };
    for (size_t i = 0; i < G_N_ELEMENTS(rows); i++) {
        g_autofree char *text = wb_words_money(rows[i].minor, rows[i].currency);
        g_assert_cmpstr(text, ==, rows[i].text);
    }
}

int main(int argc, char **argv)
{
    g_test_init(&argc, &argv, NULL);
#define ADD(name, test) g_test_add("/words/" name, Fixture, NULL, set_up, test, tear_down)
    ADD("every-rule", test_every_rule);
    ADD("exact", test_exact);
    ADD("numbers-told-apart", test_numbers_told_apart);
    ADD("load-voltage", test_load_voltage);
    ADD("hangs-on-1-mm", test_hangs_on_1_mm);
    ADD("both-numbers", test_both_numbers);
    ADD("idle", test_idle);
    ADD("assumed", test_assumed);
    ADD("limit-off", test_limit_off);
    ADD("safety-notes", test_safety_notes);
    ADD("kit", test_kit);
    g_test_add_func("/words/money", test_money);
    return g_test_run();
}
