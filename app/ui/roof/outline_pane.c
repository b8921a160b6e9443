#include "outline_pane.h"

#include "brief_row.h"
#include "corner_table.h"
#include "roof_fields.h"
#include "roof_shape_edit.h"
#include <glib/gi18n-lib.h>

struct _WbOutlinePane {
    GtkBox parent_instance;
    GtkWidget *has_gland, *gland[2], *problem;
    WbDocument *document;
    gboolean filling;
};

G_DEFINE_FINAL_TYPE(WbOutlinePane, wb_outline_pane, GTK_TYPE_BOX)

static void on_changed(WbOutlinePane *self)
{
    gboolean given = wb_document_get_brief(self->document)->roof.has_gland;
    self->filling = TRUE;
    gtk_check_button_set_active(GTK_CHECK_BUTTON(self->has_gland), given);
    self->filling = FALSE;
    for (guint i = 0; i < G_N_ELEMENTS(self->gland); i++)
        gtk_widget_set_visible(self->gland[i], given);
}

/* A first gland near the middle of the back edge, to be moved. */
static void on_has_gland(WbOutlinePane *self)
{
    g_autoptr(GError) error = NULL;
    if (self->filling || self->document == NULL)
        return;
    const WbRoof *roof = &wb_document_get_brief(self->document)->roof;
    gboolean on = gtk_check_button_get_active(GTK_CHECK_BUTTON(self->has_gland));
    gint64 y_mm = roof->width_mm - MIN(150, roof->width_mm / 4);
    gboolean done = on ? wb_gland_set(self->document, roof->length_mm / 2, y_mm, &error)
                       : wb_gland_remove(self->document, &error);
    gtk_label_set_text(GTK_LABEL(self->problem), done ? "" : error->message);
    gtk_widget_set_visible(self->problem, !done);
    on_changed(self);
}

/* ---- building ---- */

static void add_rows(WbOutlinePane *self, WbRoofFieldId first, WbRoofFieldId last)
{
    for (int id = (int)first; id <= (int)last; id++)
        gtk_box_append(GTK_BOX(self), wb_brief_row_new(self->document, wb_roof_field(id)));
}

static void add_section(WbOutlinePane *self, const char *title)
{
    GtkWidget *label = gtk_label_new(title);
    gtk_label_set_xalign(GTK_LABEL(label), 0);
    gtk_widget_set_margin_top(label, 6);
    gtk_widget_add_css_class(label, "section");
    gtk_box_append(GTK_BOX(self), label);
}

static void add_gland(WbOutlinePane *self)
{
    self->has_gland = gtk_check_button_new_with_label(_("Cables go through the roof at one place"));
    gtk_widget_set_tooltip_text(self->has_gland,
                                _("Among layouts of as many panels, short cables are preferred"));
    g_signal_connect_object(self->has_gland, "toggled", G_CALLBACK(on_has_gland), self,
                            G_CONNECT_SWAPPED);
    gtk_box_append(GTK_BOX(self), self->has_gland);
    self->problem = gtk_label_new(NULL);
    gtk_label_set_xalign(GTK_LABEL(self->problem), 0);
    gtk_label_set_wrap(GTK_LABEL(self->problem), TRUE);
    gtk_widget_add_css_class(self->problem, "stop");
    gtk_widget_set_visible(self->problem, FALSE);
    gtk_box_append(GTK_BOX(self), self->problem);
    for (int i = 0; i < 2; i++) {
        self->gland[i] = wb_brief_row_new(self->document, wb_roof_field(WB_GLAND_X + i));
        gtk_box_append(GTK_BOX(self), self->gland[i]);
    }
}

GtkWidget *wb_outline_pane_new(WbDocument *document)
{
    WbOutlinePane *self = g_object_new(WB_TYPE_OUTLINE_PANE, NULL);
    self->document = g_object_ref(document);
    add_section(self, _("Outline"));
    add_rows(self, WB_ROOF_LENGTH, WB_ROOF_WIDTH);
    gtk_box_append(GTK_BOX(self), wb_corner_table_new(document));
    add_rows(self, WB_ROOF_MARGIN, WB_ROOF_LOAD);
    add_rows(self, WB_ROOF_FRONT, WB_ROOF_FRONT);
    add_section(self, _("Heights"));
    add_rows(self, WB_ROOF_STANDOFF, WB_ROOF_HEIGHT);
    add_section(self, _("Cable gland"));
    add_gland(self);
    g_signal_connect_object(document, "changed", G_CALLBACK(on_changed), self, G_CONNECT_SWAPPED);
    on_changed(self);
    return GTK_WIDGET(self);
}

static void wb_outline_pane_dispose(GObject *object)
{
    g_clear_object(&WB_OUTLINE_PANE(object)->document);
    G_OBJECT_CLASS(wb_outline_pane_parent_class)->dispose(object);
}

static void wb_outline_pane_class_init(WbOutlinePaneClass *klass)
{
    G_OBJECT_CLASS(klass)->dispose = wb_outline_pane_dispose;
}

static void wb_outline_pane_init(WbOutlinePane *self)
{
    gtk_orientable_set_orientation(GTK_ORIENTABLE(self), GTK_ORIENTATION_VERTICAL);
    gtk_box_set_spacing(GTK_BOX(self), 6);
}
