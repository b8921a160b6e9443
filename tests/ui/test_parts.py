#!/usr/bin/python3
"""test_parts.py PROGRAM: parts added and deleted, wishes and colours, in the real window. TAP on standard output."""
import os
import re

from drive import GLib, until
from story import Story, tell

COUNT = re.compile(r"^(\d+) of (\d+) ticked")


class Parts(Story):
    def anchor(self, criterion, end):
        """What the saved brief says of one end of a wish; None where it says nothing (yet)."""
        return self.brief().get("anchors", {}).get(criterion, {}).get(end)

    def count(self):
        """Parts of the shown kind: ticked, and in the catalogue."""
        return tuple(int(n) for n in COUNT.match(self.program.one("label", COUNT).text).groups())

    def until_count(self, count):
        until(lambda: self.count() == count, 10, "%d of %d ticked" % count)

    def add_a_part(self):
        """A copy of the chosen part, its maker's name ready to be typed over."""
        self.show("parts")
        self.ticked, self.total = self.count()
        model = self.program.one("text", "Model").text
        self.program.one("push button", "Add a part").act()
        self.until_count((self.ticked + 1, self.total + 1))
        until(lambda: self.program.one("text", "Model").text == model + ", copy", 5, "the copy's figures")
        self.desk.write("Heron Hill")
        self.desk.keys("Tab")
        self.program.one("label", "Heron Hill " + model + ", copy")

    def undo_the_name_and_no_more(self):
        """One step back; the part stays."""
        self.program.activate("undo-catalogue", None, 1)
        until(lambda: not self.program.all("label", re.compile("^Heron Hill ")), 5, "the maker of before")
        assert self.count() == (self.ticked + 1, self.total + 1)

    def leave_with_the_mouse(self):
        """The tip under it is a window of its own, in the way of the next click."""
        self.desk.x("mousemove", self.desk.size[0] - 2, self.desk.size[1] - 2, "sleep", 0.3)

    def press_a_row(self):
        """A part with a price in the middle of the rows on screen; the keyboard is in the table then."""
        table = self.program.one("tree table", "Parts of this kind")
        prices = self.program.all("label", re.compile(r"^[\d,]+\.\d\d"), below=table, rows=True)
        prices[len(prices) // 2].press()

    def delete_a_part(self):
        button = self.program.one("push button", "Delete the part")
        button.act()
        self.until_count((self.ticked, self.total))
        self.program.one("status bar", re.compile("was deleted from the catalogue"))
        self.program.one("push button", "Undo the change of parts").act()
        self.until_count((self.ticked + 1, self.total + 1))
        assert not self.program.all("status bar", re.compile("was deleted")), "the message stays"
        button.act()
        self.until_count((self.ticked, self.total))

    def delete_by_key(self):
        """The key Delete in the table, prices and all; undone by keys."""
        self.press_a_row()
        self.desk.keys("Delete")
        self.until_count((self.ticked - 1, self.total - 1))
        self.program.one("status bar", re.compile("with [0-9]+ prices?\\."))
        self.desk.keys("ctrl+alt+z")
        self.until_count((self.ticked, self.total))

    def delete_what_the_brief_names(self):
        """The brief's own list of candidates still names the part: said, and kept for an undo."""
        self.program.one("check box", re.compile("^Use "), rows=True).press()  # the list becomes explicit
        self.until_count((self.ticked - 1, self.total))
        candidates = until(lambda: isinstance(self.brief()["candidates"], list) and self.brief()["candidates"], 10,
                           "a list of candidates")
        self.press_a_row()
        chosen = self.program.one("text", "Id").text
        assert chosen in candidates, (chosen, candidates)
        self.program.one("push button", "Delete the part").act()
        self.program.one("status bar", re.compile("the catalogue now lacks, .*" + chosen))
        self.picture("deleted")
        self.program.one("push button", "Undo the change of parts").act()
        self.until_count((self.ticked - 1, self.total))
        assert self.brief()["candidates"] == candidates

    def ask_why_it_is_in_no_kit(self):
        """From the chosen part to the answer beside the ranking, a kit of it in hand, and back to all rules."""
        maker, model = (self.program.one("text", name).text for name in ("Maker", "Model"))
        self.program.one("push button", "Why is it in no kit?").act()
        self.program.one("label", re.compile("^%s %s: " % (re.escape(maker), re.escape(model))), seconds=60)
        self.picture("why")
        self.program.one("push button", "All rules").act()
        self.program.one("label", "Only this")

    def move_an_anchor(self):
        """Typed in whole currency, kept in the smallest unit; empty is the default again."""
        self.show("ranking")
        self.program.one("page tab", "Wishes").act()
        none = self.program.one("text", "Cost, no worth at")
        self.program.one("label", re.compile("^By default full at 0.EUR, none at "))
        self.leave_with_the_mouse()
        none.enter("3,500")
        until(lambda: self.anchor("cost", "none") == 350000, 10, "the anchor typed")
        self.program.one("label", re.compile("^By default full at 0.EUR, none at "))
        self.desk.keys("ctrl+z")
        until(lambda: none.text == "", 10, "the empty field")
        assert self.anchor("cost", "none") is None

    def refuse_equal_anchors(self):
        full, none = (self.program.one("text", "Cost, %s worth at" % end) for end in ("full", "no"))
        full.enter("20")
        until(lambda: self.anchor("cost", "full") == 2000, 10, "the anchor typed")
        none.enter("20")
        self.program.one("status bar", re.compile("another number"))
        assert self.anchor("cost", "none") is None
        self.desk.keys("Escape")
        until(lambda: none.text == "", 5, "the empty field")
        full.press()
        self.desk.keys("ctrl+a", "BackSpace", "Return")
        until(lambda: self.anchor("cost", "full") is None, 10, "the default")

    def tick_for_the_front(self):
        """What counts for the front is ticked beside its weight; undone like any edit."""
        before = self.brief().get("front")
        tick = self.program.one("check box", "Weight counts for the front")
        assert tick.checked
        tick.press()
        until(lambda: "weight" not in self.brief().get("front", ["weight"]), 10, "the front without the weight")
        self.desk.keys("ctrl+z")
        until(lambda: self.brief().get("front") == before, 10, "the front of before")

    def remember_the_colours(self):
        self.program.activate("scheme", GLib.Variant("s", "dark"))
        settings = os.path.join(self.desk.home, "config", "wattberth", "settings.ini")
        until(lambda: os.path.exists(settings), 5, "the kept choice")
        assert self.program.end() == 0 and not self.program.warnings(), self.program.warnings()
        self.program = self.desk.start([self.program_path])
        assert self.scheme() == "dark", self.scheme()
        with open(settings, "w") as file:
            file.write("[window]\nscheme=violet\n")
        self.program.end()
        self.program = self.desk.start([self.program_path])
        assert self.scheme() == "system", self.scheme()

    def scheme(self):
        answer = self.desk.session.call_sync("org.wattberth.Wattberth", "/org/wattberth/Wattberth", "org.gtk.Actions",
                                             "Describe", GLib.Variant("(s)", ("scheme",)), None, 0, 20000, None)
        return answer.unpack()[0][2][0]


tell(Parts, [Parts.add_a_part, Parts.undo_the_name_and_no_more, Parts.delete_a_part, Parts.delete_by_key,
             Parts.delete_what_the_brief_names, Parts.ask_why_it_is_in_no_kit, Parts.move_an_anchor, Parts.refuse_equal_anchors, Parts.tick_for_the_front,
             Parts.remember_the_colours, Parts.close])
