#include "mix_pane.h"

#include "brief.h"
#include "figures_text.h"
#include "format.h"
#include "problem.h"
#include <glib/gi18n-lib.h>
#include <math.h>

enum { MIX, WATTS, PRICE, PER_WATT, LOAD, ANSWER, N_COLUMNS };

struct _WbMixPane {
    GtkBox parent_instance;
    WbRoofMix *mix;
    WbDocument *document;
    GtkBox *models, *results;
    GtkLabel *status, *none;
    GtkWidget *act, *order, *heads;
    GtkLabel *head[N_COLUMNS];
    GtkListBox *list;
    GtkSizeGroup *width[N_COLUMNS];
    char *offered;       /* the ticked ids the check buttons are of */
    int hovered, chosen; /* index into the mix's best, -1 none */
    gboolean filling;
};

G_DEFINE_FINAL_TYPE(WbMixPane, wb_mix_pane, GTK_TYPE_BOX)

static guint shown_signal;

static char *name_of(const WbPanel *panel)
{
    return g_strstrip(g_strdup_printf("%s %s", panel->part.maker, panel->part.model));
}

char *wb_mix_pane_words(WbMixPane *self, const WbMixBest *best)
{
    g_return_val_if_fail(WB_IS_MIX_PANE(self), NULL);
    GString *out = g_string_new(NULL);
    for (gsize i = 0; i < wb_roof_mix_get_n_models(self->mix); i++) {
        if (best->count[i] == 0)
            continue;
        g_autofree char *name = name_of(wb_roof_mix_get_model(self->mix, i));
        g_string_append_printf(out, "%s%d \303\227 %s", out->len > 0 ? " + " : "", best->count[i],
                               name);
    }
    return g_string_free(out, FALSE);
}

/* ---- the models to choose from ---- */

static void on_model(GtkCheckButton *check, WbMixPane *self)
{
    const char *id = g_object_get_data(G_OBJECT(check), "part-id");
    if (self->filling || wb_roof_mix_choose(self->mix, id, gtk_check_button_get_active(check)))
        return;
    self->filling = TRUE;
    gtk_check_button_set_active(check, FALSE);
    self->filling = FALSE;
    gtk_label_set_text(self->status, _("Three models are chosen already; let go of one first."));
}

static GtkWidget *check_new(WbMixPane *self, const WbPanel *panel)
{
    g_autofree char *name = name_of(panel);
    g_autofree char *watts = wb_format_quantity(panel->power_w, 0, "W");
    g_autofree char *text = g_strdup_printf("%s, %s", name, watts);
    GtkWidget *check = gtk_check_button_new_with_label(text);
    gtk_check_button_set_active(GTK_CHECK_BUTTON(check),
                                wb_roof_mix_is_chosen(self->mix, panel->part.id));
    g_object_set_data_full(G_OBJECT(check), "part-id", g_strdup(panel->part.id), g_free);
    g_signal_connect_object(check, "toggled", G_CALLBACK(on_model), self, 0);
    return check;
}

/* The check buttons are made anew only where the ticked models are others. */
static void offer_models(WbMixPane *self)
{
    const WbBrief *brief = wb_document_get_brief(self->document);
    const WbCatalogue *catalogue = wb_document_get_catalogue(self->document);
    GString *offered = g_string_new(NULL);
    for (gsize i = 0; i < catalogue->n_panels; i++)
        if (wb_brief_ticks(brief, catalogue->panels[i].part.id))
            g_string_append_printf(offered, "%s %g\n", catalogue->panels[i].part.id,
                                   catalogue->panels[i].power_w);
    g_autofree char *text = g_string_free(offered, FALSE);
    if (g_strcmp0(text, self->offered) == 0)
        return;
    GtkWidget *old;
    while ((old = gtk_widget_get_first_child(GTK_WIDGET(self->models))) != NULL)
        gtk_box_remove(self->models, old);
    for (gsize i = 0; i < catalogue->n_panels; i++)
        if (wb_brief_ticks(brief, catalogue->panels[i].part.id))
            gtk_box_append(self->models, check_new(self, &catalogue->panels[i]));
    g_free(self->offered);
    self->offered = g_steal_pointer(&text);
}

/* ---- the mixes ---- */

static double worth(const WbMixBest *best, gboolean by_money)
{
    if (!by_money)
        return best->power_w;
    return best->price_minor > 0 ? best->power_w / (double)best->price_minor : -1;
}

/* Index of the mix a row shows. */
static int index_of(GtkListBoxRow *row)
{
    return row != NULL ? GPOINTER_TO_INT(g_object_get_data(G_OBJECT(row), "mix")) : -1;
}

static int compare(GtkListBoxRow *a, GtkListBoxRow *b, gpointer data)
{
    WbMixPane *self = data;
    gsize n;
    int undecided, left = index_of(a), right = index_of(b);
    const WbMixBest *best = wb_roof_mix_get_best(self->mix, &n, &undecided);
    gboolean by_money = gtk_drop_down_get_selected(GTK_DROP_DOWN(self->order)) == 1;
    if (left >= (int)n || right >= (int)n)
        return 0;
    double p = worth(&best[left], by_money), q = worth(&best[right], by_money);
    return p != q ? (p > q ? -1 : 1) : left - right;
}

static GtkWidget *line_new(WbMixPane *self, const char *const *cells, gboolean head)
{
    GtkWidget *line = gtk_box_new(GTK_ORIENTATION_HORIZONTAL, 6);
    gtk_widget_set_margin_start(line, 6);
    gtk_widget_set_margin_end(line, 6);
    for (int column = 0; column < N_COLUMNS; column++) {
        gboolean words = column == MIX || column == ANSWER;
        GtkWidget *label = gtk_label_new(cells[column]);
        gtk_label_set_xalign(GTK_LABEL(label), words ? 0 : 1);
        gtk_widget_set_valign(label, GTK_ALIGN_START);
        if (words) {
            gtk_label_set_wrap(GTK_LABEL(label), TRUE); /* a mix is told whole */
            gtk_label_set_width_chars(GTK_LABEL(label), column == MIX ? 12 : 8);
            gtk_label_set_max_width_chars(GTK_LABEL(label), 40);
        }
        gtk_widget_set_hexpand(label, column == MIX);
        gtk_widget_add_css_class(label, head ? "small" : "numeric");
        if (head) {
            gtk_widget_add_css_class(label, "quiet");
            self->head[column] = GTK_LABEL(label);
        }
        gtk_size_group_add_widget(self->width[column], label);
        gtk_box_append(GTK_BOX(line), label);
    }
    return line;
}

/* `first`: the one of most watts of all. */
static const char *answer_of(const WbMixBest *best, gboolean first)
{
    if (first)
        return best->proved ? _("most watts: proved") : _("more is not decided");
    if (best->price_minor < 0)
        return _("fits");
    return best->proved ? _("most for its money: proved") : _("more for its money is not decided");
}

static GtkWidget *row_new(WbMixPane *self, const WbMixBest *best, gboolean first,
                          const char *currency)
{
    g_autofree char *mix = wb_mix_pane_words(self, best);
    g_autofree char *watts = wb_text_number(best->power_w, 0);
    gboolean priced = best->price_minor >= 0;
    double minor = priced ? (double)best->price_minor : NAN;
    g_autofree char *price = wb_format_money(minor, currency);
    g_autofree char *per_watt =
        wb_format_money(best->power_w > 0 ? minor / best->power_w : NAN, currency);
    g_autofree char *load = wb_text_number(best->load_kg, 1);
    const char *answer = answer_of(best, first);
    const char *cells[N_COLUMNS] = {mix, watts, price, per_watt, load, answer};
    GtkWidget *row = gtk_list_box_row_new();
    gtk_list_box_row_set_child(GTK_LIST_BOX_ROW(row), line_new(self, cells, FALSE));
    g_autofree char *spoken =
        g_strdup_printf(_("%s: %s W, %s %s, %s"), mix, watts, price, currency, answer);
    gtk_widget_set_tooltip_text(row, spoken);
    gtk_accessible_update_property(GTK_ACCESSIBLE(row), GTK_ACCESSIBLE_PROPERTY_LABEL, spoken, -1);
    return row;
}

static void show_mixes(WbMixPane *self)
{
    gsize n;
    int undecided;
    const WbMixBest *best = wb_roof_mix_get_best(self->mix, &n, &undecided);
    const char *currency = wb_document_get_brief(self->document)->currency;
    GtkListBoxRow *old;
    self->filling = TRUE;
    while ((old = gtk_list_box_get_row_at_index(self->list, 0)) != NULL)
        gtk_list_box_remove(self->list, GTK_WIDGET(old));
    self->filling = FALSE;
    self->hovered = self->chosen = -1;
    for (gsize i = 0; i < n; i++) {
        GtkWidget *row = row_new(self, &best[i], i == 0, currency);
        g_object_set_data(G_OBJECT(row), "mix", GINT_TO_POINTER((int)i));
        gtk_list_box_append(self->list, row);
    }
    gtk_label_set_text(self->head[PRICE], currency);
    g_autofree char *per_watt = g_strdup_printf(_("%s/W"), currency);
    gtk_label_set_text(self->head[PER_WATT], per_watt);
    gtk_widget_set_visible(self->heads, n > 0);
    gtk_widget_set_visible(self->order, n > 1);
    gtk_widget_set_visible(GTK_WIDGET(self->list), n > 0);
}

/* ---- status ---- */

static char *done_text(gsize n, int undecided)
{
    if (n == 0 && undecided == 0)
        return g_strdup(_("None of these models fits this roof and its load limit."));
    g_autofree char *open =
        undecided > 0
            ? g_strdup_printf(g_dngettext(GETTEXT_PACKAGE,
                                          " %d mix that would belong here is not decided.",
                                          " %d mixes that would belong here are not decided.",
                                          (gulong)undecided),
                              undecided)
            : g_strdup("");
    return g_strdup_printf(_("No other mix gives more watts for less money.%s"), open);
}

static char *status_text(WbMixPane *self)
{
    gsize n;
    int undecided;
    wb_roof_mix_get_best(self->mix, &n, &undecided);
    switch (wb_roof_mix_get_state(self->mix)) {
    case WB_ROOF_MIX_NONE:
        return g_strdup(_("Choose two or three models to see how they fill the roof together."));
    case WB_ROOF_MIX_RUNNING:
        return g_strdup(_("Trying the mixes"));
    case WB_ROOF_MIX_STOPPED:
        return g_strdup(_("Stopped; the best mixes are not known."));
    case WB_ROOF_MIX_FAILED:
        return g_strdup(wb_roof_mix_get_message(self->mix));
    case WB_ROOF_MIX_DONE:
        break;
    }
    return done_text(n, undecided);
}

static const char *act_text(WbMixPane *self)
{
    gsize n;
    int undecided;
    wb_roof_mix_get_best(self->mix, &n, &undecided);
    switch (wb_roof_mix_get_state(self->mix)) {
    case WB_ROOF_MIX_RUNNING:
        return _("Stop");
    case WB_ROOF_MIX_STOPPED:
        return _("Begin again");
    case WB_ROOF_MIX_DONE:
        return undecided > 0 ? _("Search on") : NULL;
    case WB_ROOF_MIX_NONE:
    case WB_ROOF_MIX_FAILED:
        break;
    }
    return NULL;
}

void wb_mix_pane_refresh(WbMixPane *self)
{
    g_return_if_fail(WB_IS_MIX_PANE(self));
    g_autofree char *status = status_text(self);
    const char *act = act_text(self);
    offer_models(self);
    show_mixes(self);
    gtk_label_set_text(self->status, status);
    gtk_widget_set_visible(self->act, act != NULL);
    if (act != NULL)
        gtk_button_set_label(GTK_BUTTON(self->act), act);
}

/* ---- choosing ---- */

const WbMixBest *wb_mix_pane_get_shown(WbMixPane *self)
{
    g_return_val_if_fail(WB_IS_MIX_PANE(self), NULL);
    gsize n;
    int undecided, shown = self->hovered >= 0 ? self->hovered : self->chosen;
    const WbMixBest *best = wb_roof_mix_get_best(self->mix, &n, &undecided);
    return shown >= 0 && shown < (int)n ? &best[shown] : NULL;
}

static void on_selected(WbMixPane *self, GtkListBoxRow *row)
{
    if (self->filling)
        return;
    self->chosen = index_of(row);
    g_signal_emit(self, shown_signal, 0);
}

static void hover(WbMixPane *self, int index)
{
    if (index == self->hovered)
        return;
    self->hovered = index;
    g_signal_emit(self, shown_signal, 0);
}

static void on_motion(GtkEventControllerMotion *motion, double x, double y, WbMixPane *self)
{
    hover(self, index_of(gtk_list_box_get_row_at_y(self->list, (int)y)));
}

static void on_leave(GtkEventControllerMotion *motion, WbMixPane *self)
{
    hover(self, -1);
}

static void on_act(WbMixPane *self)
{
    if (wb_roof_mix_get_state(self->mix) == WB_ROOF_MIX_RUNNING)
        wb_roof_mix_stop(self->mix);
    else
        wb_roof_mix_go_on(self->mix);
}

/* ---- building ---- */

static GtkLabel *label_new(const char *text)
{
    GtkLabel *label = GTK_LABEL(gtk_label_new(text));
    gtk_label_set_xalign(label, 0);
    gtk_label_set_wrap(label, TRUE);
    return label;
}

/* Models and mixes each scroll by themselves, so that both stay in sight. */
static GtkBox *add_side(WbMixPane *self, int spacing, gboolean expands)
{
    GtkWidget *side = gtk_scrolled_window_new();
    GtkWidget *box = gtk_box_new(GTK_ORIENTATION_VERTICAL, spacing);
    gtk_widget_add_css_class(box, "under-picture");
    gtk_scrolled_window_set_child(GTK_SCROLLED_WINDOW(side), box);
    gtk_scrolled_window_set_propagate_natural_width(GTK_SCROLLED_WINDOW(side), !expands);
    gtk_scrolled_window_set_policy(GTK_SCROLLED_WINDOW(side),
                                   expands ? GTK_POLICY_AUTOMATIC : GTK_POLICY_NEVER,
                                   GTK_POLICY_AUTOMATIC);
    gtk_widget_set_hexpand(side, expands);
    gtk_widget_set_vexpand(side, TRUE);
    gtk_box_append(GTK_BOX(self), side);
    return GTK_BOX(box);
}

static void add_sides(WbMixPane *self)
{
    self->models = add_side(self, 0, FALSE);
    gtk_accessible_update_property(GTK_ACCESSIBLE(self->models), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                   _("Models to mix"), -1);
    self->results = add_side(self, 6, TRUE);
}

static void add_status(WbMixPane *self)
{
    static const char *const orders[] = {N_("Most watts first"),
                                         N_("Most watts for the money first"), NULL};
    const char *const shown[] = {_(orders[0]), _(orders[1]), NULL};
    GtkWidget *line = gtk_box_new(GTK_ORIENTATION_HORIZONTAL, 12);
    self->status = label_new(NULL);
    gtk_widget_set_hexpand(GTK_WIDGET(self->status), TRUE);
    self->act = gtk_button_new_with_label(_("Stop"));
    gtk_widget_set_valign(self->act, GTK_ALIGN_CENTER);
    self->order = gtk_drop_down_new_from_strings(shown);
    gtk_widget_set_valign(self->order, GTK_ALIGN_CENTER);
    gtk_accessible_update_property(GTK_ACCESSIBLE(self->order), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                   _("Order of the mixes"), -1);
    g_signal_connect_object(self->act, "clicked", G_CALLBACK(on_act), self, G_CONNECT_SWAPPED);
    gtk_box_append(GTK_BOX(line), GTK_WIDGET(self->status));
    gtk_box_append(GTK_BOX(line), self->act);
    gtk_box_append(GTK_BOX(line), self->order);
    gtk_box_append(self->results, line);
}

static void add_list(WbMixPane *self)
{
    GtkEventController *motion = gtk_event_controller_motion_new();
    const char *const heads[N_COLUMNS] = {_("Mix"), _("W"), "", "", _("kg"), _("Answer")};
    self->heads = line_new(self, heads, TRUE);
    gtk_box_append(self->results, self->heads);
    self->list = GTK_LIST_BOX(gtk_list_box_new());
    gtk_widget_add_css_class(GTK_WIDGET(self->list), "fits");
    gtk_list_box_set_sort_func(self->list, compare, self, NULL);
    gtk_accessible_update_property(GTK_ACCESSIBLE(self->list), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                   _("The best mixes"), -1);
    g_signal_connect_object(self->order, "notify::selected",
                            G_CALLBACK(gtk_list_box_invalidate_sort), self->list,
                            G_CONNECT_SWAPPED);
    g_signal_connect_object(self->list, "row-selected", G_CALLBACK(on_selected), self,
                            G_CONNECT_SWAPPED);
    g_signal_connect_object(motion, "motion", G_CALLBACK(on_motion), self, 0);
    g_signal_connect_object(motion, "leave", G_CALLBACK(on_leave), self, 0);
    gtk_widget_add_controller(GTK_WIDGET(self->list), motion);
    gtk_box_append(self->results, GTK_WIDGET(self->list));
}

GtkWidget *wb_mix_pane_new(WbRoofMix *mix, WbDocument *document)
{
    WbMixPane *self = g_object_new(WB_TYPE_MIX_PANE, "spacing", 12, NULL);
    self->mix = mix;
    self->document = document;
    wb_mix_pane_refresh(self);
    return GTK_WIDGET(self);
}

/* ---- GObject ---- */

static void wb_mix_pane_finalize(GObject *object)
{
    WbMixPane *self = WB_MIX_PANE(object);
    g_free(self->offered);
    for (int column = 0; column < N_COLUMNS; column++)
        g_object_unref(self->width[column]);
    G_OBJECT_CLASS(wb_mix_pane_parent_class)->finalize(object);
}

static void wb_mix_pane_class_init(WbMixPaneClass *klass)
{
    G_OBJECT_CLASS(klass)->finalize = wb_mix_pane_finalize;
    shown_signal = g_signal_new("shown", WB_TYPE_MIX_PANE, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                G_TYPE_NONE, 0);
}

static void wb_mix_pane_init(WbMixPane *self)
{
    self->hovered = self->chosen = -1;
    for (int column = 0; column < N_COLUMNS; column++)
        self->width[column] = gtk_size_group_new(GTK_SIZE_GROUP_HORIZONTAL);
    add_sides(self);
    add_status(self);
    add_list(self);
}
