#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Every row of resources/materials.csv that rests on the food table says what that table says.

Usage: kitchen_figures.py MATERIALS.csv. The table is tests/published/data/usda_sr28_foods.csv: USDA National Nutrient
Database for Standard Reference, release 28 (2016), grams in 100 g (see data/SOURCE.md). Worked out here without the
program: nitrogen is protein / 6.25; carbon is 0.53 of protein, 0.77 of fat and 0.44 of carbohydrate; the range must
also take in the short cut (100 - ash) / 1.8. A mixture is summed by mass, a number before a food's being its parts.
"""
import csv
import pathlib
import re
import sys

FOODS = {
    row["ndb_no"]: {k: float(v) for k, v in row.items() if k.endswith("_percent")}
    for row in csv.DictReader(open(pathlib.Path(__file__).parent / "data" / "usda_sr28_foods.csv", encoding="utf-8"))
}
# The kitchen scraps of the list: eight parts, as its row says.
SCRAPS = {"11362": 1, "11124": 1, "11282": 1, "11109": 1, "11251": 1, "09003": 1, "09040": 1, "09216": 1}


def grams(parts):
    """Water, dry mass, nitrogen, carbon and carbon by the short cut, in the mass of all parts."""
    total = {"mass": 0, "water": 0, "nitrogen": 0, "carbon": 0, "short": 0}
    for food, share in parts.items():
        f = FOODS[food]
        total["mass"] += 100 * share
        total["water"] += f["water_percent"] * share
        total["nitrogen"] += f["protein_percent"] / 6.25 * share
        total["carbon"] += (0.53 * f["protein_percent"] + 0.77 * f["fat_percent"]
                            + 0.44 * f["carbohydrate_percent"]) * share
        total["short"] += (100 - f["water_percent"] - f["ash_percent"]) / 1.8 * share
    return total


def figures(parts):
    g = grams(parts)
    dry = g["mass"] - g["water"]
    return {"moisture": 100 * g["water"] / g["mass"], "nitrogen": 100 * g["nitrogen"] / dry,
            "carbon_nitrogen": g["carbon"] / g["nitrogen"], "short": g["short"] / g["nitrogen"]}


def wrong(row, parts):
    expected = figures(parts)
    for name in ("moisture", "nitrogen", "carbon_nitrogen"):
        if abs(float(row[name]) - expected[name]) > 0.006 * expected[name]:
            yield f"{row['id']}: {name} is {row[name]}, the table makes it {expected[name]:.3f}"
    low, high = float(row["carbon_nitrogen_low"]), float(row["carbon_nitrogen_high"])
    for name in ("carbon_nitrogen", "short"):
        if not low <= expected[name] <= high:
            yield f"{row['id']}: its range does not take in C:N {expected[name]:.1f}"


def main(materials):
    checked, faults = 0, []
    for row in csv.DictReader(open(materials, encoding="utf-8"), delimiter=";", quoting=csv.QUOTE_NONE):
        foods = re.findall(r"\b\d{5}\b", row["source"])
        if row["basis"] == "food-table":
            checked += 1
            faults += wrong(row, {foods[0]: 1})
            faults += [f"{row['id']}: no food {food} in the table" for food in foods if food not in FOODS]
        elif row["basis"] == "mixture":
            checked += 1
            faults += wrong(row, SCRAPS)
            faults += [] if set(foods) == set(SCRAPS) else [f"{row['id']}: its source names other foods"]
    print("\n".join(faults) or f"{checked} rows say what the food table says")
    return 1 if faults or checked < 40 else 0


sys.exit(main(sys.argv[1]))
