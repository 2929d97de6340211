# SPDX-License-Identifier: GPL-3.0-or-later
"""Several programs that begin one book, and imports that are refused after they began one."""
import os

from scene import READINGS, attack, expect, expect_refused

SPOILT = "time,temperature\n2026-03-01T08:00Z,5000\n"
TOGETHER = 8


def rows(stage, number):
    return stage.write(f"rows-{number}.csv", f"time,temperature\n2026-03-0{number + 1}T08:00Z,{50 + number}\n").name


def start(stage, number, bin_name):
    where = ("--bin", bin_name) if bin_name else ()
    return stage.start("import", "new.midden", "--batch", "Spring 1", *where, "--readings", rows(stage, number))


def together(stage, refused):
    """Eight imports at once, some of which must be refused. Every acknowledged one is in the book."""
    processes = [start(stage, number, None if number in refused else "North") for number in range(TOGETHER)]
    answers = [process.communicate() for process in processes]
    for number, (process, (_, err)) in enumerate(zip(processes, answers)):
        if number not in refused:
            expect(process.returncode == 0, f"an import was refused: {err.decode()}")
        expect(process.returncode in (0, 2), f"exit status {process.returncode}: {err.decode()}")
    acknowledged = [number for number, process in enumerate(processes) if process.returncode == 0]
    export = stage.run("export", "new.midden", "--directory", "out")
    expect(export.status == 0, f"the book is gone: {export.err}")
    found = stage.path("out/Spring 1/readings.csv").read_text()
    lost = [number for number in acknowledged if f"2026-03-0{number + 1}T" not in found]
    expect(not lost, f"{len(lost)} acknowledged imports are lost")
    expect(stage.run("check", "new.midden").status == 0, "the book is not sound")
    beside = sorted(entry.name for entry in stage.folder.glob("*new.midden*"))
    expect(beside == ["new.midden"] and not list(stage.folder.glob(".middenbook*")), f"left behind: {beside}")


@attack("beginnings", "eight imports that begin one book together, one of them refused", trials=150, short=6)
def one_refused(stage, number):
    together(stage, {number % TOGETHER})


@attack("beginnings", "eight imports that begin one book together, two without a bin", trials=60, short=3)
def two_refused(stage, number):
    together(stage, {number % TOGETHER, (3 * number + 1) % TOGETHER})


@attack("beginnings", "eight imports together in the place of a file of 0 bytes", trials=60, short=4)
def in_place_of_nothing(stage, number):
    stage.write("new.midden", "")
    together(stage, {number % TOGETHER})


@attack("beginnings", "eight imports together through a link that leads to nothing", trials=60, short=3)
def through_a_link(stage, number):
    stage.path("elsewhere").mkdir()
    stage.path("new.midden").symlink_to("elsewhere/real.midden")
    together(stage, {number % TOGETHER})
    expect(stage.path("new.midden").is_symlink() and stage.path("elsewhere/real.midden").is_file(), "the link is gone")


@attack("beginnings", "a refused import into nothing, a file of 0 bytes or a link to nothing leaves it so", trials=3)
def refused_leaves_nothing(stage, number):
    stage.write("good.csv", READINGS)
    stage.write("spoilt.csv", SPOILT)
    target = stage.path("new.midden")
    if number == 1:
        target.touch(0o640)
    elif number == 2:
        target.symlink_to("real.midden")
    refusals = [("--bin", "North", "--readings", "spoilt.csv"), ("--readings", "good.csv"),
                ("--bin", "North", "--readings", "absent.csv")]
    for options in refusals:
        answer = stage.run("import", "new.midden", "--batch", "b", *options)
        expect(answer.status in (2, 3) and answer.err.strip(), f"not refused: {options} {answer.status}")
        expect(number != 0 or not os.path.lexists(target), "a refused import left a file")
        expect(number != 1 or target.stat().st_size == 0, "a refused import turned a file of 0 bytes into a book")
        expect(number != 2 or (target.is_symlink() and not target.exists()), "a refused import made the link's target")
    for command in (("review",), ("check",), ("verify", "--certificate", "1")):
        expect_refused(stage.run(command[0], "new.midden", *command[1:]), "a book was found where none is")
    accepted = stage.run("import", "new.midden", "--batch", "b", "--bin", "North", "--readings", "good.csv")
    expect(accepted.status == 0, f"the good import was refused: {accepted.err}")
    expect(number != 2 or (target.is_symlink() and stage.path("real.midden").is_file()), "the link was replaced")


@attack("beginnings", "a dry run into nothing, a file of 0 bytes or a link to nothing leaves it so", trials=3)
def dry_run_leaves_nothing(stage, number):
    stage.write("good.csv", READINGS)
    target = stage.path("new.midden")
    if number == 1:
        target.touch()
    elif number == 2:
        target.symlink_to("real.midden")
    answer = stage.run("import", "new.midden", "--batch", "b", "--bin", "N", "--readings", "good.csv", "--dry-run")
    expect(answer.status == 0, f"the dry run was refused: {answer.err}")
    expect(number != 1 or target.stat().st_size == 0, "a dry run filled a file of 0 bytes")
    expect(number == 1 or not target.exists(), "a dry run made a book")
