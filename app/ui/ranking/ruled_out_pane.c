#include "ruled_out_pane.h"

#include "dark_answer.h"
#include "figures_text.h"
#include "part_pane.h"
#include "resources.h"
#include "words.h"
#include <glib/gi18n-lib.h>

/* ---- one rule ---- */

#define WB_TYPE_RULE_COUNT (wb_rule_count_get_type())
G_DECLARE_FINAL_TYPE(WbRuleCount, wb_rule_count, WB, RULE_COUNT, GObject)

struct _WbRuleCount {
    GObject parent_instance;
    WbRule rule;
    WbRuledOut count;
    char *nearest; /* sentence; NULL: none */
    WbResult *result;
    char *kit_id;
};

G_DEFINE_FINAL_TYPE(WbRuleCount, wb_rule_count, G_TYPE_OBJECT)

static void wb_rule_count_finalize(GObject *object)
{
    WbRuleCount *self = WB_RULE_COUNT(object);
    wb_result_unref(self->result);
    g_free(self->kit_id);
    g_free(self->nearest);
    G_OBJECT_CLASS(wb_rule_count_parent_class)->finalize(object);
}

static void wb_rule_count_class_init(WbRuleCountClass *class)
{
    G_OBJECT_CLASS(class)->finalize = wb_rule_count_finalize;
}

static void wb_rule_count_init(WbRuleCount *self)
{
}

/* ---- the pane ---- */

struct _WbRuledOutPane {
    GtkBox parent_instance;
    GtkLabel *summary;
    GtkListView *view;
    GtkBox *heads;
    GtkSizeGroup *numbers[2]; /* widths of the columns of numbers */
    GtkWidget *about, *by_rule;
    WbPartPane *part;
    GListStore *rules;
    WbSession *session;
    GCancellable *dark; /* of the nearest of the dark hours, while it is worked out */
};

G_DEFINE_FINAL_TYPE(WbRuledOutPane, wb_ruled_out_pane, GTK_TYPE_BOX)

static GtkWidget *new_label(const char *css_class, gboolean words)
{
    GtkWidget *text = gtk_label_new(NULL);
    gtk_label_set_xalign(GTK_LABEL(text), words ? 0 : 1);
    gtk_label_set_yalign(GTK_LABEL(text), 0);
    gtk_label_set_wrap(GTK_LABEL(text), words);
    gtk_widget_set_hexpand(text, words);
    gtk_widget_add_css_class(text, "small");
    gtk_widget_add_css_class(text, css_class);
    return text;
}

/* A rule and its two counts in one line, heads and rows alike. */
static GtkWidget *new_line(WbRuledOutPane *self, const char *css_class)
{
    GtkWidget *line = gtk_box_new(GTK_ORIENTATION_HORIZONTAL, 12);
    gtk_box_append(GTK_BOX(line), new_label(css_class, TRUE));
    for (int i = 0; i < 2; i++) {
        GtkWidget *number = new_label(css_class, FALSE);
        gtk_size_group_add_widget(self->numbers[i], number);
        gtk_box_append(GTK_BOX(line), number);
    }
    return line;
}

static void set_line(GtkWidget *line, const char *words, const char *first, const char *alone)
{
    GtkWidget *label = gtk_widget_get_first_child(line);
    gtk_label_set_text(GTK_LABEL(label), words);
    label = gtk_widget_get_next_sibling(label);
    gtk_label_set_text(GTK_LABEL(label), first);
    label = gtk_widget_get_next_sibling(label);
    gtk_label_set_text(GTK_LABEL(label), alone);
}

/* Under the line, how near the nearest kit comes. */
static void set_up(WbRuledOutPane *self, GtkListItem *item)
{
    GtkWidget *box = gtk_box_new(GTK_ORIENTATION_VERTICAL, 0);
    gtk_widget_add_css_class(box, "ruled-out");
    gtk_box_append(GTK_BOX(box), new_line(self, "numeric"));
    gtk_box_append(GTK_BOX(box), new_label("quiet", TRUE));
    gtk_list_item_set_child(item, box);
}

static void bind(WbRuledOutPane *self, GtkListItem *item)
{
    const WbRuleCount *rule = gtk_list_item_get_item(item);
    GtkWidget *box = gtk_list_item_get_child(item), *near = gtk_widget_get_last_child(box);
    g_autofree char *first = wb_text_number((double)rule->count.first, 0);
    g_autofree char *alone = wb_text_number((double)rule->count.alone, 0);
    set_line(gtk_widget_get_first_child(box), wb_words_rule(rule->rule), first, alone);
    gtk_label_set_text(GTK_LABEL(near), rule->nearest != NULL ? rule->nearest : "");
    gtk_widget_set_visible(near, rule->nearest != NULL);
    gtk_widget_set_tooltip_text(
        box, rule->kit_id != NULL ? _("Choose this row to take that kit in hand") : NULL);
    gtk_list_item_set_activatable(item, rule->kit_id != NULL);
}

static int most_first(gconstpointer a, gconstpointer b)
{
    const WbRuleCount *p = *(WbRuleCount *const *)a, *q = *(WbRuleCount *const *)b;
    if (p->count.first != q->count.first)
        return p->count.first > q->count.first ? -1 : 1;
    return (int)p->rule - (int)q->rule;
}

static void show_summary(WbRuledOutPane *self, const WbRanking *ranking)
{
    g_autofree char *raw = wb_text_number((double)ranking->raw, 0);
    g_autofree char *out =
        wb_text_number((double)(ranking->raw - ranking->feasible - ranking->undecided), 0);
    g_autofree char *undecided = wb_text_number((double)ranking->undecided, 0);
    g_autofree char *text = g_strdup_printf(
        _("%s of %s combinations do not work. Each counts once, under the first rule it breaks; "
          "“only this” would work if that one thing were different."),
        out, raw);
    g_autofree char *more =
        ranking->undecided > 0
            ? g_strdup_printf(_("\nFor %s more it is not decided whether the panels fit the roof."),
                              undecided)
            : g_strdup("");
    g_autofree char *whole = g_strconcat(text, more, NULL);
    gtk_label_set_text(self->summary, whole);
}

static WbRuleCount *new_count(WbResult *result, WbRule rule)
{
    const WbProblem *problem = wb_result_get_problem(result);
    WbRuleCount *count = g_object_new(WB_TYPE_RULE_COUNT, NULL);
    char id[WB_KIT_ID];
    count->rule = rule;
    count->count = wb_result_get_ranking(result)->ruled_out[rule];
    count->result = wb_result_ref(result);
    count->nearest = g_strdup(wb_result_get_nearest(result, rule));
    if (count->nearest != NULL) {
        wb_kit_id(problem, &count->count.nearest, id);
        count->kit_id = g_strdup(id);
    }
    return count;
}

/* ---- the nearest of the dark hours comes later ---- */

static void drop_dark(WbRuledOutPane *self)
{
    if (self->dark != NULL)
        g_cancellable_cancel(self->dark);
    g_clear_object(&self->dark);
}

static void tell_dark(WbRuledOutPane *self, const WbDarkAnswer *answer)
{
    GListModel *rules = G_LIST_MODEL(self->rules);
    for (guint i = 0; i < g_list_model_get_n_items(rules); i++) {
        g_autoptr(WbRuleCount) rule = g_list_model_get_item(rules, i);
        if (rule->rule != WB_RULE_DARK_HOURS || answer->sentence == NULL)
            continue;
        g_free(rule->nearest);
        g_free(rule->kit_id);
        rule->nearest = g_strdup(answer->sentence);
        rule->kit_id = g_strdup(answer->kit_id);
        g_list_store_splice(self->rules, i, 1, (gpointer *)&rule, 1);
    }
}

static void on_dark(GObject *source, GAsyncResult *result, gpointer data)
{
    g_autoptr(WbRuledOutPane) self = data;
    g_autoptr(GError) error = NULL;
    g_autoptr(WbDarkAnswer) answer = wb_dark_answer_ask_finish(result, &error);
    if (g_error_matches(error, G_IO_ERROR, G_IO_ERROR_CANCELLED))
        return; /* another result took its place */
    g_clear_object(&self->dark);
    if (answer != NULL)
        tell_dark(self, answer);
}

static void ask_dark(WbRuledOutPane *self, WbResult *result)
{
    drop_dark(self);
    if (result == NULL || !wb_dark_answer_is_open(result))
        return;
    self->dark = g_cancellable_new();
    wb_dark_answer_ask(result, self->dark, on_dark, g_object_ref(self));
}

void wb_ruled_out_pane_show(WbRuledOutPane *self, WbResult *result)
{
    g_return_if_fail(WB_IS_RULED_OUT_PANE(self));
    g_autoptr(GPtrArray) rules = g_ptr_array_new_with_free_func(g_object_unref);
    if (result != NULL) {
        const WbRanking *ranking = wb_result_get_ranking(result);
        for (WbRule rule = 0; rule < WB_N_RULES; rule++) {
            if (ranking->ruled_out[rule].first == 0 && ranking->ruled_out[rule].alone == 0)
                continue;
            g_ptr_array_add(rules, new_count(result, rule));
        }
        show_summary(self, ranking);
    } else {
        gtk_label_set_text(self->summary, _("Nothing has been ranked yet."));
    }
    g_ptr_array_sort(rules, most_first);
    g_list_store_splice(self->rules, 0, g_list_model_get_n_items(G_LIST_MODEL(self->rules)),
                        rules->pdata, rules->len);
    ask_dark(self, result);
    wb_part_pane_show(self->part, result);
}

static void on_activate(WbRuledOutPane *self, guint position)
{
    g_autoptr(WbRuleCount) rule = g_list_model_get_item(G_LIST_MODEL(self->rules), position);
    if (rule != NULL && rule->kit_id != NULL && self->session != NULL)
        wb_session_set_kit(self->session, rule->kit_id);
}

void wb_ruled_out_pane_set_session(WbRuledOutPane *self, WbSession *session)
{
    g_return_if_fail(WB_IS_RULED_OUT_PANE(self));
    g_set_object(&self->session, session);
    wb_part_pane_set_session(self->part, session);
}

static void wb_ruled_out_pane_dispose(GObject *object)
{
    drop_dark(WB_RULED_OUT_PANE(object));
    g_clear_object(&WB_RULED_OUT_PANE(object)->rules);
    g_clear_object(&WB_RULED_OUT_PANE(object)->session);
    for (int i = 0; i < 2; i++)
        g_clear_object(&WB_RULED_OUT_PANE(object)->numbers[i]);
    G_OBJECT_CLASS(wb_ruled_out_pane_parent_class)->dispose(object);
}

static void wb_ruled_out_pane_class_init(WbRuledOutPaneClass *class)
{
    GtkWidgetClass *widget = GTK_WIDGET_CLASS(class);
    G_OBJECT_CLASS(class)->dispose = wb_ruled_out_pane_dispose;
    g_type_ensure(WB_TYPE_PART_PANE);
    gtk_widget_class_set_template_from_resource(widget, WB_RESOURCE_PREFIX "/ranking/ruled_out.ui");
    gtk_widget_class_bind_template_child(widget, WbRuledOutPane, about);
    gtk_widget_class_bind_template_child(widget, WbRuledOutPane, by_rule);
    gtk_widget_class_bind_template_child(widget, WbRuledOutPane, part);
    gtk_widget_class_bind_template_child(widget, WbRuledOutPane, summary);
    gtk_widget_class_bind_template_child(widget, WbRuledOutPane, view);
    gtk_widget_class_bind_template_child(widget, WbRuledOutPane, heads);
}

static void wb_ruled_out_pane_init(WbRuledOutPane *self)
{
    gtk_widget_init_template(GTK_WIDGET(self));
    self->rules = g_list_store_new(WB_TYPE_RULE_COUNT);
    for (int i = 0; i < 2; i++)
        self->numbers[i] = gtk_size_group_new(GTK_SIZE_GROUP_HORIZONTAL);
    g_autoptr(GtkNoSelection) model = gtk_no_selection_new(G_LIST_MODEL(g_object_ref(self->rules)));
    g_autoptr(GtkListItemFactory) factory = gtk_signal_list_item_factory_new();
    g_signal_connect_object(factory, "setup", G_CALLBACK(set_up), self, G_CONNECT_SWAPPED);
    g_signal_connect_object(factory, "bind", G_CALLBACK(bind), self, G_CONNECT_SWAPPED);
    gtk_list_view_set_factory(self->view, factory);
    gtk_list_view_set_model(self->view, GTK_SELECTION_MODEL(model));
    gtk_list_view_set_single_click_activate(self->view, TRUE);
    g_signal_connect_swapped(self->view, "activate", G_CALLBACK(on_activate), self);
    GtkWidget *heads = new_line(self, "quiet");
    set_line(heads, _("Rule"), _("First"), _("Only this"));
    gtk_box_append(self->heads, heads);
    g_object_bind_property(self->part, "asking", self->about, "visible",
                           G_BINDING_INVERT_BOOLEAN | G_BINDING_SYNC_CREATE);
    g_object_bind_property(self->part, "asking", self->by_rule, "visible",
                           G_BINDING_INVERT_BOOLEAN | G_BINDING_SYNC_CREATE);
    wb_ruled_out_pane_show(self, NULL);
}
