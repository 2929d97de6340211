# SPDX-License-Identifier: GPL-3.0-or-later
"""Copies of a book that are brought together in every order: whichever way they meet, it is the same book."""
import difflib
import itertools
import random
import shlex
import shutil

from random_books import all_that_people_see, copies_of_a_book, import_something, import_until_it_is_there
from scene import attack, expect, expect_refused


def brought_together(stage, order, name):
    """A new book, copied from the first, that the others were merged into; nothing where one was refused."""
    shutil.copy(stage.path(order[0]), stage.path(name))
    for other in order[1:]:
        answer = stage.run("merge", name, other)
        if answer.status != 0:
            expect_refused(answer, f"merge of {' '.join(order)}")
            return None
    return name


def how_they_differ(one, other):
    for name in sorted({*one, *other}):
        if one.get(name) != other.get(name):
            lines = difflib.unified_diff(one.get(name, "").splitlines(), other.get(name, "").splitlines(), lineterm="", n=0)
            return f"{name}: " + " | ".join(itertools.islice(lines, 2, 9))
    return ""


def expect_one_book_in_every_order(stage, books, number):
    orders = list(itertools.permutations(books))
    seen = []
    for order in orders:
        together = brought_together(stage, order, "together.midden")
        seen.append(all_that_people_see(stage, together) if together else None)
    refused = [order for order, what in zip(orders, seen) if what is None]
    expect(len(refused) in (0, len(orders)), f"trial {number}: refused only as {refused}")
    for order, what in zip(orders, seen):
        if what is not None:
            expect(what == seen[0], f"trial {number}: {order} gives another book: {how_they_differ(seen[0], what)}")
    return seen[0] is not None


@attack("merging", "two copies give one book in either direction", trials=150, short=3)
def pairs(stage, number):
    chance = random.Random(f"pair {number}")
    expect_one_book_in_every_order(stage, copies_of_a_book(stage, chance, 2), number)


@attack("merging", "three copies give one book in all six orders", trials=300, short=4)
def triples(stage, number):
    chance = random.Random(f"triple {number}")
    expect_one_book_in_every_order(stage, copies_of_a_book(stage, chance, 3), number)


@attack("merging", "merging the same copies again changes nothing", trials=150, short=3)
def again(stage, number):
    chance = random.Random(f"again {number}")
    books = copies_of_a_book(stage, chance, 3)
    together = brought_together(stage, books, "together.midden")
    if together is None:
        return
    seen = all_that_people_see(stage, together)
    for other in (*books, *books):
        answer = stage.run("merge", together, other)
        expect(answer.status == 0, f"trial {number}: refused the second time: {answer.err}")
        expect(answer.out == "Nothing is new here.\n", f"trial {number}: merging {other} again says {answer.out}")
    now = all_that_people_see(stage, together)
    expect(now == seen, f"trial {number}: the book changed: {how_they_differ(seen, now)}")


@attack("merging", "one batch begun apart in two bins stands in one of them in all six orders", trials=30, short=2)
def begun_apart(stage, number):
    """Which key comes out at random decides nothing. In every third trial two batches come to one bin at once."""
    for day, batch, bin_name in ((1, "a", "North"), (2, "a", "East"), (1 if number % 3 == 0 else 3, "b", "North")):
        readings = f"time,temperature\n2026-03-0{day}T08:00Z,5{day}\n2026-03-0{day + 1}T09:00Z,60\n"
        stage.book(f"{day}{batch}.midden", batch, bin_name, readings)
    books = sorted(file.name for file in stage.folder.glob("*.midden"))
    expect(expect_one_book_in_every_order(stage, books, number), f"trial {number}: refused")


@attack("merging", "an export and the lines of its README make the same book again", trials=150, short=4)
def full_circle(stage, number):
    chance = random.Random(f"circle {number}")
    import_until_it_is_there(stage, chance, "first.midden")
    for _ in range(chance.randint(0, 4)):
        import_something(stage, chance, "first.midden")
    seen = all_that_people_see(stage, "first.midden")
    for line in seen["README.txt"].splitlines():
        if line.startswith("middenbook "):
            answer = stage.run(*shlex.split(line)[1:], cwd=stage.path("seen"))
            expect(answer.status == 0, f"trial {number}: the line {line} is refused: {answer.err}")
    shutil.copy(stage.path("seen") / "NEW.midden", stage.path("second.midden"))
    now = all_that_people_see(stage, "second.midden")
    expect(now == seen, f"trial {number}: another book: {how_they_differ(seen, now)}")
