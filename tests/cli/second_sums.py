"""The second computation, first part: sun, loads, prices and areas, worked out from data/METHOD.md alone in plain
Python. The numbers in brackets are the sections of that page."""
from collections import Counter
from decimal import Decimal
from functools import lru_cache
from math import acos, cos, floor, pi, radians, sin, sqrt

HOURS, MONTHS = range(24), range(1, 13)


def given(record, key, default=None):
    value = record.get(key)
    return default if value is None else value


def clamp(x):
    return min(1.0, max(0.0, x))


def curve(points, x):
    before = [p for p in points if p[0] <= x]
    after = [p for p in points if p[0] > x]
    if not before or not after:
        return (before[-1] if before else after[0])[1]
    (x0, y0), (x1, y1) = before[-1], after[0]
    return y0 + (y1 - y0) * (x - x0) / (x1 - x0)


def exact(number):
    return Decimal(repr(number)) if isinstance(number, float) else Decimal(number)


def half_up(amount):
    return floor(amount + Decimal("0.5"))


class Sky:
    """[1] The mean day of a month on the panel's plane, hour by hour."""
    MEAN_DAY = [17, 47, 75, 105, 135, 162, 198, 228, 258, 288, 318, 344]

    def __init__(self, site, place, month):
        self.lat, self.n = radians(place["latitude_deg"]), self.MEAN_DAY[month - 1]
        self.decl = radians(23.45) * sin(2 * pi * (284 + self.n) / 365)
        self.up = sin(self.lat) * sin(self.decl)
        self.swing = cos(self.lat) * cos(self.decl)
        self.sunset_angle = 0.0 if -self.up >= self.swing else pi if -self.up <= -self.swing else acos(-self.up / self.swing)
        half_day = self.sunset_angle / pi * 12
        self.sunrise, self.sunset = 12 - half_day, 12 + half_day
        self.plane_w, self.dark = self.sun(site, place["ghi_kwh_m2_day"][month - 1])
        self.air = [self.air_at(place, month, h + 0.5) for h in HOURS]

    def outside(self, w1, w2):
        w1, w2 = max(w1, -self.sunset_angle), min(w2, self.sunset_angle)
        if w1 >= w2:
            return 0.0
        strength = 1.367 * (1 + 0.033 * cos(2 * pi * self.n / 365))
        return max(0.0, 12 / pi * strength * (self.swing * (sin(w2) - sin(w1)) + (w2 - w1) * self.up))

    def diffuse_share(self, clearness):
        k = min(clearness, 0.8)
        a = (1.391, -3.560, 4.189, -2.137) if self.sunset_angle <= radians(81.4) else (1.311, -3.022, 3.427, -1.821)
        share = clamp(sum(c * k ** i for i, c in enumerate(a)))
        return share + (1 - share) * clamp((clearness - 0.8) / 0.2)

    def weights(self, w):
        """Of diffuse and of global."""
        ws = self.sunset_angle
        day = sin(ws) - ws * cos(ws)
        if cos(w) <= cos(ws) or day <= 0:
            return 0.0, 0.0
        rd = pi / 24 * (cos(w) - cos(ws)) / day
        a, b = 0.409 + 0.5016 * sin(ws - pi / 3), 0.6609 - 0.4767 * sin(ws - pi / 3)
        return rd, rd * (a + b * cos(w))

    def sun(self, site, day_kwh):
        h0 = self.outside(-pi, pi)
        day_kwh = day_kwh if h0 > 0 else 0.0
        diffuse_kwh = day_kwh * self.diffuse_share(day_kwh / h0) if h0 > 0 else 0.0
        spans = [(max(h, self.sunrise), min(h + 1, self.sunset)) for h in HOURS]
        lengths = [max(0.0, b - a) for a, b in spans]
        middles = [radians(15 * ((a + b) / 2 - 12)) for a, b in spans]
        parts = [self.weights(w) if length else (0.0, 0.0) for w, length in zip(middles, lengths)]
        sum_d = sum(length * rd for length, (rd, _) in zip(lengths, parts))
        sum_g = sum(length * rt for length, (_, rt) in zip(lengths, parts))
        plane = []
        for (a, b), length, w, (rd, rt) in zip(spans, lengths, middles, parts):
            if not (length and sum_d > 0 and sum_g > 0):
                plane.append(0.0)
                continue
            everything = day_kwh * length * rt / sum_g
            extra = self.outside(radians(15 * (a - 12)), radians(15 * (b - 12)))
            beam = min(extra, max(0.0, everything - diffuse_kwh * length * rd / sum_d))
            plane.append(1000 * self.on_plane(site, w, beam, everything - beam, extra))
        return plane, [1 - length for length in lengths]

    def on_plane(self, site, w, beam, diffuse, extra):
        tilt, azimuth = radians(given(site, "tilt_deg", 0)), given(site, "azimuth_deg", "any")
        if tilt == 0:
            return beam + diffuse
        facing = [22.5 * i for i in range(16)] if azimuth == "any" else [azimuth]
        return sum(self.tilted(tilt, radians(z), given(site, "ground_albedo", 0.2), w, beam, diffuse, extra) for z in facing) / len(facing)

    def tilted(self, tilt, azimuth, albedo, w, beam, diffuse, extra):
        if beam + diffuse <= 0:
            return 0.0
        zenith = self.up + self.swing * cos(w)
        east = -cos(self.decl) * sin(w)
        north = sin(self.decl) * cos(self.lat) - cos(self.decl) * sin(self.lat) * cos(w)
        incidence = east * sin(tilt) * sin(azimuth) + north * sin(tilt) * cos(azimuth) + zenith * cos(tilt)
        ratio = max(0.0, incidence) / zenith if zenith > 0 else 0.0
        index = 0.0
        if 0 < beam < extra and zenith > 0:
            index = beam / extra if diffuse == 0 else min(beam / extra, (extra - beam) / diffuse)
        horizon = 1 + sqrt(beam / (beam + diffuse)) * sin(tilt / 2) ** 3
        return ((beam + diffuse * index) * ratio + diffuse * (1 - index) * (1 + cos(tilt)) / 2 * horizon
                + (beam + diffuse) * albedo * (1 - cos(tilt)) / 2)

    def air_at(self, place, month, hour):
        mean, most, least = (place[key][month - 1] for key in ("air_mean_c", "air_max_c", "air_min_c"))
        coldest = min(10, max(2, self.sunrise))
        if coldest <= hour <= 14:
            course = -cos(pi * (hour - coldest) / (14 - coldest))
        else:
            course = cos(pi * (hour - 14 if hour > 14 else hour + 10) / (10 + coldest))
        return mean + (most - least) / 2 * course


class Loads:
    """[3] [4] What runs when."""

    def __init__(self, brief, sky):
        self.loads, self.sky, self.used = brief["loads"], sky, brief["site"]["months"]
        self.inverter_hours = brief.get("inverter_hours_per_day")

    @staticmethod
    def watts(load):
        return (load["watts"] if "watts" in load else load["volts"] * load["amps"]) * given(load, "count", 1)

    def day_wh(self, load):
        return self.watts(load) * load["hours_per_day"] * given(load, "duty", 1) * given(load, "days_per_week", 7) / 7

    def running(self, month, supply=None):
        return [load for load in self.loads if month in given(load, "months", MONTHS) and self.day_wh(load) > 0
                and supply in (None, load["supply"])]

    def window(self, load, month):
        when = given(load, "when", "all-day")
        if isinstance(when, dict):
            start, end = (int(when[key][:2]) + int(when[key][3:]) / 60 for key in ("from", "to"))
            return start, end if end > start else end + 24
        daylight = min(self.sky[month].sunrise, 10), max(self.sky[month].sunset, 14)
        return {"all-day": (0, 24), "daylight": daylight, "evening": (17, 23), "night": (23, 31)}[when]

    def shares(self, load, month):
        start, end = self.window(load, month)
        def common(h):
            return max(0.0, min(end, h + 1) - max(start, h))
        return [(common(h) + common(h + 24)) / (end - start) for h in HOURS]

    def peak(self, supply):
        """Peak and surge."""
        pairs = [(0.0, 0.0)]
        for month in self.used:
            loads = self.running(month, supply)
            together = [load for load in loads if given(load, "runs_together", True)]
            alone = [load for load in loads if not given(load, "runs_together", True)]
            at_once = sum(self.watts(load) for load in together)
            start = max((self.watts(load) * (given(load, "surge_factor", 1) - 1) for load in together), default=0)
            one = max((self.watts(load) for load in alone), default=0)
            one_starts = max((self.watts(load) * given(load, "surge_factor", 1) for load in alone), default=0)
            pairs.append((max(at_once, one), max(at_once + start, one_starts)))
        return max(p for p, _ in pairs), max(s for _, s in pairs)

    def reference_wh(self):
        return max(sum(self.day_wh(load) for load in self.running(m, "dc")) + sum(self.day_wh(load) for load in self.running(m, "ac")) / 0.9
                   for m in self.used)

    def need(self, month, inverter):
        """Need, dark Wh, dark hours."""
        hours, on = [0.0] * 24, [0.0] * 24
        for load in self.running(month, None if inverter else "dc"):
            wh = self.day_wh(load)
            ac = load["supply"] == "ac"
            if ac:
                wh /= efficiency(inverter, self.watts(load))
            for h, share in enumerate(self.shares(load, month)):
                hours[h] += wh * share
                on[h] += load["hours_per_day"] * given(load, "days_per_week", 7) / 7 * share if ac else 0
        if inverter:
            for h in HOURS:
                hours[h] += inverter["idle_w"] * (min(1, on[h]) if self.inverter_hours is None else self.inverter_hours / 24)
        dark = self.sky[month].dark
        if sum(dark) <= 0:
            return sum(hours), sum(hours), 24.0
        return sum(hours), sum(wh * d for wh, d in zip(hours, dark)), sum(dark)


def efficiency(inverter, watts):
    return min(1.0, max(0.01, curve(inverter["efficiency"], watts / inverter["continuous_w"])))


class Shops:
    """[7] Which offer, and what the parts of a kit cost."""
    DECIMALS = dict({c: 0 for c in "BIF CLP DJF GNF ISK JPY KMF KRW PYG RWF UGX UYI VND VUV XAF XOF XPF".split()},
                    **{c: 3 for c in "BHD IQD JOD KWD LYD OMR TND".split()}, CLF=4, UYW=4)

    def __init__(self, brief, catalogue):
        self.currency = brief["currency"]
        self.rates = dict(given(brief, "rates", {}), **{self.currency: 1})
        self.percent = exact(given(brief, "sundries_percent", 7))
        self.owned = Counter()
        for entry in given(brief, "owned", []):
            self.owned[entry["part"]] += entry["count"]
        self.shipping = {s["id"]: self.convert(s["shipping_minor"], s["currency"]) for s in catalogue["shops"]}
        fixed = {f["part"]: f["shop"] for f in given(brief, "fixed_offers", [])}
        newest, usable = {}, {}
        for o in catalogue["offers"]:
            key = o["part_id"], o["shop_id"]
            newest[key] = max(newest.get(key, ""), o["date"])
        for o in catalogue["offers"]:
            price = self.convert(o["price_minor"], o["currency"])
            if o["date"] == newest[o["part_id"], o["shop_id"]] and price is not None and self.shipping[o["shop_id"]] is not None:
                usable.setdefault(o["part_id"], []).append((price, o["shop_id"]))
        self.best = {part: min([o for o in offers if o[1] == fixed.get(part)] or offers) for part, offers in usable.items()}

    def convert(self, minor, currency):
        if currency not in self.rates:
            return None
        decimals = self.DECIMALS.get(self.currency, 2) - self.DECIMALS.get(currency, 2)
        amount = minor * exact(self.rates[currency]) * Decimal(10) ** decimals
        return half_up(amount) if abs(amount) < 2 ** 51 else None

    def bought(self, counts):
        return {part: n - self.owned[part] for part, n in counts if n > self.owned[part]}

    def bill(self, counts, more_shops):
        """Parts, shipping, allowance of what has an offer. more_shops ship too."""
        parts, shops = 0, set(more_shops)
        for part, n in self.bought(counts).items():
            if part in self.best:
                price, shop = self.best[part]
                parts += n * price
                shops.add(shop)
        return parts, sum(self.shipping[s] for s in shops), half_up(parts * self.percent / 100)

    def missing(self, counts):
        """Kinds of part without an offer."""
        return sum(part not in self.best for part in self.bought(counts))


def clear_mm2(roof):
    """[8] Strip by strip between all edges."""
    margin = given(roof, "margin_mm", 0)
    zones = [(o["x_mm"] - c, o["y_mm"] - c, o["x_mm"] + o["length_mm"] + c, o["y_mm"] + o["width_mm"] + c)
             for o in given(roof, "obstacles", []) for c in [given(o, "clearance_mm", 0)]]
    left, right, front, back = margin, roof["length_mm"] - margin, margin, roof["width_mm"] - margin
    xs = sorted({min(max(x, left), right) for z in zones for x in (z[0], z[2])} | {left, right})
    ys = sorted({min(max(y, front), back) for z in zones for y in (z[1], z[3])} | {front, back})
    return sum((x1 - x0) * (y1 - y0) for x0, x1 in zip(xs, xs[1:]) for y0, y1 in zip(ys, ys[1:])
               if not any(z[0] <= x0 and x1 <= z[2] and z[1] <= y0 and y1 <= z[3] for z in zones))


@lru_cache(None)
def boxes_fit(n, length, width, a, b, turns=True):
    """[8] n boxes pushed to the left and front stand at sums of their sides."""
    def sums(most):
        return sorted({i * a + j * b for i in range(n + 1) for j in range(n + 1) if i * a + j * b < most})
    spots = [(x, y, x + dx, y + dy) for x in sums(length) for y in sums(width) for dx, dy in ({(a, b), (b, a)} if turns else {(a, b)})
             if x + dx <= length and y + dy <= width]

    def place(first, placed):
        if len(placed) == n:
            return True
        for i in range(first, len(spots)):
            s = spots[i]
            if all(s[2] <= p[0] or p[2] <= s[0] or s[3] <= p[1] or p[3] <= s[1] for p in placed) and place(i + 1, placed + [s]):
                return True
        return False
    return place(0, [])
