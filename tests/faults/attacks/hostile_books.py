# SPDX-License-Identifier: GPL-3.0-or-later
"""Books, and files beside them, made by hostile hands."""
import os
import sqlite3
import stat
import struct
from contextlib import closing

from scene import attack, expect, expect_refused

PAGE = 8192
JOURNAL_MARK = bytes.fromhex("d9d505f920a163d7")
OWN_TEXT = "my diary\n"


def edit(book, *statements, parameters=()):
    """Changes a book as no program of ours would: without its triggers, checks and column types. They are all back
    afterwards, so that the tables and rules are those of a sound book."""
    with closing(sqlite3.connect(book, isolation_level=None)) as database:
        rules = database.execute("SELECT rowid, type, name, tbl_name, rootpage, sql FROM sqlite_schema").fetchall()
        database.execute("PRAGMA writable_schema = ON")
        database.execute("UPDATE sqlite_schema SET sql = replace(replace(sql, ') STRICT, WITHOUT', ') WITHOUT'), "
                         "') STRICT', ')') WHERE type = 'table'")
        database.execute("DELETE FROM sqlite_schema WHERE type = 'trigger'")
    with closing(sqlite3.connect(book, isolation_level=None)) as database:
        database.execute("PRAGMA ignore_check_constraints = ON")
        for statement in statements:
            database.execute(statement, parameters if "?" in statement else ())
        database.execute("PRAGMA writable_schema = ON")
        database.execute("DELETE FROM sqlite_schema")
        database.executemany("INSERT INTO sqlite_schema(rowid, type, name, tbl_name, rootpage, sql) "
                             "VALUES (?, ?, ?, ?, ?, ?)", rules)


def value(book, sql):
    with closing(sqlite3.connect(book)) as database:
        return database.execute(sql).fetchone()[0]


def issue(stage, book="book.midden", batch="Spring 1"):
    """Issues a certificate and gives its number."""
    answer = stage.run("certificate", book, "--batch", batch, "--output", "page.pdf")
    expect(answer.status == 0, f"no certificate was issued: {answer.err}")
    return answer.out.strip()


def journal_head(pages):
    return (JOURNAL_MARK + struct.pack(">5I", 0, 1, pages, 512, PAGE)).ljust(512, b"\0")


def journal_naming(path, book):
    """A journal with nothing to undo, which names a file to be deleted with it."""
    name = os.fsencode(path)
    end = struct.pack(">I", 0x40000000 // PAGE + 1) + name + struct.pack(">II", len(name), sum(name)) + JOURNAL_MARK
    return journal_head(book.stat().st_size // PAGE) + end


def everything(book):
    """Every command that opens a book, with what it takes."""
    return [("check", book), ("review", book), ("verify", book, "--certificate", "20260301-0000-0000"),
            ("backup", book, "backed-up.midden"), ("salvage", book, "salvaged.midden"),
            ("export", book, "--directory", "as-csv"), ("merge", book, "other.midden"),
            ("merge", "other.midden", book), ("merge", "--dry-run", book, "other.midden"),
            ("certificate", book, "--batch", "Spring 1", "--output", "page.pdf"),
            ("import", book, "--batch", "Spring 1", "--readings", "readings.csv"),
            ("import", "--dry-run", book, "--batch", "Spring 1", "--readings", "readings.csv")]


def try_all(stage, book, untouched):
    """Runs every command; none may change what stands in `untouched`, and none may take the hostile book."""
    stage.book("other.midden")
    before = {path: path.read_bytes() for path in [*untouched, stage.path("other.midden")] if path.is_file()}
    for command in everything(book):
        answer = stage.run(*command, seconds=20)
        for path, bytes_before in before.items():
            expect(path.exists(), f"{command[0]} deleted {path.name}")
            same = path.stat().st_size == len(bytes_before) and path.read_bytes() == bytes_before
            expect(same, f"{command[0]} changed {path.name}")
        if command[0] == "salvage":  # it reads the book without opening it
            expect(answer.status in (0, 1, 3), f"salvage ended with {answer.status}: {answer.err}")
        else:
            expect_refused(answer, f"{command[0]} took the book")


# Files beside a book.

@attack("hostile_books", "a journal that names another file has it deleted by any command")
def journal_deletes(stage, _):
    book = stage.book()
    diary = stage.write("diary.txt", OWN_TEXT)
    journal = stage.write("book.midden-journal", journal_naming(diary, book))
    try_all(stage, book, [diary, book, journal])


@attack("hostile_books", "a journal that names another book has that deleted")
def journal_deletes_book(stage, _):
    book = stage.book()
    second = stage.book("second.midden")
    journal = stage.write("book.midden-journal", journal_naming(second, book))
    try_all(stage, book, [second, book, journal])


def folder_of_copies(stage, book):
    """Where this computer keeps its copies of a book: core/store/care/copies.cpp."""
    number = 0xcbf29ce484222325
    for byte in os.fsencode(os.path.realpath(book)):
        number = (number ^ byte) * 0x100000001b3 % 2**64
    digits = "".join("0123456789abcdef"[number >> 4 * i & 15] for i in range(16))
    return stage.path("data") / "middenbook" / "middenbook" / "copies" / f"{book.stem}-{digits}"


@attack("hostile_books", "a journal beside a kept copy deletes a file when the copy is restored")
def kept_copy_deletes(stage, _):
    book = stage.book()
    diary = stage.write("diary.txt", OWN_TEXT)
    folder = folder_of_copies(stage, book)
    folder.mkdir(parents=True)
    copy = folder / "2026-03-04T08.10.00Z.midden"
    copy.write_bytes(book.read_bytes())
    expect(copy.name in stage.run("copies", book).out, "the copy is not where copies are kept")
    journal = folder / (copy.name + "-journal")
    journal.write_bytes(journal_naming(diary, copy))
    answer = stage.run("restore", book, "again.midden")
    expect(diary.exists(), "the file was deleted")
    expect(journal.exists(), "the journal was deleted")
    expect_refused(answer, "the copy was taken")


@attack("hostile_books", "a journal that is a link, a pipe, a folder or a device is followed", trials=4, short=2)
def journal_is_no_file(stage, number):
    book = stage.book()
    diary = stage.write("diary.txt", journal_head(1))
    journal = stage.path("book.midden-journal")
    make = (lambda: journal.symlink_to(diary), lambda: os.mkfifo(journal), journal.mkdir,
            lambda: journal.symlink_to("/dev/zero"))[number]
    make()
    kind = stat.S_IFMT(journal.lstat().st_mode)
    try_all(stage, book, [diary, book])
    expect(stat.S_IFMT(journal.lstat().st_mode) == kind, "what stood beside the book was replaced")


@attack("hostile_books", "a journal blows the book up to a thousand million pages")
def journal_blows_up(stage, _):
    book = stage.book()
    journal = stage.write("book.midden-journal", journal_head(1_000_000_000))
    try_all(stage, book, [book, journal])


@attack("hostile_books", "a write-ahead log beside a book is played into it")
def write_ahead_log(stage, _):
    book = stage.book()
    log = write_log(stage, book)
    try_all(stage, book, [book, log])
    expect(not stage.path("book.midden-shm").exists(), "shared memory was made beside the book")


def write_log(stage, book):
    """A log that another program left behind half way, and the book as it was before it."""
    before = book.read_bytes()
    twin = stage.path("twin.midden")
    twin.write_bytes(before)
    with closing(sqlite3.connect(twin)) as database:
        database.execute("PRAGMA journal_mode = WAL")
        database.execute("UPDATE bin SET name = 'Elsewhere'")
        database.commit()
        log = stage.path("twin.midden-wal").read_bytes()
    return stage.write(book.name + "-wal", log)


@attack("hostile_books", "a book in write-ahead mode gets files made beside it by commands that only read")
def write_ahead_mode(stage, _):
    book = stage.book()
    with closing(sqlite3.connect(book)) as database:
        database.execute("PRAGMA journal_mode = WAL")
    try_all(stage, book, [book])
    for end in ("-wal", "-shm"):
        expect(not stage.path("book.midden" + end).exists(), f"book.midden{end} was made")


# Texts in a book.

DEEP = {"lists": "[" * 100_000 + "]" * 100_000, "objects": '{"a":' * 100_000 + "1" + "}" * 100_000,
        "a little deep": "[" * 3_000 + "]" * 3_000, "cut short": "[" * 100_000, "no JSON": "no JSON", "a list": "[1]",
        "numbers for texts": '{"note":7,"position":[],"raw":"hot"}', "huge": '{"at":1e300,"raw":99999999999999999999}'}


def book_with_amendment(stage, name="book.midden"):
    """A book with a corrected addition, whose amendment is then made to say `?`."""
    book = stage.book(name)
    stage.write("additions.csv", "time,material,mass_kg\n2026-03-01T08:00Z,Straw,3\n")
    answer = stage.run("import", name, "--batch", "Spring 1", "--additions", "additions.csv")
    expect(answer.status == 0, f"no addition was taken: {answer.err}")
    with closing(sqlite3.connect(book, isolation_level=None)) as database:
        database.execute("UPDATE addition SET mass_kg = 5")
        expect(database.execute("SELECT count(*) FROM amendment").fetchone()[0] == 1, "nothing was amended")
    return book


def expect_lives(stage, book, harm):
    """The book still does all it did before."""
    for command in (("review", book), ("export", book, "--directory", "still"), ("check", book),
                    ("certificate", book, "--batch", "Spring 1", "--output", "still.pdf")):
        answer = stage.run(*command)
        expect(answer.status == 0, f"{harm}: {command[0]} ends with {answer.status} {answer.err[:200]}")


def expect_merge_refused(stage, good, copy):
    before = good.read_bytes()
    for command in (("merge", good, copy), ("merge", "--dry-run", good, copy)):
        answer = stage.run(*command, seconds=60)
        expect_refused(answer, "the copy was brought in")
        expect(good.read_bytes() == before, "the good book changed")
    expect_refused(stage.run("merge", copy, good, seconds=60), "the hostile book took the good one in")


@attack("hostile_books", "JSON of an amendment that is deep, damaged or of other types crashes or poisons",
        trials=len(DEEP), short=2)
def amendment_json(stage, number):
    text = list(DEEP.values())[number]
    column = ("was", "became")[number % 2]
    good = stage.book("good.midden")
    book = book_with_amendment(stage)
    edit(book, f"UPDATE amendment SET {column} = ?", parameters=(text,))
    check = stage.run("check", book)
    key = value(book, "SELECT key FROM amendment")
    expect(check.status == 1 and key in check.out, f"check says nothing of it: {check.status} {check.out} {check.err}")
    for command in (("review", book), ("review", book, "--json"), ("export", book, "--directory", "as-csv"),
                    ("certificate", book, "--batch", "Spring 1", "--output", "page.pdf")):
        answer = stage.run(*command)
        expect(answer.status == 0, f"{command[0]} of the rest does not work: {answer.status} {answer.err[:200]}")
        expect(key in answer.err, f"{command[0]} does not name the amendment")
    expect_merge_refused(stage, good, book)
    expect_lives(stage, good, "the good book is poisoned")


@attack("hostile_books", "criteria of a group that are nested deep crash or poison", trials=3, short=1)
def settings_json(stage, number):
    text = "\x1e" + list(DEEP.values())[number]
    good = stage.book("good.midden")
    book = stage.book()
    edit(book, "INSERT INTO setting(name, value) VALUES ('criteria', ?)", parameters=(text,))
    check = stage.run("check", book)
    expect(check.status == 1 and "criteria" in check.out, f"check says nothing: {check.status} {check.out} {check.err}")
    for command in (("review", book), ("export", book, "--directory", "as-csv"),
                    ("certificate", book, "--batch", "Spring 1", "--output", "page.pdf")):
        answer = stage.run(*command)
        expect(answer.status == 0, f"{command[0]} of the rest does not work: {answer.status} {answer.err[:200]}")
    expect_merge_refused(stage, good, book)
    expect_lives(stage, good, "the good book is poisoned")


@attack("hostile_books", "an amendment of the highest rank bars every later correction of the merged book")
def amendment_rank(stage, _):
    good = stage.book("good.midden")
    book = book_with_amendment(stage)
    edit(book, "UPDATE amendment SET rank = 9223372036854775807")
    expect_merge_refused(stage, good, book)


# Values in a book.

DAMAGE = {
    "a temperature beyond 32 bits": "UPDATE reading SET raw = raw + 4294967296",
    "an instant after the year 9999": "UPDATE reading SET at = 253402300800 WHERE at = 1772438400",
    "instants with a fraction": "UPDATE reading SET at = at + 0.25",
    "one temperature beyond 32 bits": "UPDATE reading SET raw = raw - 4294967296 WHERE at = 1772438400",
    "a temperature out of range": "UPDATE reading SET raw = 1500001 WHERE at = 1772438400",
    "a temperature with a fraction": "UPDATE reading SET raw = 600000.5 WHERE at = 1772438400",
    "a temperature as text": "UPDATE reading SET raw = 'hot' WHERE at = 1772438400",
    "no temperature": "UPDATE reading SET raw = x'00' WHERE at = 1772438400",
    "an instant with a fraction": "UPDATE reading SET at = at + 0.5 WHERE at = 1772438400",
    "an instant as text": "UPDATE reading SET at = 'noon' WHERE at = 1772438400",
    "an instant before the year 0": "UPDATE reading SET at = -62167219201 WHERE at = 1772438400",
    "an instant at the end of all numbers": "UPDATE reading SET at = 9223372036854775807 WHERE at = 1772438400",
    "an offset beyond 16 bits": "UPDATE series SET utc_offset = 65536",
    "a unit that is none": "UPDATE series SET unit = 256",
    "a source that is none": "UPDATE series SET source = 257",
    "a series that is not in the book": "UPDATE reading SET series = 40 WHERE at = 1772438400",
    "a start beyond the year 9999": "UPDATE batch SET started = 9223372036854775807",
    "an offset of a batch beyond 16 bits": "UPDATE batch SET started_offset = 65536",
    "a bin by a fraction": "UPDATE series SET bin = 1.5",
}


@attack("hostile_books", "a damaged value passes for one that somebody gave", trials=len(DAMAGE), short=4)
def damaged_value(stage, number):
    harm, sql = list(DAMAGE.items())[number]
    good = stage.book("good.midden", bin_name="South")
    book = stage.book()
    certificate = issue(stage)
    edit(book, sql)
    before = book.read_bytes()
    check = stage.run("check", book)
    expect(check.status == 1, f"{harm}: check says {check.status} {check.out} {check.err}")
    answer = stage.run("certificate", book, "--batch", "Spring 1", "--output", "second.pdf")
    expect_refused(answer, f"{harm}: certificate")
    expect(not stage.path("second.pdf").exists(), f"{harm}: a certificate was made")
    verify = stage.run("verify", book, "--certificate", certificate, seconds=20)
    expect(verify.status in (1, 3), f"{harm}: verify says {verify.status} {verify.out}")
    expect(harm == "a series that is not in the book" or verify.err.strip(), f"{harm}: verify has no word for it")
    if harm != "a series that is not in the book":  # that reading is nobody's: a review and an export are of the rest
        expect_refused(stage.run("review", book, seconds=20), f"{harm}: review")
        expect_refused(stage.run("export", book, "--directory", "as-csv", seconds=20), f"{harm}: export")
    expect_merge_refused(stage, good, book)
    expect(book.read_bytes() == before, f"{harm}: the damaged book was changed")
    expect_lives(stage, good, harm)


# Certificates in a book.

FORGED = ["UPDATE certificate SET issued = issued - 86400", "UPDATE certificate SET number = '20260301-1234-5678'",
          "UPDATE certificate SET issued = issued + 1", "UPDATE certificate SET number = 'A' || number",
          "UPDATE certificate SET number = replace(number, '20260301', '20250301')",
          "UPDATE certificate SET canonical = replace(canonical, '55', '54')"]


@attack("hostile_books", "a certificate whose number, date or rules were changed is verified",
        trials=len(FORGED), short=2)
def forged_certificate(stage, number):
    book = stage.book()
    issue(stage)
    edit(book, FORGED[number])
    forged = value(book, "SELECT number FROM certificate")
    answer = stage.run("verify", book, "--certificate", forged)
    expect(answer.status == 1, f"{FORGED[number]}: verify says {answer.status} {answer.out} {answer.err}")
    check = stage.run("check", book)
    expect(check.status == 1 and forged in check.out, f"{FORGED[number]}: check says {check.status} {check.out}")
