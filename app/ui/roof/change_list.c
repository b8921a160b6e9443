#include "change_list.h"

#include "roof_words.h"
#include <glib/gi18n-lib.h>

struct _WbChangeList {
    GtkBox parent_instance;
    GtkWidget *line[WB_ROOF_CHANGES]; /* GtkToggleButton */
    GtkLabel *words[WB_ROOF_CHANGES];
    int hovered, focused, pressed; /* -1 none */
    gboolean filling;
};

G_DEFINE_FINAL_TYPE(WbChangeList, wb_change_list, GTK_TYPE_BOX)

static guint shown_signal;

int wb_change_list_get_shown(WbChangeList *self)
{
    g_return_val_if_fail(WB_IS_CHANGE_LIST(self), -1);
    return self->hovered >= 0 ? self->hovered : self->focused >= 0 ? self->focused : self->pressed;
}

static int index_of(WbChangeList *self, GtkWidget *line)
{
    for (int i = 0; i < WB_ROOF_CHANGES; i++)
        if (self->line[i] == line)
            return i;
    return -1;
}

static void look_at(WbChangeList *self, int *which, int index)
{
    int before = wb_change_list_get_shown(self);
    *which = index;
    if (wb_change_list_get_shown(self) != before)
        g_signal_emit(self, shown_signal, 0);
}

static void show_pressed(WbChangeList *self)
{
    self->filling = TRUE;
    for (int i = 0; i < WB_ROOF_CHANGES; i++)
        gtk_toggle_button_set_active(GTK_TOGGLE_BUTTON(self->line[i]), i == self->pressed);
    self->filling = FALSE;
}

void wb_change_list_let_go(WbChangeList *self)
{
    g_return_if_fail(WB_IS_CHANGE_LIST(self));
    self->hovered = self->focused = self->pressed = -1;
    show_pressed(self);
}

/* ---- what it shows ---- */

static void show_line(WbChangeList *self, int index, const char *text)
{
    gboolean other = g_strcmp0(text, gtk_label_get_text(self->words[index])) != 0;
    gtk_widget_set_visible(self->line[index], text != NULL);
    if (!other && text != NULL)
        return;
    gtk_label_set_text(self->words[index], text != NULL ? text : "");
    gtk_accessible_update_property(GTK_ACCESSIBLE(self->line[index]), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                   text != NULL ? text : "", -1);
    self->hovered = self->hovered == index ? -1 : self->hovered;
    self->focused = self->focused == index ? -1 : self->focused;
    self->pressed = self->pressed == index ? -1 : self->pressed;
}

void wb_change_list_show(WbChangeList *self, const WbStudyPanel *panel, const WbRoof *roof,
                         int most)
{
    g_return_if_fail(WB_IS_CHANGE_LIST(self));
    int shown = panel != NULL ? MIN(panel->n_changes, most) : 0;
    for (int i = 0; i < WB_ROOF_CHANGES; i++) {
        g_autofree char *text = i < shown ? wb_roof_change_words(roof, &panel->change[i], 1) : NULL;
        show_line(self, i, text);
    }
    show_pressed(self);
}

/* ---- looking at one ---- */

static void on_enter(GtkEventControllerMotion *motion, double x, double y, WbChangeList *self)
{
    GtkWidget *line = gtk_event_controller_get_widget(GTK_EVENT_CONTROLLER(motion));
    look_at(self, &self->hovered, index_of(self, line));
}

static void on_leave(GtkEventControllerMotion *motion, WbChangeList *self)
{
    look_at(self, &self->hovered, -1);
}

static void on_focus_in(GtkEventControllerFocus *focus, WbChangeList *self)
{
    GtkWidget *line = gtk_event_controller_get_widget(GTK_EVENT_CONTROLLER(focus));
    look_at(self, &self->focused, index_of(self, line));
}

static void on_focus_out(GtkEventControllerFocus *focus, WbChangeList *self)
{
    look_at(self, &self->focused, -1);
}

static void on_toggled(GtkToggleButton *line, WbChangeList *self)
{
    int index = index_of(self, GTK_WIDGET(line));
    if (self->filling)
        return;
    look_at(self, &self->pressed, gtk_toggle_button_get_active(line) ? index : -1);
    show_pressed(self);
}

/* ---- building ---- */

static void add_line(WbChangeList *self, int index)
{
    GtkWidget *line = gtk_toggle_button_new(), *words = gtk_label_new(NULL);
    GtkEventController *motion = gtk_event_controller_motion_new();
    GtkEventController *focus = gtk_event_controller_focus_new();
    gtk_label_set_xalign(GTK_LABEL(words), 0);
    gtk_label_set_wrap(GTK_LABEL(words), TRUE);
    gtk_widget_add_css_class(words, "small");
    gtk_widget_add_css_class(line, "flat");
    gtk_widget_add_css_class(line, "change");
    gtk_widget_set_tooltip_text(line, _("Shows on the plan how the panels would lie then"));
    gtk_button_set_child(GTK_BUTTON(line), words);
    gtk_widget_set_visible(line, FALSE);
    g_signal_connect_object(line, "toggled", G_CALLBACK(on_toggled), self, 0);
    g_signal_connect_object(motion, "enter", G_CALLBACK(on_enter), self, 0);
    g_signal_connect_object(motion, "leave", G_CALLBACK(on_leave), self, 0);
    g_signal_connect_object(focus, "enter", G_CALLBACK(on_focus_in), self, 0);
    g_signal_connect_object(focus, "leave", G_CALLBACK(on_focus_out), self, 0);
    gtk_widget_add_controller(line, motion);
    gtk_widget_add_controller(line, focus);
    gtk_box_append(GTK_BOX(self), line);
    self->line[index] = line;
    self->words[index] = GTK_LABEL(words);
}

static void wb_change_list_class_init(WbChangeListClass *klass)
{
    shown_signal = g_signal_new("shown", WB_TYPE_CHANGE_LIST, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                NULL, G_TYPE_NONE, 0);
}

static void wb_change_list_init(WbChangeList *self)
{
    self->hovered = self->focused = self->pressed = -1;
    for (int i = 0; i < WB_ROOF_CHANGES; i++)
        add_line(self, i);
}

GtkWidget *wb_change_list_new(void)
{
    return g_object_new(WB_TYPE_CHANGE_LIST, "orientation", GTK_ORIENTATION_VERTICAL, NULL);
}
