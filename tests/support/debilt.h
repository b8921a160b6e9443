/* The measured daily series of tests/published/debilt.csv. */
#ifndef WB_TEST_DEBILT_H
#define WB_TEST_DEBILT_H

#define DEBILT_YEARS 30
#define DEBILT_DAYS (DEBILT_YEARS * 365)
#define DEBILT_LATITUDE_DEG 52.1
#define DEBILT_LONGITUDE_DEG 5.2

/* kWh/m2 a day, DEBILT_DAYS of them; to be freed. */
double *debilt_days_kwh_m2(void);

/* Mean of each calendar month over so many years of 365 days, and the least of the twelve. */
void debilt_months_kwh_m2(const double *days_kwh_m2, int n_years, double months_kwh_m2[12]);
double debilt_worst_month_kwh_m2(const double *days_kwh_m2, int n_years);

#endif
