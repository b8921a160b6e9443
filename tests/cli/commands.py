#!/usr/bin/python3
"""commands.py PROGRAM ROOT: every command at work: tables, JSON keys, totals, exit codes, manual page."""
import json
import math
import os
import pty
import re
import select
import signal
import subprocess
import sys

from terminal import DISPLAY, DONE, FILE, NO_KIT, WRONG_USE, Terminal, equal, holds, main, one_sentence

PROGRAM, ROOT = sys.argv[1], sys.argv[2]
CRITERIA = ["cost", "weight", "usable_capacity", "roof_area", "autonomy", "spare_power", "dark_hours", "supply_margin"]
FOUR = [("cost_minor", -1), ("weight_kg", -1), ("usable_capacity_wh", 1), ("roof_area_m2", -1)]
WIDTH = 100

terminal = Terminal(PROGRAM)
ranking = terminal.json("rank", "demo", "--top", "40")
more = terminal.json("rank", "demo", "--top", "40", "--more")


def manual():
    with open(os.path.join(ROOT, "data", "wattberth.1"), encoding="utf-8") as file:
        return re.sub(r"\\f[BIR]", "", file.read()).replace("\\-", "-")


def narrow(text):
    for line in text.split("\n"):
        holds(len(line) <= WIDTH, "%d columns: %s" % (len(line), line))


def test_help():
    text = terminal.text("--help")
    narrow(text)
    equal(terminal.text("help"), text)
    page = manual()
    commands = re.findall(r"^  wattberth ([a-z]+)", text, re.M)
    holds(len(commands) >= 7, commands)
    for command in commands:
        holds(re.search(r"^wattberth %s\b" % command, page, re.M), "the manual page lacks " + command)
    for option in re.findall(r"--[a-z]+", text):
        holds(option in page, "the manual page lacks " + option)
    for command in set(commands) - {"help"}:
        more = terminal.text("help", command)
        narrow(more)
        equal(terminal.text(command, "--help"), more)
    for code in range(7):
        holds(re.search(r"^\.B %d$" % code, page, re.M), "exit code %d" % code)


def test_manual_page():
    page = subprocess.run(["man", "--warnings", "-E", "UTF-8", "-l", os.path.join(ROOT, "data", "wattberth.1")], env=dict(os.environ, MANWIDTH="90"),
                          stdout=subprocess.PIPE, stderr=subprocess.PIPE, check=True)
    equal(page.stderr, b"")
    text = page.stdout.decode()
    for section in ("SYNOPSIS", "COMMANDS", "OPTIONS", "EXIT CODES", "JSON", "FILES", "EXAMPLES"):
        holds("\n%s\n" % section in text, section)


def test_no_price():
    """A part no shop sells can be explained, and is named."""
    part = ranking["totals"]["no_price"][0]
    parts = ranking["kits"][0]["parts"]
    name = "%s:1s1p/%s:1/%s:1s1p/none/none" % (part["id"], parts["controller"]["id"], parts["storage"]["id"])
    finding = terminal.json("explain", "demo", name)["kit"]["findings"][0]
    equal((finding["code"], finding["holds"], finding["value"]), ("no-price", False, 1))
    holds("%(maker)s %(model)s" % part in finding["sentence"], finding["sentence"])


def test_new_brief_ranks():
    holds(terminal.json("rank", "-", stdin=terminal.text("brief", "--new").encode())["kits"], "a new brief has kits to show")


def test_version():
    equal(terminal.text("--version"), "wattberth 0.1.0\n")


def test_wrong_use():
    for arguments in (["rnak", "demo"], ["rnak"], ["--rank"], ["rank"], ["rank", "demo", "demo"], ["rank", "demo", "--top", "0"],
                      ["rank", "demo", "--top", "1000001"], ["rank", "demo", "--top", "many"], ["rank", "demo", "--list", "best"],
                      ["rank", "demo", "--preview"], ["rank", "demo", "--more=3"], ["explain", "demo", "--more"], ["explain"], ["explain", "demo", "no-such-kit"], ["explain", "demo", "0"],
                      ["explain", "demo", "1000000"], ["explain", "demo", "99999999999999999999"], ["energy"], ["energy", "demo", "no-such-kit"],
                      ["energy", "demo", "0"], ["energy", "demo", "1", "--year", "1"], ["energy", "demo", "--hours", "h.csv", "--year", "0"],
                      ["energy", "demo", "--hours", "h.csv", "--year", "11"], ["energy", "demo", "--hours", "h.csv", "--year", "last"],
                      ["energy", "demo", "--hours", "-", "--json"], ["rank", "demo", "--hours", "h.csv"], ["roof"], ["roof", "demo", "--nodes", "0"],
                      ["roof", "demo", "--nodes", "many"], ["roof", "demo", "--nodes", "1000000001"], ["roof", "demo", "--panel", "atlantis"], ["together"], ["together", "series"], ["together", "x", "x"], ["catalogue", "export"],
                      ["catalogue", "burn", "x"], ["catalogue", "check", "x", "--preview"], ["brief"], ["brief", "check"],
                      ["brief", "--new", "x"], ["places", "a", "b"], ["places", "--top", "3"], ["help", "rnak"], ["a", "b", "c"]):
        one_sentence(terminal.run(*arguments), WRONG_USE)


def all_keys(value):
    if isinstance(value, dict):
        for key, inner in value.items():
            yield key
            yield from all_keys(inner)
    elif isinstance(value, list):
        for inner in value:
            yield from all_keys(inner)


def test_keys_documented():
    page = manual()
    documents = [more, terminal.json("explain", "demo"), terminal.json("explain", "demo", "--part", "p-brambleray-100-rigid"),
                 terminal.json("explain", "demo", "--part", "w-teaselwire-mm2-25-75c"), terminal.json("energy", "demo"), terminal.json("roof", "demo", "--mix"), terminal.json("places", "nantes"),
                 terminal.json("together", "p-orrelith-50-rigid", "p-orrelith-80-rigid"),
                 terminal.json("brief", "check", terminal.write("new.json", terminal.text("brief", "--new"))),
                 terminal.json("catalogue", "check", terminal.database()),
                 terminal.json("catalogue", "export", terminal.path("keys.json"))]
    for document in documents:
        equal(list(document)[:2], ["format", "version"])
        holds(document["format"] in page, document["format"])
        counts = document.get("counts", {})
        for key in set(all_keys(document)) - set(counts):
            holds(re.search(r"(?<![a-z_])%s(?![a-z_])" % key, page), "the manual page lacks the key " + key)


def test_totals():
    totals = ranking["totals"]
    firsts = sum(rule["first"] for rule in totals["ruled_out"])
    equal(firsts + totals["feasible"] + totals["undecided"], totals["raw_combinations"])
    holds(totals["feasible"] > 40, totals["feasible"])
    equal(len({rule["code"] for rule in totals["ruled_out"]}), len(totals["ruled_out"]))
    for rule in totals["ruled_out"]:
        equal(rule["nearest"] is not None, rule["alone"] > 0)
        holds(rule["nearest"] is None or rule["nearest"]["value"] is not None, rule)
        holds(rule["alone"] <= rule["first"] or rule["severity"] != "stop", rule)


def test_kits():
    kits = ranking["kits"]
    equal([kit["rank"] for kit in kits], list(range(1, 41)))
    scores = [kit["score"] for kit in kits]
    equal(scores, sorted(scores, reverse=True))
    for kit in kits:
        equal(list(kit["worth"]), CRITERIA)
        equal(len(kit["months"]), 12)
        equal([f["code"] for f in kit["findings"]], [r["code"] for r in ranking["totals"]["ruled_out"]])
        holds(kit["feasible"], kit["id"])
        for finding in kit["findings"]:
            holds(finding["holds"] or finding["severity"] != "stop", finding)
            holds(finding["sentence"].endswith(".") and "{" not in finding["sentence"], finding["sentence"])
    equal(len({kit["id"] for kit in kits}), 40)


def vector(kit):
    return [sign * kit["figures"][key] for key, sign in FOUR]


def beats(a, b):
    return a != b and all(x >= y for x, y in zip(a, b))


def test_chemistries():
    ranking = terminal.json("rank", "demo", "--top", "1")
    equal(sum(c["feasible"] for c in ranking["chemistries"]), ranking["totals"]["feasible"])
    best = [c["best"] for c in ranking["chemistries"] if c["feasible"]]
    holds(len(best) >= 2, "the demo compares fewer than two chemistries")
    equal(max(best, key=lambda kit: kit["score"])["id"], ranking["kits"][0]["id"])
    for kit in best:
        holds(kit["feasible"] and kit["score"] <= ranking["kits"][0]["score"], "%s is no best kit" % kit["id"])


def test_front():
    front = terminal.json("rank", "demo", "--list", "front", "--top", "1000000")
    equal(front["list"], "front")
    equal(len(front["kits"]), front["front_count"])
    vectors = [vector(kit) for kit in front["kits"]]
    holds(all(kit["on_front"] for kit in front["kits"]), "a kit of the front is not marked")
    for i, a in enumerate(vectors):
        for b in vectors[i + 1:]:
            holds(not beats(a, b) and not beats(b, a), "one kit of the front beats another: %r %r" % (a, b))
    for kit in ranking["kits"]:
        beaten = any(beats(v, vector(kit)) for v in vectors)
        equal(kit["on_front"], not beaten, kit["id"])


def check_curve(curve):
    """Each step judged anew: it needs and gives what is said, and works or is stopped by its limit alone."""
    resource = {"cost": "cost_minor", "weight": "weight_kg", "roof_area": "roof_area_m2"}[curve["resource"]]
    gain, sign = {"usable_capacity": ("usable_capacity_wh", 1), "dark_hours": ("dark_hours", -1)}[curve["gain"]]
    steps = curve["steps"]
    for before, after in zip(steps, steps[1:]):
        holds(after["needs"] > before["needs"] and sign * (after["gives"] - before["gives"]) > 0, (before, after))
    for step in (steps[0], steps[-1]):
        kit = terminal.json("explain", "demo", step["id"])["kit"]
        equal((kit["figures"][resource], kit["figures"][gain]), (step["needs"], step["gives"]))
        stops = [f["code"] for f in kit["findings"] if f["severity"] == "stop" and not f["holds"]]
        beyond = curve["limit"] is not None and step["needs"] > curve["limit"]
        equal(stops, [{"cost": "money", "weight": "weight"}[curve["resource"]]] if beyond else [])
    for kit in ranking["kits"]:
        best = [step["gives"] for step in steps if step["needs"] <= kit["figures"][resource]][-1]
        holds(sign * (best - kit["figures"][gain]) >= 0, (curve["resource"], curve["gain"], kit["id"]))


def test_more():
    equal({key: value for key, value in more.items() if key != "more"}, ranking)
    equal([(c["resource"], c["gain"]) for c in more["more"]],
          [(r, g) for r in ("cost", "weight", "roof_area") for g in ("usable_capacity", "dark_hours")])
    for curve in more["more"]:
        equal(curve["reaches"], curve["limit"] and 1.5 * curve["limit"])
        holds(curve["sentence"].endswith("."), curve["sentence"])
        check_curve(curve)
    text = terminal.text("rank", "demo", "--top", "1", "--more")
    narrow(text)
    money = more["more"][0]
    holds("\nWhat more money buys: the most usable capacity\n" in text, text)
    holds(money["sentence"] in " ".join(text.split()), money["sentence"])
    beyond = next(step for step in money["steps"] if step["needs"] > money["limit"])
    holds("For %s EUR more than your limit" % format((beyond["needs"] - money["limit"]) / 100, ",.2f") in money["sentence"], money)
    holds("%s +  " % format(beyond["needs"] / 100, ",.2f") in text, beyond)
    holds("What more" not in terminal.text("rank", "demo", "--top", "1"), "asked for nothing more")


def bare(kit):
    """What explain tells of it: not what leads it."""
    return {key: value for key, value in kit.items() if key != "similar"}


def test_rank_table():
    text = terminal.text("rank", "demo", "--every")
    narrow(text)
    holds("\x1b" not in text, "colours without a terminal")
    for wanted in ("Ruled out by", "Cautions", "licensed practice", ranking["kits"][9]["parts"]["storage"]["id"]):
        holds(wanted in text, wanted)
    listed = [int(rank) for rank in re.findall(r"^ *(\d+)[* ]  0\.", text, re.M)]
    equal(listed, list(range(1, 11)), "ten is the default")
    equal(terminal.text("rank", "demo", "--every"), text)


def test_explain():
    first = terminal.json("explain", "demo")
    equal(first["kit"], bare(ranking["kits"][0]))
    equal(terminal.json("explain", "demo", "3")["kit"], bare(ranking["kits"][2]))
    equal(terminal.json("explain", "demo", ranking["kits"][2]["id"])["kit"], bare(ranking["kits"][2]))
    text = terminal.text("explain", "demo", "2")
    identity = ranking["kits"][1]["id"]
    holds("\n%s\n" % identity in text, "the id stands on a line of its own, to be copied")
    narrow(text.replace(identity, ""))
    for finding in ranking["kits"][1]["findings"]:
        if finding["value"] is not None:
            holds(finding["code"] in text, finding["code"])
    holds("Rank 2" in text and "licensed practice" in text, text)
    figures = first["kit"]["figures"]
    wires = {"conductor", "fuse", "fitting"}
    equal(sum(line["bought"] * line["price_minor"] for line in first["bill"] if line["kind"] not in wires),
          figures["parts_minor"])
    equal(sum(line["sum_minor"] for line in first["bill"] if line["kind"] in wires), figures["wiring_minor"])
    equal(figures["wiring_minor"], first["circuits"]["cost_minor"])


def holding(kit, kind, name):
    part = kit["parts"][kind]
    return part is not None and part["id"] == name


def test_explain_part():
    """Rank, front and differences of a part that works, by the list of all kits."""
    with open(os.path.join(ROOT, "data", "demo.brief.json"), encoding="utf-8") as file:
        demo = json.load(file)
    few = dict(demo["largest"], series=2, parallel=1, controllers=1, bank_series=1, bank_parallel=1)
    brief = terminal.write("few.json", json.dumps(dict(demo, largest=few)))
    every = terminal.json("rank", brief, "--every", "--top", "1000000")
    front = terminal.json("rank", brief, "--every", "--list", "front", "--top", "1000000")["kits"]
    for kind, name in (("panel", "p-brambleray-100-rigid"), ("inverter", "i-tolbrake-12v-600-sine"), ("dcdc", "d-hedgerail-12-12-60")):
        told = terminal.json("explain", brief, "--part", name)
        equal((told["part"], told["kind"], told["state"]), (name, kind, "kits"))
        those = [kit for kit in every["kits"] if holding(kit, kind, name)]
        equal(told["feasible"], len(those))
        equal(told["feasible"] + sum(rule["first"] for rule in told["ruled_out"]), told["raw_combinations"])
        equal(told["on_front"], any(holding(kit, kind, name) for kit in front))
        if not those:
            equal((told["rank"], told["best"]), (None, None))
            continue
        equal((told["rank"], told["best"]["id"], told["best"]["score"]), (those[0]["rank"], those[0]["id"], those[0]["score"]))
        equal(told["first"]["id"], every["kits"][0]["id"])
        holds(abs(sum(one["lost"] for one in told["differences"]) - (every["kits"][0]["score"] - those[0]["score"])) < 1e-12, told["differences"])
        narrow(terminal.text("explain", brief, "--part", name))


def test_explain_part_in_no_kit():
    name = "p-sundrell-450-rigid"
    told = terminal.json("explain", "demo", "--part", name)
    equal((told["feasible"], told["rank"], told["on_front"]), (0, None, False))
    near = [rule["nearest"] for rule in told["ruled_out"] if rule["alone"] > 0]
    holds(near and all(name in kit["id"] and kit["sentence"] for kit in near), near)
    text = terminal.text("explain", "demo", "--part", name)
    narrow(text)
    holds("None of the" in text and "Nearest:" in text, text)
    with open(os.path.join(ROOT, "data", "demo.brief.json"), encoding="utf-8") as file:
        unticked = dict(json.load(file), candidates=["p-brambleray-100-rigid", "c-wrenlock-mppt-30-100", "b-hobstone-12v-280-lfp"])
    told = terminal.json("explain", terminal.write("unticked.json", json.dumps(unticked)), "--part", name)
    equal((told["state"], len(told["sentences"])), ("not_ticked", 1))


def test_explain_wire():
    kit = terminal.json("explain", "demo", "2")
    circuits = kit["circuits"]["list"]
    used = circuits[0]["conductor"]
    told = terminal.json("explain", "demo", "2", "--part", used)
    equal((told["state"], told["kit"], told["kind"]), ("circuits", kit["kit"]["id"], "conductor"))
    for place in told["places"]:
        equal(place["verdict"] == "used", circuits[place["circuit"]]["conductor"] == used)
    equal(len(told["places"]), len(circuits))
    narrow(terminal.text("explain", "demo", "--part", used))
    left_out = terminal.json("explain", "demo", "--part", "w-teaselwire-awg-4-75c")
    equal(left_out["state"], "left_out")


def test_explain_no_such_part():
    wrong = one_sentence(terminal.run("explain", "demo", "--part", "p-brambleray-100-rigd"), WRONG_USE)
    holds("did you mean p-brambleray-100-rigid?" in wrong, wrong)
    for arguments in (["--part", ""], ["--part", "x" * 5000], ["1", "--part", "p-brambleray-100-rigid"]):
        one_sentence(terminal.run("explain", "demo", *arguments), WRONG_USE)


def test_explain_year():
    explained = terminal.json("explain", "demo")
    year = explained["year"]
    holds(year["years"] >= 1 and 1 <= year["dark_worst_year"] <= year["years"], year)
    holds(0 <= year["dark_h"] <= year["dark_worst_h"], year)
    holds(year["longest_dark_h"] <= 8760 * year["years"], year)
    holds(abs(year["loss_of_load"] * year["need_wh"] - year["unmet_wh"]) <= 1e-9 * year["need_wh"], year)
    holds(0 <= year["lowest_charge"] <= 1, year)
    used = [month["in_use"] for month in explained["kit"]["months"]]
    dark = sum(month["dark_h"] for month, use in zip(year["months"], used) if use)
    holds(abs(dark - year["dark_h"]) <= 1e-6, (dark, year["dark_h"]))
    holds("The year, in the months of use" in terminal.text("explain", "demo"), "the year stands in the text")


HOURS = ["year", "day", "hour", "plane_w_m2", "air_c", "array_wh", "clipped_wh", "alternator_wh", "shore_wh", "need_wh", "idle_wh",
         "heater_wh", "unmet_wh", "charged_wh", "stored_wh", "drawn_wh", "drained_wh", "lost_wh", "spilled_wh", "charge_wh", "floor_wh"]
MONTH_DAYS = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31]


def with_shore():
    with open(os.path.join(ROOT, "data", "demo.brief.json"), encoding="utf-8") as file:
        brief = json.load(file)
    brief["shore"] = {"nights_per_week": 2, "charger_a": 10}
    return terminal.write("shore.json", json.dumps(brief))


def test_energy():
    energy, explained = terminal.json("energy", "demo"), terminal.json("explain", "demo")
    equal(energy["id"], explained["kit"]["id"], "without KIT the first")
    equal(energy["year"], explained["year"])
    equal(energy["autonomy_days"], explained["kit"]["figures"]["autonomy_days"])
    equal(explained["kit"]["figures"]["dark_hours"], energy["year"]["dark_h"])
    equal((energy["weather"]["years"], energy["weather"]["hourly_file"]), (energy["year"]["years"], None))
    equal(terminal.json("energy", "demo", energy["id"]), energy)
    text = terminal.text("energy", "demo", "2")
    narrow(text.replace(ranking["kits"][1]["id"], ""))
    for wanted in ("Site and weather", "seed 1", "Month by month", "Longest dark spell", "Strings side by side", "figures to plan with",
                   ranking["kits"][1]["id"]):
        holds(wanted in text, wanted)
    agrees = ", as this kit has." in " ".join(text.split())
    holds(("Beside the hourly year" if agrees else "Why the hourly year answers otherwise") in text, text)
    for month in ("January", "October"):
        equal(len(re.findall(r"^%s +[0-9]" % month, text, re.M)), 1, month)


def test_worksheet():
    """The lines are followed with a pencil, from top to bottom."""
    for brief in ("demo", with_shore()):
        sheet = terminal.json("energy", brief)["worksheet"]
        figure = {line["key"]: line["figure"] for line in sheet["lines"]}
        holds(len(figure) == len(sheet["lines"]) >= 12, list(figure))
        for line in sheet["lines"]:
            holds(line["label"] and line["formula"] and "%%" not in line["label"], line)
        wanted = {"strings": figure["design_a"] / figure["string_a"], "design_a": figure["corrected_ah"] / figure["peak_sun_h"]}
        for key, value in wanted.items():
            holds(abs(figure[key] - value) <= 1e-9 * value, (key, figure[key], value))
        for key in ("strings", "batteries_parallel"):
            holds(0 <= sheet[key] - figure[key] < 1, (key, sheet[key], figure[key]))
        holds(all(re.search("[0-9]", sentence) for sentence in sheet["differences"]), sheet["differences"])
        holds(len(sheet["differences"]) >= 3, sheet["differences"])


def test_worksheet_without_sun():
    """A polar January: no figure that looks like a count."""
    with open(os.path.join(ROOT, "data", "demo.brief.json"), encoding="utf-8") as file:
        brief = json.load(file)
    brief["site"]["months"] = list(range(1, 13))
    brief["site"]["place"] = {
        "name": "Far North", "country": "", "latitude_deg": 78.2, "longitude_deg": 15.6, "altitude_m": 20,
        "ghi_kwh_m2_day": [0, 0.02, 0.6, 2.6, 4.6, 4.9, 4.1, 2.4, 1.0, 0.1, 0, 0],
        "air_mean_c": [-12, -13, -13, -9, -2, 3, 7, 6, 2, -4, -8, -10],
        "air_max_c": [-9, -10, -10, -6, 0, 5, 9, 7, 4, -2, -5, -7],
        "air_min_c": [-15, -16, -16, -12, -4, 2, 5, 4, 0, -6, -11, -13]}
    path, kit = terminal.write("polar.json", json.dumps(brief)), ranking["kits"][0]["id"]
    sheet = terminal.json("energy", path, kit)["worksheet"]
    equal((sheet["design_month"], sheet["strings"]), (1, None))
    holds(sheet["batteries_parallel"] >= 1, sheet["batteries_parallel"])
    text = " ".join(terminal.text("energy", path, kit).split())
    holds("In January there is no sun: no number of panels does it." in text, text)
    holds("-1 " not in text and "\u221e" not in text, text)


def test_energy_own_hours():
    """A person's own hours are the weather, and told so."""
    with open(os.path.join(ROOT, "data", "demo.brief.json"), encoding="utf-8") as file:
        brief = json.load(file)
    noon = [max(0, round(800 * math.cos((hour % 24 - 11.5) * math.pi / 12))) for hour in range(8760)]
    terminal.write("mine.csv", "# utc_offset_h: 0\nglobal_w_m2\n" + "\n".join(map(str, noon)) + "\n")
    brief["site"].setdefault("weather", {})["hourly_file"] = "mine.csv"
    path = terminal.write("own-hours.json", json.dumps(brief))
    kit = ranking["kits"][0]["id"]
    energy = json.loads(terminal.run("energy", path, kit, "--json").stdout)
    equal((energy["weather"]["years"], energy["weather"]["seed"], energy["year"]["years"]), (1, None, 1))
    holds(energy["weather"]["hourly_file"].endswith("mine.csv"), energy["weather"])
    text = terminal.run("energy", path, kit).stdout.decode()
    holds("your own hours" in text and "clock of the file" in text and "seed" not in text, text)
    beyond = terminal.run("energy", path, kit, "--hours", terminal.path("two.csv"), "--year", "2")
    equal(beyond.returncode, WRONG_USE)
    holds("from 1 to 1" in beyond.stderr.decode(), beyond.stderr)


def check_hour(hour, before):
    """Both balances of one hour."""
    given = hour["array_wh"] + hour["alternator_wh"] + hour["shore_wh"] + hour["drawn_wh"] + hour["unmet_wh"]
    taken = hour["need_wh"] + hour["idle_wh"] + hour["heater_wh"] + hour["charged_wh"] + hour["spilled_wh"]
    holds(abs(given - taken) <= 1e-9 * max(given, taken, 1), ("terminals", hour))
    if before is not None:
        kept = before["charge_wh"] + hour["stored_wh"] - hour["drained_wh"] - hour["lost_wh"]
        holds(abs(kept - hour["charge_wh"]) <= 1e-9 * max(kept, 1), ("bank", hour))


def read_hours(text):
    lines = text.splitlines()
    equal(lines[0].split(","), HOURS)
    return [dict(zip(HOURS, map(float, line.split(",")))) for line in lines[1:]]


def test_hours():
    """Every hour closes, and the months of the JSON are the sums of the hours."""
    path = terminal.path("hours.csv")
    energy = terminal.json("energy", with_shore(), "--hours", path)
    with open(path, encoding="utf-8") as file:
        written = file.read()
    rows = read_hours(written)
    years = energy["year"]["years"]
    equal(len(rows), 8760 * years)
    equal([(r["year"], r["day"], r["hour"]) for r in rows],
          [(y, d, h) for y in range(1, years + 1) for d in range(1, 366) for h in range(24)])
    for before, hour in zip([None] + rows, rows):
        check_hour(hour, before)
    for month in energy["year"]["months"]:
        first = sum(MONTH_DAYS[:month["month"] - 1])
        of = [r for r in rows if first < r["day"] <= first + MONTH_DAYS[month["month"] - 1]]
        asked = ("need_wh", "unmet_wh", "spilled_wh") if month["in_use"] else ()
        if not month["in_use"]:
            equal([month[key] for key in ("need_wh", "unmet_wh", "spilled_wh", "dark_h", "lowest_charge")], [None] * 5)
        for key in ("array_wh", "clipped_wh", "alternator_wh", "shore_wh") + asked:
            mean = sum(r[key] for r in of) / (len(of) / 24)
            holds(abs(mean - month[key]) <= 1e-6 * max(1, mean), (month["month"], key, mean, month[key]))
    holds(sum(r["shore_wh"] for r in rows) > 0, "shore power comes in")
    second = [line for line in written.splitlines()[1:] if line.startswith("2,")]
    terminal.text("energy", "shore.json", "--hours", path, "--year", "2")
    with open(path, encoding="utf-8") as file:
        equal(file.read().splitlines()[1:], second, "a file of hours is replaced, here by one year")
    equal(terminal.text("energy", "shore.json", "--hours", "-", "--year", "2").splitlines()[1:], second)


def test_hours_not_written():
    own = terminal.write("own.csv", "time,global_w_m2\n")
    os.mkdir(terminal.path("folder-of-hours"))
    for path in (own, terminal.path("folder-of-hours"), terminal.path("no-such-folder/h.csv"), "/dev/full"):
        said = one_sentence(terminal.run("energy", "demo", "--hours", path), FILE)
        holds(path in said, said)
    with open(own, encoding="utf-8") as file:
        equal(file.read(), "time,global_w_m2\n", "a person's own hours stay")
    with open("/dev/full", "wb") as full:
        done = terminal.run("energy", "demo", "--hours", "-", stdout=full)
    equal((done.returncode, done.stderr.count(b"\n")), (FILE, 1), done.stderr)


def test_shore():
    """Shore power has its column, and the supply adds up with it."""
    kit = terminal.json("explain", with_shore())["kit"]
    for month in kit["months"]:
        equal(month["shore_wh"] > 0, month["in_use"], month)
        supply = month["array_wh"] + month["alternator_wh"] + month["shore_wh"] - month["storing_loss_wh"]
        holds(abs(supply - month["supply_wh"]) <= 1e-6, month)
    text = terminal.text("explain", "shore.json")
    narrow(text.replace(kit["id"], ""))
    holds("Shore" in text and "array + alternator + shore - storing loss" in text, text)
    holds("Shore" not in terminal.text("explain", "demo"), "no column of nothing")


def test_explain_failing():
    parts = ranking["kits"][0]["parts"]
    name = "%s:3s4p/%s:1/%s:4s1p/none/none" % tuple(parts[k]["id"] for k in ("panel", "controller", "storage"))
    kit = terminal.json("explain", "demo", name)["kit"]
    equal((kit["rank"], kit["feasible"], kit["on_front"]), (None, False, False))
    stops = {f["code"] for f in kit["findings"] if f["severity"] == "stop" and not f["holds"]}
    holds({"roof-fit", "no-inverter"} <= stops, stops)
    holds("Why it does not work" in terminal.text("explain", "demo", name), name)


def demo_brief():
    with open(os.path.join(ROOT, "data", "demo.brief.json"), encoding="utf-8") as file:
        return json.load(file)


def first_at(weights):
    path = terminal.write("weights.json", json.dumps(dict(demo_brief(), weights=weights)))
    return terminal.json("rank", path, "--top", "1")["kits"][0]


def test_firmness():
    """Ranked anew with the weights it names: within its ranges the first stays, beyond the rival it names is first or level."""
    firm, first = ranking["totals"]["firmness"], ranking["kits"][0]
    weights = {line["criterion"]: line["weight"] for line in firm["ranges"]}
    equal(round(sum(weights.values()), 9), 1)
    holds(0 < firm["share"] < 1 and 0 < firm["moved"] < 1, firm)
    for line in firm["ranges"][:2]:
        name, now = line["criterion"], line["weight"]
        for end, other, way in ((line["low"], line["below"], -1), (line["high"], line["above"], 1)):
            for step, stays in ((-way * 1e-4, True), (way * 1e-4, False)):
                at = end + step
                tried = {key: at if key == name else weight * (1 - at) / (1 - now) for key, weight in weights.items()}
                kit = first_at(dict(tried, autonomy=0, spare_power=0))
                equal(kit["id"] == first["id"], stays)
                holds(stays or kit["id"] == other, (name, at, kit["id"], other))


def test_roof():
    """The layouts themselves: tests/cli/check_roof.py."""
    answer = terminal.json("roof", "demo")
    holds(len(answer["panels"]) >= 24, len(answer["panels"]))
    equal(answer["node_budget"], 200000)
    for panel in answer["panels"]:
        equal((panel["answer"], panel["layout_checked"], len(panel["layout"])), ("proved", True, panel["most"]), panel["panel"])
        equal(panel["most"], panel["bound"], panel["panel"])
        holds(0 <= panel["time_ms"] < 10000, panel["time_ms"])
    text = terminal.text("roof", "demo")
    narrow(text)
    for word in ("Roof load", "Fixing and wind", "Leaks", "Falls", "4 fit, 5 do not: proved"):
        holds(word in text, word)


def test_roof_change_lines():
    """Under each row of the table stands a change of the JSON output; with --panel stand all of them, and the proof."""
    answer = terminal.json("roof", "demo")
    text = " ".join(terminal.text("roof", "demo").split())
    for panel in answer["panels"]:
        said = text[text.index(" %s " % panel["panel"]):]
        told = [c for c in panel["changes"] if not c["kind"].startswith("panel-")]
        told = told or [c for c in panel["changes"] if c["by_mm"] <= 150]
        told = [c for c in told if c["proved"]] or told
        if told:
            holds(told[0]["sentence"] in said[:400], "%s: %s" % (panel["panel"], said[:400]))
    large = [int(by.replace(",", "")) for by in re.findall(r"([0-9,]+) mm too (?:long|wide)", text)]
    holds(max(large + [0]) <= 150, large)
    panel = terminal.json("roof", "demo", "--panel", "p-brambleray-100-rigid")["panels"][0]
    text = " ".join(terminal.text("roof", "demo", "--panel", "p-brambleray-100-rigid").split())
    for change in panel["changes"]:
        told = not change["kind"].startswith("panel-") or change["by_mm"] <= 150
        equal("- " + change["sentence"] in text, told, change["sentence"])
    holds("Proof that 5 do not fit: weights on %d square millimetres" % len(panel["proof"]["points"]) in text, text)
    holds("A checker of its own followed it." in text, text)


def test_roof_count():
    """Do N of a panel fit: yes with a layout of N, no with the proof, or not decided; and what the other limits say."""
    part = "p-brambleray-100-rigid"
    for n in (1, 3, 4, 5, 9):
        panel = terminal.json("roof", "demo", "--panel", part, "--count", str(n))["panels"][0]
        text = terminal.text("roof", "demo", "--panel", part, "--count", str(n))
        narrow(text)
        holds("Storage bay" not in text, text)
        equal((panel["count_asked"], panel["count_answer"]), (n, "fits" if n <= 4 else "does-not-fit"))
        equal((len(panel["layout"]), panel["layout_checked"]), (min(n, 4), True))
        if n <= 4:
            holds("Yes: %d of %s fit." % (n, part) in text and "Proof" not in text, text)
            holds(re.search(r"^ +%d +\d+ +\d+" % n, text, re.M) and not re.search(r"^ +%d +\d+ +\d+" % (n + 1), text, re.M), text)
            equal((panel["proof"], panel["changes"]), (None, None))
        else:
            holds("No: %d of %s do not fit; 4 do." % (n, part) in text, text)
            holds("Proof that %d do not fit" % panel["proof"]["panels"] in text and panel["proof"]["checked"], text)
            holds(4 < panel["proof"]["panels"] <= n, panel["proof"]["panels"])
            holds(all(len(change["layout"]) == n for change in panel["changes"]), n)
    holds("No: 1 of p-sundrell-450-rigid do not fit." in terminal.text("roof", "demo", "--panel", "p-sundrell-450-rigid", "--count", "1"), "450 W")
    brief = demo_brief()
    for members, why in (({"max_load_kg": 20}, "but the limit of the roof's load carries"), ({"standoff_mm": 30, "max_height_mm": 40}, "but they stand too high")):
        path = terminal.write("limits.json", json.dumps(dict(brief, roof=dict(brief["roof"], **members))))
        text = " ".join(terminal.text("roof", path, "--panel", part, "--count", "4").split())
        holds("No: there is room for 4 of %s, %s" % (part, why) in text, text)
    laid = terminal.json("roof", "demo", "--panel", part)["panels"][0]
    pin = [{"panel": part, "x_mm": r["x_mm"], "y_mm": r["y_mm"], "turned": r["length_mm"] != laid["length_mm"]} for r in laid["layout"][:2]]
    path = terminal.write("pinned.json", json.dumps(dict(brief, roof=dict(brief["roof"], pins=pin))))
    panel = terminal.json("roof", path, "--panel", part, "--count", "1")["panels"][0]
    equal((panel["pinned"], panel["most"], panel["count_answer"]), (2, 2, "fits"))
    open_one = [p for p in terminal.json("roof", "demo", "--nodes", "2")["panels"] if p["answer"] == "not-decided"][0]
    asked = ("roof", "demo", "--nodes", "2", "--panel", open_one["panel"], "--count", str(open_one["most"] + 1))
    equal(terminal.json(*asked)["panels"][0]["count_answer"], "not-decided")
    holds("is not decided within the budget" in " ".join(terminal.text(*asked).split()), asked)


def test_roof_searched():
    """What was searched through without a proof that can be shown is not called proved."""
    asked, fit_not = "p-tarnfeld-190-rigid", "p-orrelith-250-rigid"
    panels = {p["panel"]: p for p in terminal.json("roof", "demo", "--nodes", "1")["panels"]}
    for panel in panels.values():
        if panel["most"] == panel["bound"]:
            equal(panel["answer"], "proved" if panel["proof"] else "searched", panel["panel"])
    for part, words in ((asked, "2 fit, 3 do not: searched through"), (fit_not, "does not fit: searched through")):
        equal((panels[part]["answer"], panels[part]["proof"]), ("searched", None))
        text = " ".join(terminal.text("roof", "demo", "--nodes", "1", "--panel", part).split())
        holds(words in text and "proved" not in text.split("Roof load:")[0].split("Storage bay")[0], text)
        holds("Every way to lay one more was searched through, but no proof that can be checked apart was found" in text, text)
        holds("proved" in terminal.text("roof", "demo", "--panel", part), part)


def test_roof_mix():
    """The table begins with the first mix of the JSON output, and its panels are measured out."""
    first = terminal.json("roof", "demo", "--mix")["mixes"]["front"][0]
    text = terminal.text("roof", "demo", "--mix")
    narrow(text)
    words = " + ".join("%(count)d x %(panel)s" % c for c in first["counts"] if c["count"])
    holds(re.search(r"^%s +%d +" % (re.escape(words), first["power_w"]), text, re.M), words)
    for rect in first["layout"]:
        numbers = (rect["x_mm"], rect["x_mm"] + rect["length_mm"], rect["y_mm"], rect["y_mm"] + rect["width_mm"], rect["panel"])
        holds(re.search(r"\s+".join(("",) + tuple(map(str, numbers))), text), numbers)
    equal(terminal.json("roof", "demo")["mixes"], None)


def test_roof_mix_large():
    """Large panels of which only one or two lie there are mixed too, with what fills the rest; and it is told which."""
    large, small = "p-sundrell-450-rigid", "p-sundrell-55-flexible"
    hatch = {"name": "Hatch", "x_mm": 1900, "y_mm": 600, "length_mm": 500, "width_mm": 500, "clearance_mm": 30}
    brief = demo_brief()
    brief["roof"] = {"length_mm": 2600, "width_mm": 1900, "margin_mm": 30, "gap_mm": 20, "obstacles": [hatch]}
    path = terminal.write("large.json", json.dumps(dict(brief, candidates="all")))
    mixes = terminal.json("roof", path, "--mix")["mixes"]
    two = terminal.json("roof", terminal.write("two.json", json.dumps(dict(brief, candidates=[large, small]))), "--mix")["mixes"]
    for found in (mixes, two):
        equal({c["panel"]: c["count"] for c in found["front"][0]["counts"]}, {large: 1, small: 5})
        equal(found["front"][0]["power_w"], 725)
    # Chosen: the eight of most watts alone, then of the rest that fit those of most watts each.
    panels = {p["panel"]: p for p in terminal.json("roof", path)["panels"] if p["most"]}
    strong = [m["panel"] for m in mixes["mixed"] if m["chosen_for"] == "watts-alone"]
    chosen = [m["panel"] for m in mixes["mixed"] if m["chosen_for"] == "watts-of-one"]
    equal((len(strong), len(chosen), mixes["panels_mixed"]), (8, 4, 12))
    equal(strong, sorted(strong, key=lambda part: -panels[part]["power_w"]))
    rest = [p for p in panels if p not in strong]
    each = lambda part: panels[part]["power_w"] / panels[part]["most"]
    equal([each(part) for part in chosen], sorted(map(each, chosen), reverse=True))
    holds(chosen[0] == large and max(each(p) for p in rest) == 450, chosen)
    text = " ".join(terminal.text("roof", path, "--mix").split())
    holds("the largest of the rest that fit: %s. " % ", ".join(chosen) in text, text)


def test_roof_shade():
    """Tall things take light, more in winter; without heights nothing is said."""
    brief = demo_brief()
    equal([p["shade"] for p in terminal.json("roof", "demo")["panels"]], [None] * len(terminal.json("roof", "demo")["panels"]))
    brief["roof"]["obstacles"][0]["height_mm"] = 300
    path = terminal.write("tall.json", json.dumps(brief))
    panel = terminal.json("roof", path, "--panel", "p-orrelith-50-rigid")["panels"][0]
    shade = panel["shade"]
    equal((len(shade["months"]), len(shade["panels"])), (12, panel["most"]))
    holds(0 < shade["months"][5] < shade["months"][11] < 1, shade["months"])
    text = " ".join(terminal.text("roof", path, "--panel", "p-orrelith-50-rigid").split())
    holds("December %.1f %%" % (100 * shade["months"][11]) in text, text)


def test_roof_panel():
    """The table to measure out by is the JSON layout."""
    panel = terminal.json("roof", "demo", "--panel", "p-orrelith-175-rigid")["panels"]
    equal([p["panel"] for p in panel], ["p-orrelith-175-rigid"])
    text = terminal.text("roof", "demo", "--panel", "p-orrelith-175-rigid")
    narrow(text)
    for rect in panel[0]["layout"]:
        numbers = (rect["x_mm"], rect["x_mm"] + rect["length_mm"], rect["y_mm"], rect["y_mm"] + rect["width_mm"])
        holds(re.search(r"\s+".join(("",) + tuple(map(str, numbers)) + ("",)), text), numbers)


def test_roof_bay():
    """Boxes of 278 x 175 in 900 x 420: two rows of three; none stands where the bay is too low."""
    bay = {b["storage"]: b for b in terminal.json("roof", "demo")["bay"]}
    box = bay["b-grimsholt-12v-60-gel"]
    equal((box["most"], box["bound"]), (6, 6))
    brief = demo_brief()
    brief["bay"]["height_mm"] = box["height_mm"] - 1
    equal([b["most"] for b in terminal.json("roof", terminal.write("low.json", json.dumps(brief)))["bay"]
           if b["storage"] == box["storage"]], [0])
    brief["bay"] = None
    equal(terminal.json("roof", terminal.write("no-bay.json", json.dumps(brief)))["bay"], [])


def test_roof_bay_one_way():
    """Boxes of 330 x 173 in 900 x 420: five where they may turn, two rows of two where they must not."""
    catalogue = json.loads(terminal.text("catalogue", "export", "-"))
    for part in catalogue["storage"]:
        part["must_not_turn"] = part["id"] == "b-pellawatt-12v-100-lfp"
    one_way = terminal.write("one-way.json", json.dumps(catalogue))
    before, after = ({b["storage"]: (b["most"], b["bound"]) for b in terminal.json("roof", "demo", *more)["bay"]}
                     for more in ((), ("--catalogue", one_way)))
    equal((before.pop("b-pellawatt-12v-100-lfp"), after.pop("b-pellawatt-12v-100-lfp")), ((5, 5), (4, 4)))
    equal(after, before)


def near(got, wanted, share):
    holds(abs(got - wanted) <= share * abs(wanted), "got %r, wanted %r" % (got, wanted))


class Curve:
    """A panel's curve from its data-sheet figures, METHOD 6a."""

    def __init__(self, panel):
        self.isc, self.voc, rest = panel["isc_a"], panel["voc_v"], 1 - panel["imp_a"] / panel["isc_a"]
        self.c2 = (panel["vmp_v"] / self.voc - 1) / math.log(rest)
        self.c1 = rest * math.exp(-panel["vmp_v"] / (self.c2 * self.voc))
        self.bypass = -0.5 * math.ceil(panel["cells"] / 24)

    def amps(self, volts):
        return self.isc * (1 - self.c1 * (math.exp(min(700, volts / (self.c2 * self.voc))) - 1))

    def volts(self, amps):
        """By halving, as another way than the program's logarithm; None of it below the bypass."""
        if self.amps(0) < amps:
            return self.bypass
        low, high = 0, 2 * self.voc
        for _ in range(60):
            middle = (low + high) / 2
            low, high = (middle, high) if self.amps(middle) > amps else (low, middle)
        return low


def highest(power, most):
    """(power, x) on a fine grid; power falls off by the square beside the top, so the grid costs next to nothing."""
    return max((power(most * i / 4000), most * i / 4000) for i in range(1, 4001))


def test_together():
    """Watts together and apart against a computation of their own; what passes by, takes back and is fused."""
    panels = {p["id"]: p for p in json.loads(terminal.text("catalogue", "export", "-"))["panels"]}
    for runs in ([("p-brambleray-100-rigid", 1), ("p-orrelith-175-rigid", 1)], [("p-orrelith-20-rigid", 1), ("p-sundrell-450-rigid", 3)],
                 [("p-orrelith-100-rigid", 2), ("p-brambleray-200-rigid-24v", 1), ("p-orrelith-100-rigid", 2)]):
        answer = terminal.json("together", *["%sx%d" % run if run[1] > 1 else run[0] for run in runs])
        curves = [(Curve(panels[name]), n) for name, n in runs]
        apart = sum(n * highest(lambda v: v * c.amps(v), c.voc)[0] for c, n in curves)
        series, amps = highest(lambda a: a * sum(n * c.volts(a) for c, n in curves), max(c.isc for c, _ in curves))
        parallel, volts = highest(lambda v: v * sum(c.amps(v / n) for c, n in curves), max(n * c.voc for c, n in curves))
        near(answer["apart_w"], apart, 1e-4)
        near(answer["series"]["power_w"], series, 1e-4)
        near(answer["series"]["current_a"], amps, 0.01)
        near(answer["parallel"]["power_w"], parallel, 1e-4)
        near(answer["parallel"]["voltage_v"], volts, 0.01)
        for way, together in (("series", series), ("parallel", parallel)):
            near(1 - answer[way]["lost_share"], together / apart, 1e-3)
            near(sum(s["power_w"] for s in answer[way]["strings"]), answer[way]["power_w"], 1e-9)
            equal([c["cell_c"] for c in answer[way]["open_circuit"]], [25, -10, -25, -40])
        near(answer["series"]["open_circuit"][0]["voltage_v"], sum(n * c.voc for c, n in curves), 1e-12)
        near(answer["parallel"]["open_circuit"][0]["voltage_v"], max(n * c.voc for c, n in curves), 1e-12)
        for string, (own, _) in zip(answer["parallel"]["strings"], curves):
            near(string["back_a"], 1.25 * (sum(c.isc for c, _ in curves) - own.isc), 1e-9)
    alike = terminal.json("together", "p-orrelith-50-rigidx2")
    near(alike["series"]["power_w"], alike["apart_w"], 1e-9)
    passed = terminal.json("together", "series", "p-orrelith-20-rigid", "p-sundrell-450-rigidx3")
    equal(passed["parallel"], None)
    equal(passed["series"]["strings"][0]["voltage_v"], -1)
    holds("pass p-orrelith-20-rigid by" in passed["series"]["sentence"], passed["series"]["sentence"])


def test_together_cautions():
    def said(*arguments):
        return terminal.text("together", *arguments).replace("\n    ", " ")
    long_string = said("series", "p-sundrell-55-flexiblex6", "p-sundrell-110-flexible")
    holds("at -10 °C that is more than the 150 V the maker of p-sundrell-55-flexible allows" in said("series", "p-sundrell-55-flexiblex5", "p-orrelith-250-rigid"),
          "146.8 V at 25 °C, over 150 V colder")
    holds("at 25 °C that is more than the 150 V" in long_string, long_string)
    fused = said("parallel", "p-orrelith-100-rigid", "p-tarnfeld-300-rigid", "p-tarnfeld-300-rigid")
    holds("can drive 24.3 A into a faulty p-orrelith-100-rigid" in fused and "of at most 15.0 A" in fused, fused)
    calm = said("p-orrelith-50-rigid", "p-orrelith-80-rigid")
    holds("currents differ by 38.3 %; over 5 %" in calm and "currents differ" not in said("p-orrelith-50-rigidx2"), calm)
    holds("cannot drive more into a faulty one" in calm and "maker of" not in calm, calm)
    holds("names no highest system voltage" in said("p-papyrel-30-flexible", "p-papyrel-100-flexible"), "a limit not given")
    narrow(terminal.text("together", "p-orrelith-50-rigidx2", "p-brambleray-200-rigid-24v", "p-papyrel-100-flexible"))


def test_together_wrong():
    for arguments, wanted in ((["p-orrelith-5-rigid", "p-orrelith-80-rigid"], "did you mean p-orrelith-"),
                              (["p-orelith-80-rigidx2"], "did you mean p-orrelith-80-rigid?"), (["paralel", "a", "b"], "did you mean parallel?"),
                              (["p-orrelith-50-rigid", "series"], "before the panels"), (["p-orrelith-50-rigid"], "at least two panels"),
                              (["p-orrelith-50-rigidx0", "p-orrelith-80-rigid"], "from 1 to 20, not “0”"),
                              (["p-orrelith-50-rigidx21"], "not “21”"), (["p-orrelith-50-rigidx-2"], "not “-2”"),
                              (["p-orrelith-50-rigidx1.5"], "not “1.5”"), (["p-orrelith-50-rigidx" + "9" * 5000], "not “999"),
                              (["p-orrelith-50-rigid"] * 17, "at most 16"), (["", ""], "no panel “”"), (["x" * 5000, "x"], "no panel “xxx")):
        said = one_sentence(terminal.run("together", *arguments), WRONG_USE)
        holds(wanted in said and len(said) < 300, said)


def test_catalogue():
    first, second = terminal.path("a.json"), terminal.path("b.json")
    terminal.text("catalogue", "export", first)
    exported = terminal.text("catalogue", "export", "-")
    with open(first, encoding="utf-8") as file:
        equal(file.read(), exported)
    before = terminal.json("catalogue", "check", first)["counts"]
    equal(before, terminal.json("catalogue", "check", terminal.database())["counts"])
    catalogue = json.loads(exported)
    catalogue["offers"][0]["price_minor"] += 100
    catalogue["panels"].append(dict(catalogue["panels"][0], id="p-of-the-test"))
    terminal.write("c.json", json.dumps(catalogue))
    other = terminal.path("other.db")
    report = terminal.json("catalogue", "import", terminal.path("c.json"), "--catalogue", other, "--preview")
    equal((report["added"], report["changed"]), (1, 1))
    holds(not os.path.exists(other), "a preview made a database")
    equal(terminal.json("catalogue", "import", terminal.path("c.json"), "--catalogue", other)["added"], 1)
    terminal.text("catalogue", "export", second, "--catalogue", other)
    equal(terminal.json("catalogue", "check", second)["counts"]["panels"], before["panels"] + 1)
    again = terminal.json("catalogue", "import", second, "--catalogue", other)
    equal((again["added"], again["changed"]), (0, 0))
    one_sentence(terminal.run("catalogue", "export", other), FILE)
    terminal.text("catalogue", "check", other)


def test_catalogue_answers():
    """The same answer from the database, its export, and the export with its rows turned round."""
    catalogue = json.loads(terminal.text("catalogue", "export", "-"))
    for rows in catalogue.values():
        if isinstance(rows, list):
            rows.reverse()
    terminal.write("turned.json", json.dumps(catalogue))
    equal(terminal.json("rank", "demo", "--top", "40", "--catalogue", terminal.path("turned.json")), ranking)


def test_brief():
    new = terminal.text("brief", "--new")
    path = terminal.write("mine.json", new)
    holds("mine.json" in terminal.text("brief", "check", path), path)
    demo = os.path.join(ROOT, "data", "demo.brief.json")
    equal(terminal.json("rank", demo, "--top", "40"), ranking)
    with open(demo, "rb") as file:
        equal(terminal.json("rank", "-", "--top", "40", stdin=file.read()), ranking)
    terminal.write("demo", new)
    named = json.loads(terminal.run("rank", "demo", "--json").stdout)
    os.remove(terminal.path("demo"))
    equal(named["brief"], json.loads(new)["name"])


def test_brief_read_out():
    """What brief check understood of rules, sources, weather and wiring, and which lengths nobody measured."""
    told = terminal.json("brief", "check", "demo")
    with open(os.path.join(ROOT, "data", "demo.brief.json"), encoding="utf-8") as file:
        demo = json.load(file)
    equal((told["rule_set"], told["dark_hours"], told["driving"], told["shore"]),
          (demo["rule_set"], demo["limits"]["dark_hours"], demo["driving"], None))
    equal(told["weather"], {"years": 10, "seed": 1, "hourly_file": None})
    equal(told["wiring"], dict(demo["wiring"], roof_c=65, inside_assumed=False, roof_assumed=True, lengths_assumed=[],
                               load_lengths_m=[load["length_m"] for load in demo["loads"]]))
    text = terminal.text("brief", "check", "demo")
    for words in ("Bank to bus bars 0.45 m", "Compressor fridge, 40 l 2.60 m", "sizes metric", "alternator 90.0 A", "limit 100.0 a year", "seed 1"):
        holds(words in " ".join(text.split()), words)
    holds("to be measured" not in text and "Shore charger to bus bars" not in text, text)
    old = json.loads(terminal.text("brief", "--new"))
    del old["wiring"]
    old["shore"] = {"nights_per_week": 2, "charger_a": 10}
    path = terminal.write("old.json", json.dumps(old))
    wiring = terminal.json("brief", "check", path)["wiring"]
    equal((wiring["on"], wiring["lengths_assumed"], wiring["lengths_m"]["main"], wiring["bundled"]), (True, list(wiring["lengths_m"]), 0.5, 3))
    text = " ".join(terminal.text("brief", "check", path).split())
    holds("Lengths assumed, to be measured: Panel string 2.00 m" in text and "Shore charger to bus bars 1.50 m" in text, text)
    holds("Starter battery" not in text and "2.00 nights a week, charger 10.0 A" in text, text)
    old["wiring"] = {"on": False}
    terminal.write("old.json", json.dumps(old))
    holds("Wiring: switched off" in terminal.text("brief", "check", path), "off")


def test_nothing_ticked():
    brief = json.loads(terminal.text("brief", "--new"))
    brief["candidates"] = []
    done = terminal.run("rank", terminal.write("unticked.json", json.dumps(brief)))
    equal(done.returncode, NO_KIT)
    for kind in (b"panel", b"controller", b"storage"):
        holds(kind in done.stderr, "%s is not named: %s" % (kind, done.stderr))


def test_no_kit():
    with open(os.path.join(ROOT, "data", "demo.brief.json"), encoding="utf-8") as file:
        brief = json.load(file)
    brief["limits"]["money_minor"]["value"] = 1
    path = terminal.write("poor.json", json.dumps(brief))
    done = terminal.run("rank", path, "--json")
    equal(done.returncode, NO_KIT, done.stderr)
    totals = json.loads(done.stdout)["totals"]
    equal(totals["feasible"], 0)
    alone = {rule["code"]: rule["alone"] for rule in totals["ruled_out"]}
    before = {rule["code"]: rule["alone"] for rule in ranking["totals"]["ruled_out"]}
    # The dark hours are not looked at where anything else fails.
    equal(alone["money"], ranking["totals"]["feasible"] + before["money"] + before["dark-hours"], "those that worked now fail by money alone")
    one_sentence(terminal.run("explain", path), NO_KIT)
    one_sentence(terminal.run("energy", path, "--hours", terminal.path("poor.csv")), NO_KIT)
    holds(not os.path.exists(terminal.path("poor.csv")), "no hours of no kit")
    narrow(terminal.run("rank", path).stdout.decode())


def test_left_out():
    """A part without offers stands under no price; an offer without a rate is left out by name."""
    with open(os.path.join(ROOT, "data", "demo.brief.json"), encoding="utf-8") as file:
        brief = json.load(file)
    catalogue = json.loads(terminal.text("catalogue", "export", "-"))
    victim = next(p["id"] for p in catalogue["panels"] if p["id"] != brief["owned"][0]["part"])
    catalogue["offers"] = [o for o in catalogue["offers"] if o["part_id"] != victim]
    brief["rates"].pop("GBP")
    terminal.write("thin.json", json.dumps(catalogue))
    terminal.write("thin-brief.json", json.dumps(brief))
    totals = terminal.json("rank", "thin-brief.json", "--catalogue", "thin.json")["totals"]
    holds(victim in [part["id"] for part in totals["no_price"]], totals["no_price"])
    shops = {shop["id"]: shop["currency"] for shop in catalogue["shops"]}
    ticked = {p["id"] for kind in ("panels", "controllers", "storage", "inverters", "dcdc") for p in catalogue[kind]}
    wanted = sorted((o["part_id"], o["shop_id"], o["price_minor"]) for o in catalogue["offers"]
                    if o["part_id"] in ticked and "GBP" in (o["currency"], shops[o["shop_id"]]))
    holds(wanted, "the starting catalogue has offers in GBP")
    equal(sorted((o["part"], o["shop"], o["price_minor"]) for o in totals["no_rate"]), wanted)


def test_not_read():
    """Unknown members are named on standard error and in JSON, comments are not, and the exit code stays."""
    brief = json.loads(terminal.text("brief", "--new"))
    brief["loads"][0]["dutty"] = 0.5
    brief["// note"] = "a comment"
    terminal.write("slip.json", json.dumps(brief))
    line = "Not read: /loads/0/dutty"
    for command in (["brief", "check", "slip.json"], ["rank", "slip.json"], ["explain", "slip.json"], ["roof", "slip.json"]):
        for more in ([], ["--json"]):
            done = terminal.run(*command, *more)
            equal(done.returncode, DONE, command)
            holds(line in done.stderr.decode(), done.stderr)
            holds("note" not in done.stderr.decode(), done.stderr)
        equal([m["pointer"] for m in json.loads(done.stdout)["not_read"]], ["/loads/0/dutty"])
    catalogue = json.loads(terminal.text("catalogue", "export", "-"))
    panel = catalogue["panels"][0]
    panel["nocct"] = panel.pop("noct_c")
    terminal.write("slip-catalogue.json", json.dumps(catalogue))
    for command in (["check", "slip-catalogue.json"], ["import", "slip-catalogue.json", "--preview"]):
        done = terminal.run("catalogue", *command, "--json")
        equal((done.returncode, done.stderr.decode()), (DONE, "Not read: /panels/0/nocct; did you mean noct_c?\n"))
        equal(json.loads(done.stdout)["not_read"], [{"pointer": "/panels/0/nocct", "nearest": "noct_c"}])


def test_check_says_what_it_read():
    text = terminal.text("brief", "check", "demo")
    narrow(text)
    for words in ("Nantes", "March to October", "Router", "48 Wh", "2,600.00 EUR", "120.0 kg", "1.5 days", "3420 x 1700", "obstacles: 5", "panels 31"):
        holds(words in text, words)
    roof = terminal.json("roof", "demo")
    holds("%.2f m2 are clear of margin and obstacles" % roof["clear_area_m2"] in " ".join(text.split()), text)
    same = terminal.json("brief", "check", "demo")
    equal((same["clear_area_m2"], same["nothing_left"]), (roof["clear_area_m2"], None))


def test_check_of_no_roof():
    """A margin or a clearance that leaves nothing of the roof: the brief is not called sound."""
    brief = demo_brief()
    vent = {"name": "Vent", "x_mm": 1500, "y_mm": 700, "length_mm": 400, "width_mm": 400, "clearance_mm": 4000}
    for members, why in (({"margin_mm": 900}, "The margin of 900 mm leaves nothing of the roof."),
                         ({"obstacles": [vent]}, "Vent, with its clearance of 4000 mm, leaves nothing of the roof.")):
        path = terminal.write("no-roof.json", json.dumps(dict(brief, roof=dict(brief["roof"], **members))))
        text = " ".join(terminal.text("brief", "check", path).split())
        holds("sound" not in text and "can be read, but no panel can lie on the roof" in text and why in text, text)
        given = terminal.json("brief", "check", path)
        equal((given["clear_area_m2"], given["nothing_left"]), (0, why))


def test_rates_in_one_line():
    brief = json.loads(terminal.text("brief", "--new"))
    brief["rates"] = {}
    brief["limits"]["money_minor"]["value"] = 1800
    terminal.write("no-rates.json", json.dumps(brief))
    done = terminal.run("rank", "no-rates.json")
    lines = re.findall(r"^No rate: (\d+) offers? in ([A-Z]{3}) .*add ([A-Z]{3}) to /rates", done.stdout.decode(), re.M)
    holds(lines and all(own == cure for _, own, cure in lines), lines)
    equal(len({own for _, own, _ in lines}), len(lines))
    full = json.loads(terminal.run("rank", "no-rates.json", "--json").stdout)["totals"]
    equal(sum(int(n) for n, _, _ in lines), len(full["no_rate"]))
    alone = max(rule["alone"] for rule in full["ruled_out"])
    equal(done.returncode, NO_KIT)
    holds("{:,} would work but for one thing".format(alone) in done.stderr.decode(), done.stderr)


def test_help_of_the_rest():
    for word in ("open", "help"):
        holds(terminal.text("help", word).startswith("Usage: wattberth "), word)


def test_places():
    everywhere = terminal.json("places")["places"]
    holds(len(everywhere) > 50, len(everywhere))
    nantes = terminal.json("places", "NANTES")["places"]
    equal([place["id"] for place in nantes], ["nantes-france"])
    for place in everywhere:
        equal([len(place[k]) for k in ("ghi_kwh_m2_day", "air_mean_c", "air_max_c", "air_min_c")], [12] * 4, place["id"])
        holds(abs(place["design_cold_c"] - (min(place["air_min_c"]) - 15)) < 1e-9, place["id"])
        holds(place["kind"] and place["source"], place["id"])
    narrow(terminal.text("places"))
    for text in ("Coruña", "CORUNA", "coruña"):
        equal([place["id"] for place in terminal.json("places", text)["places"]], ["a-coruna-spain"])
    holds("No built-in place" in terminal.text("places", "atlantis under the sea"), "nothing found is said")


def test_without_display():
    equal(terminal.text(), terminal.text("rank", "demo"))
    said = one_sentence(terminal.run(os.path.join(ROOT, "data", "demo.brief.json")), DISPLAY)
    holds("demo.brief.json" in said, said)


def huge_brief():
    with open(os.path.join(ROOT, "data", "demo.brief.json"), encoding="utf-8") as file:
        brief = json.load(file)
    brief["largest"] = {k: 20 for k in ("series", "parallel", "controllers", "bank_series", "bank_parallel")}
    for limit in brief["limits"].values():
        limit["on"] = False
    brief["targets"]["autonomy_days"] = 0.01
    return terminal.write("huge.json", json.dumps(brief))


def test_progress():
    """Work of minutes tells how far it is on a terminal, and an interrupt ends it."""
    ours, theirs = pty.openpty()
    work = subprocess.Popen([terminal.program, "rank", huge_brief(), "--catalogue", terminal.database()],
                            stdout=subprocess.DEVNULL, stderr=theirs, preexec_fn=lambda: signal.signal(signal.SIGINT, signal.SIG_DFL))
    os.close(theirs)
    said = b""
    while b" %" not in said:
        holds(select.select([ours], [], [], 120)[0], "nothing is told")
        said += os.read(ours, 1000)
    work.send_signal(signal.SIGINT)
    equal(work.wait(timeout=20), -signal.SIGINT)
    os.close(ours)
    holds(b"Ranking" in said, said)


def test_output_full():
    with open("/dev/full", "wb") as full:
        done = terminal.run("--help", stdout=full)
    equal(done.returncode, FILE, done.stderr)
    equal(done.stderr.count(b"\n"), 1)


main([
    ("help, and that the manual page holds all of it", test_help),
    ("the manual page", test_manual_page),
    ("version", test_version),
    ("a part without a price", test_no_price),
    ("a new brief", test_new_brief_ranks),
    ("a wrong command line", test_wrong_use),
    ("every JSON key is documented", test_keys_documented),
    ("totals add up", test_totals),
    ("kits of rank", test_kits),
    ("the best kit of each chemistry", test_chemistries),
    ("the front against its definition", test_front),
    ("table of rank", test_rank_table),
    ("explain", test_explain),
    ("explain: the hourly year", test_explain_year),
    ("explain: shore power", test_shore),
    ("energy", test_energy),
    ("energy: own hours", test_energy_own_hours),
    ("energy: the worksheet", test_worksheet),
    ("energy: the worksheet without sun", test_worksheet_without_sun),
    ("energy: the hours", test_hours),
    ("energy: hours that cannot be written", test_hours_not_written),
    ("explain a kit that fails", test_explain_failing),
    ("how firmly the first stands", test_firmness),
    ("roof answers", test_roof),
    ("roof: the least change under each row", test_roof_change_lines),
    ("roof: do N of a panel fit", test_roof_count),
    ("roof: searched through, without a proof", test_roof_searched),
    ("roof: the best mixes", test_roof_mix),
    ("roof: mixes of one large panel and small ones", test_roof_mix_large),
    ("roof: shade of tall things", test_roof_shade),
    ("roof: one panel in full", test_roof_panel),
    ("roof: the storage bay", test_roof_bay),
    ("roof: a battery that must not turn", test_roof_bay_one_way),
    ("together", test_together),
    ("together: cautions", test_together_cautions),
    ("together: a wrong command line", test_together_wrong),
    ("catalogue export, import, check", test_catalogue),
    ("the catalogue's order changes nothing", test_catalogue_answers),
    ("brief", test_brief),
    ("brief check: what was understood", test_brief_read_out),
    ("nothing ticked is said by kind", test_nothing_ticked),
    ("no kit works", test_no_kit),
    ("left out by name", test_left_out),
    ("places", test_places),
    ("what is not read is said", test_not_read),
    ("brief check says what it read", test_check_says_what_it_read),
    ("brief check of a brief without a roof to lie on", test_check_of_no_roof),
    ("one line a currency without a rate", test_rates_in_one_line),
    ("help of open and help", test_help_of_the_rest),
    ("without a display", test_without_display),
    ("progress", test_progress),
    ("a full disk behind standard output", test_output_full),
])
