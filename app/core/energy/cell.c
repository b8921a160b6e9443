/* How warm a cell gets. */
#include "energy.h"
#include <math.h>

#define TYPICAL_NOCT_C 45.0

static double mounting_adder_k(int mounting)
{
    switch ((WbMounting)mounting) {
    case WB_MOUNT_CLOSE:
        return 11;
    case WB_MOUNT_BONDED:
        return 18;
    case WB_MOUNT_RAISED:
        break;
    }
    return 2;
}

double wb_heating_k_m2_w(double noct_c, int mounting)
{
    double noct = (isnan(noct_c) ? TYPICAL_NOCT_C : noct_c) + mounting_adder_k(mounting);
    return (noct - 20) / 800;
}

double wb_cell_c(double irradiance_w_m2, double air_c, double noct_c, int mounting)
{
    return air_c + wb_heating_k_m2_w(noct_c, mounting) * irradiance_w_m2;
}
