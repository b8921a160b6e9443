#include "kit_columns.h"

#include "bar_cell.h"
#include "columns.h"
#include "figures_text.h"
#include "format.h"
#include <glib/gi18n-lib.h>
#include <math.h>

enum { RANK, KIT, SCORE, FIRST_FIGURE };

static const WbCriterion figures[] = {WB_CRITERION_COST, WB_CRITERION_WEIGHT,   WB_CRITERION_USABLE,
                                      WB_CRITERION_ROOF, WB_CRITERION_AUTONOMY, WB_CRITERION_DARK};
static const int widths[] = {76, 82, 86, 72, 92, 72};

void wb_kit_columns_get_order(GtkColumnView *view, int *criterion, gboolean *descending)
{
    int column = wb_columns_get_primary(view, descending);
    *criterion = column >= FIRST_FIGURE ? (int)figures[column - FIRST_FIGURE] : -1;
    /* The best rank is the highest score. */
    if (column == SCORE)
        *descending = !*descending;
}

static void set_up_text(GtkSignalListItemFactory *factory, GtkListItem *item, gpointer column)
{
    GtkWidget *text = gtk_inscription_new(NULL);
    gboolean words = GPOINTER_TO_INT(column) == KIT;
    gtk_inscription_set_xalign(GTK_INSCRIPTION(text), words ? 0 : 1);
    gtk_inscription_set_text_overflow(GTK_INSCRIPTION(text),
                                      GTK_INSCRIPTION_OVERFLOW_ELLIPSIZE_END);
    gtk_inscription_set_min_chars(GTK_INSCRIPTION(text), words ? 16 : 4);
    gtk_widget_add_css_class(text, words ? "small" : "numeric");
    if (words)
        gtk_inscription_set_min_lines(GTK_INSCRIPTION(text), 2);
    gtk_widget_set_valign(text, GTK_ALIGN_CENTER);
    gtk_list_item_set_child(item, text);
}

static void bind_text(GtkSignalListItemFactory *factory, GtkListItem *item, gpointer column)
{
    WbKitRow *row = gtk_list_item_get_item(item);
    g_autofree char *text = NULL;
    switch (GPOINTER_TO_INT(column)) {
    case RANK:
        text = wb_text_number(wb_kit_row_get_rank(row), 0);
        break;
    case KIT:
        text = wb_kit_row_dup_words(row);
        gtk_widget_set_tooltip_text(gtk_list_item_get_child(item), text);
        break;
    default:
        text = wb_text_number(wb_kit_row_get_ranked(row)->score, 3);
        break;
    }
    gtk_inscription_set_text(GTK_INSCRIPTION(gtk_list_item_get_child(item)), text);
}

static void set_up_bar(GtkSignalListItemFactory *factory, GtkListItem *item, gpointer column)
{
    gtk_list_item_set_child(item, wb_bar_cell_new());
}

/* The bar is full where the figure is at its limit (less is better) or as good as ever counts. */
static void bind_bar(GtkSignalListItemFactory *factory, GtkListItem *item, gpointer column)
{
    WbKitRow *row = gtk_list_item_get_item(item);
    WbCriterion criterion = figures[GPOINTER_TO_INT(column) - FIRST_FIGURE];
    const WbProblem *problem = wb_result_get_problem(wb_kit_row_get_result(row));
    const WbAnchor *anchor = &problem->anchor[criterion];
    gboolean less = wb_criterion_less_is_better(criterion);
    double full = less ? anchor->none : anchor->full;
    double value = wb_kit_row_get_figure(row, criterion);
    g_autofree char *text = wb_format_figure_bare(criterion, value, problem->brief->currency);
    wb_bar_cell_set(WB_BAR_CELL(gtk_list_item_get_child(item)), text, full > 0 ? value / full : NAN,
                    less && value > full);
    gtk_widget_set_tooltip_text(gtk_list_item_get_child(item),
                                less ? _("The bar is full at the limit.")
                                     : _("The bar is full where more would count no more."));
}

static void add_column(GtkColumnView *view, int column, int width, const char *title)
{
    gboolean bar = column >= FIRST_FIGURE;
    GtkListItemFactory *factory = gtk_signal_list_item_factory_new();
    g_signal_connect(factory, "setup", bar ? G_CALLBACK(set_up_bar) : G_CALLBACK(set_up_text),
                     GINT_TO_POINTER(column));
    g_signal_connect(factory, "bind", bar ? G_CALLBACK(bind_bar) : G_CALLBACK(bind_text),
                     GINT_TO_POINTER(column));
    g_autoptr(GtkColumnViewColumn) added = gtk_column_view_column_new(title, factory);
    gtk_column_view_column_set_resizable(added, TRUE);
    if (column == KIT)
        gtk_column_view_column_set_expand(added, TRUE);
    else
        gtk_column_view_column_set_fixed_width(added, width);
    if (column != KIT) {
        g_autoptr(GtkSorter) sorter = wb_columns_sorter_new(column);
        gtk_column_view_column_set_sorter(added, sorter);
    }
    gtk_column_view_append_column(view, added);
}

void wb_kit_columns_add(GtkColumnView *view)
{
    add_column(view, RANK, 52, C_("column of the place in the ranking", "Rank"));
    add_column(view, KIT, 0, _("Kit"));
    add_column(view, SCORE, 60, _("Score"));
    for (guint i = 0; i < G_N_ELEMENTS(figures); i++)
        add_column(view, FIRST_FIGURE + (int)i, widths[i], wb_criterion_title(figures[i]));
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
    case WB_CRITERION_COST:
    case WB_CRITERION_WEIGHT:
    case WB_CRITERION_SPARE:
    case WB_CRITERION_MARGIN:
    case WB_N_CRITERIA:
        break;
    }
    return g_strdup_printf("%s, %s", wb_criterion_title(criterion),
                           wb_format_criterion_unit(criterion, currency));
}

void wb_kit_columns_set_currency(GtkColumnView *view, const char *currency)
{
    GListModel *columns = gtk_column_view_get_columns(view);
    for (guint i = 0; i < G_N_ELEMENTS(figures); i++) {
        g_autoptr(GtkColumnViewColumn) column = g_list_model_get_item(columns, FIRST_FIGURE + i);
        g_autofree char *title = head_text(figures[i], currency);
        gtk_column_view_column_set_title(column, title);
    }
    wb_columns_align_heads(view, ~(guint64)0 & ~(1u << KIT));
}
