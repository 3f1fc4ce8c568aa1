"""Runs the commands on mutated patterns and pictures until one ends in a fault of the program.

Run by hand: ``python -m tests.hostile.fuzz_commands COUNT SEED``. What may come of a command is
exit code 0, 1 with findings, or 2 with a usage that the command line can't have.
"""

import io
import os
import random
import re
import resource
import sys
import tempfile
import time
import zipfile
from collections import Counter
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

from click.testing import CliRunner, Result
from openpyxl import Workbook
from openpyxl.styles import PatternFill
from openpyxl.styles.colors import Color
from PIL import Image

from bindoff.cli import main
from tests.hostile.fuzz import MEMORY, bytes_of, limited, sources
from tests.hostile.grafts import Donors, texts_of
from tests.hostile.mutate import mutated, picture

SECONDS = 15.0
TOLD_EVERY = 200

GAUGES = (
    "22 x 30", "22 x 30 / 10 cm", "9.6 x 13.2 / 10cm", "22x30/4in", "1 x 1 / 10 cm", "0 x 0",
    "-5 x 3", "99999 x 99999 / 1 cm", "22 x 30 / 0 cm", "22 x 30 / 999999 m", "nan x nan",
    "S = 23 x 31 / 10 cm", "hand = 16 x 24 / 10 cm", "S = 23 x 31, 5 mm needles", "x", "", " = ",
    "22 x 30 / 10 cm, 4 mm needle", "0.0001 x 0.0001 / 10 cm", "½ x ¼", "1e9 x 1",
    "12 x 15 / 10 cm", "40 x 60 / 10 cm", "22 × 30 / 10 cm",
)  # fmt: skip
SIZES = ("S", "M", "L", "XL", "s", "", " ", "../S", "Child S", "0", "S (M)", "Ł")
YARNS = (
    "slate=#3d4a57,foam=#e8eef0", "slate,foam", "a=#000000", "a=#000000,b=#ffffff,c=#ff0000",
    ".=#3d4a57,#=#e8eef0", "x", "", ",", "a=#12", "a=b", "slate=#3d4a57,slate=#3d4a57", "é=#ffffff",
    ",".join(f"y{n}=#{n * 4000:06x}" for n in range(70)),
)  # fmt: skip
VALUES = ("k", "p", "yo", "k2tog", "2/2 RC", "", "x", "é", "=A1", "12", "no stitch", "|", "k2togg")
MODES = ("1", "L", "LA", "P", "RGB", "RGBA", "CMYK", "I", "F", "I;16")
KINDS = ("PNG", "JPEG", "GIF", "BMP", "TIFF", "WEBP")


@dataclass(frozen=True, slots=True)
class Trial:
    """A command line, and the files it is run beside."""

    arguments: tuple[str, ...]
    files: Mapping[str, bytes]


def run_trial(trial: Trial) -> Result:
    """The command's result in a fresh folder."""
    with tempfile.TemporaryDirectory() as folder, _inside(folder):
        for name, data in trial.files.items():
            Path(name).parent.mkdir(parents=True, exist_ok=True)
            Path(name).write_bytes(data)
        with limited(SECONDS):
            return CliRunner().invoke(main, trial.arguments)


def fault(trial: Trial) -> str:
    """How the program failed; empty if it did not."""
    try:
        result = run_trial(trial)
    except Exception as error:
        return type(error).__name__
    if result.exception is not None and not isinstance(result.exception, SystemExit):
        return f"{type(result.exception).__name__} not caught"
    if found := re.search(r"command\.(?:fault|memory).*", result.output):
        place = re.search(r"failed with (\w+).*?\((\w+\.py), line (\d+)\)", result.output)
        return " ".join(place.groups()) if place else found[0]
    return "" if result.exit_code in (0, 1, 2) else f"exit code {result.exit_code}"


@contextmanager
def _inside(folder: str) -> Iterator[None]:
    before = os.getcwd()
    os.chdir(folder)
    try:
        yield
    finally:
        os.chdir(before)


# ---------------------------------------------------------------- what is tried


class Inventor:
    """Makes trials of sound patterns and chance."""

    def __init__(self, seed: int) -> None:
        self.dice = random.Random(seed)
        self.bases = sources()
        self.donors = Donors(texts_of(self.bases))

    def trial(self) -> Trial:
        """One command line with its files."""
        kinds: tuple[Callable[[], Trial], ...] = (
            self._compare, self._compare, self._plan, self._gauge, self._gauge, self._editions,
            self._from_image, self._from_image, self._preview, self._preview_grid, self._changes,
            self._from_sheet, self._from_sheet,
        )  # fmt: skip
        return self.dice.choice(kinds)()

    def _pattern(self, folder: str, base: Mapping[str, str] | None = None) -> dict[str, bytes]:
        """A pattern as the files of a folder; in one of three cases as it is."""
        files = base or self.dice.choice(self.bases)
        if self.dice.random() < 0.67:
            files = mutated(files, self.dice, self.donors)
        return {
            f"{folder}/{name}": data if isinstance(data, bytes) else data.encode("utf-8", "replace")
            for name, data in bytes_of(files).items()
        }

    def _some(self, *options: tuple[str, ...]) -> tuple[str, ...]:
        """Each option or not."""
        return tuple(part for option in options if self.dice.random() < 0.4 for part in option)

    def _compare(self) -> Trial:
        base = self.dice.choice(self.bases)
        other = base if self.dice.random() < 0.8 else None
        files = self._pattern("old", base) | self._pattern("new", other)
        return Trial(("compare", "old", "new", *self._some(("--json",))), files)

    def _plan(self) -> Trial:
        command = self.dice.choice(("plan", "check"))
        return Trial((command, "cap", *self._some(("--json",))), self._pattern("cap"))

    def _gauge(self) -> Trial:
        gauges = self.dice.sample(GAUGES, self.dice.choice((1, 1, 2)))
        asked = tuple(part for gauge in gauges for part in ("--gauge", gauge))
        command = self.dice.choice((("compare", "cap"), ("build", "cap", "--out", "out")))
        return Trial((*command, *asked), self._pattern("cap"))

    def _editions(self) -> Trial:
        options = self._some(
            ("--size", self.dice.choice(SIZES)),
            ("--size", "S"),
            ("--card",),
            ("--paper", "letter"),
            ("--grey",),
            ("--gauge", self.dice.choice(GAUGES)),
        )
        if self.dice.random() < 0.1:
            options = ("--all-editions",)
        return Trial(("build", "cap", "--out", "out", *options), self._pattern("cap"))

    def _changes(self) -> Trial:
        base = self.dice.choice(self.bases)
        files = self._pattern("old/cap", base) | self._pattern("cap", base)
        return Trial(("build", "cap", "--out", "out", "--changes", "old/cap"), files)

    def _image(self) -> bytes:
        dice, mode, kind = self.dice, self.dice.choice(MODES), self.dice.choice(KINDS)
        sides = dice.choice(((1, 1), (40, 30), (3, 400), (400, 3), (120, 90)))
        noise = Image.effect_noise(sides, 80)
        out = io.BytesIO()
        try:
            made = noise.convert("RGBA").convert(mode)
            made.save(out, kind)
        except (OSError, ValueError, KeyError):
            noise.save(out, "PNG")
        data = out.getvalue()
        if dice.random() < 0.6:
            data = picture(data.decode("latin-1"), dice).encode("latin-1", "replace")
        return data

    def _from_image(self) -> Trial:
        files = {"p.png": self._image()} | self._pattern("cap")
        stitches = self.dice.choice(("1", "8", "24", "60", "1000", "0", "-4", "1001", "x"))
        options = self._some(
            ("--yarns", self.dice.choice(YARNS)),
            ("--yarns", YARNS[0]),
            ("--pattern", "cap"),
            ("--gauge", self.dice.choice(GAUGES)),
            ("--background", self.dice.choice(("slate", "foam", "x", ""))),
            ("--mirror",),
            ("--clean",),
            ("--out", self.dice.choice(("a.grid", "no/a.grid", "cap", "cap/waves.grid"))),
            ("--force",),
        )
        counts = self._some(("--stitches", stitches), ("--stitches", "24"), ("--rounds", stitches))
        lines = self._some(("--lines", self.dice.choice(("auto", "none", "x"))))
        return Trial(("grid", "from-image", "p.png", *counts, *lines, *options), files)

    def _sheet(self) -> tuple[str, bytes]:
        """A spreadsheet's name and bytes: sound, or with a part of it damaged."""
        dice = self.dice
        wide, high = dice.choice(((1, 1), (8, 12), (40, 3), (3, 40)))
        rows = [[dice.choice(VALUES) for _ in range(wide)] for _ in range(high)]
        if dice.random() < 0.4:
            data = "\n".join(dice.choice(",;\t").join(row) for row in rows).encode(
                dice.choice(("utf-8", "utf-16", "utf-8-sig")), "replace"
            )
            return "p.csv", self._damaged(data) if dice.random() < 0.5 else data
        book = Workbook()
        sheet = book.active
        assert sheet is not None
        for y, row in enumerate(rows, start=1):
            for x, value in enumerate(row, start=1):
                sheet.cell(y, x).value = value or None
                if dice.random() < 0.5:
                    colour = Color(theme=dice.randrange(14), tint=dice.uniform(-1, 1))
                    fill = dice.choice(
                        (Color("FF3D4A57"), Color(indexed=dice.randrange(70)), colour)
                    )
                    plain = dice.random() < 0.7
                    sheet.cell(y, x).fill = PatternFill("solid" if plain else "darkGrid", fill)
        if dice.random() < 0.1:
            book.create_sheet("Crown")
        out = io.BytesIO()
        book.save(out)
        return "p.xlsx", self._repacked(out.getvalue()) if dice.random() < 0.6 else out.getvalue()

    def _damaged(self, data: bytes) -> bytes:
        return picture(data.decode("latin-1"), self.dice).encode("latin-1", "replace")

    def _repacked(self, data: bytes) -> bytes:
        """A workbook with one of its parts damaged, or missing; or damaged as a whole."""
        if self.dice.random() < 0.3:
            return self._damaged(data)
        with zipfile.ZipFile(io.BytesIO(data)) as file:
            parts = {info.filename: file.read(info) for info in file.infolist()}
        name = self.dice.choice(list(parts))
        parts[name] = self._damaged(parts[name])
        if self.dice.random() < 0.2:
            del parts[name]
        out = io.BytesIO()
        with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as file:
            for name, part in parts.items():
                file.writestr(name, part)
        return out.getvalue()

    def _from_sheet(self) -> Trial:
        name, data = self._sheet()
        options = self._some(
            ("--yarns", self.dice.choice(YARNS)),
            ("--pattern", "cap"),
            ("--by", self.dice.choice(("value", "fill"))),
            ("--empty", self.dice.choice(("k", "slate", "", "|", "k2togg"))),
            ("--range", self.dice.choice(("A1:C3", "B2:ZZ9", "C3:A1", "A1:XFD1048576", "x"))),
            ("--sheet", self.dice.choice(("Sheet", "Crown", ""))),
        )
        return Trial(("grid", "from-sheet", name, *options), {name: data} | self._pattern("cap"))

    def _preview(self) -> Trial:
        options = self._some(
            ("--chart", self.dice.choice(("waves", "rope", "light", "lace", "x", ""))),
            ("--gauge", self.dice.choice(GAUGES)),
            ("--across", self.dice.choice(("1", "3", "100", "0", "x"))),
            ("--up", self.dice.choice(("1", "2", "100"))),
            ("--width", self.dice.choice(("1", "300", "0", "-1", "100000"))),
        )
        return Trial(("grid", "preview", "cap", "--out", "a.png", *options), self._pattern("cap"))

    def _preview_grid(self) -> Trial:
        files = self._pattern("cap")
        grids = [name for name in files if name.endswith(".grid")] or ["cap/none.grid"]
        options = self._some(
            ("--yarns", self.dice.choice(YARNS)),
            ("--pattern", "cap"),
            ("--gauge", self.dice.choice(GAUGES)),
            ("--across", "2"),
        )
        command = ("grid", "preview", self.dice.choice(grids), "--out", "a.png")
        return Trial((*command, *options), files)


def smallest(trial: Trial, name: str, seconds: float = 40) -> Trial:
    """The trial with as few lines in its patterns as still fail in the same way."""
    files, end = dict(trial.files), time.monotonic() + seconds
    for file in [each for each in files if each.endswith((".yaml", ".grid"))]:
        for size in (32, 8, 2, 1):
            at, lines = 0, files[file].split(b"\n")
            while at < len(lines) and time.monotonic() < end:
                shorter = lines[:at] + lines[at + size :]
                tried = files | {file: b"\n".join(shorter)}
                if fault(Trial(trial.arguments, tried)) == name:
                    lines, files = shorter, tried
                else:
                    at += size
    return Trial(trial.arguments, files)


def run(count: int, seed: int, tell: bool = False) -> tuple[Counter[str], dict[str, Trial]]:
    """How often each command ended how, and a smallest trial of each way to fail."""
    inventor, ends, finds = Inventor(seed), Counter[str](), dict[str, Trial]()
    for number in range(count):
        trial = inventor.trial()
        name = fault(trial)
        ends[f"{trial.arguments[0]}: {name or 'told'}"] += 1
        if name and name not in finds:
            finds[name] = smallest(trial, name)
            if tell:
                _tell(number, name, finds[name])
        if tell and (number + 1) % TOLD_EVERY == 0:
            print(f"{number + 1} runs, {time.process_time():.0f} s", dict(ends), flush=True)
    return ends, finds


def _tell(number: int, name: str, trial: Trial) -> None:
    print(f"{number}: {name}: {' '.join(trial.arguments)}", flush=True)
    for file, data in trial.files.items():
        print(f"--- {file}\n{data[:6000]!r}", flush=True)


if __name__ == "__main__":
    resource.setrlimit(resource.RLIMIT_AS, (MEMORY, MEMORY))
    reached, found = run(int(sys.argv[1]), int(sys.argv[2]), tell=True)
    print(f"seed {sys.argv[2]}: {sys.argv[1]} runs", dict(reached.most_common()))
    print(f"{len(found)} finds, {time.process_time():.0f} s of the processor")
