#include "normal_draw.h"
#include "sun.h"
#include <math.h>

WbNormalPair wb_normal_pair(WbRandom *random)
{
    double a = wb_random_unit(random), b = wb_random_unit(random);
    double radius = sqrt(-2 * log(1 - a)), angle = 2 * WB_PI * b;
    return (WbNormalPair){radius * cos(angle), radius * sin(angle)};
}
