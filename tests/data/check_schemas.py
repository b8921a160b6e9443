"""The JSON files of data/ against their schemas; the schemas against JSON Schema 2020-12; and that
the schemas refuse what they should."""

import copy
import json
import pathlib
import sys

from jsonschema import Draft202012Validator

from tap import Tap

DATA = pathlib.Path(sys.argv[1]) / "data"
TAP = Tap()


def unique_members(pairs):
    names = [name for name, _ in pairs]
    assert len(names) == len(set(names)), f"duplicate member among {names}"
    return dict(pairs)


def read(name):
    return json.loads((DATA / name).read_text("utf-8"), object_pairs_hook=unique_members)


SCHEMAS = {name: read(f"{name}.schema.json") for name in ("brief", "catalogue")}
FILES = {
    "brief": ["brief.example.json", "demo.brief.json", "new.brief.json"],
    "catalogue": ["catalogue.example.json", "starting-catalogue.json"],
}


def errors(kind, document):
    found = Draft202012Validator(SCHEMAS[kind]).iter_errors(document)
    return ["/" + "/".join(map(str, e.absolute_path)) + ": " + e.message[:160] for e in found]


def all_properties(schema, at=""):
    """Every object member a schema describes, with where it is described. What stands under a condition narrows members
    that are described elsewhere."""
    if isinstance(schema, dict):
        for name, member in schema.get("properties", {}).items():
            yield at, name, member
        for key, value in schema.items():
            if key in ("if", "then", "else"):
                continue
            yield from all_properties(value, f"{at}/{key}")
    elif isinstance(schema, list):
        for item in schema:
            yield from all_properties(item, at)


def all_members(document):
    if isinstance(document, dict):
        yield from document
    for item in document.values() if isinstance(document, dict) else document if isinstance(document, list) else []:
        yield from all_members(item)


def undescribed(schema):
    return [f"{at}: {name} has no {word}" for at, name, member in all_properties(schema)
            for word in ("title", "description")
            if word not in member and "$ref" not in member]


def without_unit(schema):
    suffixes = ("_v", "_a", "_w", "_mm", "_c", "_kg", "_deg", "_ah", "_mohm", "_pct_k", "_ohm_km",
                "_mm2", "_hours", "_per_day", "_percent", "_minor", "_m2_day", "_years")
    return [f"{at}: {name} has no unit" for at, name, member in all_properties(schema)
            if name.endswith(suffixes) and "unit" not in member
            and member.get("type") not in ("object", "boolean")]


def refused(kind, base, edits):
    """Each edit is (what, a function that spoils a copy)."""
    wrong = []
    for what, spoil in edits:
        document = copy.deepcopy(base)
        spoil(document)
        if not errors(kind, document):
            wrong.append(f"accepted: {what}")
    return wrong


for kind, schema in SCHEMAS.items():
    Draft202012Validator.check_schema(schema)
    TAP.check(f"{kind}.schema.json describes every member", undescribed(schema))
    TAP.check(f"{kind}.schema.json gives every figure's unit", without_unit(schema))
    for name in FILES[kind]:
        TAP.check(f"{name} is valid", errors(kind, read(name)))
    used = set(all_members(read(f"{kind}.example.json")))
    TAP.check(f"{kind}.example.json uses every member",
              [f"{at}: {name}" for at, name, _ in all_properties(schema) if name not in used])
    TAP.check(f"{kind}.example.json is commented",
              [] if sum(name.startswith("//") for name in all_members(read(f"{kind}.example.json")))
              >= 1 else ["no member starts with //"])

TAP.check("brief.schema.json refuses what it should", refused("brief", read("brief.example.json"), [
    ("negative watts", lambda d: d["loads"][0].update(watts=-1)),
    ("25 hours a day", lambda d: d["loads"][0].update(hours_per_day=25)),
    ("month 13", lambda d: d["site"]["months"].append(13)),
    ("no month", lambda d: d["site"].update(months=[])),
    ("eleven months of irradiation", lambda d: d["site"]["place"]["ghi_kwh_m2_day"].pop()),
    ("watts beside volts", lambda d: d["loads"][0].update(volts=12, amps=1)),
    ("volts without amps", lambda d: d["loads"][1].pop("amps")),
    ("a load without a supply", lambda d: d["loads"][0].pop("supply")),
    ("time 25:00", lambda d: d["loads"][2]["when"].update(to="25:00")),
    ("a fraction of a cent", lambda d: d["limits"]["money_minor"].update(value=1.5)),
    ("currency in lower case", lambda d: d.update(currency="eur")),
    ("a newer version", lambda d: d.update(version=2)),
    ("another format", lambda d: d.update(format="wattberth-catalogue")),
    ("21 in series", lambda d: d["largest"].update(series=21)),
    ("36 V", lambda d: d["system_volts"].append(36)),
    ("no year of weather", lambda d: d["site"]["weather"].update(years=0)),
    ("101 years of weather", lambda d: d["site"]["weather"].update(years=101)),
    ("a year and a half", lambda d: d["site"]["weather"].update(years=1.5)),
    ("a negative seed", lambda d: d["site"]["weather"].update(seed=-1)),
    ("an hourly file without a name", lambda d: d["site"]["weather"].update(hourly_file="")),
    ("two corners", lambda d: d["roof"].update(corners=[[0, 0], [1, 1]])),
    ("a corner of three figures", lambda d: d["roof"]["corners"][0].append(0)),
    ("a corner off the roof", lambda d: d["roof"]["corners"][0].insert(0, -1)),
    ("a standoff below the roof", lambda d: d["roof"].update(standoff_mm=-1)),
    ("a height limit of 0", lambda d: d["roof"].update(max_height_mm=0)),
    ("a front to the south", lambda d: d["roof"].update(front_azimuth_deg="south")),
    ("a gland without y", lambda d: d["roof"]["gland"].pop("y_mm")),
    ("a pin without a panel", lambda d: d["roof"]["pins"][0].pop("panel")),
    ("a triangular vent", lambda d: d["roof"]["obstacles"][0].update(shape="triangle")),
    ("an unknown kind of obstacle", lambda d: d["roof"]["obstacles"][0].update(kind="lake")),
    ("1001 obstacles", lambda d: d["roof"].update(obstacles=d["roof"]["obstacles"][:1] * 1001)),
    ("a negative gap in the bay", lambda d: d["bay"].update(gap_mm=-1)),
    ("eight nights a week", lambda d: d["shore"].update(nights_per_week=8)),
    ("shore power without a charger", lambda d: d["shore"].pop("charger_a")),
    ("no length", lambda d: d["wiring"]["lengths_m"].update(main=0)),
    ("a negative length", lambda d: d["wiring"]["lengths_m"].update(load=-1)),
    ("a length of 101 m", lambda d: d["wiring"]["lengths_m"].update(array=101)),
    ("a load at no distance", lambda d: d["loads"][0].update(length_m=0)),
    ("terminals for 80 C", lambda d: d["wiring"].update(terminals_c=80)),
    ("sizes in inches", lambda d: d["wiring"].update(sizes="inch")),
    ("no conductor side by side", lambda d: d["wiring"].update(bundled=0)),
    ("air of 91 C", lambda d: d["wiring"].update(roof_c=91)),
    ("more dark hours than a year has", lambda d: d["limits"]["dark_hours"].update(value=8761)),
]))
TAP.check("brief.schema.json keeps unknown members",
          errors("brief", dict(read("new.brief.json"), **{"of_another_program": [1]})))
TAP.check("catalogue.schema.json refuses what it should",
          refused("catalogue", read("catalogue.example.json"), [
              ("a panel without power", lambda d: d["panels"][0].pop("power_w")),
              ("a positive Voc coefficient", lambda d: d["panels"][0].update(voc_coeff_pct_k=0.3)),
              ("an id with a blank", lambda d: d["panels"][0].update(id="p example")),
              ("an unknown waveform", lambda d: d["inverters"][0].update(waveform="sine")),
              ("efficiency 1.2", lambda d: d["controllers"][0].update(efficiency=1.2)),
              ("a point of three", lambda d: d["inverters"][0]["efficiency"].append([1, 1, 1])),
              ("14 February as 2026-14-02", lambda d: d["offers"][0].update(date="2026-14-02")),
              ("acceptance without its fall", lambda d: d["chemistries"][0].pop("accept_from")),
              ("acceptance falling from full", lambda d: d["chemistries"][0].update(accept_from=1)),
              ("low light of 40 %", lambda d: d["panels"][0].update(low_light_pct=40)),
              ("a battery that turns a little", lambda d: d["storage"][0].update(must_not_turn="a little")),
              ("a heater of 0 W", lambda d: d["storage"][0].update(heater_w=0)),
              ("a holder without a current", lambda d: d["fittings"][0].pop("max_a")),
              ("a holder whose current is not known", lambda d: d["fittings"][0].update(max_a=None)),
              ("a holder without a voltage", lambda d: d["fittings"][0].pop("max_v")),
              ("a holder of no fuses", lambda d: d["fittings"][0].update(form="none")),
              ("a lug without an area", lambda d: d["fittings"][1].pop("min_area_mm2")),
              ("a block without ways", lambda d: d["fittings"][2].pop("ways")),
              ("a block of 0 ways", lambda d: d["fittings"][2].update(ways=0)),
              ("a fitting of no role", lambda d: d["fittings"][2].update(role="box")),
              ("an internal resistance of 0", lambda d: d["storage"][0].update(internal_mohm=0)),
              ("a price with a fraction", lambda d: d["offers"][0].update(price_minor=84.5)),
          ]))
TAP.done()
