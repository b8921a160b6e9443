/* What every page is given: the window's shared objects. Pages keep no second copy of a document
 * value; they read, and edit through the document. All borrowed, alive as long as the page. */
#ifndef WB_PAGE_H
#define WB_PAGE_H

#include "catalogue_store.h"
#include "document.h"
#include "ranking_job.h"
#include "session.h"
#include <gtk/gtk.h>

typedef struct {
    WbDocument *document;
    WbSession *session;
    WbRankingJob *job;
    WbCatalogueStore *catalogue;
} WbContext;

/* One constructor per page, each in app/ui/<name>/page.c; (transfer floating). Pages connect with
 * g_signal_connect_object. */
GtkWidget *wb_loads_page_new(const WbContext *context);
GtkWidget *wb_place_page_new(const WbContext *context);
GtkWidget *wb_roof_page_new(const WbContext *context);
GtkWidget *wb_parts_page_new(const WbContext *context);
GtkWidget *wb_ranking_page_new(const WbContext *context);
GtkWidget *wb_storage_page_new(const WbContext *context);
GtkWidget *wb_kit_page_new(const WbContext *context);
GtkWidget *wb_shopping_page_new(const WbContext *context);

/* Shows one sentence in the window's message bar; finds the window from any widget in it. */
void wb_show_message(GtkWidget *from, const char *sentence);
/* Beside it a button that takes back the last edit of the catalogue (win.undo-catalogue). */
void wb_show_undo_message(GtkWidget *from, const char *sentence);

#endif
