# SPDX-License-Identifier: GPL-3.0-or-later
"""Outputs that would take the place of other people's files."""
import os
import socket
import stat
import time

from scene import attack, copy_folder_name, expect, expect_refused

CERTIFICATE = ("certificate", "book.midden", "--batch", "Spring 1", "--output")
WRITERS = {
    "certificate": lambda target: (*CERTIFICATE, target),
    "backup": lambda target: ("backup", "book.midden", target),
    "salvage": lambda target: ("salvage", "book.midden", target),
    "restore": lambda target: ("restore", "book.midden", target),
    "export": lambda target: ("export", "book.midden", "--directory", target),
}


def begin(stage):
    """A book, and a copy of it where the desktop keeps its own, so that there is something to restore."""
    book = stage.book()
    expect(stage.run("copies", "book.midden").status == 1, "there are copies of a new book")
    folder = stage.path("data") / "middenbook" / "middenbook" / "copies" / copy_folder_name(book)
    folder.mkdir(parents=True)
    answer = stage.run("backup", "book.midden", folder / "2026-03-05T08.00.00Z.midden")
    expect(answer.status == 0 and stage.run("copies", "book.midden").status == 0, f"no copy is kept: {answer.err}")
    return book


def look(path):
    """All that may not change of a file: what it is, which, its bytes and rights."""
    status = path.lstat()
    content = os.readlink(path) if stat.S_ISLNK(status.st_mode) else None
    if stat.S_ISREG(status.st_mode):
        content = path.read_bytes()
    elif stat.S_ISDIR(status.st_mode):
        content = sorted(entry.name for entry in path.iterdir())
    return status.st_ino, status.st_dev, status.st_mode, content


def spare(stage, arguments, *paths, seconds=60):
    """The command is refused in words and what stands at the paths stays."""
    before = [look(path) for path in paths]
    names = sorted(entry.name for entry in stage.folder.iterdir())
    answer = stage.run(*arguments, seconds=seconds)
    for path, was in zip(paths, before):
        expect(path.is_symlink() or path.exists(), f"{arguments[0]} removed {path.name}")
        expect(look(path) == was, f"{arguments[0]} changed {path.name}")
    expect_refused(answer, " ".join(map(str, arguments[:6])))
    made = [entry.name for entry in stage.folder.iterdir() if entry.name not in names]
    expect(not made or set(made) <= {"home", "config", "data"}, f"{arguments[0]} left {made}")


def certificates_of(stage):
    return stage.run("check", "book.midden").out.split(",")[-1]


@attack("outputs", "a backup into the folder of the book leaves the book as it was", trials=1)
def backup_beside(stage, _):
    book = stage.book()
    before = book.read_bytes()
    answer = stage.run("backup", book, "copy.midden")
    expect(answer.status == 0, f"the backup was refused: {answer.err}")
    expect(book.read_bytes() == before, "the book changed")


@attack("outputs", "any output over the book itself, by its name, a longer name, a link or a hard link", trials=len(WRITERS))
def over_the_book(stage, number):
    book = begin(stage)
    stage.path("symbolic").symlink_to("book.midden")
    stage.path("chain").symlink_to("symbolic")
    writer = list(WRITERS.values())[number]
    for target in ("book.midden", "./tmp/../book.midden", str(book), "symbolic", "chain"):
        spare(stage, writer(target), book)
    os.link(book, stage.path("second"))
    spare(stage, writer("second"), book, stage.path("second"))


@attack("outputs", "any output over another book, a text, a PDF of others or an empty file", trials=len(WRITERS))
def over_other_files(stage, number):
    other = stage.book("other.midden", batch="Summer")
    begin(stage)
    writer = list(WRITERS.values())[number]
    targets = [other, stage.write("letter.txt", "Dear committee"), stage.write("readings-2.csv", "time,temperature\n"),
               stage.write("foreign.pdf", b"%PDF-1.4\n1 0 obj\n<<>>\nendobj\ntrailer\n<<>>\n%%EOF\n"),
               stage.write("empty.pdf", "")]
    for target in targets:
        spare(stage, writer(target.name), target)
        link = stage.path("link")
        link.symlink_to(target.name)
        spare(stage, writer("link"), target, link)
        link.unlink()


@attack("outputs", "any output to a pipe, a socket, a device or a full disk", trials=len(WRITERS))
def over_devices(stage, number):
    begin(stage)
    writer = list(WRITERS.values())[number]
    pipe = stage.path("pipe")
    os.mkfifo(pipe)
    spare(stage, writer("pipe"), pipe, seconds=20)
    with socket.socket(socket.AF_UNIX) as listening:
        here = os.getcwd()
        os.chdir(stage.folder)
        listening.bind("socket")
        os.chdir(here)
        spare(stage, writer("socket"), stage.path("socket"))
    for device in ("/dev/null", "/dev/full", "/dev/stdout"):
        expect_refused(stage.run(*writer(device)), f"{device} was written")
        expect(stat.S_ISCHR(os.stat("/dev/null").st_mode), "/dev/null is gone")


@attack("outputs", "any output to a folder, a path ending in a slash, a circle of links or an absent folder",
        trials=len(WRITERS))
def over_folders(stage, number):
    begin(stage)
    name, writer = list(WRITERS.items())[number]
    folder = stage.path("folder")
    folder.mkdir()
    stage.write("folder/note.txt", "mine")
    stage.path("around").symlink_to("about")
    stage.path("about").symlink_to("around")
    spare(stage, writer("folder"), folder)
    spare(stage, writer("around"), stage.path("around"), stage.path("about"))
    if name != "export":  # which makes the folders it is asked for
        spare(stage, writer("folder/"), folder)
        spare(stage, writer("new/"), folder)
        spare(stage, writer("absent/file"), folder)
        spare(stage, writer("book.midden/file"), stage.path("book.midden"))
    expect(certificates_of(stage).strip() == "0 certificates.", "a refused certificate is kept in the book")


@attack("outputs", "any output at a name that SQLite takes for a part of a book", trials=len(WRITERS))
def over_side_files(stage, number):
    book = begin(stage)
    writer = list(WRITERS.values())[number]
    for end in ("-journal", "-wal", "-shm"):
        spare(stage, writer(book.name + end), book)


@attack("outputs", "a copy where the journal of an earlier book of that name still lies", trials=3)
def beside_old_journal(stage, number):
    book = begin(stage)
    journal = stage.write("copy.midden-journal", b"\xd9\xd5\x05\xf9\x20\xa1\x63\xd7" + bytes(504))
    spare(stage, list(WRITERS.values())[1 + number]("copy.midden"), book, journal)


@attack("outputs", "an import into a new book where the journal of an earlier one still lies", trials=1)
def begin_beside_old_journal(stage, _):
    rows = stage.book().with_name("readings.csv")
    journal = stage.write("new.midden-journal", b"\xd9\xd5\x05\xf9\x20\xa1\x63\xd7" + bytes(504))
    spare(stage, ("import", "new.midden", "--batch", "b", "--bin", "N", "--readings", rows.name), journal)


@attack("outputs", "an import into its own rows, a folder, a pipe, a device or a book's side file", trials=1)
def import_into_inputs(stage, _):
    book = stage.book()
    rows = stage.path("readings.csv")
    os.mkfifo(stage.path("pipe"))
    stage.path("rows").symlink_to("readings.csv")
    for target in ("readings.csv", "rows", "tmp", "pipe", "/dev/null", "/dev/full", "book.midden-journal", "new/"):
        spare(stage, ("import", target, "--batch", "b", "--bin", "N", "--readings", "readings.csv"), rows, book,
              seconds=20)


@attack("outputs", "a certificate that was changed since is not replaced, one as it was left is", trials=1)
def over_certificates(stage, _):
    stage.book()
    expect(stage.run(*CERTIFICATE, "a.pdf").status == 0, "no certificate")
    pdf = stage.path("a.pdf")
    first = pdf.read_bytes()
    stage.path("a-link.pdf").symlink_to("a.pdf")
    pdf.chmod(0o640)
    for name in ("a.pdf", "a-link.pdf"):
        answer = stage.run(*CERTIFICATE, name, "--issued", "2026-04-01T10:00Z")
        expect(answer.status == 0, f"our own certificate was not replaced: {answer.err}")
        expect(stage.path("a-link.pdf").is_symlink(), "the link was replaced")
    expect(pdf.read_bytes() != first, "the certificate was not written")
    expect(stat.S_IMODE(pdf.stat().st_mode) == 0o640, "the rights of the certificate changed")
    for changed in (first + b"% a note\n", first[:2000] + b"X" + first[2001:], first[:-300], first + first):
        pdf.write_bytes(changed)
        spare(stage, (*CERTIFICATE, "a.pdf"), pdf)


@attack("outputs", "a certificate whose name somebody takes meanwhile is not kept in the book", trials=40, short=4)
def certificate_overtaken(stage, number):
    stage.book()
    target = stage.path("a.pdf")
    process = stage.start(*CERTIFICATE, "a.pdf")
    beside = set(stage.folder.iterdir())
    while process.poll() is None:
        if set(stage.folder.iterdir()) - beside - {stage.path("home"), stage.path("config"), stage.path("data")}:
            if number % 2:
                time.sleep(0.0005 * number)
            try:
                with open(target, "x", encoding="utf-8") as mine:
                    mine.write("mine")
            except FileExistsError:
                pass
            break
    process.communicate()
    kept = certificates_of(stage).strip()
    if process.returncode == 0:
        expect(kept == "1 certificate.", "a certificate was written and not kept")
        expect(target.read_bytes().startswith(b"%PDF"), "exit status 0 without a certificate")
    else:
        expect(kept == "0 certificates.", "the refused certificate is kept in the book")
        expect(target.read_text() == "mine", "the file of somebody else is gone")
