#include "part_edit.h"

#include "figures_text.h"
#include "format.h"
#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

static char *curve_text(const WbCurve *curve)
{
    GString *text = g_string_new(NULL);
    for (int i = 0; i < curve->n; i++) {
        g_autofree char *x = wb_text_plain(curve->point[i].x);
        g_autofree char *y = wb_text_plain(curve->point[i].y);
        g_string_append_printf(text, "%s%s %s", i > 0 ? "; " : "", x, y);
    }
    return g_string_free(text, FALSE);
}

char *wb_part_edit_text(const WbField *field, const void *record)
{
    const void *at = wb_field_in(field, record);
    switch (field->type) {
    case WB_FIELD_NUMBER:
        return isnan(*(const double *)at) ? g_strdup("") : wb_text_plain(*(const double *)at);
    case WB_FIELD_INTEGER:
        return g_strdup_printf("%" G_GINT64_FORMAT, *(const int64_t *)at);
    case WB_FIELD_TEXT:
    case WB_FIELD_WORDS:
        return g_strdup(*(const char *const *)at);
    case WB_FIELD_FLAG:
        return g_strdup(*(const bool *)at ? "1" : "0");
    case WB_FIELD_CHOICE:
        return g_strdup(field->choices[*(const int64_t *)at]);
    case WB_FIELD_CURVE:
        return curve_text(at);
    }
    g_return_val_if_reached(NULL);
}

/* "0.5 to 500 V" (transfer full) */
static char *range_text(const WbField *field, double low, double high)
{
    g_autofree char *from = wb_text_plain(low), *to = wb_text_plain(high);
    return g_strdup_printf(field->unit[0] != '\0' ? _("%s to %s %s") : _("%s to %s"), from, to,
                           field->unit);
}

static char *refusal(const WbField *field, const char *text)
{
    g_autofree char *range = range_text(field, field->least, field->most);
    return g_strdup_printf(_("%s: “%s” cannot be; accepted is a %s of %s."), _(field->label), text,
                           field->type == WB_FIELD_INTEGER ? _("whole number") : _("number"),
                           range);
}

char *wb_part_edit_question(const WbField *field, const void *record)
{
    const void *at = wb_field_in(field, record);
    double value = NAN;
    if (field->type == WB_FIELD_NUMBER)
        value = *(const double *)at;
    else if (field->type == WB_FIELD_INTEGER)
        value = (double)*(const int64_t *)at;
    /* 0 stands for "not known" where a whole number may be missing. */
    gboolean unknown = field->type == WB_FIELD_INTEGER && field->may_be_missing && value == 0;
    if (isnan(value) || unknown || field->choices != NULL ||
        (value >= field->usual_low && value <= field->usual_high))
        return NULL;
    g_autofree char *range = range_text(field, field->usual_low, field->usual_high);
    return g_strdup_printf(_("Is this right? Such parts usually have %s."), range);
}

static gboolean read_number(const WbField *field, const char *text, void *record)
{
    double value;
    if (!wb_format_parse(text, &value))
        return FALSE;
    gboolean in_range = value >= field->least && value <= field->most;
    gboolean missing = isnan(value) && field->may_be_missing;
    if (field->type == WB_FIELD_NUMBER && (in_range || missing)) {
        *(double *)wb_field_at(field, record) = missing ? WB_MISSING : value;
        return TRUE;
    }
    if (field->type == WB_FIELD_INTEGER && (missing || (in_range && value == floor(value)))) {
        *(int64_t *)wb_field_at(field, record) = missing ? 0 : (int64_t)value;
        return TRUE;
    }
    return FALSE;
}

/* "0.1 0.85; 0.5 0.92": pairs, x ascending. */
static gboolean read_curve(const WbField *field, const char *text, void *record)
{
    WbCurve curve = {0};
    g_auto(GStrv) pairs = g_strsplit(text, ";", -1);
    for (guint i = 0; pairs[i] != NULL; i++) {
        g_auto(GStrv) words = g_strsplit(g_strstrip(pairs[i]), " ", 2);
        WbPoint point;
        if (pairs[i][0] == '\0')
            continue;
        if (curve.n == WB_MAX_POINTS || words[1] == NULL || !wb_format_parse(words[0], &point.x) ||
            !wb_format_parse(words[1], &point.y))
            return FALSE;
        gboolean rises = curve.n == 0 || point.x > curve.point[curve.n - 1].x;
        if (!(rises && isfinite(point.x) && point.y >= field->least && point.y <= field->most))
            return FALSE;
        curve.point[curve.n++] = point;
    }
    if (curve.n == 0 && !field->may_be_missing)
        return FALSE;
    *(WbCurve *)wb_field_at(field, record) = curve;
    return TRUE;
}

static gboolean read_choice(const WbField *field, const char *text, void *record)
{
    for (int64_t i = 0; field->choices[i] != NULL; i++)
        if (g_str_equal(field->choices[i], text)) {
            *(int64_t *)wb_field_at(field, record) = i;
            return TRUE;
        }
    return FALSE;
}

static gboolean read_text(const WbField *field, const char *text, void *record)
{
    if (text[0] == '\0' && !field->may_be_missing)
        return FALSE;
    *(const char **)wb_field_at(field, record) = text;
    return TRUE;
}

static gboolean read_any(const WbField *field, const char *text, void *record)
{
    switch (field->type) {
    case WB_FIELD_NUMBER:
    case WB_FIELD_INTEGER:
        return read_number(field, text, record);
    case WB_FIELD_CURVE:
        return read_curve(field, text, record);
    case WB_FIELD_CHOICE:
        return read_choice(field, text, record);
    case WB_FIELD_FLAG:
        *(bool *)wb_field_at(field, record) = g_str_equal(text, "1");
        return TRUE;
    case WB_FIELD_TEXT:
    case WB_FIELD_WORDS:
        return read_text(field, text, record);
    }
    g_return_val_if_reached(FALSE);
}

WbTyped wb_part_edit_read(const WbField *field, const char *text, void *record, char **sentence)
{
    *sentence = NULL;
    if (!read_any(field, text, record)) {
        if (field->type == WB_FIELD_CURVE)
            *sentence = g_strdup(_("Expected are pairs like “0.1 0.85; 0.5 0.92”, the first of "
                                   "each rising, the second within 0.01 to 1."));
        else if (field->type == WB_FIELD_NUMBER || field->type == WB_FIELD_INTEGER)
            *sentence = refusal(field, text);
        else
            *sentence = g_strdup_printf(_("%s must not be empty."), _(field->label));
        return WB_TYPED_REFUSED;
    }
    *sentence = wb_part_edit_question(field, record);
    return *sentence != NULL ? WB_TYPED_UNUSUAL : WB_TYPED_GOOD;
}
