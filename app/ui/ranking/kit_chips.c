#include "kit_chips.h"

#include "format.h"
#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

struct _WbKitChips {
    GtkBox parent_instance;
    GtkFlowBox *flow;
    WbKitList *list;
    WbResult *result;
    WbKitFilter shown;
};

G_DEFINE_FINAL_TYPE(WbKitChips, wb_kit_chips, GTK_TYPE_BOX)

/* What a chip clears: one of these, or the bound of a criterion. */
enum { CHEMISTRY, FRONT, BRUSH, VOLTAGE, PART, ALL, FIRST_BOUND };

static void clear_one(WbKitFilter *filter, int which)
{
    switch (which) {
    case CHEMISTRY:
        filter->chemistry = NULL;
        break;
    case FRONT:
        filter->front_only = FALSE;
        break;
    case BRUSH:
        filter->brushed = FALSE;
        break;
    case VOLTAGE:
        filter->system_v = 0;
        break;
    case PART:
        filter->part = NULL;
        break;
    case ALL:
        *filter = wb_kit_filter_none();
        break;
    default:
        filter->bound[which - FIRST_BOUND] = NAN;
    }
}

static void on_clear(GtkButton *chip, WbKitChips *self)
{
    WbKitFilter filter = *wb_kit_list_get_filter(self->list); /* borrows its texts */
    clear_one(&filter, GPOINTER_TO_INT(g_object_get_data(G_OBJECT(chip), "wb-which")));
    wb_kit_list_set_filter(self->list, &filter);
}

void wb_kit_chips_clear_all(WbKitChips *self)
{
    g_return_if_fail(WB_IS_KIT_CHIPS(self));
    WbKitFilter none = wb_kit_filter_none();
    wb_kit_list_set_filter(self->list, &none);
}

static void add_chip(WbKitChips *self, int which, const char *text)
{
    GtkWidget *chip = gtk_button_new(), *box = gtk_box_new(GTK_ORIENTATION_HORIZONTAL, 6);
    GtkWidget *label = gtk_label_new(text);
    g_autofree char *name = which == ALL
                                ? g_strdup(text)
                                /* Translators: a filter in force, e.g. "Only the front". */
                                : g_strdup_printf(_("Clear the filter: %s"), text);
    gtk_label_set_ellipsize(GTK_LABEL(label), PANGO_ELLIPSIZE_END);
    gtk_label_set_max_width_chars(GTK_LABEL(label), 36);
    gtk_box_append(GTK_BOX(box), label);
    if (which != ALL)
        gtk_box_append(GTK_BOX(box), gtk_image_new_from_icon_name("window-close-symbolic"));
    gtk_button_set_child(GTK_BUTTON(chip), box);
    gtk_widget_add_css_class(chip, which == ALL ? "flat" : "chip");
    gtk_widget_add_css_class(chip, "small");
    gtk_widget_set_tooltip_text(chip, name);
    gtk_accessible_update_property(GTK_ACCESSIBLE(chip), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
    g_object_set_data(G_OBJECT(chip), "wb-which", GINT_TO_POINTER(which));
    g_signal_connect(chip, "clicked", G_CALLBACK(on_clear), self);
    GtkWidget *child = gtk_flow_box_child_new();
    gtk_flow_box_child_set_child(GTK_FLOW_BOX_CHILD(child), chip);
    gtk_widget_set_focusable(child, FALSE); /* the chip is */
    gtk_flow_box_insert(self->flow, child, -1);
}

/* Maker and model of a part of the result's problem; its id where it is none of them. */
static char *part_name(WbKitChips *self, const char *id)
{
    const WbProblem *problem = wb_result_get_problem(self->result);
    const WbPart *part = wb_kit_part(problem, id);
    return part != NULL ? g_strdup_printf("%s %s", part->maker, part->model) : g_strdup(id);
}

static const char *chemistry_name(WbKitChips *self, const char *id)
{
    const WbCatalogue *catalogue = wb_result_get_catalogue(self->result);
    for (gsize i = 0; i < catalogue->n_chemistries; i++)
        if (g_str_equal(catalogue->chemistries[i].id, id))
            return catalogue->chemistries[i].name;
    return id;
}

static char *range_text(const WbKitRange *range, const char *currency)
{
    g_autofree char *low = wb_format_figure_bare(range->criterion, range->low, currency);
    g_autofree char *high = wb_format_figure(range->criterion, range->high, currency);
    /* Translators: criterion, lower figure, upper figure with unit: "Cost 800 to 1,200 EUR". */
    return g_strdup_printf(_("%s %s to %s"), wb_criterion_title(range->criterion), low, high);
}

static void add_bounds(WbKitChips *self, const WbKitFilter *filter, const char *currency)
{
    for (WbCriterion c = 0; c < WB_N_CRITERIA; c++) {
        if (isnan(filter->bound[c]))
            continue;
        g_autofree char *figure = wb_format_figure(c, filter->bound[c], currency);
        g_autofree char *text = g_strdup_printf(
            wb_criterion_less_is_better(c) ? _("%s at most %s") : _("%s at least %s"),
            wb_criterion_title(c), figure);
        add_chip(self, FIRST_BOUND + (int)c, text);
    }
}

static void add_chips(WbKitChips *self, const WbKitFilter *filter)
{
    const char *currency = wb_result_get_brief(self->result)->currency;
    if (filter->front_only)
        add_chip(self, FRONT, _("Only the front"));
    if (filter->chemistry != NULL)
        add_chip(self, CHEMISTRY, chemistry_name(self, filter->chemistry));
    if (filter->system_v != 0) {
        g_autofree char *text = wb_format_quantity(filter->system_v, 0, "V");
        add_chip(self, VOLTAGE, text);
    }
    if (filter->part != NULL) {
        g_autofree char *name = part_name(self, filter->part);
        g_autofree char *text = g_strdup_printf(_("With %s"), name);
        add_chip(self, PART, text);
    }
    if (filter->brushed) {
        g_autofree char *x = range_text(&filter->brush[0], currency);
        g_autofree char *y = range_text(&filter->brush[1], currency);
        g_autofree char *text = g_strdup_printf("%s, %s", x, y);
        add_chip(self, BRUSH, text);
    }
    add_bounds(self, filter, currency);
    if (gtk_flow_box_get_child_at_index(self->flow, 1) != NULL)
        add_chip(self, ALL, _("Clear all"));
}

static void refresh(WbKitChips *self)
{
    const WbKitFilter *filter = wb_kit_list_get_filter(self->list);
    if (self->result == NULL || wb_kit_filter_equal(filter, &self->shown))
        return;
    WbKitFilter old = self->shown;
    wb_kit_filter_copy(&self->shown, filter);
    wb_kit_filter_clear(&old);
    GtkFlowBoxChild *child;
    gboolean held = gtk_widget_get_focus_child(GTK_WIDGET(self)) != NULL;
    while ((child = gtk_flow_box_get_child_at_index(self->flow, 0)) != NULL)
        gtk_flow_box_remove(self->flow, GTK_WIDGET(child));
    add_chips(self, filter);
    child = gtk_flow_box_get_child_at_index(self->flow, 0);
    gtk_widget_set_visible(GTK_WIDGET(self), child != NULL);
    /* Who clears one after another by keyboard stays among the chips. */
    if (held && child != NULL)
        gtk_widget_grab_focus(gtk_flow_box_child_get_child(child));
}

void wb_kit_chips_show(WbKitChips *self, WbResult *result)
{
    g_return_if_fail(WB_IS_KIT_CHIPS(self));
    WbResult *old = self->result;
    self->result = result != NULL ? wb_result_ref(result) : NULL;
    g_clear_pointer(&old, wb_result_unref);
    refresh(self);
}

void wb_kit_chips_set_list(WbKitChips *self, WbKitList *list)
{
    g_return_if_fail(WB_IS_KIT_CHIPS(self) && self->list == NULL);
    self->list = g_object_ref(list);
    g_signal_connect_object(list, "arranged", G_CALLBACK(refresh), self, G_CONNECT_SWAPPED);
}

static void wb_kit_chips_dispose(GObject *object)
{
    WbKitChips *self = WB_KIT_CHIPS(object);
    g_clear_object(&self->list);
    g_clear_pointer(&self->result, wb_result_unref);
    wb_kit_filter_clear(&self->shown);
    G_OBJECT_CLASS(wb_kit_chips_parent_class)->dispose(object);
}

static void wb_kit_chips_class_init(WbKitChipsClass *class)
{
    G_OBJECT_CLASS(class)->dispose = wb_kit_chips_dispose;
}

static void wb_kit_chips_init(WbKitChips *self)
{
    self->shown = wb_kit_filter_none();
    self->flow = GTK_FLOW_BOX(gtk_flow_box_new());
    gtk_flow_box_set_selection_mode(self->flow, GTK_SELECTION_NONE);
    gtk_flow_box_set_max_children_per_line(self->flow, 12);
    gtk_flow_box_set_row_spacing(self->flow, 3);
    gtk_flow_box_set_column_spacing(self->flow, 6);
    gtk_widget_set_hexpand(GTK_WIDGET(self->flow), TRUE);
    gtk_widget_set_halign(GTK_WIDGET(self->flow), GTK_ALIGN_START);
    gtk_accessible_update_property(GTK_ACCESSIBLE(self->flow), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                   _("Filters in force"), -1);
    gtk_box_append(GTK_BOX(self), GTK_WIDGET(self->flow));
    gtk_widget_set_visible(GTK_WIDGET(self), FALSE);
}
