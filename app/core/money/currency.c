/* Currencies: how many decimals a minor unit has, and amounts turned into the brief's currency. */
#include "money.h"
#include "round.h"
#include <string.h>

#define MOST_MINOR 0x1p51 /* halves a double still holds exactly */

/* ISO 4217, list one: currencies whose minor unit is not a hundredth. */
static const struct {
    char code[4];
    int decimals;
} uncommon[] = {
    {"BHD", 3}, {"BIF", 0}, {"CLF", 4}, {"CLP", 0}, {"DJF", 0}, {"GNF", 0}, {"IQD", 3},
    {"ISK", 0}, {"JOD", 3}, {"JPY", 0}, {"KMF", 0}, {"KRW", 0}, {"KWD", 3}, {"LYD", 3},
    {"OMR", 3}, {"PYG", 0}, {"RWF", 0}, {"TND", 3}, {"UGX", 0}, {"UYI", 0}, {"UYW", 4},
    {"VND", 0}, {"VUV", 0}, {"XAF", 0}, {"XOF", 0}, {"XPF", 0},
};

int wb_currency_decimals(const char *currency)
{
    if (strspn(currency, "ABCDEFGHIJKLMNOPQRSTUVWXYZ") != 3 || currency[3] != '\0')
        return -1;
    for (size_t i = 0; i < sizeof uncommon / sizeof uncommon[0]; i++)
        if (strcmp(uncommon[i].code, currency) == 0)
            return uncommon[i].decimals;
    return 2;
}

static double rate_of(const WbBrief *brief, const char *currency)
{
    if (strcmp(currency, brief->currency) == 0)
        return 1;
    for (size_t i = 0; i < brief->n_rates; i++)
        if (strcmp(brief->rates[i].currency, currency) == 0)
            return brief->rates[i].rate;
    return WB_MISSING;
}

bool wb_money_convert(const WbBrief *brief, int64_t minor, const char *currency,
                      int64_t *converted_minor)
{
    static const double tens[] = {1, 10, 100, 1000, 10000};
    int from = wb_currency_decimals(currency), into = wb_currency_decimals(brief->currency);
    double rate = rate_of(brief, currency);
    if (from < 0 || into < 0 || isnan(rate))
        return false;
    double amount = (double)minor * rate;
    amount = into >= from ? amount * tens[into - from] : amount / tens[from - into];
    if (!(fabs(amount) < MOST_MINOR))
        return false;
    *converted_minor = wb_round_half_up(amount);
    return true;
}

int64_t wb_allowance_minor(int64_t parts_minor, double sundries_pct)
{
    return wb_round_half_up((double)parts_minor * sundries_pct / 100);
}
