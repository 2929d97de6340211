# SPDX-License-Identifier: GPL-3.0-or-later
"""What the attacks of this folder are made with: a folder of their own, the program, and a list of the attacks."""
import os
import subprocess
import tempfile
from dataclasses import dataclass
from pathlib import Path

ATTACKS = []

READINGS = "time,temperature\n2026-03-01T08:00Z,56\n2026-03-02T08:00Z,60\n2026-03-03T08:00Z,61\n2026-03-04T08:00Z,58\n"


class Succeeded(Exception):
    """The attack did harm; says which."""


class NotTried(Exception):
    """The attack cannot be played here; says why."""


def attack(group, what, trials=1, short=None):
    """Marks a function as an attack. It is called with a new Scene and the number of the trial, 0 to `trials` - 1;
    the short form, which every test run plays, makes `short` trials. It raises Succeeded if harm was done."""
    def mark(function):
        ATTACKS.append(Attack(group, what, function, trials, trials if short is None else short))
        return function
    return mark


@dataclass
class Attack:
    group: str
    what: str
    function: object
    trials: int
    short: int


@dataclass
class Answer:
    """What a run of the program came to. A negative status is the signal that ended it."""
    status: int
    out: str
    err: str


class Scene:
    """A folder that is gone afterwards, the program to attack, and settings and copies of nobody."""

    def __init__(self, program):
        self.program = str(program)
        self._folder = tempfile.TemporaryDirectory(prefix="middenbook-attack-")
        self.folder = Path(self._folder.name)
        (self.folder / "tmp").mkdir()
        self.environment = {**os.environ, "TZ": "Europe/London", "LC_ALL": "C.UTF-8", "QT_QPA_PLATFORM": "offscreen",
                            "HOME": str(self.folder / "home"), "XDG_DATA_HOME": str(self.folder / "data"),
                            "XDG_CONFIG_HOME": str(self.folder / "config"), "TMPDIR": str(self.folder / "tmp")}

    def __enter__(self):
        return self

    def __exit__(self, *_):
        self._folder.cleanup()

    def path(self, name):
        return self.folder / name

    def write(self, name, text):
        path = self.path(name)
        path.write_bytes(text if isinstance(text, bytes) else text.encode())
        return path

    def start(self, *arguments, **options):
        """Starts the program and does not wait for it."""
        return subprocess.Popen([self.program, *map(str, arguments)], cwd=options.pop("cwd", self.folder), env=self.environment,
                                stdin=subprocess.DEVNULL, stdout=options.pop("stdout", subprocess.PIPE),
                                stderr=options.pop("stderr", subprocess.PIPE), **options)

    def run(self, *arguments, seconds=120, **options):
        process = self.start(*arguments, **options)
        try:
            out, err = process.communicate(timeout=seconds)
        except subprocess.TimeoutExpired:
            process.kill()
            process.communicate()
            raise Succeeded(f"{arguments[0]} did not end within {seconds} s") from None
        return Answer(process.returncode, (out or b"").decode(errors="replace"), (err or b"").decode(errors="replace"))

    def running(self, before):
        """What runs the program behind other words, such as a program that takes something away from it."""
        def run(*arguments):
            run = subprocess.run([*before, self.program, *map(str, arguments)], cwd=self.folder, env=self.environment,
                                 stdin=subprocess.DEVNULL, capture_output=True, check=False, timeout=120)
            return Answer(run.returncode, run.stdout.decode(errors="replace"), run.stderr.decode(errors="replace"))
        return run

    def book(self, name="book.midden", batch="Spring 1", bin_name="North", readings=READINGS):
        """A sound book with one batch of four readings."""
        self.write("readings.csv", readings)
        answer = self.run("import", name, "--batch", batch, "--bin", bin_name, "--readings", "readings.csv")
        expect(answer.status == 0, f"the book could not be made: {answer.err}")
        return self.path(name)


def copy_folder_name(book):
    """Its stem and FNV-1a of its path, lowest digit first (core/store/care/copies)."""
    value = 0xCBF29CE484222325
    for byte in str(book.resolve()).encode():
        value = (value ^ byte) * 0x100000001B3 % 2**64
    return book.stem + "-" + f"{value:016x}"[::-1]


def expect(holds, otherwise):
    if not holds:
        raise Succeeded(otherwise)


def expect_refused(answer, harm):
    """A refusal is exit status 3 and a sentence, never a signal."""
    expect(answer.status == 3, f"{harm}: exit status {answer.status} {answer.err.strip()[:200]}")
    expect(answer.err.strip() != "", f"{harm}: refused without a word")
