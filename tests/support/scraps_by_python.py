#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Ten kilograms of kitchen scraps with card and leaves, for every published figure of the scraps, in fractions.

Run: python3 tests/support/scraps_by_python.py > tests/published/scraps_by_python.inc
Written without a look at our own code. The scraps are taken in turn as
  a basket of eight foods of USDA SR28 in equal parts: carbon by protein, fat and carbohydrate, and by the short cut
    (100 - ash) / 1.8 (tests/published/data/usda_sr28_foods.csv);
  vegetable produce and vegetable wastes of the handbook as a technical bulletin reprints them
    (How to Mix Composting Materials, businessdocbox.com/98528550): 87 %, 2.7, 19 and 3.25, 12 (moisture of the former);
  vegetable scraps of Cornell, Compost Chemistry: C:N 15 to 20, with moisture and nitrogen of the former.
Leaves 38 %, 0.9, 54 and corrugated card 8 %, 0.09, 563 as the program's list has them.
"""
import csv
import pathlib
from fractions import Fraction as F

DATA = pathlib.Path(__file__).parent.parent / "published" / "data" / "usda_sr28_foods.csv"
FOODS = {row["ndb_no"]: row for row in csv.DictReader(open(DATA, encoding="utf-8"))}
BASKET = ["11362", "11124", "11282", "11109", "11251", "09003", "09040", "09216"]


def basket(short_cut):
    water = nitrogen = carbon = F(0)
    for food in BASKET:
        g = {k: F(v) for k, v in FOODS[food].items() if k.endswith("_percent")}
        water += g["water_percent"]
        nitrogen += g["protein_percent"] / F("6.25")
        if short_cut:
            carbon += (100 - g["water_percent"] - g["ash_percent"]) / F("1.8")
        else:
            carbon += (F("0.53") * g["protein_percent"] + F("0.77") * g["fat_percent"]
                       + F("0.44") * g["carbohydrate_percent"])
    dry = 100 * len(BASKET) - water
    return water / len(BASKET), 100 * nitrogen / dry, carbon / nitrogen


SCRAPS = [basket(False), basket(True), (F(87), F("2.7"), F(19)), (F(87), F("3.25"), F(12)), (F(87), F("2.7"), F(15)),
          (F(87), F("2.7"), F(20))]
LEAVES = (F(38), F("0.9"), F(54))
CARD = (F(8), F("0.09"), F(563))


def mixture(parts):
    mass = sum(q for q, _ in parts)
    nitrogen = sum(q * (100 - m) * n for q, (m, n, r) in parts)
    return (sum(q * m for q, (m, n, r) in parts) / mass,
            sum(q * (100 - m) * n * r for q, (m, n, r) in parts) / nitrogen)


def least(scraps):
    """The least leaves and card for moisture of at most 70 % and C:N of 25 to 50: every corner is tried."""
    # Each line: a + b * leaves + c * card <= 0.
    def moisture(most):
        return [q * (s[0] - most) for q, s in ((10, scraps), (1, LEAVES), (1, CARD))]

    def ratio(limit, sign):
        return [sign * q * (100 - s[0]) * s[1] * (s[2] - limit) for q, s in ((10, scraps), (1, LEAVES), (1, CARD))]

    lines = [moisture(70), ratio(50, 1), ratio(25, -1), [F(0), F(-1), F(0)], [F(0), F(0), F(-1)]]
    best = None
    for i, (a, b, c) in enumerate(lines):
        for d, e, f in lines[i + 1:]:
            det = b * f - c * e
            if det == 0:
                continue
            x, y = (c * d - a * f) / det, (a * e - b * d) / det
            if all(l[0] + l[1] * x + l[2] * y <= F(1, 10**9) for l in lines) and (best is None or x + y < best):
                best = x + y
    return best


print("// Made by tests/support/scraps_by_python.py; do not edit.")
print("// Moisture, nitrogen and C:N of the scraps; moisture and C:N of 10 kg with 4 kg of leaves and 1 kg of card; the")
print("// least leaves and card for 70 % and C:N of 25 to 50.")
for scraps in SCRAPS:
    row = [*scraps, *mixture([(10, scraps), (4, LEAVES), (1, CARD)]), least(scraps)]
    print("{" + ", ".join(repr(float(v)) for v in row) + "},")
