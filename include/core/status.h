/* What a core function answers when it can fail. Output is untouched on failure. */
#ifndef WB_STATUS_H
#define WB_STATUS_H

typedef enum {
    WB_OK = 0,
    WB_STOPPED,   /* the caller raised the stop flag of WbControl */
    WB_BUDGET,    /* the node budget was used up before an answer was proved */
    WB_NO_MEMORY, /* an allocation failed */
    WB_BAD_INPUT, /* a value outside what the header of the function accepts */
} WbStatus;

/* One plain English sentence, static storage. */
const char *wb_status_describe(WbStatus status);

#endif
