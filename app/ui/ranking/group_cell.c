#include "group_cell.h"

#include "figures_text.h"
#include "words_similar.h"
#include <glib/gi18n-lib.h>

struct _WbGroupCell {
    GtkBox parent_instance;
    GtkInscription *rank;
    GtkButton *button;
    GtkImage *arrow;
    GtkLabel *like, *differs;
    GtkListItem *item; /* borrowed: it holds us */
};

G_DEFINE_FINAL_TYPE(WbGroupCell, wb_group_cell, GTK_TYPE_BOX)

static GtkSingleSelection *selection_of(GtkColumnView *view)
{
    return GTK_SINGLE_SELECTION(gtk_column_view_get_model(view));
}

static WbKitList *list_of(GtkColumnView *view)
{
    return WB_KIT_LIST(gtk_single_selection_get_model(selection_of(view)));
}

static GtkColumnView *view_of(WbGroupCell *self)
{
    return GTK_COLUMN_VIEW(gtk_widget_get_ancestor(GTK_WIDGET(self), GTK_TYPE_COLUMN_VIEW));
}

static void on_clicked(WbGroupCell *self)
{
    WbKitList *list = list_of(view_of(self));
    guint position = gtk_list_item_get_position(self->item);
    wb_kit_list_set_open(list, position, !wb_kit_list_get_place(list, position).open);
}

static const char *differs_short(WbKitChoice choice)
{
    static const char *const names[WB_N_KIT_CHOICES + 1] = {
        [WB_KIT_PANELS] = NC_("what a similar kit has other", "panels"),
        [WB_KIT_CONTROLLERS] = NC_("what a similar kit has other", "controllers"),
        [WB_KIT_BANK] = NC_("what a similar kit has other", "bank"),
        [WB_KIT_INVERTER] = NC_("what a similar kit has other", "inverter"),
        [WB_KIT_DCDC] = NC_("what a similar kit has other", "DC-DC"),
        [WB_N_KIT_CHOICES] = NC_("what a similar kit has other", "wiring"),
    };
    return g_dpgettext2(NULL, "what a similar kit has other", names[choice]);
}

static void fill_button(WbGroupCell *self, const WbKitPlace *place, const char *rank)
{
    g_autofree char *number = wb_text_number(place->n_like, 0);
    g_autofree char *like = g_strdup_printf(_("+%s like it"), number);
    g_autofree char *name = g_strdup_printf(_("+%s like number %s"), number, rank);
    gtk_label_set_text(self->like, like);
    gtk_image_set_from_icon_name(self->arrow,
                                 place->open ? "pan-down-symbolic" : "pan-end-symbolic");
    gtk_accessible_update_property(GTK_ACCESSIBLE(self->button), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                   name, -1);
    gtk_accessible_update_state(GTK_ACCESSIBLE(self->button), GTK_ACCESSIBLE_STATE_EXPANDED,
                                place->open, -1);
}

static void fill_differs(WbGroupCell *self, WbKitChoice choice)
{
    g_autofree char *tip = g_strdup_printf(_("The same as the first of its group but for %s"),
                                           wb_words_choice(choice));
    gtk_label_set_text(self->differs, differs_short(choice));
    gtk_widget_set_tooltip_text(GTK_WIDGET(self->differs), tip);
}

void wb_group_cell_fill(WbGroupCell *self, GtkListItem *item, const char *rank)
{
    g_return_if_fail(WB_IS_GROUP_CELL(self));
    self->item = item;
    gtk_inscription_set_text(self->rank, rank);
    GtkColumnView *view = view_of(self);
    WbKitPlace place = {0};
    if (view != NULL && gtk_column_view_get_model(view) != NULL)
        place = wb_kit_list_get_place(list_of(view), gtk_list_item_get_position(item));
    gtk_widget_set_visible(GTK_WIDGET(self->button), place.n_like > 0);
    gtk_widget_set_visible(GTK_WIDGET(self->differs), place.under);
    if (place.n_like > 0)
        fill_button(self, &place, rank);
    if (place.under)
        fill_differs(self, place.differs);
}

/* ---- keys ---- */

/* The cell of a row of the view; NULL: its row has none yet. */
static WbGroupCell *cell_of_row(GtkWidget *row)
{
    GtkWidget *cell = gtk_widget_get_first_child(row);
    GtkWidget *child = cell != NULL ? gtk_widget_get_first_child(cell) : NULL;
    return WB_IS_GROUP_CELL(child) ? WB_GROUP_CELL(child) : NULL;
}

/* Position of the row that has the focus. */
static gboolean focused_position(GtkColumnView *view, guint *position)
{
    GtkWidget *rows = gtk_widget_get_last_child(GTK_WIDGET(view));
    GtkWidget *at = gtk_root_get_focus(gtk_widget_get_root(GTK_WIDGET(view)));
    while (at != NULL && gtk_widget_get_parent(at) != rows)
        at = gtk_widget_get_parent(at);
    WbGroupCell *cell = at != NULL ? cell_of_row(at) : NULL;
    if (cell == NULL || cell->item == NULL)
        return FALSE;
    *position = gtk_list_item_get_position(cell->item);
    return TRUE;
}

/* GTK 4.8 has no call that moves the focus of a list to a place. */
static void focus_position(GtkColumnView *view, guint position)
{
    GtkWidget *rows = gtk_widget_get_last_child(GTK_WIDGET(view));
    for (GtkWidget *row = gtk_widget_get_first_child(rows); row != NULL;
         row = gtk_widget_get_next_sibling(row)) {
        WbGroupCell *cell = cell_of_row(row);
        if (cell != NULL && cell->item != NULL &&
            gtk_list_item_get_position(cell->item) == position)
            gtk_widget_grab_focus(row);
    }
    gtk_widget_activate_action(rows, "list.scroll-to-item", "u", position);
}

static gboolean on_key(GtkEventControllerKey *keys, guint key, guint code, GdkModifierType state,
                       GtkColumnView *view)
{
    guint position;
    gboolean right = key == GDK_KEY_Right || key == GDK_KEY_KP_Right;
    gboolean left = key == GDK_KEY_Left || key == GDK_KEY_KP_Left;
    if ((!right && !left) || (state & gtk_accelerator_get_default_mod_mask()) != 0 ||
        !focused_position(view, &position))
        return GDK_EVENT_PROPAGATE;
    WbKitList *list = list_of(view);
    WbKitPlace place = wb_kit_list_get_place(list, position);
    if (place.n_like > 0)
        wb_kit_list_set_open(list, position, right);
    if (left && place.under) {
        while (position > 0 && wb_kit_list_get_place(list, position).under)
            position--;
        gtk_single_selection_set_selected(selection_of(view), position);
        focus_position(view, position);
    }
    return place.n_like > 0 || (left && place.under) ? GDK_EVENT_STOP : GDK_EVENT_PROPAGATE;
}

void wb_group_cell_add_keys(GtkColumnView *view)
{
    GtkEventController *keys = gtk_event_controller_key_new();
    gtk_event_controller_set_propagation_phase(keys, GTK_PHASE_CAPTURE);
    g_signal_connect(keys, "key-pressed", G_CALLBACK(on_key), view);
    gtk_widget_add_controller(GTK_WIDGET(view), keys);
}

/* ---- ends ---- */

static void wb_group_cell_class_init(WbGroupCellClass *class)
{
}

static void wb_group_cell_init(WbGroupCell *self)
{
    GtkWidget *inside = gtk_box_new(GTK_ORIENTATION_HORIZONTAL, 0);
    gtk_orientable_set_orientation(GTK_ORIENTABLE(self), GTK_ORIENTATION_VERTICAL);
    gtk_widget_set_valign(GTK_WIDGET(self), GTK_ALIGN_CENTER);
    self->rank = GTK_INSCRIPTION(gtk_inscription_new(NULL));
    gtk_inscription_set_xalign(self->rank, 1);
    gtk_inscription_set_min_chars(self->rank, 4);
    gtk_widget_add_css_class(GTK_WIDGET(self->rank), "numeric");
    self->arrow = GTK_IMAGE(gtk_image_new());
    gtk_image_set_pixel_size(self->arrow, 12);
    self->like = GTK_LABEL(gtk_label_new(NULL));
    gtk_box_append(GTK_BOX(inside), GTK_WIDGET(self->arrow));
    gtk_box_append(GTK_BOX(inside), GTK_WIDGET(self->like));
    self->button = GTK_BUTTON(gtk_button_new());
    gtk_button_set_child(self->button, inside);
    gtk_widget_add_css_class(GTK_WIDGET(self->button), "flat");
    gtk_widget_add_css_class(GTK_WIDGET(self->button), "group-button");
    gtk_widget_set_halign(GTK_WIDGET(self->button), GTK_ALIGN_END);
    /* By keyboard the row itself opens: right and left. */
    gtk_widget_set_focusable(GTK_WIDGET(self->button), FALSE);
    gtk_accessible_update_property(GTK_ACCESSIBLE(self->button), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                   _("Kits like this one"), -1);
    gtk_widget_set_visible(GTK_WIDGET(self->button), FALSE);
    g_signal_connect_swapped(self->button, "clicked", G_CALLBACK(on_clicked), self);
    self->differs = GTK_LABEL(gtk_label_new(NULL));
    gtk_label_set_xalign(self->differs, 1);
    gtk_widget_add_css_class(GTK_WIDGET(self->differs), "group-differs");
    gtk_box_append(GTK_BOX(self), GTK_WIDGET(self->rank));
    gtk_box_append(GTK_BOX(self), GTK_WIDGET(self->button));
    gtk_box_append(GTK_BOX(self), GTK_WIDGET(self->differs));
}

GtkWidget *wb_group_cell_new(void)
{
    return g_object_new(WB_TYPE_GROUP_CELL, NULL);
}
