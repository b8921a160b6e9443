#!/usr/bin/python3
"""test_look.py ROOT: what can be told of the look without a display. Colours reach 4.5:1 against the papers
they stand on (WCAG 2.1, success criterion 1.4.3), chemistries stay apart for the three common colour
deficiencies, and every shortcut carries a modifier and is used once. TAP on standard output."""
import itertools
import math
import re
import sys

ROOT = sys.argv[1]
# Backgrounds of the platform's theme: its base and its window colour, light and dark.
PAPERS = {"light": ["#ffffff", "#f6f5f4"], "dark": ["#2d2d2d", "#353535"],
          "contrast-light": ["#ffffff"], "contrast-dark": ["#000000"]}
# Machado, Oliveira and Fernandes 2009, severity 1: protanopia, deuteranopia, tritanopia; from memory.
DEFICIENCIES = [
    [[1, 0, 0], [0, 1, 0], [0, 0, 1]],
    [[.152286, 1.052583, -.204868], [.114503, .786281, .099216], [-.003882, -.048116, 1.051998]],
    [[.367322, .860646, -.227968], [.280085, .672501, .047413], [-.011820, .042940, .968881]],
    [[1.255528, -.076749, -.178779], [-.078411, .930809, .147602], [.004733, .691367, .303900]]]
LEAST_APART = 0.06  # in OKLab; markers of five shapes help beyond it


def linear(text):
    values = [int(text[i:i + 2], 16) / 255 for i in (1, 3, 5)]
    return [v / 12.92 if v <= 0.04045 else ((v + 0.055) / 1.055) ** 2.4 for v in values]


def times(matrix, vector):
    return [sum(a * b for a, b in zip(row, vector)) for row in matrix]


def luminance(text):
    return sum(a * b for a, b in zip(linear(text), (0.2126, 0.7152, 0.0722)))


def contrast(a, b):
    low, high = sorted((luminance(a) + 0.05, luminance(b) + 0.05))
    return high / low


def oklab(rgb):
    cone = times([[.4122214708, .5363325363, .0514459929], [.2119034982, .6806995451, .1073969566],
                  [.0883024619, .2817188376, .6299787005]], rgb)
    return times([[.2104542553, .7936177850, -.0040720468], [1.9779984951, -2.4285922050, .4505937099],
                  [.0259040371, .7827717662, -.8086757660]], [max(c, 0) ** (1 / 3) for c in cone])


def colors(scheme):
    with open("%s/ui/style/colors-%s.css" % (ROOT, scheme)) as file:
        return dict(re.findall(r"@define-color (\w+) (#[0-9a-f]{6});", file.read()))


def weak_colors(scheme):
    found = colors(scheme)
    assert len(found) >= 9, found
    return ["%s in %s reaches only %.2f:1 on %s" % (name, scheme, contrast(color, paper), paper)
            for name, color in found.items() for paper in PAPERS[scheme]
            if name != "wb_paper" and contrast(color, paper) < 4.5]


def close_colors(scheme):
    series = [color for name, color in sorted(colors(scheme).items()) if name.startswith("wb_series_")]
    assert len(series) == 5, series
    views = [[oklab(times(view, linear(color))) for view in DEFICIENCIES] for color in series]
    return ["%s and %s in %s are only %.3f apart" % (series[a], series[b], scheme, apart)
            for a, b in itertools.combinations(range(5), 2)
            for apart in [min(math.dist(x, y) for x, y in zip(views[a], views[b]))] if apart < LEAST_APART]


def bad_shortcuts():
    with open(ROOT + "/app/ui/application.c") as file:
        table = re.search(r"shortcuts\[\] = \{(.*?)\n\};", file.read(), re.S).group(1)
    accels = [accel for row in re.findall(r"\{\"[^\"]+\", \{([^}]*)\}\}", table) for accel in re.findall(r'"([^"]+)"', row)]
    assert len(accels) > 10, accels
    bare = ["%s has no modifier" % a for a in accels if not re.search(r"<Control>|<Alt>|^F\d+$", a)]
    return bare + ["%s is used twice" % a for a in set(accels) if accels.count(a) > 1]


def main():
    checks = [("contrast in " + scheme, weak_colors(scheme)) for scheme in PAPERS]
    checks += [("chemistries apart in " + scheme, close_colors(scheme)) for scheme in PAPERS]
    checks.append(("shortcuts", bad_shortcuts()))
    print("1..%d" % len(checks))
    for number, (name, problems) in enumerate(checks, 1):
        for problem in problems:
            print("# " + problem)
        print("%s %d - %s" % ("not ok" if problems else "ok", number, name))
    sys.exit(any(problems for _, problems in checks))


main()
