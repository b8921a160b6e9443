#!/usr/bin/python3
"""test_ranking.py PROGRAM: the ranking page driven as a person would: brush, chips, columns, all rows. TAP on standard output."""
import re
import time

from drive import until
from story import Story, tell

KITS = re.compile("^Kits that work")
POINTS = re.compile(" against ")


def number(text):
    return int(re.sub(r"\D", "", text))


class Ranking(Story):
    def begin(self):
        """The first step starts the program."""

    def start(self):
        self.program = self.desk.start([self.program_path])
        self.show("ranking")
        self.table = self.program.one("tree table", KITS, seconds=60)
        until(lambda: self.table.rows(1), 60, "a first row")
        self.all = until(self.settled, 60, "a ranking that stays")
        assert self.all[1] > 1000 and self.all[0] >= 1000, self.all

    def count(self):
        """Kits shown, kits that work."""
        text = self.program.one("label", re.compile("of .* kits shown|^All .* that work")).text
        parts = re.split(" of ", text)
        return (number(parts[0]), number(parts[-1]))

    def settled(self):
        """Dark hours come behind the first answer, and may rule kits out."""
        before = self.count()
        time.sleep(1.5)
        return before if before == self.count() else None

    def chips(self):
        return self.program.all("push button", re.compile("^Clear the filter: "))

    def wait_for_count(self, right, what):
        return until(lambda: self.count() if right(self.count()) else None, 20, what)

    def brush(self, x1, y1, x2, y2):
        """A drag over the picture, in shares of its size."""
        points = self.program.one("image", POINTS)
        x, y, width, height = points.box
        left, top = points.program_origin()
        places = [(left + x + int(width * (x1 + (x2 - x1) * k / 8)), top + y + int(height * (y1 + (y2 - y1) * k / 8)))
                  for k in range(9)]
        self.desk.x("mousemove", *places[0], "sleep", 0.1, "mousedown", 1, "sleep", 0.05)
        for place in places[1:]:
            self.desk.x("mousemove", *place, "sleep", 0.03)
        self.desk.x("mouseup", 1)

    def brush_by_drag(self):
        self.brush(0.3, 0.15, 0.6, 0.6)
        shown, works = self.wait_for_count(lambda n: 0 < n[0] < self.all[0], "fewer kits in the table")
        assert works == self.all[1]
        chip = self.chips()[0]
        low, high = re.search(r"Cost ([\d,.]+) to ([\d,.]+)", chip.name).groups()
        costs = [number(row[3]) for row in self.table.rows(12) if row[3]]  # of the rows in sight
        assert costs and all(number(low) - 1 <= cost <= number(high) + 1 for cost in costs), (chip.name, costs)

    def clear_by_escape(self):
        self.desk.keys("Escape")
        self.wait_for_count(lambda n: n == self.all, "all kits again")
        assert not self.chips()

    def brush_by_keyboard(self):
        """From a point on the line two to the right: at least these three kits are within."""
        self.program.one("image", POINTS).press()  # a click on nothing or on a point: the picture has the keyboard
        self.desk.keys("Home", "Right")
        self.desk.keys("shift+Right", "shift+Right")
        shown, _ = self.wait_for_count(lambda n: 0 < n[0] < self.all[0], "fewer kits in the table")
        assert shown >= 3, shown
        assert len(self.chips()) == 1

    def clear_by_chip(self):
        self.chips()[0].act()
        self.wait_for_count(lambda n: n == self.all, "all kits again")
        assert not self.chips()

    def open_filter(self):
        """Its first choice has the keyboard then. A popover's places are not told truly by GTK 4.8, so all goes by keys."""
        self.program.one("push button", re.compile("^Filter")).press()
        return until(lambda: self.program.all("check box", re.compile("^Only the front")), 5, "the filters")[0]

    def filter_front(self):
        box = self.open_filter()
        self.desk.keys("space")
        until(lambda: box.checked, 5, "the tick")
        shown, _ = self.wait_for_count(lambda n: 0 < n[0] < self.all[0], "the front alone")
        assert re.search("front", self.chips()[0].name)

    def filter_bound(self):
        """Nonsense is refused beside the field; a bound nobody meets is told, and clearing brings all back."""
        self.desk.keys(*["Tab"] * 5)
        self.desk.write("nonsense")
        self.desk.keys("Return")
        self.program.one("label", re.compile("no figure"))
        self.desk.keys("ctrl+a")
        self.desk.write("1")
        self.desk.keys("Return")
        self.wait_for_count(lambda n: n[0] == 0, "no kit at all")
        self.desk.keys("Escape")
        sentence = self.program.one("label", re.compile("passes these filters")).text
        assert "None of" in sentence, sentence
        assert len(self.chips()) == 2 and self.program.all("push button", "Clear all")
        self.program.one("push button", "Clear the filters").act()
        self.wait_for_count(lambda n: n == self.all, "all kits again")

    def choose_columns(self):
        before = len(self.table.rows(1)[0])
        self.program.one("push button", re.compile("^Columns")).press()
        time.sleep(0.4)
        self.desk.keys("Up", "Up", "Return")  # from the end: what is usual is not offered yet, so the last criteria
        until(lambda: len(self.table.rows(1)[0]) == before + 1, 10, "another column")
        self.columns = before + 1

    def show_all(self):
        self.program.one("push button", re.compile("^Show all")).act()
        shown, works = self.wait_for_count(lambda n: n[0] == n[1], "every kit")
        assert works == self.all[1], (shown, works)
        self.program.one("push button", re.compile("^Show the first 1,000 only")).act()
        self.wait_for_count(lambda n: n == self.all, "the first ones again")

    def rank_by_importance(self):
        """Another way to rank orders the list; what is less important moves down; all of it is undone like any edit."""
        first = self.table.rows(1)[0]
        self.program.one("page tab", "Wishes").act()
        self.program.one("combo box", re.compile("^Way to rank")).press()
        self.desk.keys("Down", "Down", "Return")
        until(lambda: self.brief().get("rank_by", {}).get("way") == "importance", 10, "the way in the brief")
        order = [one["criterion"] for one in self.brief()["rank_by"]["importance"]]
        assert order[0] == "cost", order
        cheapest = until(lambda: self.table.rows(1)[0] != first and self.table.rows(1)[0], 30, "another first kit")
        assert number(cheapest[3]) < number(first[3]), (cheapest, first)
        self.program.one("label", re.compile("^In order of importance: cost in steps of "))
        self.program.one("push button", "Cost, less important").act()
        until(lambda: self.brief()["rank_by"]["importance"][1]["criterion"] == "cost", 10, "another order")
        self.desk.keys("ctrl+z", "ctrl+z")
        until(lambda: self.brief().get("rank_by", {}).get("way", "score") == "score", 10, "the way of before")
        until(lambda: self.table.rows(1)[0] == first, 30, "the first kit of before")

    def keep_columns(self):
        assert self.program.end() == 0 and not self.program.warnings(), self.program.warnings()
        self.program = self.desk.start([self.program_path])
        self.show("ranking")
        self.table = self.program.one("tree table", KITS, seconds=60)
        rows = until(lambda: self.table.rows(1), 60, "a first row")
        assert len(rows[0]) == self.columns, rows


tell(Ranking, [Ranking.start, Ranking.brush_by_drag, Ranking.clear_by_escape, Ranking.brush_by_keyboard,
               Ranking.clear_by_chip, Ranking.filter_front, Ranking.filter_bound, Ranking.choose_columns,
               Ranking.show_all, Ranking.rank_by_importance, Ranking.keep_columns, Ranking.close])
