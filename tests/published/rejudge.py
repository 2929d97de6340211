#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Judges random logs a second time, from their CSV files and resources/criteria.json alone, and compares every figure
of `middenbook review --json` with the answer.

The way is another one than the program's: the program chains intervals and intersects sets of them; here time is cut
at every reading of every position, each cell is credited or not for each position, and numpy looks for the runs.
Definitions (README and DEVELOPERS.md, "Credited time"): an interval counts whole when both its end readings qualify
and it is no longer than the step's longest gap; all monitored positions at once; raw material starts the clock anew.

Usage: rejudge.py MIDDENBOOK CRITERIA.json [LOGS] [SEED]
"""
import csv
import json
import random
import subprocess
import sys
import tempfile
from datetime import datetime, timezone
from decimal import Decimal
from fractions import Fraction
from pathlib import Path

import numpy as np

PARTS = 90_000  # parts of a degree Celsius: exact for four decimals of °C and of °F
VERDICTS = ["not-shown", "shown-within-error", "shown"]
TARGET = {"id": "target", "alternatives": [
    {"title": None, "steps": [{"at_least": "55 °C", "hours": 72, "continuity": "consecutive"}]}]}
BEGIN = int(datetime(2026, 3, 1, 8, tzinfo=timezone.utc).timestamp())


# --- what was written down -------------------------------------------------------------------------------------------

def stamp(seconds):
    return datetime.fromtimestamp(seconds, timezone.utc).strftime("%Y-%m-%dT%H:%M:%SZ")


def instant(text):
    return int(datetime.strptime(text, "%Y-%m-%dT%H:%M:%SZ").replace(tzinfo=timezone.utc).timestamp())


def parts(number, unit="C"):
    ten_thousandths = int(Decimal(number) * 10_000)
    return ten_thousandths * 9 if unit == "C" else (ten_thousandths - 320_000) * 5


def limit(text):
    number, unit = text.replace("°", "").split()
    return parts(number, unit)


def write(path, header, rows):
    with open(path, "w", newline="", encoding="utf-8") as file:
        out = csv.writer(file)
        out.writerow(header)
        out.writerows(rows)


def random_readings(rng, probes):
    """Rows of a few positions, each with its own rhythm and level: cold, near a limit, hot, too hot."""
    rows = []
    last = BEGIN
    for position in rng.sample(["core", "side", "base"], rng.choice([1, 1, 2, 3])):
        at = BEGIN + rng.choice([0, 0, 3_600, 86_400])
        rhythm = rng.choice([900, 3_600, 21_600, 43_200, 86_400])
        level = rng.choice([38, 44, 45.5, 50.5, 56, 58, 61, 63, 66, 72])
        spread = rng.choice([0, 0.5, 1, 3, 8])
        probe = rng.choice(probes)
        for _ in range(rng.choice([1, 5, 12, 20, 40, 120])):
            celsius = Decimal(str(round(level + rng.uniform(-spread, spread), rng.choice([0, 1, 1, 2]))))
            number, unit = (celsius, "C") if rng.random() < 0.8 else (round(celsius * 9 / 5 + 32, 1), "F")
            rows.append([stamp(at), str(number), position, unit.lower(), probe])
            last = max(last, at)
            at += int(rhythm * rng.choice([1, 1, 1, 1, 1, 0.5, 1.5, 1.6])) + rng.choice([0, 0, 0, 1, -1])
    return rows, last


def random_additions(rng, last):
    rows = []
    for _ in range(rng.choice([0, 0, 1, 2, 3])):
        at = BEGIN - 3_600 if rng.random() < 0.5 else rng.randint(BEGIN, last + 7_200)
        material, raw = rng.choice([("scraps of the day", ""), ("scraps of the day", "no"), ("straw", ""),
                                    ("straw", "yes"), ("grass", ""), ("wood chips", "no")])
        rows.append([stamp(at), material, rng.choice(["5", "12.5"]), rng.choice(["40", "75"]),
                     rng.choice(["0.8", "2.4"]), rng.choice(["20", "31", "60"]), raw])
    return rows


def random_log(rng, folder, number):
    probes = [f"p{number}a", f"p{number}b", ""]
    readings, last = random_readings(rng, probes)
    checks = [[stamp(rng.randint(BEGIN - 86_400, last)), rng.choice(probes[:2]), "ice",
               str(Decimal(rng.randint(-20, 20)) / 10)] for _ in range(rng.choice([0, 0, 1, 2]))]
    files = {
        "readings": (["time", "temperature", "position", "unit", "probe"], readings),
        "additions": (["time", "material", "mass_kg", "moisture_percent", "nitrogen_percent", "carbon_nitrogen", "raw"],
                      random_additions(rng, last)),
        "aerations": (["time", "kind"], [[stamp(rng.randint(BEGIN, last + 3_600)), rng.choice(["turned", "turned", "forked"])]
                                         for _ in range(rng.choice([0, 0, 3, 6, 9]))]),
        "observations": (["time", "kind", "subject", "value"],
                         [[stamp(rng.randint(BEGIN, last + 60)), "condition", rng.choice(["curing", "aerobic", "housed"]),
                           rng.choice(["yes", "no"])] for _ in range(rng.choice([0, 0, 1, 3]))]),
        "probes": (["probe", "accuracy"], [[probes[0], rng.choice(["0", "0.5", "2"])], [probes[1], "0.3"]]),
        "checks": (["time", "probe", "kind", "read"], checks)}
    arguments = []
    for name, (header, rows) in files.items():
        if rows:
            path = folder / f"{number}-{name}.csv"
            write(path, header, rows)
            arguments += [f"--{name}", str(path)]
    return {name: rows for name, (_, rows) in files.items()}, arguments


# --- the second judgement --------------------------------------------------------------------------------------------

def samples_of(log):
    """position -> (instants, corrected parts, allowance parts), in time order; one reading an instant."""
    accuracy = {probe: parts(value) for probe, value in log["probes"]}
    tracks = {}
    for time, number, position, unit, probe in log["readings"]:
        at = instant(time)
        value = parts(number, unit.upper())
        before = [(instant(when), line, parts(read)) for line, (when, p, _, read) in enumerate(log["checks"])
                  if p == probe and instant(when) <= at]
        value -= max(before)[2] if before else 0
        tracks.setdefault(position, {})[at] = (value, accuracy.get(probe, PARTS))
    return {position: (np.array(sorted(rows)), np.array([rows[at][0] for at in sorted(rows)]),
                       np.array([rows[at][1] for at in sorted(rows)])) for position, rows in sorted(tracks.items())}


def last_raw(log):
    raw = [(instant(row[0]), row[1]) for row in log["additions"]
           if row[6] == "yes" or (row[6] == "" and row[1] != "straw")]
    if not raw:
        return None, []
    at = max(when for when, _ in raw)
    return at, [material for when, material in raw if when == at]


def max_gap(step):
    if "max_gap_hours" in step:
        return step["max_gap_hours"] * 3_600
    hold = hold_of(step)
    return 36 * 3_600 if hold >= 72 * 3_600 else 26 * 3_600 if hold >= 48 * 3_600 else hold // 2


def hold_of(step):
    return step.get("hours", step.get("more_than_hours")) * 3_600


def reached(step, seconds):
    return seconds > hold_of(step) if "more_than_hours" in step else seconds >= hold_of(step)


def qualifying(step, values, allowance, guarded):
    low = values - allowance if guarded else values
    high = values + allowance if guarded else values
    fits = low >= limit(step["at_least"]) if "at_least" in step else low > limit(step["above"])
    return fits & (high <= limit(step["at_most"])) if "at_most" in step else fits


def cells_of(step, tracks, cuts, start, guarded):
    """For each cell between two cuts: is it credited for every position?"""
    credited = np.ones(max(len(cuts) - 1, 0), bool)
    for instants, values, allowance in tracks.values():
        own = np.zeros(len(credited), bool)
        counts = instants >= start
        t, good = instants[counts], qualifying(step, values, allowance, guarded)[counts]
        if len(t) > 1:
            kept = np.flatnonzero(good[:-1] & good[1:] & (np.diff(t) <= max_gap(step)))
            steps = np.zeros(len(cuts), int)
            np.add.at(steps, np.searchsorted(cuts, t[kept]), 1)
            np.add.at(steps, np.searchsorted(cuts, t[kept + 1]), -1)
            own = np.cumsum(steps)[:-1] > 0
        credited &= own
    return credited


def runs_of(cuts, credited):
    edges = np.flatnonzero(np.diff(np.concatenate(([0], credited.astype(int), [0]))))
    return [(int(cuts[a]), int(cuts[b])) for a, b in zip(edges[::2], edges[1::2])]


def length(runs):
    return sum(b - a for a, b in runs)


def longest(runs):
    return max((b - a for a, b in runs), default=0)


def within(cuts, credited, outer_step, outer_runs):
    if outer_step["continuity"] == "cumulative":
        keep = outer_runs if reached(outer_step, length(outer_runs)) else []
    else:
        keep = [run for run in outer_runs if reached(outer_step, run[1] - run[0])]
    inside = np.zeros(len(credited), bool)
    for a, b in keep:
        inside[np.searchsorted(cuts, a):np.searchsorted(cuts, b)] = True
    return credited & inside


def mean_margin(step, runs, tracks, cuts, guarded):
    """The best over all pairs of readings of the lowest position's average above the level, in parts."""
    level = limit(step.get("mean_above", step.get("mean_at_least")))
    best = -np.inf
    for a, b in runs:
        points = cuts[(cuts >= a) & (cuts <= b)].astype(float)
        span = points[None, :] - points[:, None]
        far = span > hold_of(step) if "more_than_hours" in step else span >= hold_of(step)
        if not far.any():
            continue
        lowest = np.full(span.shape, np.inf)
        for instants, values, allowance in tracks.values():
            held = (values - allowance if guarded else values) - level
            heights = np.interp(points, instants, held)
            area = np.concatenate(([0], np.cumsum((heights[1:] + heights[:-1]) / 2 * np.diff(points))))
            with np.errstate(divide="ignore", invalid="ignore"):
                lowest = np.minimum(lowest, (area[None, :] - area[:, None]) / span)
        best = max(best, lowest[far].max())
    return best


class Unsure(Exception):
    """An average so near its limit that rounding decides."""


def shows(step, runs, tracks, cuts, guarded):
    kept = length(runs) if step["continuity"] == "cumulative" else longest(runs)
    if not reached(step, kept):
        return False
    if "mean_above" not in step and "mean_at_least" not in step:
        return True
    margin = mean_margin(step, runs, tracks, cuts, guarded)
    if abs(margin) < 1e-6:
        raise Unsure
    return margin > 0


def alternative_figures(alternative, tracks, cuts, start):
    by_guard = []
    for guarded in (False, True):
        all_runs = []
        for step in alternative["steps"]:
            credited = cells_of(step, tracks, cuts, start, guarded)
            if "within_step" in step:
                outer = step["within_step"] - 1
                credited = within(cuts, credited, alternative["steps"][outer], all_runs[outer])
            all_runs.append(runs_of(cuts, credited))
        by_guard.append(all_runs)
    read, held = by_guard
    verdict = 2
    for step, plain, guarded in zip(alternative["steps"], read, held):
        one = 2 if shows(step, guarded, tracks, cuts, True) else 1 if shows(step, plain, tracks, cuts, False) else 0
        verdict = min(verdict, one)
    return verdict, read


def turnings(asked, step, runs, log):
    """The longest chain of turnings far enough apart, by dynamic programming."""
    if not runs:
        return 0
    a, b = max(runs, key=lambda run: run[1] - run[0]) if step["continuity"] != "cumulative" else (runs[0][0], runs[-1][1])
    inside = sorted(instant(time) for time, kind in log["aerations"] if kind == "turned" and a <= instant(time) <= b)
    chains = []
    for i, at in enumerate(inside):
        before = [chains[j] for j in range(i) if at - inside[j] >= asked.get("apart_hours", 0) * 3_600]
        chains.append(1 + max(before, default=0))
    return max(chains, default=0)


def carbon_nitrogen(log):
    carbon = nitrogen = Fraction(0)
    for _, _, mass, moisture, n, ratio, _ in log["additions"]:
        dry = Fraction(mass) * (100 - Fraction(moisture)) * Fraction(n)
        nitrogen += dry
        carbon += dry * Fraction(ratio)
    return carbon / nitrogen if nitrogen else None


def conditions_of(criterion, alternative, runs, log):
    found = []
    for step, own in zip(alternative["steps"], runs):
        if "turnings" in step:
            count = turnings(step["turnings"], step, own, log)
            asked = step["turnings"]["count"]
            found.append((asked, count, "not-recorded" if not log["aerations"] else "held" if count >= asked else "not-held"))
    for condition in alternative.get("conditions", []) + criterion.get("conditions", []):
        ratio = carbon_nitrogen(log) if "carbon_nitrogen" in condition else None
        if ratio is not None:
            band = condition["carbon_nitrogen"]
            found.append((None, float(ratio), "held" if band["least"] <= ratio <= band["most"] else "not-held"))
            continue
        answers = sorted((instant(row[0]), i, row[3]) for i, row in enumerate(log["observations"]) if row[2] == condition["id"])
        if answers and sum(1 for answer in answers if answer[0] == answers[-1][0]) > 1:
            raise Unsure  # two answers in one second have no order
        found.append((None, None, {"yes": "held", "no": "not-held"}[answers[-1][2]] if answers else "not-recorded"))
    return found


def qualifying_days(step, tracks, start):
    """Days on which every position had a reading that qualifies; the batches of this test start in UTC."""
    by_position = []
    for instants, values, allowance in tracks.values():
        good = qualifying(step, values, allowance, False) & (instants >= start)
        by_position.append({int(at) // 86_400 for at in instants[good]})
    return len(set.intersection(*by_position))


def judge(criterion, log, tracks):
    cuts = np.unique(np.concatenate([instants for instants, _, _ in tracks.values()]))
    raw_at, materials = last_raw(log)
    start = raw_at if raw_at is not None else int(cuts[0])
    ways = [alternative_figures(alternative, tracks, cuts, start) for alternative in criterion["alternatives"]]

    def rank(index):
        step, runs = criterion["alternatives"][index]["steps"][0], ways[index][1][0]
        kept = length(runs) if step["continuity"] == "cumulative" else longest(runs)
        return ways[index][0], Fraction(kept, hold_of(step)), -index

    best = max(range(len(ways)), key=rank)
    alternative, (verdict, runs) = criterion["alternatives"][best], ways[best]
    step = alternative["steps"][0]
    return {
        "verdict": VERDICTS[verdict], "required": hold_of(step), "cumulative": length(runs[0]),
        "credited": length(runs[0]) if step["continuity"] == "cumulative" else longest(runs[0]),
        "restarted": materials if raw_at is not None and raw_at > cuts[0] else None,
        "ways": [(VERDICTS[v], [(limit(s.get("at_least", s.get("above"))), length(r), longest(r), hold_of(s),
                                 qualifying_days(s, tracks, start) if "turnings" in s else None)
                                for s, r in zip(a["steps"], all_runs)])
                 for a, (v, all_runs) in zip(criterion["alternatives"], ways)],
        "conditions": conditions_of(criterion, alternative, runs, log),
        "runs": runs[0], "whole": (int(cuts[0]), int(cuts[-1]))}


# --- comparison ------------------------------------------------------------------------------------------------------

def near(a, b):
    return abs(a - b) <= 1e-9 * max(1, abs(a), abs(b))


def hours(a, seconds):
    return near(a * 3_600, seconds)


def evidence_agrees(evidence, answer):
    told = [(instant(e["from"]), instant(e["to"]), e["credited"], e["reason"]) for e in evidence]
    if answer["whole"][0] == answer["whole"][1]:
        return not told
    whole = (told[0][0], told[-1][1]) == answer["whole"]
    joined = all(a[1] == b[0] for a, b in zip(told, told[1:])) and all(a < b and reason for a, b, _, reason in told)
    return whole and joined and [(a, b) for a, b, credited, _ in told if credited] == answer["runs"]


def conditions_agree(conditions, answer):
    same = len(conditions) == len(answer["conditions"])
    for mine, (required, recorded, state) in zip(conditions, answer["conditions"]):
        numbers = mine["required"] == required and (
            mine["recorded"] is None if recorded is None else near(mine["recorded"], recorded))
        same = same and numbers and mine["state"] == state
    return same


def ways_agree(alternatives, answer):
    same = len(alternatives) == len(answer["ways"])
    for mine, (verdict, steps) in zip(alternatives, answer["ways"]):
        same = same and mine["verdict"] == verdict and len(mine["steps"]) == len(steps)
        for step, (level, credited, longest_run, hold, days) in zip(mine["steps"], steps):
            same = (same and near(step["celsius"], level / PARTS) and hours(step["credited_hours"], credited)
                    and hours(step["longest_run_hours"], longest_run) and hours(step["required_hours"], hold)
                    and step.get("qualifying_days") == days)
    return same


def differences(told, answer):
    checks = {
        "verdict": told["verdict"] == answer["verdict"],
        "credited_hours": hours(told["credited_hours"], answer["credited"]),
        "required_hours": hours(told["required_hours"], answer["required"]),
        "cumulative_hours": hours(told["cumulative_hours"], answer["cumulative"]),
        "restarted_by": (told["restarted_by"] is None) == (answer["restarted"] is None) and all(
            material in (told["restarted_by"] or "") for material in answer["restarted"] or []),
        "alternatives": ways_agree(told["alternatives"], answer),
        "conditions": conditions_agree(told["conditions"], answer),
        "evidence": evidence_agrees(told["evidence"], answer)}
    return [name for name, same in checks.items() if not same]


def main():
    program, criteria_file = sys.argv[1:3]
    count = int(sys.argv[3]) if len(sys.argv) > 3 else 1_000
    seed = int(sys.argv[4]) if len(sys.argv) > 4 else 20260301
    rng = random.Random(seed)
    criteria = [TARGET] + json.loads(Path(criteria_file).read_text(encoding="utf-8"))["criteria"]
    memory = "/dev/shm" if Path("/dev/shm").is_dir() else None
    with tempfile.TemporaryDirectory(dir=memory) as folder:
        book = Path(folder) / "logs.midden"
        logs = {}
        for number in range(count):
            name = f"batch {number:04}"
            logs[name], files = random_log(rng, Path(folder), number)
            subprocess.run([program, "import", str(book), "--batch", name, "--bin", f"bin {number:04}", *files],
                           check=True, stdout=subprocess.DEVNULL)
        review = json.loads(subprocess.run([program, "review", str(book), "--json"], check=True,
                                           stdout=subprocess.PIPE).stdout)
    wrong = judged = unsure = 0
    seen = {}
    for batch in review["batches"]:
        told = {one["id"]: one for one in batch["criteria"]}
        tracks = samples_of(logs[batch["batch"]])
        if set(told) != {criterion["id"] for criterion in criteria}:
            sys.exit(f"{batch['batch']}: other criteria than in {criteria_file}: {sorted(told)}")
        for criterion in criteria:
            try:
                answer = judge(criterion, logs[batch["batch"]], tracks)
            except Unsure:
                unsure += 1
                continue
            judged += 1
            seen[answer["verdict"]] = seen.get(answer["verdict"], 0) + 1
            wrongs = differences(told[criterion["id"]], answer)
            if wrongs and (wrong := wrong + 1) <= 10:
                print(f"seed {seed}, {batch['batch']}, {criterion['id']}: {', '.join(wrongs)}\n"
                      f"  program {json.dumps({**told[criterion['id']], 'evidence': '...'})}\n  here    {answer}")
    print(f"{len(review['batches'])} logs, {judged} judgements compared ({seen}), {unsure} left out because rounding "
          f"or order within a second decides, {wrong} differ")
    if wrong or len(review["batches"]) != count or len(seen) != 3 or unsure * 100 > judged:
        sys.exit(1)


if __name__ == "__main__":
    main()
