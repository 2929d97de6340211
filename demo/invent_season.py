#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Invents the demo's season: three bins, four batches, one spring. Nothing in it was ever measured.

Each bin is a lump of heat: dT/dt = q(t) - (T - outside) / tau, stepped by the hour, with q cut back as it nears 74 °C;
q is chosen batch by batch so that one holds, one cools early and recovers, one falls short; and of the summer's three, still running, one is on its way,
one just warming and one stalled. Writes demo/season/*.csv.
Run it only to invent another season: python3 demo/invent_season.py
"""
import csv
import datetime as dt
import math
import pathlib
import random

HERE = pathlib.Path(__file__).parent / "season"
LONDON_SUMMER = dt.datetime(2026, 3, 29, 2)


def offset(at):
    return "+01:00" if at >= LONDON_SUMMER else "+00:00"


def stamp(at):
    return at.strftime("%Y-%m-%dT%H:%M:00") + offset(at)


def outside(at):
    """A mild spring: the mean climbs from 6 to 15 °C by mid June, six degrees of day and night, slow weather."""
    day = (at - dt.datetime(2026, 3, 1)).total_seconds() / 86400
    mean = 6 + 9 * min(1, day / 105)
    swing = -3 * math.cos(2 * math.pi * (at.hour + at.minute / 60 - 4) / 24)
    weather = 2.2 * math.sin(day / 3.1) + 1.4 * math.sin(day / 1.3 + 2)
    return mean + swing + weather


def heap(start, until, heat, tau, temperature):
    """Hourly core temperatures. `heat(hours)` is the self-heating in °C per hour."""
    course, at, hour = {}, start, 0
    while at <= until:
        course[at] = temperature
        bearable = max(0, min(1, (74 - temperature) / 14))
        temperature += heat(hour) * bearable - (temperature - outside(at)) / tau
        at, hour = at + dt.timedelta(hours=1), hour + 1
    return course


def burst(hour, begin, peak, rise, fall):
    """Heat-making that sets in at `begin`, comes up within about `rise` hours and fades over about `fall`."""
    if hour < begin:
        return 0
    h = hour - begin
    return peak * (1 - math.exp(-h / rise)) * math.exp(-h / fall)


def rounds(start, days, skip=(), minutes=25, evening=()):
    """A visit each morning about ten past eight, some evenings too; `skip` names days nobody came."""
    for day in range(days):
        for hour in (8, 19) if day in evening else (8,):
            at = start.replace(hour=hour, minute=10) + dt.timedelta(days=day, minutes=random.randint(-minutes, minutes))
            if at > start and day not in skip:
                yield at


def near(course, at):
    return course[min(course, key=lambda hour: abs(hour - at))]


def write(name, header, rows):
    with open(HERE / name, "w", newline="", encoding="utf-8") as file:
        writer = csv.writer(file, lineterminator="\n")
        writer.writerow(header)
        writer.writerows(rows)


def readings(name, bin_, course, visits, lags, probe, quirks=None):
    """`lags`: how many degrees each position is cooler than the core, and how uneven it is."""
    rows = []
    for at in visits:
        air = round(outside(at) * 2) / 2
        for i, (position, (cooler, uneven)) in enumerate(lags.items()):
            excess = near(course, at) - outside(at)
            value = near(course, at) - cooler * excess + random.gauss(0, uneven)
            note = (quirks or {}).get((at.date().isoformat(), position), "")
            when = at + dt.timedelta(minutes=i)
            rows.append([stamp(when), bin_, position, f"{round(value * 2) / 2:g}", probe, f"{air:g}", note])
    write(name, ["time", "bin", "position", "temperature", "probe", "ambient", "note"], rows)


ADDITION = ["time", "material", "mass_kg", "volume_l", "raw", "note"]
AERATION = ["time", "kind", "note"]


def first_north():
    """Holds: 55 °C at core and side for days on end."""
    start = dt.datetime(2026, 3, 2, 10, 30)
    heat = lambda h: burst(h, 6, 1.9, 24, 260) + burst(h, 12 * 24, 0.5, 10, 160)
    course = heap(start, dt.datetime(2026, 4, 20, 12), heat, 75, 9)
    readings("north-early-readings.csv", "North", course, rounds(start, 46, skip=(30, 37, 38, 43), evening=(2, 3, 4)),
             {"core": (0, 0.5), "side": (0.055, 0.5)}, "Long dial")
    write("north-early-additions.csv", ADDITION, [
        [stamp(start), "Vegetable produce", 46, 60, "yes", "kitchen pails, a fortnight of six households"],
        [stamp(start), "Grass clippings (loose)", 30, "", "yes", ""],
        [stamp(start + dt.timedelta(minutes=5)), "Straw", 18, "", "", ""],
        [stamp(start + dt.timedelta(minutes=10)), "Leaves (compacted and moist)", 35, "", "", "last autumn's"],
        [stamp(start + dt.timedelta(minutes=15)), "Horse manure", 40, "", "yes", ""]])
    write("north-early-aerations.csv", AERATION, [
        [stamp(dt.datetime(2026, 3, 14, 9, 0)), "turned", "outside to the middle"],
        [stamp(dt.datetime(2026, 3, 25, 9, 20)), "forked", ""]])


def shed():
    """Cools early because it is dry, is watered, fed and turned, and comes back."""
    start = dt.datetime(2026, 3, 20, 14, 0)
    feed = 9 * 24 + 19
    heat = lambda h: burst(h, 8, 2.6, 16, 62) + burst(h, feed, 2.3, 14, 190)
    course = heap(start, dt.datetime(2026, 5, 6, 12), heat, 62, 10)
    readings("shed-spring-readings.csv", "Shed", course, rounds(start, 45, skip=(21, 22, 33, 40), evening=(2, 3, 11)),
             {"core": (0, 0.5), "side": (0.05, 0.6), "base": (0.085, 0.6)}, "Long dial",
             {("2026-03-27", "core"): "lid found half open"})
    again = start + dt.timedelta(hours=feed)
    write("shed-spring-additions.csv", ADDITION, [
        [stamp(start), "Vegetable produce", 22, "", "yes", ""],
        [stamp(start + dt.timedelta(minutes=5)), "Leaves (loose and dry)", 58, "", "", ""],
        [stamp(start + dt.timedelta(minutes=8)), "Straw", 30, "", "", ""],
        [stamp(start + dt.timedelta(minutes=12)), "Grass clippings (loose)", 12, "", "yes", ""],
        [stamp(again), "Grass clippings (loose)", 28, "", "yes", "first mowing of the paths"],
        [stamp(again + dt.timedelta(minutes=4)), "Water", 30, "", "no", "three cans"]])
    write("shed-spring-observations.csv", ["time", "kind", "value", "note"], [
        [stamp(dt.datetime(2026, 3, 29, 8, 20)), "squeeze", "dry", "no drop, falls apart"]])
    write("shed-spring-aerations.csv", AERATION, [
        [stamp(again), "turned", "dry as dust at the side"],
        [stamp(again + dt.timedelta(minutes=4)), "watered", "30 litres"],
        [stamp(dt.datetime(2026, 4, 18, 10, 0)), "turned", ""]])


def hedge():
    """Falls short: the core is hot, the side is not, and nobody came for three days."""
    start = dt.datetime(2026, 4, 11, 11, 0)
    heat = lambda h: burst(h, 10, 2.0, 20, 170)
    course = heap(start, dt.datetime(2026, 5, 22, 12), heat, 58, 11)
    readings("hedge-spring-readings.csv", "Hedge", course, rounds(start, 38, skip=(5, 6, 7, 19, 20, 27, 33)),
             {"core": (0, 0.5), "side": (0.13, 0.7)}, "Short digital")
    write("hedge-spring-additions.csv", ADDITION, [
        [stamp(start), "Shrub trimmings", 32, "", "", "shredded"],
        [stamp(start), "Grass clippings (loose)", 34, "", "yes", ""],
        [stamp(start + dt.timedelta(minutes=6)), "Coffee grounds", 9, "", "yes", ""],
        [stamp(start + dt.timedelta(minutes=9)), "Corrugated cardboard", 4, "", "", "torn and soaked"]])
    write("hedge-spring-aerations.csv", AERATION, [[stamp(dt.datetime(2026, 4, 24, 9, 0)), "poked", ""]])


def second_north():
    """Still running when the demo opens, on the morning of 14 June."""
    start = dt.datetime(2026, 6, 7, 16, 0)
    heat = lambda h: burst(h, 5, 1.5, 20, 330)
    course = heap(start, dt.datetime(2026, 6, 14, 6), heat, 70, 18)
    readings("north-summer-readings.csv", "North", course, rounds(start, 7, evening=(2, 4)),
             {"core": (0, 0.4), "side": (0.06, 0.5)}, "Long dial")
    write("north-summer-additions.csv", ADDITION, [
        [stamp(start), "Vegetable produce", 38, "", "yes", ""],
        [stamp(start), "Grass clippings (loose)", 24, "", "yes", ""],
        [stamp(start + dt.timedelta(minutes=5)), "Leaves (loose and dry)", 20, "", "", ""],
        [stamp(start + dt.timedelta(minutes=7)), "Straw", 9, "", "", ""],
        [stamp(start + dt.timedelta(minutes=9)), "Corrugated cardboard", 4, "", "", ""]])
    write("north-summer-aerations.csv", AERATION, [[stamp(dt.datetime(2026, 6, 9, 18, 30)), "forked", ""]])


def shed_again():
    """Four days old and warming."""
    start = dt.datetime(2026, 6, 10, 18, 0)
    heat = lambda h: burst(h, 7, 1.7, 26, 300)
    course = heap(start, dt.datetime(2026, 6, 14, 6), heat, 62, 17)
    readings("shed-summer-readings.csv", "Shed", course, rounds(start, 4),
             {"core": (0, 0.3), "side": (0.05, 0.4), "base": (0.08, 0.4)}, "Long dial")
    write("shed-summer-additions.csv", ADDITION, [
        [stamp(start), "Vegetable produce", 30, "", "yes", ""],
        [stamp(start + dt.timedelta(minutes=4)), "Leaves (loose and dry)", 24, "", "", ""],
        [stamp(start + dt.timedelta(minutes=6)), "Straw", 10, "", "", ""],
        [stamp(start + dt.timedelta(minutes=9)), "Grass clippings (loose)", 20, "", "yes", ""]])


def hedge_again():
    """Never quite hot enough, and going cold: too many wet greens, packed, in a bare plastic bin."""
    start = dt.datetime(2026, 6, 3, 17, 0)
    heat = lambda h: burst(h, 6, 2.3, 16, 80)
    course = heap(start, dt.datetime(2026, 6, 14, 6), heat, 50, 16)
    readings("hedge-summer-readings.csv", "Hedge", course, rounds(start, 11),
             {"core": (0, 0.4), "side": (0.11, 0.5)}, "Short digital")
    write("hedge-summer-additions.csv", ADDITION, [
        [stamp(start), "Grass clippings (loose)", 52, "", "yes", "all the paths at once"],
        [stamp(start + dt.timedelta(minutes=5)), "Vegetable produce", 18, "", "yes", ""],
        [stamp(start + dt.timedelta(minutes=8)), "Corrugated cardboard", 3, "", "", ""]])
    write("hedge-summer-aerations.csv", AERATION, [[stamp(dt.datetime(2026, 6, 8, 8, 40)), "poked", ""]])


if __name__ == "__main__":
    random.seed(20260302)
    HERE.mkdir(exist_ok=True)
    first_north()
    shed()
    hedge()
    second_north()
    shed_again()
    hedge_again()
    write("bins.csv", ["bin", "volume_l", "insulation_mm", "conductivity_w_mk", "note"], [
        ["North", "600", "50", "0.035", "foam boards, lid"],
        ["Shed", "520", "40", "0.035", "foam boards, lid"],
        ["Hedge", "400", "", "", "bare plastic"]])
    write("probes.csv", ["probe", "accuracy"], [["Long dial", "1.0"], ["Short digital", "0.5"]])
    write("checks.csv", ["time", "probe", "kind", "read", "altitude_m", "pressure_hpa"], [
        ["2026-02-28T11:00:00+00:00", "Long dial", "ice", "0.5", "", ""],
        ["2026-02-28T11:20:00+00:00", "Long dial", "boiling", "100", "60", ""],
        ["2026-02-28T11:40:00+00:00", "Short digital", "ice", "-0.2", "", ""]])
