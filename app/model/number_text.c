/* The one reading of numbers that people type or paste. */
#include "figures_text.h"
#include <math.h>
#include <string.h>

#define MOST_LENGTH 64
#define DIGITS "0123456789"

/* What sets thousands apart besides the comma: any space, thin and unbreakable ones too, and the
 * apostrophe. */
static gboolean is_gap(gunichar c)
{
    return g_unichar_isspace(c) || c == '\'' || c == 0x2019;
}

/* Digits, commas and points, every gap as one ' ', the sign apart; NULL: something else is in it.
 * (transfer full) */
static char *normalise(const char *text, gboolean *negative)
{
    g_autofree char *copy = g_strstrip(g_strdup(text));
    const char *c = copy;
    gunichar sign = g_utf8_get_char(c);
    *negative = sign == '-' || sign == 0x2212;
    if (*negative || sign == '+')
        c = g_utf8_next_char(c);
    g_autoptr(GString) plain = g_string_new(NULL);
    for (; *c != '\0'; c = g_utf8_next_char(c)) {
        gunichar symbol = g_utf8_get_char(c);
        if (is_gap(symbol))
            g_string_append_c(plain, ' ');
        else if (symbol < 128 && strchr(DIGITS ",.", (int)symbol) != NULL)
            g_string_append_c(plain, (char)symbol);
        else
            return NULL;
    }
    return g_strdup(plain->str);
}

/* "12,345,678": one to three digits that do not begin with 0, then threes. */
static gboolean is_grouped(const char *text, char mark)
{
    const char stop[] = {mark, '\0'};
    gsize first = strspn(text, DIGITS);
    if (first < 1 || first > 3 || text[0] == '0' || text[first] != mark)
        return FALSE;
    for (text += first; *text != '\0'; text += 4)
        if (*text != mark || strcspn(text + 1, stop) < 3 || strspn(text + 1, DIGITS) != 3)
            return FALSE;
    return TRUE;
}

/* The decimal mark: the point, or the only comma where it does not group; NULL: none. */
static char *decimal_mark(char *plain)
{
    char *mark = strchr(plain, '.');
    if (mark != NULL || is_grouped(plain, ','))
        return mark;
    char *comma = strchr(plain, ',');
    return comma != NULL && strchr(comma + 1, ',') == NULL ? comma : NULL;
}

static gboolean is_digits(const char *text)
{
    return text[strspn(text, DIGITS)] == '\0';
}

static void drop_groups(GString *out, const char *whole)
{
    for (; *whole != '\0'; whole++)
        if (g_ascii_isdigit(*whole))
            g_string_append_c(out, *whole);
}

gboolean wb_text_read_number(const char *text, double *value)
{
    gboolean negative;
    if (strlen(text) > MOST_LENGTH || !g_utf8_validate(text, -1, NULL))
        return FALSE;
    g_autofree char *whole = normalise(text, &negative);
    char *mark = whole != NULL ? decimal_mark(whole) : NULL;
    const char *fraction = mark != NULL ? mark + 1 : "";
    if (mark != NULL)
        *mark = '\0';
    if (whole == NULL || !is_digits(fraction) || (whole[0] == '\0' && fraction[0] == '\0'))
        return FALSE;
    if (!is_digits(whole) && !is_grouped(whole, ',') && !is_grouped(whole, ' '))
        return FALSE;
    g_autoptr(GString) plain = g_string_new(NULL);
    drop_groups(plain, whole);
    g_string_append_printf(plain, ".%s", fraction);
    double read = g_ascii_strtod(plain->str, NULL);
    *value = negative ? -read : read;
    return TRUE;
}
