/* The inside of WbWindow, shared by window.c (the frame), window_actions.c and window_files.c. */
#ifndef WB_WINDOW_PRIVATE_H
#define WB_WINDOW_PRIVATE_H

#include "foot.h"
#include "steps.h"
#include "window.h"

/* What waits for the person's word while an unsaved brief would be lost. */
typedef enum {
    WB_LEAVE_NOTHING,
    WB_LEAVE_NEW,
    WB_LEAVE_DEMO,
    WB_LEAVE_OPEN,
    WB_LEAVE_CLOSE
} WbLeave;

struct _WbWindow {
    GtkApplicationWindow parent_instance;
    WbContext context; /* owned */
    GtkEntry *title;
    gboolean naming; /* we write the title, not the person */
    GtkLabel *subtitle, *message;
    GtkWidget *undo, *redo, *message_bar, *save_first, *go_on, *undo_catalogue;
    WbSteps *steps;
    GtkStack *stack;
    WbFoot *foot;
    GtkNativeDialog *dialog; /* open while a file is chosen */
    WbLeave leaving;
    char *leaving_path;
};

void wb_window_add_actions(WbWindow *self);
void wb_window_say(WbWindow *self, const char *sentence);
/* Beside it a button that takes back the last edit of the catalogue. */
void wb_window_say_undo(WbWindow *self, const char *sentence);
void wb_window_hush(WbWindow *self);

/* Does it at once where nothing would be lost, else asks in the message bar. path: for
 * WB_LEAVE_OPEN. TRUE: done or failed with a message; FALSE: it waits for win.go-on. */
gboolean wb_window_leave(WbWindow *self, WbLeave leave, const char *path);
void wb_window_go_on(WbWindow *self);
void wb_window_choose_open(WbWindow *self);
void wb_window_choose_save(WbWindow *self);
void wb_window_save(WbWindow *self);
void wb_window_save_to(WbWindow *self, const char *path);

#endif
