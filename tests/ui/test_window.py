#!/usr/bin/python3
"""test_window.py PROGRAM: the real window, driven as a person would drive it. TAP on standard output."""
import json
import os
import re
import time

from drive import GLib, until
from story import Story, tell

KITS = re.compile("^Kits that work")
PAGES = ["loads", "place", "roof", "parts", "ranking", "storage", "kit", "shopping"]
NAMED = ("push button", "toggle button", "check box", "radio button", "text", "entry", "slider", "combo box",
         "spin button", "image", "tree table")


class Window(Story):
    def begin(self):
        """The first step starts the program, and says how long that took."""

    def first(self):
        """First row of the ranking: its cells, and the parts of the kit in hand as the page names them. How many are like
        it is left out: dark hours, which come behind the first answer, may rule some of them out."""
        self.show("ranking")
        table = self.program.one("tree table", KITS, seconds=60)
        rows = until(lambda: table.rows(1), 60, "a first row")
        parts = self.program.one("label", re.compile(r"^\d+ × .*\n"), seconds=10).text
        return [rows[0][0].split()[0]] + rows[0][1:], parts

    def first_differs(self, old):
        return until(lambda: self.first() if self.first() != old else None, 60, "another first row than %s" % (old,))

    def start(self):
        began = time.monotonic()
        self.program = self.desk.start([self.program_path])
        print("# window after %.2f s" % self.program.seconds_to_window)
        self.beginning = self.first()
        print("# first ranking seen after %.2f s" % (time.monotonic() - began))
        rank, words = self.beginning[0][:2]
        assert rank.split()[0] == "1" and "W" in words, self.beginning

    def edit_a_load(self):
        self.show("loads")
        watts = self.program.one("text", re.compile("^Power of Compressor fridge"), rows=True)
        assert watts.text == "45", watts.text
        watts.enter("60")
        self.hungry = self.first_differs(self.beginning)

    def undo_and_redo(self):
        self.desk.keys("ctrl+z")
        until(lambda: self.first() == self.beginning, 60, "the first row of before")
        self.desk.keys("ctrl+shift+z")
        until(lambda: self.first() == self.hungry, 60, "the first row after the edit")
        self.desk.keys("ctrl+z")
        until(lambda: self.first() == self.beginning, 60, "the first row of before")

    def refuse_a_wrong_value(self):
        self.show("loads")
        watts = self.program.one("text", re.compile("^Power of Compressor fridge"), rows=True)
        watts.enter("-5")
        self.program.one("status bar", re.compile("Compressor fridge.*0 or more.*-5"))
        self.desk.keys("Escape")
        until(lambda: watts.text == "45", 5, "the old value")
        assert self.first() == self.beginning

    def untick_the_panel(self):
        panel = re.sub(r"^\d+ × ", "", self.beginning[1].split("\n")[0])
        self.show("parts")
        search = self.program.one(None, "Search parts")
        word = panel.split()[-2]
        search.enter(word)  # its row may lie below the edge
        found = lambda: self.program.all("check box", re.compile("^Use "), rows=True)
        until(lambda: found() and all(word in box.name for box in found()), 20, "the rows found, none else")
        tick = self.program.one("check box", "Use " + panel, rows=True)
        assert tick.checked
        tick.press()
        until(lambda: not tick.checked, 5, "the tick to go")
        search.enter(" ")
        _, parts = self.first_differs(self.beginning)
        assert panel not in parts, (panel, parts)
        self.without = self.first()

    def edit_a_part(self):
        """An unlikely figure is questioned and kept, an impossible one refused; both beside the field."""
        self.show("parts")
        voltage = self.program.one("text", "Open-circuit voltage")
        old = voltage.text
        voltage.enter("221")
        self.program.one("label", re.compile("^Is this right"))
        voltage.enter("-3")
        self.program.one("label", re.compile("cannot be; accepted is"))
        voltage.enter(old)
        until(lambda: not self.program.all("label", re.compile("^Is this right|cannot be")), 5, "the notes to go")
        assert voltage.text == old and self.first() == self.without

    def save(self):
        path = os.path.join(self.folder, "plover.json")
        self.program.activate("save-as-path", GLib.Variant("s", path), 1)
        until(lambda: os.path.exists(path), 10, "the file")
        with open(path) as file:
            brief = json.load(file)
        assert isinstance(brief["candidates"], list) and brief["loads"][0]["watts"] == 45
        self.path = path

    def reopen(self):
        with open(self.path, "rb") as file:
            before = file.read()
        assert self.program.end() == 0 and not self.program.warnings(), self.program.warnings()
        self.program = self.desk.start([self.program_path, self.path])
        until(lambda: self.first() == self.without, 60, "the ranking of the saved brief")
        again = os.path.join(self.folder, "again.json")
        self.program.activate("save-as-path", GLib.Variant("s", again), 1)
        until(lambda: os.path.exists(again), 10, "the second file")
        with open(again, "rb") as file:
            assert file.read() == before

    def open_a_damaged_file(self):
        path = os.path.join(self.folder, "cut.json")
        with open(path, "w") as file:
            file.write('{"format": "wattberth-brief", "version": 1, "loads": [')
        self.program.activate("open-path", GLib.Variant("s", path), 1)
        sentence = self.program.one("status bar", re.compile("cut.json")).name
        assert "line 1" in sentence, sentence
        assert self.first() == self.without

    def reach_by_keyboard(self):
        self.desk.keys("alt+4")
        self.program.one("tree table", "Parts of this kind")
        self.desk.keys("alt+5")
        self.program.one("tree table", KITS)

    def choose_a_point(self):
        self.show("ranking")
        self.desk.keys("alt+5")
        points = self.program.one("image", re.compile(" against "))
        points.press()
        self.desk.keys("End", "Return")
        place = until(lambda: self.program.all("label", re.compile("^Number (?!1 )|^Works, beyond")), 10,
                      "another kit in hand")[0].text
        assert "score" in place and "kits" in points.description, (place, points.description)

    def name_everything(self):
        nameless = []
        for page in PAGES:
            self.show(page)
            time.sleep(0.3)
            for item in self.program.all(None):
                role = item.role
                if role not in NAMED or (item.name and not re.match(r"Gtk[A-Z]|Wb[A-Z]", item.name)):
                    continue
                # The button inside a drop-down is spoken for by the drop-down.
                if item.parent.role != "combo box" or re.match("Gtk", item.parent.name):
                    nameless.append("%s on %s: %r at %s" % (role, page, item.name, item.box))
        assert not nameless, "\n".join(nameless)

    def stay_in_place(self):
        """Nothing sticks out of the box it stands in, so nothing lies over its neighbour."""
        out = []
        for page in PAGES:
            self.show(page)
            time.sleep(0.3)
            for item in self.program.all(None):
                parent = item.parent
                if parent.name != "GtkBox":
                    continue
                _, top, _, height = item.box
                _, parent_top, _, parent_height = parent.box
                if top + height > parent_top + parent_height + 1:
                    out.append("%s %r on %s" % (item.role, item.name, page))
        assert not out, "\n".join(out)


tell(Window, [Window.start, Window.edit_a_load, Window.undo_and_redo, Window.refuse_a_wrong_value,
              Window.untick_the_panel, Window.edit_a_part, Window.save, Window.reopen, Window.open_a_damaged_file,
              Window.reach_by_keyboard, Window.choose_a_point, Window.name_everything, Window.stay_in_place,
              Window.close])
