#include "part_pane.h"

#include "part_answer.h"
#include "part_list.h"
#include "resources.h"
#include <glib/gi18n-lib.h>

/* More matches than these are not listed: the person types on. */
#define MOST_MATCHES 40

struct _WbPartPane {
    GtkBox parent_instance;
    GtkSearchEntry *search;
    GtkButton *back;
    GtkStack *stack;
    GtkListBox *matches, *lines;
    GtkLabel *said, *headline;
    WbSession *session;
    WbResult *result;
    GCancellable *asked;  /* of the answer waited for; NULL: none */
    WbPartAnswer *answer; /* shown; its lines are the rows' */
    GPtrArray *ids;       /* of the matches, borrowed from the result */
    gboolean asking;      /* something stands in the field */
    gboolean writing;
    char *written; /* the text of the field as we wrote it, NULL: never */
};

G_DEFINE_FINAL_TYPE(WbPartPane, wb_part_pane, GTK_TYPE_BOX)

enum { PROP_ASKING = 1, N_PROPS };
static GParamSpec *props[N_PROPS];

static void show_page(WbPartPane *self, const char *page)
{
    gboolean asking = page != NULL;
    if (page != NULL)
        gtk_stack_set_visible_child_name(self->stack, page);
    gtk_widget_set_visible(GTK_WIDGET(self->stack), asking);
    gtk_widget_set_visible(GTK_WIDGET(self->back), asking);
    if (asking == self->asking)
        return;
    self->asking = asking;
    g_object_notify_by_pspec(G_OBJECT(self), props[PROP_ASKING]);
}

static void say(WbPartPane *self, const char *text)
{
    gtk_label_set_text(self->said, text);
    show_page(self, "said");
}

static void empty(GtkListBox *box)
{
    GtkWidget *row;
    while ((row = gtk_widget_get_first_child(GTK_WIDGET(box))) != NULL)
        gtk_list_box_remove(box, row);
}

static GtkWidget *new_label(const char *text, const char *css_class)
{
    GtkWidget *label = gtk_label_new(text);
    gtk_label_set_xalign(GTK_LABEL(label), 0);
    gtk_label_set_wrap(GTK_LABEL(label), TRUE);
    gtk_widget_add_css_class(label, "small");
    if (css_class != NULL)
        gtk_widget_add_css_class(label, css_class);
    return label;
}

static void append_row(GtkListBox *box, const char *text, const char *under, gboolean activatable)
{
    GtkWidget *row = gtk_list_box_row_new();
    GtkWidget *lines = gtk_box_new(GTK_ORIENTATION_VERTICAL, 0);
    gtk_widget_add_css_class(lines, "ruled-out");
    gtk_box_append(GTK_BOX(lines), new_label(text, NULL));
    if (under != NULL)
        gtk_box_append(GTK_BOX(lines), new_label(under, "quiet"));
    gtk_list_box_row_set_child(GTK_LIST_BOX_ROW(row), lines);
    gtk_list_box_row_set_activatable(GTK_LIST_BOX_ROW(row), activatable);
    gtk_widget_set_focusable(row, activatable);
    gtk_list_box_append(box, row);
}

/* ---- the answer ---- */

static void drop_question(WbPartPane *self)
{
    if (self->asked != NULL)
        g_cancellable_cancel(self->asked);
    g_clear_object(&self->asked);
}

static void show_answer(WbPartPane *self, WbPartAnswer *answer)
{
    g_autofree char *headline = g_strdup_printf("%s: %s", answer->title, answer->headline);
    empty(self->lines);
    g_clear_pointer(&self->answer, wb_part_answer_free);
    self->answer = answer;
    gtk_label_set_text(self->headline, headline);
    for (gsize i = 0; i < answer->n; i++) {
        const WbAnswerLine *line = &answer->line[i];
        append_row(self->lines, line->text, line->kit_words, line->kit_id != NULL);
        if (line->kit_id != NULL)
            gtk_widget_set_tooltip_text(gtk_widget_get_last_child(GTK_WIDGET(self->lines)),
                                        _("Choose this row to take that kit in hand"));
    }
    show_page(self, "answer");
}

static void on_answer(GObject *source, GAsyncResult *result, gpointer data)
{
    g_autoptr(WbPartPane) self = data;
    g_autoptr(GError) error = NULL;
    WbPartAnswer *answer = wb_part_answer_ask_finish(result, &error);
    if (g_error_matches(error, G_IO_ERROR, G_IO_ERROR_CANCELLED))
        return; /* another question took its place */
    g_clear_object(&self->asked);
    if (answer != NULL)
        show_answer(self, answer);
    else
        say(self, error->message);
}

static void ask(WbPartPane *self)
{
    const char *part_id = self->session != NULL ? wb_session_get_part_asked(self->session) : "";
    drop_question(self);
    if (*part_id == '\0')
        return;
    if (self->result == NULL) {
        say(self, _("Nothing has been ranked yet."));
        return;
    }
    if (!self->asking || self->answer == NULL || g_strcmp0(self->answer->part_id, part_id) != 0)
        say(self, _("Working it out…"));
    /* Without dark hours the order is not the last word; the whole ranking is on its way. */
    if (!wb_result_get_ranking(self->result)->proved)
        return;
    self->asked = g_cancellable_new();
    wb_part_answer_ask(self->result, part_id, wb_session_get_kit(self->session), self->asked,
                       on_answer, g_object_ref(self));
}

static void on_line(WbPartPane *self, GtkListBoxRow *row)
{
    int i = gtk_list_box_row_get_index(row);
    if (self->answer != NULL && i >= 0 && (gsize)i < self->answer->n && self->session != NULL &&
        self->answer->line[i].kit_id != NULL)
        wb_session_set_kit(self->session, self->answer->line[i].kit_id);
}

/* ---- finding the part ---- */

static gboolean holds_all(const char *text, char **words)
{
    for (int i = 0; words[i] != NULL; i++)
        if (strstr(text, words[i]) == NULL)
            return FALSE;
    return TRUE;
}

static void list_matches_of(WbPartPane *self, WbPartKind kind, char **words)
{
    const WbCatalogue *catalogue = wb_result_get_catalogue(self->result);
    gsize n = wb_catalogue_count(catalogue, kind);
    for (gsize i = 0; i < n && self->ids->len < MOST_MATCHES; i++) {
        const WbPart *part = wb_catalogue_part(catalogue, kind, i);
        g_autofree char *title = g_strdup_printf("%s %s", part->maker, part->model);
        g_autofree char *both = g_strdup_printf("%s %s", title, part->id);
        g_autofree char *folded = g_utf8_casefold(both, -1);
        if (!holds_all(folded, words))
            continue;
        g_ptr_array_add(self->ids, (gpointer)part->id);
        append_row(self->matches, title, part->id, TRUE);
    }
}

static void list_matches(WbPartPane *self, const char *text)
{
    g_autofree char *folded = g_utf8_casefold(text, -1);
    g_auto(GStrv) words = g_strsplit_set(folded, " \t", -1);
    empty(self->matches);
    g_ptr_array_set_size(self->ids, 0);
    for (int kind = 0; self->result != NULL && kind < WB_N_KINDS; kind++)
        list_matches_of(self, (WbPartKind)kind, words);
    if (self->ids->len > 0)
        show_page(self, "matches");
    else
        say(self, self->result != NULL ? _("No part of the catalogue matches.")
                                       : _("Nothing has been ranked yet."));
}

static void write_text(WbPartPane *self, const char *text)
{
    g_free(self->written);
    self->written = g_strdup(text);
    self->writing = TRUE; /* the field is empty for a moment, and says so at once */
    gtk_editable_set_text(GTK_EDITABLE(self->search), text);
    self->writing = FALSE;
    gtk_editable_set_position(GTK_EDITABLE(self->search), -1);
}

static void on_search(WbPartPane *self)
{
    const char *text = gtk_editable_get_text(GTK_EDITABLE(self->search));
    if (self->writing || (*text != '\0' && g_strcmp0(text, self->written) == 0))
        return; /* what we wrote ourselves is told a moment later */
    g_clear_pointer(&self->written, g_free);
    drop_question(self);
    if (self->session != NULL)
        wb_session_set_part_asked(self->session, "");
    if (*text != '\0')
        list_matches(self, text);
    else
        show_page(self, NULL);
}

static void choose(WbPartPane *self, guint i)
{
    if (self->session == NULL || i >= self->ids->len)
        return;
    g_autofree char *id = g_strdup(self->ids->pdata[i]);
    if (g_strcmp0(wb_session_get_part_asked(self->session), id) == 0)
        g_object_notify(G_OBJECT(self->session), "part-asked");
    else
        wb_session_set_part_asked(self->session, id);
}

static void on_match(WbPartPane *self, GtkListBoxRow *row)
{
    choose(self, (guint)gtk_list_box_row_get_index(row));
}

/* Enter takes the first. */
static void on_enter(WbPartPane *self)
{
    if (g_strcmp0(gtk_stack_get_visible_child_name(self->stack), "matches") == 0 && self->asking)
        choose(self, 0);
}

static void on_stop(WbPartPane *self)
{
    write_text(self, "");
    drop_question(self);
    show_page(self, NULL);
    if (self->session != NULL)
        wb_session_set_part_asked(self->session, "");
}

/* ---- the session ---- */

/* Turns the stack we stand in to us. */
static void come_in_sight(WbPartPane *self)
{
    GtkWidget *child = GTK_WIDGET(self), *parent;
    while ((parent = gtk_widget_get_parent(child)) != NULL && !GTK_IS_STACK(parent))
        child = parent;
    if (parent != NULL)
        gtk_stack_set_visible_child(GTK_STACK(parent), child);
}

/* Its id while there is no catalogue to tell more. */
static void write_title(WbPartPane *self)
{
    const char *id = wb_session_get_part_asked(self->session);
    const WbPart *part =
        self->result != NULL
            ? wb_catalogue_find_part(wb_result_get_catalogue(self->result), id, NULL)
            : NULL;
    g_autofree char *title =
        part != NULL ? g_strdup_printf("%s %s", part->maker, part->model) : g_strdup(id);
    write_text(self, title);
}

static void on_part_asked(WbPartPane *self)
{
    if (*wb_session_get_part_asked(self->session) == '\0')
        return;
    come_in_sight(self); /* which may bring the result along */
    write_title(self);
    ask(self);
}

void wb_part_pane_show(WbPartPane *self, WbResult *result)
{
    g_return_if_fail(WB_IS_PART_PANE(self));
    if (result != NULL)
        wb_result_ref(result);
    g_clear_pointer(&self->result, wb_result_unref);
    self->result = result;
    g_ptr_array_set_size(self->ids, 0); /* of the last result */
    if (!self->asking)
        return;
    if (self->session != NULL && *wb_session_get_part_asked(self->session) != '\0') {
        write_title(self);
        ask(self);
    } else {
        list_matches(self, gtk_editable_get_text(GTK_EDITABLE(self->search)));
    }
}

void wb_part_pane_set_session(WbPartPane *self, WbSession *session)
{
    g_return_if_fail(WB_IS_PART_PANE(self));
    g_set_object(&self->session, session);
    g_signal_connect_object(session, "notify::part-asked", G_CALLBACK(on_part_asked), self,
                            G_CONNECT_SWAPPED);
}

static void wb_part_pane_get_property(GObject *object, guint id, GValue *value, GParamSpec *spec)
{
    if (id == PROP_ASKING)
        g_value_set_boolean(value, WB_PART_PANE(object)->asking);
    else
        G_OBJECT_WARN_INVALID_PROPERTY_ID(object, id, spec);
}

static void wb_part_pane_dispose(GObject *object)
{
    WbPartPane *self = WB_PART_PANE(object);
    drop_question(self);
    g_clear_object(&self->session);
    g_clear_pointer(&self->result, wb_result_unref);
    g_clear_pointer(&self->answer, wb_part_answer_free);
    g_clear_pointer(&self->ids, g_ptr_array_unref);
    g_clear_pointer(&self->written, g_free);
    G_OBJECT_CLASS(wb_part_pane_parent_class)->dispose(object);
}

static void wb_part_pane_class_init(WbPartPaneClass *class)
{
    GtkWidgetClass *widget = GTK_WIDGET_CLASS(class);
    G_OBJECT_CLASS(class)->dispose = wb_part_pane_dispose;
    G_OBJECT_CLASS(class)->get_property = wb_part_pane_get_property;
    props[PROP_ASKING] = g_param_spec_boolean("asking", NULL, NULL, FALSE,
                                              G_PARAM_READABLE | G_PARAM_STATIC_STRINGS);
    g_object_class_install_properties(G_OBJECT_CLASS(class), N_PROPS, props);
    gtk_widget_class_set_template_from_resource(widget, WB_RESOURCE_PREFIX "/ranking/part_why.ui");
    gtk_widget_class_bind_template_child(widget, WbPartPane, search);
    gtk_widget_class_bind_template_child(widget, WbPartPane, back);
    gtk_widget_class_bind_template_child(widget, WbPartPane, stack);
    gtk_widget_class_bind_template_child(widget, WbPartPane, matches);
    gtk_widget_class_bind_template_child(widget, WbPartPane, lines);
    gtk_widget_class_bind_template_child(widget, WbPartPane, said);
    gtk_widget_class_bind_template_child(widget, WbPartPane, headline);
    gtk_widget_class_bind_template_callback(widget, on_search);
    gtk_widget_class_bind_template_callback(widget, on_enter);
    gtk_widget_class_bind_template_callback(widget, on_stop);
    gtk_widget_class_bind_template_callback(widget, on_match);
    gtk_widget_class_bind_template_callback(widget, on_line);
}

static void wb_part_pane_init(WbPartPane *self)
{
    self->ids = g_ptr_array_new();
    gtk_widget_init_template(GTK_WIDGET(self));
}
