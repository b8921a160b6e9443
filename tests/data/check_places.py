"""data/places.csv: 300 rows whose figures can be true, with unique ids."""

import csv
import math
import pathlib
import re
import sys
import unicodedata

from tap import Tap

with open(pathlib.Path(sys.argv[1]) / "data/places.csv", encoding="utf-8", newline="") as file:
    ROWS = list(csv.DictReader(file))
TAP = Tap()
MONTHS = "jan feb mar apr may jun jul aug sep oct nov dec".split()
MEAN_DAY = [17, 47, 75, 105, 135, 162, 198, 228, 258, 288, 318, 344]  # Klein 1977, from memory


def series(row, key):
    return [float(row[f"{key}_{month}"]) for month in MONTHS]


def place_id(row):
    plain = unicodedata.normalize("NFKD", f"{row['place']} {row['country']}").encode("ascii", "ignore").decode()
    return re.sub(r"[^a-z0-9]+", "-", plain.lower().replace("'", "")).strip("-")


def extraterrestrial(latitude_deg, day):
    """kWh/m2 on that day outside the atmosphere: Duffie & Beckman, equation 1.10.3 (from memory)."""
    latitude = math.radians(latitude_deg)
    declination = math.radians(23.45 * math.sin(math.radians(360 * (284 + day) / 365)))
    sunset = math.acos(max(-1, min(1, -math.tan(latitude) * math.tan(declination))))
    return (24 / math.pi * 1.367 * (1 + 0.033 * math.cos(math.radians(360 * day / 365)))
            * (math.cos(latitude) * math.cos(declination) * math.sin(sunset)
               + sunset * math.sin(latitude) * math.sin(declination)))


def each(broken):
    return [place_id(row) for row in ROWS if broken(row)]


KINDS = {"typical year": 9, "typical year or satellite climatology": 65,
         "estimated from sunshine records": 226}
TAP.check("300 places in 86 countries", [] if len(ROWS) == 300 and len({r["country"] for r in ROWS}) == 86
          else [f"{len(ROWS)} places, {len({r['country'] for r in ROWS})} countries"])
TAP.check("ids are plain and used once", [i for i in map(place_id, ROWS)
                                          if [place_id(r) for r in ROWS].count(i) > 1 or not re.fullmatch("[a-z0-9-]+", i)])
TAP.check("each row says its kind, source and years", each(lambda r: not (r["kind"] and r["source"] and r["years"])))
TAP.check("rows of each kind", [f"{kind}: {sum(r['kind'] == kind for r in ROWS)} of {n}"
                                for kind, n in KINDS.items() if sum(r["kind"] == kind for r in ROWS) != n])
TAP.check("positions are on Earth", each(lambda r: not (-60 <= float(r["lat_deg"]) <= 72
                                                        and -180 <= float(r["lon_deg"]) <= 180
                                                        and -450 <= float(r["altitude_m"]) <= 5000)))
TAP.check("irradiation is below 85 % of that outside the atmosphere",
          each(lambda r: any(g > 0.85 * extraterrestrial(float(r["lat_deg"]), day) + 0.05
                             for g, day in zip(series(r, "ghi_kwh_m2_day"), MEAN_DAY))))
TAP.check("a year brings 1.5 to 7 kWh/m2 a day",
          each(lambda r: not 1.5 <= sum(series(r, "ghi_kwh_m2_day")) / 12 <= 7))
TAP.check("minimum < mean < maximum temperature, all of -45 to 50 C",
          each(lambda r: not all(-45 < low < mean < high < 50 for low, mean, high in
                                 zip(series(r, "tmin_c"), series(r, "tmean_c"), series(r, "tmax_c")))))
TAP.check("beyond 35 degrees the brighter half-year is the hemisphere's summer",
          each(lambda r: abs(float(r["lat_deg"])) > 35 and
               (sum(series(r, "ghi_kwh_m2_day")[3:9]) > sum(series(r, "ghi_kwh_m2_day")) / 2)
               != (float(r["lat_deg"]) > 0)))
TAP.done()
