"""Desktop entry, metainfo and icon: named by the application's id and saying the same; and that
every source file with words for people stands in po/POTFILES.in, sorted."""

import configparser
import pathlib
import re
import sys
import xml.etree.ElementTree as ET

from tap import Tap

ROOT = pathlib.Path(sys.argv[1])
DATA = ROOT / "data"
ID = "org.wattberth.Wattberth"
TAP = Tap()

desktop = configparser.ConfigParser(interpolation=None, delimiters=("=",))
desktop.optionxform = str
desktop.read(DATA / f"{ID}.desktop", encoding="utf-8")
ENTRY = desktop["Desktop Entry"]
META = ET.parse(DATA / f"{ID}.metainfo.xml").getroot()
ICON = ET.parse(DATA / f"{ID}.svg").getroot()

TAP.check("desktop entry has what it needs",
          [key for key in ("Type", "Name", "Comment", "Exec", "Icon", "Categories") if not ENTRY.get(key)])
TAP.check("desktop entry starts the program under its icon",
          [] if ENTRY["Exec"].split()[0] == "wattberth" and ENTRY["Icon"] == ID else [ENTRY["Exec"], ENTRY["Icon"]])
TAP.check("lists of the desktop entry end in a semicolon",
          [key for key in ("Categories", "Keywords") if not ENTRY[key].endswith(";")])
TAP.check("metainfo tells the id, the name, the licence and the launcher",
          [tag for tag, text in (("id", ID), ("name", ENTRY["Name"]), ("project_license", "GPL-3.0-or-later"),
                                 ("launchable", f"{ID}.desktop"), ("summary", ENTRY["Comment"]))
           if META.findtext(tag) != text])
VERSION = re.search(r"version: '([^']+)'", (ROOT / "meson.build").read_text("utf-8")).group(1)
TAP.check("metainfo knows this version",
          [] if VERSION in [r.get("version") for r in META.iter("release")] else [f"no release {VERSION}"])
TAP.check("icon is a square with a title",
          [] if ICON.get("width") == ICON.get("height") and ICON.findtext("{http://www.w3.org/2000/svg}title")
          else ["not so"])
TAP.check("LICENSE is the GPL, version 3", [] if "Version 3, 29 June 2007" in (ROOT / "LICENSE").read_text("utf-8")
          else ["another text"])

LISTED = [line for line in (ROOT / "po/POTFILES.in").read_text("utf-8").splitlines()
          if line and not line.startswith("#")]
WORDED = [str(path.relative_to(ROOT)) for folder in ("app", "ui", "include") for path in (ROOT / folder).rglob("*")
          if path.suffix in (".c", ".h", ".ui")
          and re.search(r'\bN?C?_\s*\(\s*"|translatable="yes"', path.read_text("utf-8"))]
TAP.check("po/POTFILES.in is sorted and names files that are there",
          ["not sorted"] * (LISTED != sorted(LISTED)) + [f for f in LISTED if not (ROOT / f).exists()])
TAP.check("po/POTFILES.in names every file with words", sorted(set(WORDED) - set(LISTED)))
TAP.done()
