"""The little of TAP that the lint tests need."""
import sys


def report(cases):
    """cases: (name, list of problems). Prints TAP and exits with 1 if there is any problem."""
    print("1..%d" % len(cases))
    bad = 0
    for number, (name, problems) in enumerate(cases, 1):
        for problem in problems:
            print("# " + problem)
        print("%s %d - %s" % ("not ok" if problems else "ok", number, name))
        bad += bool(problems)
    sys.exit(1 if bad else 0)
