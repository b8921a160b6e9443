"""The starting catalogue: enough parts of each kind, and figures that can be true."""

import json
import pathlib
import sys

from tap import Tap

CATALOGUE = json.loads((pathlib.Path(sys.argv[1]) / "data/starting-catalogue.json").read_text("utf-8"))
PARTS = [part for kind in ("panels", "controllers", "storage", "inverters", "dcdc", "conductors", "fuses",
                           "fittings")
         for part in CATALOGUE[kind]]
CHEMISTRIES = {c["id"]: c for c in CATALOGUE["chemistries"]}
TAP = Tap()

# kind: the least the project promises
LEAST = {"panels": 28, "storage": 24, "controllers": 18, "inverters": 16, "dcdc": 7,
         "conductors": 60, "fuses": 100, "fittings": 30, "shops": 5, "chemistries": 5}


def each(kind, broken):
    """Sentences for the parts of which broken(part) is true."""
    return [f"{part['id']}" for part in CATALOGUE[kind] if broken(part)]


def ascending(curve):
    return all(a[0] < b[0] for a, b in zip(curve, curve[1:]))


def count(kind, key, value):
    return sum(part[key] == value for part in CATALOGUE[kind])


TAP.check("counts of each kind", [f"{kind}: {len(CATALOGUE[kind])} of {least}"
                                  for kind, least in LEAST.items() if len(CATALOGUE[kind]) < least])
TAP.check("both builds, technologies and waveforms, all fuse forms",
          [f"{kind}: no {value}" for kind, key, values in (
              ("panels", "build", ("rigid", "flexible")),
              ("controllers", "technology", ("pwm", "mppt")),
              ("inverters", "waveform", ("pure-sine", "modified-sine")),
              ("inverters", "bus_v", (12, 24)),
              ("storage", "chemistry", ("flooded", "agm", "gel", "lfp")),
              ("storage", "nominal_v", (6, 12, 12.8, 25.6)),
              ("conductors", "system", ("awg", "metric")),
              ("fuses", "form", ("blade", "midi", "mega", "anl", "class-t", "terminal", "gpv")),
              ("fittings", "role", ("holder", "lug", "switch", "block", "bus")))
           for value in values if not count(kind, key, value)])
IDS = [p["id"] for p in PARTS] + [s["id"] for s in CATALOGUE["shops"]] + list(CHEMISTRIES)
TAP.check("ids are used once", sorted({i for i in IDS if IDS.count(i) > 1}))
TAP.check("records stand in the order of their ids",
          [kind for kind in LEAST if [p["id"] for p in CATALOGUE[kind]] != sorted(p["id"] for p in CATALOGUE[kind])])

TAP.check("panel power is Vmp x Imp within 1 %",
          each("panels", lambda p: abs(p["vmp_v"] * p["imp_a"] / p["power_w"] - 1) > 0.01))
TAP.check("panel Voc > Vmp and Isc > Imp",
          each("panels", lambda p: not (p["voc_v"] > p["vmp_v"] and p["isc_a"] > p["imp_a"])))
TAP.check("panel Vmp is 75 to 88 % of Voc, a cell gives 0.55 to 0.76 V",
          each("panels", lambda p: not (0.75 < p["vmp_v"] / p["voc_v"] < 0.88
                                        and 0.55 < p["voc_v"] / p["cells"] < 0.76)))
TAP.check("panels give 100 to 235 W per m2",
          each("panels", lambda p: not 100 < p["power_w"] / (p["length_mm"] * p["width_mm"] * 1e-6) < 235))
TAP.check("low light: rigid 95 to 98 %, flexible 93 to 95, missing for a few",
          each("panels", lambda p: "low_light_pct" in p
               and not (95 <= p["low_light_pct"] <= 98 if p["build"] == "rigid" else 93 <= p["low_light_pct"] <= 95))
          + ([] if 2 <= sum("low_light_pct" not in p for p in CATALOGUE["panels"]) <= 9 else ["not so"]))
TAP.check("panel coefficients: Voc -0.33 to -0.24, power -0.45 to -0.29, both or neither",
          each("panels", lambda p: ("voc_coeff_pct_k" in p) != ("power_coeff_pct_k" in p)
               or not (-0.33 <= p.get("voc_coeff_pct_k", -0.3) <= -0.24
                       and -0.45 <= p.get("power_coeff_pct_k", -0.4) <= -0.29)))
TAP.check("some panels lack coefficients, most have them",
          [] if 2 <= sum("voc_coeff_pct_k" not in p for p in CATALOGUE["panels"]) <= 8 else ["not so"])
TAP.check("a panel's series fuse bears 1.25 x Isc",
          each("panels", lambda p: p.get("series_fuse_a", 100) < 1.25 * p["isc_a"]))
TAP.check("rigid panels weigh 8 to 15 kg/m2, flexible ones 2 to 5",
          each("panels", lambda p: not (8 if p["build"] == "rigid" else 2)
               <= p["weight_kg"] / (p["length_mm"] * p["width_mm"] * 1e-6)
               <= (15 if p["build"] == "rigid" else 5)))

TAP.check("MPPT watts on 12 V are 14 to 15 x output A",
          each("controllers", lambda c: c["technology"] == "mppt"
               and not 14 <= c["max_pv_w_12v"] / c["rated_output_a"] <= 15))
TAP.check("PWM controllers have efficiency 1, MPPT 0.95 to 0.985",
          each("controllers", lambda c: c["efficiency"] != 1 if c["technology"] == "pwm"
               else not 0.95 <= c["efficiency"] <= 0.985))
TAP.check("controllers charge some voltage and bear its array",
          each("controllers", lambda c: not (c["bus_12v"] or c["bus_24v"] or c["bus_48v"])
               or c["max_pv_v"] < (90 if c["bus_48v"] else 45 if c["bus_24v"] else 24)))
TAP.check("profiles and storage name chemistries that are there",
          [p["id"] for kind in ("controllers", "dcdc") for p in CATALOGUE[kind]
           if not set(p["profiles"]) <= set(CHEMISTRIES)]
          + each("storage", lambda s: s["chemistry"] not in CHEMISTRIES))


def specific_energy(part):
    return part["nominal_v"] * part["capacity_ah"] / part["weight_kg"]


def energy_density(part):
    litres = part["length_mm"] * part["width_mm"] * part["height_mm"] * 1e-6
    return part["nominal_v"] * part["capacity_ah"] / litres


LITHIUM = {i for i, c in CHEMISTRIES.items() if c["family"] == "lithium"}
TAP.check("lead-acid holds 33 to 55 Wh/kg, lithium 85 to 160",
          each("storage", lambda s: not (85 <= specific_energy(s) <= 160 if s["chemistry"] in LITHIUM
                                         else 33 <= specific_energy(s) <= 55)))
TAP.check("lead-acid holds 60 to 115 Wh/l, lithium 80 to 190",
          each("storage", lambda s: not (80 <= energy_density(s) <= 190 if s["chemistry"] in LITHIUM
                                         else 60 <= energy_density(s) <= 115)))
TAP.check("nominal volts are a whole number of cells",
          each("storage", lambda s: abs(s["nominal_v"] / CHEMISTRIES[s["chemistry"]]["cell_v"]
                                        - round(s["nominal_v"] / CHEMISTRIES[s["chemistry"]]["cell_v"])) > 1e-9))
TAP.check("absorption volts are within 3 % of the chemistry's",
          each("storage", lambda s: abs(s["charge_v"] / s["nominal_v"] * CHEMISTRIES[s["chemistry"]]["cell_v"]
                                        / CHEMISTRIES[s["chemistry"]]["charge_v_per_cell"] - 1) > 0.03))
TAP.check("lead-acid asks for 10 % of C at least and stands more",
          each("storage", lambda s: s["chemistry"] not in LITHIUM
               and not (abs(s["min_charge_a"] / s["capacity_ah"] - 0.1) < 1e-9
                        and s["min_charge_a"] < s["max_charge_a"] <= 0.35 * s["capacity_ah"])))
TAP.check("ratings: 20 h for lead-acid, 5 h for lithium",
          each("storage", lambda s: s["rated_hours"] != (5 if s["chemistry"] in LITHIUM else 20)))
TAP.check("heated batteries draw 0.3 to 0.6 W an Ah, others nothing",
          each("storage", lambda s: not 0.3 <= s["heater_w"] / s["capacity_ah"] <= 0.6 if s["heated"]
               else "heater_w" in s))
TAP.check("internal resistance bears the surge within 30 % of the voltage",
          each("storage", lambda s: s["internal_mohm"] * 1e-3 * s["surge_discharge_a"] > 0.3 * s["nominal_v"]))

TAP.check("inverters surge to twice the lasting power and idle below 5 %",
          each("inverters", lambda i: not (1.5 <= i["surge_w"] / i["continuous_w"] <= 3
                                           and i["idle_w"] < 0.05 * i["continuous_w"])))
TAP.check("inverter windows hold their bank",
          each("inverters", lambda i: not i["min_v"] < i["bus_v"] < 1.2 * i["bus_v"] < i["max_v"]))
TAP.check("efficiency curves: 4 or 5 points, ascending, to full power, 0.75 to 0.95",
          each("inverters", lambda i: not (4 <= len(i["efficiency"]) <= 5 and ascending(i["efficiency"])
                                           and i["efficiency"][-1][0] == 1
                                           and all(0.75 <= y <= 0.95 for _, y in i["efficiency"]))))
# Copper between the ideal 17.24 ohm mm2/km (IACS) and IEC 60228 class 5, which is up to 17 % above.
TAP.check("conductor resistance is copper's",
          each("conductors", lambda c: not 17.2 <= c["r20_ohm_km"] * c["area_mm2"] <= 20.3))
TAP.check("conductors weigh more than their copper (8.9 g/cm3), not over three times it",
          each("conductors", lambda c: not 0.0089 <= c["weight_kg"] / c["area_mm2"] <= 0.0267))
TAP.check("fuses of one form and voltage share their interrupt rating",
          [str(series) for series in {(f["form"], f["max_v"]) for f in CATALOGUE["fuses"]}
           if len({f["interrupt_a"] for f in CATALOGUE["fuses"] if (f["form"], f["max_v"]) == series}) != 1])
FORMS = {fuse["form"] for fuse in CATALOGUE["fuses"]}
HOLDERS = [f for f in CATALOGUE["fittings"] if f["role"] == "holder"]
LUGS = sorted((f for f in CATALOGUE["fittings"] if f["role"] == "lug"), key=lambda lug: lug["min_area_mm2"])
TAP.check("every fuse has a holder that bears it",
          each("fuses", lambda f: not any(h["form"] == f["form"] and h["max_a"] >= f["rating_a"]
                                          and h["max_v"] >= f["max_v"] for h in HOLDERS)))
TAP.check("every conductor has a lug, and lugs leave no gap",
          each("conductors", lambda c: not any(lug["min_area_mm2"] <= c["area_mm2"] <= lug["max_area_mm2"]
                                               for lug in LUGS))
          + [b["id"] for a, b in zip(LUGS, LUGS[1:]) if b["min_area_mm2"] != a["max_area_mm2"]])
TAP.check("lugs grow with the conductor they take",
          [b["id"] for a, b in zip(LUGS, LUGS[1:])
           if not (a["max_area_mm2"] < b["max_area_mm2"] and a["weight_kg"] < b["weight_kg"])])
TAP.check("banks of 48 V (58.8 V charging) and strings of 500 V can be fused and switched",
          [f"{v} V: no {what}" for what, v, parts in (
              ("branch fuse", 58.8, [f for f in CATALOGUE["fuses"] if f["form"] == "blade"]),
              ("main fuse", 58.8, [f for f in CATALOGUE["fuses"] if f["form"] == "class-t"]),
              ("fuse of 200 A or more", 58.8, [f for f in CATALOGUE["fuses"] if f["rating_a"] >= 200]),
              ("string fuse", 500, [f for f in CATALOGUE["fuses"] if f["form"] == "gpv"]),
              ("string switch", 500, [f for f in CATALOGUE["fittings"] if f["role"] == "switch"]),
              ("battery switch", 58.8, [f for f in CATALOGUE["fittings"]
                                        if f["role"] == "switch" and f["max_a"] >= 275]),
              ("fuse block", 58.8, [f for f in CATALOGUE["fittings"] if f["role"] == "block"]))
           if not any(part["max_v"] >= v for part in parts)])
# A lead-acid battery is empty at 1.75 V a cell at the 20 h rate (common practice, from memory).
TAP.check("no discharge below 1.75 V a cell of lead-acid, 2.5 to 3 V of lithium",
          [c["id"] for c in CHEMISTRIES.values()
           if not (2.5 <= c["end_v_per_cell"] <= 3 if c["family"] == "lithium" else c["end_v_per_cell"] == 1.75)])
# A battery adds its bars and, of lithium, its protection to its cells; what is assumed without a figure errs towards the
# larger fault current.
TAP.check("a chemistry's internal resistance is no more than its batteries', and a sixth of it at least",
          each("storage", lambda s: not 1 <= (s["internal_mohm"] * s["capacity_ah"] / 100
                                               / (s["nominal_v"] / CHEMISTRIES[s["chemistry"]]["cell_v"])
                                               / CHEMISTRIES[s["chemistry"]]["cell_mohm_100ah"]) <= 6))
TAP.check("starting asks for more than running",
          each("controllers", lambda c: "start_headroom_v" in c
               and not (c["technology"] == "mppt" and c["headroom_v"] < c["start_headroom_v"])))

TAP.check("chemistry curves ascend", [c["id"] for c in CHEMISTRIES.values() for key in
                                      ("capacity_by_c", "cycles_by_depth", "freezing_by_depth")
                                      if not ascending(c.get(key, []))])
TAP.check("lithium does not charge below 0 C and does not freeze; lead-acid does both",
          [c["id"] for c in CHEMISTRIES.values()
           if (c.get("min_charge_c") == 0) != (c["family"] == "lithium")
           or ("freezing_by_depth" in c) == (c["family"] == "lithium")])


def round_trip(chemistry):
    """Energy there and back over the upper half of the charge: the plain charge efficiency up to accept_from, above it
    the mean of that and the one at full."""
    plain = chemistry["charge_efficiency"]
    full, falls = chemistry.get("charge_efficiency_full", plain), chemistry.get("accept_from", 1)
    taken = (falls - 0.5) / plain + (1 - falls) / ((plain + full) / 2)
    return 0.5 / taken * chemistry["discharge_efficiency"]


TAP.check("round trip: lead-acid 0.72 to 0.85, lithium 0.92 to 0.965",
          [f"{c['id']}: {round_trip(c):.3f}" for c in CHEMISTRIES.values()
           if not (0.92 <= round_trip(c) <= 0.965 if c["family"] == "lithium" else 0.72 <= round_trip(c) <= 0.85)])
TAP.check("acceptance: lead-acid 0.2 to 0.3 C falling from 80 % to 0.01 or 0.02, lithium 1 C falling from 90 % on",
          [c["id"] for c in CHEMISTRIES.values()
           if not (c["accept_c"] == 1 and c["accept_from"] >= 0.9 if c["family"] == "lithium"
                   else 0.2 <= c["accept_c"] <= 0.3 and c["accept_from"] == 0.8 and 0.01 <= c["accept_full_c"] <= 0.02)])


def at(curve, x):
    for (x0, y0), (x1, y1) in zip(curve, curve[1:]):
        if x0 <= x <= x1:
            return y0 + (y1 - y0) * (x - x0) / (x1 - x0)
    raise AssertionError(f"{x} is outside the curve")


# IEEE 485 table 1, from memory: 1 / 1.40 = 0.71 at 0 C, within 3 %.
TAP.check("lead-acid has 0.71 of its capacity at 0 C",
          [i for i in ("flooded", "agm", "gel") if abs(at(CHEMISTRIES[i]["capacity_by_c"], 0) / 0.71 - 1) > 0.03])
# TM 10-6140-200-14 table 1-1: 25 % charged freezes at -17 C, within 2 K.
TAP.check("lead-acid with 25 % left freezes at -17 C",
          [i for i in ("flooded", "agm", "gel") if abs(at(CHEMISTRIES[i]["freezing_by_depth"], 0.75) + 17) > 2])
# Depth x cycles, the charge a battery passes in its life, varies by less than a factor of 2 (from memory).
TAP.check("depth x cycles of flooded and gel varies by less than 2",
          [i for i in ("flooded", "gel") if max(d * n for d, n in CHEMISTRIES[i]["cycles_by_depth"])
           >= 2 * min(d * n for d, n in CHEMISTRIES[i]["cycles_by_depth"])])

OFFERS = CATALOGUE["offers"]
TAP.check("offers name parts and shops that are there",
          [f"{o['part_id']} at {o['shop_id']}" for o in OFFERS
           if o["part_id"] not in {p["id"] for p in PARTS} or o["shop_id"] not in {s["id"] for s in CATALOGUE["shops"]}])
TAP.check("one offer of a shop for a part on a day",
          [str(o) for n, o in enumerate(OFFERS)
           if any((o["part_id"], o["shop_id"], o["date"]) == (p["part_id"], p["shop_id"], p["date"]) for p in OFFERS[:n])])
UNPRICED = sorted({p["id"] for p in PARTS} - {o["part_id"] for o in OFFERS})
TAP.check("two parts have no offer, and no more", [] if len(UNPRICED) == 2 else UNPRICED or ["none"])
TAP.check("offers are of 2026 and cost something",
          [str(o) for o in OFFERS if not o["date"].startswith("2026-") or o["price_minor"] < 10])
TAP.check("most offers are in EUR, some are not",
          [] if 0.6 < sum(o["currency"] == "EUR" for o in OFFERS) / len(OFFERS) < 1 else ["not so"])
TAP.check("notes end like sentences", [p["id"] for p in PARTS if p["notes"] and not p["notes"].endswith(".")])
TAP.done()
