#include "cli_find_kit.h"

#include "cli_job.h"
#include "cli_ranking.h"
#include <glib/gi18n-lib.h>
#include <string.h>

/* true for digits alone: a rank, not a kit's id. */
static bool is_rank(const char *text)
{
    return text[0] != '\0' && strspn(text, "0123456789") == strlen(text);
}

static int rank_number(const char *text, guint64 *rank)
{
    if (g_ascii_string_to_unsigned(text, 10, 1, WB_CLI_TOP_MOST, rank, NULL))
        return WB_EXIT_DONE;
    return wb_cli_fail(WB_EXIT_WRONG_USE, _("A rank is a whole number from 1 to %d, not “%s”."),
                       WB_CLI_TOP_MOST, text);
}

static int kit_at(const WbProblem *problem, const WbRanking *ranking, guint64 rank, WbKit *kit)
{
    if (ranking->feasible == 0)
        return wb_cli_fail_no_kit(problem, ranking);
    if (rank > ranking->n_top)
        return wb_cli_fail(
            WB_EXIT_WRONG_USE,
            _("There is no kit of rank %" G_GUINT64_FORMAT ": %" G_GUINT64_FORMAT " kits work."),
            rank, ranking->feasible);
    *kit = ranking->top[rank - 1].kit;
    return WB_EXIT_DONE;
}

int wb_cli_find_kit(const WbProblem *problem, const char *text, bool ranked, WbRanking *ranking,
                    WbKit *kit)
{
    guint64 rank = 1;
    bool by_rank = text == NULL || is_rank(text);
    int code = text != NULL && by_rank ? rank_number(text, &rank) : WB_EXIT_DONE;
    if (code != WB_EXIT_DONE)
        return code;
    if (!by_rank && !wb_kit_parse(problem, text, kit))
        return wb_cli_fail(WB_EXIT_WRONG_USE,
                           _("“%s” is neither a rank nor the id of a kit of the ticked parts."),
                           text);
    if (!by_rank && !ranked)
        return WB_EXIT_DONE;
    code = wb_cli_rank(problem, (size_t)rank, false, ranking);
    return code == WB_EXIT_DONE && by_rank ? kit_at(problem, ranking, rank, kit) : code;
}
