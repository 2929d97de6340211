#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Does a review still say what it said? Usage: says_what_it_said.py THEN.json NOW.json

Everything of then must be there now with the same value: figures, verdicts, conditions, evidence, mixture, in the same
order. What may differ: keys and criteria that came since, and advice. Advice is what the list of causes, its remedies,
cautions and sources say today, and the sentence on what the heat balance leaves out.
"""
import json
import sys

ADVICE = {"causes", "limits"}


def differences(then, now, where=""):
    if isinstance(then, dict):
        if not isinstance(now, dict):
            yield f"{where}: {now!r}"
            return
        for key, value in then.items():
            if key in ADVICE:
                continue
            if key not in now:
                yield f"{where}/{key}: gone"
            elif key == "criteria":
                known = {one["id"]: one for one in now[key]}
                order = [one["id"] for one in now[key] if one["id"] in {each["id"] for each in value}]
                if order != [one["id"] for one in value]:
                    yield f"{where}/criteria: {order}"
                for one in value:
                    yield from differences(one, known.get(one["id"]), f"{where}/{one['id']}")
            else:
                yield from differences(value, now[key], f"{where}/{key}")
    elif isinstance(then, list):
        if not isinstance(now, list) or len(then) != len(now):
            yield f"{where}: {len(then)} then"
            return
        for number, (one, other) in enumerate(zip(then, now)):
            yield from differences(one, other, f"{where}/{number}")
    elif then != now:
        yield f"{where}: {then!r} then, {now!r} now"


then, now = (json.load(open(name, encoding="utf-8")) for name in sys.argv[1:3])
found = list(differences(then, now))
print("\n".join(found[:20]))
sys.exit(1 if found else 0)
