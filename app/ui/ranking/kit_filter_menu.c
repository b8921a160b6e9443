#include "kit_filter_menu.h"

#include "format.h"
#include "resources.h"
#include <glib/gi18n-lib.h>
#include <math.h>

struct _WbKitFilterMenu {
    GtkBox parent_instance;
    GtkCheckButton *front_only;
    GtkDropDown *chemistry, *voltage, *part, *criterion;
    GtkEntry *bound;
    GtkLabel *side, *problem;
    WbKitList *list;
    WbResult *result;
    GPtrArray *chemistry_ids, *part_ids; /* of the lines after the first */
    gboolean updating;
};

G_DEFINE_FINAL_TYPE(WbKitFilterMenu, wb_kit_filter_menu, GTK_TYPE_BOX)

static const int system_v[] = {0, 12, 24, 48};

static const char *id_of(GtkDropDown *choice, GPtrArray *ids)
{
    guint line = gtk_drop_down_get_selected(choice);
    return line == 0 || line == GTK_INVALID_LIST_POSITION || line > ids->len ? NULL
                                                                             : ids->pdata[line - 1];
}

static void on_choice(WbKitFilterMenu *self)
{
    if (self->updating || self->list == NULL)
        return;
    WbKitFilter filter = *wb_kit_list_get_filter(self->list); /* borrows its texts */
    guint volts = gtk_drop_down_get_selected(self->voltage);
    filter.front_only = gtk_check_button_get_active(self->front_only);
    filter.chemistry = (char *)id_of(self->chemistry, self->chemistry_ids);
    filter.part = (char *)id_of(self->part, self->part_ids);
    filter.system_v = volts < G_N_ELEMENTS(system_v) ? system_v[volts] : 0;
    wb_kit_list_set_filter(self->list, &filter);
}

static WbCriterion criterion_of(WbKitFilterMenu *self)
{
    guint line = gtk_drop_down_get_selected(self->criterion);
    return line < WB_N_CRITERIA ? (WbCriterion)line : WB_CRITERION_COST;
}

static const char *currency_of(WbKitFilterMenu *self)
{
    return self->result != NULL ? wb_result_get_brief(self->result)->currency : "";
}

/* Which side the bound is on, its unit, and the one in force. */
static void show_bound(WbKitFilterMenu *self)
{
    if (self->list == NULL)
        return;
    WbCriterion c = criterion_of(self);
    double bound = wb_kit_list_get_filter(self->list)->bound[c];
    g_autofree char *text =
        isnan(bound) ? g_strdup("") : wb_format_figure_bare(c, bound, currency_of(self));
    g_autofree char *side =
        g_strdup_printf(wb_criterion_less_is_better(c) ? _("at most, %s") : _("at least, %s"),
                        wb_format_criterion_unit(c, currency_of(self)));
    gtk_label_set_text(self->side, side);
    gtk_editable_set_text(GTK_EDITABLE(self->bound), text);
    gtk_widget_set_visible(GTK_WIDGET(self->problem), FALSE);
}

static void on_bound(WbKitFilterMenu *self)
{
    double value;
    WbCriterion c = criterion_of(self);
    const char *text = gtk_editable_get_text(GTK_EDITABLE(self->bound));
    if (!wb_format_parse(text, &value)) {
        g_autofree char *sentence = g_strdup_printf(
            _("“%s” is no figure; a number such as 1200 is, or nothing for no bound."), text);
        gtk_label_set_text(self->problem, sentence);
        gtk_widget_set_visible(GTK_WIDGET(self->problem), TRUE);
        return;
    }
    WbKitFilter filter = *wb_kit_list_get_filter(self->list);
    filter.bound[c] = value / wb_format_criterion_scale(c, currency_of(self));
    wb_kit_list_set_filter(self->list, &filter);
    show_bound(self);
}

static guint line_of(GPtrArray *ids, const char *id)
{
    for (guint i = 0; id != NULL && i < ids->len; i++)
        if (g_str_equal(ids->pdata[i], id))
            return i + 1;
    return 0;
}

static void refresh(WbKitFilterMenu *self)
{
    const WbKitFilter *filter = wb_kit_list_get_filter(self->list);
    self->updating = TRUE;
    gtk_check_button_set_active(self->front_only, filter->front_only);
    gtk_drop_down_set_selected(self->chemistry, line_of(self->chemistry_ids, filter->chemistry));
    gtk_drop_down_set_selected(self->part, line_of(self->part_ids, filter->part));
    for (guint i = 0; i < G_N_ELEMENTS(system_v); i++)
        if (system_v[i] == filter->system_v)
            gtk_drop_down_set_selected(self->voltage, i);
    self->updating = FALSE;
}

static void add_part(GtkStringList *names, GPtrArray *ids, const WbPart *part)
{
    g_autofree char *name = g_strdup_printf("%s %s", part->maker, part->model);
    gtk_string_list_append(names, name);
    g_ptr_array_add(ids, g_strdup(part->id));
}

static void list_parts(WbKitFilterMenu *self, const WbProblem *problem)
{
    g_autoptr(GtkStringList) names = gtk_string_list_new(NULL);
    gtk_string_list_append(names, _("Any"));
    g_ptr_array_set_size(self->part_ids, 0);
    for (size_t i = 0; i < problem->n_panels; i++)
        add_part(names, self->part_ids, &problem->panels[i].panel->part);
    for (size_t i = 0; i < problem->n_controllers; i++)
        add_part(names, self->part_ids, &problem->controllers[i].controller->part);
    for (size_t i = 0; i < problem->n_storage; i++)
        add_part(names, self->part_ids, &problem->storage[i].storage->part);
    for (size_t i = 0; i < problem->n_inverters; i++)
        if (problem->inverters[i].inverter != NULL)
            add_part(names, self->part_ids, &problem->inverters[i].inverter->part);
    for (size_t i = 0; i < problem->n_dcdc; i++)
        if (problem->dcdc[i].dcdc != NULL)
            add_part(names, self->part_ids, &problem->dcdc[i].dcdc->part);
    gtk_drop_down_set_model(self->part, G_LIST_MODEL(names));
}

static void list_chemistries(WbKitFilterMenu *self, const WbCatalogue *catalogue)
{
    g_autoptr(GtkStringList) names = gtk_string_list_new(NULL);
    gtk_string_list_append(names, _("Any"));
    g_ptr_array_set_size(self->chemistry_ids, 0);
    for (gsize i = 0; i < catalogue->n_chemistries; i++) {
        gtk_string_list_append(names, catalogue->chemistries[i].name);
        g_ptr_array_add(self->chemistry_ids, g_strdup(catalogue->chemistries[i].id));
    }
    gtk_drop_down_set_model(self->chemistry, G_LIST_MODEL(names));
}

/* Fills the lists when they come into view: they are long, and results come with every step of a
 * slider. A filter by what is no longer there stays until it is cleared. */
static void on_open(WbKitFilterMenu *self)
{
    if (self->result == NULL)
        return;
    self->updating = TRUE;
    list_chemistries(self, wb_result_get_catalogue(self->result));
    list_parts(self, wb_result_get_problem(self->result));
    self->updating = FALSE;
    refresh(self);
    show_bound(self);
}

void wb_kit_filter_menu_show(WbKitFilterMenu *self, WbResult *result)
{
    g_return_if_fail(WB_IS_KIT_FILTER_MENU(self));
    WbResult *old = self->result;
    self->result = result != NULL ? wb_result_ref(result) : NULL;
    g_clear_pointer(&old, wb_result_unref);
}

void wb_kit_filter_menu_set_list(WbKitFilterMenu *self, WbKitList *list)
{
    g_return_if_fail(WB_IS_KIT_FILTER_MENU(self) && self->list == NULL);
    self->list = g_object_ref(list);
}

static void wb_kit_filter_menu_dispose(GObject *object)
{
    WbKitFilterMenu *self = WB_KIT_FILTER_MENU(object);
    g_clear_object(&self->list);
    g_clear_pointer(&self->result, wb_result_unref);
    g_clear_pointer(&self->chemistry_ids, g_ptr_array_unref);
    g_clear_pointer(&self->part_ids, g_ptr_array_unref);
    G_OBJECT_CLASS(wb_kit_filter_menu_parent_class)->dispose(object);
}

static void wb_kit_filter_menu_class_init(WbKitFilterMenuClass *class)
{
    GtkWidgetClass *widget = GTK_WIDGET_CLASS(class);
    G_OBJECT_CLASS(class)->dispose = wb_kit_filter_menu_dispose;
    gtk_widget_class_set_template_from_resource(widget,
                                                WB_RESOURCE_PREFIX "/ranking/filter_menu.ui");
    gtk_widget_class_bind_template_child(widget, WbKitFilterMenu, front_only);
    gtk_widget_class_bind_template_child(widget, WbKitFilterMenu, chemistry);
    gtk_widget_class_bind_template_child(widget, WbKitFilterMenu, voltage);
    gtk_widget_class_bind_template_child(widget, WbKitFilterMenu, part);
    gtk_widget_class_bind_template_child(widget, WbKitFilterMenu, criterion);
    gtk_widget_class_bind_template_child(widget, WbKitFilterMenu, bound);
    gtk_widget_class_bind_template_child(widget, WbKitFilterMenu, side);
    gtk_widget_class_bind_template_child(widget, WbKitFilterMenu, problem);
    gtk_widget_class_bind_template_callback(widget, on_choice);
    gtk_widget_class_bind_template_callback(widget, on_bound);
    gtk_widget_class_bind_template_callback(widget, on_open);
    gtk_widget_class_bind_template_callback(widget, show_bound);
}

static void wb_kit_filter_menu_init(WbKitFilterMenu *self)
{
    self->updating = TRUE;
    gtk_widget_init_template(GTK_WIDGET(self));
    self->chemistry_ids = g_ptr_array_new_with_free_func(g_free);
    self->part_ids = g_ptr_array_new_with_free_func(g_free);
    g_autoptr(GtkStringList) titles = gtk_string_list_new(NULL);
    for (WbCriterion c = 0; c < WB_N_CRITERIA; c++)
        gtk_string_list_append(titles, wb_criterion_title(c));
    gtk_drop_down_set_model(self->criterion, G_LIST_MODEL(titles));
    g_autoptr(GtkStringList) volts = gtk_string_list_new(NULL);
    gtk_string_list_append(volts, _("Any"));
    for (guint i = 1; i < G_N_ELEMENTS(system_v); i++) {
        g_autofree char *text = wb_format_quantity(system_v[i], 0, "V");
        gtk_string_list_append(volts, text);
    }
    gtk_drop_down_set_model(self->voltage, G_LIST_MODEL(volts));
    g_autoptr(GtkExpression) name =
        gtk_property_expression_new(GTK_TYPE_STRING_OBJECT, NULL, "string");
    gtk_drop_down_set_expression(self->part, name);
    self->updating = FALSE;
}
