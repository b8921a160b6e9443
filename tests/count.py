#!/usr/bin/python3
"""count.py BUILD...: adds up the results of `meson test` in these build folders, names what failed,
and ends with the line "N passed, N failed". Fails when anything failed or nothing ran."""
import json
import sys
import xml.etree.ElementTree as tree


def bad(case):
    return case.find("failure") is not None or case.find("error") is not None


def programs_failed(build):
    """Names of the programs that meson calls failed, whatever their TAP lines said: one may leak memory after the last."""
    with open(build + "/meson-logs/testlog.json", encoding="utf-8") as log:
        for line in log:
            program = json.loads(line)
            if program["result"] not in ("OK", "SKIP", "EXPECTEDFAIL"):
                yield program["name"].split(":")[-1]


def results(build):
    """(name, passed) of every single test: each TAP line counts, a skipped one does not."""
    told = set()
    for suite in tree.parse(build + "/meson-logs/testlog.junit.xml").getroot().iter("testsuite"):
        name = suite.get("name").split(":")[-1]
        for case in suite.iter("testcase"):
            if case.find("skipped") is not None:
                continue
            if bad(case):
                told.add(name)
            yield "%s: %s %s" % (build, case.get("classname", ""), case.get("name")), not bad(case)
    for name in programs_failed(build):
        if name not in told:
            yield "%s: %s, after or beside its tests" % (build, name), False


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
