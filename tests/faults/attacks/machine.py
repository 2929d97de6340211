# SPDX-License-Identifier: GPL-3.0-or-later
"""What the machine does to the program: streams that are full or closed, no memory, no room, no zone data, odd names."""
import os
import re
import resource
import shutil
import subprocess
import sys

from scene import NotTried, attack, expect, expect_refused

LONG = "time,temperature\n" + "".join(f"2026-{month:02}-{day:02}T{hour:02}:00Z,5{hour % 10}\n"
                                      for month in range(1, 4) for day in range(1, 29) for hour in range(24))
LATER = "time,temperature\n2026-03-05T08:00Z,57\n"

# What writes something, and what shows that it did.
WRITERS = {
    "import": (["import", "book.midden", "--batch", "Spring 1", "--readings", "later.csv"], None),
    "certificate": (["certificate", "book.midden", "--batch", "Spring 1", "--output", "out.pdf"], "out.pdf"),
    "backup": (["backup", "book.midden", "copy.midden"], "copy.midden"),
    "export": (["export", "book.midden", "--directory", "csv"], "csv/README.txt"),
    "merge": (["merge", "book.midden", "other.midden"], None),
    "salvage": (["salvage", "book.midden", "saved.midden"], "saved.midden"),
}
READERS = {
    "review": ["review", "book.midden"],
    "check": ["check", "book.midden"],
    "copies": ["copies", "book.midden"],
    "recipe": ["recipe", "recipe.csv"],
    "help": ["--help"],
}


def prepare(stage):
    """A book, a copy that knows more, and the files the commands read."""
    stage.book()
    stage.write("later.csv", LATER)
    stage.write("recipe.csv", "material,mass_kg\nstraw,3\n")
    shutil.copy(stage.path("book.midden"), stage.path("other.midden"))
    answer = stage.run("import", "other.midden", "--batch", "Spring 1", "--readings", "later.csv")
    expect(answer.status == 0, answer.err)


def readings_in(stage, book="book.midden"):
    answer = stage.run("check", book)
    found = re.search(r"(\d+) readings?, (\d+) certificate", answer.out)
    expect(answer.status == 0 and found, f"{book} is not sound: {answer.out}{answer.err}")
    return int(found[1]), int(found[2])


def without_stdout(stage, how, arguments):
    """Runs it with a standard output that takes nothing."""
    if how == "closed":
        return stage.run(*arguments, stdout=None, preexec_fn=lambda: os.close(1))
    if how == "full":
        with open("/dev/full", "wb") as full:
            return stage.run(*arguments, stdout=full)
    reader, writer = os.pipe()
    os.close(reader)
    with open(writer, "wb") as pipe:
        return stage.run(*arguments, stdout=pipe)


def unwritable(name):
    @attack("machine", f"{name}: a standard output that takes nothing is told of honestly", trials=3, short=1)
    def play(stage, number):
        how = ("full", "closed", "broken")[number]
        prepare(stage)
        before = stage.path("book.midden").read_bytes()
        arguments, written = WRITERS[name]
        answer = without_stdout(stage, how, arguments)
        changed = stage.path("book.midden").read_bytes() != before or (written and stage.path(written).exists())
        expect(answer.status in (3, 4), f"{how}: exit status {answer.status} {answer.err}")
        expect((answer.status == 4) == bool(changed),
               f"{how}: exit status {answer.status}, something was written: {changed}")
        expect(answer.err.strip(), "not a word")
        readings_in(stage)


for command in WRITERS:
    unwritable(command)


@attack("machine", "an answer nobody could read is no success", trials=len(READERS) * 3, short=3)
def unread(stage, number):
    prepare(stage)
    name = list(READERS)[-1 - number // 3]
    how = ("full", "closed", "broken")[number % 3]
    answer = without_stdout(stage, how, READERS[name])
    expect_refused(answer, f"{name} to a {how} standard output")


@attack("machine", "closed standard streams: no message is written into a book or a file", trials=8, short=1)
def closed_streams(stage, number):
    prepare(stage)
    closed = [stream for stream in range(3) if not number & (1 << stream)]
    for name, (arguments, _) in WRITERS.items():
        stage.run(*arguments, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL,
                  preexec_fn=lambda: [os.close(stream) for stream in closed])
        readings_in(stage)
    stage.run("import", "book.midden", "--batch", "No such", "--readings", "absent.csv", stdout=subprocess.DEVNULL,
              stderr=subprocess.DEVNULL, preexec_fn=lambda: [os.close(stream) for stream in closed])
    readings_in(stage)
    for file in (stage.path("out.pdf"), stage.path("csv/README.txt")):
        expect(not file.exists() or b"Exit" not in file.read_bytes() and b"there is no" not in file.read_bytes(),
               f"words in {file}")


# --- Words -------------------------------------------------------------------------------------------------------

RAW = re.compile(r"constraint failed|filesystem error|basic_string|std::|terminate called|sqlite|SQLITE|"
                 r"parse error|json\.exception|out of memory|disk I/O error|what\(\)", re.IGNORECASE)


def expect_words(answer, harm, named=None):
    text = answer.out + answer.err
    expect(answer.status in (2, 3), f"{harm}: exit status {answer.status} {text[:200]}")
    expect(not RAW.search(text), f"{harm}: raw words: {text.strip()[:200]}")
    expect(named is None or named in text, f"{harm}: does not name {named}: {text.strip()[:200]}")


@attack("machine", "a time too far from UTC is refused in words, with its line", trials=6, short=1)
def offsets(stage, number):
    offset = ("+18:01", "-18:30", "+18:59", "+19:00", "+99:00", "-1801")[number]
    stage.write("far.csv", f"time,temperature\n2026-03-01T08:00{offset},56\n")
    answer = stage.run("import", "new.midden", "--batch", "B", "--bin", "N", "--readings", "far.csv")
    expect_words(answer, offset, "far.csv:2")
    expect(not stage.path("new.midden").exists(), "a book was left behind")
    for option in ("--start", "--finish"):
        stage.write("near.csv", "time,temperature\n2026-03-01T08:00Z,56\n")
        answer = stage.run("import", "new.midden", "--batch", "B", "--bin", "N", "--readings", "near.csv", option,
                           f"2026-03-01T08:00{offset}")
        expect_words(answer, f"{option} {offset}", option)
    stage.book()
    answer = stage.run("certificate", "book.midden", "--batch", "Spring 1", "--output", "x.pdf", "--issued",
                       f"2026-03-20T10:00{offset}")
    expect_words(answer, f"--issued {offset}", "--issued")


@attack("machine", "a time outside the calendar is refused in words", trials=4, short=1)
def years(stage, number):
    time = ("0000-01-01T00:00+18:00", "9999-12-31T23:59-18:00", "0000-01-01T00:00+00:01", "9999-12-31T23:59:59-00:01")
    stage.write("near.csv", "time,temperature\n2026-03-01T08:00Z,56\n")
    for option in ("--start", "--finish"):
        answer = stage.run("import", "new.midden", "--batch", "B", "--bin", "N", "--readings", "near.csv", option,
                           time[number])
        expect_words(answer, f"{option} {time[number]}")


def odd_places(stage):
    """Names that lead nowhere, each in another way."""
    os.symlink("round", stage.path("round"))
    os.symlink("b", stage.path("a"))
    os.symlink("a", stage.path("b"))
    stage.path("closed").mkdir()
    stage.write("closed/book.midden", "x")
    stage.path("closed").chmod(0)
    stage.write("plain", "x")
    return ["round", "", "a", "round/book.midden", "closed/book.midden", "plain/book.midden", "x" * 300, "x" * 5000,
            "absent/book.midden", "new\x1b[31m/book.midden"]


@attack("machine", "a place that cannot be reached is refused in words that name it", trials=10, short=2)
def places(stage, number):
    prepare(stage)
    place = odd_places(stage)[number]
    commands = {
        "import book": ["import", place, "--batch", "B", "--bin", "N", "--readings", "later.csv"],
        "import file": ["import", "new.midden", "--batch", "B", "--bin", "N", "--readings", place],
        "dry run": ["import", place, "--batch", "B", "--bin", "N", "--readings", "later.csv", "--dry-run"],
        "export book": ["export", place, "--directory", "csv"],
        "backup book": ["backup", place, "copy.midden"],
        "review": ["review", place],
        "check": ["check", place],
        "verify": ["verify", place, "--certificate", "1"],
        "certificate book": ["certificate", place, "--batch", "Spring 1", "--output", "x.pdf"],
        "merge book": ["merge", place, "other.midden"],
        "merge other": ["merge", "book.midden", place],
        "merge dry": ["merge", place, "other.midden", "--dry-run"],
        "restore": ["restore", place, "new.midden"],
        "salvage": ["salvage", place, "new.midden"],
        "recipe": ["recipe", place],
        "backup copy": ["backup", "book.midden", place],
        "export folder": ["export", "book.midden", "--directory", place],
        "salvage new": ["salvage", "book.midden", place],
        "certificate output": ["certificate", "book.midden", "--batch", "Spring 1", "--output", place],
    }
    makes_folders = {"export folder"}
    if stage.path(place).is_symlink():
        del commands["certificate output"]  # what outputs do to links is tried in outputs.py
    root = os.geteuid() == 0
    try:
        for name, arguments in commands.items():
            answer = stage.run(*arguments)
            text = answer.out + answer.err
            expect(not RAW.search(text), f"{name} {place[:30]!r}: raw words: {text.strip()[:300]}")
            expect("\x1b" not in text, f"{name}: an escape sequence in {text!r}")
            may = (0, 1, 2, 3) if (root and place.startswith("closed")) or name in makes_folders else (1, 2, 3)
            expect(answer.status in may, f"{name} {place[:30]!r}: exit status {answer.status} {text[:200]}")
            expect(text.strip(), f"{name} {place[:30]!r}: not a word")
            for made in ("x.pdf", "new.midden", "copy.midden"):
                stage.path(made).unlink(missing_ok=True)
    finally:
        stage.path("closed").chmod(0o700)


HIDDEN = {"ESC": "\x1b[2J\x1b]0;x\x07", "line break": "sound\nbook is sound", "DEL": "a\x7fb", "C1": "a\u009b31mb",
          "right to left": "a\u202egnp\u2066b", "separators": "a\u2028b\u2029c", "return": "good\rbad", "tab": "a\tb"}
TERMINAL = re.compile("[\x00-\x09\x0b-\x1f\x7f-\x9f\u061c\u200e\u200f\u2028-\u202e\u2066-\u2069]")


def crafted(stage, name):
    """A book whose every name holds `name`, as another program may write it."""
    import sqlite3
    stage.write("additions.csv", "time,material,mass_kg\n2026-03-01T08:00Z,straw,3\n")
    stage.write("readings.csv", "time,temperature,position,probe\n2026-03-01T08:00Z,56,core,P\n"
                                "2026-03-03T08:00Z,57,core,P\n2026-03-09T08:00Z,20,side,P\n2026-03-12T08:00Z,20,side,P\n")
    answer = stage.run("import", "book.midden", "--batch", "Spring 1", "--bin", "North", "--readings", "readings.csv",
                       "--additions", "additions.csv")
    expect(answer.status == 0, answer.err)
    shutil.copy(stage.path("book.midden"), stage.path("other.midden"))
    with sqlite3.connect(stage.path("book.midden")) as book:
        triggers = book.execute("SELECT name, sql FROM sqlite_schema WHERE type = 'trigger'").fetchall()
        for trigger, _ in triggers:
            book.execute(f'DROP TRIGGER "{trigger}"')
        book.execute("UPDATE batch SET name = name || ?", (name,))
        book.execute("UPDATE bin SET name = name || ?", (name,))
        book.execute("UPDATE series SET position = position || ?", (name,))
        book.execute("UPDATE probe SET name = name || ?", (name,))
        book.execute("UPDATE addition SET material = material || ?", (name,))
        for _, sql in triggers:
            book.execute(sql)
    book.close()


@attack("machine", "names in books steer no terminal and break no line", trials=len(HIDDEN), short=2)
def names_in_books(stage, number):
    kind = list(HIDDEN)[number]
    crafted(stage, HIDDEN[kind])
    for arguments in (["review", "book.midden"], ["check", "book.midden"], ["merge", "other.midden", "book.midden"],
                      ["merge", "other.midden", "book.midden", "--dry-run"], ["salvage", "book.midden", "s.midden"],
                      ["export", "book.midden", "--directory", "csv"], ["review", "book.midden", "--batch", "none"],
                      ["import", "book.midden", "--batch", "Summer", "--readings", "readings.csv", "--bin", "South"]):
        answer = stage.run(*arguments)
        text = answer.out + answer.err
        expect(answer.status in (0, 1, 2, 3), f"{arguments[0]}: exit status {answer.status}")
        expect(not TERMINAL.search(text), f"{kind}, {arguments[0]}: {TERMINAL.search(text)!r} in {text[:300]!r}")
        expect(not re.search("^book is sound", text, re.MULTILINE), f"{kind}, {arguments[0]}: a line was forged")
    expect("\\u001b" in stage.run("review", "book.midden", "--json").out or kind != "ESC", "JSON lost a character")


@attack("machine", "names of files and arguments steer no terminal and break no line", trials=len(HIDDEN), short=2)
def names_in_arguments(stage, number):
    name = list(HIDDEN.values())[number]
    stage.book()
    file = "f" + name.replace("/", "") + ".midden"
    shutil.copy(stage.path("book.midden"), stage.path(file))
    csv = "f" + name + ".csv"
    stage.write(csv, "time,temperature\nnonsense,1\n")
    for arguments in (["check", file], ["review", "book.midden", "--batch", name], [name, "x"], ["review", name],
                      ["review", "book.midden", "--criterion", name], ["review", "book.midden", "--threshold", name],
                      ["review", "book.midden", "--max-gap", name], ["verify", "book.midden", "--certificate", name],
                      ["backup", "book.midden", "copy" + name], ["copies", file], ["recipe", csv], ["--" + name, "x"],
                      ["export", file, "--directory", "csv" + name], ["salvage", file, "saved" + name],
                      ["import", "book.midden", "--batch", "Spring 1", "--readings", csv],
                      ["import", "book.midden", "--batch", "B" + name, "--bin", "N", "--readings", "readings.csv"],
                      ["import", "book.midden", "--batch", "C", "--bin", "N" + name, "--readings", "readings.csv"],
                      ["import", "book.midden", "--batch", "C", "--zone", name, "--readings", "readings.csv"]):
        answer = stage.run(*arguments)
        text = answer.out + answer.err
        expect(answer.status in (0, 1, 2, 3), f"{arguments[0]}: exit status {answer.status}")
        expect(not TERMINAL.search(text), f"{arguments}: {TERMINAL.search(text)!r} in {text[:300]!r}")
        expect(not re.search("^book is sound", text, re.MULTILINE), f"{arguments}: a line was forged")


@attack("machine", "a text that no export could hold is refused in words before anything is kept", trials=8, short=2)
def unkeepable(stage, number):
    option = ("--batch", "--bin", "--note", "--group")[number // 2]
    text = (b"b\xff\xfe", b"b\x1b[31m")[number % 2]
    arguments = {"--batch": "B", "--bin": "N", "--readings": "readings.csv"}
    stage.write("readings.csv", LATER)
    arguments[option] = text
    words = [os.fsencode(part) if isinstance(part, str) else part for pair in arguments.items() for part in pair]
    run = subprocess.run([os.fsencode(stage.program), b"import", b"new.midden", *words], cwd=stage.folder,
                         env=stage.environment, capture_output=True, check=False)
    expect(run.returncode == 2, f"{option} {text}: exit status {run.returncode} {run.stderr}")
    expect(not stage.path("new.midden").exists(), f"{option} {text} left a book")
    run.stderr.decode()


@attack("machine", "a name too long to come back from an export is refused in words", trials=1)
def too_long(stage, _):
    stage.write("readings.csv", "time,temperature,position\n2026-03-01T08:00Z,56," + "p" * 200_000 + "\n")
    answer = stage.run("import", "new.midden", "--batch", "B", "--bin", "N", "--readings", "readings.csv")
    expect_words(answer, "a position of 200,000 letters")


# --- No zone data ------------------------------------------------------------------------------------------------

HIDE_ZONES = ('mount -t tmpfs none /usr/share/zoneinfo && exec "$@"',
              ["unshare", "--mount"] if os.geteuid() == 0 else ["unshare", "--mount", "--map-root-user"])


@attack("machine", "without zone data review, certificate and merge work and say what they miss", trials=1)
def no_zones(stage, _):
    prepare(stage)
    stage.run("import", "book.midden", "--batch", "Spring 1", "--readings", "later.csv", "--zone", "Europe/London")
    shutil.copy(stage.path("book.midden"), stage.path("london.midden"))
    script, unshare = HIDE_ZONES
    without = [*unshare, "sh", "-c", script, "sh"]
    if subprocess.run([*without, "true"], capture_output=True, check=False).returncode != 0:
        raise NotTried("zone data cannot be hidden here: no mount namespaces")
    unzoned = stage.running(without)
    for arguments in (["review", "other.midden"], ["certificate", "other.midden", "--batch", "Spring 1", "--output",
                                                   "a.pdf"], ["merge", "other.midden", "london.midden"],
                      ["review", "london.midden"], ["certificate", "london.midden", "--batch", "Spring 1", "--output",
                                                    "b.pdf"], ["export", "london.midden", "--directory", "csv"]):
        answer = unzoned(*arguments)
        expect(answer.status == 0, f"{arguments[0]} without zone data: {answer.status} {answer.err}")
    expect("Europe/London" in unzoned("review", "london.midden").err, "nothing said of the zone that is missing")
    answer = unzoned("import", "u.midden", "--batch", "B", "--bin", "N", "--readings", "readings.csv", "--zone", "UTC")
    expect(answer.status == 0, f"UTC was not known: {answer.err}")
    answer = unzoned("import", "v.midden", "--batch", "B", "--bin", "N", "--readings", "readings.csv", "--zone",
                     "Europe/London")
    expect(answer.status == 2 and "Europe/London" in answer.err, f"{answer.status} {answer.err}")


# --- Little memory, little room ------------------------------------------------------------------------------------

COMMANDS = {**{name: arguments for name, (arguments, _) in WRITERS.items()}, **READERS,
            "new": ["import", "fresh.midden", "--batch", "B", "--bin", "N", "--readings", "long.csv"],
            "json": ["review", "book.midden", "--json"], "dry": [*WRITERS["import"][0], "--dry-run"]}


def is_sanitized(program):
    """Programs built with a sanitizer map terabytes, so a limit on memory says nothing about them."""
    with open(program, "rb") as file:
        return b"__asan_init" in file.read()


def limited(what, most):
    """The hard limit as well: some libraries raise the soft one."""
    return lambda: resource.setrlimit(what, (most, most))


def expect_end(stage, name, answer, before):
    """A limit ends in an answer or in words, and never in a book that lost something."""
    loader = answer.status == 127  # the system could not even load the program
    expect(answer.status in (0, 1, 3, 4) or loader, f"{name}: exit status {answer.status}: {answer.err[-300:]}")
    expect(answer.status in (0, 1) or answer.err.strip(), f"{name}: {answer.status} without a word")
    expect(loader or not RAW.search(answer.err), f"{name}: raw words: {answer.err.strip()[:200]}")
    after = readings_in(stage)
    expect(after[0] >= before[0] and after[1] >= before[1], f"{name}: {before} became {after}")
    if answer.status == 3:
        expect(after == before, f"{name}: exit 3, but {before} became {after}")
        for made in ("copy.midden", "saved.midden", "fresh.midden", "out.pdf", "csv"):
            expect(not stage.path(made).exists(), f"{name}: exit 3 and {made} is there")
    if answer.status in (0, 4) and stage.path("fresh.midden").exists():
        readings_in(stage, "fresh.midden")


def start_over(stage):
    shutil.copy(stage.path("kept.midden"), stage.path("book.midden"))
    for made in ("copy.midden", "saved.midden", "fresh.midden", "out.pdf"):
        stage.path(made).unlink(missing_ok=True)
    shutil.rmtree(stage.path("csv"), ignore_errors=True)


def under_limits(stage, name, what, limits):
    prepare(stage)
    stage.write("long.csv", LONG)
    shutil.copy(stage.path("book.midden"), stage.path("kept.midden"))
    before = readings_in(stage)
    for most in limits:
        start_over(stage)
        answer = stage.run(*COMMANDS[name], preexec_fn=limited(what, most))
        expect_end(stage, f"{name} with {most} bytes", answer, before)


def needed_memory(stage, name):
    """The least limit, in MB, within 16, under which the command works."""
    low, high = 16, 4096
    while high - low > 16:
        start_over(stage)
        middle = (low + high) // 2
        answer = stage.run(*COMMANDS[name], preexec_fn=limited(resource.RLIMIT_AS, middle << 20))
        low, high = (low, middle) if answer.status in (0, 1) else (middle, high)
    return high


@attack("machine", "little memory ends in words, the book whole", trials=len(COMMANDS), short=4)
def little_memory(stage, number):
    if is_sanitized(stage.program):
        raise NotTried("a limit on memory needs an ordinary build")
    name = list(COMMANDS)[number]
    prepare(stage)
    stage.write("long.csv", LONG)
    shutil.copy(stage.path("book.midden"), stage.path("kept.midden"))
    enough = needed_memory(stage, name)
    steps = [24 << 20, *[(enough << 20) - step * (1 << 19) for step in range(1, 60)]]
    under_limits(stage, name, resource.RLIMIT_AS, steps)


@attack("machine", "a limit on the size of files ends in words, the book whole", trials=len(COMMANDS), short=3)
def little_room(stage, number):
    name = list(COMMANDS)[number]
    short = "--short" in sys.argv
    sizes = [0, 1 << 15] if short else [*range(0, 1 << 14, 1 << 10), *range(1 << 14, 1 << 18, 1 << 13)]
    under_limits(stage, name, resource.RLIMIT_FSIZE, sizes)
