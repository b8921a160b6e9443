"""The second computation: the hours of years of weather, made or one's own, and what a plane meets of them, from
data/METHOD.md alone, with whole years in arrays. The numbers in brackets are the sections of that page."""
from math import cos, erfc, expm1, pi, radians, sin, sqrt

import numpy as np

from second_sums import MONTHS, given

LENGTHS = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31]
MONTH_OF_DAY = np.repeat(np.arange(1, 13), LENGTHS)
MASK = (1 << 64) - 1
PEREZ_FROM = [1.065, 1.23, 1.5, 1.95, 2.8, 4.5, 6.2]
PEREZ = np.array([(-0.008, 0.588, -0.062, -0.060, 0.072, -0.022), (0.130, 0.683, -0.151, -0.019, 0.066, -0.029),
                  (0.330, 0.487, -0.221, 0.055, -0.064, -0.026), (0.568, 0.187, -0.295, 0.109, -0.152, -0.014),
                  (0.873, -0.392, -0.362, 0.226, -0.462, 0.001), (1.132, -1.237, -0.412, 0.288, -0.823, 0.056),
                  (1.060, -1.600, -0.359, 0.264, -1.127, 0.131), (0.678, -0.327, -0.250, 0.156, -1.377, 0.251)])


def sind(x):
    return np.sin(np.radians(x))


def cosd(x):
    return np.cos(np.radians(x))


class Sun:
    """[1a] The sun's 365 days over a place, in the hours h + shift .. h + shift + 1. Arrays of 365 days or 365 x 24 hours."""

    def __init__(self, place):
        self.lat = radians(place["latitude_deg"])
        n = 2459581 + np.arange(365) - place["longitude_deg"] / 360 - 2451545  # from noon UTC of 1 January 2022
        t, u = n / 36525, n / 36525 + 1
        m = 357.52911 + 35999.05029 * t - 0.0001537 * t * t
        e = 0.016708634 - 0.000042037 * t
        c = (1.914602 - 0.004817 * t) * sind(m) + (0.019993 - 0.000101 * t) * sind(2 * m) + 0.000289 * sind(3 * m)
        p = (0.00134 * cosd(153.23 + 22518.7541 * u) + 0.00154 * cosd(216.57 + 45037.5082 * u) + 0.00200 * cosd(312.69 + 32964.3577 * u)
             + 0.00179 * sind(350.74 + 445267.1142 * u) + 0.00178 * sind(231.19 + 20.20 * u))
        node = 125.04 - 1934.136 * t
        nutation = -0.00478 * sind(node)
        longitude = 280.46646 + 36000.76983 * t + 0.0003032 * t * t + c + p - 0.00569 + nutation
        obliquity = 23.43929111 - 0.0130042 * t + 0.00256 * cosd(node)
        self.decl = np.arcsin(sind(obliquity) * sind(longitude))
        ascension = np.degrees(np.arctan2(cosd(obliquity) * sind(longitude), cosd(longitude)))
        self.distance = 1.000001018 * (1 - e * e) / (1 + e * cosd(m + c))
        bracket = 280.46061837 + 0.98564736629 * n + nutation * cosd(obliquity) - ascension
        self.equation_h = ((bracket + 180) % 360 - 180) / 15
        self.up, self.swing = sin(self.lat) * np.sin(self.decl), cos(self.lat) * np.cos(self.decl)
        with np.errstate(divide="ignore", invalid="ignore"):
            ws = np.arccos(np.clip(-self.up / self.swing, -1, 1))
        self.half_h = np.where(-self.up >= self.swing, 0.0, np.where(-self.up <= -self.swing, 12.0, ws / pi * 12))
        self.sunrise = 12 - self.half_h
        self.hours(np.zeros(365))

    def hours(self, shift):
        """shift of each day, h."""
        start = np.arange(24)[None, :] + shift[:, None]
        half, best = self.half_h[:, None], None
        for away in (0, -24, 24):
            a, b = np.maximum(start, 12 - half + away), np.minimum(start + 1, 12 + half + away)
            if best is None:
                best = a, b
            else:
                longer = b - a > best[1] - best[0]
                best = np.where(longer, a, best[0]), np.where(longer, b, best[1])
        whole = half == 12
        a, b = np.where(whole, start, best[0]), np.where(whole, start + 1, best[1])
        some = b > a
        wa, wb, up, swing = (a - 12) * pi / 12, (b - 12) * pi / 12, self.up[:, None], self.swing[:, None]
        outside = 1367 / self.distance[:, None] ** 2 * 12 / pi * (swing * (np.sin(wb) - np.sin(wa)) + (wb - wa) * up)
        self.outside = np.where(some, np.maximum(0, outside), 0.0)
        w, decl = (wa + wb) / 2, self.decl[:, None]
        self.height_sin = up + swing * np.cos(w)
        self.east = -np.cos(decl) * np.sin(w)
        self.north = np.sin(decl) * cos(self.lat) - np.cos(decl) * sin(self.lat) * np.cos(w)


class Draws:
    """[1b] Any draw of the sequence by its place in it, 0 the first."""

    def __init__(self, seed):
        self.seed = seed

    def share(self, at):
        with np.errstate(over="ignore"):
            z = np.uint64(self.seed & MASK) + (at.astype(np.uint64) + np.uint64(1)) * np.uint64(0x9e3779b97f4a7c15)
            z = (z ^ (z >> np.uint64(30))) * np.uint64(0xbf58476d1ce4e5b9)
            z = (z ^ (z >> np.uint64(27))) * np.uint64(0x94d049bb133111eb)
        return ((z ^ (z >> np.uint64(31))) >> np.uint64(11)) / 2.0 ** 53

    def pairs(self, number):
        """First and second of these pairs, 0 the first."""
        a, b = self.share(2 * number), self.share(2 * number + 1)
        r = np.sqrt(-2 * np.log(1 - a))
        return r * np.cos(2 * pi * b), r * np.sin(2 * pi * b)


def follow(draws, share):
    """Each remembers so much of the one before."""
    values = [draws[0]]
    for n in draws[1:]:
        values.append(share * values[-1] + sqrt(1 - share ** 2) * n)
    return np.array(values)


def hourly_diffuse(k):
    return np.where(k <= 0.22, 1 - 0.09 * k, np.where(k <= 0.80, 0.9511 - 0.1604 * k + 4.388 * k ** 2 - 16.638 * k ** 3 + 12.336 * k ** 4, 0.165))


def clearness(q, x, h, days):
    """[1b] Of the days of one calendar month. q: their ranks as normal numbers; x: kWh/m2 outside; h: mean kWh/m2 a day."""
    if h == 0 or x.sum() == 0:
        return np.zeros(len(q))
    mean = h * days / x.sum()
    if mean >= 1:
        return np.where(x > 0, 1.0, 0.0)
    c = min(0.8, max(0.2, mean))
    low = min(0.05, mean / 2)
    high = min(10 * mean, 1, max(0.6313 + 0.267 * c - 11.9 * (c - 0.75) ** 8, mean + (1 - mean) / 4))
    u, rest = (np.array([erfc(sign * value / sqrt(2)) / 2 for value in q]) for sign in (-1, 1))

    def of(g):
        if abs(g) < 1e-9:
            return low + (high - low) * u
        if g > 0:
            return high + (high - low) / g * np.log(1 + rest * expm1(-g))
        return low + (high - low) / g * np.log(1 + u * expm1(g))
    least, most = -500.0, 500.0
    for _ in range(100):
        middle = (least + most) / 2
        if (of(middle) * x).sum() < h * days:
            least = middle
        else:
            most = middle
    return np.where(x > 0, of((least + most) / 2), 0.0)


def hours_of_days(k, sun, draws, first_pair):
    """[1b] x of each hour, with its day's clearness k. first_pair: the number of the record's first pair for hours."""
    years = len(k) // 365
    outside, s = np.tile(sun.outside, (years, 1)), np.tile(sun.height_sin, (years, 1))
    lit = outside > 0
    place = np.cumsum(lit, axis=1) - 1  # of the hour among its day's
    pairs_a_day = (lit.sum(axis=1) + 1) // 2
    before = first_pair + np.cumsum(pairs_a_day) - pairs_a_day
    first, second = draws.pairs(before[:, None] + np.maximum(place, 0) // 2)
    n = np.where(place % 2 == 0, first, second)
    kk = np.minimum(k, 0.8)
    p = 0.38 + 0.06 * np.cos(7.4 * kk - 2.5)
    y, before_y = np.zeros_like(n), np.zeros(len(k))
    for h in range(24):
        y[:, h] = np.where(place[:, h] == 0, n[:, h], p * before_y + np.sqrt(1 - p * p) * n[:, h])
        before_y = np.where(lit[:, h], y[:, h], before_y)
    kk = kk[:, None]
    with np.errstate(divide="ignore", over="ignore", invalid="ignore"):
        m = (-0.19 + 1.12 * kk + 0.24 * np.exp(-8 * kk)
             + (0.32 - 1.60 * (kk - 0.5) ** 2) * np.exp(-(0.19 + 2.27 * kk ** 2 - 2.51 * kk ** 3) / s))
        v = 0.14 * np.exp(-20 * (kk - 0.35) ** 2) * np.exp((3 * (kk - 0.45) ** 2 + 16 * kk ** 5) * (1 - s))
    total = outside.sum(axis=1)
    wanted = k * total
    cap = np.broadcast_to(0.88 * cosd(180 * (np.arange(24) + 0.5 - 12) / 30), outside.shape)
    room, least = (cap * outside).sum(axis=1), np.minimum(1.02 * wanted, total)
    with np.errstate(divide="ignore", invalid="ignore"):
        cap = cap + (1 - cap) * np.where(room < least, (least - room) / (total - room), 0.0)[:, None]
        x = np.where(lit, np.minimum(cap, np.maximum(0, m + v * y)), 0.0)
        got = (x * outside).sum(axis=1)
        less = np.where(got > 0, wanted / got, 0.0)
        more = np.minimum(1, (wanted - got) / ((cap - x) * outside).sum(axis=1))
    x = np.where((got >= wanted)[:, None], x * less[:, None], x + (cap - x) * np.where(got < wanted, more, 0.0)[:, None])
    return np.where(lit, x, 0.0), outside


def course(sunrise, hour):
    """[1] Of the air, -1..1; sunrise and hour may be arrays."""
    coldest = np.clip(sunrise, 2, 10)
    falling = np.cos(pi * np.where(hour > 14, hour - 14, hour + 10) / (10 + coldest))
    return np.where((coldest <= hour) & (hour <= 14), -np.cos(pi * (hour - coldest) / (14 - coldest)), falling)


def air_of_days(place, k, sun, noise):
    """[1b] Air of each hour."""
    years, deviation = len(k) // 365, np.std(place["air_mean_c"])
    month = np.tile(MONTH_OF_DAY, years)
    lit = np.tile(sun.outside.sum(axis=1) > 0, years)
    clear = np.where(lit, (-np.log(1 - np.minimum(k / 0.7, 0.95))) ** (1 / 2.4), 1.0)
    follows, swing, mean = follow(noise, 0.65), np.zeros(len(k)), np.zeros(len(k))
    for m in MONTHS:
        days, air = month == m, place["air_mean_c"][m - 1]
        if clear[days].mean() > 0:
            swing[days] = (place["air_max_c"][m - 1] - place["air_min_c"][m - 1]) * clear[days] / clear[days].mean()
        j = 0.534 * sqrt(LENGTHS[m - 1]) * max(0.2, 1.45 - 0.0290 * air + 0.0664 * deviation)
        mean[days] = air + j * (follows[days] - follows[days].mean())
    c = np.tile(course(sun.sunrise[:, None], np.arange(24)[None, :] + 0.5), (years, 1))
    return mean[:, None] + swing[:, None] / 2 * (c - c.mean(axis=1, keepdims=True))


class Weather:
    """Of all years: global_w, diffuse_w, outside_w (sun's geometry in sun), air_c; days x 24. month_of_day of the record."""

    def __init__(self, place, weather, own=None):
        self.sun = Sun(place)
        if own is None:
            self.make(place, given(weather, "years", 10), given(weather, "seed", 1))
        else:
            self.take(place, *own)
        self.years = len(self.global_w) // 365
        self.month_of_day = np.tile(MONTH_OF_DAY, self.years)
        self.month_of_hour = np.repeat(self.month_of_day, 24)

    def make(self, place, years, seed):
        days, draws = 365 * years, Draws(seed)
        first, second = draws.pairs(np.arange(days))
        q, month, x = follow(first, 0.29), np.tile(MONTH_OF_DAY, years), np.tile(self.sun.outside.sum(axis=1) / 1000, years)
        k = np.zeros(days)
        for m in MONTHS:
            here = month == m
            k[here] = clearness(q[here], x[here], place["ghi_kwh_m2_day"][m - 1], here.sum())
        share, self.outside_w = hours_of_days(k, self.sun, draws, days)
        self.global_w = share * self.outside_w
        self.diffuse_w = self.global_w * hourly_diffuse(share)
        self.air_c = air_of_days(place, k, self.sun, second)

    def take(self, place, global_w, diffuse_w, air_c, offset_h, sunrise_of_month):
        """[1a] One's own hours, days x 24; NaN is missing; offset_h None: not told."""
        offset = offset_h if offset_h is not None else np.floor(place["longitude_deg"] / 15 + 0.5)
        shift = self.sun.equation_h + place["longitude_deg"] / 15 - offset
        shift = shift - 24 * np.round(shift / 24)
        self.sun.hours(shift)
        years = len(global_w) // 365
        self.global_w, self.outside_w = global_w, np.tile(self.sun.outside, (years, 1))
        with np.errstate(divide="ignore", invalid="ignore"):
            share = np.where(self.outside_w > 0, hourly_diffuse(global_w / self.outside_w), 1.0)
        self.diffuse_w = np.minimum(global_w, np.where(np.isnan(diffuse_w), global_w * share, diffuse_w))
        month = np.tile(MONTH_OF_DAY, years)[:, None] - 1
        solar = (np.arange(24)[None, :] + 0.5 + np.tile(shift, years)[:, None]) % 24
        mean, most, least = (np.array(place[key])[month] for key in ("air_mean_c", "air_max_c", "air_min_c"))
        usual = mean + (most - least) / 2 * course(np.array(sunrise_of_month)[month], solar)
        self.air_c = np.where(np.isnan(air_c), usual, air_c)

    def plane_w(self, site):
        """[1a] On the panel's plane after shading and soiling; days x 24."""
        tilt, shading = radians(given(site, "tilt_deg", 0)), given(site, "shading_loss", 0)
        plane = self.global_w if tilt == 0 else self.tilted(tilt, given(site, "azimuth_deg", "any"), given(site, "ground_albedo", 0.2))
        shading = np.array(shading if isinstance(shading, list) else [shading] * 12)[self.month_of_day - 1]
        plane = plane * (1 - shading)[:, None] * (1 - given(site, "soiling_loss", 0.03))
        return np.where(plane < 0.1, 0.0, plane)

    def tilted(self, tilt, azimuth, albedo):
        years, sun = self.years, self.sun
        zenith_cos, east, north = (np.tile(a, (years, 1)) for a in (sun.height_sin, sun.east, sun.north))
        facing = [22.5 * i for i in range(16)] if azimuth == "any" else [azimuth]
        met = sum(np.maximum(0, east * sin(tilt) * sin(radians(z)) + north * sin(tilt) * cos(radians(z)) + zenith_cos * cos(tilt))
                  for z in facing) / len(facing)
        lit = self.outside_w > 0
        beam = np.where(lit, np.minimum(self.outside_w, np.maximum(0, self.global_w - self.diffuse_w)), 0.0)
        diffuse = self.global_w - beam
        view, ground = (1 + cos(tilt)) / 2, self.global_w * albedo * (1 - cos(tilt)) / 2
        c = np.where(lit, zenith_cos, 1.0)
        z, low = np.arccos(np.clip(c, -1, 1)), np.maximum(cos(radians(85)), c)
        with np.errstate(divide="ignore", invalid="ignore"):
            mass = 1 / (c + 0.50572 * (96.07995 - np.degrees(z)) ** -1.6364)
            clear = ((diffuse + beam / c) / diffuse + 1.041 * z ** 3) / (1 + 1.041 * z ** 3)
            bright = mass * c * np.minimum(1, diffuse / self.outside_w)
            f = PEREZ[np.searchsorted(PEREZ_FROM, np.nan_to_num(clear, posinf=1e9), side="right")]
            f1 = np.minimum(np.minimum(np.maximum(0, f[..., 0] + f[..., 1] * bright + f[..., 2] * z), 1),
                            (self.outside_w - beam) / diffuse * low / c)
            f2 = f[..., 3] + f[..., 4] * bright + f[..., 5] * z
            sky = np.maximum(0, diffuse * (1 - f1) * view + diffuse * f2 * sin(tilt) + diffuse * f1 * met / low)
        plane = np.where(lit, beam * met / c + np.where(diffuse > 0, sky, 0.0), diffuse * view) + ground
        return np.where(self.global_w > 0, plane, 0.0)
