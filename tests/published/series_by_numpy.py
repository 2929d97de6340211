#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""The hours two published series spend at or above a temperature, by numpy alone. Usage: series_by_numpy.py DATA_FOLDER
Straight lines between readings; "credited" counts an interval whole when both its ends qualify."""
import csv
import sys

import numpy as np


def runs(mask_lengths):
    """Lengths of the unbroken stretches, given (starts where the last ended, length) pairs."""
    out = []
    for joined, length in mask_lengths:
        if joined and out:
            out[-1] += length
        else:
            out.append(length)
    return out


def hours(t, temp, level):
    dt = np.diff(t) / 3600.0
    a, b = temp[:-1], temp[1:]
    credited = [(a[i] >= level and b[i] >= level, dt[i]) for i in range(len(dt))]
    above = []
    for i in range(len(dt)):
        lo, hi = 0.0, 1.0
        if a[i] < level and b[i] < level:
            lo = hi = 0.0
        elif a[i] < level:
            lo = (level - a[i]) / (b[i] - a[i])
        elif b[i] < level:
            hi = (level - a[i]) / (b[i] - a[i])
        above.append((lo, hi, dt[i]))
    stretches, open_ = [], False
    for lo, hi, d in above:
        if hi > lo:
            stretches.append((open_ and lo == 0.0, (hi - lo) * d))
        open_ = hi == 1.0 and hi > lo
    whole, open_ = [], False
    for ok, d in credited:
        if ok:
            whole.append((open_, d))
        open_ = ok
    line, held = runs(stretches), runs(whole)
    return sum(line), max(line, default=0), sum(held), max(held, default=0)


def beaver2(folder):
    rows = list(csv.DictReader(open(f"{folder}/r_beaver2.csv")))
    t = [int(r["day"]) * 86400 + int(r["time"]) // 100 * 3600 + int(r["time"]) % 100 * 60 for r in rows]
    return np.array(t, float), np.array([float(r["temp"]) for r in rows])


def seattle(folder):
    rows = list(csv.DictReader(open(f"{folder}/noaa_seattle_hourly_2010_degF.csv")))
    t = np.array([np.datetime64(r["date"].replace("/", "-").replace(" ", "T"), "s") for r in rows])
    return t.astype("int64").astype(float), np.array([float(r["temp"]) for r in rows])


if __name__ == "__main__":
    for name, series, level in (("beaver2 37.5 C", beaver2, 37.5), ("seattle 2010 65 F", seattle, 65.0)):
        figures = hours(*series(sys.argv[1]), level)
        print(name, "interpolated %.4f longest %.4f credited %.4f longest %.4f" % figures)
