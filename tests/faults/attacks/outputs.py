# SPDX-License-Identifier: GPL-3.0-or-later
"""Outputs that would take the place of other people's files."""
from scene import attack, expect


@attack("outputs", "a backup into the folder of the book leaves the book as it was", trials=1)
def backup_beside(stage, _):
    book = stage.book()
    before = book.read_bytes()
    answer = stage.run("backup", book, "copy.midden")
    expect(answer.status == 0, f"the backup was refused: {answer.err}")
    expect(book.read_bytes() == before, "the book changed")
