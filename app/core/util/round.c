#include "round.h"

int64_t wb_round_half_up(double amount)
{
    double slack = (amount < 0 ? -amount : amount) * 0x1p-50;
    double up = amount + 0.5 + (slack < 0x1p-10 ? slack : 0x1p-10);
    int64_t whole = (int64_t)up; /* cut off towards 0; floor() is a call, and this is asked millions
                                    of times in a ranking */
    return whole - (up < (double)whole);
}
