#include "store_error.h"

G_DEFINE_QUARK(wb - store - error - quark, wb_store_error)
