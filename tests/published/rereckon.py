#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Reckons random fed bins a second time, layer by layer, from their CSV files alone, and compares every figure of
`middenbook review --json` with the answer.

The way is another one than the program's: for every two consecutive readings every layer is looked at, with its height
worked out anew from all that lies below it, and what it was credited with is kept as a list of intervals. Definitions:

* Additions within 12 h of the first of them are one feed at the instant of the last; it lies on top, cut into the fewest
  equal slices of at most 5 cm. Of V litres V phi s(a) are left after a days, s(a) = s_inf + (1 - s_inf) exp(-a/k), for
  k = 10, 20 and 40. Each level sets s_inf for each k; it is kept from 0.15 to 0.60, else clamped and not kept.
* Two consecutive readings of a position at most 36 h apart, no turning, forking or harvest between, both at least the
  allowance a above the threshold by m: layers wholly within min(10 cm, m / 1 C per cm) at both ends, for every k kept at
  either end, are credited. Two such positions at most 20 cm apart credit what lies wholly between them while both are hot.
  Nothing without a level in the 14 days before either end, or where no k is kept.
* At most: hours since it was fed less what was shown colder than the threshold, on the same terms; never below at least.
* At one instant: readings, then feed, level, turned, forked, harvest.

Usage: rereckon.py MIDDENBOOK MATERIALS.csv [BINS] [SEED]
"""
import csv
import json
import math
import random
import subprocess
import sys
import tempfile
from datetime import datetime, timezone
from pathlib import Path

HOUR = 3_600
DAY = 24 * HOUR
BEGIN = int(datetime(2026, 3, 1, 8, tzinfo=timezone.utc).timestamp())
RATES = (10, 20, 40)
THRESHOLD, HOLD = 55, 72 * HOUR
ORDER = ["feed", "level", "turned", "forked", "harvest"]


def stamp(seconds):
    return datetime.fromtimestamp(seconds, timezone.utc).strftime("%Y-%m-%dT%H:%M:%SZ")


def instant(text):
    return int(datetime.strptime(text, "%Y-%m-%dT%H:%M:%SZ").replace(tzinfo=timezone.utc).timestamp())


def write(path, header, rows):
    with open(path, "w", newline="", encoding="utf-8") as file:
        out = csv.writer(file)
        out.writerow(header)
        out.writerows(rows)


# --- random bins -----------------------------------------------------------------------------------------------------

class Bin:
    """What a steward wrote down of one fed bin; every list holds rows as they stand in the CSV files."""

    def __init__(self, rng, number):
        self.name = f"bin {number}"
        self.height = rng.choice([60, 80, 80, 90.5, 110])
        self.volume = rng.choice([150, 200, 220, 300, 412.5])
        self.hatch = rng.choice([None, None, 0, 12, 25, 33.5])
        self.days = rng.choice([12, 25, 40, 70])
        self.positions = self.random_positions(rng)
        self.accuracy = {position: rng.choice(["", "", "0", "0.5", "2"]) for position in self.positions}
        self.additions = self.random_feeds(rng)
        self.levels, self.harvests = self.random_levels(rng)
        self.aerations = self.random_aerations(rng)
        self.readings = self.random_readings(rng)

    def some_instant(self, rng, earliest=0):
        """On the hour mostly, so that things meet at one instant."""
        at = BEGIN + rng.randint(earliest, self.days * 24) * HOUR
        return at + rng.choice([0, 0, 0, 0, 1, 600, 1_800, -1])

    def random_positions(self, rng):
        names = rng.sample(["core", "side", "base", "top"], rng.choice([1, 2, 2, 3, 4]))
        heights = [rng.choice([None, 5, 10, 10, 15, 20, 25, 30, 37.5, 45, 55]) for _ in names]
        if all(height is None for height in heights):
            heights[0] = 30
        return dict(zip(names, heights))

    def random_feeds(self, rng):
        kinds = [("kitchen scraps", ""), ("kitchen scraps", ""), ("whatever there was", ""), ("wood chips", ""),
                 ("finished compost", ""), ("whatever there was", "no"), ("bark", ""), ("grass", "")]
        rows = []
        if rng.random() < 0.5:  # a bed
            rows.append([stamp(BEGIN - DAY), rng.choice(["finished compost", "wood chips"]), "10", rng.choice(["20", "35"]), ""])
        at = BEGIN
        while at < BEGIN + self.days * DAY:
            material, raw = rng.choice(kinds)
            volume = rng.choice(["", "3", "7.5", "12", "20", "38"])
            rows.append([stamp(at), material, rng.choice(["1.5", "4", "6.25"]), volume, raw])
            at += rng.choice([2, 5, 11, 12, 13, 24, 48, 72, 72, 96]) * HOUR + rng.choice([0, 0, 0, 1, -1])
        return rows

    def random_levels(self, rng):
        """Levels near what some way of shrinking gives, so that they agree with it more often than not."""
        levels, harvests = [], []
        share, rate = rng.uniform(0.15, 0.55), rng.choice([8, 15, 25, 40])
        area = self.volume / (10 * self.height)
        taken = 0.0
        at = BEGIN + rng.choice([1, 5, 9]) * DAY
        while at < BEGIN + self.days * DAY:
            left = sum(float(row[3] or 12) * (share + (1 - share) * math.exp(-(at - instant(row[0])) / DAY / rate))
                       for row in self.additions if instant(row[0]) <= at)
            level = max(0.0, (left - taken) / (10 * area)) * rng.uniform(0.93, 1.07)
            if rng.random() < 0.93:
                levels.append([stamp(at), f"{min(level, 1.4 * self.height):.1f}"])
            if at > BEGIN + 10 * DAY and rng.random() < 0.35:
                litres = rng.choice([5, 10, 20, 40, 300 if rng.random() < 0.1 else 15])
                litres = min(litres, 1.4 * self.volume)
                harvests.append([stamp(at + rng.choice([0, 0, 1, HOUR, 7 * HOUR])), str(litres)])
                taken += 0.8 * litres
            at += rng.choice([3, 6, 7, 7, 10, 15, 20]) * DAY + rng.choice([0, 0, 1, HOUR])
        return levels, harvests

    def random_aerations(self, rng):
        rows = []
        for _ in range(rng.choice([0, 0, 0, 1, 2, 4])):
            kind = rng.choice(["turned", "forked", "forked", "forked", "opened", "watered"])
            depth = rng.choice(["", "10", "20", "35.5", "200"]) if kind == "forked" else ""
            rows.append([stamp(self.some_instant(rng)), kind, depth])
        return rows

    def random_readings(self, rng):
        rows = {}
        warm = rng.choice([48, 58, 61, 64, 67])
        for position in self.positions:
            level = warm + rng.choice([-9, -3, 0, 0, 2])
            spread = rng.choice([1, 3, 6, 12])
            rhythm = rng.choice([6, 12, 12, 24, 24, 35])
            at = BEGIN + rng.choice([0, 1, 24]) * HOUR
            while at <= BEGIN + self.days * DAY:
                rows[(at, position)] = f"{level + rng.uniform(-spread, spread):.{rng.choice([0, 1, 1, 1])}f}"
                at += rng.choice([rhythm] * 6 + [36, 36, 37, 60]) * HOUR + rng.choice([0, 0, 0, 0, 1, -1])
        last = max([at for at, _ in rows] + [instant(row[0]) for row in
                                             self.additions + self.levels + self.harvests + self.aerations])
        if rng.random() < 0.6:  # a last entry that is a reading
            rows[(last + rng.choice([0, HOUR, 40 * HOUR]), next(iter(self.positions)))] = str(warm)
        return [[stamp(at), position, value] for (at, position), value in rows.items()]

    def files(self, rng, folder):
        """Writes the files, their rows in any order, and gives back the options of `import` that read them."""
        observations = [[time, "level", value] for time, value in self.levels]
        written = {
            "bins": (["bin", "volume_l", "height_cm", "hatch_top_cm"],
                     [[self.name, self.volume, self.height, "" if self.hatch is None else self.hatch]]),
            "positions": (["bin", "position", "spot_check", "height_cm"],
                          [[self.name, position, "no", "" if height is None else height]
                           for position, height in self.positions.items()]),
            "probes": (["probe", "accuracy"], [[f"dial {position}", accuracy]
                                               for position, accuracy in self.accuracy.items()]),
            "readings": (["time", "position", "temperature", "probe"],
                         [[time, position, value, f"dial {position}"] for time, position, value in self.readings]),
            "additions": (["time", "material", "mass_kg", "volume_l", "raw"], self.additions),
            "observations": (["time", "kind", "value"], observations),
            "aerations": (["time", "kind", "depth_cm"], self.aerations),
            "harvests": (["time", "volume_l"], self.harvests)}
        options = []
        for name, (header, rows) in written.items():
            if rows:
                path = folder / f"{name}.csv"
                write(path, header, rng.sample(rows, len(rows)))
                options += [f"--{name}", str(path)]
        return options


# --- the second reckoning --------------------------------------------------------------------------------------------

class Part:
    def __init__(self, litres, fed):
        self.litres, self.fed, self.share = litres, fed, 1.0


class Layer:
    def __init__(self, parts, raw):
        self.parts, self.raw = parts, raw
        self.hot, self.cold = [], []  # intervals since `since`
        self.since = parts[0].fed
        self.least, self.longest, self.most = 0, 0, 0  # seconds before `since`

    def fed(self):
        return [part.fed for part in self.parts]

    def at_least(self):
        return self.least + total(self.hot)

    def longest_run(self):
        return max([self.longest] + [b - a for a, b in union(self.hot)])

    def at_most(self, now):
        return max(self.most + (now - self.since) - total(self.cold), self.at_least())


def union(intervals):
    joined = []
    for a, b in sorted(intervals):
        if joined and a <= joined[-1][1]:
            joined[-1][1] = max(joined[-1][1], b)
        else:
            joined.append([a, b])
    return joined


def total(intervals):
    return sum(b - a for a, b in union(intervals))


class Pile:
    """What lies in the bin, lowest first, and how it shrinks."""

    def __init__(self, bin):
        self.area = bin.volume / (10 * bin.height)
        self.layers = []
        self.s_inf = {k: 0.3 for k in RATES}
        self.kept = []
        self.level_at = None

    def left(self, part, k, now):
        s = self.s_inf[k]
        return part.litres * part.share * (s + (1 - s) * math.exp(-(now - part.fed) / DAY / k))

    def litres(self, layer, k, now):
        return sum(self.left(part, k, now) for part in layer.parts)

    def edges(self, k, now):
        """Lower and upper edge of every layer, cm."""
        found, below = [], 0.0
        for layer in self.layers:
            above = below + self.litres(layer, k, now) / (10 * self.area)
            found.append((below, above))
            below = above
        return found

    def middle(self):
        return {0: 20, 1: (self.kept or [20])[0], 2: (self.kept or [0, 20])[-1], 3: 20}[len(self.kept)]

    def feed(self, litres, raw, now):
        slices = max(1, math.ceil(round(litres / (10 * self.area) / 5, 9)))  # rounding makes no slice of its own
        for _ in range(slices):
            self.layers.append(Layer([Part(litres / slices, now)], raw))

    def level(self, height, now):
        parts = [part for layer in self.layers for part in layer.parts]
        loose = sum(part.litres * part.share for part in parts)
        self.level_at = now
        self.kept = []
        for k in RATES:
            gone = sum(part.litres * part.share * math.exp(-(now - part.fed) / DAY / k) for part in parts)
            if loose - gone <= 1e-9 * loose:
                continue  # only just fed: it says nothing
            s = (10 * self.area * height - gone) / (loose - gone)
            if 0.15 <= s <= 0.60:
                self.kept.append(k)
            self.s_inf[k] = min(max(s, 0.15), 0.60)

    def merge(self, from_layer, now):
        merged = self.layers[from_layer:]
        if not merged:
            return
        judged = [layer for layer in merged if layer.raw] or merged
        one = Layer([part for layer in merged for part in layer.parts], any(layer.raw for layer in merged))
        one.least = min(layer.at_least() for layer in judged)
        one.longest = min(layer.longest_run() for layer in judged)
        one.most = max(layer.at_most(now) for layer in merged)
        one.since = now
        self.layers[from_layer:] = [one]

    def fork(self, depth, now):
        edges = self.edges(20, now)
        if depth is None or not edges:
            return self.merge(0, now)
        reached = edges[-1][1] - depth
        return self.merge(next(i for i, (_, upper) in enumerate(edges) if upper > reached), now)

    def harvest(self, litres, hatch, now):
        k = self.middle()
        edges = self.edges(k, now)
        below, taken, touched = 0.0, [], []
        for layer in self.layers:
            own = self.litres(layer, k, now)
            if below < litres:
                taken.append((layer, min(own, litres - below), own))
            if below < 1.25 * litres:
                touched.append(layer)
            below += own
        record = {"at": stamp(now), "litres": sum(one[1] for one in taken), "reckoned": self.as_reckoned(taken),
                  "cautious": self.cautiously(touched, edges, hatch, now)}
        for layer, litres_taken, own in taken:
            if own <= litres_taken + 1e-9:  # what rounding leaves is nothing
                self.layers.remove(layer)
            else:
                for part in layer.parts:
                    part.share *= 1 - litres_taken / own
        return record

    def as_reckoned(self, taken):
        raw = [layer for layer, _, _ in taken if layer.raw]
        whole = sum(litres for _, litres, _ in taken)
        hours = sorted(((layer.at_least() if layer.raw else math.inf, litres) for layer, litres, _ in taken),
                       key=lambda one: -one[0])

        def held_by(share):
            sum_so_far = 0.0
            for seconds, litres in hours:
                sum_so_far += litres
                if sum_so_far >= share * whole * (1 - 1e-12):
                    return None if seconds == math.inf else seconds / HOUR
            return None

        return {"at_least_hours": least(layer.at_least() for layer in raw),
                "longest_run_hours": least(layer.longest_run() for layer in raw),
                "half_hours": held_by(0.5), "nine_tenths_hours": held_by(0.9),
                "litres_with_hold": sum(litres for layer, litres, _ in taken
                                        if not layer.raw or layer.longest_run() >= HOLD),
                "parts": [{"litres": litres, "raw": layer.raw, "at_least_hours": layer.at_least() / HOUR,
                           "longest_run_hours": layer.longest_run() / HOUR}
                          for layer, litres, _ in taken]}

    def cautiously(self, touched, edges, hatch, now):
        youngest = now - max((max(layer.fed()) for layer in touched), default=now)
        inside = [layer for layer, (lower, _) in zip(self.layers, edges)
                  if layer in touched or lower < hatch or now - min(layer.fed()) >= youngest / 2]
        raw = [layer for layer in inside if layer.raw]
        fed = [at for layer in inside for at in layer.fed()]
        return {"fed_from": stamp(min(fed)) if fed else None, "fed_to": stamp(max(fed)) if fed else None,
                "at_least_hours": least(layer.at_least() for layer in raw),
                "longest_run_hours": least(layer.longest_run() for layer in raw),
                "at_most_hours": max(layer.at_most(now) for layer in inside) / HOUR if inside else None}


def least(seconds):
    found = min(seconds, default=None)
    return None if found is None else found / HOUR


def weight_of_a_litre(materials, name):
    row = materials.get(name.lower())
    return float(row["bulk"]) / 1_000 if row and row["bulk"] else 0.40


def feeds_of(bin, materials):
    """(instant, litres, raw), one for all that was added within 12 h of the first."""
    found, first = [], None
    for time, material, mass, volume, raw in sorted(bin.additions, key=lambda row: instant(row[0])):
        at = instant(time)
        litres = float(volume) if volume else float(mass) / weight_of_a_litre(materials, material)
        own = materials.get(material.lower(), {"raw": "yes"})["raw"]
        is_raw = (raw or own) == "yes"
        if first is None or at - first > 12 * HOUR:
            first = at
            found.append([at, 0.0, False])
        found[-1] = [at, found[-1][1] + litres, found[-1][2] or is_raw]
    return found


def events_of(bin, materials):
    events = [(at, "feed", (litres, raw)) for at, litres, raw in feeds_of(bin, materials)]
    events += [(instant(time), "level", float(value)) for time, value in bin.levels]
    events += [(instant(time), "turned", None) for time, kind, _ in bin.aerations if kind == "turned"]
    events += [(instant(time), "forked", float(depth) if depth else None)
               for time, kind, depth in bin.aerations if kind == "forked"]
    events += [(instant(time), "harvest", float(litres)) for time, litres in bin.harvests]
    return sorted(events, key=lambda event: (event[0], ORDER.index(event[1])))


def intervals_of(bin, events):
    """Consecutive readings of each position whose height is known: (its height, from, to, the least and the most it
    was by the thermometer's error)."""
    breaks = [at for at, kind, _ in events if kind in ("turned", "forked", "harvest")]
    found = []
    for position, height in bin.positions.items():
        error = float(bin.accuracy[position] or 1)  # nobody said: 1 °C
        own = sorted((instant(time), float(value)) for time, where, value in bin.readings if where == position)
        for (a, first), (b, second) in zip(own, own[1:]):
            if height is not None and b - a <= 36 * HOUR and not any(a <= at < b for at in breaks):
                found.append((height, a, b, min(first, second) - error, max(first, second) + error))
    return found


def windows_of(bin, events):
    """What readings show: (from, to, lowest cm, highest cm, hot?)."""
    windows, hot = [], []
    for height, a, b, lower, upper in intervals_of(bin, events):
        above = round(lower - THRESHOLD, 6)
        below = round(THRESHOLD - upper, 6)
        if above >= 0:
            hot.append((height, a, b))
            windows.append((a, b, height - min(10, above), height + min(10, above), True))
        if below > 0:
            windows.append((a, b, height - min(10, below), height + min(10, below), False))
    for i, (p, a, b) in enumerate(hot):
        for q, c, d in hot[i + 1:]:
            if 0 < abs(p - q) <= 20 and max(a, c) < min(b, d):
                windows.append((max(a, c), min(b, d), min(p, q), max(p, q), True))
    return windows


def seen(pile, now):
    """Edges of every layer by every k, which k are kept, and whether a level is fresh enough."""
    fresh = pile.level_at is not None and now - pile.level_at <= 14 * DAY
    return {k: dict(zip(map(id, pile.layers), pile.edges(k, now))) for k in RATES}, list(pile.kept), fresh


def credit(pile, window, before, now):
    a, b, low, high, hot = window
    (edges_before, kept_before, fresh_before), (edges_now, kept_now, fresh_now) = before, seen(pile, now)
    if not (fresh_before and fresh_now and kept_before and kept_now):
        return
    for layer in pile.layers:
        spots = [edges.get(id(layer)) for k in {*kept_before, *kept_now} for edges in (edges_before[k], edges_now[k])]
        if all(spot is not None and spot[0] >= low and spot[1] <= high for spot in spots):
            (layer.hot if hot else layer.cold).append((a, b))


def reckon(bin, materials):
    pile = Pile(bin)
    events = events_of(bin, materials)
    windows = windows_of(bin, events)
    ends = {}
    for window in windows:
        ends.setdefault(window[0], ([], []))[0].append(window)
        ends.setdefault(window[1], ([], []))[1].append(window)
    times = sorted({at for at, _, _ in events} | set(ends))
    looks, harvests = {}, []
    for now in times:
        begins, closes = ends.get(now, ([], []))
        for window in closes:
            credit(pile, window, looks[window[0]], now)
        if begins:
            looks[now] = seen(pile, now)
        for _, kind, value in (event for event in events if event[0] == now):
            if kind == "feed":
                pile.feed(*value, now)
            elif kind == "level":
                pile.level(value, now)
            elif kind == "turned":
                pile.merge(0, now)
            elif kind == "forked":
                pile.fork(value, now)
            else:
                harvests.append(pile.harvest(value, bin.hatch or 0, now))
    end = max(instant(row[0]) for row in bin.readings + bin.additions + bin.levels + bin.harvests + bin.aerations)
    k = pile.middle()
    layers = [{"fed_from": stamp(min(layer.fed())), "fed_to": stamp(max(layer.fed())),
               "litres": pile.litres(layer, k, end), "from_cm": lower, "to_cm": upper,
               "at_least_hours": layer.at_least() / HOUR, "longest_run_hours": layer.longest_run() / HOUR,
               "at_most_hours": layer.at_most(end) / HOUR}
              for layer, (lower, upper) in zip(pile.layers, pile.edges(k, end))]
    fit = [{"k_days": k, "s_inf": pile.s_inf[k], "kept": k in pile.kept} for k in RATES]
    return {"feeding": "fed", "layers": layers, "harvests": harvests, "fit": fit}


# --- the comparison --------------------------------------------------------------------------------------------------

def differences(ours, theirs, where=""):
    """Every figure of ours that is another one in theirs; theirs may say more."""
    if isinstance(ours, dict):
        if not isinstance(theirs, dict):
            return [f"{where}: {ours} against {theirs}"]
        return [line for key, value in ours.items() for line in differences(value, theirs.get(key, "nothing"), f"{where}.{key}")]
    if isinstance(ours, list):
        if not isinstance(theirs, list) or len(ours) != len(theirs):
            return [f"{where}: {len(ours)} against {theirs if not isinstance(theirs, list) else len(theirs)}"]
        return [line for i, pair in enumerate(zip(ours, theirs)) for line in differences(*pair, f"{where}[{i}]")]
    if isinstance(ours, bool) or ours is None or isinstance(ours, str):
        return [] if ours is theirs or ours == theirs else [f"{where}: {ours} against {theirs}"]
    same = isinstance(theirs, (int, float)) and not isinstance(theirs, bool) and abs(ours - theirs) <= 1e-7 * max(1, abs(ours))
    return [] if same else [f"{where}: {ours} against {theirs}"]


def read_materials(path):
    materials = {}
    with open(path, encoding="utf-8") as file:
        for row in csv.DictReader(file, delimiter=";"):
            for name in [row["name"], *row["aliases"].split("|")]:
                materials.setdefault(name.lower(), row)
    return materials


def told_by(program, bin, rng, folder):
    book = folder / "book.midden"
    book.unlink(missing_ok=True)
    for old in folder.glob("*.csv"):
        old.unlink()
    options = bin.files(rng, folder)
    import_ = [program, "import", book, "--batch", "B", "--bin", bin.name, "--fed", *options]
    for command in (import_, [program, "review", book, "--json"]):
        done = subprocess.run(command, capture_output=True, text=True)
        if done.returncode != 0:
            sys.exit(f"{bin.name}: {' '.join(map(str, command[1:3]))} ended with {done.returncode}\n{done.stderr}")
    return json.loads(done.stdout)["batches"][0]


def main():
    program, list_of_materials = sys.argv[1:3]
    bins = int(sys.argv[3]) if len(sys.argv) > 3 else 1_000
    seed = int(sys.argv[4]) if len(sys.argv) > 4 else 20_260_301
    materials = read_materials(list_of_materials)
    seen_of = {"layers": 0, "harvests": 0, "credited layers": 0, "harvests with hours": 0, "merged layers": 0}
    wrong = 0
    with tempfile.TemporaryDirectory() as folder:
        for number in range(bins):
            rng = random.Random(seed + number)
            bin = Bin(rng, number)
            ours = reckon(bin, materials)
            found = differences(ours, told_by(program, bin, rng, Path(folder)))
            for line in found[:8]:
                print(f"bin {number} (seed {seed + number}){line}")
            wrong += bool(found)
            seen_of["layers"] += len(ours["layers"])
            seen_of["harvests"] += len(ours["harvests"])
            seen_of["credited layers"] += sum(layer["at_least_hours"] > 0 for layer in ours["layers"])
            seen_of["harvests with hours"] += sum((one["reckoned"]["half_hours"] or 0) > 0 for one in ours["harvests"])
            seen_of["merged layers"] += sum(layer["fed_from"] != layer["fed_to"] for layer in ours["layers"])
    print(f"{bins} fed bins from seed {seed}: " + ", ".join(f"{count} {what}" for what, count in seen_of.items())
          + f"; {wrong} bins disagree")
    if bins >= 50 and not all(seen_of.values()):
        print("these bins do not try everything")
        sys.exit(1)
    sys.exit(1 if wrong else 0)


if __name__ == "__main__":
    main()
