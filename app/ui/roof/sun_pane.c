#include "sun_pane.h"

#include "figures_text.h"
#include "format.h"
#include <glib/gi18n-lib.h>
#include <math.h>

struct _WbSunPane {
    GtkBox parent_instance;
    GtkLabel *head, *panels;
    GtkWidget *grid;
    GtkLabel *share[12];
    GtkLabel *heights;
};

G_DEFINE_FINAL_TYPE(WbSunPane, wb_sun_pane, GTK_TYPE_BOX)

static char *panel_name(const WbPanel *panel)
{
    return g_strstrip(g_strdup_printf("%s %s", panel->part.maker, panel->part.model));
}

/* "Less than 1 %" is more honest than 0 where something is lost. */
static char *share_text(double share)
{
    return share > 0 && share < 0.005 ? g_strdup(_("< 1 %")) : wb_format_percent(share);
}

static void show_shares(WbSunPane *self, const WbStudyPanel *panel)
{
    for (int m = 0; m < 12; m++) {
        g_autofree char *text = share_text(panel->shade[m]);
        gtk_label_set_text(self->share[m], text);
    }
    GString *by_panel = g_string_new(_("Over the year, panel by panel as numbered on the plan:"));
    for (int i = 0; i < panel->fit.most; i++) {
        g_autofree char *text = share_text(panel->shade_by_panel[i]);
        g_string_append_printf(by_panel, "%s %d: %s", i > 0 ? "," : "", i + 1, text);
    }
    gtk_label_set_text(self->panels, by_panel->str);
    g_string_free(by_panel, TRUE);
}

/* Obstacles that stand, with a height or without one. */
static guint standing(const WbRoof *roof, gboolean with_height)
{
    guint n = 0;
    for (gsize i = 0; i < roof->n_obstacles; i++)
        n += roof->obstacles[i].kind == WB_OBSTACLE_STANDS &&
             (roof->obstacles[i].height_mm > 0) == with_height;
    return n;
}

static void show_heights(WbSunPane *self, const WbRoof *roof)
{
    guint n = standing(roof, FALSE);
    g_autofree char *text = g_strdup_printf(
        g_dngettext(GETTEXT_PACKAGE, "%u obstacle has no height, so its shade is not counted.",
                    "%u obstacles have no height, so their shade is not counted.", n),
        n);
    gtk_label_set_text(self->heights, text);
    gtk_widget_set_visible(GTK_WIDGET(self->heights), n > 0);
}

void wb_sun_pane_show(WbSunPane *self, const WbStudyPanel *panel, const WbBrief *brief)
{
    g_return_if_fail(WB_IS_SUN_PANE(self));
    const WbRoof *roof = &brief->roof;
    gboolean any_height = standing(roof, TRUE) > 0 || standing(roof, FALSE) == 0;
    gboolean known =
        any_height && panel != NULL && panel->shade_known && panel->shade_by_panel != NULL;
    g_autofree char *name = panel != NULL ? panel_name(panel->panel) : NULL;
    g_autofree char *head =
        known ? g_strdup_printf(_("Direct light that things on the roof take from %d \303\227 %s:"),
                                panel->fit.most, name)
        : panel == NULL
            ? g_strdup(_("Choose a panel under “What fits” to see how much sun the things on the "
                         "roof take from it."))
        : panel->known && (panel->refused != NULL || panel->fit.most == 0)
            ? g_strdup_printf(_("%s does not lie on this roof, so there is nothing to shade."),
                              name)
        : !any_height ? g_strdup(_("Nothing on the roof has a height yet. Give it under “Outline "
                                   "and obstacles” to see what its shadow takes."))
        : panel->shade_known ? g_strdup(_("The shade could not be worked out here."))
                             : g_strdup_printf(_("Working out the shade on %s"), name);
    gtk_label_set_text(self->head, head);
    gtk_widget_set_visible(self->grid, known);
    gtk_widget_set_visible(GTK_WIDGET(self->panels), known && panel->fit.most > 1);
    if (known)
        show_shares(self, panel);
    show_heights(self, roof);
}

/* ---- building ---- */

static GtkLabel *add_label(WbSunPane *self, const char *text)
{
    GtkLabel *label = GTK_LABEL(gtk_label_new(text));
    gtk_label_set_xalign(label, 0);
    gtk_label_set_wrap(label, TRUE);
    gtk_box_append(GTK_BOX(self), GTK_WIDGET(label));
    return label;
}

static void add_grid(WbSunPane *self)
{
    self->grid = gtk_grid_new();
    gtk_grid_set_column_spacing(GTK_GRID(self->grid), 12);
    gtk_grid_set_row_spacing(GTK_GRID(self->grid), 3);
    for (int m = 0; m < 12; m++) {
        GtkWidget *month = gtk_label_new(wb_format_month_short(m));
        GtkWidget *share = gtk_label_new(NULL);
        gtk_widget_add_css_class(month, "small");
        gtk_widget_add_css_class(month, "quiet");
        gtk_widget_add_css_class(share, "numeric");
        gtk_label_set_xalign(GTK_LABEL(month), 1);
        gtk_label_set_xalign(GTK_LABEL(share), 1);
        gtk_label_set_width_chars(GTK_LABEL(share), 5);
        gtk_accessible_update_relation(GTK_ACCESSIBLE(share), GTK_ACCESSIBLE_RELATION_LABELLED_BY,
                                       month, NULL, -1);
        gtk_grid_attach(GTK_GRID(self->grid), month, m, 0, 1, 1);
        gtk_grid_attach(GTK_GRID(self->grid), share, m, 1, 1, 1);
        self->share[m] = GTK_LABEL(share);
    }
    gtk_box_append(GTK_BOX(self), self->grid);
}

GtkWidget *wb_sun_pane_new(void)
{
    return g_object_new(WB_TYPE_SUN_PANE, "orientation", GTK_ORIENTATION_VERTICAL, "spacing", 6,
                        NULL);
}

static void wb_sun_pane_class_init(WbSunPaneClass *klass)
{
}

static void wb_sun_pane_init(WbSunPane *self)
{
    self->head = add_label(self, NULL);
    add_grid(self);
    self->panels = add_label(self, NULL);
    self->heights = add_label(self, NULL);
    gtk_widget_add_css_class(GTK_WIDGET(self->heights), "caution");
    GtkLabel *note = add_label(
        self, _("An estimate for each month’s mean day: obstacles as upright "
                "boxes and cylinders, panels flat, no trees or houses beside the roof. A panel in "
                "part shade can lose far more power than light, for its cells stand in series. The "
                "ranking does not count it; it counts the shading given under Place & season."));
    gtk_widget_add_css_class(GTK_WIDGET(note), "quiet");
    gtk_widget_add_css_class(GTK_WIDGET(note), "small");
}
