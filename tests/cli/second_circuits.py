"""The second computation: the circuits of a kit, from data/METHOD.md alone. The numbers in brackets are the sections of
that page; the tables of ampacity are the published ones beside the tests."""
import csv
import os
from collections import Counter, namedtuple
from functools import lru_cache
from math import ceil, inf, pi, sqrt

from second_sums import efficiency, exact, given, half_up

LENGTHS_M = {"string": 2, "array": 4, "charge": 1.5, "dcdc_in": 5, "dcdc_out": 1.5, "shore": 1.5, "battery": 0.4, "main": 0.5,
             "inverter": 1, "feed": 1, "load": 4}
GAUGES = ["18", "16", "14", "12", "10", "8", "6", "4", "3", "2", "1", "1/0", "2/0", "3/0", "4/0"]
BUNDLES = {"boat": ((2, 1), (3, 0.7), (6, 0.6), (24, 0.5), (inf, 0.4)),
           "land": ((3, 1), (6, 0.8), (9, 0.7), (20, 0.5), (30, 0.45), (40, 0.4), (inf, 0.35))}
HOT_SPACE = {60: 0.58, 75: 0.75, 80: 0.78, 90: 0.82, 105: 0.85, 125: 0.89, 200: 1.00}
SMALL_FUSES = {"18": 7, "16": 10, "14": 15, "12": 20, "10": 30}
BOATS_THINNEST_MM2 = 1.3

Wire = namedtuple("Wire", "part carries_a thermal_a terminals_a largest_fuse_a column_c air_c")
Ask = namedtuple("Ask", "kind count metres run_a design_a volts most_v fault_a before_pct allowed_pct fused switched lugs panel_fuse_a feed_a load",
                 defaults=(0, 3, True, False, 0, inf, 0, None))
Answer = namedtuple("Answer", "ask fault wire fuse holder lug switch in_block missing by_drop conductor_c ohm_km drop_v drop_pct cost_minor grams "
                    "shops")
Wiring = namedtuple("Wiring", "circuits bus blocks bank_fault_a bus_fault_a block_fault_a missing cost_minor grams shops")
NOTHING = Wiring((), None, {}, 0, 0, 0, 0, 0, 0, frozenset())


def gauge_mm2(gauge):
    n = 1 - int(gauge[0]) if "/" in gauge else int(gauge)
    return pi / 4 * (0.127 * 92 ** ((36 - n) / 39)) ** 2


def published(name):
    """gauge -> {column in C: A}"""
    path = os.path.join(os.path.dirname(os.path.abspath(__file__)), "..", "published", name)
    with open(path, encoding="utf-8") as file:
        rows = csv.DictReader(line for line in file if not line.startswith("#"))
        return {row.pop("awg"): {int(head[:-1]): float(amps) for head, amps in row.items()} for row in rows}


BOAT, LAND = published("ampacity_boat.csv"), {"18": {90: 14.0}, "16": {90: 18.0}, **published("ampacity_land.csv")}


class Circuits:
    """[9a] Of the kits of one brief."""

    def __init__(self, second, catalogue):
        self.second, self.brief, self.prices = second, second.brief, second.shops.best
        self.wiring = given(self.brief, "wiring", {})
        self.on = given(self.wiring, "on", True)
        self.boat = given(self.brief, "rule_set", "road-vehicle") == "boat"
        inside_c = given(self.wiring, "inside_c", 30 if self.boat else 40)
        self.air_c = {"inside": inside_c, "roof": given(self.wiring, "roof_c", inside_c + 20)}
        self.length_m = dict(LENGTHS_M, **{k: v for k, v in given(self.wiring, "lengths_m", {}).items() if v is not None})
        sold = {kind: [p for p in catalogue[kind] if p["id"] in self.prices] for kind in ("conductors", "fuses", "fittings")}
        self.fuses = sold["fuses"]
        self.fittings = {role: [f for f in sold["fittings"] if f["role"] == role] for role in ("holder", "lug", "switch", "block", "bus")}
        self.wires = {where: [self.wire(p, air_c) for p in sold["conductors"] if self.wanted(p)] for where, air_c in self.air_c.items()}
        self.breaks_a = sorted({f["interrupt_a"] for f in self.fuses})
        for name in ("solve", "array_side", "bank_side", "shared_side"):
            setattr(self, name, lru_cache(None)(getattr(self, name)))
        self.of = lru_cache(4)(self.of)

    # the stock

    def wanted(self, conductor):
        sizes = given(self.wiring, "sizes", "any")
        return sizes in ("any", conductor["system"]) and not (self.boat and conductor["area_mm2"] < BOATS_THINNEST_MM2)

    def price(self, part):
        return self.prices[part["id"]][0] if part else 0

    def cheapest(self, parts):
        return min(parts, key=lambda p: (self.price(p), p["id"]), default=None)

    def fitting(self, role, most_v=0, least_a=0, **wanted):
        return self.cheapest(f for f in self.fittings[role] if f["max_a"] >= least_a and given(f, "max_v", inf) >= most_v
                             and all(f[key] == value for key, value in wanted.items()))

    def wire(self, conductor, air_c):
        """What a conductor may carry in this air."""
        table = BOAT if self.boat else LAND
        gauge = max((g for g in GAUGES if 0.999 * gauge_mm2(g) <= conductor["area_mm2"]), key=GAUGES.index, default=None)
        columns = [c for c in table.get(gauge, {}) if c <= conductor["insulation_c"]]
        if not columns:
            return Wire(conductor, 0, 0, 0, 0, 0, air_c)
        column = max(columns)
        bundle = next(share for most, share in BUNDLES["boat" if self.boat else "land"] if given(self.wiring, "bundled", 3) <= most)
        thermal_a = table[gauge][column] * self.air_factor(column, air_c) * bundle
        if self.boat:
            return Wire(conductor, thermal_a, thermal_a, None, thermal_a, column, air_c)
        terminals_a = table[gauge].get(given(self.wiring, "terminals_c", 75), table[gauge][column])
        carries_a = min(thermal_a, terminals_a)
        return Wire(conductor, carries_a, thermal_a, terminals_a, min(carries_a, SMALL_FUSES.get(gauge, inf)), column, air_c)

    def air_factor(self, column, air_c):
        if self.boat:
            if air_c <= 30:
                return 1
            return HOT_SPACE[column] * (1 if air_c <= 50 else sqrt(max(0, column - air_c) / (column - 50)) if column > air_c else 0)
        return sqrt((column - max(air_c, 30)) / (column - 30)) if column > air_c else 0

    # one circuit

    @staticmethod
    def heat(wire, run_a):
        """Conductor's temperature and ohm per km."""
        hot_c = wire.air_c + (wire.column_c - wire.air_c) * (run_a / wire.thermal_a) ** 2
        return hot_c, wire.part["r20_ohm_km"] * (230 + hot_c) / 250

    def drop_v(self, wire, ask):
        return float(ask.metres) * self.heat(wire, ask.run_a)[1] / 1000 * ask.run_a

    def lug(self, wire):
        area_mm2 = wire.part["area_mm2"]
        return self.cheapest(f for f in self.fittings["lug"] if f["min_area_mm2"] <= area_mm2 <= f["max_area_mm2"])

    def wire_price(self, wire, ask):
        return half_up(ask.metres * self.price(wire.part)) + (ask.lugs * self.price(self.lug(wire)) if ask.lugs else 0)

    def in_block(self, ask, fuse):
        return ask.kind == "load" and self.fitting("block", ask.most_v, ask.feed_a, form=fuse["form"]) is not None

    def holder(self, ask, fuse):
        return None if self.in_block(ask, fuse) else self.fitting("holder", ask.most_v, fuse["rating_a"], form=fuse["form"])

    def find_fuse(self, ask):
        """(fuse, None) or (None, why there is none)."""
        if not ask.fused:
            return None, None
        of_volts = [f for f in self.fuses if f["max_v"] >= ask.most_v]
        able = [f for f in of_volts if f["interrupt_a"] >= ask.fault_a]
        rating = min((f["rating_a"] for f in able if f["rating_a"] >= ask.design_a), default=None)
        if rating is None:
            return None, "over-fuse-volts" if not of_volts else "over-interrupting" if not able else "over-fuse-ratings"
        if rating > ask.panel_fuse_a:
            return None, "over-series-fuse"
        return min((f for f in able if f["rating_a"] == rating), key=lambda f: (self.price(f) + self.price(self.holder(ask, f)), f["id"])), None

    def find_wire(self, ask, fuse):
        """(wire, by drop, None) or (None, None, why there is none)."""
        able = [w for w in self.wires["roof" if ask.kind in ("string", "array") else "inside"] if 0 < w.carries_a >= ask.design_a]
        fused = [w for w in able if not fuse or w.largest_fuse_a >= fuse["rating_a"]]
        good = [w for w in fused if ask.before_pct + 100 * self.drop_v(w, ask) / ask.volts <= ask.allowed_pct]
        if not good:
            return None, None, "over-ampacity" if not able else "unprotected" if not fused else "over-drop"

        def rank(wire):
            return self.wire_price(wire, ask), wire.part["area_mm2"], wire.part["id"]
        wire = min(good, key=rank)
        return wire, min(fused, key=rank).part["area_mm2"] < wire.part["area_mm2"], None

    def solve(self, ask):
        fuse, why = self.find_fuse(ask)
        if why is None:
            wire, by_drop, why = self.find_wire(ask, fuse)
        if why is not None:
            return Answer(ask, why, None, fuse, None, None, None, False, 0, None, None, None, 0, 0, 0, 0, frozenset())
        holder, in_block = (self.holder(ask, fuse), self.in_block(ask, fuse)) if fuse else (None, False)
        lug = self.lug(wire) if ask.lugs else None
        switch = self.fitting("switch", ask.most_v, ask.design_a) if ask.switched else None
        missing = (ask.lugs if lug is None else 0) + int(fuse is not None and not in_block and holder is None) + int(ask.switched and switch is None)
        parts = [(wire.part, ask.metres), (lug, ask.lugs), (fuse, 1), (holder, 1), (switch, 1)]
        parts = [(part, n) for part, n in parts if part]
        hot_c, ohm_km = self.heat(wire, ask.run_a)
        drop_v = self.drop_v(wire, ask)
        return Answer(ask, None, wire, fuse, holder, lug, switch, in_block, ask.count * missing, by_drop, hot_c, ohm_km, drop_v,
                      100 * drop_v / ask.volts, ask.count * sum(half_up(n * self.price(part)) for part, n in parts),
                      ask.count * sum(half_up(n * self.second.grams_of(part)) for part, n in parts),
                      frozenset(self.prices[part["id"]][1] for part, _ in parts))

    # what is asked

    def both_ways(self, *kinds):
        return sum(2 * exact(self.length_m[kind]) for kind in kinds)

    @staticmethod
    def loop_ohm(answer):
        return float(answer.ask.metres) * answer.wire.part["r20_ohm_km"] / 1000 if answer and answer.wire else 0

    def array_side(self, panel_id, series, parallel, controller_id, n, system_v, bank_most_v, bus_fault_a):
        panel, strings = self.second.parts[panel_id], ceil(parallel / n)
        volts, most_v = series * panel["vmp_v"], series * self.second.cold_voc_v(panel)
        answers, before_pct, kinds = [], 0, ("string", "array")
        if strings > 1:
            fault_a, panel_fuse_a = (strings - 1) * 1.25 * panel["isc_a"], given(panel, "series_fuse_a", 15)
            answers.append(self.solve(Ask("string", parallel, self.both_ways("string"), panel["imp_a"], 1.5625 * panel["isc_a"], volts, most_v,
                                          fault_a, allowed_pct=1, fused=fault_a > panel_fuse_a, panel_fuse_a=panel_fuse_a)))
            before_pct, kinds = answers[0].drop_pct, ("array",)
        answers.append(self.solve(Ask("array", n, self.both_ways(*kinds), strings * panel["imp_a"], strings * 1.5625 * panel["isc_a"], volts, most_v,
                                      strings * 1.25 * panel["isc_a"], before_pct, fused=strings > 1, switched=True)))
        answers.append(self.charger("charge", n, self.second.parts[controller_id]["rated_output_a"], system_v, bank_most_v, bus_fault_a))
        return answers

    def charger(self, kind, count, amps, system_v, most_v, fault_a):
        return self.solve(Ask(kind, count, self.both_ways(kind), amps, 1.25 * amps, system_v, most_v, fault_a, lugs=2))

    def shore_a(self):
        shore = given(self.brief, "shore", {})
        return given(shore, "charger_a", 0) if given(shore, "nights_per_week", 0) > 0 else 0

    def charge_a(self, kit):
        dcdc, controller = self.second.parts[kit.dcdc], self.second.parts[kit.controller]
        return kit.controllers * controller["rated_output_a"] + (dcdc["output_a"] if dcdc else 0) + self.shore_a()

    def other_chargers(self, dcdc_id, system_v, most_v, bus_fault_a):
        dcdc, answers = self.second.parts[dcdc_id], []
        if dcdc:
            input_v = dcdc["input_v"]
            input_a = dcdc["output_a"] * dcdc["output_v"] / dcdc["efficiency"] / input_v
            answers.append(self.charger("dcdc_in", 1, input_a, input_v, 14.4 * input_v / 12, 14.4 / 0.005))
            answers.append(self.charger("dcdc_out", 1, dcdc["output_a"], system_v, most_v, bus_fault_a))
        if self.shore_a() > 0:
            answers.append(self.charger("shore", 1, self.shore_a(), system_v, most_v, bus_fault_a))
        return answers

    def string_ohm(self, storage, s):
        chemistry = self.second.chemistry(storage)
        by_cells = max(1, round(storage["nominal_v"] / chemistry["cell_v"])) * given(chemistry, "cell_mohm_100ah", 0.4) * 100 / storage["capacity_ah"]
        return s * given(storage, "internal_mohm", by_cells) / 1000

    def bank_side(self, storage_id, s, p, inverter_id, charge_a):
        """Battery, main, inverter, feed, loads; what a short draws at the bank, the bus bars and the fuse block."""
        storage, inverter, bank = self.second.parts[storage_id], self.second.parts[inverter_id], self.second.bank(storage_id, s)
        inverter_a, feed_a = 0, self.second.dc_peak / bank.system_v
        if inverter:
            watts, least_v = inverter["continuous_w"], given(inverter, "min_v", 10.5 * inverter["bus_v"] / 12)
            inverter_a = watts / efficiency(inverter, watts) / least_v
        total_a, design_a = inverter_a + feed_a, max(1.25 * inverter_a + 1.25 * feed_a, 1.25 * charge_a)
        ohm, between = self.string_ohm(storage, s), (s - 1) * exact(self.length_m["battery"])
        answers, before_pct, battery = [], 0, None
        if p > 1:
            battery = self.solve(Ask("battery", p, self.both_ways("battery") + between, total_a / p, design_a / (p - 1), bank.system_v, bank.charge_v,
                                     max(1, p - 1) * bank.charge_v / ohm, allowed_pct=0.5, lugs=4 + 2 * (s - 1)))
            answers.append(battery)
            before_pct = battery.drop_pct
        bank_ohm = (ohm + self.loop_ohm(battery)) / p
        bank_fault_a = bank.charge_v / bank_ohm
        metres, lugs = self.both_ways("main") + (between if p == 1 else 0), 4 + (2 * (s - 1) if p == 1 else 0)
        main = self.solve(Ask("main", 1, metres, total_a, design_a, bank.system_v, bank.charge_v, bank_fault_a, before_pct, 1, switched=True, lugs=lugs))
        answers.append(main)
        before_pct += main.drop_pct
        bus_ohm = bank_ohm + self.loop_ohm(main)
        bus_fault_a = bank.charge_v / bus_ohm
        if inverter:
            answers.append(self.solve(Ask("inverter", 1, self.both_ways("inverter"), inverter_a, 1.25 * inverter_a, bank.system_v, bank.charge_v,
                                          bus_fault_a, before_pct, lugs=4)))
        block_fault_a = 0
        if self.second.dc_loads:
            feed = self.solve(Ask("feed", 1, self.both_ways("feed"), feed_a, 1.25 * feed_a, bank.system_v, bank.charge_v, bus_fault_a, before_pct, 2,
                                  lugs=4))
            answers.append(feed)
            block_fault_a = bank.charge_v / (bus_ohm + self.loop_ohm(feed))
            answers += [self.load(i, load, bank, before_pct + feed.drop_pct, block_fault_a, feed.ask.design_a)
                        for i, load in enumerate(self.brief["loads"]) if load in self.second.dc_loads]
        return answers, design_a, (bank_fault_a, bus_fault_a, block_fault_a)

    def load(self, i, load, bank, before_pct, fault_a, feed_a):
        run_a = self.second.loads.watts(load) / bank.system_v
        return self.solve(Ask("load", 1, 2 * exact(given(load, "length_m", self.length_m["load"])), run_a,
                              run_a * (1 if load["hours_per_day"] < 3 else 1.25), bank.system_v, bank.charge_v, fault_a, before_pct,
                              given(load, "drop_percent", 3), feed_a=feed_a, load=i))

    # all of a kit

    def blocks(self, answers):
        """Fuse blocks: id -> (block, pieces)."""
        forms = Counter(a.fuse["form"] for a in answers if a.in_block)
        ask, found = next((a.ask for a in answers if a.in_block), None), {}
        for form, n in forms.items():
            able = [f for f in self.fittings["block"] if f["form"] == form and f["max_a"] >= ask.feed_a and f["max_v"] >= ask.most_v]
            block = min(able, key=lambda f: (ceil(n / f["ways"]) * self.price(f), f["id"]))
            found[block["id"]] = block, ceil(n / block["ways"])
        return found

    def shared_side(self, *bank_key):
        """Bank's side with its bus bars and fuse blocks."""
        answers, design_a, faults_a = self.bank_side(*bank_key)
        bus, blocks = self.fitting("bus", 0, design_a), self.blocks(answers)
        pieces = [(bus, 1)] * (bus is not None) + list(blocks.values())
        return answers, bus, blocks, faults_a, pieces

    def assumed(self, kit):
        """With source-circuits, with bank-circuits: what the data sheets do not give."""
        panel, storage, inverter = (self.second.parts[part] for part in (kit.panel, kit.storage, kit.inverter))
        source = [("voc-table", panel.get("voc_coeff_pct_k") is None), ("starter-battery", kit.dcdc != ""),
                  ("series-fuse", -(-kit.parallel // kit.controllers) > 1 and panel.get("series_fuse_a") is None)]
        bank = [("internal-resistance", storage.get("internal_mohm") is None),
                ("inverter-cutout", inverter is not None and inverter.get("min_v") is None)]
        return [name for name, used in source if used], [name for name, used in bank if used]

    def of(self, kit):
        """Everything of a kit."""
        bank = self.second.bank(kit.storage, kit.bank_series)
        if not self.on or not bank.system_v:
            return NOTHING
        answers, bus, blocks, faults_a, pieces = self.shared_side(kit.storage, kit.bank_series, kit.bank_parallel, kit.inverter,
                                                                     self.charge_a(kit))
        everything = (self.array_side(*kit[:5], bank.system_v, bank.charge_v, faults_a[1])
                      + self.other_chargers(kit.dcdc, bank.system_v, bank.charge_v, faults_a[1]) + answers)
        shops = frozenset().union(*(a.shops for a in everything), (self.prices[part["id"]][1] for part, _ in pieces))
        return Wiring(everything, bus, blocks, *faults_a, sum(a.missing for a in everything) + (bus is None),
                      sum(a.cost_minor for a in everything) + sum(n * self.price(part) for part, n in pieces),
                      sum(a.grams for a in everything) + sum(n * self.second.grams_of(part) for part, n in pieces), shops)
