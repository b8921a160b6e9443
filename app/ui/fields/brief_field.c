#include "brief_field.h"

#include "figures_text.h"
#include "format.h"
#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

char *wb_brief_field_pointer(const WbBriefField *field, int index)
{
    const char *mark = strchr(field->pointer, '#');
    if (mark == NULL)
        return g_strdup(field->pointer);
    return g_strdup_printf("%.*s%d%s", (int)(mark - field->pointer), field->pointer, index,
                           mark + 1);
}

static double scale_of(const WbBriefField *field)
{
    return field->scale != 0 ? field->scale : 1;
}

static gboolean stands_empty(const WbBriefField *field, WbDocument *document, int index)
{
    if (field->empty_json == NULL)
        return FALSE;
    g_autofree char *pointer = wb_brief_field_pointer(field, index);
    g_autofree char *json = wb_document_get_json(document, pointer);
    return json == NULL || g_str_equal(json, field->empty_json);
}

/* Takes the number; zeros up to so many decimals. */
static char *padded(char *number, int decimals)
{
    const char *point = strchr(number, '.');
    int given = point != NULL ? (int)strlen(point + 1) : 0;
    if (given >= decimals || strchr(number, 'e') != NULL)
        return number;
    GString *text = g_string_new(number);
    g_free(number);
    if (given == 0)
        g_string_append_c(text, '.');
    for (; given < decimals; given++)
        g_string_append_c(text, '0');
    return g_string_free(text, FALSE);
}

char *wb_brief_field_text(const WbBriefField *field, WbDocument *document, int index)
{
    const WbBrief *brief = wb_document_get_brief(document);
    if (stands_empty(field, document, index))
        return g_strdup("");
    if (field->kind == WB_BRIEF_TEXT) {
        const char *text = field->text(brief, index);
        return g_strdup(text != NULL ? text : "");
    }
    double value = field->number(brief, index);
    if (isnan(value))
        return g_strdup("");
    double shown = value * scale_of(field);
    /* A large seed has no room for the digits that rounding works on. */
    if (fabs(shown) < 1e9)
        shown = round(shown * 1e6) / 1e6;
    return padded(wb_text_plain(shown), field->decimals);
}

char *wb_brief_field_json(const WbBriefField *field, const char *text, char **sentence)
{
    double value;
    *sentence = NULL;
    if (field->kind == WB_BRIEF_TEXT)
        return wb_text_json(text);
    if (!wb_format_parse(text, &value)) {
        *sentence = g_strdup_printf(_("“%s” is not a number such as 12.5."), text);
        return NULL;
    }
    if (!isnan(value))
        return wb_text_plain(value / scale_of(field));
    if (field->empty_json != NULL)
        return g_strdup(field->empty_json);
    *sentence = g_strdup_printf(_("%s needs a number."), _(field->title));
    return NULL;
}
