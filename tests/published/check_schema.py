#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Does resources/criteria.json obey resources/criteria.schema.json, and does the schema refuse what it should?

Usage: check_schema.py RESOURCES_DIRECTORY
"""
import copy
import json
import sys
from pathlib import Path

import jsonschema


def load(name):
    return json.loads((Path(sys.argv[1]) / name).read_text(encoding="utf-8"))


def damaged(criteria):
    """The file with one fault each."""
    def step(change):
        broken = copy.deepcopy(criteria)
        change(broken["criteria"][0]["alternatives"][0]["steps"][0])
        return broken
    yield "no limit", step(lambda s: s.pop("at_least"))
    yield "two limits", step(lambda s: s.update(above="50 °C"))
    yield "no unit", step(lambda s: s.update(at_least="55"))
    yield "no hold", step(lambda s: s.pop("hours"))
    yield "a hold of nothing", step(lambda s: s.update(hours=0))
    yield "unknown continuity", step(lambda s: s.update(continuity="quiet"))
    yield "an average that adds up", step(lambda s: s.update(continuity="cumulative", mean_above="60 °C"))
    yield "an unknown field", step(lambda s: s.update(colour="red"))
    broken = copy.deepcopy(criteria)
    del broken["criteria"][0]["scope"]
    yield "no scope", broken


def main():
    validator = jsonschema.Draft202012Validator(load("criteria.schema.json"))
    validator.check_schema(validator.schema)
    criteria = load("criteria.json")
    faults = [f"{'/'.join(map(str, error.path))}: {error.message}" for error in validator.iter_errors(criteria)]
    faults += [f"the schema takes a file with {what}" for what, broken in damaged(criteria) if validator.is_valid(broken)]
    print("\n".join(faults) or f"{len(criteria['criteria'])} criteria obey the schema")
    sys.exit(1 if faults else 0)


if __name__ == "__main__":
    main()
