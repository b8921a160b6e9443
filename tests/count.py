#!/usr/bin/python3
"""count.py BUILD...: adds up the results of `meson test` in these build folders, names what failed,
and ends with the line "N passed, N failed". Fails when anything failed or nothing ran."""
import sys
import xml.etree.ElementTree as tree


def results(build):
    """(name, passed) of every single test: each TAP line counts, a skipped one does not."""
    root = tree.parse(build + "/meson-logs/testlog.junit.xml").getroot()
    for case in root.iter("testcase"):
        if case.find("skipped") is not None:
            continue
        bad = case.find("failure") is not None or case.find("error") is not None
        yield "%s: %s %s" % (build, case.get("classname", ""), case.get("name")), not bad
    for suite in root.iter("testsuite"):
        # A program that died after its last TAP line has an error of the suite only.
        if int(suite.get("errors", "0")) and not any(c.find("error") is not None for c in suite.iter("testcase")):
            yield "%s: %s" % (build, suite.get("name")), False


def main():
    passed = failed = 0
    for build in sys.argv[1:]:
        for name, good in results(build):
            passed += good
            failed += not good
            if not good:
                print("failed: " + name)
    print("%d passed, %d failed" % (passed, failed))
    return 1 if failed or not passed else 0


sys.exit(main())
