# SPDX-License-Identifier: GPL-3.0-or-later
"""Who may read what the program writes."""
import os
import stat

from scene import attack, copy_folder_name, expect

MASKS = (0o022, 0o002, 0o077, 0o027, 0o000)


def bits(path):
    return stat.S_IMODE(path.stat().st_mode)


def run(stage, mask, *arguments):
    answer = stage.run(*arguments, umask=mask)
    expect(answer.status in (0, 1), f"{arguments[0]} was refused: {answer.err}")
    return answer


@attack("rights", "a new book can be read by nobody but its owner, whatever the mask", trials=len(MASKS))
def new_book(stage, number):
    stage.write("r.csv", "time,temperature\n2026-03-01T08:00Z,56\n")
    run(stage, MASKS[number], "import", "new.midden", "--batch", "b", "--bin", "N", "--readings", "r.csv")
    expect(bits(stage.path("new.midden")) == 0o600, f"rights {bits(stage.path('new.midden')):o}")
    stage.path("empty.midden").touch()
    stage.path("empty.midden").chmod(0o660)
    run(stage, MASKS[number], "import", "empty.midden", "--batch", "b", "--bin", "N", "--readings", "r.csv")
    expect(bits(stage.path("empty.midden")) == 0o660, "the rights of the file of 0 bytes changed")


@attack("rights", "backups, kept copies, restored and salvaged books get the rights of their book", trials=3)
def copies(stage, number):
    book = stage.book()
    wanted = (0o600, 0o640, 0o664)[number]
    book.chmod(wanted)
    if os.geteuid() == 0:
        os.chown(book, -1, 12345)
    folder = stage.path("data") / "middenbook" / "middenbook" / "copies" / copy_folder_name(book)
    folder.mkdir(parents=True)
    for mask in MASKS:
        run(stage, mask, "backup", "book.midden", f"copy-{mask}.midden")
        run(stage, mask, "salvage", "book.midden", f"salvaged-{mask}.midden")
        run(stage, mask, "backup", "book.midden", folder / f"2026-03-05T08.00.{MASKS.index(mask):02}Z.midden")
        run(stage, mask, "restore", "book.midden", f"restored-{mask}.midden")
    for made in [*stage.folder.glob("*-*.midden"), *folder.iterdir()]:
        expect(bits(made) == wanted, f"{made.name} has the rights {bits(made):o}, its book {wanted:o}")
        expect(made.stat().st_gid == book.stat().st_gid, f"{made.name} is of another group")


@attack("rights", "a copy whose group cannot be given does not open the book to another group", trials=1)
def other_group(stage, _):
    if os.geteuid() != 0:
        return
    book = stage.book()
    os.chmod(stage.folder, 0o777)
    os.chown(book, 65534, 12345)
    book.chmod(0o640)
    answer = stage.run("backup", "book.midden", "copy.midden", user=65534, group=65534, extra_groups=[])
    expect(answer.status == 0, f"the backup was refused: {answer.err}")
    expect(bits(stage.path("copy.midden")) == 0o600, f"rights {bits(stage.path('copy.midden')):o}")


@attack("rights", "certificates and exports are as open as the mask says, for they are made to be shown", trials=len(MASKS))
def shown(stage, number):
    mask = MASKS[number]
    stage.book()
    run(stage, mask, "certificate", "book.midden", "--batch", "Spring 1", "--output", "a.pdf")
    run(stage, mask, "export", "book.midden", "--directory", "out")
    expect(bits(stage.path("a.pdf")) == 0o666 & ~mask, f"the certificate has {bits(stage.path('a.pdf')):o}")
    expect(bits(stage.path("out")) == 0o777 & ~mask, f"the folder has {bits(stage.path('out')):o}")
    expect(bits(stage.path("out/README.txt")) == 0o666 & ~mask, "a file of the export has other rights")


@attack("rights", "the journal of a book is no more open than the book", trials=1)
def journal(stage, _):
    book = stage.book()
    lines = [f"2026-04-{day:02}T{minute // 60:02}:{minute % 60:02}Z,55" for day in range(1, 29) for minute in range(1440)]
    stage.write("rows.csv", "time,temperature\n" + "\n".join(lines) + "\n")
    process = stage.start("import", book, "--batch", "Spring 1", "--readings", "rows.csv", umask=0)
    seen = set()
    while process.poll() is None:
        for beside in stage.folder.glob("*-journal"):
            try:
                seen.add(bits(beside))
            except FileNotFoundError:
                pass
    process.communicate()
    expect(seen <= {0o600}, f"the journal had {seen}")
