/* What more money, weight or roof would buy, in words. A step too small to show in the figures is
 * passed over. */
#include "words_more.h"
#include "figures_text.h"
#include "money.h"

#include <glib/gi18n-lib.h>
#include <math.h>

static int decimals_of(WbCriterion criterion, const char *currency)
{
    if (criterion == WB_CRITERION_COST) {
        int decimals = wb_currency_decimals(currency);
        return decimals < 0 ? 2 : decimals;
    }
    if (criterion == WB_CRITERION_ROOF)
        return 2;
    return criterion == WB_CRITERION_USABLE ? 0 : 1;
}

static double scale_of(WbCriterion criterion, const char *currency)
{
    return criterion == WB_CRITERION_COST ? pow(10, -decimals_of(criterion, currency)) : 1;
}

char *wb_words_curve_number(WbCriterion criterion, double value, const char *currency)
{
    return wb_text_number(value * scale_of(criterion, currency), decimals_of(criterion, currency));
}

char *wb_words_curve_figure(WbCriterion criterion, double value, const char *currency)
{
    g_autofree char *number = wb_words_curve_number(criterion, value, currency);
    if (criterion == WB_CRITERION_COST)
        return g_strdup_printf("%s %s", number, currency);
    if (criterion == WB_CRITERION_WEIGHT)
        return g_strdup_printf(_("%s kg"), number);
    if (criterion == WB_CRITERION_USABLE)
        return g_strdup_printf(_("%s Wh"), number);
    return criterion == WB_CRITERION_ROOF ? g_strdup_printf(_("%s m2"), number)
                                          : g_strdup_printf(_("%s h"), number);
}

/* So much more is needed: never told less than it is. */
static char *more_text(WbCriterion criterion, double more, const char *currency)
{
    double fine = pow(10, decimals_of(criterion, currency)) * scale_of(criterion, currency);
    return wb_words_curve_figure(criterion, ceil(more * fine - 1e-6) / fine, currency);
}

const char *wb_words_curve_title(WbCriterion resource, WbCriterion gain)
{
    gboolean usable = gain == WB_CRITERION_USABLE;
    if (resource == WB_CRITERION_COST)
        return usable ? _("What more money buys: the most usable capacity")
                      : _("What more money buys: the fewest dark hours a year");
    if (resource == WB_CRITERION_WEIGHT)
        return usable ? _("What more weight buys: the most usable capacity")
                      : _("What more weight buys: the fewest dark hours a year");
    return usable ? _("What more roof buys: the most usable capacity")
                  : _("What more roof buys: the fewest dark hours a year");
}

/* The next step after this one whose gain reads otherwise; n: none. */
static size_t next_step(const WbMoreCurve *curve, size_t at, const char *currency)
{
    g_autofree char *now = wb_words_curve_figure(curve->gain, curve->step[at].gain, currency);
    for (size_t i = at + 1; i < curve->n; i++) {
        g_autofree char *then = wb_words_curve_figure(curve->gain, curve->step[i].gain, currency);
        if (!g_str_equal(now, then))
            return i;
    }
    return curve->n;
}

typedef struct {
    const WbMoreCurve *curve;
    const char *currency;
    GString *out;
} Words;

static char *gain_text(const Words *words, size_t i)
{
    return wb_words_curve_figure(words->curve->gain, words->curve->step[i].gain, words->currency);
}

static void append_rise(const Words *words, double base, size_t at, size_t next, gboolean limit)
{
    const WbMoreCurve *curve = words->curve;
    gboolean usable = curve->gain == WB_CRITERION_USABLE;
    g_autofree char *more =
        more_text(curve->resource, curve->step[next].resource - base, words->currency);
    g_autofree char *from = gain_text(words, at), *to = gain_text(words, next);
    if (limit)
        g_string_append_printf(
            words->out,
            usable
                ? _("For %s more than your limit the most usable capacity rises from %s to %s.")
                : _("For %s more than your limit the fewest dark hours a year fall from %s to %s."),
            more, from, to);
    else
        g_string_append_printf(
            words->out,
            usable
                ? _("For %s more than the kit in hand the most usable capacity rises from %s to "
                    "%s.")
                : _("For %s more than the kit in hand the fewest dark hours a year fall from %s to "
                    "%s."),
            more, from, to);
}

/* Nothing better than at this step comes behind it. */
static void append_end(const Words *words, size_t at)
{
    const WbMoreCurve *curve = words->curve;
    g_autofree char *gain = gain_text(words, at);
    g_autofree char *reaches =
        wb_words_curve_figure(curve->resource, curve->reaches, words->currency);
    gboolean usable = curve->gain == WB_CRITERION_USABLE;
    if (!usable && curve->step[at].gain <= 0)
        g_string_append(
            words->out,
            isinf(curve->limit)
                ? _("The fewest dark hours are none at all: more buys nothing here.")
                : _("A kit within your limit has no dark hour all year: more buys nothing here."));
    else if (isinf(curve->reaches))
        g_string_append_printf(words->out,
                               usable ? _("No kit that works has more usable capacity than %s.")
                                      : _("No kit that works has fewer dark hours than %s a year."),
                               gain);
    else
        g_string_append_printf(words->out,
                               usable ? _("Up to %s, half as much again as your limit, no kit has "
                                          "more usable capacity than %s.")
                                      : _("Up to %s, half as much again as your limit, no kit has "
                                          "fewer dark hours than %s a year."),
                               reaches, gain);
}

static void append_from(const Words *words, double base, gboolean limit)
{
    const WbMoreCurve *curve = words->curve;
    size_t at = (size_t)wb_more_curve_at(curve, base);
    size_t next = next_step(curve, at, words->currency);
    if (next < curve->n)
        append_rise(words, base, at, next, limit);
    else
        append_end(words, at);
}

/* No kit works within the limit. */
static void append_first(const Words *words)
{
    const WbMoreCurve *curve = words->curve;
    if (curve->n == 0) {
        g_string_append(words->out, isinf(curve->reaches)
                                        ? _("No kit works.")
                                        : _("No kit works, not even with half as much again as "
                                            "your limit."));
        return;
    }
    g_autofree char *more =
        more_text(curve->resource, curve->step[0].resource - curve->limit, words->currency);
    g_autofree char *gain = gain_text(words, 0);
    g_string_append_printf(words->out,
                           curve->gain == WB_CRITERION_USABLE
                               ? _("No kit works within your limit; for %s more there is one, with "
                                   "%s of usable capacity.")
                               : _("No kit works within your limit; for %s more there is one, with "
                                   "%s of dark hours a year."),
                           more, gain);
}

/* Another kit that needs no more gives more. */
static void append_better(const Words *words, size_t at, double gives)
{
    const WbMoreCurve *curve = words->curve;
    gboolean usable = curve->gain == WB_CRITERION_USABLE;
    g_autofree char *best = gain_text(words, at);
    g_autofree char *now = wb_words_curve_figure(curve->gain, gives, words->currency);
    gboolean better = usable ? curve->step[at].gain > gives : curve->step[at].gain < gives;
    if (!better || g_str_equal(best, now))
        return;
    g_string_append_printf(words->out,
                           usable ? _("For no more than the kit in hand another has %s of usable "
                                      "capacity in place of %s. ")
                                  : _("For no more than the kit in hand another leaves %s a "
                                      "year dark in place of %s. "),
                           best, now);
}

char *wb_words_curve(const WbProblem *problem, const WbMoreCurve *curve, double needs, double gives)
{
    Words words = {curve, problem->brief->currency, g_string_new(NULL)};
    ptrdiff_t at = isnan(needs) ? -1 : wb_more_curve_at(curve, needs);
    if (wb_more_curve_at(curve, curve->limit) < 0) {
        append_first(&words);
        return g_string_free(words.out, FALSE);
    }
    if (at >= 0 && !isnan(gives))
        append_better(&words, (size_t)at, gives);
    size_t next = at >= 0 ? next_step(curve, (size_t)at, words.currency) : curve->n;
    gboolean within =
        next < curve->n && needs < curve->limit && curve->step[next].resource <= curve->limit;
    if (within)
        append_rise(&words, needs, (size_t)at, next, FALSE);
    if (!isinf(curve->limit) || !within) {
        if (within)
            g_string_append_c(words.out, ' ');
        append_from(&words, curve->limit, TRUE);
    }
    return g_string_free(words.out, FALSE);
}
