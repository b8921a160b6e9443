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
THINNEST_MM2 = {"road-vehicle": 0.99, "boat": 1.3, "building": 2.08}
ROOFS_THINNEST_MM2 = 2.08

Wire = namedtuple("Wire", "part carries_a thermal_a terminals_a largest_fuse_a column_c air_c")
Ask = namedtuple("Ask", "kind count metres run_a design_a volts most_v fault_a before_pct allowed_pct fused switched lugs panel_fuse_a feed_a load",
                 defaults=(0, 3, True, False, 0, inf, 0, None))
Answer = namedtuple("Answer", "ask fault wire fuse holder lug switch in_block missing by_drop conductor_c ohm_km drop_v drop_pct pieces")
Side = namedtuple("Side", "circuits source_faults bank_faults missing cost_minor grams shops owned")
Shared = namedtuple("Shared", "side bus blocks bank_fault_a bus_fault_a block_fault_a")
Wiring = namedtuple("Wiring", "sides shared source_faults bank_faults missing cost_minor grams shops")
NOTHING = Side((), 0, 0, 0, 0, 0, frozenset(), ())


def fits(amount, limit):
    """What binary arithmetic alone lifts over a limit is not over it."""
    return amount <= limit * (1 + 1e-12)


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
        rule_set = given(self.brief, "rule_set", "road-vehicle")
        self.boat, self.thinnest_mm2 = rule_set == "boat", THINNEST_MM2[rule_set]
        inside_c = given(self.wiring, "inside_c", 30 if self.boat else 40)
        self.air_c = {"inside": inside_c, "roof": given(self.wiring, "roof_c", inside_c + 20)}
        self.length_m = dict(LENGTHS_M, **{k: v for k, v in given(self.wiring, "lengths_m", {}).items() if v is not None})
        self.owned = {part: n for part, n in second.shops.owned.items() if part not in second.parts}
        sold = {kind: [p for p in catalogue[kind] if p["id"] in self.prices] for kind in ("conductors", "fuses", "fittings")}
        self.fuses = sold["fuses"]
        self.fittings = {role: [f for f in sold["fittings"] if f["role"] == role] for role in ("holder", "lug", "switch", "block", "bus")}
        self.wires = {where: [self.wire(p, air_c) for p in sold["conductors"]
                              if self.wanted(p) and (where == "inside" or p["area_mm2"] >= ROOFS_THINNEST_MM2)]
                      for where, air_c in self.air_c.items()}
        for name in ("solve", "find_fuse", "find_wire", "ranked", "array_side", "charge_side", "bank_side"):
            setattr(self, name, lru_cache(None)(getattr(self, name)))
        self.of = lru_cache(4)(self.of)

    # the stock

    def wanted(self, conductor):
        sizes = given(self.wiring, "sizes", "any")
        return sizes in ("any", conductor["system"]) and conductor["area_mm2"] >= self.thinnest_mm2

    def price(self, part):
        return self.prices[part["id"]][0] if part else 0

    def cheapest(self, parts):
        return min(parts, key=lambda p: (self.price(p), p["id"]), default=None)

    def fitting(self, role, most_v=0, least_a=0, **wanted):
        return self.cheapest(f for f in self.fittings[role] if fits(least_a, f["max_a"]) and fits(most_v, given(f, "max_v", inf))
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

    def drop_v(self, wire, metres, run_a):
        return float(metres) * self.heat(wire, run_a)[1] / 1000 * run_a

    def lug(self, wire):
        area_mm2 = wire.part["area_mm2"]
        return self.cheapest(f for f in self.fittings["lug"] if f["min_area_mm2"] <= area_mm2 <= f["max_area_mm2"])

    def ranked(self, where, metres, lugs):
        """The cheapest conductor of such a length first."""
        def rank(wire):
            lug_minor = self.price(self.lug(wire)) if lugs else 0
            return half_up(metres * self.price(wire.part)) + lugs * lug_minor, wire.part["area_mm2"], wire.part["id"]
        return sorted((wire for wire in self.wires[where] if wire.carries_a > 0), key=rank)

    def has_block(self, form, most_v, feed_a):
        return self.fitting("block", most_v, feed_a, form=form) is not None

    def holder(self, fuse, most_v):
        return self.fitting("holder", most_v, fuse["rating_a"], form=fuse["form"])

    def find_fuse(self, most_v, fault_a, design_a, panel_fuse_a, block_a):
        """(fuse, its holder, in a block, None) or (.., why there is none). block_a: what a block must carry, None: holders alone."""
        of_volts = [f for f in self.fuses if fits(most_v, f["max_v"])]
        able = [f for f in of_volts if fits(fault_a, f["interrupt_a"])]
        rating = min((f["rating_a"] for f in able if fits(design_a, f["rating_a"])), default=None)
        if rating is None:
            return None, None, False, "over-fuse-volts" if not of_volts else "over-interrupting" if not able else "over-fuse-ratings"
        if rating > panel_fuse_a:
            return None, None, False, "over-series-fuse"
        choices = []
        for fuse in able:
            if fuse["rating_a"] == rating:
                in_block = block_a is not None and self.has_block(fuse["form"], most_v, block_a)
                holder = None if in_block else self.holder(fuse, most_v)
                choices.append((self.price(fuse) + self.price(holder), fuse["id"], fuse, holder, in_block))
        return (*min(choices, key=lambda choice: choice[:2])[2:], None)

    def find_wire(self, where, metres, lugs, run_a, design_a, volts, before_pct, allowed_pct, rating_a):
        """(wire, by drop, None) or (None, None, why there is none)."""
        able = [w for w in self.ranked(where, metres, lugs) if fits(design_a, w.carries_a)]
        fused = [w for w in able if fits(rating_a, w.largest_fuse_a)]
        good = next((w for w in fused if fits(before_pct + 100 * self.drop_v(w, metres, run_a) / volts, allowed_pct)), None)
        if good is None:
            return None, None, "over-ampacity" if not able else "unprotected" if not fused else "over-drop"
        return good, fused[0].part["area_mm2"] < good.part["area_mm2"], None

    def solve(self, ask):
        fuse = holder = why = None
        in_block = False
        if ask.fused:
            block_a = ask.feed_a if ask.kind == "load" else None
            fuse, holder, in_block, why = self.find_fuse(ask.most_v, ask.fault_a, ask.design_a, ask.panel_fuse_a, block_a)
        if why is None:
            where = "roof" if ask.kind in ("string", "array") else "inside"
            wire, by_drop, why = self.find_wire(where, ask.metres, ask.lugs, ask.run_a, ask.design_a, ask.volts, ask.before_pct, ask.allowed_pct,
                                                fuse["rating_a"] if fuse else 0)
        if why is not None:
            return Answer(ask, why, None, fuse, None, None, None, False, 0, None, None, None, 0, 0, ())
        lug = self.lug(wire) if ask.lugs else None
        switch = self.fitting("switch", ask.most_v, ask.design_a) if ask.switched else None
        missing = (ask.lugs if lug is None else 0) + int(fuse is not None and not in_block and holder is None) + int(ask.switched and switch is None)
        pieces = [(part, n) for part, n in ((wire.part, ask.metres), (lug, ask.lugs), (fuse, 1), (holder, 1), (switch, 1)) if part]
        drop_v = self.drop_v(wire, ask.metres, ask.run_a)
        return Answer(ask, None, wire, fuse, holder, lug, switch, in_block, ask.count * missing, by_drop, *self.heat(wire, ask.run_a), drop_v,
                      100 * drop_v / ask.volts, pieces)

    def cost_minor(self, answer):
        return answer.ask.count * sum(half_up(n * self.price(part)) for part, n in answer.pieces)

    def grams(self, answer):
        return answer.ask.count * sum(half_up(n * self.second.grams_of(part)) for part, n in answer.pieces)

    def side(self, circuits, more=(), missing=0):
        """What circuits and more, of (part, pieces), come to; of what is owned how much is used, which is not in cost and shops."""
        pieces = [(answer.ask.count, *piece) for answer in circuits for piece in answer.pieces] + [(1, *piece) for piece in more]
        bought = [piece for piece in pieces if piece[1]["id"] not in self.owned]
        faults = [answer.ask.kind in ("string", "array", "dcdc_in") for answer in circuits if answer.fault]
        return Side(tuple(circuits), faults.count(True), faults.count(False), missing + sum(answer.missing for answer in circuits),
                    sum(count * half_up(n * self.price(part)) for count, part, n in bought),
                    sum(count * half_up(n * self.second.grams_of(part)) for count, part, n in pieces),
                    frozenset(self.prices[part["id"]][1] for _, part, _ in bought),
                    tuple((part["id"], count * n) for count, part, n in pieces if part["id"] in self.owned))

    # what is asked

    def both_ways(self, *kinds):
        return sum(2 * exact(self.length_m[kind]) for kind in kinds)

    @staticmethod
    def loop_ohm(answer):
        return float(answer.ask.metres) * answer.wire.part["r20_ohm_km"] / 1000 if answer and answer.wire else 0

    def array_side(self, panel_id, series, parallel, n):
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
        return self.side(answers)

    def charger(self, kind, count, amps, system_v, most_v, fault_a):
        return self.solve(Ask(kind, count, self.both_ways(kind), amps, 1.25 * amps, system_v, most_v, fault_a, lugs=2))

    def shore_a(self):
        shore = given(self.brief, "shore", {})
        return given(shore, "charger_a", 0) if given(shore, "nights_per_week", 0) > 0 else 0

    def charge_a(self, kit):
        dcdc, controller = self.second.parts[kit.dcdc], self.second.parts[kit.controller]
        return kit.controllers * controller["rated_output_a"] + (dcdc["output_a"] if dcdc else 0) + self.shore_a()

    def dcdc_in(self, dcdc):
        input_v = dcdc["input_v"]
        return self.charger("dcdc_in", 1, dcdc["output_a"] * dcdc["output_v"] / dcdc["efficiency"] / input_v, input_v, 14.4 * input_v / 12, 14.4 / 0.005)

    def charge_side(self, controller_id, n, dcdc_id, system_v, most_v, bus_fault_a):
        """From all chargers to the bus bars; a bank without system V has none."""
        dcdc, asked = self.second.parts[dcdc_id], []
        if system_v:
            asked.append(("charge", n, self.second.parts[controller_id]["rated_output_a"]))
            asked += [("dcdc_out", 1, dcdc["output_a"])] if dcdc else []
            asked += [("shore", 1, self.shore_a())] if self.shore_a() > 0 else []
        answers = [self.charger(*one, system_v, most_v, bus_fault_a) for one in asked]
        if dcdc:
            answers.insert(1, self.dcdc_in(dcdc))
        return self.side(answers)

    def string_ohm(self, storage, s):
        chemistry = self.second.chemistry(storage)
        by_cells = max(1, round(storage["nominal_v"] / chemistry["cell_v"])) * given(chemistry, "cell_mohm_100ah", 0.4) * 100 / storage["capacity_ah"]
        return s * given(storage, "internal_mohm", by_cells) / 1000

    def bank_side(self, storage_id, s, p, inverter_id, charge_a):
        """Battery, main, inverter, feed, loads; what a short draws at the bank, the bus bars and the fuse block."""
        storage, inverter, bank = self.second.parts[storage_id], self.second.parts[inverter_id], self.second.bank(storage_id, s)
        inverter_a, feed_a = 0, self.second.dc_peak / bank.system_v
        if inverter:
            watts, least_v = inverter["continuous_w"], given(inverter, "min_v", 10 * inverter["bus_v"] / 12)
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
        return self.shared(answers, design_a, bank_fault_a, bus_fault_a, block_fault_a)

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
            able = [f for f in self.fittings["block"] if f["form"] == form and fits(ask.feed_a, f["max_a"]) and fits(ask.most_v, f["max_v"])]
            block = min(able, key=lambda f: (ceil(n / f["ways"]) * self.price(f), f["id"]))
            found[block["id"]] = block, ceil(n / block["ways"])
        return found

    def shared(self, answers, design_a, *faults_a):
        """The bank's side with its bus bars and fuse blocks."""
        bus, blocks = self.fitting("bus", 0, design_a), self.blocks(answers)
        return Shared(self.side(answers, [(bus, 1)] * (bus is not None) + list(blocks.values()), bus is None), bus, blocks, *faults_a)

    @staticmethod
    def string_fuses(panel, kit):
        strings = -(-kit.parallel // kit.controllers)
        return (strings - 1) * 1.25 * panel["isc_a"] > given(panel, "series_fuse_a", 15)

    def assumed(self, kit):
        """With source-circuits, with bank-circuits: what the data sheets do not give."""
        panel, storage, inverter = (self.second.parts[part] for part in (kit.panel, kit.storage, kit.inverter))
        source = [("voc-table", panel.get("voc_coeff_pct_k") is None), ("starter-battery", kit.dcdc != ""),
                  ("series-fuse", panel.get("series_fuse_a") is None and self.string_fuses(panel, kit))]
        bank = [("internal-resistance", storage.get("internal_mohm") is None),
                ("inverter-lowest", inverter is not None and inverter.get("min_v") is None)]
        wired = self.second.bank(kit.storage, kit.bank_series).system_v
        return [name for name, used in source if used], [name for name, used in bank if used and wired]

    def of(self, kit):
        """Everything of a kit."""
        bank, shared = self.second.bank(kit.storage, kit.bank_series), Shared(NOTHING, None, {}, 0, 0, 0)
        if bank.system_v:
            shared = self.bank_side(kit.storage, kit.bank_series, kit.bank_parallel, kit.inverter, self.charge_a(kit))
        a, b, c = sides = (self.array_side(kit.panel, kit.series, kit.parallel, kit.controllers),
                           self.charge_side(kit.controller, kit.controllers, kit.dcdc, bank.system_v, bank.charge_v, shared.bus_fault_a), shared.side)
        bought_minor, shops = self.beyond_owned(a.owned + b.owned + c.owned)
        return Wiring(sides, shared, a.source_faults + b.source_faults + c.source_faults, a.bank_faults + b.bank_faults + c.bank_faults,
                      a.missing + b.missing + c.missing, a.cost_minor + b.cost_minor + c.cost_minor + bought_minor,
                      a.grams + b.grams + c.grams, a.shops | b.shops | c.shops | shops)

    def figures(self, kit):
        """Cost, grams, shops."""
        return self.of(kit)[-3:] if self.on else (0, 0, frozenset())

    def beyond_owned(self, owned):
        """Of models that are owned: what the rest costs, and where it is bought."""
        used = Counter()
        for part, n in owned:
            used[part] += n
        rest = {part: n - self.owned[part] for part, n in used.items() if n > self.owned[part]}
        return sum(half_up(n * self.prices[part][0]) for part, n in rest.items()), {self.prices[part][1] for part in rest}

    def circuits(self, kit):
        """One by one, in the order of the table."""
        return [circuit for side in self.of(kit).sides for circuit in side.circuits] if self.on else []
