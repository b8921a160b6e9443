"""The second computation: what arrays give hour by hour and the balance of many kits side by side through all hours,
from data/METHOD.md alone. The numbers in brackets are the sections of that page."""
from collections import namedtuple
from math import exp, floor, inf, log

import numpy as np

from second_sums import HOURS, MONTHS, clamp, curve, efficiency, given
from second_weather import LENGTHS

DARK_WH = 1e-6
EVERY_MONTH = {"array_wh", "own_draw_wh"}  # the rest counts in used months only
Step = namedtuple("Step", "hour year month used floor kept alternator shore need own served_own heater unmet taken stored given drained "
                          "lost spilled charge")


def week_share(load, weekday):
    """[5] Share of the day, 0 Monday, for which a load runs."""
    return clamp(given(load, "days_per_week", 7) - (6 - weekday))


class Kinds:
    """[5] [6] What a day of a used month asks and brings besides the sun: month x weekday x hour."""

    def __init__(self, brief, loads, used):
        self.brief, self.loads, self.used = brief, loads, used

    def need(self, inverter):
        table = np.zeros((13, 7, 24))
        for m in self.used:
            for w in range(7):
                table[m, w] = self.of_day(inverter, m, w)
        return table

    def of_day(self, inverter, month, weekday):
        hours, on = np.zeros(24), np.zeros(24)
        for load in self.loads.running(month, None if inverter else "dc"):
            time_h = load["hours_per_day"] * week_share(load, weekday) * np.array(self.loads.shares(load, month))
            wh = self.loads.watts(load) * given(load, "duty", 1) * time_h
            if load["supply"] == "ac":
                wh, on = wh / efficiency(inverter, self.loads.watts(load)), on + time_h
            hours += wh
        if inverter:
            told = self.loads.inverter_hours
            hours += inverter["idle_w"] * (np.minimum(1, on) if told is None else told / 24)
        return hours

    def alternator_share(self):
        """Hours driven in each hour of the day."""
        driven = given(self.brief, "driving", {"hours_per_day": 0})["hours_per_day"]
        start = min(9, 24 - driven)
        return [max(0.0, min(start + driven, h + 1) - max(start, h)) for h in HOURS]

    def nights(self):
        """Weekdays that begin a shore night."""
        x = given(self.brief, "shore", {"nights_per_week": 0})["nights_per_week"]
        return [w for w in range(7) if floor((w + 1) * x / 7) > floor(w * x / 7)]

    def shore_a(self):
        return given(self.brief, "shore", {"charger_a": 0})["charger_a"]

    def on_shore(self, weekday, hour):
        return (hour >= 18 and weekday in self.nights()) or (hour < 8 and (weekday - 1) % 7 in self.nights())


def kept_and_clipped(panel, panels, strings, controller, n, bank, plane_w, air_c, mount_k):
    """[6a] Wh of each hour."""
    if controller["technology"] == "mppt":
        watts, c = panel["power_w"] * panels * controller["efficiency"], given(panel, "power_coeff_pct_k", -0.45) / 100
        h = (given(panel, "noct_c", 45) + mount_k - 20) / 800
        low = 0.04 if panel.get("low_light_pct") is None else 1 - panel["low_light_pct"] / 100
        limit = controller["rated_output_a"] * bank.nominal_v
        if controller.get("max_pv_w_12v") is not None and bank.system_v:
            limit = min(limit, controller["max_pv_w_12v"] * bank.system_v / 12 * controller["efficiency"])
    else:
        watts, c, h, low, limit = panel["imp_a"] * strings * bank.nominal_v, 0.0, 0.0, 0.0, controller["rated_output_a"] * bank.nominal_v
    dim = np.where(plane_w > 0, np.maximum(0, np.log(1000 / np.where(plane_w > 0, plane_w, 1000)) / log(5)), 0.0)
    offered = watts * plane_w / 1000 * np.maximum(0, 1 - low * dim) * np.maximum(0, 1 + c * (air_c + h * plane_w - 25))
    kept = np.minimum(offered, n * limit)
    return kept, offered - kept


def month_means(weather, hourly):
    """Wh a day of each month, over all years."""
    daily = hourly.reshape(-1, 24).sum(axis=1)
    return {m: daily[weather.month_of_day == m].sum() / (weather.years * LENGTHS[m - 1]) for m in MONTHS}


class Lanes:
    """[6b] The constants of kits side by side, one lane each, and their way through all hours."""

    def __init__(self, second, kits):
        self.second, self.weather, self.kits = second, second.weather, kits
        self.own_w = np.array([k.controllers * second.parts[k.controller]["idle_w"] for k in kits], float)
        arrays = sorted({second.array_key(k) for k in kits})
        self.kept = np.array([second.array_hours(a)[0] for a in arrays]).T.copy()
        self.array_of = np.array([arrays.index(second.array_key(k)) for k in kits])
        volts = np.array([second.bank(k.storage, k.bank_series).nominal_v for k in kits], float)
        self.alternator_w = np.array([second.parts[k.dcdc]["output_a"] if k.dcdc else 0 for k in kits]) * volts
        self.shore_w = second.kinds.shore_a() * volts
        self.banks(second, kits, volts)

    def banks(self, second, kits, volts):
        def figures(of):
            return np.array([of(second.parts[k.storage], second.chemistry(second.parts[k.storage])) for k in kits], float)
        strings = np.array([k.bank_parallel for k in kits], float)
        self.whole = volts * figures(lambda b, c: b["capacity_ah"]) * strings
        self.rated_w = self.whole / figures(lambda b, c: b["rated_hours"])
        self.most_in = strings * volts * figures(lambda b, c: b["max_charge_a"])
        self.most_out = strings * volts * figures(lambda b, c: b["max_discharge_a"])
        self.exponent = figures(lambda b, c: given(b, "peukert", c["peukert"]))
        self.out_share = figures(lambda b, c: c["discharge_efficiency"])
        self.lost = figures(lambda b, c: given(c, "self_discharge_pct_month", 0)) / 100 / 730
        self.heater_w = figures(lambda b, c: given(b, "heater_w", 40)) * strings * [k.bank_series for k in kits]
        self.heated = figures(lambda b, c: given(b, "heated", False)) > 0
        self.too_cold_c = figures(lambda b, c: given(c, "min_charge_c", -inf))
        self.depth = figures(lambda b, c: second.depth(b))
        self.chemistry_of = [second.parts[k.storage]["chemistry"] for k in kits]
        self.taper(figures)

    def taper(self, figures):
        tapers = figures(lambda b, c: c.get("accept_c") is not None) > 0
        begin = figures(lambda b, c: given(c, "accept_from", 0)) * tapers
        self.best = figures(lambda b, c: c["charge_efficiency"])
        self.worst = np.where(tapers, figures(lambda b, c: given(c, "charge_efficiency_full", c["charge_efficiency"])), self.best)
        self.begin, width = begin * self.whole, self.whole - begin * self.whole
        self.accept = np.where(tapers, figures(lambda b, c: given(c, "accept_c", 0)) * self.whole, inf)
        full = figures(lambda b, c: given(c, "accept_full_c", 0)) * self.whole
        falls = tapers & (width > 0)
        safe = np.where(falls, width, 1.0)
        self.fall = np.where(falls, (np.where(tapers, self.accept, 0) - full) / safe, 0.0)
        self.worse = np.where(width > 0, (self.best - self.worst) / np.where(width > 0, width, 1), 0.0)
        k = self.fall * self.best
        self.hour_share = np.array([(1 - exp(-x)) / x if x else 1.0 for x in k])

    def temperature_factor(self, bank_c):
        """Of each lane."""
        points = {c: self.second.chemistries[c].get("capacity_by_c") for c in set(self.chemistry_of)}
        factor = {c: clamp(curve(p, bank_c)) if p else 1.0 for c, p in points.items()}
        return np.array([factor[c] for c in self.chemistry_of])

    def asked(self):
        """A function month, weekday -> (need, cost of one Wh given): hours x lanes."""
        second, known = self.second, {}
        inverters = sorted({k.inverter for k in self.kits})
        tables = np.array([second.kinds.need(second.parts[i]) for i in inverters])
        of = np.array([inverters.index(k.inverter) for k in self.kits])

        def find(month, weekday):
            key = (month, weekday) if month in second.used else 0
            if key not in known:
                need = tables[:, month, weekday].T[:, of]
                rate = np.maximum(1, ((need + self.own_w) / self.rated_w) ** (self.exponent - 1))
                known[key] = need, rate / self.out_share
            return known[key]
        return find

    def steps(self):
        """Every hour's Step, of arrays of lanes."""
        second, weather = self.second, self.weather
        charge, find, driven = self.whole.copy(), self.asked(), second.kinds.alternator_share()
        zero, factors = np.zeros(len(self.kits)), {}
        for day, month in enumerate(weather.month_of_day):
            bank_c = second.bank_c_of_day(day)
            if bank_c not in factors:
                factors = {bank_c: self.whole * (1 - self.depth * self.temperature_factor(bank_c))}
            cold, used, weekday = bank_c < self.too_cold_c, month in second.used, day % 7
            hours = (factors[bank_c], np.where(cold & self.heated, self.heater_w, 0.0), cold & ~self.heated)
            need, cost = find(month, weekday)
            for h in HOURS:
                alternator = self.alternator_w * driven[h] if used else zero
                shore = self.shore_w if used and second.kinds.on_shore(weekday, h) else zero
                step = self.step(charge, self.kept[24 * day + h][self.array_of], alternator, shore, need[h], cost[h], hours)
                charge = step[-1]
                yield Step(24 * day + h, day // 365, month, used, hours[0], *step)

    def step(self, charge, kept, alternator, shore, need, cost, day):
        floor_wh, heater_w, blocked = day
        own, up = self.own_w, charge * (1 - self.lost)
        balance = kept + alternator + shore - (need + own)
        free, short = np.maximum(0, balance - heater_w), np.maximum(0, -balance)
        over = up - self.begin
        taken = np.minimum(np.minimum(free, self.most_in), np.minimum(self.accept, np.maximum(0, self.hour_share * (self.accept_at(over)))))
        taken = np.where(blocked, 0.0, taken)
        share = np.maximum(self.worst, np.minimum(self.best, self.best - self.worse * over - self.worse * self.best * taken / 2))
        stored = np.minimum(taken * share, self.whole - up)
        taken = np.where(stored < taken * share, stored / share, taken)
        given_wh = np.minimum(np.minimum(short, self.most_out), np.maximum(0, up - floor_wh) / cost)
        drained = given_wh * cost
        missing = short - given_wh
        unmet = missing - np.minimum(missing, own)
        heater = np.where(taken > 0, heater_w, 0.0)
        return (kept, alternator, shore, need, own, own - np.minimum(missing, own), heater, unmet, taken, stored, given_wh, drained,
                charge - up, np.maximum(0, balance) - taken - heater, up - drained + stored)

    def accept_at(self, over):
        return np.where(np.isinf(self.accept), inf, self.accept - self.fall * over)

    def dark_hours(self):
        """A year, of each lane; and how near the threshold the nearest hour came, Wh."""
        count, near = np.zeros(len(self.kits), int), np.full(len(self.kits), inf)
        for step in self.steps():
            if step.used:
                count += step.unmet > DARK_WH
                near = np.minimum(near, np.where(step.unmet > 0, np.abs(step.unmet - DARK_WH), inf))
        return count / self.weather.years, near

    def in_full(self):
        """[6b] All results: a dictionary a lane, arrays inside by month 1..12 or by year."""
        n, years = len(self.kits), self.weather.years
        by_month = {key: np.zeros((13, n)) for key in ("array_wh", "alternator_wh", "shore_wh", "need_wh", "own_draw_wh", "unmet_wh", "spilled_wh", "dark_h")}
        least, dark, drained = np.full((13, n), inf), np.zeros((years, n)), np.zeros(n)
        spell, longest = np.zeros(n), np.zeros(n)
        for s in self.steps():
            for key, wh in (("array_wh", s.kept), ("alternator_wh", s.alternator), ("shore_wh", s.shore), ("need_wh", s.need),
                            ("own_draw_wh", s.served_own + s.heater), ("unmet_wh", s.unmet), ("spilled_wh", s.spilled)):
                if s.used or key in EVERY_MONTH:
                    by_month[key][s.month] += wh
            is_dark = (s.unmet > DARK_WH) & s.used
            by_month["dark_h"][s.month] += is_dark
            dark[s.year] += is_dark
            spell = np.where(is_dark, spell + 1, 0)
            longest = np.maximum(longest, spell)
            least[s.month] = np.minimum(least[s.month], s.charge / self.whole)
            drained += s.drained
        return self.told(by_month, least, dark, longest, drained)

    def told(self, by_month, least, dark, longest, drained):
        years, used, rows = self.weather.years, self.second.used, []
        for i in range(len(self.kits)):
            total = {key: sum(table[m][i] for m in used) / years for key, table in by_month.items()}
            months = {m: dict({key: table[m][i] / years / (1 if key == "dark_h" else LENGTHS[m - 1]) for key, table in by_month.items()},
                              lowest_charge=least[m][i]) for m in MONTHS}
            rows.append({"years": years, "dark_h": dark[:, i].sum() / years, "dark_worst_h": dark[:, i].max(),
                         "dark_worst_year": int(np.argmax(dark[:, i])) + 1, "longest_dark_h": longest[i],
                         "need_wh": total["need_wh"], "unmet_wh": total["unmet_wh"], "spilled_wh": total["spilled_wh"],
                         "loss_of_load": total["unmet_wh"] / total["need_wh"] if total["need_wh"] > 0 else 0.0,
                         "lowest_charge": min(least[m][i] for m in used), "full_cycles": drained[i] / self.whole[i] / years,
                         "months": months})
        return rows
