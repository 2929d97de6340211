# SPDX-License-Identifier: GPL-3.0-or-later
"""Programs killed at any moment, and what they leave behind."""
import os
import random
import signal
import subprocess
import time

from scene import attack, expect

ROWS = 15_000


def many_rows(stage):
    lines = [f"2026-03-{day:02}T{minute // 60:02}:{minute % 60:02}Z,{40 + minute % 30}"
             for day in range(1, 29) for minute in range(0, 1440)][:ROWS]
    return stage.write("rows.csv", "time,temperature\n" + "\n".join(lines) + "\n")


def large_book(stage):
    many_rows(stage)
    answer = stage.run("import", "book.midden", "--batch", "Spring 1", "--bin", "North", "--readings", "rows.csv")
    expect(answer.status == 0, f"no book: {answer.err}")
    return stage.path("book.midden")


def kill(stage, number, arguments):
    """Kills the command at a moment that the number of the trial chooses, every other time while it makes its file."""
    chance = random.Random(number)
    process = stage.start(*arguments, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    if number % 2:
        while process.poll() is None and not any(stage.folder.glob(".middenbook-*")):
            time.sleep(0.0005)
        time.sleep(chance.random() * 0.05)
    else:
        time.sleep(chance.random() * 0.4)
    process.send_signal(signal.SIGKILL)
    process.wait()


def names(folder):
    return sorted(entry.name for entry in folder.rglob("*"))


def clean(stage, before, after):
    """After the next start, nothing is left but what was there and what was asked for."""
    left = [name for name in names(stage.folder) if name not in before and name not in after]
    left = [name for name in left if name not in ("home", "data", "config", "runtime-root")]
    expect(not left, f"left behind: {left[:5]}")


@attack("leftovers", "a killed backup leaves nothing once another has run", trials=60, short=4)
def killed_backup(stage, number):
    large_book(stage)
    before = names(stage.folder)
    kill(stage, number, ("backup", "book.midden", "copy.midden"))
    whole = stage.path("copy.midden").exists()
    expect(not whole or stage.run("check", "copy.midden").status == 0, "a killed backup left a copy that is not sound")
    answer = stage.run("backup", "book.midden", "next.midden")
    expect(answer.status == 0, f"the next backup was refused: {answer.err}")
    clean(stage, before, ["copy.midden", "next.midden"])


@attack("leftovers", "a killed export leaves nothing once another has run", trials=60, short=4)
def killed_export(stage, number):
    large_book(stage)
    before = names(stage.folder)
    kill(stage, number, ("export", "book.midden", "--directory", "out"))
    expect(not stage.path("out").exists() or stage.path("out/README.txt").exists(), "a killed export left half of it")
    answer = stage.run("export", "book.midden", "--directory", "next")
    expect(answer.status == 0, f"the next export was refused: {answer.err}")
    clean(stage, before, ["out", "next", "README.txt", "Spring 1", "readings.csv"])


@attack("leftovers", "a killed dry run leaves nothing once the program has started again", trials=60, short=4)
def killed_dry_run(stage, number):
    large_book(stage)
    stage.run("backup", "book.midden", "other.midden")
    stage.write("more.csv", "time,temperature\n2026-05-01T08:00Z,55\n")
    dry = ("import", "book.midden", "--batch", "Spring 1", "--readings", "more.csv", "--dry-run")
    before = names(stage.folder)
    kill(stage, number, dry if number % 2 else ("merge", "book.midden", "other.midden", "--dry-run"))
    expect(stage.run("--version").status == 0, "it does not start")
    clean(stage, before, [])


@attack("leftovers", "a killed import that begins a book leaves no book or a whole one", trials=60, short=4)
def killed_beginning(stage, number):
    many_rows(stage)
    begin = ("import", "new.midden", "--batch", "Spring 1", "--bin", "North", "--readings", "rows.csv")
    before = names(stage.folder)
    kill(stage, number, begin)
    if stage.path("new.midden").exists():
        check = stage.run("check", "new.midden")
        expect(check.status == 0 and f"{ROWS} readings" in check.out, f"half an import: {check.out}{check.err}")
    answer = stage.run(*begin)
    expect(answer.status == 0, f"the next import was refused: {answer.err}")
    clean(stage, before, ["new.midden"])


@attack("leftovers", "a killed certificate is a whole page or none, and a page's number is in the book", trials=80, short=4)
def killed_certificate(stage, number):
    stage.book()
    before = names(stage.folder)
    issue = ("certificate", "book.midden", "--batch", "Spring 1", "--issued", "2026-04-01T10:00Z", "--output", "a.pdf")
    kill(stage, number, issue)
    page = stage.path("a.pdf")
    if page.exists():
        expect(page.read_bytes().rstrip().endswith(b"%%EOF"), "half a page")
        expect("1 certificate." in stage.run("check", "book.midden").out, "a page whose number is not in the book")
    answer = stage.run(*issue)
    expect(answer.status == 0, f"the certificate was refused afterwards: {answer.err}")
    expect("1 certificate." in stage.run("check", "book.midden").out, "one certificate was issued twice")
    clean(stage, before, ["a.pdf"])


@attack("leftovers", "what looks like a leftover and is not certainly ours is left alone", trials=1)
def not_ours(stage, _):
    stage.book()
    mark = "A Middenbook program is making a file in this folder and takes it away when it is done.\n"
    kept = []
    for folder, files in {".middenbook-letter": {"letter.txt": "mine"}, ".middenbook-abcdef": {".in-use": "mine"},
                          ".middenbook-ghijkl": {".in-use": mark + "and so on"}, "copy.midden.12345678.part": {"x": "x"},
                          ".middenbook-mnopqr": {"book.midden": "mine"}}.items():
        stage.path(folder).mkdir()
        for name, text in files.items():
            kept.append(stage.write(f"{folder}/{name}", text))
    kept.append(stage.write("book.midden.12345678.part", "mine"))
    kept.append(stage.write(".middenbook-stuvwx", "mine"))
    outside = stage.path("tmp/precious")
    outside.mkdir()
    kept.append(stage.write("tmp/precious/letter.txt", "mine"))
    kept.append(stage.write("tmp/precious/.in-use", mark))
    stage.path(".middenbook-linked").symlink_to(outside)
    for command in (("backup", "book.midden", "copy.midden"), ("export", "book.midden", "--directory", "out"),
                    ("certificate", "book.midden", "--batch", "Spring 1", "--output", "a.pdf")):
        expect(stage.run(*command).status == 0, f"{command[0]} was refused")
    for file in kept:
        expect(file.exists(), f"{file.parent.name}/{file.name} was removed")


@attack("leftovers", "a program at work beside another does not lose its work to it", trials=20, short=2)
def at_work(stage, _):
    large_book(stage)
    processes = [stage.start("backup", "book.midden", f"copy-{number}.midden") for number in range(6)]
    for process in processes:
        _, err = process.communicate()
        expect(process.returncode == 0, f"a backup beside others was refused: {err.decode()}")
    expect(not [name for name in os.listdir(stage.folder) if name.startswith(".middenbook")], "something is left")
