#include "wiring_form.h"

#include "brief_row.h"
#include "figures_text.h"
#include "wiring_edit.h"
#include "wiring_fields.h"
#include <glib/gi18n-lib.h>
#include <math.h>

struct _WbWiringForm {
    GtkBox parent_instance;
    WbDocument *document;
    GtkWidget *details; /* all below the tick */
    GtkLabel *summary, *problem;
    GtkWidget *take;
    GtkWidget *row[WB_N_WIRING_FIELDS];
    GtkWidget *length[WB_N_CIRCUITS];
};

G_DEFINE_FINAL_TYPE(WbWiringForm, wb_wiring_form, GTK_TYPE_BOX)

/* ---- showing ---- */

/* What an empty field stands for: the air as if the brief left it open. */
static char *assumed_air(const WbBrief *brief, gboolean on_roof)
{
    WbBrief open = *brief;
    *(on_roof ? &open.wiring.roof_c : &open.wiring.inside_c) = NAN;
    return wb_text_plain(wb_wiring_air_c(&open, on_roof));
}

static void show_air(WbWiringForm *self, const WbBrief *brief)
{
    g_autofree char *inside = assumed_air(brief, FALSE), *roof = assumed_air(brief, TRUE);
    WbBriefRow *inside_row = WB_BRIEF_ROW(self->row[WB_WIRING_INSIDE]);
    WbBriefRow *roof_row = WB_BRIEF_ROW(self->row[WB_WIRING_ROOF]);
    g_autofree char *note = g_strdup_printf(
        brief->rule_set == WB_RULES_BOAT
            ? _("Round conductors. Empty: %s, our assumption; an engine space is hotter.")
            : _("Round conductors. Empty: %s, our assumption."),
        inside);
    wb_brief_row_set_note(inside_row, note);
    wb_brief_row_set_placeholder(inside_row, inside);
    wb_brief_row_set_placeholder(roof_row, roof);
    wb_brief_row_set_note(roof_row, _("Empty: 20 °C more than inside, our assumption."));
}

static void show_lengths(WbWiringForm *self, const WbBrief *brief)
{
    WbBriefFile *file = wb_document_get_file(self->document);
    for (WbCircuitKind kind = 0; kind < WB_N_CIRCUITS; kind++) {
        WbBriefRow *row = WB_BRIEF_ROW(self->length[kind]);
        gboolean guessed = wb_wiring_is_assumed(file, kind);
        g_autofree char *usual = wb_text_plain(wb_circuit_usual_m(kind));
        g_autofree char *note = g_strdup_printf(_("assumed: %s m"), usual);
        gtk_widget_set_visible(self->length[kind], wb_wiring_can_have(brief, kind));
        wb_brief_row_set_placeholder(row, usual);
        wb_brief_row_set_note(row, guessed ? note : NULL);
    }
}

static void refresh(WbWiringForm *self)
{
    const WbBrief *brief = wb_document_get_brief(self->document);
    WbBriefFile *file = wb_document_get_file(self->document);
    guint assumed = wb_wiring_count_assumed(file);
    g_autofree char *text =
        assumed == 0 ? g_strdup(_("Every length is given."))
                     : g_strdup_printf(_("%u of %u lengths are assumed. Measure each along the way "
                                         "the cable takes, one way."),
                                       assumed, wb_wiring_count(file));
    show_lengths(self, brief);
    show_air(self, brief);
    gtk_label_set_text(self->summary, text);
    gtk_widget_set_sensitive(self->take, assumed > 0);
    gtk_widget_set_visible(self->row[WB_WIRING_TERMINALS], brief->rule_set != WB_RULES_BOAT);
    gtk_widget_set_visible(self->details, brief->wiring.on);
}

static void on_take(WbWiringForm *self)
{
    g_autoptr(GError) error = NULL;
    gboolean taken = wb_wiring_take_assumed(self->document, &error);
    gtk_label_set_text(self->problem, taken ? "" : error->message);
    gtk_widget_set_visible(GTK_WIDGET(self->problem), !taken);
}

/* ---- building ---- */

static GtkWidget *column_new(WbWiringForm *self, const char *title)
{
    GtkWidget *column = gtk_box_new(GTK_ORIENTATION_VERTICAL, 6);
    GtkWidget *label = gtk_label_new(title);
    gtk_label_set_xalign(GTK_LABEL(label), 0);
    gtk_widget_add_css_class(label, "section");
    gtk_box_append(GTK_BOX(column), label);
    gtk_box_append(GTK_BOX(self->details), column);
    return column;
}

static GtkLabel *label_new(GtkWidget *column, const char *css_class)
{
    GtkWidget *label = gtk_label_new("");
    gtk_label_set_xalign(GTK_LABEL(label), 0);
    gtk_label_set_wrap(GTK_LABEL(label), TRUE);
    gtk_widget_add_css_class(label, css_class);
    gtk_widget_add_css_class(label, "small");
    gtk_box_append(GTK_BOX(column), label);
    return GTK_LABEL(label);
}

static void add_lengths(WbWiringForm *self)
{
    GtkWidget *column = column_new(self, _("How long each circuit is"));
    self->summary = label_new(column, "quiet");
    for (WbCircuitKind kind = 0; kind < WB_N_CIRCUITS; kind++) {
        self->length[kind] = wb_brief_row_new(self->document, wb_wiring_length_field(kind));
        gtk_box_append(GTK_BOX(column), self->length[kind]);
    }
    self->take = gtk_button_new_with_label(_("I measured: these are right"));
    gtk_widget_set_halign(self->take, GTK_ALIGN_START);
    gtk_widget_set_tooltip_text(self->take,
                                _("Lengths that are assumed count as measured from then on"));
    g_signal_connect_object(self->take, "clicked", G_CALLBACK(on_take), self, G_CONNECT_SWAPPED);
    gtk_box_append(GTK_BOX(column), self->take);
    self->problem = label_new(column, "stop");
    gtk_widget_set_visible(GTK_WIDGET(self->problem), FALSE);
}

GtkWidget *wb_wiring_form_new(WbDocument *document)
{
    g_return_val_if_fail(WB_IS_DOCUMENT(document), NULL);
    WbWiringForm *self = g_object_new(WB_TYPE_WIRING_FORM, NULL);
    self->document = g_object_ref(document);
    for (int id = 0; id < WB_N_WIRING_FIELDS; id++)
        self->row[id] = wb_brief_row_new(document, wb_wiring_field(id));
    gtk_box_append(GTK_BOX(self), self->row[WB_WIRING_ON]);
    gtk_box_append(GTK_BOX(self), self->details);
    GtkWidget *column = column_new(self, _("How it is wired"));
    for (int id = WB_WIRING_ON + 1; id < WB_N_WIRING_FIELDS; id++)
        gtk_box_append(GTK_BOX(column), self->row[id]);
    add_lengths(self);
    refresh(self);
    g_signal_connect_object(document, "changed", G_CALLBACK(refresh), self, G_CONNECT_SWAPPED);
    return GTK_WIDGET(self);
}

static void wb_wiring_form_dispose(GObject *object)
{
    g_clear_object(&WB_WIRING_FORM(object)->document);
    G_OBJECT_CLASS(wb_wiring_form_parent_class)->dispose(object);
}

static void wb_wiring_form_class_init(WbWiringFormClass *klass)
{
    G_OBJECT_CLASS(klass)->dispose = wb_wiring_form_dispose;
}

static void wb_wiring_form_init(WbWiringForm *self)
{
    gtk_orientable_set_orientation(GTK_ORIENTABLE(self), GTK_ORIENTATION_VERTICAL);
    gtk_box_set_spacing(GTK_BOX(self), 6);
    self->details = gtk_box_new(GTK_ORIENTATION_HORIZONTAL, 24);
    gtk_box_set_homogeneous(GTK_BOX(self->details), TRUE);
}
