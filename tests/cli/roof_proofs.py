"""Follows the proofs that so many equal panels do not fit, as data/FORMATS.md describes them, with candidate places
and sums of its own."""
from bisect import bisect_left, bisect_right
from functools import lru_cache


class Broken(Exception):
    """The proof does not prove what it says."""


def grown(rect, by):
    return (rect[0] - by, rect[1] - by, rect[0] + rect[2] + by, rect[1] + rect[3] + by)


class Again(Exception):
    """The proof has nothing to follow: the search must be done anew."""


class Spans:
    """By where they lie: spans without their ends, joined where they overlap or touch. Whether one is met is asked after
    all are added."""

    def __init__(self):
        self.given, self.joined = {}, {}

    def add(self, at, low, high):
        self.given.setdefault(at, set()).add((low, high))

    def join(self, at):
        begins, ends = [], []
        for low, high in sorted(self.given.get(at, ())):
            if ends and low <= ends[-1]:
                ends[-1] = max(ends[-1], high)
            else:
                begins.append(low)
                ends.append(high)
        return begins, ends

    def meets(self, at, low, high):
        if at not in self.joined:
            self.joined[at] = self.join(at)
        begins, ends = self.joined[at]
        first = bisect_right(ends, low)
        return first < len(ends) and begins[first] < high


class Plain:
    """A rectangle with a margin and rectangles with clearances: all a proof is about."""

    def __init__(self, left, front, right, back, gap, zones):
        self.left, self.front, self.right, self.back, self.gap = left, front, right, back, gap
        self.zones = zones  # (left, front, right, back), clearance in it

    @staticmethod
    def of(roof, strips=None):
        """strips: rectangles (x, y, length, width), clearances in them, that stand for all that is in the way; each must
        lie where the roof forbids it. Without them the roof must be one of edges along and across."""
        m = roof.margin
        if strips is None and roof.slanted():
            raise ValueError("this roof needs strips")
        if strips is None:
            zones = [grown(rect, m) for rect in roof.outside()]
            zones += [grown((o["x_mm"], o["y_mm"], o["length_mm"], o["width_mm"]), o.get("clearance_mm", 0)) for o in roof.obstacles]
        else:
            for strip in strips:
                if min(strip[2:]) <= 0 or not (roof.forbids(strip) or Plain.off(roof, strip)):
                    raise Broken("a strip in the open: %r" % (strip,))
            zones = [grown(strip, 0) for strip in strips]
        return Plain(m, m, roof.length - m, roof.width - m, roof.gap, zones)

    @staticmethod
    def off(roof, strip):
        """It does not reach into the usable rectangle, so it takes nothing."""
        m = roof.margin
        return (strip[0] + strip[2] <= m or strip[1] + strip[3] <= m or strip[0] >= roof.length - m or strip[1] >= roof.width - m)

    def free(self, rect):
        x, y, length, width = rect
        return (x >= self.left and y >= self.front and x + length <= self.right and y + width <= self.back and
                not any(x < z[2] and z[0] < x + length and y < z[3] and z[1] < y + width for z in self.zones))

    def starts(self, sizes, near, far, ends):
        """Normal positions: an edge that blocks, and sums of grown panels from it on."""
        last = far - min(sizes)
        reached = sorted({near} | {e for e in ends if near < e <= last})
        seen = set(at for at in reached if at <= last)
        queue = list(seen)
        while queue:
            at = queue.pop()
            for size in sizes:
                to = at + size + self.gap
                if to <= last and to not in seen:
                    seen.add(to)
                    queue.append(to)
        return sorted(seen)

    def places(self, length, width):
        """Where a panel may stand that cannot be pushed to the left or to the front any more."""
        turns = [(length, width)] + ([(width, length)] if length != width else [])
        sizes = {length, width}
        xs = self.starts(sizes, self.left, self.right, [z[2] for z in self.zones])
        ys = self.starts(sizes, self.front, self.back, [z[3] for z in self.zones])
        found = [rect for l, w in turns for x in xs if x + l <= self.right for y in ys
                 if self.free(rect := (x, y, l, w))]
        while True:
            rested = self.resting(found)
            if len(rested) == len(found):
                return found
            found = rested

    def resting(self, places):
        """Those that rest on the edge, on something in the way or on another place, to the left and in front."""
        left_of, front_of = Spans(), Spans()
        for z in self.zones:
            left_of.add(z[2], z[1], z[3])
            front_of.add(z[3], z[0], z[2])
        g = self.gap
        for x, y, l, w in places:
            left_of.add(x + l + g, y - g, y + w + g)
            front_of.add(y + w + g, x - g, x + l + g)
        return [p for p in places if (p[0] == self.left or left_of.meets(p[0], p[1], p[1] + p[3])) and
                (p[1] == self.front or front_of.meets(p[1], p[0], p[0] + p[2]))]

    def clear_of_gap_area(self):
        """Of the usable rectangle grown by a gap on its right and back, what no zone, cut by a gap on its left and
        front, covers: panels grown by a gap on right and back lie in it, side by side."""
        right, back = self.right + self.gap, self.back + self.gap
        cut = [(max(z[0] + self.gap, self.left), max(z[1] + self.gap, self.front), min(z[2], right), min(z[3], back))
               for z in self.zones]
        cut = [z for z in cut if z[0] < z[2] and z[1] < z[3]]
        xs = sorted({self.left, right, *(z[0] for z in cut), *(z[2] for z in cut)})
        area = 0
        for a, b in zip(xs, xs[1:]):
            spans = sorted((z[1], z[3]) for z in cut if z[0] <= a and z[2] >= b)
            covered, reach = 0, self.front
            for low, high in spans:
                low = max(low, reach)
                if high > low:
                    covered += high - low
                    reach = high
            area += (b - a) * (max(0, back - self.front) - covered)
        return area


class Weights:
    """Points with weights, and the sum under any grown place."""

    def __init__(self, points, gap, one):
        if any(len(point) != 3 for point in points):
            raise Broken("a point without a weight")
        if not all(0 <= weight <= one for _, _, weight in points):
            raise Broken("a weight outside 0 to 1")
        self.gap, self.total = gap, sum(p[2] for p in points)
        self.xs = sorted({p[0] for p in points})
        self.ys = sorted({p[1] for p in points})
        column, row = {x: i for i, x in enumerate(self.xs)}, {y: i for i, y in enumerate(self.ys)}
        self.sums = [[0] * (len(self.ys) + 1) for _ in range(len(self.xs) + 1)]
        grid = [[0] * len(self.ys) for _ in self.xs]
        for x, y, weight in points:
            grid[column[x]][row[y]] += weight
        for i in range(len(self.xs)):
            line = 0
            for j in range(len(self.ys)):
                line += grid[i][j]
                self.sums[i + 1][j + 1] = self.sums[i][j + 1] + line

    def under(self, place):
        x, y, length, width = place
        a, b = bisect_left(self.xs, x), bisect_left(self.xs, x + length + self.gap)
        c, d = bisect_left(self.ys, y), bisect_left(self.ys, y + width + self.gap)
        s = self.sums
        return s[b][d] - s[a][d] - s[b][c] + s[a][c]


def covers(place, x, y, gap):
    return place[0] <= x < place[0] + place[2] + gap and place[1] <= y < place[1] + place[3] + gap


def overlap(a, b, gap):
    return (a[0] < b[0] + b[2] + gap and b[0] < a[0] + a[2] + gap and
            a[1] < b[1] + b[3] + gap and b[1] < a[1] + a[3] + gap)


NEAR = 24  # places, in the order of their numbers


def bits(number):
    while number:
        low = number & -number
        yield low.bit_length() - 1
        number ^= low


def near_along(places, axis, gap):
    """By span along the axis: the places, as bits, whose spans are nearer than the gap."""
    own = {}
    for k, p in enumerate(places):
        span = (p[axis], p[axis] + p[axis + 2] + gap)
        own[span] = own.get(span, 0) | 1 << k
    near = {}
    for low, high in own:
        near[low, high] = 0
        for (begin, end), some in own.items():
            if begin < high and low < end:
                near[low, high] |= some
    return near


@lru_cache(maxsize=4)
def meetings(places, gap):
    """The number of each place, and whom each meets, itself too, as bits."""
    across, along = near_along(places, 0, gap), near_along(places, 1, gap)
    return ({p: k for k, p in enumerate(places)},
            [across[p[0], p[0] + p[2] + gap] & along[p[1], p[1] + p[3] + gap] for p in places])


def goes(k, left, meets, near):
    """Whether one of those left can lie in k's stead: it meets k, and nothing of what is left that k does not meet. Mostly
    it is one beside k; `near`: only those are asked."""
    others, apart, low = meets[k] & left & ~(1 << k), left & ~meets[k], 0
    if near:
        low = max(0, k - NEAR)
        others = others >> low & (1 << k - low + NEAR + 1) - 1
    return not all(meets[q + low] & apart for q in bits(others))


class Follower:
    """Walks the steps of a weights proof."""

    def __init__(self, proof, plain, places):
        self.proof, self.gap, self.one = proof, plain.gap, proof["weight_of_one"]
        self.listed = [tuple(p) for p in proof["places"]]
        self.at, self.all = 0, places
        self.sets = {}

    def weights(self, step):
        key = (step["first"], step["n"])
        if step["first"] < 0 or step["n"] < 0 or sum(key) > len(self.proof["points"]):
            raise Broken("weights that are not there")
        if key not in self.sets:
            self.sets[key] = Weights(self.proof["points"][step["first"]:sum(key)], self.gap, self.one)
        return self.sets[key]

    def bound(self, weights, open_places):
        under = [weights.under(p) for p in open_places]
        return weights.total + sum(max(0, self.one - w) for w in under), under

    def case(self, open_places, need):
        """One case: these places are open and `need` panels have yet to be laid. The recursion is as deep as the splits."""
        if need < 1:
            raise Broken("a case with enough panels")
        while True:
            if self.at >= len(self.proof["steps"]):
                raise Broken("a case is left open")
            step = self.proof["steps"][self.at]
            self.at += 1
            if step["kind"] == "empty":
                if open_places:
                    raise Broken("a case said to be empty is not")
                return
            if step["kind"] == "split":
                open_places = self.split(step, open_places, need)
                continue
            if step["kind"] == "keep":
                open_places = self.keep(step, open_places)
                continue
            total, under = self.bound(self.weights(step), open_places)
            if step["kind"] == "refute":
                if total >= need * self.one:
                    raise Broken("weights that leave room: %d of %d" % (total, need * self.one))
                return
            if step["kind"] != "close":
                raise Broken("a step that is none: %r" % step["kind"])
            open_places = [p for p, w in zip(open_places, under) if total + self.one - w >= need * self.one]

    def named(self, step, open_places):
        first, n = step["first_place"], step["n_places"]
        if first < 0 or n < 0 or first + n > len(self.listed):
            raise Broken("places that are not in the list")
        places = self.listed[first:first + n]
        if not set(places) <= set(open_places):
            raise Broken("a place that is not open")
        return places

    def keep(self, step, open_places):
        """All but those named go, each for one that can lie in its stead. Sets of places are the bits of a number."""
        kept = set(self.named(step, open_places))
        number, meets = meetings(tuple(self.all), self.gap)
        left = sum(1 << number[p] for p in open_places)
        go = [number[p] for p in open_places if p not in kept]
        near = True
        while go:
            stay = []
            for k in go:
                if goes(k, left, meets, near):
                    left &= ~(1 << k)
                else:
                    stay.append(k)
            if len(stay) == len(go) and not near:
                raise Broken("a place goes for which no other can lie")
            near = len(stay) < len(go)
            go = stay
        return [p for p in open_places if p in kept]

    def split(self, step, open_places, need):
        """Each of the places in turn is taken and then closed; what is left is open in the case that goes on."""
        first, n, still = step["first_place"], step["n_places"], set(open_places)
        if first < 0 or n < 0 or first + n > len(self.listed):
            raise Broken("places of a split that are not there")
        for place in self.listed[first:first + n]:
            if place not in still:
                raise Broken("a split names a place that is not open: %r" % (place,))
            self.case([p for p in open_places if p in still and not overlap(p, place, self.gap)], need - 1)
            still.discard(place)
        if any(covers(p, step["x_mm"], step["y_mm"], self.gap) for p in still):
            raise Broken("a split leaves out a place over its point")
        return [p for p in open_places if p in still]


def follow(proof, roof, length, width):
    """Raises Broken unless the proof shows that proof["panels"] panels do not lie on the roof."""
    n, plain = proof["panels"], Plain.of(roof, [tuple(s) for s in proof["strips"]])
    if n < 1:
        raise Broken("nothing is said of %r panels" % n)
    if proof["kind"] == "size":
        if any(plain.right - plain.left >= l and plain.back - plain.front >= w for l, w in ((length, width), (width, length))):
            raise Broken("the panel enters the usable roof")
    elif proof["kind"] == "area":
        if plain.clear_of_gap_area() >= n * (length + plain.gap) * (width + plain.gap):
            raise Broken("the area is enough")
    elif proof["kind"] == "weights":
        follower = Follower(proof, plain, plain.places(length, width))
        follower.case(follower.all, n)
        if follower.at != len(proof["steps"]):
            raise Broken("steps after the end")
    elif proof["kind"] == "search":
        if plain.zones:
            raise Broken("a search of a roof with things in the way")
        raise Again
    else:
        raise Broken("a proof of kind %r" % proof["kind"])
