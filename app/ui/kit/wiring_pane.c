#include "wiring_pane.h"

#include "circuit_table.h"
#include "diagram_sheet.h"
#include "diagram_view.h"
#include "kit_wiring.h"
#include "print_actions.h"
#include "wiring_edit.h"
#include "wiring_form.h"
#include "words_circuit.h"
#include <glib/gi18n-lib.h>

#define ZOOM_STEP 1.25

struct _WbWiringPane {
    GtkBox parent_instance;
    WbContext context;
    GtkLabel *sentence, *circuit_title;
    GtkExpander *asked; /* the form of what the person asks of the wiring */
    GtkWidget *shown;   /* all that needs circuits */
    GtkWidget *diagram, *table;
    GtkGrid *reckoning;
    GtkLabel *notes;
    WbKitWiring *wiring; /* shown; NULL: none yet */
    WbResult *result;    /* asked about */
    char *kit_id;
    GCancellable *running; /* NULL: nothing is */
};

G_DEFINE_FINAL_TYPE(WbWiringPane, wb_wiring_pane, GTK_TYPE_BOX)

/* ---- the chosen circuit ---- */

static GtkWidget *cell_new(const char *text, gboolean quiet)
{
    GtkWidget *label = gtk_label_new(text);
    gtk_label_set_xalign(GTK_LABEL(label), 0);
    gtk_widget_set_valign(label, GTK_ALIGN_START);
    gtk_label_set_wrap(GTK_LABEL(label), TRUE);
    gtk_widget_add_css_class(label, quiet ? "quiet" : "numeric");
    if (quiet) {
        gtk_widget_set_size_request(label, 168, -1);
        return label;
    }
    gtk_label_set_natural_wrap_mode(GTK_LABEL(label), GTK_NATURAL_WRAP_NONE);
    gtk_label_set_max_width_chars(GTK_LABEL(label), 80);
    gtk_label_set_selectable(GTK_LABEL(label), TRUE);
    return label;
}

static void show_reckoning(WbWiringPane *self, int circuit)
{
    GtkWidget *child;
    while ((child = gtk_widget_get_first_child(GTK_WIDGET(self->reckoning))) != NULL)
        gtk_grid_remove(self->reckoning, child);
    if (self->wiring == NULL || circuit < 0 || (gsize)circuit >= self->wiring->wiring.n) {
        gtk_label_set_text(self->circuit_title,
                           _("Choose a circuit on the drawing or in the table to see how it was "
                             "reckoned."));
        gtk_widget_remove_css_class(GTK_WIDGET(self->circuit_title), "section");
        return;
    }
    const WbProblem *problem = wb_result_get_problem(self->wiring->result);
    const WbCircuit *of = &self->wiring->wiring.circuit[circuit];
    g_autoptr(WbReckoning) reckoning = wb_reckoning_new(problem, &self->wiring->kit, of);
    g_autofree char *title = wb_words_circuit_title(problem, of);
    g_autofree char *numbered = g_strdup_printf("%d  %s", circuit + 1, title);
    gtk_label_set_text(self->circuit_title, numbered);
    gtk_widget_add_css_class(GTK_WIDGET(self->circuit_title), "section");
    for (gsize i = 0; i < reckoning->n; i++) {
        gtk_grid_attach(self->reckoning, cell_new(reckoning->line[i].label, TRUE), 0, (int)i, 1, 1);
        gtk_grid_attach(self->reckoning, cell_new(reckoning->line[i].text, FALSE), 1, (int)i, 1, 1);
    }
}

static void on_diagram_chosen(WbWiringPane *self, int circuit)
{
    wb_circuit_table_choose(WB_CIRCUIT_TABLE(self->table), circuit);
    show_reckoning(self, circuit);
}

static void on_row_chosen(WbWiringPane *self, int circuit)
{
    wb_diagram_view_choose(WB_DIAGRAM_VIEW(self->diagram), circuit);
    show_reckoning(self, circuit);
}

/* ---- showing ---- */

static void show_notes(WbWiringPane *self, int rules)
{
    g_autofree char *text =
        g_strconcat(wb_words_polarity(rules), "\n", wb_words_earthing(rules), "\n",
                    wb_words_disconnects(), "\n", wb_words_plans_only(), NULL);
    gtk_label_set_text(self->notes, text);
}

static void show_nothing(WbWiringPane *self, const char *sentence)
{
    wb_circuit_table_set(WB_CIRCUIT_TABLE(self->table), NULL);
    wb_diagram_view_set(WB_DIAGRAM_VIEW(self->diagram), NULL, NULL, NULL);
    gtk_label_set_text(self->sentence, sentence);
    gtk_widget_set_visible(self->shown, FALSE);
    show_reckoning(self, -1);
}

static void show(WbWiringPane *self)
{
    const WbKitWiring *wiring = self->wiring;
    const WbProblem *problem = wb_result_get_problem(wiring->result);
    int chosen = wb_diagram_view_get_chosen(WB_DIAGRAM_VIEW(self->diagram));
    if (wiring->wiring.n == 0) {
        show_nothing(self, problem->brief->wiring.on
                               ? _("The bank makes no system voltage, so there is nothing to "
                                   "wire.")
                               : _("Circuits are not sized: the brief leaves the wiring out. No "
                                   "cable is paid or checked; size every circuit before you buy."));
        return;
    }
    g_autofree char *sum = wb_words_wiring(problem, &wiring->wiring);
    gtk_label_set_text(self->sentence, sum);
    wb_diagram_view_set(WB_DIAGRAM_VIEW(self->diagram), problem, &wiring->kit, &wiring->wiring);
    wb_circuit_table_set(WB_CIRCUIT_TABLE(self->table), wiring);
    chosen = chosen < (int)wiring->wiring.n ? chosen : -1;
    wb_circuit_table_choose(WB_CIRCUIT_TABLE(self->table), chosen);
    show_reckoning(self, chosen);
    show_notes(self, problem->brief->rule_set);
    gtk_widget_set_visible(self->shown, TRUE);
}

/* A form that waits closed says what is in it. */
static void show_asked(WbWiringPane *self)
{
    guint assumed = wb_wiring_count_assumed(wb_document_get_file(self->context.document));
    g_autofree char *title =
        assumed == 0
            ? g_strdup(_("Rules, sizes and lengths"))
            : g_strdup_printf(ngettext("Rules, sizes and lengths: %u length is assumed",
                                       "Rules, sizes and lengths: %u lengths are assumed", assumed),
                              assumed);
    gtk_expander_set_label(self->asked, title);
    /* GTK 4.8 does not tell a screen reader the text of an expander's own label. */
    gtk_accessible_update_property(GTK_ACCESSIBLE(self->asked), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                   title, -1);
}

/* ---- asking ---- */

/* An answer to a question given up since comes as cancelled and is dropped. */
static void on_answer(GObject *source, GAsyncResult *answer, gpointer data)
{
    g_autoptr(WbWiringPane) self = data;
    g_autoptr(GError) error = NULL;
    WbKitWiring *wiring = wb_kit_wiring_make_finish(answer, &error);
    if (g_error_matches(error, G_IO_ERROR, G_IO_ERROR_CANCELLED))
        return;
    g_clear_object(&self->running);
    if (self->table == NULL) { /* disposed meanwhile */
        g_clear_pointer(&wiring, wb_kit_wiring_free);
        return;
    }
    wb_circuit_table_set(WB_CIRCUIT_TABLE(self->table), NULL); /* it borrows what goes */
    g_clear_pointer(&self->wiring, wb_kit_wiring_free);
    self->wiring = wiring;
    if (wiring != NULL)
        show(self);
    else
        show_nothing(self, error->message);
}

static void give_up(WbWiringPane *self)
{
    if (self->running != NULL)
        g_cancellable_cancel(self->running);
    g_clear_object(&self->running);
}

void wb_wiring_pane_show(WbWiringPane *self, WbResult *result, const char *kit_id)
{
    g_return_if_fail(WB_IS_WIRING_PANE(self));
    if (result == self->result && g_strcmp0(kit_id, self->kit_id) == 0)
        return;
    give_up(self);
    g_clear_pointer(&self->result, wb_result_unref);
    self->result = wb_result_ref(result);
    g_free(self->kit_id);
    self->kit_id = g_strdup(kit_id);
    self->running = g_cancellable_new();
    wb_kit_wiring_make(result, kit_id, self->running, on_answer, g_object_ref(self));
}

void wb_wiring_pane_show_none(WbWiringPane *self, const char *sentence)
{
    g_return_if_fail(WB_IS_WIRING_PANE(self));
    give_up(self);
    g_clear_pointer(&self->result, wb_result_unref);
    g_clear_pointer(&self->kit_id, g_free);
    show_nothing(self, sentence);
    g_clear_pointer(&self->wiring, wb_kit_wiring_free);
}

gboolean wb_wiring_pane_get_busy(WbWiringPane *self)
{
    g_return_val_if_fail(WB_IS_WIRING_PANE(self), FALSE);
    return self->running != NULL;
}

/* ---- paper ---- */

/* NULL, and said so: there are no circuits. */
static WbPrint *print_new(WbWiringPane *self)
{
    if (self->wiring == NULL || self->wiring->wiring.n == 0) {
        wb_show_message(GTK_WIDGET(self), _("There are no circuits to draw."));
        return NULL;
    }
    g_autoptr(GDateTime) now = g_date_time_new_now_local();
    g_autofree char *date = g_date_time_format(now, "%Y-%m-%d");
    return wb_diagram_sheet_print(wb_diagram_sheet_new(
        wb_result_get_problem(self->wiring->result), &self->wiring->kit, &self->wiring->wiring,
        wb_document_get_title(self->context.document), date, wb_print_is_letter()));
}

static void act_print(GtkWidget *widget, const char *action, GVariant *parameter)
{
    WbPrint *print = print_new(WB_WIRING_PANE(widget));
    if (print != NULL)
        wb_print_run(widget, print);
}

static void act_save_pdf(GtkWidget *widget, const char *action, GVariant *parameter)
{
    WbPrint *print = print_new(WB_WIRING_PANE(widget));
    if (print != NULL)
        wb_print_choose_file(widget, print, WB_SHEET_PDF, _("wiring.pdf"));
}

static void act_save_svg(GtkWidget *widget, const char *action, GVariant *parameter)
{
    WbPrint *print = print_new(WB_WIRING_PANE(widget));
    if (print != NULL)
        wb_print_choose_file(widget, print, WB_SHEET_SVG, _("wiring.svg"));
}

static void act_save_as(GtkWidget *widget, const char *action, GVariant *parameter)
{
    WbPrint *print = print_new(WB_WIRING_PANE(widget));
    if (print != NULL)
        wb_print_save_to(widget, print, g_variant_get_string(parameter, NULL));
}

/* ---- building ---- */

static GtkLabel *add_label(GtkBox *box, const char *text, const char *css_class)
{
    GtkWidget *label = gtk_label_new(text);
    gtk_label_set_xalign(GTK_LABEL(label), 0);
    gtk_label_set_wrap(GTK_LABEL(label), TRUE);
    gtk_label_set_natural_wrap_mode(GTK_LABEL(label), GTK_NATURAL_WRAP_NONE);
    gtk_label_set_max_width_chars(GTK_LABEL(label), 90);
    gtk_label_set_selectable(GTK_LABEL(label), TRUE);
    gtk_widget_set_halign(label, GTK_ALIGN_START);
    if (css_class != NULL)
        gtk_widget_add_css_class(label, css_class);
    gtk_box_append(box, label);
    return GTK_LABEL(label);
}

static void zoom_in(WbWiringPane *self)
{
    wb_diagram_view_zoom(WB_DIAGRAM_VIEW(self->diagram), ZOOM_STEP);
}

static void zoom_out(WbWiringPane *self)
{
    wb_diagram_view_zoom(WB_DIAGRAM_VIEW(self->diagram), 1 / ZOOM_STEP);
}

static void zoom_fit(WbWiringPane *self)
{
    wb_diagram_view_fit(WB_DIAGRAM_VIEW(self->diagram));
}

static void add_icon(WbWiringPane *self, GtkWidget *bar, const char *icon, const char *name,
                     void (*act)(WbWiringPane *self))
{
    GtkWidget *button = gtk_button_new_from_icon_name(icon);
    gtk_widget_set_tooltip_text(button, name);
    gtk_accessible_update_property(GTK_ACCESSIBLE(button), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
    g_signal_connect_object(button, "clicked", G_CALLBACK(act), self, G_CONNECT_SWAPPED);
    gtk_box_append(GTK_BOX(bar), button);
}

static void add_text(GtkWidget *bar, const char *name, const char *action)
{
    GtkWidget *button = gtk_button_new_with_label(name);
    gtk_actionable_set_action_name(GTK_ACTIONABLE(button), action);
    gtk_box_append(GTK_BOX(bar), button);
}

static void add_bar(WbWiringPane *self, GtkBox *box)
{
    GtkWidget *bar = gtk_box_new(GTK_ORIENTATION_HORIZONTAL, 6);
    GtkWidget *gap = gtk_label_new(NULL);
    add_icon(self, bar, "zoom-out-symbolic", _("Smaller"), zoom_out);
    add_icon(self, bar, "zoom-fit-best-symbolic", _("Show all"), zoom_fit);
    add_icon(self, bar, "zoom-in-symbolic", _("Larger"), zoom_in);
    gtk_widget_set_hexpand(gap, TRUE);
    gtk_box_append(GTK_BOX(bar), gap);
    add_text(bar, _("Print"), "wiring.print");
    add_text(bar, _("Save as PDF"), "wiring.save-pdf");
    add_text(bar, _("Save as SVG"), "wiring.save-svg");
    gtk_box_append(box, bar);
}

static void wb_wiring_pane_dispose(GObject *object)
{
    WbWiringPane *self = WB_WIRING_PANE(object);
    give_up(self);
    if (self->table != NULL)
        wb_circuit_table_set(WB_CIRCUIT_TABLE(self->table), NULL);
    self->table = NULL;
    g_clear_pointer(&self->wiring, wb_kit_wiring_free);
    g_clear_pointer(&self->result, wb_result_unref);
    g_clear_pointer(&self->kit_id, g_free);
    G_OBJECT_CLASS(wb_wiring_pane_parent_class)->dispose(object);
}

static void wb_wiring_pane_class_init(WbWiringPaneClass *class)
{
    GtkWidgetClass *widget = GTK_WIDGET_CLASS(class);
    G_OBJECT_CLASS(class)->dispose = wb_wiring_pane_dispose;
    gtk_widget_class_install_action(widget, "wiring.print", NULL, act_print);
    gtk_widget_class_install_action(widget, "wiring.save-pdf", NULL, act_save_pdf);
    gtk_widget_class_install_action(widget, "wiring.save-svg", NULL, act_save_svg);
    gtk_widget_class_install_action(widget, "wiring.save-as", "s", act_save_as);
}

static void wb_wiring_pane_init(WbWiringPane *self)
{
    GtkBox *box = GTK_BOX(self), *shown;
    self->asked = GTK_EXPANDER(gtk_expander_new(NULL));
    gtk_box_append(box, GTK_WIDGET(self->asked));
    self->sentence = add_label(box, _("The circuits are being sized."), NULL);
    self->shown = gtk_box_new(GTK_ORIENTATION_VERTICAL, 6);
    shown = GTK_BOX(self->shown);
    gtk_box_append(box, self->shown);
    add_bar(self, shown);
    self->diagram = wb_diagram_view_new();
    gtk_box_append(shown, self->diagram);
    self->notes = add_label(shown, NULL, "quiet");
    gtk_widget_add_css_class(GTK_WIDGET(self->notes), "small");
    self->circuit_title = add_label(shown, NULL, NULL);
    gtk_widget_set_margin_top(GTK_WIDGET(self->circuit_title), 12);
    self->reckoning = GTK_GRID(gtk_grid_new());
    gtk_grid_set_column_spacing(self->reckoning, 18);
    gtk_grid_set_row_spacing(self->reckoning, 3);
    gtk_box_append(shown, GTK_WIDGET(self->reckoning));
    gtk_widget_set_margin_top(GTK_WIDGET(add_label(shown, _("All circuits"), "section")), 12);
    self->table = wb_circuit_table_new();
    gtk_box_append(shown, self->table);
    g_signal_connect_object(self->diagram, "chosen", G_CALLBACK(on_diagram_chosen), self,
                            G_CONNECT_SWAPPED);
    g_signal_connect_object(self->table, "chosen", G_CALLBACK(on_row_chosen), self,
                            G_CONNECT_SWAPPED);
    gtk_widget_set_visible(self->shown, FALSE);
    show_reckoning(self, -1);
}

GtkWidget *wb_wiring_pane_new(const WbContext *context)
{
    WbWiringPane *self = g_object_new(WB_TYPE_WIRING_PANE, "orientation", GTK_ORIENTATION_VERTICAL,
                                      "spacing", 6, NULL);
    GtkWidget *form = wb_wiring_form_new(context->document);
    self->context = *context;
    gtk_widget_set_margin_top(form, 6);
    gtk_widget_set_margin_bottom(form, 12);
    gtk_expander_set_child(self->asked, form);
    g_signal_connect_object(context->document, "changed", G_CALLBACK(show_asked), self,
                            G_CONNECT_SWAPPED);
    show_asked(self);
    return GTK_WIDGET(self);
}
