#!/usr/bin/python3
"""mix_proofs.py DUMP: a second checker of proofs that a mix does not fit. Writes the clauses from
data/METHOD.md, "Mixes", and follows each proof by unit propagation. A bare claim must not pass
where the clauses alone do not contradict each other. DUMP prints the questions."""
import bisect
import subprocess
import sys


def questions(text):
    question = None
    for line in text.splitlines():
        word, *rest = line.split()
        if word == "question":
            question = {"name": rest[0], "obstacles": [], "items": []}
        elif word == "roof":
            question["roof"] = [int(v) for v in rest]
        elif word in ("obstacle", "item"):
            question[word + "s"].append([int(v) for v in rest])
        elif word == "proof":
            question["proof"] = [int(v) for v in rest]
            yield question


def merged(items):
    kinds = []
    for a, b, count, turns in items:
        for kind in kinds:
            if kind[3] == turns and (kind[:2] == [a, b] or (turns and kind[:2] == [b, a])):
                kind[2] += count
                break
        else:
            kinds.append([a, b, count, turns])
    return kinds


class Clauses:
    """Literals +-v; True and False stand for what needs no variable."""

    def __init__(self, question):
        length, width, margin, gap = question["roof"]
        self.gap, self.room = gap, (length - 2 * margin + gap, width - 2 * margin + gap)
        self.clauses = []
        self.obstacles = []
        for x, y, l, w, c in question["obstacles"]:
            low, high = (x - margin - c, y - margin - c), (x - margin + l + c, y - margin + w + c)
            if all(high[d] > 0 and low[d] < self.room[d] - gap for d in (0, 1)):
                self.obstacles.append((low, high))
        self.panels = []  # (kind, list of ways, each what it takes along x and y)
        for kind, (a, b, count, turns) in enumerate(merged(question["items"])):
            ways = [(a + gap, b + gap)] + ([(b + gap, a + gap)] if turns and a != b else [])
            self.panels += [(kind, ways)] * count
        self.name_all()
        self.state_all()

    def sums(self, panel, axis, ends):
        sums = {0} | {end for end in ends if end < self.room[axis]}
        for other, (_, ways) in enumerate(self.panels):
            if other != panel:
                sums |= {s + way[axis] for s in sums for way in ways if s + way[axis] < self.room[axis]}
        return sums

    def positions(self, panel, axis):
        room = self.room[axis]
        near = self.sums(panel, axis, [high[axis] for _, high in self.obstacles])
        far = self.sums(panel, axis, [room - (low[axis] + self.gap) for low, _ in self.obstacles])
        at = set()
        for way in self.panels[panel][1]:
            spare = room - way[axis]
            at |= {s for s in near if s <= spare - s} | {spare - s for s in far if 0 <= s < spare - s}
        return sorted(at)

    def name_all(self):
        self.n, self.at, self.first, self.turned = 0, [], [], []
        for panel in range(len(self.panels)):
            self.at.append([self.positions(panel, axis) for axis in (0, 1)])
            first = []
            for axis in (0, 1):
                first.append(self.n + 1)
                self.n += len(self.at[panel][axis]) - 1
            self.first.append(first)
            turns = len(self.panels[panel][1]) == 2
            self.n += turns
            self.turned.append(self.n if turns else None)

    def from_on(self, panel, axis, value):
        at = self.at[panel][axis]
        k = bisect.bisect_left(at, value)
        return True if k == 0 else False if k == len(at) else self.first[panel][axis] + k - 1

    def this_way(self, panel, way):
        if self.turned[panel] is None:
            return True
        return self.turned[panel] if way else -self.turned[panel]

    def state(self, *literals):
        if not any(literal is True for literal in literals):
            self.clauses.append([literal for literal in literals if literal is not False])

    def no(self, literal):
        return (not literal) if isinstance(literal, bool) else -literal

    def state_panel(self, panel):
        for axis in (0, 1):
            for k in range(1, len(self.at[panel][axis]) - 1):
                self.state(-(self.first[panel][axis] + k), self.first[panel][axis] + k - 1)
        for way, takes in enumerate(self.panels[panel][1]):
            other = self.no(self.this_way(panel, way))
            for axis in (0, 1):
                self.state(other, self.no(self.from_on(panel, axis, self.room[axis] - takes[axis] + 1)))
            for low, high in self.obstacles:
                self.state(other, *[literal for axis in (0, 1) for literal in (
                    self.no(self.from_on(panel, axis, low[axis] - (takes[axis] - self.gap) + 1)),
                    self.from_on(panel, axis, high[axis]))])

    def state_before(self, name, axis, i, j):
        for way, takes in enumerate(self.panels[i][1]):
            for at in self.at[i][axis]:
                self.state(-name, self.no(self.this_way(i, way)), self.no(self.from_on(i, axis, at)),
                           self.from_on(j, axis, at + takes[axis]))

    def state_pair(self, i, j):
        name = self.n + 1
        self.n += 4
        self.state(name, name + 1, name + 2, name + 3)
        for axis in (0, 1):
            self.state_before(name + 2 * axis, axis, i, j)
            self.state_before(name + 2 * axis + 1, axis, j, i)
        if self.panels[i][0] == self.panels[j][0]:
            self.state(-(name + 1))
            if j == i + 1:
                for at in self.at[i][0]:
                    self.state(self.no(self.from_on(i, 0, at)), self.from_on(j, 0, at))
                    self.state(self.no(self.from_on(i, 0, at)), self.from_on(j, 0, at + 1), name + 2)

    def state_half(self):
        kinds = [kind for kind, _ in self.panels]
        alone = [p for p, kind in enumerate(kinds) if kinds.count(kind) == 1]
        if self.obstacles or not alone:
            return
        panel = max(alone, key=lambda p: (self.panels[p][1][0][0] * self.panels[p][1][0][1], -p))
        for axis in (0, 1):
            for way, takes in enumerate(self.panels[panel][1]):
                spare = self.room[axis] - takes[axis]
                if spare >= 0:
                    self.state(self.no(self.this_way(panel, way)), self.no(self.from_on(panel, axis, spare // 2 + 1)))

    def state_all(self):
        for panel in range(len(self.panels)):
            self.state_panel(panel)
        for i in range(len(self.panels)):
            for j in range(i + 1, len(self.panels)):
                self.state_pair(i, j)
        self.state_half()


class Follower:
    def __init__(self, clauses):
        self.true, self.watched, self.contradiction = set(), {}, False
        for clause in clauses:
            self.learn(clause)

    def learn(self, clause):
        rest = [literal for literal in dict.fromkeys(clause) if -literal not in self.true]
        if any(literal in self.true for literal in rest):
            return
        if len(rest) < 2:
            self.contradiction = self.contradiction or not rest or self.spread(rest) is None
            return
        for literal in rest[:2]:
            self.watched.setdefault(literal, []).append(rest)

    def spread(self, literals):
        """Literals made true by these, or None where they contradict each other."""
        made, queue = [], list(literals)
        while queue:
            literal = queue.pop()
            if literal in self.true:
                continue
            if -literal in self.true:
                return self.take_back(made)
            self.true.add(literal)
            made.append(literal)
            keep = []
            watchers = self.watched.pop(-literal, [])
            for clause in watchers:
                if clause[0] == -literal:
                    clause[0], clause[1] = clause[1], clause[0]
                spare = None if clause[0] in self.true else next(
                    (k for k in range(2, len(clause)) if -clause[k] not in self.true), None)
                if spare is None:
                    keep.append(clause)
                    queue.append(clause[0])
                else:
                    clause[1], clause[spare] = clause[spare], clause[1]
                    self.watched.setdefault(clause[1], []).append(clause)
            if keep:
                self.watched[-literal] = keep
        return made

    def take_back(self, made):
        self.true.difference_update(made)

    def follows(self, clause):
        if self.contradiction or any(literal in self.true for literal in clause):
            return True
        made = self.spread([-literal for literal in clause])
        if made is None:
            return True
        self.take_back(made)
        return False


def holds(clauses, proof):
    follower, clause, last = Follower(clauses.clauses), [], None
    for literal in proof:
        if literal:
            if abs(literal) > clauses.n:
                return False
            clause.append(literal)
            continue
        if not follower.follows(clause):
            return False
        if not follower.contradiction:
            follower.learn(clause)
        last, clause = clause, []
    return last == [] and not clause


def main():
    dump = subprocess.run([sys.argv[1]], capture_output=True, text=True, check=True).stdout
    asked = list(questions(dump))
    print("1..%d" % (len(asked) + 2))
    caught = 0
    for number, question in enumerate(asked, 1):
        clauses = Clauses(question)
        good = holds(clauses, question["proof"])
        caught += not holds(Clauses(question), [0])
        print("%s %d - %s: %d clauses, %d learnt" % ("ok" if good else "not ok", number, question["name"],
                                                     len(clauses.clauses), question["proof"].count(0)), flush=True)
    print("%s %d - enough proofs: %d" % ("ok" if len(asked) >= 20 else "not ok", len(asked) + 1, len(asked)))
    print("%s %d - the bare claim is caught: %d" % ("ok" if caught >= len(asked) // 2 else "not ok", len(asked) + 2, caught))


if __name__ == "__main__":
    main()
