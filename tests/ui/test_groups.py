#!/usr/bin/python3
"""test_groups.py PROGRAM: similar kits in the table of the ranking, opened and closed by pointer and keyboard. TAP on standard
output."""
import re
import time

from drive import until
from story import Story, tell


class Groups(Story):
    def table(self):
        return self.program.one("tree table", re.compile("^Kits that work"), seconds=120)

    def rows(self, most=60):
        """Rank of each row, how many are like it, or in what it differs from the first of its group."""
        found = []
        for row in self.table().rows(most):
            told = re.match(r"([\d,]+)(?: \+([\d,]+) like it)?(?: ([A-Za-z-]+))?$", row[0])
            if told:
                found.append((int(told.group(1).replace(",", "")), int((told.group(2) or "0").replace(",", "")), told.group(3)))
        return found

    def until_rows(self, question, what):
        return until(lambda: (lambda rows: rows if rows and question(rows) else None)(self.rows()), 30, what)

    def button(self, rank):
        return self.program.one("push button", re.compile(r" like number %d$" % rank), rows=True)

    def start(self):
        self.show("ranking")
        # The whole answer: dark hours, which come behind the first one, rule some kits out of their groups.
        self.program.one("label", re.compile("are on the front"), seconds=300)
        self.closed = self.until_rows(lambda rows: rows[0][0] == 1 and rows[0][1] > 0, "a group under the first")
        assert all(differs is None for _, _, differs in self.closed), self.closed
        ranks = [rank for rank, _, _ in self.closed]
        assert ranks == sorted(ranks) and len(ranks) >= 4 and ranks[3] > 4, ranks  # of the rows in sight
        self.picture("groups-closed")

    def open_and_close_by_pointer(self):
        _, like, _ = self.closed[0]
        self.button(1).press()
        rows = self.until_rows(lambda rows: rows[1][2] is not None, "the kits like the first")
        opened = rows[1:like + 1]
        assert all(differs is not None and n == 0 for _, n, differs in opened), opened
        self.picture("groups-open")
        time.sleep(1)  # no double click
        self.button(1).press()
        self.until_rows(lambda rows: rows[:4] == self.closed[:4], "the groups closed again")

    def open_and_close_by_keyboard(self):
        second = self.closed[1][0]
        time.sleep(1)  # no double click
        self.program.one("label", re.compile(" W.* MPPT"), self.table(), rows=True).press()
        self.desk.keys("Down")
        self.desk.keys("Right")
        rows = self.until_rows(lambda rows: rows[2][2] is not None, "the kits like the second")
        assert rows[0][0] == 1 and rows[1][0] == second, rows[:4]
        self.desk.keys("Down", "Down")
        self.program.one("label", re.compile("^Number %s of" % rows[3][0]))
        self.desk.keys("Left")  # to the first of the group
        self.program.one("label", re.compile("^Number %s of" % second))
        assert self.rows()[2][2] is not None
        self.desk.keys("Left")  # closes it
        self.until_rows(lambda rows: rows[:4] == self.closed[:4], "the group closed again")

    def list_every_kit(self):
        toggle = self.program.one("check box", "Group similar kits")
        assert toggle.checked
        self.program.one("label", re.compile(r"^\d+ real choices$"))
        toggle.press()
        rows = self.until_rows(lambda rows: rows[1][0] == 2 and rows[2][0] == 3, "every kit")
        assert [rank for rank, _, _ in rows[:20]] == list(range(1, len(rows) + 1))[:20] and not any(n for _, n, _ in rows), rows
        assert not self.program.all("label", re.compile("real choices"))
        toggle.press()
        self.until_rows(lambda rows: rows[:4] == self.closed[:4], "groups again")


tell(Groups, [Groups.start, Groups.open_and_close_by_pointer, Groups.open_and_close_by_keyboard, Groups.list_every_kit,
              Groups.close])
