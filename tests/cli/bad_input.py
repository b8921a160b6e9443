#!/usr/bin/python3
"""bad_input.py PROGRAM ROOT: briefs and catalogues that are wrong: one sentence that names the file and
the place, a non-zero exit code, and nothing changed on disk."""
import copy
import hashlib
import json
import math
import os
import re
import sqlite3
import sys

from terminal import FILE, NO_KIT, WRONG_INPUT, WRONG_USE, Terminal, equal, holds, main, one_sentence

PROGRAM, ROOT = sys.argv[1], sys.argv[2]
MEGABYTE = 1024 * 1024

terminal = Terminal(PROGRAM)
with open(os.path.join(ROOT, "data", "demo.brief.json"), encoding="utf-8") as demo_file:
    BRIEF = json.load(demo_file)
CATALOGUE = json.loads(terminal.text("catalogue", "export", "-"))


def snapshot():
    """Every file below the home, with a digest; the database by its rows, for SQLite may rewrite pages."""
    found = {}
    for folder, _, names in os.walk(terminal.home):
        for name in names:
            path = os.path.join(folder, name)
            if os.path.isfile(path) and not path.endswith(("-wal", "-shm")):
                with open(path, "rb") as file:
                    found[os.path.relpath(path, terminal.home)] = hashlib.sha256(file.read()).hexdigest()
    return found


def sentence(said, name):
    """One sentence: nothing starts anew after a full stop, the file is named, and it is not endless."""
    body = re.sub(r"“[^”]*”|\"[^\"]*\"", "x", said[len("wattberth: "):])
    holds(not re.search(r"[.!?] +[A-Z]", body.strip()), "more than one sentence: " + said)
    holds(name in said, "the file is not named: " + said)
    holds(len(said) < 1000, "%d characters: %s..." % (len(said), said[:500]))
    return said


def refused(arguments, name, code, wanted=(), **more):
    before = snapshot()
    said = sentence(one_sentence(terminal.run(*arguments, **more), code), name)
    for text in wanted:
        holds(text in said, "%r is not in: %s" % (text, said))
    equal(snapshot(), before, "something changed on disk")


def edited(document, pointer, value):
    """The document's text with one value replaced (or added), by JSON Pointer; DROP removes it."""
    changed = copy.deepcopy(document)
    steps = pointer.strip("/").split("/")
    at = changed
    for step in steps[:-1]:
        at = at[int(step)] if isinstance(at, list) else at[step]
    last = int(steps[-1]) if isinstance(at, list) else steps[-1]
    if value is DROP:
        del at[last]
    else:
        at[last] = value
    return json.dumps(changed, ensure_ascii=False)


DROP = object()
GOOD_BRIEF = json.dumps(BRIEF)
GOOD_CATALOGUE = json.dumps(CATALOGUE)

OWN_PLACE = {"name": "Meadow", "latitude_deg": 47, "longitude_deg": -1.5, "altitude_m": 20,
             "ghi_kwh_m2_day": [1, 2, 3, 4, 5, 6, 6, 5, 4, 3, 2, 1], "air_mean_c": [10] * 12, "air_max_c": [15] * 12,
             "air_min_c": [5] * 12}
OF_OWN_PLACE = dict(BRIEF, site=dict(BRIEF["site"], place=OWN_PLACE))

# (what, pointer, value, texts the sentence must hold)
BRIEF_EDITS = [
    ("a newer version", "/version", 2, ["version", "2"]),
    ("another format", "/format", "wattberth-catalogue", ["format"]),
    ("no version", "/version", DROP, ["version"]),
    ("no loads", "/loads", DROP, ["loads"]),
    ("loads that are a text", "/loads", "many", ["/loads"]),
    ("a load that is a number", "/loads/0", 45, ["/loads/0"]),
    ("watts in words", "/loads/0/watts", "45", ["/loads/0/watts"]),
    ("negative watts", "/loads/1/watts", -4, ["/loads/1/watts", "-4"]),
    ("endless watts", "/loads/1/watts", 1e308, ["line 1, column", "1e+308"]),
    ("half a lamp", "/loads/1/count", 1.5, ["/loads/1/count", "1.5"]),
    ("no lamp", "/loads/1/count", 0, ["/loads/1/count", "0"]),
    ("25 hours a day", "/loads/0/hours_per_day", 25, ["/loads/0/hours_per_day", "25"]),
    ("8 days a week", "/loads/2/days_per_week", 8, ["/loads/2/days_per_week", "8"]),
    ("a duty over 1", "/loads/0/duty", 1.01, ["/loads/0/duty", "1.01"]),
    ("a month 13", "/loads/5/months/2", 13, ["/loads/5/months", "13"]),
    ("a month 13 of the site", "/site/months/0", 13, ["/site/months", "13"]),
    ("no months at all", "/site/months", [], ["/site/months"]),
    ("an hour 25", "/loads/3/when/to", "25:00", ["/loads/3/when", "25:00"]),
    ("a part of the day that is none", "/loads/0/when", "teatime", ["/loads/0/when", "teatime"]),
    ("a supply that is none", "/loads/0/supply", "DC", ["/loads/0/supply", "DC"]),
    ("a flag in words", "/loads/4/needs_pure_sine", "yes", ["/loads/4/needs_pure_sine"]),
    ("a name of 1 MB", "/name", "x" * MEGABYTE, ["/name"]),
    ("a load's name of 1 MB", "/loads/0/name", "x" * MEGABYTE, ["/loads/0/name"]),
    ("a place that does not exist", "/site/place", "atlantis", ["/site/place", "atlantis"]),
    ("a tilt of 91", "/site/tilt_deg", 91, ["/site/tilt_deg", "91"]),
    ("a shading of 2", "/site/shading_loss", 2, ["/site/shading_loss", "2"]),
    ("eleven shadings", "/site/shading_loss", [0] * 11, ["/site/shading_loss"]),
    ("a roof without length", "/roof/length_mm", 0, ["/roof/length_mm", "0"]),
    ("a roof in parts of a millimetre", "/roof/length_mm", 1000.5, ["/roof/length_mm", "1000.5"]),
    ("an obstacle of no kind", "/roof/obstacles/0", [], ["/roof/obstacles/0"]),
    ("a roof of negative width", "/roof/width_mm", -1700, ["/roof/width_mm", "-1700"]),
    ("a roof beyond 100 m", "/roof/length_mm", 100001, ["/roof/length_mm", "100001"]),
    ("a negative margin", "/roof/margin_mm", -1, ["/roof/margin_mm", "-1"]),
    ("a negative gap", "/roof/gap_mm", -1, ["/roof/gap_mm", "-1"]),
    ("an outline that crosses itself", "/roof/corners", [[0, 0], [3000, 1700], [3000, 0], [0, 1700]],
     ["/roof/corners", "crosses", "corner 1 to corner 2", "corner 3 to corner 4"]),
    ("an outline of two corners", "/roof/corners", [[0, 0], [3000, 1700]], ["/roof/corners", "2", "3"]),
    ("a corner off the roof", "/roof/corners", [[0, 0], [3421, 0], [3000, 1700]], ["/roof/corners", "3421", "3420"]),
    ("a corner twice", "/roof/corners", [[0, 0], [3000, 0], [3000, 0], [0, 1700]], ["/roof/corners", "corners 2 and 3", "[3000, 0]"]),
    ("an edge that runs back", "/roof/corners", [[0, 0], [3000, 0], [1000, 0], [0, 1700]], ["/roof/corners", "corner 1", "corner 2"]),
    ("a corner between millimetres", "/roof/corners", [[0, 0], [3000.5, 0], [0, 1700]], ["/roof/corners/1", "3000.5", "whole number"]),
    ("a corner of three numbers", "/roof/corners", [[0, 0, 0], [3000, 0], [0, 1700]], ["/roof/corners/0", "3"]),
    ("an oval", "/roof/obstacles/0", dict(BRIEF["roof"]["obstacles"][0], shape="round", width_mm=401),
     ["/roof/obstacles/0/width_mm", "401", "diameter"]),
    ("a shape that is none", "/roof/obstacles/0/shape", "oval", ["/roof/obstacles/0/shape", "oval"]),
    ("an obstacle of a kind that is none", "/roof/obstacles/0/kind", "tree", ["/roof/obstacles/0/kind", "tree"]),
    ("a negative height", "/roof/obstacles/0/height_mm", -1, ["/roof/obstacles/0/height_mm", "-1"]),
    ("a standoff in words", "/roof/standoff_mm", "high", ["/roof/standoff_mm"]),
    ("a gland off the roof", "/roof/gland", {"x_mm": 3421, "y_mm": 0}, ["/roof/gland/x_mm", "3421"]),
    ("a pin of no panel", "/roof/pins", [{"x_mm": 0, "y_mm": 0}], ["/roof/pins/0", "panel"]),
    ("a pin left of the roof", "/roof/pins", [{"panel": "p-orrelith-50-rigid", "x_mm": -1, "y_mm": 0}], ["/roof/pins/0/x_mm", "-1"]),
    ("an obstacle without length", "/roof/obstacles/0/length_mm", 0, ["/roof/obstacles/0/length_mm", "0"]),
    ("an obstacle of negative width", "/roof/obstacles/1/width_mm", -5, ["/roof/obstacles/1/width_mm", "-5"]),
    ("an obstacle beside the roof", "/roof/obstacles/0/x_mm", 3471, ["/roof/obstacles/0", "Roof fan", "outside the roof", "3421"]),
    ("10,000 obstacles", "/roof/obstacles", [dict(BRIEF["roof"]["obstacles"][0], x_mm=i % 3000) for i in range(10000)],
     ["/roof/obstacles", "10000", "1000"]),
    ("a negative clearance", "/roof/obstacles/0/clearance_mm", -1, ["/roof/obstacles/0/clearance_mm", "-1"]),
    ("money in words", "/limits/money_minor/value", "much", ["/limits/money_minor/value"]),
    ("negative money", "/limits/money_minor/value", -1, ["/limits/money_minor/value", "-1"]),
    ("a currency that is none", "/currency", "euro", ["/currency", "euro"]),
    ("a rate of 0", "/rates/GBP", 0, ["/rates/GBP", "0"]),
    ("a negative weight", "/weights/cost", -1, ["/weights/cost", "-1"]),
    ("an unknown rule set", "/rule_set", "aircraft", ["/rule_set", "aircraft"]),
    ("36 volts", "/system_volts", [36], ["/system_volts", "36"]),
    ("21 in series", "/largest/series", 21, ["/largest/series", "21"]),
    ("a latitude of 95", "/site/place/latitude_deg", 95, ["/site/place/latitude_deg", "95", "from -90 to 90"]),
    ("a place of eleven months", "/site/place/air_mean_c", [5] * 11, ["/site/place/air_mean_c", "11", "12"]),
    ("no year of weather", "/site/weather/years", 0, ["/site/weather/years", "from 1 to 100"]),
    ("101 years of weather", "/site/weather/years", 101, ["/site/weather/years", "101"]),
    ("a year and a half of weather", "/site/weather/years", 1.5, ["/site/weather/years", "1.5", "whole number"]),
    ("a negative seed", "/site/weather/seed", -1, ["/site/weather/seed", "-1"]),
    ("hours that are a number", "/site/weather/hourly_file", 8760, ["/site/weather/hourly_file", "8760"]),
    ("a main cable of no length", "/wiring/lengths_m/main", 0, ["/wiring/lengths_m/main", "0", "from 0.05 to 100"]),
    ("a negative length", "/wiring/lengths_m/array", -3, ["/wiring/lengths_m/array", "-3", "from 0.05 to 100"]),
    ("a cable of a kilometre", "/wiring/lengths_m/string", 1000, ["/wiring/lengths_m/string", "1000", "from 0.05 to 100"]),
    ("a length in words", "/wiring/lengths_m/load", "far", ["/wiring/lengths_m/load", "far", "number"]),
    ("a load at no distance", "/loads/0/length_m", 0, ["Compressor fridge", "/loads/0/length_m", "0", "from 0.05 to 100"]),
    ("a load across the world", "/loads/1/length_m", 2e7, ["/loads/1/length_m", "20000000", "from 0.05 to 100"]),
    ("terminals for 80 degrees", "/wiring/terminals_c", 80, ["/wiring/terminals_c", "80", "60, 75 or 90"]),
    ("sizes in inches", "/wiring/sizes", "inch", ["/wiring/sizes", "inch", "metric"]),
    ("nothing side by side", "/wiring/bundled", 0, ["/wiring/bundled", "0", "from 1 to 100"]),
    ("air of 200 degrees", "/wiring/roof_c", 200, ["/wiring/roof_c", "200", "from -40 to 90"]),
    ("wiring that is a list", "/wiring", [], ["/wiring", "object"]),
    ("8 nights a week", "/shore", {"nights_per_week": 8, "charger_a": 20}, ["/shore/nights_per_week", "8", "from 0 to 7"]),
    ("shore power without a charger", "/shore", {"nights_per_week": 1}, ["/shore/charger_a"]),
    ("negative dark hours", "/limits/dark_hours/value", -1, ["/limits/dark_hours/value", "-1", "from 0 to 8760"]),
    ("a candidate that does not exist", "/candidates", ["p-atlantis-100"], ["/candidates/0", "p-atlantis-100"]),
    ("an owned part that does not exist", "/owned/0/part", "p-atlantis-100", ["/owned/0/part", "p-atlantis-100"]),
    ("a fixed offer of a part that does not exist", "/fixed_offers", [{"part": "p-atlantis-100", "shop": "s-x"}],
     ["/fixed_offers/0", "p-atlantis-100"]),
]

# (what, text, texts the sentence must hold)
BRIEF_TEXTS = [
    ("empty", "", []),
    ("only space", " \n\n", []),
    ("cut short", GOOD_BRIEF[:len(GOOD_BRIEF) // 2], []),
    ("cut within a text", GOOD_BRIEF[:40], []),
    ("not JSON", "loads: fridge, lights\n", []),
    ("something after the end", GOOD_BRIEF + "x", []),
    ("two documents", GOOD_BRIEF + GOOD_BRIEF, []),
    ("NaN", GOOD_BRIEF.replace('"watts": 45', '"watts": NaN', 1), []),
    ("infinity", GOOD_BRIEF.replace('"watts": 45', '"watts": Infinity', 1), []),
    ("a number beyond a double", GOOD_BRIEF.replace('"watts": 45', '"watts": 1e999', 1), []),
    ("a member twice", GOOD_BRIEF.replace('"version": 1', '"version": 1, "version": 1', 1), ["version"]),
    ("a list", "[]", []),
    ("null", "null", []),
    ("nested beyond reason", "[" * 200000, []),
    ("binary", b"\x00\x01\x02\xff\xfe", []),
    ("not UTF-8", GOOD_BRIEF.encode().replace(b"The Plover", b"The Pl\xffver"), []),
    ("a NUL inside", GOOD_BRIEF.encode().replace(b"The Plover", b"The \x00Plover"), []),
]

CATALOGUE_EDITS = [
    ("a newer version", "/version", 2, ["version", "2"]),
    ("another format", "/format", "wattberth-brief", ["format"]),
    ("panels that are a text", "/panels", "many", ["/panels"]),
    ("a panel that is a number", "/panels/0", 100, ["/panels/0"]),
    ("watts in words", "/panels/0/power_w", "100", ["/panels/0/power_w"]),
    ("negative watts", "/panels/0/power_w", -100, ["/panels/0/power_w", "-100"]),
    ("no watts", "/panels/0/power_w", DROP, ["power_w"]),
    ("a negative weight", "/storage/1/weight_kg", -3, ["/storage/1/weight_kg", "-3"]),
    ("no capacity", "/storage/0/capacity_ah", 0, ["/storage/0/capacity_ah", "0.1"]),
    ("a low light of 49 %", "/panels/0/low_light_pct", 49, ["/panels/0/low_light_pct", "49", "from 50 to 105"]),
    ("a heater of 0 W", "/storage/0/heater_w", 0, ["/storage/0/heater_w", "from 1 to 1000"]),
    ("acceptance without its fall", "/chemistries/0/accept_from", DROP, ["/chemistries/0/accept_from", "all three or none"]),
    ("more accepted at full", "/chemistries/0/accept_full_c", 5, ["/chemistries/0/accept_full_c", "at most accept_c"]),
    ("a depth over 1", "/storage/0/depth_limit", 1.5, ["/storage/0/depth_limit", "1.5"]),
    ("a chemistry that does not exist", "/storage/0/chemistry", "unobtainium", ["/storage/0/chemistry", "unobtainium"]),
    ("a waveform that is none", "/inverters/0/waveform", "wobbly", ["/inverters/0/waveform", "wobbly"]),
    ("13 volts", "/inverters/0/bus_v", 13, ["/inverters/0/bus_v", "13"]),
    ("a curve that runs back", "/inverters/0/efficiency", [[0.5, 0.8], [0.1, 0.9]], ["/inverters/0/efficiency"]),
    ("a flag in words", "/controllers/0/bus_12v", "yes", ["/controllers/0/bus_12v"]),
    ("an id with spaces", "/panels/0/id", "my panel", ["/panels/0/id", "my panel"]),
    ("a name of 1 MB", "/panels/0/maker", "x" * MEGABYTE, ["/panels/0/maker"]),
    ("an offer of a part that does not exist", "/offers/0/part_id", "p-atlantis-100", ["/offers/0", "p-atlantis-100"]),
    ("an offer of a shop that does not exist", "/offers/0/shop_id", "s-atlantis", ["/offers/0", "s-atlantis"]),
    ("a negative price", "/offers/0/price_minor", -5, ["/offers/0/price_minor", "-5"]),
    ("half a cent", "/offers/0/price_minor", 99.5, ["/offers/0/price_minor", "99.5"]),
    ("a date that is none", "/offers/0/date", "2026-02-30", ["/offers/0/date", "2026-02-30"]),
    ("a currency that is none", "/offers/0/currency", "eur", ["/offers/0/currency", "eur"]),
]

CATALOGUE_TEXTS = [
    ("empty", "", []),
    ("cut short", GOOD_CATALOGUE[:len(GOOD_CATALOGUE) // 2], []),
    ("not JSON", "panels, batteries\n", []),
    ("NaN", GOOD_CATALOGUE.replace('"power_w": 100', '"power_w": NaN', 1), []),
    ("something after the end", GOOD_CATALOGUE + "{}", []),
    ("a panel twice", edited(CATALOGUE, "/panels/1/id", CATALOGUE["panels"][0]["id"]), [CATALOGUE["panels"][0]["id"]]),
    ("a list", "[]", []),
    ("a brief", GOOD_BRIEF, ["wattberth-brief"]),
]


GOOD_INSTANCE = "van 3200 1700 1 1 1 1\n1320 1490 300 200\n760 350 999\n"
INSTANCE_TEXTS = [
    ("empty", "", ["no instance"]),
    ("only comments", "# van 3200 1700\n\n", ["no instance"]),
    ("a short first line", GOOD_INSTANCE.replace(" 1 1\n", " 1\n", 1), ["line 1", "6 fields", "name W H n_obstacles n_sizes most turns"]),
    ("a short obstacle", GOOD_INSTANCE.replace(" 200\n", "\n"), ["line 2", "3 fields", "obstacle 1 of 1", "x y w h"]),
    ("a short size", GOOD_INSTANCE.replace(" 999", ""), ["line 3", "2 fields", "size 1 of 1", "a b count"]),
    ("lines missing at the end", GOOD_INSTANCE[:GOOD_INSTANCE.index("760")], ["ends at line 2", "van", "size 1 of 1"]),
    ("a line too many", GOOD_INSTANCE + "760 350 999\n", ["line 4", "3 fields", "begins with 7"]),
    ("a number in words", GOOD_INSTANCE.replace("3200", "long"), ["line 1", "W", "long", "1 to 100000 mm"]),
    ("half a millimetre", GOOD_INSTANCE.replace("760", "760.5"), ["line 3", "a is", "760.5", "whole number"]),
    ("a negative size", GOOD_INSTANCE.replace("760", "-760"), ["line 3", "a is", "-760"]),
    ("a size of zero", GOOD_INSTANCE.replace("350", "0"), ["line 3", "b is", "1 to 100000 mm"]),
    ("a roof beyond 100 m", GOOD_INSTANCE.replace("1700", "100001"), ["line 1", "H", "100001"]),
    ("10,000 obstacles", GOOD_INSTANCE.replace("1700 1", "1700 10000"), ["line 1", "n_obstacles", "10000", "1000"]),
    ("an obstacle beside the roof", GOOD_INSTANCE.replace("1320", "3200"), ["line 2", "outside the roof", "3500"]),
    ("65 sizes", "mix 99 99 0 65 0 1\n" + "5 5 1\n" * 65, ["line 1", "n_sizes", "65", "64"]),
    ("two sizes and the most of them", "mix 99 99 0 2 1 1\n5 5 1\n6 6 1\n", ["line 1", "n_sizes is 2", "most 1"]),
    ("401 rectangles together", "mix 99 99 0 2 0 1\n5 5 400\n6 6 1\n", ["line 3", "401", "400"]),
    ("turns in words", GOOD_INSTANCE.replace("1 1\n1320", "1 yes\n1320"), ["line 1", "turns", "yes"]),
    ("a missing column", "L,W,l\n22,16,5\n", ["line 1", "column w", "missing"]),
    ("columns of other names", "length,width,l,w\n22,16,5,3\n", ["line 1", "column L", "missing"]),
    ("a column twice", "L,W,l,w,w\n22,16,5,3,3\n", ["line 1", "column w", "twice"]),
    ("semicolons", "L;W;l;w\n22;16;5;3\n", ["line 1", "1 field"]),
    ("a short row", "L,W,l,w\n22,16,5\n", ["line 2", "3 cells"]),
    ("a negative cell", "L,W,l,w\n22,-16,5,3\n", ["line 2", "W is", "-16"]),
    ("a NUL byte", GOOD_INSTANCE.encode().replace(b"350", b"3\x000"), ["line 3", "NUL"]),
    ("not UTF-8", b"v\xffn 10 10 0 1 1 1\n5 5 5\n", ["line 1", "UTF-8"]),
    ("a picture", b"\x89PNG\r\n\x1a\n\x00\x00\x00\rIHDR", ["line 1"]),
    ("a brief", GOOD_BRIEF, ["line 1"]),
]


def instances_case(text, wanted):
    def test():
        path = terminal.write("roofs.txt", text)
        for more in ([], ["--json"]):
            refused(["roof", "--instances", path] + more, "roofs.txt", WRONG_INPUT, wanted)
        refused(["roof", "--instances", "-"], "standard input", WRONG_INPUT, wanted, stdin=text if isinstance(text, bytes) else text.encode())
    return test


def test_instances_limits():
    """What is no file, and what is too long a one; what is right passes."""
    equal(len(terminal.json("roof", "--instances", terminal.write("roofs.txt", GOOD_INSTANCE))["instances"]), 1)
    refused(["roof", "--instances", "no-roofs.txt"], "no-roofs.txt", FILE, ["cannot be opened"])
    os.makedirs(terminal.path("folder"), exist_ok=True)
    refused(["roof", "--instances", "folder"], "folder", FILE, ["cannot be read"])
    path = terminal.write("endless.txt", "#" * (17 * MEGABYTE))
    refused(["roof", "--instances", path], "endless.txt", FILE, ["16 MiB"])
    refused(["roof", "--instances", "-"], "standard input", FILE, ["16 MiB"], stdin=b"#" * (17 * MEGABYTE))
    path = terminal.write("many.txt", GOOD_INSTANCE * 10001)
    refused(["roof", "--instances", path], "many.txt", WRONG_INPUT, ["instance 10001", "10000"])


def brief_case(text, wanted, commands=("rank", "explain", "roof")):
    def test():
        path = terminal.write("wrong.json", text)
        for command in commands:
            refused([command, path], "wrong.json", WRONG_INPUT, wanted)
        refused(["brief", "check", path], "wrong.json", WRONG_INPUT, wanted)
        data = text if isinstance(text, bytes) else text.encode()
        refused(["rank", "-"], "standard input", WRONG_INPUT, wanted, stdin=data)
    return test


def catalogue_case(text, wanted):
    def test():
        path = terminal.write("wrong-parts.json", text)
        refused(["rank", "demo", "--catalogue", path], "wrong-parts.json", WRONG_INPUT, wanted)
        refused(["catalogue", "check", path], "wrong-parts.json", WRONG_INPUT, wanted)
        refused(["catalogue", "import", path], "wrong-parts.json", WRONG_INPUT, wanted)
        refused(["catalogue", "import", path, "--catalogue", "none-yet.db"], "wrong-parts.json", WRONG_INPUT, wanted)
    return test


def test_missing_files():
    for arguments in (["rank", "no.json"], ["brief", "check", "no.json"], ["rank", "demo", "--catalogue", "no.json"],
                      ["catalogue", "check", "no.json"], ["catalogue", "import", "no.json"],
                      ["catalogue", "export", "no/no.json"]):
        refused(arguments, "no.json", FILE)


def test_no_curve():
    """What the catalogue takes, but no curve runs through."""
    name, other = CATALOGUE["panels"][0]["id"], CATALOGUE["panels"][1]["id"]
    flat = json.loads(edited(CATALOGUE, "/panels/0/imp_a", CATALOGUE["panels"][0]["isc_a"]))
    sharp = json.loads(edited(CATALOGUE, "/panels/0/vmp_v", CATALOGUE["panels"][0]["voc_v"] * 0.9999))
    for catalogue, field in ((flat, "imp_a"), (sharp, "vmp_v")):
        path = terminal.write("no-curve.json", json.dumps(catalogue))
        refused(["together", name, other, "--catalogue", path], name, WRONG_INPUT, [field, "make no curve"])
        refused(["together", other, name + "x2", "--json", "--catalogue", path], name, WRONG_INPUT, [field])
    refused(["together", name, other, "--catalogue", "no.json"], "no.json", FILE)


def test_no_room():
    """No panel has room: an answer, not an error, and the cause is named."""
    for pointer, value, cause in (("/roof/obstacles/0/clearance_mm", 100000, "Roof fan, with its clearance of 100000 mm, leaves nothing"),
                                  ("/roof/margin_mm", 850, "The margin of 850 mm leaves nothing"),
                                  ("/roof/length_mm", 300, None)):
        text = edited(BRIEF, pointer, value) if cause else edited(dict(BRIEF, roof={"length_mm": 300, "width_mm": 300}), pointer, value)
        answer = terminal.json("roof", terminal.write("no-room.json", text))
        holds(all((p["most"], p["bound"], p["answer"], p["layout"]) == (0, 0, "proved", []) for p in answer["panels"]), answer["panels"])
        said = answer["nothing_left"]
        holds(said is None if cause is None else said.startswith(cause), said)
        printed = terminal.text("roof", terminal.path("no-room.json"))
        holds("does not fit: proved" in printed and (cause is None or cause in " ".join(printed.split())), printed)


def test_roof_options():
    """--panel and --mix where they cannot be; and where there is nothing to mix, an answer that says so."""
    for arguments, name, code, wanted in (
            (["roof", "demo", "--panel", "p-orrelith-50-rigi"], "p-orrelith-50-rigi", WRONG_USE, ["did you mean p-orrelith-50-rigid?"]),
            (["roof", "demo", "--panel", "p-orrelith-50-rigi", "--mix", "--json"], "p-orrelith-50-rigi", WRONG_USE, ["p-orrelith-50-rigid"]),
            (["roof", "demo", "--panel", ""], "no panel", WRONG_USE, ["export"]),
            (["roof", "demo", "--panel", "x" * 5000], "xxx", WRONG_USE, []),
            (["roof", "demo", "--panel", "b-pellawatt-12v-100-lfp"], "b-pellawatt-12v-100-lfp", WRONG_USE, ["no panel"]),
            (["roof", "demo", "--panel"], "--panel", WRONG_USE, ["Missing argument"]),
            (["roof", "--mix"], "roof BRIEF", WRONG_USE, ["needs a brief"]),
            (["roof", "--instances", "no.txt", "--mix"], "--mix", WRONG_USE, ["--instances takes no brief"]),
            (["roof", "demo", "--mix", "--nodes", "0"], "--nodes", WRONG_USE, ["1 to 1000000000"]),
            (["roof", "demo", "--mix=3"], "--mix", WRONG_USE, ["takes no value", "“3”", "roof BRIEF"]),
            (["roof", "demo", "--mix="], "--mix", WRONG_USE, ["takes no value"]),
            (["rank", "demo", "--json=yes\nplease"], "--json", WRONG_USE, ["takes no value", "yes"]),
            (["brief", "--new=x"], "--new", WRONG_USE, ["takes no value", "“x”"]),
            (["catalogue", "import", "x.json", "--preview=no"], "--preview", WRONG_USE, ["takes no value"]),
            (["roof", "demo", "--count", "3"], "--count", WRONG_USE, ["goes with --panel ID"]),
            (["roof", "demo", "--panel", "p-orrelith-50-rigid", "--mix", "--count", "3"], "--count", WRONG_USE, ["without --mix"]),
            (["roof", "--instances", "no.txt", "--count", "3"], "--count", WRONG_USE, ["--instances takes no brief"]),
            *((["roof", "demo", "--panel", "p-orrelith-50-rigid", "--count", n], "--count", WRONG_USE, ["1 to 400"])
              for n in ("0", "-1", "401", "x", "", "2.5", "99999999999999999999", "3 ")),
            (["rank", "demo", "--mix"], "--mix", WRONG_USE, ["Unknown option"])):
        refused(arguments, name, code, wanted)
    for pointer in ("/roof/length_mm", "/roof/width_mm"):
        path = terminal.write("no-size.json", edited(BRIEF, pointer, 0))
        refused(["roof", path, "--mix"], "no-size.json", WRONG_INPUT, [pointer, "0"])
        roof = {key: value for key, value in BRIEF["roof"].items() if key != pointer.split("/")[-1]}
        path = terminal.write("no-size.json", json.dumps(dict(BRIEF, roof=roof)))
        refused(["roof", path, "--mix", "--json"], "no-size.json", WRONG_INPUT, [pointer.split("/")[-1]])
    for members, said in (({"candidates": []}, "No panel is ticked, so there is nothing to mix."),
                          ({"roof": dict(BRIEF["roof"], margin_mm=850)}, "No ticked panel fits this roof and its load limit"),
                          ({"roof": dict(BRIEF["roof"], max_load_kg=0.5)}, "No ticked panel fits this roof and its load limit"),
                          ({"roof": dict(BRIEF["roof"], standoff_mm=50, max_height_mm=10)}, "No ticked panel may stand so high")):
        path = terminal.write("no-mix.json", json.dumps(dict(BRIEF, **members)))
        holds(said in " ".join(terminal.text("roof", path, "--mix").split()), said)
        equal(terminal.json("roof", path, "--mix")["mixes"]["front"], [], said)


def test_rank_options():
    """How many rows: a whole number within bounds."""
    for top in ("0", "-1", "1000001", "1000000000", "99999999999999999999", "abc", "1.5", "1e3", "", "3 "):
        refused(["rank", "demo", "--top", top], "--top", WRONG_USE, ["1 to 1000000", "“%s”" % top])


def no_kit(path, said, clash):
    """The table says why, the exit code that there is none; the JSON the same. Nothing takes long."""
    answer = terminal.run("rank", path)
    equal(answer.returncode, NO_KIT, answer.stderr.decode())
    printed = " ".join((answer.stdout + answer.stderr).decode().split())
    for text in said:
        holds(text in printed, "%r is not in: %s" % (text, printed))
    told = json.loads(terminal.run("rank", path, "--json").stdout)["totals"]["clash"]
    equal(told and told["limits"], clash)
    return told


def test_nothing_works():
    """A kind without candidates, limits that clash, limits that are not to blame, weights of 0."""
    kinds = {"panel": "panels", "controller": "controllers", "storage": "storage"}
    parts = {kind: [part["id"] for part in CATALOGUE[kind]] for kind in (*kinds.values(), "inverters", "dcdc")}
    for word, missing in kinds.items():
        ticked = sum((ids for kind, ids in parts.items() if kind != missing), [])
        path = terminal.write("no-kind.json", json.dumps(dict(BRIEF, candidates=ticked)))
        no_kit(path, ["none of 0 combinations works", "no %s is ticked in /candidates" % word], None)
    limits = copy.deepcopy(BRIEF["limits"])
    limits["money_minor"]["value"], limits["weight_kg"]["value"] = 100, 1
    path = terminal.write("clash.json", json.dumps(dict(BRIEF, limits=limits)))
    told = no_kit(path, ["These limits cannot all be kept: money and weight."], ["money_minor", "weight_kg"])
    holds(told["works"] > 0 and told["cheapest_minor"] > 100 and told["lightest_kg"] > 1, told)
    ticked = sum((ids for kind, ids in parts.items() if kind != "controllers"), []) + parts["controllers"][:1]
    hungry = [dict(load, power_w=40 * load["power_w"]) if "power_w" in load else load for load in BRIEF["loads"]]
    path = terminal.write("hungry.json", json.dumps(dict(BRIEF, loads=hungry, limits=limits, candidates=ticked)))
    no_kit(path, ["The limits are not to blame"], [])
    weightless = dict.fromkeys(BRIEF["weights"], 0)
    path = terminal.write("weightless.json", json.dumps(dict(BRIEF, weights=weightless)))
    refused(["rank", path], "weightless.json", WRONG_INPUT, ["/weights", "all 0", "at least one"])


def test_folders():
    os.makedirs(terminal.path("folder"), exist_ok=True)
    for arguments in (["rank", "folder"], ["rank", "demo", "--catalogue", "folder"], ["catalogue", "check", "folder"],
                      ["catalogue", "import", "folder"], ["catalogue", "export", "folder"]):
        refused(arguments, "folder", FILE)


def year(noon_h=12, hours=8760):
    """A CSV of so many hours, the sun highest at noon_h of the clock."""
    rows = ["%g" % max(0, round(800 * math.cos((hour % 24 + 0.5 - noon_h) * math.pi / 12))) for hour in range(hours)]
    return "# utc_offset_h: 0\nglobal_w_m2\n" + "\n".join(rows) + "\n"


def hourly_case(text, code, wanted):
    """The hourly file stands beside the brief, which is named by another way than from its own folder."""
    def test():
        os.makedirs(terminal.path("there"), exist_ok=True)
        terminal.write("there/hours.csv", text) if text is not None else None
        path = terminal.write("there/van.json", edited(BRIEF, "/site/weather/hourly_file", "hours.csv"))
        for command in (["rank", path], ["explain", path], ["energy", path], ["brief", "check", path]):
            refused(command, "van.json: /site/weather/hourly_file", code, ["hours.csv"] + wanted)
        if text is not None:
            os.remove(terminal.path("there/hours.csv"))
    return test


def test_good_hours():
    os.makedirs(terminal.path("there"), exist_ok=True)
    terminal.write("there/hours.csv", year())
    path = terminal.write("there/van.json", edited(BRIEF, "/site/weather/hourly_file", "hours.csv"))
    done = terminal.run("brief", "check", path)
    equal(done.returncode, 0, "a sound hourly file")
    holds(b"Hourly file: 8760 of 8760 hours have no diffuse" in done.stderr, done.stderr)
    os.remove(terminal.path("there/hours.csv"))


def database_case(make, code, wanted=()):
    def test():
        path = terminal.path("bad.db")
        if os.path.exists(path):
            os.remove(path)
        make(path)
        refused(["rank", "demo", "--catalogue", path], "bad.db", code, wanted)
        refused(["catalogue", "check", path], "bad.db", code, wanted)
        good = terminal.write("good-parts.json", GOOD_CATALOGUE)
        refused(["catalogue", "import", good, "--catalogue", path], "bad.db", code, wanted)
    return test


def sound_bytes():
    with open(terminal.database(), "rb") as file:
        return file.read()


def cut_database(path):
    with open(path, "wb") as file:
        file.write(sound_bytes()[:9000])


def scrambled_database(path):
    data = bytearray(sound_bytes())
    for at in range(4096, len(data)):
        data[at] = at * 37 % 251
    with open(path, "wb") as file:
        file.write(data)


def foreign_database(path):
    with sqlite3.connect(path) as database:
        database.execute("create table recipe (name text)")
    database.close()


def newer_database(path):
    with open(path, "wb") as file:
        file.write(sound_bytes())
    with sqlite3.connect(path) as database:
        database.execute("pragma user_version = 1000")
    database.close()
    for leftover in ("-wal", "-shm"):
        if os.path.exists(path + leftover):
            os.remove(path + leftover)


main(
    [("brief: " + what, brief_case(edited(OF_OWN_PLACE if pointer.startswith("/site/place/") else BRIEF, pointer, value),
                                   wanted, ("rank",)))
     for what, pointer, value, wanted in BRIEF_EDITS] +
    [("brief: " + what, brief_case(text, wanted)) for what, text, wanted in BRIEF_TEXTS] +
    [("catalogue: " + what, catalogue_case(edited(CATALOGUE, pointer, value), wanted))
     for what, pointer, value, wanted in CATALOGUE_EDITS] +
    [("catalogue: " + what, catalogue_case(text, wanted)) for what, text, wanted in CATALOGUE_TEXTS] +
    [("instances: " + what, instances_case(text, wanted)) for what, text, wanted in INSTANCE_TEXTS] +
    [("instances: limits of the file", test_instances_limits)] +
    [
        ("hourly file: a sound one is told what was made of it", test_good_hours),
        ("hourly file: not there", hourly_case(None, FILE, ["cannot be opened"])),
        ("hourly file: 8759 rows", hourly_case(year(hours=8759), WRONG_INPUT, ["8759"])),
        ("hourly file: 8784 rows", hourly_case(year(hours=8784), WRONG_INPUT, ["8784"])),
        ("hourly file: empty", hourly_case("", WRONG_INPUT, [])),
        ("hourly file: another sun", hourly_case(year(noon_h=18), WRONG_INPUT, ["noon of Nantes"])),
        ("files that are not there", test_missing_files),
        ("together: figures that make no curve", test_no_curve),
        ("roof: no room at all", test_no_room),
        ("roof: --panel and --mix", test_roof_options),
        ("rank: --top", test_rank_options),
        ("rank: nothing works", test_nothing_works),
        ("folders", test_folders),
        ("database: cut short", database_case(cut_database, WRONG_INPUT)),
        ("database: damaged", database_case(scrambled_database, WRONG_INPUT)),
        ("database: of another program", database_case(foreign_database, WRONG_INPUT)),
        ("database: newer", database_case(newer_database, WRONG_INPUT, ["1000"])),
    ])
