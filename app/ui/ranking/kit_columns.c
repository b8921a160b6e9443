#include "kit_columns.h"

#include "bar_cell.h"
#include "columns.h"
#include "figures_text.h"
#include "format.h"
#include "group_cell.h"
#include "kit_cells.h"
#include "settings.h"
#include <glib/gi18n-lib.h>
#include <math.h>

enum { RANK, KIT, SCORE, FIRST_FIGURE };

static const int widths[WB_N_CRITERIA] = {
    [WB_CRITERION_COST] = 76, [WB_CRITERION_WEIGHT] = 82,   [WB_CRITERION_USABLE] = 86,
    [WB_CRITERION_ROOF] = 72, [WB_CRITERION_AUTONOMY] = 92, [WB_CRITERION_SPARE] = 92,
    [WB_CRITERION_DARK] = 72, [WB_CRITERION_MARGIN] = 92,
};

/* What is shown, kept on the view. */
typedef struct {
    GtkColumnView *view;
    WbKitCells *cells;
    GSimpleActionGroup *actions;
    guint chosen; /* bit c: criterion c, where `by_hand` */
    guint usual;
    gboolean by_hand;
} Columns;

static const char columns_key[] = "wb-kit-columns", choice_key[] = "ranking-columns";

void wb_kit_columns_get_order(GtkColumnView *view, int *criterion, gboolean *descending)
{
    int column = wb_columns_get_primary(view, descending);
    *criterion = column >= FIRST_FIGURE ? column - FIRST_FIGURE : -1;
    /* The best rank is the highest score. */
    if (column == SCORE)
        *descending = !*descending;
}

/* ---- cells ---- */

static gboolean tell_words(GtkWidget *cell, int x, int y, gboolean keyboard, GtkTooltip *tooltip,
                           gpointer data)
{
    const char *text = gtk_inscription_get_text(GTK_INSCRIPTION(cell));
    gtk_tooltip_set_text(tooltip, text);
    return text != NULL && *text != '\0';
}

static GtkWidget *make_text(int column)
{
    if (column == RANK)
        return wb_group_cell_new();
    GtkWidget *text = gtk_inscription_new(NULL);
    gboolean words = column == KIT;
    gtk_inscription_set_xalign(GTK_INSCRIPTION(text), words ? 0 : 1);
    gtk_inscription_set_text_overflow(GTK_INSCRIPTION(text),
                                      GTK_INSCRIPTION_OVERFLOW_ELLIPSIZE_END);
    gtk_inscription_set_min_chars(GTK_INSCRIPTION(text), words ? 16 : 4);
    gtk_widget_add_css_class(text, words ? "small" : "numeric");
    gtk_widget_set_valign(text, GTK_ALIGN_CENTER);
    if (words) {
        gtk_inscription_set_min_lines(GTK_INSCRIPTION(text), 2);
        gtk_widget_set_has_tooltip(text, TRUE);
        g_signal_connect(text, "query-tooltip", G_CALLBACK(tell_words), NULL);
    }
    return text;
}

static GtkWidget *make_bar(int column)
{
    GtkWidget *bar = wb_bar_cell_new();
    gboolean less = wb_criterion_less_is_better((WbCriterion)(column - FIRST_FIGURE));
    gtk_widget_set_tooltip_text(bar, less ? _("The bar is full at the limit.")
                                          : _("The bar is full where more would count no more."));
    return bar;
}

static char *cell_text(WbKitRow *row, int column)
{
    switch (column) {
    case RANK:
        /* Beyond those asked for, where only the front is known. */
        return wb_kit_row_get_rank(row) > 0 ? wb_text_number(wb_kit_row_get_rank(row), 0)
                                            : g_strdup("…");
    case KIT:
        return wb_kit_row_dup_words(row);
    default:
        return wb_text_number(wb_kit_row_get_ranked(row)->score, 3);
    }
}

/* The bar is full where the figure is at its limit (less is better) or as good as ever counts. */
static void fill_bar(GtkListItem *item, WbKitRow *row, WbCriterion criterion)
{
    const WbProblem *problem = wb_result_get_problem(wb_kit_row_get_result(row));
    const WbAnchor *anchor = &problem->anchor[criterion];
    gboolean less = wb_criterion_less_is_better(criterion);
    double full = less ? anchor->none : anchor->full;
    double value = wb_kit_row_get_figure(row, criterion);
    g_autofree char *text = wb_format_figure_bare(criterion, value, problem->brief->currency);
    wb_bar_cell_set(WB_BAR_CELL(gtk_list_item_get_child(item)), text, full > 0 ? value / full : NAN,
                    less && value > full);
}

static void fill_cell(GtkListItem *item, int column)
{
    WbKitRow *row = gtk_list_item_get_item(item);
    if (column >= FIRST_FIGURE) {
        fill_bar(item, row, (WbCriterion)(column - FIRST_FIGURE));
        return;
    }
    g_autofree char *text = cell_text(row, column);
    if (column == RANK)
        wb_group_cell_fill(WB_GROUP_CELL(gtk_list_item_get_child(item)), item, text);
    else
        gtk_inscription_set_text(GTK_INSCRIPTION(gtk_list_item_get_child(item)), text);
}

/* ---- which are shown ---- */

static Columns *columns_of(GtkColumnView *view)
{
    return g_object_get_data(G_OBJECT(view), columns_key);
}

static guint shown(const Columns *self)
{
    return self->by_hand ? self->chosen : self->usual;
}

static void show_chosen(Columns *self)
{
    GListModel *columns = gtk_column_view_get_columns(self->view);
    for (WbCriterion c = 0; c < WB_N_CRITERIA; c++) {
        g_autoptr(GtkColumnViewColumn) column = g_list_model_get_item(columns, FIRST_FIGURE + c);
        gboolean on = (shown(self) >> c & 1) != 0;
        GAction *action =
            g_action_map_lookup_action(G_ACTION_MAP(self->actions), wb_criterion_name(c));
        /* GTK 4.8 lays out the width of hidden columns as well. */
        if (on != gtk_column_view_column_get_visible(column) || !on)
            gtk_column_view_column_set_fixed_width(column, on ? widths[c] : 0);
        gtk_column_view_column_set_visible(column, on);
        g_simple_action_set_state(G_SIMPLE_ACTION(action), g_variant_new_boolean(on));
    }
    GAction *usual = g_action_map_lookup_action(G_ACTION_MAP(self->actions), "usual");
    g_simple_action_set_enabled(G_SIMPLE_ACTION(usual), self->by_hand);
    wb_columns_align_heads(self->view, ~(guint64)0 & ~(1u << KIT));
}

/* Names with blanks between; "usual" for no choice. A choice that cannot be kept still holds. */
static void keep_choice(Columns *self)
{
    GString *text = g_string_new(NULL);
    for (WbCriterion c = 0; c < WB_N_CRITERIA; c++)
        if (self->chosen >> c & 1)
            g_string_append_printf(text, "%s%s", text->len > 0 ? " " : "", wb_criterion_name(c));
    wb_settings_set(NULL, choice_key, self->by_hand ? text->str : "usual", NULL);
    g_string_free(text, TRUE);
}

static void read_choice(Columns *self)
{
    g_autofree char *text = wb_settings_get(NULL, choice_key);
    if (text == NULL || g_str_equal(text, "usual"))
        return;
    g_auto(GStrv) names = g_strsplit(text, " ", -1);
    self->by_hand = TRUE;
    for (WbCriterion c = 0; c < WB_N_CRITERIA; c++)
        if (g_strv_contains((const char *const *)names, wb_criterion_name(c)))
            self->chosen |= 1U << c;
}

static void on_column(GSimpleAction *action, GVariant *parameter, gpointer data)
{
    Columns *self = data;
    self->chosen = shown(self);
    for (WbCriterion c = 0; c < WB_N_CRITERIA; c++)
        if (g_str_equal(g_action_get_name(G_ACTION(action)), wb_criterion_name(c)))
            self->chosen ^= 1U << c;
    self->by_hand = TRUE;
    show_chosen(self);
    keep_choice(self);
}

static void on_usual(GSimpleAction *action, GVariant *parameter, gpointer data)
{
    Columns *self = data;
    self->by_hand = FALSE;
    show_chosen(self);
    keep_choice(self);
}

GMenuModel *wb_kit_columns_menu(void)
{
    g_autoptr(GMenu) criteria = g_menu_new();
    g_autoptr(GMenu) all = g_menu_new();
    GMenu *menu = g_menu_new();
    for (WbCriterion c = 0; c < WB_N_CRITERIA; c++) {
        g_autofree char *action = g_strconcat("columns.", wb_criterion_name(c), NULL);
        g_menu_append(criteria, wb_criterion_title(c), action);
    }
    g_menu_append(all, _("Those that weigh"), "columns.usual");
    g_menu_append_section(menu, NULL, G_MENU_MODEL(criteria));
    g_menu_append_section(menu, NULL, G_MENU_MODEL(all));
    return G_MENU_MODEL(menu);
}

static void add_actions(Columns *self, GtkWidget *owner)
{
    self->actions = g_simple_action_group_new();
    for (WbCriterion c = 0; c < WB_N_CRITERIA; c++) {
        g_autoptr(GSimpleAction) action =
            g_simple_action_new_stateful(wb_criterion_name(c), NULL, g_variant_new_boolean(FALSE));
        g_signal_connect(action, "activate", G_CALLBACK(on_column), self);
        g_action_map_add_action(G_ACTION_MAP(self->actions), G_ACTION(action));
    }
    g_autoptr(GSimpleAction) usual = g_simple_action_new("usual", NULL);
    g_signal_connect(usual, "activate", G_CALLBACK(on_usual), self);
    g_action_map_add_action(G_ACTION_MAP(self->actions), G_ACTION(usual));
    gtk_widget_insert_action_group(owner, "columns", G_ACTION_GROUP(self->actions));
}

/* ---- columns ---- */

static void add_column(Columns *self, int column, int width, const char *title, GMenuModel *menu)
{
    gboolean bar = column >= FIRST_FIGURE;
    GtkListItemFactory *factory =
        wb_kit_cells_factory(self->cells, column, bar ? make_bar : make_text);
    g_autoptr(GtkColumnViewColumn) added = gtk_column_view_column_new(title, factory);
    gtk_column_view_column_set_resizable(added, TRUE);
    gtk_column_view_column_set_header_menu(added, menu);
    if (column == KIT)
        gtk_column_view_column_set_expand(added, TRUE);
    else
        gtk_column_view_column_set_fixed_width(added, width);
    if (column != KIT) {
        g_autoptr(GtkSorter) sorter = wb_columns_sorter_new(column);
        gtk_column_view_column_set_sorter(added, sorter);
    }
    gtk_column_view_append_column(self->view, added);
}

static void columns_free(gpointer data)
{
    Columns *self = data;
    for (WbCriterion c = 0; c < WB_N_CRITERIA; c++)
        g_action_map_remove_action(G_ACTION_MAP(self->actions), wb_criterion_name(c));
    g_action_map_remove_action(G_ACTION_MAP(self->actions), "usual");
    g_object_unref(self->actions);
    g_free(self);
}

void wb_kit_columns_add(GtkColumnView *view, GtkWidget *owner)
{
    g_autoptr(GMenuModel) menu = wb_kit_columns_menu();
    Columns *self = g_new0(Columns, 1);
    self->view = view;
    self->cells = wb_kit_cells_attach(view, fill_cell);
    wb_group_cell_add_keys(view);
    g_object_set_data_full(G_OBJECT(view), columns_key, self, columns_free);
    add_actions(self, owner);
    add_column(self, RANK, 88, C_("column of the place in the ranking", "Rank"), menu);
    add_column(self, KIT, 0, _("Kit"), menu);
    add_column(self, SCORE, 60, _("Score"), menu);
    for (WbCriterion c = 0; c < WB_N_CRITERIA; c++)
        add_column(self, FIRST_FIGURE + (int)c, widths[c], wb_criterion_title(c), menu);
    self->usual = 1U << WB_CRITERION_COST;
    read_choice(self);
    show_chosen(self);
}

void wb_kit_columns_set_list(GtkColumnView *view, WbKitList *list)
{
    wb_kit_cells_set_list(columns_of(view)->cells, list);
}

/* Head of a column of figures, short enough to stand over them. (transfer full) */
static char *head_text(WbCriterion criterion, const char *currency)
{
    switch (criterion) {
    case WB_CRITERION_USABLE:
        return g_strdup(C_("column head, short", "Usable, Wh"));
    case WB_CRITERION_ROOF:
        return g_strdup(C_("column head, short", "Roof, m²"));
    case WB_CRITERION_AUTONOMY:
        return g_strdup(C_("column head, days of autonomy, short", "Autonomy, d"));
    case WB_CRITERION_DARK:
        return g_strdup(C_("column head, dark hours a year, short", "Dark, h/a"));
    case WB_CRITERION_SPARE:
        return g_strdup(C_("column head, spare power, short", "Spare, W"));
    case WB_CRITERION_MARGIN:
        return g_strdup(C_("column head, supply less need a day, short", "Margin, Wh"));
    case WB_CRITERION_COST:
    case WB_CRITERION_WEIGHT:
    case WB_N_CRITERIA:
        break;
    }
    return g_strdup_printf("%s, %s", wb_criterion_title(criterion),
                           wb_format_criterion_unit(criterion, currency));
}

/* Those that weigh; if none does, those that count in the front. */
static guint usual_of(const WbBrief *brief)
{
    guint weigh = 0;
    for (WbCriterion c = 0; c < WB_N_CRITERIA; c++)
        weigh |= brief->weight[c] > 0 ? 1U << c : 0;
    return weigh != 0 ? weigh : brief->front;
}

void wb_kit_columns_set_brief(GtkColumnView *view, const WbBrief *brief)
{
    Columns *self = columns_of(view);
    GListModel *columns = gtk_column_view_get_columns(view);
    guint usual = usual_of(brief);
    gboolean changed = usual != self->usual;
    for (WbCriterion c = 0; c < WB_N_CRITERIA; c++) {
        g_autoptr(GtkColumnViewColumn) column = g_list_model_get_item(columns, FIRST_FIGURE + c);
        g_autofree char *title = head_text(c, brief->currency);
        if (g_strcmp0(gtk_column_view_column_get_title(column), title) == 0)
            continue;
        gtk_column_view_column_set_title(column, title);
        changed = TRUE;
    }
    if (!changed)
        return;
    self->usual = usual;
    show_chosen(self);
}
