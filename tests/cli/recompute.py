#!/usr/bin/python3
"""recompute.py PROGRAM ROOT: works out every figure of the listed kits a second time from what anyone has:
the brief, the exported catalogue, the reference figures of rank --json, and sun and air hour by hour of
energy --hours. Written from the definitions
of data/FORMATS.md and the manual page, not from the C code; agreement is asked to 1e-9."""
import bisect
import json
import math
import os
import sys

import numpy as np

from terminal import Terminal, equal, holds, main

PROGRAM, ROOT = sys.argv[1], sys.argv[2]
CLOSE = 1e-9
CRITERIA = ["cost", "weight", "usable_capacity", "roof_area", "autonomy", "spare_power", "dark_hours", "supply_margin"]
CAPPED = {"usable_capacity", "autonomy", "spare_power", "supply_margin"}
DECIMALS = {"JPY": 0, "KWD": 3}
HOURS = range(24)
MONTH_OF_HOUR = np.repeat(np.arange(1, 13), [24 * n for n in (31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)])

terminal = Terminal(PROGRAM)


def close(got, wanted, what):
    holds(got is not None and math.isclose(got, wanted, rel_tol=CLOSE, abs_tol=CLOSE), "%s: the program says %r, here it is %r" % (what, got, wanted))


def given(record, key, default=None):
    value = record.get(key)
    return default if value is None else value


def curve(points, x):
    """Piecewise linear, flat outside its ends."""
    xs = [p[0] for p in points]
    if x <= xs[0]:
        return points[0][1]
    if x >= xs[-1]:
        return points[-1][1]
    i = bisect.bisect_right(xs, x)
    (x0, y0), (x1, y1) = points[i - 1], points[i]
    return y0 + (y1 - y0) * (x - x0) / (x1 - x0)


def half_up(amount):
    """As on paper: what binary misses of a half by less than a millionth is still a half."""
    return math.floor(amount + 0.5 + 1e-6)


class Money:
    def __init__(self, brief, catalogue):
        self.brief = brief
        self.rates = dict(given(brief, "rates", {}), **{brief["currency"]: 1})
        self.shops = {shop["id"]: shop for shop in catalogue["shops"]}
        self.offers = {}
        newest = {}
        for offer in catalogue["offers"]:
            key = offer["part_id"], offer["shop_id"]
            newest[key] = max(newest.get(key, ""), offer["date"])
        for offer in catalogue["offers"]:
            if offer["date"] == newest[offer["part_id"], offer["shop_id"]]:
                self.offers.setdefault(offer["part_id"], []).append(offer)
        self.fixed = {f["part"]: f["shop"] for f in given(brief, "fixed_offers", [])}
        self.owned = {o["part"]: given(o, "count", 1) for o in given(brief, "owned", [])}

    def convert(self, minor, currency):
        if currency not in self.rates:
            return None
        places = DECIMALS.get(self.brief["currency"], 2) - DECIMALS.get(currency, 2)
        return half_up(minor * self.rates[currency] * 10 ** places)

    def best(self, part):
        """(price, shop) of the fixed or the cheapest usable offer."""
        usable = [(self.convert(o["price_minor"], o["currency"]), o["shop_id"]) for o in self.offers.get(part, [])]
        usable = [pair for pair in usable if pair[0] is not None]
        fixed = [pair for pair in usable if pair[1] == self.fixed.get(part)]
        return min(fixed or usable)

    def cost(self, counts):
        """counts: part id -> pieces. Parts, shipping once per shop, allowance."""
        parts, shops = 0, set()
        for part, count in counts.items():
            bought = max(0, count - self.owned.get(part, 0))
            if bought:
                price, shop = self.best(part)
                parts += bought * price
                shops.add(shop)
        shipping = sum(self.convert(self.shops[s]["shipping_minor"], self.shops[s]["currency"]) for s in shops)
        return parts, shipping, half_up(parts * given(self.brief, "sundries_percent", 7) / 100)


def hour_of(text):
    hours, minutes = text.split(":")
    return int(hours) + int(minutes) / 60


class Loads:
    """Energy by hour at the terminals, through one inverter."""

    def __init__(self, brief, reference):
        self.brief = brief
        self.reference = reference

    def of_month(self, month):
        return [load for load in self.brief["loads"] if month in given(load, "months", range(1, 13))]

    @staticmethod
    def watts(load):
        one = load["watts"] if "watts" in load else load["volts"] * load["amps"]
        return one * given(load, "count", 1)

    def day_wh(self, load):
        return self.watts(load) * load["hours_per_day"] * given(load, "duty", 1) * given(load, "days_per_week", 7) / 7

    def shares(self, load, month):
        sky = self.reference["months"][month - 1]
        when = given(load, "when", "all-day")
        start, end = {"all-day": (0, 24), "evening": (17, 23), "night": (23, 31),
                      "daylight": (min(sky["sunrise_h"], 10), max(sky["sunset_h"], 14))}.get(
                          when if isinstance(when, str) else "", (0, 0))
        if isinstance(when, dict):
            start, end = hour_of(when["from"]), hour_of(when["to"])
            end += 24 if end <= start else 0

        def overlap(hour):
            return max(0, min(end, hour + 1) - max(start, hour))
        return [(overlap(h) + overlap(h + 24)) / (end - start) for h in HOURS]

    def reference_need_wh(self):
        return max(sum(self.day_wh(load) / (0.9 if load["supply"] == "ac" else 1) for load in self.of_month(month))
                   for month in self.brief["site"]["months"])

    def need(self, month, inverter):
        """Wh of the day, and of its hours without sun."""
        hours = [0.0] * 24
        for load in self.of_month(month):
            wh = self.day_wh(load)
            if load["supply"] == "ac":
                if inverter is None:
                    continue
                wh /= min(1, curve(inverter["efficiency"], self.watts(load) / inverter["continuous_w"]))
            for h, share in enumerate(self.shares(load, month)):
                hours[h] += wh * share
        if inverter is not None:
            # The demo brief names the inverter's hours; "while an AC load runs" is tested in core.
            for h in HOURS:
                hours[h] += inverter["idle_w"] * self.brief["inverter_hours_per_day"] / 24
        dark = self.reference["months"][month - 1]["hourly_dark_share"]
        return sum(hours), sum(wh * share for wh, share in zip(hours, dark)), sum(dark)

    def peak(self, supply, surge):
        """W of what may run together (or of the largest that may not), with the start that adds most."""
        def of(month):
            loads = [load for load in self.of_month(month) if load["supply"] == supply and self.day_wh(load) > 0]
            together = [load for load in loads if given(load, "runs_together", True)]
            alone = [load for load in loads if not given(load, "runs_together", True)]
            start = max((self.watts(load) * (given(load, "surge_factor", 1) - 1) for load in together), default=0)
            alone_w = max((self.watts(load) * (given(load, "surge_factor", 1) if surge else 1) for load in alone), default=0)
            return max(sum(self.watts(load) for load in together) + (start if surge else 0), alone_w)
        return max(of(month) for month in self.brief["site"]["months"])


def clear_area_mm2(roof):
    """Outline less margin and obstacles with their clearance: counted cell by cell between all edges."""
    margin = given(roof, "margin_mm", 0)
    left, right, front, back = margin, roof["length_mm"] - margin, margin, roof["width_mm"] - margin
    blocks = []
    for o in given(roof, "obstacles", []):
        c = given(o, "clearance_mm", 0)
        blocks.append((o["x_mm"] - c, o["x_mm"] + o["length_mm"] + c, o["y_mm"] - c, o["y_mm"] + o["width_mm"] + c))
    xs = sorted({left, right, *(x for b in blocks for x in b[:2] if left < x < right)})
    ys = sorted({front, back, *(y for b in blocks for y in b[2:] if front < y < back)})
    area = 0
    for x0, x1 in zip(xs, xs[1:]):
        for y0, y1 in zip(ys, ys[1:]):
            if not any(b[0] <= x0 and x1 <= b[1] and b[2] <= y0 and y1 <= b[3] for b in blocks):
                area += (x1 - x0) * (y1 - y0)
    return area


class Case:
    """A brief, a catalogue, and what the program says of them."""

    def __init__(self, brief, top):
        path = terminal.write("case.json", json.dumps(brief))
        self.brief = brief
        self.catalogue = json.loads(terminal.text("catalogue", "export", "-"))
        self.answer = terminal.json("rank", path, "--top", str(top))
        front = terminal.json("rank", path, "--top", str(top), "--list", "front")
        self.kits = self.answer["kits"] + front["kits"]
        self.reference = self.answer["reference"]
        self.hours(path)
        self.money = Money(brief, self.catalogue)
        self.loads = Loads(brief, self.reference)
        self.parts = {p["id"]: p for kind in ("panels", "controllers", "storage", "inverters", "dcdc") for p in self.catalogue[kind]}
        self.chemistries = {c["id"]: c for c in self.catalogue["chemistries"]}
        self.months = brief["site"]["months"]

    def hours(self, path):
        """Sun on the panels and air of all hours of all years, the same for every kit."""
        lines = terminal.text("energy", path, self.kits[0]["id"], "--hours", "-").splitlines()
        names = lines[0].split(",")
        columns = [names.index(name) for name in ("plane_w_m2", "air_c")]
        self.plane_w, self.air_c = np.loadtxt(lines[1:], delimiter=",", usecols=columns, unpack=True)
        self.years = len(self.air_c) // 8760
        self.month = np.tile(MONTH_OF_HOUR, self.years)

    def part(self, kit, kind):
        entry = kit["parts"][kind]
        return None if entry is None else self.parts[entry["id"]]

    def ticked(self, kind):
        candidates = given(self.brief, "candidates", "all")
        return [p for p in self.catalogue[kind] if candidates == "all" or p["id"] in candidates]

    def bank(self, kit):
        storage, entry = self.part(kit, "storage"), kit["parts"]["storage"]
        chemistry = self.chemistries[storage["chemistry"]]
        nominal_v = storage["nominal_v"] * entry["series"]
        charge_v = given(storage, "charge_v", round(storage["nominal_v"] / chemistry["cell_v"]) * chemistry["charge_v_per_cell"])
        system_v = [v for v in (12, 24, 48) if v <= nominal_v <= 1.07 * v]
        return storage, chemistry, entry["parallel"], nominal_v, charge_v * entry["series"], system_v[0] if system_v else 0


def check_reference(case):
    reference, brief = case.reference, case.brief
    need_wh, clear_m2 = case.loads.reference_need_wh(), clear_area_mm2(brief["roof"]) / 1e6
    close(reference["reference_need_wh_day"], need_wh, "reference need")
    close(reference["clear_area_m2"], clear_m2, "clear area")
    for supply in ("ac", "dc"):
        close(reference["peak_%s_w" % supply], case.loads.peak(supply, False), "peak " + supply)
        close(reference["surge_%s_w" % supply], case.loads.peak(supply, True), "surge " + supply)
    days, limits = brief["targets"]["autonomy_days"], brief["limits"]
    wanted = {"cost": (0, limits["money_minor"]["value"]), "weight": (0, limits["weight_kg"]["value"]),
              "usable_capacity": (3 * days * need_wh, days * need_wh), "roof_area": (0, clear_m2),
              "autonomy": (3 * days, days), "spare_power": (max(100, reference["peak_ac_w"]), 0),
              "dark_hours": (0, max(1, limits["dark_hours"]["value"])), "supply_margin": (need_wh / 2, 0)}
    for name, (full, none) in wanted.items():
        own = given(given(brief, "anchors", {}), name, {})
        close(reference["anchors"][name]["full"], given(own, "full", full), "anchor " + name)
        close(reference["anchors"][name]["none"], given(own, "none", none), "anchor " + name)
    weights = brief["weights"]
    for name in CRITERIA:
        close(reference["weights"][name], weights.get(name, 0) / sum(weights.values()), "weight of " + name)
    place = terminal.json("places", brief["site"]["place"])["places"][0]
    close(reference["design_cold_c"], given(brief["site"], "design_cold_c", min(place["air_min_c"]) - 15), "design cold")
    # A flat plane gets what falls on the ground.
    for month, ghi in zip(reference["months"], place["ghi_kwh_m2_day"]):
        close(sum(month["hourly_plane_w_m2"]) / 1000, ghi, "sun of month %d" % month["month"])


def check_raw(case):
    largest = {"series": 6, "parallel": 6, "controllers": 1, "bank_series": 4, "bank_parallel": 4}
    largest.update(given(case.brief, "largest", {}))
    raw = (len(case.ticked("panels")) * len(case.ticked("controllers")) * len(case.ticked("storage")) *
           (len(case.ticked("inverters")) + 1) * (len(case.ticked("dcdc")) + 1) * math.prod(largest.values()))
    equal(case.answer["totals"]["raw_combinations"], raw, "raw combinations")


def check_money_and_weight(case):
    for kit in case.kits:
        figures, entries = kit["figures"], [e for e in kit["parts"].values() if e]
        parts, shipping, allowance = case.money.cost({e["id"]: e["count"] for e in entries})
        equal((figures["parts_minor"], figures["shipping_minor"], figures["allowance_minor"], figures["cost_minor"]),
              (parts, shipping, allowance, parts + shipping + allowance), kit["id"])
        grams = sum(e["count"] * round(1000 * (case.parts[e["id"]]["weight_kg"] + given(case.parts[e["id"]], "mount_kg", 0)))
                    for e in entries)
        close(figures["weight_kg"], grams / 1000, kit["id"])


def check_roof_and_spare(case):
    for kit in case.kits:
        panel, inverter = case.part(kit, "panel"), case.part(kit, "inverter")
        entry = kit["parts"]["panel"]
        equal(entry["count"], entry["series"] * entry["parallel"], kit["id"])
        close(kit["figures"]["roof_area_m2"], entry["count"] * panel["length_mm"] * panel["width_mm"] / 1e6, kit["id"])
        spare = inverter["continuous_w"] - case.reference["peak_ac_w"] if inverter else 0
        close(kit["figures"]["spare_power_w"], spare, kit["id"])


def check_capacity(case):
    """Need, mean dark current, usable capacity and autonomy of every month."""
    for kit in case.kits:
        storage, chemistry, strings, nominal_v, _, _ = case.bank(kit)
        depth = given(storage, "depth_limit", chemistry["depth_limit"])
        exponent = given(storage, "peukert", chemistry["peukert"])
        for month in kit["months"]:
            what = "%s month %d" % (kit["id"], month["month"])
            need_wh, dark_wh, dark_h = case.loads.need(month["month"], case.part(kit, "inverter"))
            current_a = dark_wh / dark_h / nominal_v / strings
            f_temp = min(1, curve(chemistry["capacity_by_c"], month["bank_c"])) if chemistry.get("capacity_by_c") else 1
            f_rate = min(1, (storage["capacity_ah"] / storage["rated_hours"] / current_a) ** (exponent - 1))
            usable_wh = nominal_v * storage["capacity_ah"] * strings * depth * f_temp * f_rate
            for key, value in (("need_wh", need_wh), ("dark_current_a", current_a), ("temperature_factor", f_temp),
                               ("rate_factor", f_rate), ("usable_wh", usable_wh), ("autonomy_days", usable_wh / need_wh)):
                close(month[key], value, what + " " + key)
            close(month["storing_loss_wh"],
                  dark_wh / (chemistry["charge_efficiency"] * chemistry["discharge_efficiency"]) - dark_wh, what)
        used = [m for m in kit["months"] if m["in_use"]]
        equal([m["month"] for m in used], case.months)
        close(kit["figures"]["usable_capacity_wh"], min(m["usable_wh"] for m in used), kit["id"])
        close(kit["figures"]["autonomy_days"], min(m["autonomy_days"] for m in used), kit["id"])


def array_hours(case, kit):
    """Wh kept and cut off in every hour."""
    panel, controller, entry = case.part(kit, "panel"), case.part(kit, "controller"), kit["parts"]["panel"]
    nominal_v, system_v, controllers = case.bank(kit)[3], case.bank(kit)[5], kit["parts"]["controller"]["count"]
    sun = case.plane_w / 1000
    most_w = controllers * controller["rated_output_a"] * nominal_v
    if controller["technology"] == "pwm":
        offered = panel["imp_a"] * entry["parallel"] * nominal_v * sun
    else:
        adder = {"raised": 2, "close": 11, "bonded": 18}[given(case.brief["site"], "mounting", "raised")]
        cell_c = case.air_c + (given(panel, "noct_c", 45) + adder - 20) / 800 * case.plane_w
        heat = np.maximum(0, 1 + given(panel, "power_coeff_pct_k", -0.45) / 100 * (cell_c - 25))
        lost_at_200 = 1 - given(panel, "low_light_pct", 96) / 100
        dim = np.log(np.minimum(1, np.where(sun > 0, sun, 1))) / np.log(0.2)
        offered = panel["power_w"] * entry["count"] * sun * heat * np.maximum(0, 1 - lost_at_200 * dim) * controller["efficiency"]
        if given(controller, "max_pv_w_12v") is not None:
            most_w = min(most_w, controllers * controller["max_pv_w_12v"] * system_v / 12 * controller["efficiency"])
    return np.minimum(offered, most_w), np.maximum(0, offered - most_w)


def check_supply(case):
    days = np.maximum(1, np.bincount(case.month, minlength=13)) / 24  # there is no month 0
    known = {}
    for kit in case.kits:
        dcdc, nominal_v = case.part(kit, "dcdc"), case.bank(kit)[3]
        idle_w = kit["parts"]["controller"]["count"] * case.part(kit, "controller")["idle_w"]
        key = kit["id"].split("/")[0], kit["parts"]["controller"]["id"], kit["parts"]["controller"]["count"], nominal_v
        if key not in known:
            known[key] = [np.bincount(case.month, hours) / days for hours in array_hours(case, kit)]
        kept_wh, clipped_wh = known[key]
        for month in kit["months"]:
            driven_h = case.brief["driving"]["hours_per_day"] if month["in_use"] else 0
            alternator_wh = dcdc["output_a"] * nominal_v * driven_h if dcdc else 0
            what, m = "%s month %d" % (kit["id"], month["month"]), month["month"]
            close(month["array_wh"], kept_wh[m] - 24 * idle_w, what)
            close(month["clipped_wh"], clipped_wh[m], what)
            close(month["alternator_wh"], alternator_wh, what)
            close(month["shore_wh"], 0, what)
            close(month["supply_wh"], kept_wh[m] - 24 * idle_w + alternator_wh - month["storing_loss_wh"], what)
        margin_wh = min(m["supply_wh"] - m["need_wh"] for m in kit["months"] if m["in_use"])
        close(kit["figures"]["supply_margin_wh"], margin_wh, kit["id"])


def check_score(case):
    anchors, weights = case.reference["anchors"], case.reference["weights"]
    for kit in case.kits:
        f = kit["figures"]
        figures = {"cost": f["cost_minor"], "weight": f["weight_kg"], "usable_capacity": f["usable_capacity_wh"],
                   "roof_area": f["roof_area_m2"], "autonomy": f["autonomy_days"], "spare_power": f["spare_power_w"], "dark_hours": f["dark_hours"],
                   "supply_margin": f["supply_margin_wh"]}
        score = 0
        for name, x in figures.items():
            u = (x - anchors[name]["none"]) / (anchors[name]["full"] - anchors[name]["none"])
            u = min(1, u) if name in CAPPED else u
            close(kit["worth"][name], u, kit["id"] + " " + name)
            score += weights[name] * u
        close(kit["score"], score, kit["id"])


def order(kit):
    """Parts and counts, text by text; no inverter and no DC-DC charger come before any."""
    p = kit["parts"]
    return (p["panel"]["id"], p["panel"]["series"], p["panel"]["parallel"], p["controller"]["id"], p["controller"]["count"],
            p["storage"]["id"], p["storage"]["series"], p["storage"]["parallel"],
            p["inverter"]["id"] if p["inverter"] else "", p["dcdc"]["id"] if p["dcdc"] else "")


def check_order(case):
    listed = case.answer["kits"]
    for before, after in zip(listed, listed[1:]):
        holds((-before["score"], order(before)) < (-after["score"], order(after)), "%s before %s" % (before["id"], after["id"]))


# NEC table 690.7(A), crystalline silicon, from memory: (down to C, factor).
COLD_FACTORS = [(25, 1.0), (20, 1.02), (15, 1.04), (10, 1.06), (5, 1.08), (0, 1.10), (-5, 1.12), (-10, 1.14), (-15, 1.16),
                (-20, 1.18), (-25, 1.20), (-30, 1.21), (-35, 1.23), (-40, 1.25)]


def cold_voc_v(panel, cold_c):
    coefficient = given(panel, "voc_coeff_pct_k")
    if coefficient is None:
        return panel["voc_v"] * next(factor for down_to_c, factor in COLD_FACTORS if cold_c >= down_to_c)
    return panel["voc_v"] * max(1, 1 + coefficient / 100 * (cold_c - 25))


def hot_vmp_v(panel, cell_c):
    coefficient = given(panel, "voc_coeff_pct_k")
    if coefficient is None:
        return panel["vmp_v"] * (1 - 0.0045 * (cell_c - 25))
    return panel["vmp_v"] + panel["voc_v"] * coefficient / 100 * (cell_c - 25)


def check_hottest_cell(case):
    """Full sun in the hottest hour of the months in use, all years of weather."""
    air_c = case.air_c[np.isin(case.month, case.months)].max()
    adder = {"raised": 2, "close": 11, "bonded": 18}[case.brief["site"]["mounting"]]
    for entry in case.reference["panels"]:
        noct_c = given(case.parts[entry["id"]], "noct_c", 45)
        close(entry["hottest_cell_c"], air_c + (noct_c + adder - 20) / 800 * 1000, entry["id"])


def compared(case, kit):
    """code -> (value, limit, holds when value <= limit, else when >=), for what can be worked out."""
    reference, limits, figures = case.reference, case.brief["limits"], kit["figures"]
    panel, controller, inverter, dcdc = (case.part(kit, k) for k in ("panel", "controller", "inverter", "dcdc"))
    storage, chemistry, strings, nominal_v, charge_v, system_v = case.bank(kit)
    entry, controllers = kit["parts"]["panel"], kit["parts"]["controller"]["count"]
    fit = {p["id"]: p for p in reference["panels"]}[panel["id"]]
    used = [m for m in kit["months"] if m["in_use"]]
    least = min(used, key=lambda m: m["supply_wh"] - m["need_wh"])
    share = entry["parallel"] // controllers
    if controller["technology"] == "pwm":
        solar_a = entry["parallel"] * panel["imp_a"]
    else:
        solar_a = entry["count"] * panel["power_w"] * controller["efficiency"] / nominal_v
    charge_a = min(solar_a, controllers * controller["rated_output_a"]) + (dcdc["output_a"] if dcdc else 0)
    rows = {
        "roof-fit": (entry["count"], fit["roof_most"], True),
        "roof-load": (entry["count"] * (panel["weight_kg"] + panel["mount_kg"]), case.brief["roof"]["max_load_kg"], True),
        "controller-share": (entry["parallel"] % controllers, 0, True),
        "cold-voc": (entry["series"] * cold_voc_v(panel, reference["design_cold_c"]), controller["max_pv_v"], True),
        "pv-current": (1.25 * panel["isc_a"] * share, controller["max_pv_a"], True),
        "hot-vmp": (entry["series"] * hot_vmp_v(panel, fit["hottest_cell_c"]), charge_v + controller["headroom_v"], False),
        "bank-series": (kit["parts"]["storage"]["series"], storage["max_series"], True),
        "bank-parallel": (strings, storage["max_parallel"], True),
        "charge-maximum": (charge_a, strings * storage["max_charge_a"], True),
        "autonomy": (figures["autonomy_days"], case.brief["targets"]["autonomy_days"], False),
        "supply": (least["supply_wh"], least["need_wh"], False),
        "money": (figures["cost_minor"], limits["money_minor"]["value"], True),
        "weight": (figures["weight_kg"], limits["weight_kg"]["value"], True),
        "dark-hours": (figures["dark_hours"], limits["dark_hours"]["value"], True),
    }
    if given(panel, "max_system_v") is not None:
        rows["system-voltage"] = (rows["cold-voc"][0], panel["max_system_v"], True)
    if given(controller, "max_pv_w_12v") is not None:
        rows["array-watts"] = (panel["power_w"] * entry["series"] * share, controller["max_pv_w_12v"] * system_v / 12, True)
    if inverter:
        full_a = inverter["continuous_w"] / curve(inverter["efficiency"], 1) / nominal_v
        rows["inverter-continuous"] = (reference["peak_ac_w"], inverter["continuous_w"], True)
        rows["inverter-surge"] = (reference["surge_ac_w"], inverter["surge_w"], True)
        rows["inverter-draw"] = (full_a, strings * storage["max_discharge_a"], True)
    if inverter and given(inverter, "max_v") is not None:
        rows["inverter-window"] = (charge_v, inverter["max_v"], True)
    return rows


def check_findings(case):
    for kit in case.kits:
        findings = {f["code"]: f for f in kit["findings"]}
        for code, (value, limit, at_most) in compared(case, kit).items():
            finding, what = findings[code], kit["id"] + " " + code
            close(finding["value"], value, what)
            close(finding["limit"], limit, what)
            equal(finding["holds"], value <= limit if at_most else value >= limit, what)
            holds(finding["holds"], what + " is broken in a kit that works")


def check_matching(case):
    """What is no comparison of numbers: voltages that belong together, profiles, the sine."""
    sine = any(given(load, "needs_pure_sine", False) for month in case.months for load in case.loads.of_month(month))
    for kit in case.kits:
        controller, inverter, dcdc = (case.part(kit, k) for k in ("controller", "inverter", "dcdc"))
        storage, _, _, _, _, system_v = case.bank(kit)
        holds(system_v in given(case.brief, "system_volts", [12, 24, 48]), kit["id"])
        holds(controller["bus_%dv" % system_v], kit["id"])
        holds(given(controller, "profile_adjustable", False) or storage["chemistry"] in controller["profiles"], kit["id"])
        holds(inverter is not None and inverter["bus_v"] == system_v, kit["id"])
        holds(not sine or inverter["waveform"] == "pure-sine", kit["id"])
        if dcdc:
            equal((dcdc["input_v"], dcdc["output_v"]), (case.brief["driving"]["alternator_v"], system_v), kit["id"])
            holds(given(dcdc, "profile_adjustable", False) or storage["chemistry"] in dcdc["profiles"], kit["id"])


def demo():
    with open(os.path.join(ROOT, "data", "demo.brief.json"), encoding="utf-8") as file:
        return dict(json.load(file), wiring={"on": False})


def other():
    """A second brief that takes the other branch where the demo takes one."""
    brief = demo()
    brief["currency"], brief["rates"] = "GBP", {"EUR": 0.8621, "USD": 0.7759}
    brief["limits"]["money_minor"]["value"] = 310000
    brief["limits"]["weight_kg"]["value"] = 160
    brief["anchors"] = {"cost": {"full": 50000, "none": 300000}, "autonomy": {"full": 2, "none": 1}}
    brief["weights"] = {"cost": 1, "weight": 2.5, "usable_capacity": 0.25, "roof_area": 3, "autonomy": 2, "spare_power": 0.1, "supply_margin": 0.4}
    brief["site"].update(design_cold_c=-18.5, bank_place="own", bank_own_c=4, mounting="close", months=[4, 5, 6, 7, 8, 9],
                         shading_loss=[0.3, 0.2, 0.1, 0.05, 0, 0, 0, 0, 0.05, 0.1, 0.2, 0.3])
    brief["largest"] = {"series": 2, "parallel": 3, "controllers": 2, "bank_series": 2, "bank_parallel": 4}
    brief["targets"]["autonomy_days"] = 1
    brief["owned"] = [{"part": "p-brambleray-100-rigid", "count": 2}]
    return brief


CHECKS = [("reference figures", check_reference), ("raw combinations", check_raw), ("money and weight", check_money_and_weight),
          ("roof area and spare power", check_roof_and_spare), ("need, usable capacity, autonomy", check_capacity),
          ("supply", check_supply), ("worths and score", check_score), ("order", check_order),
          ("hottest cell", check_hottest_cell), ("findings", check_findings), ("parts that belong together", check_matching)]


def bound(check, case):
    return lambda: check(case)


CASES = [("demo", Case(demo(), 300)), ("other", Case(other(), 300))]
main([("%s: %s" % (name, what), bound(check, case)) for name, case in CASES for what, check in CHECKS])
