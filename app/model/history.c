#include "history.h"

static void step_free(gpointer data)
{
    WbHistoryStep *step = data;
    g_free(step->label);
    g_free(step->pointer);
    wb_brief_file_unref(step->before);
    wb_brief_file_unref(step->after);
    g_free(step);
}

void wb_history_init(WbHistory *history)
{
    history->steps = g_ptr_array_new_with_free_func(step_free);
    history->position = 0;
    history->sealed = FALSE;
}

void wb_history_clear(WbHistory *history)
{
    g_clear_pointer(&history->steps, g_ptr_array_unref);
    history->position = 0;
}

void wb_history_reset(WbHistory *history)
{
    g_ptr_array_set_size(history->steps, 0);
    history->position = 0;
    history->sealed = FALSE;
}

const WbHistoryStep *wb_history_undoable(const WbHistory *history)
{
    return history->position > 0 ? history->steps->pdata[history->position - 1] : NULL;
}

const WbHistoryStep *wb_history_redoable(const WbHistory *history)
{
    return history->position < history->steps->len ? history->steps->pdata[history->position]
                                                   : NULL;
}

static gboolean lengthens(const WbHistory *history, const char *pointer, gint64 now_us,
                          gint64 merge_us)
{
    const WbHistoryStep *last = wb_history_undoable(history);
    return last && pointer && last->pointer && !history->sealed &&
           now_us - last->at_us <= merge_us && merge_us > 0 && g_str_equal(pointer, last->pointer);
}

void wb_history_push(WbHistory *history, const char *label, const char *pointer,
                     WbBriefFile *before, WbBriefFile *after, gint64 now_us, gint64 merge_us)
{
    gboolean undone = history->position < history->steps->len;
    g_ptr_array_set_size(history->steps, (int)history->position);
    if (!undone && lengthens(history, pointer, now_us, merge_us)) {
        WbHistoryStep *last = history->steps->pdata[history->position - 1];
        wb_brief_file_unref(last->after);
        last->after = wb_brief_file_ref(after);
        last->at_us = now_us;
        return;
    }
    WbHistoryStep *step = g_new0(WbHistoryStep, 1);
    step->label = g_strdup(label);
    step->pointer = g_strdup(pointer);
    step->at_us = now_us;
    step->before = wb_brief_file_ref(before);
    step->after = wb_brief_file_ref(after);
    if (history->steps->len == WB_HISTORY_MOST)
        g_ptr_array_remove_index(history->steps, 0);
    g_ptr_array_add(history->steps, step);
    history->position = history->steps->len;
    history->sealed = FALSE;
}
