#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Exact mixtures and 2x2 balances by sympy, for tests/published/mixtures_by_sympy.inc.

Run: python3 tests/support/mixtures_by_sympy.py > tests/published/mixtures_by_sympy.inc
Written without a look at our own code: unknown masses are solved for symbolically, in fractions.
"""
import random
from sympy import Rational as F, symbols, solve

random.seed(20260301)


def tenth(low, high):
    return F(random.randint(low * 10, high * 10), 10)


def material():
    return tenth(1, 40), tenth(5, 95), tenth(30, 55), tenth(1, 6)  # kg, moisture, carbon, nitrogen


def figures(all_):
    moisture = sum(q * m for q, m, c, n in all_) / sum(q for q, m, c, n in all_)
    carbon = sum(q * c * (100 - m) for q, m, c, n in all_)
    nitrogen = sum(q * n * (100 - m) for q, m, c, n in all_)
    return moisture, carbon / nitrogen


def number(x):
    return repr(float(x))


print("// Made by tests/support/mixtures_by_sympy.py; do not edit.")
print("// Three materials of mass, moisture, carbon, nitrogen; moisture and C:N of them all; then the masses of the")
print("// second and third that, with the first as it is, bring moisture and C:N to those two goals.")
made = 0
while made < 40:
    all_ = [material() for _ in range(3)]
    goal = figures(all_)
    x, y = symbols("x y")
    (q1, m1, c1, n1), (_, m2, c2, n2), (_, m3, c3, n3) = all_
    other = (goal[0] + tenth(0, 4) - 2, goal[1] + tenth(0, 4) - 2)
    wet = q1 * (m1 - other[0]) + x * (m2 - other[0]) + y * (m3 - other[0])
    dry = sum(q * (100 - m) * (c - other[1] * n) for q, m, c, n in ((q1, m1, c1, n1), (x, m2, c2, n2), (y, m3, c3, n3)))
    found = solve([wet, dry], [x, y], dict=True)
    if len(found) != 1 or x not in found[0] or y not in found[0]:
        continue
    made += 1
    row = [v for each in all_ for v in each] + [*goal, *other, found[0][x], found[0][y]]
    print("{" + ", ".join(number(v) for v in row) + "},")
