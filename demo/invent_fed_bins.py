#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Invents the demo's two bins that are fed on top and emptied at the base. Nothing in them was ever measured.

Gate is fed for five months from January, harvested three times and then rested; Corner is fed from April and goes on.
Each feed is a layer that shrinks by s(a) = s_inf + (1 - s_inf) * exp(-a / k); a layer is as warm as its age, the bin's
filling and the air make it; a thermometer reads the layer that stands at its height. Writes demo/season/gate-*.csv and
corner-*.csv. Run it only to invent other ones: python3 demo/invent_fed_bins.py
"""
import csv
import datetime as dt
import math
import pathlib
import random

HERE = pathlib.Path(__file__).parent / "season"
LONDON_SUMMER = dt.datetime(2026, 3, 29, 2)


def stamp(at):
    return at.strftime("%Y-%m-%dT%H:%M:%S") + ("+01:00" if at >= LONDON_SUMMER else "+00:00")


def outside(at):
    """A winter of 4 °C, then a mild spring that climbs to 15 °C by mid June."""
    day = (at - dt.datetime(2026, 3, 1)).total_seconds() / 86400
    mean = 4 + 11 * max(0, min(1, (day + 15) / 120))
    swing = -2.5 * math.cos(2 * math.pi * (at.hour + at.minute / 60 - 4) / 24)
    return mean + swing + 2.2 * math.sin(day / 3.1) + 1.4 * math.sin(day / 1.3 + 2)


def days(later, earlier):
    return (later - earlier).total_seconds() / 86400


class Bin:
    """`floor_area` in dm² : litres in 10 cm of height."""

    def __init__(self, litres, height, k, lasting):
        self.litres_per_cm, self.k, self.lasting = litres / height, k, lasting
        self.layers = []  # [fed at, loose litres, share still there, raw]

    def left(self, layer, at):
        age = max(0, days(at, layer[0]))
        return layer[1] * layer[2] * (self.lasting + (1 - self.lasting) * math.exp(-age / self.k))

    def level(self, at):
        return sum(self.left(layer, at) for layer in self.layers) / self.litres_per_cm

    def take(self, litres, at):
        for layer in self.layers:
            there = self.left(layer, at)
            taken = min(there, litres)
            layer[2] *= 1 - taken / there if there > 0 else 1
            litres -= taken

    def layer_at(self, height, at):
        below = 0
        for layer in self.layers:
            below += self.left(layer, at) / self.litres_per_cm
            if below >= height:
                return layer
        return None

    def warmth(self, height, at):
        """None above the surface."""
        layer = self.layer_at(height, at)
        if layer is None:
            return None
        age = days(at, layer[0])
        filling = min(1, self.level(at) / 22)
        young = 1 - math.exp(-age / 0.9)
        old = math.exp(-max(0, age - 28) / 70)
        from_surface = self.level(at) - height
        cover = 1 - 0.3 * math.exp(-from_surface / 5)
        return outside(at) + 56 * filling * young * old * cover


def write(name, header, rows):
    with open(HERE / name, "w", newline="", encoding="utf-8") as file:
        writer = csv.writer(file, lineterminator="\n")
        writer.writerow(header)
        writer.writerows(rows)


def lived(name, bin_, place, start, until, *, every, litres, positions, probe, level_days, harvests, skip):
    """Feeds, reads, measures and harvests, day by day; gives back the bin as it is in the end."""
    additions = [[stamp(start), "Wood chips", 12, 25, "no", "a bed for the air to come in"]]
    bin_.layers.append([start, 25, 1, False])
    readings, levels, taken = [], [], []
    day, next_feed = start, start + dt.timedelta(days=1, hours=1)
    while day <= until:
        morning = day.replace(hour=8, minute=0) + dt.timedelta(minutes=random.randint(-20, 25))
        if morning > start and morning <= until and days(day, start) not in skip:
            air = round(outside(morning) * 2) / 2
            for i, (position, height) in enumerate(positions.items()):
                warm = bin_.warmth(height, morning)
                if warm is not None:
                    value = round((warm + random.gauss(0, 0.5)) * 2) / 2
                    readings.append([stamp(morning + dt.timedelta(minutes=i)), place, position, f"{value:g}", probe,
                                     f"{air:g}", ""])
        if next_feed.date() == day.date() and next_feed <= until:
            fed = round(litres * random.uniform(0.8, 1.2))
            kitchen = round(fed * 0.7)
            additions.append([stamp(next_feed), "Kitchen scraps", f"{kitchen * 0.42:.1f}", kitchen, "yes", ""])
            additions.append([stamp(next_feed), "Leaves (loose and dry)", f"{(fed - kitchen) * 0.1:.1f}", fed - kitchen,
                              "", ""])
            bin_.layers.append([next_feed, fed, 1, True])
            if days(day, start) // level_days != days(day - dt.timedelta(days=every), start) // level_days:
                levels.append([stamp(next_feed), "level", "", f"{bin_.level(next_feed) + random.uniform(-0.5, 0.5):.0f}",
                               ""])
            next_feed += dt.timedelta(days=every)
        for at, litres_out, note in harvests:
            if at.date() == day.date():
                bin_.take(litres_out, at)
                taken.append([stamp(at), litres_out, "", note])
                after = at + dt.timedelta(seconds=1)
                levels.append([stamp(after), "level", "", f"{bin_.level(after):.0f}", "after the harvest"])
        day += dt.timedelta(days=1)
    write(f"{name}-readings.csv", ["time", "bin", "position", "temperature", "probe", "ambient", "note"], readings)
    write(f"{name}-additions.csv", ["time", "material", "mass_kg", "volume_l", "raw", "note"], additions)
    write(f"{name}-observations.csv", ["time", "kind", "subject", "value", "note"], levels)
    if taken:
        write(f"{name}-harvests.csv", ["time", "volume_l", "mass_kg", "note"], taken)
    return bin_


def rested(name, place, start, until, positions, probe):
    """Turned with twelve kilograms of fresh waste in it, hot for a week, then cooling."""
    readings, at, temperature = [], start, 38.0
    course = {}
    while at <= until:
        course[at] = temperature
        hour = days(at, start) * 24
        heat = 1.45 * (1 - math.exp(-hour / 10)) * math.exp(-hour / 150) * max(0, min(1, (74 - temperature) / 14))
        temperature += heat - (temperature - outside(at)) / 90
        at += dt.timedelta(hours=1)
    day = start
    while day <= until:
        for hour in (8, 19):
            visit = day.replace(hour=hour, minute=0) + dt.timedelta(minutes=random.randint(-15, 20))
            if start < visit <= until:
                air = round(outside(visit) * 2) / 2
                for i, (position, cooler) in enumerate(positions.items()):
                    warm = course[min(course, key=lambda one: abs(one - visit))]
                    value = warm - cooler * (warm - outside(visit)) + random.gauss(0, 0.4)
                    readings.append([stamp(visit + dt.timedelta(minutes=i)), place, position,
                                     f"{round(value * 2) / 2:g}", probe, f"{air:g}", ""])
        day += dt.timedelta(days=1)
    write(f"{name}-readings.csv", ["time", "bin", "position", "temperature", "probe", "ambient", "note"], readings)
    write(f"{name}-additions.csv", ["time", "material", "mass_kg", "volume_l", "raw", "note"],
          [[stamp(start), "Kitchen scraps", 12, 28, "yes", "mixed in for the rest"]])
    write(f"{name}-aerations.csv", ["time", "kind", "note"], [[stamp(start), "turned", "all of it, for the rest"]])


GATE = {"base": 14, "lower": 31, "middle": 48, "upper": 65}
CORNER = {"lower": 12, "middle": 29, "side": 29}

if __name__ == "__main__":
    random.seed(20260112)
    write("fed-bins.csv", ["bin", "volume_l", "insulation_mm", "conductivity_w_mk", "note", "height_cm", "hatch_top_cm"],
          [["Gate", 280, 60, 0.035, "foam, lid and hatch", 90, 25], ["Corner", 200, 50, 0.035, "foam, lid and hatch", 80, 22]])
    write("fed-positions.csv", ["bin", "position", "spot_check", "height_cm"],
          [[place, position, "no", height] for place, all_ in (("Gate", GATE), ("Corner", CORNER))
           for position, height in all_.items()])
    write("fed-probes.csv", ["probe", "accuracy"], [["Long stem", 0.5]])
    gate = Bin(280, 90, 18, 0.33)
    lived("gate-fed", gate, "Gate", dt.datetime(2026, 1, 12, 10, 0), dt.datetime(2026, 6, 4, 9, 0), every=3, litres=17,
          positions=GATE, probe="Long stem", level_days=9,
          harvests=[(dt.datetime(2026, 3, 28, 11, 0), 25, "for the hotbed's edge"),
                    (dt.datetime(2026, 4, 25, 10, 30), 40, "two barrows half full"),
                    (dt.datetime(2026, 5, 23, 11, 15), 40, "")],
          skip=(20, 21, 55, 90, 91))
    rested("gate-rest", "Gate", dt.datetime(2026, 6, 4, 17, 0), dt.datetime(2026, 6, 14, 7, 0),
           {"base": 0.09, "lower": 0.03, "middle": 0, "upper": 0.05}, "Long stem")
    corner = Bin(200, 80, 20, 0.3)
    lived("corner-fed", corner, "Corner", dt.datetime(2026, 3, 30, 17, 0), dt.datetime(2026, 6, 14, 7, 0), every=2,
          litres=9, positions=CORNER, probe="Long stem", level_days=8, harvests=[],
          skip=(12, 40))
