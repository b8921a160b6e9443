#include "way_pane.h"

#include "brief_entry.h"
#include "figures_text.h"
#include "format.h"
#include "kit_list.h"
#include "words_way.h"
#include <glib/gi18n-lib.h>
#include <math.h>

enum { CHARS = 6 };

/* One place in the order of importance: the criterion that stands there now. */
typedef struct {
    WbWayPane *pane;
    GtkWidget *row, *steps, *unit, *up, *down;
    GtkCheckButton *counts;
    WbBriefEntry *step;
    WbBriefField field;
    int criterion;
} Place;

typedef struct {
    GtkWidget *unit;
    WbBriefEntry *entry;
    WbBriefField field;
    char *pointer, *name;
} Goal;

struct _WbWayPane {
    GtkBox parent_instance;
    WbDocument *document;
    GtkDropDown *way;
    GtkWidget *goals, *order;
    GtkLabel *formula, *problem;
    Place place[WB_N_CRITERIA];
    Goal goal[WB_N_CRITERIA];
    gboolean updating;
};

G_DEFINE_FINAL_TYPE(WbWayPane, wb_way_pane, GTK_TYPE_BOX)

static const WbRankBy *rank_by(WbWayPane *self)
{
    return &wb_document_get_brief(self->document)->rank_by;
}

static double step_at(const WbBrief *brief, int index)
{
    return index < brief->rank_by.n_important ? brief->rank_by.important[index].step : NAN;
}

static double goal_of(const WbBrief *brief, int criterion)
{
    return brief->rank_by.goal[criterion];
}

/* ---- edits ---- */

/* (transfer full) */
static char *importance_json(const WbRankBy *by)
{
    GString *json = g_string_new("[");
    for (int i = 0; i < by->n_important; i++) {
        double step = by->important[i].step;
        g_autofree char *number = isnan(step) ? g_strdup("null") : wb_text_plain(step);
        g_string_append_printf(json, "%s{\"criterion\": \"%s\", \"step\": %s}", i > 0 ? ", " : "",
                               wb_criterion_name((WbCriterion)by->important[i].criterion), number);
    }
    g_string_append_c(json, ']');
    return g_string_free(json, FALSE);
}

static void refresh(WbWayPane *self);

static void set(WbWayPane *self, const char *label, const char *pointer, const char *json)
{
    g_autoptr(GError) error = NULL;
    if (!wb_document_set_json(self->document, label, pointer, json, &error)) {
        wb_show_message(GTK_WIDGET(self), error->message);
        refresh(self);
    }
}

static void set_importance(WbWayPane *self, const WbRankBy *by)
{
    g_autofree char *json = importance_json(by);
    set(self, _("Change the order of importance"), "/rank_by/importance", json);
}

static void on_way(WbWayPane *self)
{
    if (self->updating)
        return;
    guint way = gtk_drop_down_get_selected(self->way);
    g_autoptr(GError) error = NULL;
    g_autofree char *word = g_strdup_printf("\"%s\"", wb_way_name((WbWay)MIN(way, WB_N_WAYS - 1)));
    g_autofree char *listed = wb_document_get_json(self->document, "/rank_by/importance");
    g_autofree char *list = importance_json(rank_by(self));
    /* The list is written out, so that its steps have a place of their own. */
    const WbEdit edits[] = {{WB_EDIT_SET, "/rank_by/way", word},
                            {WB_EDIT_SET, "/rank_by/importance", list}};
    gsize n = way == WB_WAY_IMPORTANCE && listed == NULL ? 2 : 1;
    if (!wb_document_apply(self->document, _("Rank another way"), edits, n, &error)) {
        wb_show_message(GTK_WIDGET(self), error->message);
        refresh(self);
    }
}

static void on_counts(Place *place)
{
    WbWayPane *self = place->pane;
    if (self->updating)
        return;
    WbRankBy by = *rank_by(self);
    int n = 0;
    for (int i = 0; i < by.n_important; i++)
        if (by.important[i].criterion != place->criterion)
            by.important[n++] = by.important[i];
    if (gtk_check_button_get_active(place->counts))
        by.important[n++] = (WbImportant){place->criterion, NAN};
    by.n_important = n;
    set_importance(self, &by);
}

/* The keyboard goes with the criterion. */
static void move(Place *place, int by_places)
{
    WbWayPane *self = place->pane;
    WbRankBy by = *rank_by(self);
    int from = (int)(place - self->place), to = from + by_places;
    if (from >= by.n_important || to < 0 || to >= by.n_important)
        return;
    WbImportant held = by.important[from];
    by.important[from] = by.important[to];
    by.important[to] = held;
    set_importance(self, &by);
    Place *there = &self->place[to];
    GtkWidget *button = by_places < 0 ? there->up : there->down;
    if (!gtk_widget_get_sensitive(button))
        button = by_places < 0 ? there->down : there->up;
    gtk_widget_grab_focus(button);
}

static void on_up(Place *place)
{
    move(place, -1);
}

static void on_down(Place *place)
{
    move(place, 1);
}

/* ---- what is shown ---- */

/* A button of a picture alone has no name of its own. */
static void name_button(GtkWidget *button, const char *name)
{
    gtk_widget_set_tooltip_text(button, name);
    gtk_accessible_update_property(GTK_ACCESSIBLE(button), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
}

static void refresh_place(WbWayPane *self, Place *place, int criterion, int n_important)
{
    const char *currency = wb_document_get_brief(self->document)->currency;
    int at = (int)(place - self->place);
    gboolean counts = at < n_important;
    const char *title = wb_criterion_title((WbCriterion)criterion);
    place->criterion = criterion;
    place->field.scale = wb_format_criterion_scale((WbCriterion)criterion, currency);
    gtk_check_button_set_active(place->counts, counts);
    g_autofree char *numbered = counts ? g_strdup_printf("%d. %s", at + 1, title) : g_strdup(title);
    gtk_check_button_set_label(place->counts, numbered);
    gtk_label_set_text(GTK_LABEL(place->unit),
                       wb_format_criterion_unit((WbCriterion)criterion, currency));
    gtk_widget_set_visible(place->steps, counts);
    gtk_widget_set_visible(place->up, counts);
    gtk_widget_set_visible(place->down, counts);
    gtk_widget_set_sensitive(place->up, at > 0);
    gtk_widget_set_sensitive(place->down, at + 1 < n_important);
    /* Translators: a criterion, the size of its steps: "Cost, step". */
    g_autofree char *name = g_strdup_printf(_("%s, step"), title);
    wb_brief_entry_set_name(place->step, name);
    if (counts)
        wb_brief_entry_refresh(place->step);
    g_autofree char *up = g_strdup_printf(_("%s, more important"), title);
    g_autofree char *down = g_strdup_printf(_("%s, less important"), title);
    name_button(place->up, up);
    name_button(place->down, down);
}

static void refresh_order(WbWayPane *self)
{
    const WbRankBy *by = rank_by(self);
    guint32 placed = 0;
    int at = 0;
    for (; at < by->n_important; at++) {
        refresh_place(self, &self->place[at], by->important[at].criterion, by->n_important);
        placed |= 1u << by->important[at].criterion;
    }
    for (int c = 0; c < WB_N_CRITERIA && at < WB_N_CRITERIA; c++)
        if (!(placed >> c & 1))
            refresh_place(self, &self->place[at++], c, by->n_important);
}

static void refresh_goals(WbWayPane *self)
{
    const WbBrief *brief = wb_document_get_brief(self->document);
    for (WbCriterion c = 0; c < WB_N_CRITERIA; c++) {
        Goal *goal = &self->goal[c];
        goal->field.scale = wb_format_criterion_scale(c, brief->currency);
        gtk_label_set_text(GTK_LABEL(goal->unit), wb_format_criterion_unit(c, brief->currency));
        gtk_widget_set_visible(gtk_widget_get_parent(GTK_WIDGET(goal->entry)),
                               brief->weight[c] > 0);
        wb_brief_entry_refresh(goal->entry);
    }
}

static void refresh(WbWayPane *self)
{
    WbWay way = (WbWay)rank_by(self)->way;
    self->updating = TRUE;
    gtk_drop_down_set_selected(self->way, (guint)way);
    gtk_widget_set_visible(self->goals, way == WB_WAY_GOALS);
    gtk_widget_set_visible(self->order, way == WB_WAY_IMPORTANCE);
    refresh_goals(self);
    refresh_order(self);
    self->updating = FALSE;
}

void wb_way_pane_show(WbWayPane *self, WbResult *result)
{
    g_return_if_fail(WB_IS_WAY_PANE(self));
    if (result == NULL)
        return;
    const WbProblem *problem = wb_result_get_problem(result);
    const char *currency = problem->brief->currency;
    g_autofree char *formula = wb_words_way(problem);
    gtk_label_set_text(self->formula, formula);
    for (WbCriterion c = 0; c < WB_N_CRITERIA; c++) {
        g_autofree char *full = wb_format_figure_bare(c, problem->anchor[c].full, currency);
        wb_brief_entry_set_placeholder(self->goal[c].entry, full);
    }
    for (int i = 0; i < problem->rank_by.n_important; i++) {
        const WbImportant *important = &problem->rank_by.important[i];
        g_autofree char *step =
            wb_format_figure_bare((WbCriterion)important->criterion, important->step, currency);
        wb_brief_entry_set_placeholder(self->place[i].step, step);
    }
}

/* ---- building ---- */

static void on_message(WbBriefEntry *entry, const char *sentence, WbWayPane *self)
{
    gtk_label_set_text(self->problem, sentence != NULL ? sentence : "");
    gtk_widget_set_visible(GTK_WIDGET(self->problem), sentence != NULL);
}

static GtkWidget *small_label(GtkWidget *box, const char *text, const char *style)
{
    GtkWidget *label = gtk_label_new(text);
    gtk_label_set_xalign(GTK_LABEL(label), 0);
    gtk_widget_add_css_class(label, "small");
    if (style != NULL)
        gtk_widget_add_css_class(label, style);
    gtk_box_append(GTK_BOX(box), label);
    return label;
}

static WbBriefEntry *add_entry(WbWayPane *self, GtkWidget *row, const WbBriefField *field,
                               int index, GtkWidget **unit)
{
    GtkWidget *entry = wb_brief_entry_new(self->document, field, index, CHARS);
    gtk_box_append(GTK_BOX(row), entry);
    *unit = small_label(row, NULL, "quiet");
    gtk_label_set_width_chars(GTK_LABEL(*unit), 4);
    g_signal_connect_object(entry, "message", G_CALLBACK(on_message), self, 0);
    return WB_BRIEF_ENTRY(entry);
}

static void add_goal(WbWayPane *self, WbCriterion c)
{
    Goal *goal = &self->goal[c];
    GtkWidget *row = gtk_box_new(GTK_ORIENTATION_HORIZONTAL, 6);
    GtkWidget *title = small_label(row, wb_criterion_title(c), NULL);
    gtk_widget_set_hexpand(title, TRUE);
    goal->pointer = g_strdup_printf("/rank_by/goals/%s", wb_criterion_name(c));
    /* Translators: a criterion, what it is to reach: "Cost, goal". */
    goal->name = g_strdup_printf(_("%s, goal"), wb_criterion_title(c));
    goal->field = (WbBriefField){.title = goal->name,
                                 .unit = "",
                                 .step = _("Change a goal"),
                                 .pointer = goal->pointer,
                                 .kind = WB_BRIEF_NUMBER,
                                 .scale = 1,
                                 .empty_json = "null",
                                 .number = goal_of};
    goal->entry = add_entry(self, row, &goal->field, (int)c, &goal->unit);
    gtk_box_append(GTK_BOX(self->goals), row);
}

static GtkWidget *add_button(Place *place, const char *icon, GCallback pressed)
{
    GtkWidget *button = gtk_button_new_from_icon_name(icon);
    gtk_widget_add_css_class(button, "flat");
    g_signal_connect_swapped(button, "clicked", pressed, place);
    gtk_box_append(GTK_BOX(place->row), button);
    return button;
}

static void add_place(WbWayPane *self, int at)
{
    Place *place = &self->place[at];
    place->pane = self;
    place->row = gtk_box_new(GTK_ORIENTATION_HORIZONTAL, 3);
    place->counts = GTK_CHECK_BUTTON(gtk_check_button_new());
    gtk_widget_set_hexpand(GTK_WIDGET(place->counts), TRUE);
    gtk_box_append(GTK_BOX(place->row), GTK_WIDGET(place->counts));
    place->field = (WbBriefField){.title = _("Step"),
                                  .unit = "",
                                  .step = _("Change the size of a step"),
                                  .pointer = "/rank_by/importance/#/step",
                                  .kind = WB_BRIEF_NUMBER,
                                  .scale = 1,
                                  .empty_json = "null",
                                  .number = step_at};
    place->steps = gtk_box_new(GTK_ORIENTATION_HORIZONTAL, 6);
    gtk_widget_set_halign(place->steps, GTK_ALIGN_END);
    small_label(place->steps, _("in steps of"), NULL);
    place->step = add_entry(self, place->steps, &place->field, at, &place->unit);
    place->up = add_button(place, "go-up-symbolic", G_CALLBACK(on_up));
    place->down = add_button(place, "go-down-symbolic", G_CALLBACK(on_down));
    g_signal_connect_swapped(place->counts, "toggled", G_CALLBACK(on_counts), place);
    gtk_box_append(GTK_BOX(self->order), place->row);
    gtk_box_append(GTK_BOX(self->order), place->steps);
}

static void wb_way_pane_dispose(GObject *object)
{
    g_clear_object(&WB_WAY_PANE(object)->document);
    G_OBJECT_CLASS(wb_way_pane_parent_class)->dispose(object);
}

/* After the entries, which read their fields to the end. */
static void wb_way_pane_finalize(GObject *object)
{
    WbWayPane *self = WB_WAY_PANE(object);
    for (int c = 0; c < WB_N_CRITERIA; c++) {
        g_free(self->goal[c].pointer);
        g_free(self->goal[c].name);
    }
    G_OBJECT_CLASS(wb_way_pane_parent_class)->finalize(object);
}

static void wb_way_pane_class_init(WbWayPaneClass *class)
{
    G_OBJECT_CLASS(class)->dispose = wb_way_pane_dispose;
    G_OBJECT_CLASS(class)->finalize = wb_way_pane_finalize;
}

static void wb_way_pane_init(WbWayPane *self)
{
    gtk_orientable_set_orientation(GTK_ORIENTABLE(self), GTK_ORIENTATION_VERTICAL);
    gtk_box_set_spacing(GTK_BOX(self), 6);
}

static void add_way(WbWayPane *self)
{
    const char *const ways[WB_N_WAYS + 1] = {
        [WB_WAY_SCORE] = _("Weighted score"),
        [WB_WAY_GOALS] = _("Nearest to my goals"),
        [WB_WAY_IMPORTANCE] = _("Order of importance"),
    };
    GtkWidget *way = gtk_drop_down_new_from_strings(ways);
    self->way = GTK_DROP_DOWN(way);
    gtk_accessible_update_property(GTK_ACCESSIBLE(way), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                   _("Way to rank"), -1);
    gtk_box_append(GTK_BOX(self), way);
    g_signal_connect_object(way, "notify::selected", G_CALLBACK(on_way), self, G_CONNECT_SWAPPED);
}

GtkWidget *wb_way_pane_new(WbDocument *document)
{
    WbWayPane *self = g_object_new(WB_TYPE_WAY_PANE, NULL);
    self->document = g_object_ref(document);
    add_way(self);
    self->goals = gtk_box_new(GTK_ORIENTATION_VERTICAL, 3);
    self->order = gtk_box_new(GTK_ORIENTATION_VERTICAL, 0);
    gtk_box_append(GTK_BOX(self), self->goals);
    gtk_box_append(GTK_BOX(self), self->order);
    for (int i = 0; i < WB_N_CRITERIA; i++) {
        add_goal(self, (WbCriterion)i);
        add_place(self, i);
    }
    self->problem = GTK_LABEL(small_label(GTK_WIDGET(self), NULL, "stop"));
    gtk_label_set_wrap(self->problem, TRUE);
    gtk_widget_set_visible(GTK_WIDGET(self->problem), FALSE);
    self->formula = GTK_LABEL(small_label(GTK_WIDGET(self), NULL, "quiet"));
    gtk_label_set_wrap(self->formula, TRUE);
    g_signal_connect_object(document, "changed", G_CALLBACK(refresh), self, G_CONNECT_SWAPPED);
    refresh(self);
    return GTK_WIDGET(self);
}
