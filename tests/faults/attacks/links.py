# SPDX-License-Identifier: GPL-3.0-or-later
"""Books with several names, whose journal would lie beside one of them only."""
import os
import random
import signal
import time

from scene import attack, expect, expect_refused

MORE = "time,temperature\n2026-03-09T08:00Z,55\n"


def writing(name):
    return [("import", name, "--batch", "Spring 1", "--readings", "more.csv"),
            ("certificate", name, "--batch", "Spring 1", "--output", "a.pdf"),
            ("merge", name, "other.midden")]


@attack("links", "a book with a second name is not written under either, and can be read", trials=2)
def second_name(stage, number):
    book = stage.book()
    stage.run("backup", "book.midden", "other.midden")
    stage.write("more.csv", MORE)
    folder = stage.path("elsewhere") if number else stage.folder
    folder.mkdir(exist_ok=True)
    second = folder / "second.midden"
    os.link(book, second)
    before = book.read_bytes()
    for name in (book, second):
        for command in writing(name):
            answer = stage.run(*command)
            expect_refused(answer, f"{command[0]} wrote in a book with a second name")
            expect("second name" in answer.err, f"{command[0]} was refused for another reason: {answer.err}")
        for command in (("review",), ("check",)):
            expect(stage.run(command[0], name).status == 0, f"{command[0]} cannot read it")
    expect(book.read_bytes() == before, "the book changed")
    expect(stage.run("backup", second, "own.midden").status == 0, "no copy of its own can be made")
    expect(stage.run(*writing("own.midden")[0]).status == 0, "the copy of its own cannot be written")
    second.unlink()
    expect(stage.run(*writing("book.midden")[0]).status == 0, "with one name again it cannot be written")


def half_written(stage, number):
    """A book whose import was killed while it had a journal; None when it ended too soon."""
    lines = [f"2026-04-{day:02}T{minute // 60:02}:{minute % 60:02}Z,{40 + minute % 30}"
             for day in range(1, 29) for minute in range(1440)]
    stage.write("rows.csv", "time,temperature\n" + "\n".join(lines) + "\n")
    book = stage.book()
    process = stage.start("import", "book.midden", "--batch", "Spring 1", "--readings", "rows.csv")
    journal = stage.path("book.midden-journal")
    chance = random.Random(number)
    while process.poll() is None and not journal.exists():
        time.sleep(0.0005)
    time.sleep(chance.random() * 0.05)
    process.send_signal(signal.SIGKILL)
    process.wait()
    return book if journal.exists() and journal.stat().st_size else None


@attack("links", "what was acknowledged under one name is not rolled back under the other", trials=30, short=4)
def rolled_back(stage, number):
    book = half_written(stage, number)
    if book is None:
        return
    second = stage.path("second.midden")
    os.link(book, second)
    stage.write("more.csv", MORE)
    answer = stage.run("import", "second.midden", "--batch", "Spring 1", "--readings", "more.csv")
    expect_refused(answer, "a half written book was written under its second name")
    for name in ("second.midden", "book.midden"):
        read = stage.run("review", name)
        expect(read.status == 3 and "second name" in read.err, f"half of a change was read: {read.out[:80]} {read.err}")
    second.unlink()
    check = stage.run("check", "book.midden")
    expect(check.status == 0 and " 4 readings" in check.out, f"the book is not as before: {check.out} {check.err}")


@attack("links", "a book opened through a symbolic link has its journal at the file it leads to", trials=20, short=3)
def through_link(stage, number):
    stage.path("real").mkdir()
    stage.book()
    os.rename(stage.path("book.midden"), stage.path("real/book.midden"))
    stage.path("book.midden").symlink_to("real/book.midden")
    lines = [f"2026-04-{day:02}T{minute // 60:02}:{minute % 60:02}Z,55" for day in range(1, 29) for minute in range(1440)]
    stage.write("rows.csv", "time,temperature\n" + "\n".join(lines) + "\n")
    process = stage.start("import", "book.midden", "--batch", "Spring 1", "--readings", "rows.csv")
    while process.poll() is None and not stage.path("real/book.midden-journal").exists():
        expect(not os.path.lexists(stage.path("book.midden-journal")), "the journal lies at the link")
        time.sleep(0.0005)
    time.sleep(random.Random(number).random() * 0.05)
    process.send_signal(signal.SIGKILL)
    process.wait()
    stage.path("book.midden").unlink()
    check = stage.run("check", "real/book.midden")
    expect(check.status == 0, f"the book is not sound by its own name: {check.out} {check.err}")
    expect(" 4 readings" in check.out or f" {4 + len(lines)} readings" in check.out, f"half an import: {check.out}")


@attack("links", "a second name given while a book is written costs nothing that was acknowledged", trials=30, short=3)
def linked_meanwhile(stage, number):
    book = stage.book()
    second = stage.path("second.midden")
    acknowledged = []
    for day in range(1, 13):
        stage.write("more.csv", f"time,temperature\n2026-04-{day:02}T08:00Z,55\n")
        process = stage.start("import", "book.midden", "--batch", "Spring 1", "--readings", "more.csv")
        if day == 1 + number % 12:
            time.sleep(0.002 * (number % 7))
            os.link(book, second)
        _, err = process.communicate()
        expect(process.returncode in (0, 3), f"exit status {process.returncode}: {err.decode()}")
        acknowledged += [day] if process.returncode == 0 else []
    second.unlink()
    check = stage.run("check", "book.midden")
    expect(f" {4 + len(acknowledged)} readings" in check.out, f"{len(acknowledged)} acknowledged, but {check.out}")
