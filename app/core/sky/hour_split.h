/* The hourly split of radiation.h (Skartveit & Olseth 1987) for many hours under one sun. Private
 * to core/sky. */
#ifndef WB_HOUR_SPLIT_H
#define WB_HOUR_SPLIT_H

typedef struct {
    double clear_clearness;    /* k1 */
    double clear_diffuse;      /* d1 */
    double top_clearness;      /* 1.09 k1 */
    double top_beam_clearness; /* beam over extraterrestrial there, and beyond */
} WbHourSplit;

WbHourSplit wb_hour_split(double sin_elevation);
double wb_hour_diffuse(const WbHourSplit *split, double clearness);

#endif
