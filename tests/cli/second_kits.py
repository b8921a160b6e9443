"""The second computation, second part: the figures and rules of a kit, and the ranking of all of them one after the
other, from data/METHOD.md alone. The numbers in brackets are the sections of that page."""
from collections import Counter, namedtuple
from functools import lru_cache
from itertools import product
from math import floor, inf

import numpy as np

from second_circuits import Circuits
from second_sums import (MONTHS, Loads, Shops, Sky, boxes_fit, clamp, clear_mm2, curve, efficiency, exact, given,
                         half_up)
from second_weather import Weather
from second_year import Kinds, Lanes, kept_and_clipped, month_means

CRITERIA = ["cost", "weight", "usable_capacity", "roof_area", "autonomy", "spare_power", "dark_hours", "supply_margin"]
LESS_IS_BETTER = {"cost", "weight", "roof_area", "dark_hours"}
RULES = ["no-price", "roof-fit", "roof-undecided", "roof-load", "roof-height", "controller-share", "controllers-alike",
         "unlike-panels", "system-voltage", "cold-voc", "touch-voltage", "pv-current", "hot-vmp", "mppt-start", "pwm-match",
         "pwm-cells", "array-watts", "output-clipped", "string-fuse", "controller-bus", "charge-profile", "bank-system",
         "bank-series", "bank-parallel", "load-voltage", "load-converter", "motor-start", "bay-fit", "no-inverter",
         "inverter-bus", "inverter-window", "inverter-lowest", "inverter-cutout", "inverter-continuous", "inverter-surge",
         "waveform", "inverter-draw", "inverter-surge-draw", "peak-draw", "shore-charge", "cold-charge", "freezing",
         "ventilation", "autonomy", "dcdc-source", "dcdc-bus", "dcdc-profile", "dcdc-alternator", "source-circuits",
         "bank-circuits", "fittings", "charge-maximum", "charge-minimum", "supply", "money", "weight", "dark-hours"]
COLD_FACTORS = [(25, 1.00), (20, 1.02), (15, 1.04), (10, 1.06), (5, 1.08), (0, 1.10), (-5, 1.12), (-10, 1.14), (-15, 1.16),
                (-20, 1.18), (-25, 1.20), (-30, 1.21), (-35, 1.23), (-40, 1.25), (-1000, 1.25)]

Kit = namedtuple("Kit", "panel series parallel controller controllers storage bank_series bank_parallel inverter dcdc")
Finding = namedtuple("Finding", "value limit holds severity margin month assumed")
Bank = namedtuple("Bank", "nominal_v charge_v system_v assumed")


def finding(value, limit, holds, severity="stop", margin=None, month=None, assumed=()):
    return Finding(value, limit, holds, "note" if holds else severity, margin, month, sorted(assumed))


def idle(*assumed):
    return finding(None, None, True, assumed=assumed)


def at_most(value, limit, severity="stop", assumed=()):
    return finding(value, limit, value <= limit, severity, (limit - value) / limit if limit > 0 else None, None, assumed)


def at_least(value, limit, severity="stop", month=None, assumed=()):
    return finding(value, limit, value >= limit, severity, (value - limit) / limit if limit > 0 else None, month, assumed)


def same(value, limit):
    return finding(value, limit, value == limit)


def nearest(volts, wanted):
    return min(volts, key=lambda v: (abs(v - wanted), v), default=0)


def system_of(volts):
    """0: none, or not known."""
    kinds = ((12, 10, 15), (24, 20, 30), (48, 40, 60))
    return next((v for v, low, high in kinds if volts is not None and low <= volts <= high), 0)


def missing(part, **names):
    """Names of the assumptions for members that the part's data sheet does not give."""
    return [name for member, name in names.items() if part.get(member) is None]


def least(pairs):
    """(figure, month) of the smallest figure, the first of equals."""
    return min(pairs, key=lambda pair: pair[0])


class Second:
    """Everything of one brief. place: the figures of its place; roof_most: panel id -> (most, bound); own: its own hours."""

    def __init__(self, brief, catalogue, place, roof_most, own=None):
        self.brief, self.site, self.used = brief, brief["site"], sorted(brief["site"]["months"])
        kinds = ("panels", "controllers", "storage", "inverters", "dcdc")
        ticks = given(brief, "candidates", "all")
        self.ticked = {kind: sorted(p["id"] for p in catalogue[kind] if ticks == "all" or p["id"] in ticks) for kind in kinds}
        self.parts = {p["id"]: p for kind in kinds for p in catalogue[kind]}
        self.parts[""] = None
        self.chemistries = {c["id"]: c for c in catalogue["chemistries"]}
        largest = {"series": 6, "parallel": 6, "controllers": 1, "bank_series": 4, "bank_parallel": 4}
        self.largest = dict(largest, **given(brief, "largest", {}))
        at_most_panels = self.largest["series"] * self.largest["parallel"]
        self.roof_most = {p: tuple(min(n, at_most_panels) for n in pair) for p, pair in roof_most.items()}
        self.place, self.sky = place, {m: Sky(self.site, place, m) for m in MONTHS}
        self.weather = Weather(place, given(self.site, "weather", {}), own and own + ([self.sky[m].sunrise for m in MONTHS],))
        self.plane_w = self.weather.plane_w(self.site).ravel()
        self.air_c = self.weather.air_c.ravel()
        self.cold_c = given(self.site, "design_cold_c", min(place["air_min_c"]) - 15)
        self.loads, self.shops = Loads(brief, self.sky), Shops(brief, catalogue)
        self.kinds, self.dark_known, self.dark_near_wh = Kinds(brief, self.loads, self.used), {}, inf
        (self.ac_peak, self.ac_surge), (self.dc_peak, self.dc_surge) = self.loads.peak("ac"), self.loads.peak("dc")
        self.ac_loads = [load for m in self.used for load in self.loads.running(m, "ac")]
        self.dc_loads = [load for load in brief["loads"] if any(load in self.loads.running(m, "dc") for m in self.used)]
        self.driving = given(brief, "driving", {"alternator_a": 0, "alternator_v": 0, "hours_per_day": 0})
        self.anchors, self.weights = self.find_anchors(), self.find_weights()
        self.circuits = Circuits(self, catalogue)
        for name in ("array_hours", "hottest_cell_c", "need", "bank", "bank_months", "array_wh", "grams", "array_rules", "bank_rules",
                     "dcdc_rules"):
            setattr(self, name, lru_cache(None)(getattr(self, name)))

    def on(self, limit):
        return given(given(self.brief["limits"], limit, {}), "on", True)

    def dark_limit(self):
        return given(given(self.brief["limits"], "dark_hours", {}), "value", 100)

    def limit_severity(self, limit):
        return "stop" if self.on(limit) else "note"

    # [2] panel

    def mount_k(self):
        return {"raised": 2, "close": 11, "bonded": 18}[given(self.site, "mounting", "raised")]

    def hottest_cell_c(self, panel_id):
        air_c = self.weather.air_c[np.isin(self.weather.month_of_day, self.used)].max()
        return air_c + (given(self.parts[panel_id], "noct_c", 45) + self.mount_k() - 20) / 800 * 1000

    def cold_voc_v(self, panel):
        coefficient = panel.get("voc_coeff_pct_k")
        if coefficient is None:
            return panel["voc_v"] * next(f for down_to, f in COLD_FACTORS if down_to <= self.cold_c)
        return panel["voc_v"] * max(1, 1 + coefficient / 100 * (self.cold_c - 25))

    def hot_vmp_v(self, panel):
        coefficient, over_k = panel.get("voc_coeff_pct_k"), self.hottest_cell_c(panel["id"]) - 25
        if coefficient is None:
            return panel["vmp_v"] * (1 - 0.0045 * over_k)
        return panel["vmp_v"] + panel["voc_v"] * coefficient / 100 * over_k

    def hot_voc_v(self, panel):
        coefficient, over_k = panel.get("voc_coeff_pct_k"), self.hottest_cell_c(panel["id"]) - 25
        return panel["voc_v"] * (1 + (-0.45 if coefficient is None else coefficient) / 100 * over_k)

    # [4] [5] need and bank

    def need(self, inverter_id, month):
        return self.loads.need(month, self.parts[inverter_id])

    def chemistry(self, storage):
        return self.chemistries[storage["chemistry"]]

    def depth(self, storage):
        return given(storage, "depth_limit", self.chemistry(storage)["depth_limit"])

    def bank(self, storage_id, s):
        storage = self.parts[storage_id]
        chemistry, nominal_v = self.chemistry(storage), s * storage["nominal_v"]
        by_cells = round(storage["nominal_v"] / chemistry["cell_v"]) * chemistry["charge_v_per_cell"]
        system = [v for v in (12, 24, 48) if v <= nominal_v <= 1.07 * v]
        return Bank(nominal_v, s * given(storage, "charge_v", by_cells), system[0] if system else 0,
                    tuple(missing(storage, charge_v="charge-voltage")))

    def bank_c(self, month):
        where = given(self.site, "bank_place", "inside")
        if where == "outside":
            return self.place["air_mean_c"][month - 1]
        return given(self.site, {"inside": "inside_c", "own": "bank_own_c"}[where], 15)

    def bank_c_of_day(self, day):
        outside = given(self.site, "bank_place", "inside") == "outside"
        return self.weather.air_c[day].mean() if outside else self.bank_c(1)

    def bank_months(self, storage_id, s, p, inverter_id):
        storage, nominal_v, months = self.parts[storage_id], self.bank(storage_id, s).nominal_v, {}
        chemistry = self.chemistry(storage)
        k = given(storage, "peukert", chemistry["peukert"])
        for m in MONTHS:
            need_wh, dark_wh, dark_h = self.need(inverter_id, m)
            points = chemistry.get("capacity_by_c")
            f_temp = clamp(curve(points, self.bank_c(m))) if points else 1.0
            amps, rated_a = dark_wh / dark_h / nominal_v / p, storage["capacity_ah"] / storage["rated_hours"]
            f_rate = 1.0 if amps <= rated_a or k <= 1 else (rated_a / amps) ** (k - 1)
            usable_wh = nominal_v * storage["capacity_ah"] * p * self.depth(storage) * f_temp * f_rate
            months[m] = {"need_wh": need_wh, "usable_wh": usable_wh, "bank_c": self.bank_c(m), "temperature_factor": f_temp,
                         "rate_factor": f_rate, "dark_current_a": amps,
                         "autonomy_days": min(9999.0, usable_wh / need_wh) if need_wh > 0 else 9999.0,
                         "storing_loss_wh": dark_wh / (chemistry["charge_efficiency"] * chemistry["discharge_efficiency"]) - dark_wh}
        return months

    # [6] supply

    def array_key(self, kit):
        return kit[:5] + (self.bank(kit.storage, kit.bank_series),)

    def array_hours(self, key):
        """[6a] Kept and clipped Wh of every hour. key: the kit's array and its bank."""
        panel_id, series, parallel, controller_id, n, bank = key
        return kept_and_clipped(self.parts[panel_id], series * parallel, parallel, self.parts[controller_id], n, bank,
                                self.plane_w, self.air_c, self.mount_k())

    def array_wh(self, key):
        """Per month: array Wh and what was clipped."""
        kept, clipped = (month_means(self.weather, hourly) for hourly in self.array_hours(key))
        return {m: (kept[m] - 24 * key[4] * self.parts[key[3]]["idle_w"], clipped[m]) for m in MONTHS}

    def months(self, kit):
        bank, dcdc = self.bank(kit.storage, kit.bank_series), self.parts[kit.dcdc]
        arrays, months = self.array_wh(self.array_key(kit)), {}
        driven_wh = dcdc["output_a"] * bank.nominal_v * self.driving["hours_per_day"] if dcdc else 0.0
        shore_wh = len(self.kinds.nights()) / 7 * 14 * self.kinds.shore_a() * bank.nominal_v
        for m, figures in self.bank_months(kit.storage, kit.bank_series, kit.bank_parallel, kit.inverter).items():
            array_wh, clipped_wh = arrays[m]
            alternator_wh, on_shore_wh = (driven_wh, shore_wh) if m in self.used else (0.0, 0.0)
            supply_wh = array_wh + (alternator_wh + on_shore_wh) - figures["storing_loss_wh"]
            months[m] = dict(figures, array_wh=array_wh, clipped_wh=clipped_wh, alternator_wh=alternator_wh, shore_wh=on_shore_wh,
                             supply_wh=supply_wh)
        return months

    # [7] [8] money, weight, roof

    def counts(self, kit):
        counts = [(kit.panel, kit.series * kit.parallel), (kit.controller, kit.controllers),
                  (kit.storage, kit.bank_series * kit.bank_parallel), (kit.inverter, 1), (kit.dcdc, 1)]
        return [(part, n) for part, n in counts if part]

    def grams(self, part_id):
        return self.grams_of(self.parts[part_id])

    @staticmethod
    def grams_of(part):
        return half_up((exact(part["weight_kg"]) + exact(given(part, "mount_kg", 0))) * 1000)

    def figures(self, kit, months):
        wiring_minor, wiring_grams, wiring_shops = self.circuits.figures(kit)
        parts, shipping, allowance = self.shops.bill(self.counts(kit), wiring_shops)
        panel, inverter = self.parts[kit.panel], self.parts[kit.inverter]
        bank = self.bank_months(kit.storage, kit.bank_series, kit.bank_parallel, kit.inverter)
        return {"parts_minor": parts, "wiring_minor": wiring_minor, "shipping_minor": shipping, "allowance_minor": allowance,
                "cost_minor": parts + wiring_minor + shipping + allowance,
                "weight_kg": (sum(n * self.grams(part) for part, n in self.counts(kit)) + wiring_grams) / 1000,
                "usable_capacity_wh": min(bank[m]["usable_wh"] for m in self.used),
                "roof_area_m2": kit.series * kit.parallel * panel["length_mm"] * panel["width_mm"] / 1e6,
                "autonomy_days": min(bank[m]["autonomy_days"] for m in self.used),
                "spare_power_w": inverter["continuous_w"] - self.ac_peak if inverter else 0.0,
                "dark_hours": self.dark_known.get(kit),
                "supply_margin_wh": min(months[m]["supply_wh"] - months[m]["need_wh"] for m in self.used)}

    # [9] rules

    def array_rules(self, panel_id, series, parallel, controller_id, n, storage_id, s):
        panel, controller, bank = self.parts[panel_id], self.parts[controller_id], self.bank(storage_id, s)
        panels, strings, mppt = series * parallel, -(-parallel // n), controller["technology"] == "mppt"
        cold = missing(panel, voc_coeff_pct_k="voc-table")
        hot = missing(panel, voc_coeff_pct_k="voltage-coefficient", noct_c="noct") + list(bank.assumed)
        most, bound = self.roof_most[panel_id]
        top_mm = self.brief["roof"].get("max_height_mm")
        roof_kg, max_pv_w = self.brief["roof"].get("max_load_kg"), controller.get("max_pv_w_12v")
        cold_v, hot_v = series * self.cold_voc_v(panel), series * self.hot_vmp_v(panel)
        string_w = panel["power_w"] * series if mppt else panel["imp_a"] * bank.nominal_v
        brought_w, rated_w = string_w * strings, controller["rated_output_a"] * bank.nominal_v
        safe_v = 50 if given(self.brief, "rule_set", "road-vehicle") == "boat" else 60
        buses = [v for v in (12, 24, 48) if given(controller, "bus_%dv" % v, False)]
        return {
            "roof-fit": at_most(panels, most if panels <= most else bound, self.limit_severity("roof")),
            "roof-undecided": at_most(panels, most, self.limit_severity("roof")) if most < panels <= bound else idle(),
            "roof-load": idle() if roof_kg is None else at_most(panels * self.grams(panel_id) / 1000, roof_kg),
            "roof-height": idle() if not top_mm else at_most(self.brief["roof"].get("standoff_mm", 0) + panel["thickness_mm"], top_mm),
            "controller-share": at_most(parallel % n, 0),
            "controllers-alike": at_most(n, 1, "caution"),
            "unlike-panels": idle() if series == 1 else at_most(0, 5, "caution"),
            "system-voltage": at_most(cold_v, 50, "caution", cold + ["max-system-v"]) if panel.get("max_system_v") is None else
                              at_most(cold_v, panel["max_system_v"], assumed=cold),
            "touch-voltage": at_most(cold_v, safe_v, "caution", cold),
            "cold-voc": at_most(cold_v, controller["max_pv_v"], assumed=cold),
            "pv-current": at_most(1.25 * panel["isc_a"] * strings, controller["max_pv_a"]),
            "hot-vmp": at_least(hot_v, bank.charge_v + controller["headroom_v"], assumed=hot),
            "mppt-start": self.mppt_start(series * self.hot_voc_v(panel), controller, bank, hot),
            "pwm-cells": self.pwm_cells(series * given(panel, "cells", 0), bank.system_v) if not mppt else idle(),
            "pwm-match": idle() if mppt or hot_v <= 0 else at_most(100 * max(0, 1 - bank.charge_v / hot_v), 10, "caution", hot),
            "array-watts": idle() if not bank.system_v else at_most(brought_w, rated_w, "caution", ["pv-watts"]) if max_pv_w is None else
                           at_most(panel["power_w"] * series * strings, max_pv_w * bank.system_v / 12),
            "output-clipped": at_most(brought_w, rated_w, "note"),
            "string-fuse": at_most((strings - 1) * 1.25 * panel["isc_a"], given(panel, "series_fuse_a", 15), "caution",
                                   ["series-fuse"] if panel.get("series_fuse_a") is None else []),
            "controller-bus": same(bank.system_v, nearest(buses, bank.system_v)) if bank.system_v else idle(),
            "charge-profile": same(self.profile(controller, storage_id), 1),
        }

    @staticmethod
    def mppt_start(hot_voc_v, controller, bank, assumed):
        if controller["technology"] != "mppt":
            return idle()
        over_v = given(controller, "start_headroom_v", controller["headroom_v"])
        assumed = assumed + missing(controller, start_headroom_v="start-headroom")
        if hot_voc_v < bank.nominal_v + over_v:
            return at_least(hot_voc_v, bank.nominal_v + over_v, assumed=assumed)
        return at_least(hot_voc_v, bank.charge_v + over_v, "caution", assumed=assumed)

    @staticmethod
    def pwm_cells(cells, system_v):
        fitting = 36 * system_v / 12
        if not system_v or not cells:
            return idle(*["cells"] if system_v else [])
        return finding(cells, fitting, abs(cells - fitting) <= fitting / 10, "caution")

    def profile(self, charger, storage_id):
        free = given(charger, "profile_adjustable", False)
        return int(free or self.parts[storage_id]["chemistry"] in given(charger, "profiles", []))

    def peak_draw(self, storage, p, bank, inverter):
        def amps(dc_w, ac_w):
            return (dc_w + (ac_w / efficiency(inverter, ac_w) if inverter and ac_w > 0 else 0)) / bank.nominal_v
        run_a, run_limit_a = amps(self.dc_peak, self.ac_peak), p * storage["max_discharge_a"]
        start_a = max(amps(self.dc_surge, self.ac_peak), amps(self.dc_peak, self.ac_surge))
        surge_a = storage.get("surge_discharge_a")
        start_limit_a = run_limit_a if surge_a is None else p * surge_a
        if run_a * start_limit_a >= start_a * run_limit_a:
            return at_most(run_a, run_limit_a)
        return at_most(start_a, start_limit_a, assumed=["surge-current"] if surge_a is None else [])

    def bay_fit(self, storage, n):
        bay = self.brief.get("bay")
        if bay is None:
            return idle()
        sides = bay["length_mm"], bay["width_mm"], storage["length_mm"], storage["width_mm"]
        turns = not given(storage, "must_not_turn", False)
        fits = storage["height_mm"] <= bay["height_mm"] and boxes_fit(n, *sides, turns)
        return finding(n, n if fits else n - 1, fits, self.limit_severity("bay"))

    def ventilation(self, storage, chemistry, s, p):
        gas = {"none": 0, "valve-regulated": 8, "vented": 20}[chemistry["gassing"]]
        if not gas:
            return idle()
        cells = round(storage["nominal_v"] / chemistry["cell_v"]) * s
        return at_most(0.05 * cells * gas * storage["capacity_ah"] * p / 1000, 0,
                       "caution" if given(self.site, "sleeping_space", True) else "note")

    def at_cold(self, limit_c, assumed=()):
        return idle() if limit_c is None else finding(self.cold_c, limit_c, self.cold_c >= limit_c, "caution", assumed=assumed)

    def cold_charge(self, limit_c):
        bank_c, month = least((self.bank_c(m), m) for m in self.used)
        if limit_c is not None and bank_c < limit_c:
            return finding(bank_c, limit_c, False, "stop", month=month)
        return self.at_cold(limit_c)

    def load_voltage(self, system_v):
        made_for = [(load.get("volts"), system_of(load.get("volts"))) for load in self.dc_loads if system_v]
        other = [volts for volts, kind in made_for if kind not in (0, system_v)]
        alike = [volts for volts, kind in made_for if kind == system_v]
        if other:
            return finding(other[0], system_v, False, "caution")
        if system_v != 12 and any(volts is None for volts, _ in made_for):
            return finding(None, system_v, False, "note")
        return finding(alike[0], system_v, True) if alike else idle()

    def load_converter(self, bank):
        watts = [self.loads.watts(load) for load in self.dc_loads if load.get("volts") is not None and not system_of(load["volts"])]
        if not watts or not bank.system_v:
            return idle()
        return at_most(sum(watts) / 0.85 / bank.nominal_v, sum(watts) / bank.nominal_v, "note")

    def motor_start(self, bank):
        load = max(self.dc_loads, key=lambda load: given(load, "surge_factor", 1), default={})
        if given(load, "surge_factor", 1) <= 1 or not bank.system_v:
            return idle()
        run_a = self.loads.watts(load) / bank.nominal_v
        return at_most(run_a * load["surge_factor"], 2 * run_a, "note")

    def shore_charge(self, storage, p):
        shore = given(self.brief, "shore", {})
        charger_a = given(shore, "charger_a", 0)
        return at_most(charger_a, p * storage["max_charge_a"]) if charger_a > 0 and given(shore, "nights_per_week", 0) > 0 else idle()

    def bank_rules(self, storage_id, s, p, inverter_id):
        storage, bank, inverter = self.parts[storage_id], self.bank(storage_id, s), self.parts[inverter_id]
        chemistry, near_v = self.chemistry(storage), nearest(given(self.brief, "system_volts", [12, 24, 48]), bank.nominal_v)
        freezing = chemistry.get("freezing_by_depth")
        days, month = least((b["autonomy_days"], m) for m, b in self.bank_months(storage_id, s, p, inverter_id).items() if m in self.used)
        rules = {
            "bank-system": finding(bank.nominal_v, near_v, bank.system_v != 0 and bank.system_v == near_v),
            "bank-series": at_most(s, storage["max_series"]),
            "bank-parallel": at_most(p, storage["max_parallel"]),
            "load-voltage": self.load_voltage(bank.system_v),
            "load-converter": self.load_converter(bank),
            "motor-start": self.motor_start(bank),
            "bay-fit": self.bay_fit(storage, s * p),
            "no-inverter": same(int(inverter is not None), 1) if self.ac_loads else idle(),
            "peak-draw": self.peak_draw(storage, p, bank, inverter),
            "shore-charge": self.shore_charge(storage, p),
            "cold-charge": idle() if given(storage, "heated", False) else self.cold_charge(chemistry.get("min_charge_c")),
            "freezing": self.at_cold(curve(freezing, self.depth(storage)) if freezing else None, missing(storage, depth_limit="depth-limit")),
            "ventilation": self.ventilation(storage, chemistry, s, p),
            "autonomy": at_least(days, given(given(self.brief, "targets", {}), "autonomy_days", 2), month=month,
                                 assumed=missing(storage, depth_limit="depth-limit", peukert="peukert")),
        }
        return dict(rules, **self.inverter_rules(inverter, storage, bank, s, p))

    def end_v(self, storage, s):
        chemistry = self.chemistry(storage)
        usual = {"lead-acid": 1.75, "lithium": 2.5}.get(chemistry["family"])
        cell_v = given(chemistry, "end_v_per_cell", usual)
        return None if cell_v is None else round(storage["nominal_v"] / chemistry["cell_v"]) * s * cell_v

    def inverter_rules(self, inverter, storage, bank, s, p):
        names = ["inverter-bus", "inverter-window", "inverter-lowest", "inverter-cutout", "inverter-continuous", "inverter-surge",
                 "waveform", "inverter-draw", "inverter-surge-draw"]
        if inverter is None:
            return {name: idle() for name in names}
        lowest, end_v = missing(inverter, min_v="inverter-lowest"), self.end_v(storage, s)
        end = missing(self.chemistry(storage), end_v_per_cell="end-voltage")
        lowest_v = given(inverter, "min_v", inverter["bus_v"] * 10 / 12)
        highest = missing(inverter, max_v="inverter-window")
        seconds_a = given(storage, "surge_discharge_a", storage["max_discharge_a"])
        watts, sine = inverter["continuous_w"], any(given(load, "needs_pure_sine", False) for load in self.ac_loads)
        return dict(zip(names, [
            same(bank.system_v, inverter["bus_v"]) if bank.system_v else idle(),
            at_most(bank.charge_v, given(inverter, "max_v", 1.25 * inverter["bus_v"]), "caution" if highest else "stop",
                    highest + list(bank.assumed)),
            at_most(lowest_v, bank.nominal_v, assumed=lowest),
            idle(*end) if end_v is None else at_least(lowest_v, end_v, "caution", assumed=lowest + end),
            at_most(self.ac_peak, watts),
            at_most(self.ac_surge, inverter["surge_w"]),
            same(int(inverter["waveform"] == "pure-sine"), 1) if sine else idle(),
            at_most(watts / efficiency(inverter, watts) / bank.nominal_v, p * storage["max_discharge_a"]),
            at_most(inverter["surge_w"] / efficiency(inverter, inverter["surge_w"]) / bank.nominal_v, p * seconds_a, "caution",
                    missing(storage, surge_discharge_a="surge-current"))]))

    def dcdc_rules(self, dcdc_id, storage_id, s):
        dcdc, bank, driving = self.parts[dcdc_id], self.bank(storage_id, s), self.driving
        names = ["dcdc-source", "dcdc-bus", "dcdc-profile", "dcdc-alternator"]
        if dcdc is None:
            return {name: idle() for name in names}
        driven = driving["alternator_a"] > 0 and driving["hours_per_day"] > 0
        input_a = dcdc["output_a"] * dcdc["output_v"] / dcdc["efficiency"] / dcdc["input_v"]
        return dict(zip(names, [
            same(driving["alternator_v"] if driven else 0, dcdc["input_v"]),
            same(bank.system_v, dcdc["output_v"]) if bank.system_v else idle(),
            same(self.profile(dcdc, storage_id), 1),
            at_most(input_a, driving["alternator_a"] / 2, "caution") if driving["alternator_a"] > 0 else idle()]))

    def charge_a(self, kit, bank):
        panel, controller, dcdc = self.parts[kit.panel], self.parts[kit.controller], self.parts[kit.dcdc]
        if controller["technology"] == "mppt":
            solar_a = panel["power_w"] * kit.series * kit.parallel * controller["efficiency"] / bank.nominal_v
        else:
            solar_a = kit.parallel * panel["imp_a"]
        return min(solar_a, kit.controllers * controller["rated_output_a"]) + (dcdc["output_a"] if dcdc else 0)

    def charge_minimum(self, charge_a, storage, p):
        if storage.get("min_charge_a") is not None:
            return at_least(charge_a, p * storage["min_charge_a"], "caution")
        if self.chemistry(storage)["family"] != "lead-acid":
            return idle()
        return at_least(charge_a, p * storage["capacity_ah"] / 10, "caution", assumed=["minimum-charge"])

    def array_assumed(self, kit):
        if self.parts[kit.controller]["technology"] != "mppt":
            return []
        return missing(self.parts[kit.panel], power_coeff_pct_k="power-coefficient", noct_c="noct", low_light_pct="low-light")

    def findings(self, kit, months, figures):
        storage, limits = self.parts[kit.storage], self.brief["limits"]
        charge_a = self.charge_a(kit, self.bank(kit.storage, kit.bank_series))
        _, worst = least((months[m]["supply_wh"] - months[m]["need_wh"], m) for m in self.used)
        missing = self.shops.missing(self.counts(kit))
        rules = {
            "no-price": at_most(missing, 0),
            "charge-maximum": at_most(charge_a, kit.bank_parallel * storage["max_charge_a"]),
            "charge-minimum": self.charge_minimum(charge_a, storage, kit.bank_parallel),
            "supply": at_least(months[worst]["supply_wh"], months[worst]["need_wh"], month=worst, assumed=self.array_assumed(kit)),
            "money": idle() if missing else
                     at_most(figures["cost_minor"], limits["money_minor"]["value"], self.limit_severity("money_minor")),
            "weight": at_most(figures["weight_kg"], limits["weight_kg"]["value"], self.limit_severity("weight_kg")),
            "dark-hours": idle() if figures["dark_hours"] is None else
                          at_most(figures["dark_hours"], self.dark_limit(), self.limit_severity("dark_hours")),
        }
        rules.update(self.array_rules(*kit[:7]))
        rules.update(self.bank_rules(kit.storage, kit.bank_series, kit.bank_parallel, kit.inverter))
        rules.update(self.dcdc_rules(kit.dcdc, kit.storage, kit.bank_series))
        rules.update(self.circuit_rules(kit))
        return rules

    def circuit_rules(self, kit):
        if not self.circuits.on:
            return {name: idle() for name in ("source-circuits", "bank-circuits", "fittings")}
        wiring, (source, bank) = self.circuits.of(kit), self.circuits.assumed(kit)
        return {"source-circuits": at_most(wiring.source_faults, 0, assumed=source), "bank-circuits": at_most(wiring.bank_faults, 0, assumed=bank),
                "fittings": at_most(wiring.missing, 0, "caution")}

    # [10] worth, score, ranking

    def find_anchors(self):
        limits, days = self.brief["limits"], given(given(self.brief, "targets", {}), "autonomy_days", 2)
        target_wh, clear_m2 = days * self.loads.reference_wh(), clear_mm2(self.brief["roof"]) / 1e6
        anchors = {"cost": (0, limits["money_minor"]["value"]), "weight": (0, limits["weight_kg"]["value"]),
                   "usable_capacity": (3 * target_wh, target_wh), "roof_area": (0, clear_m2), "autonomy": (3 * days, days),
                   "spare_power": (max(100, self.ac_peak), 0), "dark_hours": (0, max(1, self.dark_limit())),
                   "supply_margin": (0.5 * self.loads.reference_wh(), 0)}
        own = given(self.brief, "anchors", {})
        return {c: tuple(given(given(own, c, {}), end, default) for end, default in zip(("full", "none"), anchors[c])) for c in CRITERIA}

    def find_weights(self):
        own = given(self.brief, "weights", {})
        weights = {c: given(own, c, 1 if i < 4 else 0) for i, c in enumerate(CRITERIA)}
        return {c: weights[c] / sum(weights.values()) for c in CRITERIA}

    def worth(self, figures):
        worth = {}
        for c, x in zip(CRITERIA, self.criteria(figures)):
            full, none = self.anchors[c]
            if full == none:
                u = 1.0 if (x <= full if c in LESS_IS_BETTER else x >= full) else 0.0
            else:
                u = (x - none) / (full - none)
            worth[c] = u if c in LESS_IS_BETTER else min(1.0, u)
        return worth

    def distance(self, figures):
        goals, terms = given(given(self.brief, "rank_by", {}), "goals", {}), []
        for c, x in zip(CRITERIA, self.criteria(figures)):
            full, none = self.anchors[c]
            goal = given(goals, c, None)
            missing = ((full if goal is None else goal) - x) / (full - none)
            if self.weights[c] > 0:
                terms.append(self.weights[c] * (missing if c in LESS_IS_BETTER else max(0, missing)))
        return max(terms) + 0.001 * sum(terms)

    def steps(self, figures):
        """Of each criterion in the order of importance, as the program tells them."""
        steps, figure = {}, dict(zip(CRITERIA, self.criteria(figures)))
        for entry in given(given(self.brief, "rank_by", {}), "importance", [{"criterion": c} for c in CRITERIA[:4]]):
            c = entry["criterion"]
            full, none = self.anchors[c]
            step = given(entry, "step", None)
            step = abs(full - none) / 20 if step is None else step
            x = figure[c] if c in LESS_IS_BETTER else min(figure[c], full)
            steps[c] = floor(x / step + 1e-9) if step else x
        return steps

    def sort_key(self, figures):
        """What kits are sorted by: less stands first."""
        way = given(given(self.brief, "rank_by", {}), "way", "score")
        score = sum(self.weights[c] * u for c, u in self.worth(figures).items())
        if way == "goals":
            return (self.distance(figures), -score)
        if way == "importance":
            return tuple(n if c in LESS_IS_BETTER else -n for c, n in self.steps(figures).items()) + (-score,)
        return (-score,)

    @staticmethod
    def criteria(f):
        return (f["cost_minor"], f["weight_kg"], f["usable_capacity_wh"], f["roof_area_m2"], f["autonomy_days"], f["spare_power_w"],
                f["dark_hours"], f["supply_margin_wh"])

    def every_kit(self):
        most, ticked = self.largest, self.ticked
        def up_to(key):
            return range(1, most[key] + 1)
        return map(Kit._make, product(ticked["panels"], up_to("series"), up_to("parallel"), ticked["controllers"], up_to("controllers"),
                                      ticked["storage"], up_to("bank_series"), up_to("bank_parallel"), [""] + ticked["inverters"],
                                      [""] + ticked["dcdc"]))

    def judge(self, kit):
        months = self.months(kit)
        figures = self.figures(kit, months)
        findings = self.findings(kit, months, figures)
        broken = [code for code in RULES if not findings[code].holds and findings[code].severity == "stop"]
        return months, figures, findings, broken

    def front(self, working):
        named = given(self.brief, "front", CRITERIA[:4])
        signs = [(i, 1 if c in LESS_IS_BETTER else -1) for i, c in enumerate(CRITERIA) if c in named]
        points = {kit: tuple(sign * self.criteria(figures)[i] for i, sign in signs) for _, kit, figures in working}
        best = []
        for point in sorted(set(points.values())):
            if not any(all(a <= b for a, b in zip(other, point)) for other in best):
                best.append(point)
        return {kit for kit, point in points.items() if point in best}

    def find_dark(self, kits):
        """[6b] The dark hours of these kits, side by side; kits alike for the balance share a lane."""
        alike = {}
        for kit in kits:
            if kit not in self.dark_known:
                dcdc_a = self.parts[kit.dcdc]["output_a"] if kit.dcdc else 0
                alike.setdefault((self.array_key(kit), kit[5:9], dcdc_a), []).append(kit)
        if alike:
            dark_h, near_wh = Lanes(self, [group[0] for group in alike.values()]).dark_hours()
            for group, dark, near in zip(alike.values(), dark_h, near_wh):
                self.dark_known.update((kit, dark) for kit in group)
                self.dark_near_wh = min(self.dark_near_wh, near)

    def rank(self):
        """Raw count, working kits best first, the front, firsts, alones, and for each rule a kit that does not keep it."""
        raw, carrying, working, first, alone, sample = 0, [], [], Counter(), Counter(), {}

        def count(kit, findings, broken):
            for code in RULES:
                if not findings[code].holds:
                    sample.setdefault(code, kit)
            if broken:
                first[broken[0]] += 1
                if len(broken) == 1:
                    alone[broken[0]] += 1
        for kit in self.every_kit():
            raw += 1
            _, _, findings, broken = self.judge(kit)
            if broken:
                count(kit, findings, broken)
            else:
                carrying.append(kit)
        self.find_dark(carrying)
        for kit in carrying:
            _, figures, findings, broken = self.judge(kit)
            count(kit, findings, broken)
            if not broken:
                working.append((self.sort_key(figures), kit, figures))
        working.sort(key=lambda entry: entry[:2])
        return raw, working, self.front(working), first, alone, sample
