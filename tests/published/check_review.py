#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Does "review --json" of the invented season obey resources/review.schema.json, and would the schema notice a fault?

Usage: check_review.py PROGRAM SOURCE_DIRECTORY
"""
import copy
import json
import subprocess
import sys
import tempfile
from pathlib import Path

import jsonschema

SEASON = [("north-early", "North", ["aerations"]), ("shed-spring", "Shed", ["aerations", "observations"]),
          ("hedge-summer", "Hedge", ["aerations"]), ("shed-summer", "Shed", [])]


def review(program, season):
    with tempfile.TemporaryDirectory() as folder:
        book = str(Path(folder) / "season.midden")
        for stem, bin_name, more in SEASON:
            files = [part for kind in ["readings", "additions", *more]
                     for part in (f"--{kind}", str(season / f"{stem}-{kind}.csv"))]
            shared = [part for kind in ["probes", "checks", "bins"] for part in (f"--{kind}", str(season / f"{kind}.csv"))]
            subprocess.run([program, "import", book, "--batch", stem, "--bin", bin_name, "--zone", "Europe/London",
                            *shared, *files], check=True, stdout=subprocess.DEVNULL)
        return json.loads(subprocess.run([program, "review", book, "--json"], check=True, capture_output=True).stdout)


def damaged(answer):
    """The answer with one fault each."""
    def stall(change):
        broken = copy.deepcopy(answer)
        change(next(one for batch in broken["batches"] for one in batch["stalls"]))
        return broken
    yield "a stall without causes", stall(lambda s: s.pop("causes"))
    yield "an unknown change of heat", stall(lambda s: s["heat"].update(change="rising"))
    broken = copy.deepcopy(answer)
    broken["batches"][0]["heat"]["time_constant"]["hours"] = "60"
    yield "hours in words", broken


def main():
    program, source = sys.argv[1], Path(sys.argv[2])
    validator = jsonschema.Draft202012Validator(json.loads((source / "resources/review.schema.json").read_text()))
    validator.check_schema(validator.schema)
    answer = review(program, source / "demo/season")
    faults = [f"{'/'.join(map(str, error.path))}: {error.message}" for error in validator.iter_errors(answer)]
    if not any(batch["stalls"] for batch in answer["batches"]) or not any(
            batch["heat"]["self_heating"] for batch in answer["batches"]):
        faults.append("the season shows neither a stall nor self-heating: it tries too little")
    else:
        faults += [f"the schema takes {what}" for what, broken in damaged(answer) if validator.is_valid(broken)]
    print("\n".join(faults) or f"{len(answer['batches'])} reviews obey the schema")
    sys.exit(1 if faults else 0)


if __name__ == "__main__":
    main()
