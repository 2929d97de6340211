# SPDX-License-Identifier: GPL-3.0-or-later
"""Random books made through the command line alone, and everything that people see of a book. Names and times are few,
so that copies say different things of the same. This file holds no attacks."""
import re
import shutil

BATCHES = ("a", "b", "c")
BINS = ("North", "East", "South")
POSITIONS = ("core", "side", "base")
PROBES = ("", "P1", "P2")


def time_of(chance):
    """One of 24 instants within 8 days, written with one of two offsets."""
    day, hour = chance.randint(1, 8), chance.choice((8, 9, 17))
    return f"2026-03-{day:02}T{hour:02}:00Z" if chance.random() < .8 else f"2026-03-{day:02}T{hour + 1:02}:00+01:00"


def maybe(chance, value, often=.3):
    return value if chance.random() < often else ""


def rows_of_readings(chance):
    for _ in range(chance.randint(1, 4)):
        unit = chance.choice("ccf")
        degrees = chance.randint(50, 58) if unit == "c" else chance.randint(120, 140)
        yield (time_of(chance), degrees, unit, maybe(chance, chance.choice(BINS)), chance.choice(POSITIONS),
               chance.choice(PROBES), maybe(chance, "windy"))


def rows_of_checks(chance):
    for _ in range(chance.randint(1, 2)):
        kind = chance.choice(("ice", "boiling"))
        yield (time_of(chance), chance.choice(PROBES[1:]), kind, chance.choice((0, .5)) if kind == "ice" else 99,
               "" if kind == "ice" else 100)


def rows(make, most=2):
    return lambda chance: [make(chance) for _ in range(chance.randint(1, most))]


# Option of import: the columns, the rows, and how often an import has such a file.
FILES = {
    "readings": ("time,temperature,unit,bin,position,probe,note", rows_of_readings, .7),
    "additions": ("time,material,mass_kg,moisture_percent,note", rows(lambda c: (
        time_of(c), c.choice(("straw", "leaves")), c.randint(1, 3), maybe(c, 70), maybe(c, "wet"))), .3),
    "aerations": ("time,kind,depth_cm,note", rows(lambda c: (
        time_of(c), c.choice(("turned", "forked")), maybe(c, 30), maybe(c, "dry"))), .3),
    "observations": ("time,kind,subject,value,note", rows(lambda c: (
        (time_of(c), "level", "", c.choice((40, 45)), maybe(c, "faint")) if c.random() < .4 else
        (time_of(c), c.choice(("note", "smell")), "", c.choice(("sour", "earthy")), maybe(c, "faint")))), .2),
    "harvests": ("time,volume_l,mass_kg,note", rows(lambda c: (
        time_of(c), c.choice((10, 20)), maybe(c, 6), maybe(c, "one bucket"))), .2),
    "moves": ("time,bin", rows(lambda c: (time_of(c), c.choice(BINS))), .3),
    "outside": ("time,temperature,bin,unit", rows(lambda c: (
        time_of(c), c.randint(5, 9), maybe(c, c.choice(BINS)), "c")), .2),
    "bins": ("bin,volume_l,height_cm,insulation_mm,retired,note", rows(lambda c: (
        c.choice(BINS), maybe(c, c.choice((800, 900)), .7), maybe(c, 100), maybe(c, 50), c.choice(("no", "no", "yes")),
        maybe(c, c.choice(("by the gate", "in the shade"))))), .2),
    "positions": ("bin,position,spot_check,height_cm", rows(lambda c: (
        c.choice(BINS), c.choice(POSITIONS), c.choice(("yes", "no")), maybe(c, c.choice((30, 60))))), .2),
    "probes": ("probe,accuracy,note", rows(lambda c: (
        c.choice(PROBES[1:]), maybe(c, c.choice((.5, 1))), maybe(c, "the long one"))), .2),
    "checks": ("time,probe,kind,read,altitude_m", rows_of_checks, .2),
}
OPTIONS = {
    "start": (time_of, .25),
    "finish": (time_of, .25),
    "note": (lambda chance: chance.choice(("of leaves", "of straw")), .2),
    "group": (lambda chance: "Lane End", .1),
}


def import_something(stage, chance, book):
    """One import of random small files; it may be refused, which changes nothing."""
    line = ["import", book, "--batch", chance.choice(BATCHES)]
    if not stage.path(book).exists() or chance.random() < .8:
        line += ["--bin", chance.choice(BINS)]
    for kind, (header, make, often) in FILES.items():
        if chance.random() < often:
            lines = [header] + [",".join(map(str, row)) for row in make(chance)]
            line += [f"--{kind}", stage.write(f"{kind}.csv", "\n".join(lines) + "\n")]
    for option, (make, often) in OPTIONS.items():
        if chance.random() < often:
            line += [f"--{option}", make(chance)]
    return stage.run(*line)


def import_until_it_is_there(stage, chance, book):
    while not stage.path(book).exists():
        import_something(stage, chance, book)


def copies_of_a_book(stage, chance, count):
    """Names of `count` copies in which different people wrote: of one book, or begun apart."""
    books = [f"copy-{number}.midden" for number in range(count)]
    if chance.random() < .5:
        import_until_it_is_there(stage, chance, "ancestor.midden")
        for book in books:
            shutil.copy(stage.path("ancestor.midden"), stage.path(book))
    for book in books:
        import_until_it_is_there(stage, chance, book)
        for _ in range(chance.randint(1, 3)):
            import_something(stage, chance, book)
    if chance.random() < .2:
        one, other = chance.sample(books, 2)
        stage.run("merge", one, other)
        import_something(stage, chance, one)
    return books


def all_that_people_see(stage, book):
    """What `export` writes and `review --json` says, by the name of the file. Left out is how many entries were amended:
    that counts the notes of merges, too, which tell who met whom."""
    folder = stage.path("seen")
    shutil.rmtree(folder, ignore_errors=True)
    exported = stage.run("export", book, "--directory", folder)
    review = re.sub(r'"amended_entries": \d+', "", stage.run("review", book, "--json").out)
    seen = {"status of export": str(exported.status), "review": review}
    for file in sorted(folder.rglob("*.*")) if exported.status == 0 else ():
        seen[str(file.relative_to(folder))] = file.read_text()
    return seen
