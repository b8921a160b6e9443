#include "fit_row.h"

#include "change_list.h"
#include "figures_text.h"
#include "roof_words.h"
#include <glib/gi18n-lib.h>

#define UNKNOWN "\342\200\223"

#define NAME_CHARS 22 /* of a panel: maker and model */

struct _WbFitRow {
    GtkListBoxRow parent_instance;
    WbRoofStudy *study;
    char *id;
    GtkLabel *cell[WB_FIT_COLUMNS];
    GtkLabel *more;
    GtkWidget *search, *changes;
};

G_DEFINE_FINAL_TYPE(WbFitRow, wb_fit_row, GTK_TYPE_LIST_BOX_ROW)

static guint change_signal;

/* ---- figures ---- */

static double load_kg(const WbStudyPanel *panel)
{
    return panel->panel->part.weight_kg + panel->panel->mount_kg;
}

static gboolean is_fitted(const WbStudyPanel *panel)
{
    return panel->known && panel->refused == NULL;
}

double wb_fit_row_key(const WbStudyPanel *panel, WbFitColumn column)
{
    switch (column) {
    case WB_FIT_SIZE:
        return (double)panel->panel->length_mm * (double)panel->panel->width_mm;
    case WB_FIT_WATTS:
        return panel->panel->power_w;
    case WB_FIT_MOST:
        return is_fitted(panel) ? panel->fit.most : -1;
    case WB_FIT_ALL_WATTS:
        return is_fitted(panel) ? panel->fit.most * panel->panel->power_w : -1;
    case WB_FIT_LOAD:
        return is_fitted(panel) ? panel->fit.most * load_kg(panel) : -1;
    case WB_FIT_PANEL:
    case WB_FIT_ANSWER:
    case WB_FIT_COLUMNS:
        break;
    }
    return 0;
}

gboolean wb_fit_column_is_words(WbFitColumn column)
{
    return column == WB_FIT_PANEL || column == WB_FIT_ANSWER;
}

/* ---- words ---- */

static void add_sentence(GString *out, const char *sentence)
{
    if (sentence != NULL && *sentence != '\0')
        g_string_append_printf(out, "%s%s", out->len > 0 ? "\n" : "", sentence);
}

/* The panels fit, but the roof does not carry them. (transfer full) NULL: it does */
static char *load_words(const WbStudyPanel *panel, const WbRoof *roof)
{
    double one = load_kg(panel), all = panel->fit.most * one;
    if (isnan(roof->max_load_kg) || isnan(one) || all <= roof->max_load_kg || one <= 0)
        return NULL;
    g_autofree char *kg = wb_text_number(all, 1);
    g_autofree char *limit = wb_text_number(roof->max_load_kg, 1);
    /* Translators: two weights in kg, a number of panels. */
    return g_strdup_printf(_("Together they weigh %s kg; the roof carries %s kg, %d of them."), kg,
                           limit, (int)(roof->max_load_kg / one));
}

static char *height_words(const WbPanel *panel, const WbRoof *roof)
{
    int64_t top = roof->standoff_mm + panel->thickness_mm;
    if (roof->max_height_mm <= 0 || top <= roof->max_height_mm)
        return NULL;
    g_autofree char *stands = wb_text_number((double)top, 0);
    g_autofree char *limit = wb_text_number((double)roof->max_height_mm, 0);
    return g_strdup_printf(_("It stands %s mm over the roof; %s mm are allowed."), stands, limit);
}

static char *searching_words(const WbStudyPanel *panel)
{
    g_autofree char *steps = wb_text_number((double)panel->nodes, 0);
    return g_strdup_printf(_("Searching on: %s steps so far."), steps);
}

/* What stands under the answer, but for the changes. (transfer full) */
static char *more_words(WbFitRow *self, const WbStudyPanel *panel, const WbBrief *brief)
{
    GString *out = g_string_new(NULL);
    g_autofree char *load = is_fitted(panel) ? load_words(panel, &brief->roof) : NULL;
    g_autofree char *height = height_words(panel->panel, &brief->roof);
    add_sentence(out, load);
    add_sentence(out, height);
    if (g_strcmp0(wb_roof_study_get_searched(self->study), self->id) == 0) {
        g_autofree char *searching = searching_words(panel);
        add_sentence(out, searching);
    }
    return g_string_free(out, FALSE);
}

static char *answer_words(const WbStudyPanel *panel)
{
    if (panel->refused != NULL)
        return g_strdup(panel->refused);
    return panel->known ? wb_roof_fit_words(&panel->fit) : g_strdup(_("being worked out"));
}

/* ---- showing ---- */

static void set_number(WbFitRow *self, WbFitColumn column, double value, int decimals)
{
    g_autofree char *text = value >= 0 ? wb_text_number(value, decimals) : g_strdup(UNKNOWN);
    gtk_label_set_text(self->cell[column], text);
}

static void show_figures(WbFitRow *self, const WbStudyPanel *panel)
{
    const WbPanel *model = panel->panel;
    g_autofree char *name =
        g_strstrip(g_strdup_printf("%s %s", model->part.maker, model->part.model));
    g_autofree char *length = wb_text_number((double)model->length_mm, 0);
    g_autofree char *width = wb_text_number((double)model->width_mm, 0);
    g_autofree char *size = g_strdup_printf("%s \303\227 %s", length, width);
    gtk_label_set_text(self->cell[WB_FIT_PANEL], name);
    gtk_label_set_text(self->cell[WB_FIT_SIZE], size);
    for (WbFitColumn column = WB_FIT_WATTS; column <= WB_FIT_LOAD; column++)
        set_number(self, column, wb_fit_row_key(panel, column), column == WB_FIT_LOAD ? 1 : 0);
}

/* The button is there where nothing is decided, and while the search it began runs. */
static void show_button(WbFitRow *self, const WbStudyPanel *panel)
{
    gboolean runs = g_strcmp0(wb_roof_study_get_searched(self->study), self->id) == 0;
    gboolean open = is_fitted(panel) &&
                    wb_roof_answer(&panel->fit, panel->fit.most + 1) == WB_FIT_UNDECIDED &&
                    panel->fit.most < WB_STUDY_MOST;
    gtk_button_set_label(GTK_BUTTON(self->search), runs ? _("Stop") : _("Search on"));
    gtk_widget_set_visible(self->search, runs || open);
}

void wb_fit_row_show(WbFitRow *self, const WbBrief *brief, gboolean full)
{
    g_return_if_fail(WB_IS_FIT_ROW(self));
    int index = wb_roof_study_find(self->study, self->id);
    if (index < 0)
        return;
    const WbStudyPanel *panel = wb_roof_study_get(self->study, (gsize)index);
    g_autofree char *answer = answer_words(panel);
    g_autofree char *more = more_words(self, panel, brief);
    int n_changes = full ? panel->n_changes : MIN(panel->n_changes, 1);
    g_autofree char *changes = wb_roof_change_words(&brief->roof, panel->change, n_changes);
    show_figures(self, panel);
    show_button(self, panel);
    gtk_label_set_text(self->cell[WB_FIT_ANSWER], answer);
    gtk_label_set_text(self->more, more);
    gtk_widget_set_visible(GTK_WIDGET(self->more), *more != '\0');
    wb_change_list_show(WB_CHANGE_LIST(self->changes), panel, &brief->roof, n_changes);
    g_autofree char *spoken =
        g_strdup_printf("%s: %s. %s %s", gtk_label_get_text(self->cell[WB_FIT_PANEL]), answer, more,
                        changes != NULL ? changes : "");
    gtk_accessible_update_property(GTK_ACCESSIBLE(self), GTK_ACCESSIBLE_PROPERTY_LABEL, spoken, -1);
}

const char *wb_fit_row_get_id(WbFitRow *self)
{
    g_return_val_if_fail(WB_IS_FIT_ROW(self), NULL);
    return self->id;
}

int wb_fit_row_get_change(WbFitRow *self)
{
    g_return_val_if_fail(WB_IS_FIT_ROW(self), -1);
    return wb_change_list_get_shown(WB_CHANGE_LIST(self->changes));
}

void wb_fit_row_let_go(WbFitRow *self)
{
    g_return_if_fail(WB_IS_FIT_ROW(self));
    wb_change_list_let_go(WB_CHANGE_LIST(self->changes));
}

/* ---- building ---- */

static void on_change(WbFitRow *self)
{
    g_signal_emit(self, change_signal, 0);
}

static void on_search(WbFitRow *self)
{
    if (g_strcmp0(wb_roof_study_get_searched(self->study), self->id) == 0)
        wb_roof_study_stop_search(self->study);
    else
        wb_roof_study_search_on(self->study, self->id);
}

GtkWidget *wb_fit_line_new(void)
{
    GtkWidget *line = gtk_box_new(GTK_ORIENTATION_HORIZONTAL, 12);
    gtk_widget_set_margin_start(line, 6);
    gtk_widget_set_margin_end(line, 6);
    return line;
}

static GtkLabel *cell_new(WbFitColumn column)
{
    gboolean words = wb_fit_column_is_words(column);
    GtkWidget *label = gtk_label_new(NULL);
    gtk_label_set_xalign(GTK_LABEL(label), words ? 0 : 1);
    gtk_label_set_wrap(GTK_LABEL(label), column == WB_FIT_ANSWER);
    gtk_widget_set_valign(label, GTK_ALIGN_START);
    if (column == WB_FIT_PANEL) {
        gtk_label_set_ellipsize(GTK_LABEL(label), PANGO_ELLIPSIZE_END);
        /* Of one width always: else a row of a long answer takes from it, and its figures stand
         * beside the others' and the heads. */
        gtk_label_set_width_chars(GTK_LABEL(label), NAME_CHARS);
        gtk_label_set_max_width_chars(GTK_LABEL(label), NAME_CHARS);
    }
    gtk_widget_add_css_class(label, "numeric");
    return GTK_LABEL(label);
}

static GtkWidget *answer_box(WbFitRow *self)
{
    GtkWidget *box = gtk_box_new(GTK_ORIENTATION_VERTICAL, 3);
    GtkWidget *more = gtk_label_new(NULL);
    self->more = GTK_LABEL(more);
    gtk_label_set_xalign(self->more, 0);
    gtk_label_set_wrap(self->more, TRUE);
    gtk_widget_add_css_class(more, "small");
    self->search = gtk_button_new_with_label(_("Search on"));
    gtk_widget_set_halign(self->search, GTK_ALIGN_START);
    gtk_widget_set_visible(self->search, FALSE);
    gtk_widget_set_tooltip_text(
        self->search, _("Goes on until it is decided or you stop it; the page stays free"));
    g_signal_connect_object(self->search, "clicked", G_CALLBACK(on_search), self,
                            G_CONNECT_SWAPPED);
    gtk_widget_set_hexpand(box, TRUE);
    gtk_box_append(GTK_BOX(box), GTK_WIDGET(self->cell[WB_FIT_ANSWER]));
    gtk_box_append(GTK_BOX(box), more);
    self->changes = wb_change_list_new();
    g_signal_connect_object(self->changes, "shown", G_CALLBACK(on_change), self, G_CONNECT_SWAPPED);
    gtk_box_append(GTK_BOX(box), self->changes);
    gtk_box_append(GTK_BOX(box), self->search);
    return box;
}

GtkWidget *wb_fit_row_new(WbRoofStudy *study, const char *part_id,
                          GtkSizeGroup *width[WB_FIT_COLUMNS])
{
    WbFitRow *self = g_object_new(WB_TYPE_FIT_ROW, NULL);
    GtkWidget *line = wb_fit_line_new();
    self->study = study;
    self->id = g_strdup(part_id);
    for (WbFitColumn column = 0; column < WB_FIT_COLUMNS; column++) {
        self->cell[column] = cell_new(column);
        GtkWidget *cell =
            column == WB_FIT_ANSWER ? answer_box(self) : GTK_WIDGET(self->cell[column]);
        gtk_size_group_add_widget(width[column], cell);
        gtk_box_append(GTK_BOX(line), cell);
    }
    gtk_list_box_row_set_child(GTK_LIST_BOX_ROW(self), line);
    return GTK_WIDGET(self);
}

/* ---- GObject ---- */

static void wb_fit_row_finalize(GObject *object)
{
    g_free(WB_FIT_ROW(object)->id);
    G_OBJECT_CLASS(wb_fit_row_parent_class)->finalize(object);
}

static void wb_fit_row_class_init(WbFitRowClass *klass)
{
    G_OBJECT_CLASS(klass)->finalize = wb_fit_row_finalize;
    change_signal = g_signal_new("change", WB_TYPE_FIT_ROW, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                 G_TYPE_NONE, 0);
}

static void wb_fit_row_init(WbFitRow *self)
{
}
