"""A roof as METHOD.md tells it, in whole numbers and fractions: where a panel may lie. Written from the
documents, without the program's sources."""
from fractions import Fraction


def segment_enters(a, b, box):
    """Whether the segment a-b has points in the open box (left, front, right, back)."""
    low, high = Fraction(0), Fraction(1)
    for axis in (0, 1):
        start, step = a[axis], b[axis] - a[axis]
        near, far = box[axis], box[axis + 2]
        if step == 0:
            if not near < start < far:
                return False
            continue
        ends = sorted((Fraction(near - start, step), Fraction(far - start, step)))
        low, high = max(low, ends[0]), min(high, ends[1])
    return low < high


def contains(corners, x, y):
    """Whether the point lies in the polygon; it must not lie on an edge. Counts crossings to the right."""
    inside = False
    for (ax, ay), (bx, by) in zip(corners, corners[1:] + corners[:1]):
        if (ay > y) != (by > y) and (x - ax) * (by - ay) * (1 if by > ay else -1) < (bx - ax) * (y - ay) * (1 if by > ay else -1):
            inside = not inside
    return inside


def shrunk(rect, by):
    return (rect[0] + by, rect[1] + by, rect[0] + rect[2] - by, rect[1] + rect[3] - by)


class Roof:
    """Made of the brief's "roof" object."""

    def __init__(self, roof):
        self.length, self.width = roof["length_mm"], roof["width_mm"]
        self.margin, self.gap = roof.get("margin_mm", 0), roof.get("gap_mm", 0)
        self.corners = [tuple(c) if isinstance(c, list) else (c["x_mm"], c["y_mm"]) for c in roof.get("corners") or []]
        self.standoff = roof.get("standoff_mm", 0)
        self.over = roof.get("over_obstacles", False)
        self.obstacles = [o for o in roof.get("obstacles", []) if self.blocks(o)]

    def blocks(self, obstacle):
        kind, height = obstacle.get("kind", "stands"), obstacle.get("height_mm", 0)
        if kind == "shade":
            return False
        return kind == "walkway" or not (self.over and 0 < height < self.standoff)

    def slanted(self):
        """Whether whole millimetres are not all there is: a slanted edge, or a circle."""
        return (any(a[0] != b[0] and a[1] != b[1] for a, b in zip(self.corners, self.corners[1:] + self.corners[:1])) or
                any(o.get("shape") == "round" for o in self.obstacles))

    def outside(self):
        """Of an outline whose edges all run along or across: the largest rectangles of the frame outside it."""
        xs = sorted({0, self.length, *(c[0] for c in self.corners)})
        ys = sorted({0, self.width, *(c[1] for c in self.corners)})
        out = {(i, j) for i in range(len(xs) - 1) for j in range(len(ys) - 1)
               if self.corners and not contains(self.corners, Fraction(xs[i] + xs[i + 1], 2), Fraction(ys[j] + ys[j + 1], 2))}
        spans = [(i, j, k, l) for i, j in out for k in range(i + 1, len(xs)) for l in range(j + 1, len(ys))
                 if all((a, b) in out for a in range(i, k) for b in range(j, l))]
        def within(a, b):
            return a != b and b[0] <= a[0] and b[1] <= a[1] and a[2] <= b[2] and a[3] <= b[3]
        return [(xs[i], ys[j], xs[k] - xs[i], ys[l] - ys[j]) for i, j, k, l in spans
                if not any(within((i, j, k, l), other) for other in spans)]

    def forbids(self, strip):
        """No panel may enter this rectangle (x, y, length, width): one obstacle with its clearance covers it, or all of it
        is within the margin of one piece of the outside."""
        if strip[2] <= 0 or strip[3] <= 0:
            return False
        return any(self.covered(strip, o) for o in self.obstacles) or (bool(self.corners) and self.off(shrunk(strip, self.margin)))

    @staticmethod
    def covered(strip, obstacle):
        left, front, right, back = shrunk(strip, obstacle.get("clearance_mm", 0))
        across = obstacle["length_mm"]
        if obstacle.get("shape", "rectangle") != "round":
            return (obstacle["x_mm"] <= left and right <= obstacle["x_mm"] + across and
                    obstacle["y_mm"] <= front and back <= obstacle["y_mm"] + obstacle["width_mm"])
        cx, cy = 2 * obstacle["x_mm"] + across, 2 * obstacle["y_mm"] + across
        return left < right and front < back and all((2 * x - cx) ** 2 + (2 * y - cy) ** 2 <= across * across
                                                     for x in (left, right) for y in (front, back))

    def off(self, box):
        """The box lies outside the corners' outline."""
        edges = zip(self.corners, self.corners[1:] + self.corners[:1])
        return (box[0] < box[2] and box[1] < box[3] and not any(segment_enters(a, b, box) for a, b in edges) and
                not contains(self.corners, Fraction(box[0] + box[2], 2), Fraction(box[1] + box[3], 2)))

    def inside(self, rect):
        """The panel grown by the margin on all sides lies inside the outline."""
        x, y, length, width = rect
        m = self.margin
        if not self.corners:
            return x >= m and y >= m and x + length + m <= self.length and y + width + m <= self.width
        box = (x - m, y - m, x + length + m, y + width + m)
        edges = zip(self.corners, self.corners[1:] + self.corners[:1])
        return (not any(segment_enters(a, b, box) for a, b in edges) and
                contains(self.corners, Fraction(2 * x + length, 2), Fraction(2 * y + width, 2)))

    @staticmethod
    def meets(rect, obstacle):
        """The panel grown by the obstacle's clearance shares a point of its inside with the obstacle."""
        c = obstacle.get("clearance_mm", 0)
        left, front, right, back = rect[0] - c, rect[1] - c, rect[0] + rect[2] + c, rect[1] + rect[3] + c
        if obstacle.get("shape", "rectangle") != "round":
            return (left < obstacle["x_mm"] + obstacle["length_mm"] and obstacle["x_mm"] < right and
                    front < obstacle["y_mm"] + obstacle["width_mm"] and obstacle["y_mm"] < back)
        across = obstacle["length_mm"]  # all doubled, so that the centre is whole
        x, y = 2 * obstacle["x_mm"] + across, 2 * obstacle["y_mm"] + across
        dx = max(2 * left - x, x - 2 * right, 0)
        dy = max(2 * front - y, y - 2 * back, 0)
        return dx * dx + dy * dy < across * across

    def place_ok(self, rect):
        return self.inside(rect) and not any(self.meets(rect, o) for o in self.obstacles)

    def apart(self, a, b):
        g = self.gap
        return (a[0] + a[2] + g <= b[0] or b[0] + b[2] + g <= a[0] or
                a[1] + a[3] + g <= b[1] or b[1] + b[3] + g <= a[1])

    def fault(self, layout, sizes):
        """What is wrong with a layout of whole millimetres: a text, or None. sizes: a list of (length, width, turns)."""
        for i, rect in enumerate(layout):
            length, width, turns = sizes[i]
            if any(not isinstance(v, int) or isinstance(v, bool) for v in rect):
                return "panel %d is not on whole millimetres: %r" % (i, rect)
            if tuple(rect[2:]) != (length, width) and not (turns and tuple(rect[2:]) == (width, length)):
                return "panel %d is of another size: %r" % (i, rect)
            if not self.inside(rect):
                return "panel %d leaves the outline or its margin: %r" % (i, rect)
            for obstacle in self.obstacles:
                if self.meets(rect, obstacle):
                    return "panel %d lies on %s: %r" % (i, obstacle.get("name"), rect)
            for j in range(i):
                if not self.apart(rect, layout[j]):
                    return "panels %d and %d are too near: %r, %r" % (j, i, layout[j], rect)
        return None


def rect_of(entry):
    return (entry["x_mm"], entry["y_mm"], entry["length_mm"], entry["width_mm"])
