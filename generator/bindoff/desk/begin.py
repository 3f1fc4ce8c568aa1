"""A first pattern from the answers of a form: a commented source that is hers from then on."""

import json
import re
from collections.abc import Iterable, Mapping
from typing import Any

from bindoff.craft.bodies import Dimension, body
from bindoff.craft.yarn_weights import YARN_WEIGHTS
from bindoff.diagnostics import Diagnostic, PatternError
from bindoff.files import SOURCE_NAME, packaged_template
from bindoff.records import Record

_GRID = "waves.grid"
_LONGEST = 200  # characters of an answer
_MOST_SIZES = 12

Wishes = Mapping[str, Any]


class _Kind(Record):
    """What can be begun: its name in the form, what is measured, and how it is made."""

    name: str
    dimension: Dimension
    machine: bool
    summary: str
    skill: str
    gauge: tuple[float, float]
    worked: str
    tool: str
    tools: tuple[tuple[str, str], ...]
    notions: tuple[str, ...] = ("1 marker for the start of the round",)
    grid: bool = False


_KINDS: Mapping[str, _Kind] = {
    "hand-hat": _Kind(
        "a hat, knitted by hand",
        Dimension.HEAD,
        False,
        "A hat with a ribbed brim in a second {color}.",
        "Easy. You knit and purl in the round and decrease.",
        (20, 28),
        "{plain} in the round",
        "4.5 mm needle",
        (
            ("{tool}, circular, 40 cm (16 in) long", "brim and body"),
            ("set of double-pointed needles of the same size", "crown"),
            ("blunt tapestry needle", "ends"),
        ),
    ),
    "hand-cowl": _Kind(
        "a cowl, knitted by hand",
        Dimension.NECK,
        False,
        "A cowl with a band of waves.",
        "Easy. You knit and purl in the round and carry two {color}s.",
        (20, 28),
        "{plain} in the round",
        "4.5 mm needle",
        (
            ("{tool}, circular, 60 cm (24 in) long", "throughout"),
            ("blunt tapestry needle", "ends"),
        ),
        grid=True,
    ),
    "machine-cowl": _Kind(
        "a cowl from a circular knitting machine",
        Dimension.NECK,
        True,
        "A double cowl, cranked as one long tube with a stripe near each end.",
        "Easy. You know your machine and how to crochet a slip stitch.",
        (8.8, 12.4),
        "plain tube from the machine",
        "middle tension",
        (
            ("circular knitting machine with {needles} needles", "cowl"),
            ("5 mm crochet hook", "joining"),
            ("blunt tapestry needle", "ends"),
        ),
        ("Smooth waste yarn in a contrasting {color}", "2 markers for the half rounds"),
    ),
}

# A size for each of a few bodies. Small children can be hurt by what hangs around their necks.
_SIZES: Mapping[Dimension, Mapping[str, tuple[tuple[str, str], ...]]] = {
    Dimension.HEAD: {
        "adult": (("S", "woman S"), ("M", "woman M"), ("L", "man M")),
        "child": (("2 years", "2 years"), ("4 years", "4 years"), ("8 years", "child 8-10")),
        "infant": (("3 months", "3 months"), ("6 months", "6 months"), ("12 months", "12 months")),
    },
    Dimension.NECK: {"adult": (("M", "woman M"), ("L", "man M"))},
}
_WORDS: Mapping[str, Mapping[str, str]] = {
    "US": {"color": "color", "plain": "stockinette"},
    "UK": {"color": "colour", "plain": "stocking stitch"},
}
_ROOM = {Dimension.HEAD: (200, 900), Dimension.NECK: (100, 700)}  # mm


def choices() -> dict[str, Any]:
    """What the form offers, with the bodies of the program's own tables in cm."""
    return {
        "kinds": [
            {
                "id": id,
                "name": kind.name,
                "measure": kind.dimension.value,
                "machine": kind.machine,
                "stitches": kind.gauge[0],
                "rounds": kind.gauge[1],
                "tool": kind.tool,
                "sizes": {
                    wearer: [
                        {"name": name, "cm": _figure(like, kind.dimension)} for name, like in sizes
                    ]
                    for wearer, sizes in _SIZES[kind.dimension].items()
                },
            }
            for id, kind in _KINDS.items()
        ],
        "weights": [{"number": each.number, "name": each.name} for each in YARN_WEIGHTS],
    }


def _figure(like: str, dimension: Dimension) -> float | None:
    found = body(like).figure(dimension)
    return None if found is None else found.mm / 10


def first_pattern(wishes: Wishes) -> tuple[str, dict[str, str]]:
    """The title, and the files of the pattern by their names.

    Raises ``PatternError`` (id ``desk.answer``) with a finding for every answer that can't be used.
    """
    form = _Form(wishes)
    title = form.words("title", "the title")
    designer = form.words("designer", "your name")
    kind = _KINDS.get(str(wishes.get("kind")), _KINDS["hand-hat"])
    wearer = form.one_of("wearer", "for whom it is", tuple(_SIZES[kind.dimension]))
    contact = form.words("contact", "the contact") if wishes.get("contact") else ""
    terms = form.one_of("terms", "the words", ("US", "UK"))
    units = form.one_of("units", "the units", ("both", "metric", "imperial"))
    date = form.day("date")
    stitches = form.number("stitches", "the stitches of the gauge", 1, 100)
    rounds = form.number("rounds", "the rounds of the gauge", 1, 150)
    tool = form.words("tool", "the needle or the tension")
    needles = form.number("needles", "the needles of the machine", 8, 400) if kind.machine else 0
    sizes = form.sizes(kind.dimension)
    yarns = form.yarns()
    form.refuse()
    words = _WORDS[terms]
    values = {
        "TITLE": _quoted(title),
        "DESIGNER": _quoted(designer),
        "DATE": date,
        "COLOR": words["color"],
        "SUMMARY": _quoted(kind.summary.format_map(words)),
        "SKILL": _quoted(kind.skill.format_map(words)),
        "CONTACT": f"contact: {_quoted(contact)}" if contact else "# contact: you@example.com",
        "WEARER": wearer,
        "TERMS": terms,
        "UNITS": units,
        "MADE": f"{{by: machine, needles: {needles:g}}}" if kind.machine else "{by: hand}",
        "STITCHES": f"{stitches:g}",
        "ROUNDS": f"{rounds:g}",
        "WORKED": kind.worked.format_map(words),
        "TOOL": _quoted(tool),
        "YARNS": "\n".join(yarns),
        "TOOLS": "\n".join(
            f"  - {{name: {_quoted(name.format(tool=tool, needles=f'{needles:g}'))}, use: {use}}}"
            for name, use in kind.tools
        ),
        "NOTIONS": "\n".join(f"  - {each.format_map(words)}" for each in kind.notions),
        "SIZES": "\n".join(sizes),
    }
    id = next(id for id, each in _KINDS.items() if each is kind)
    head = packaged_template("start/head.yaml") or ""
    rest = packaged_template(f"start/{id}.yaml") or ""
    source = re.sub("@([A-Z]+)@", lambda found: values[found[1]], head + rest)
    files = {SOURCE_NAME: source}
    if kind.grid:
        files[_GRID] = packaged_template(f"start/{_GRID}") or ""
    return title, files


class _Form:
    """The answers, and what is wrong with them."""

    def __init__(self, wishes: Wishes) -> None:
        self._wishes = wishes
        self._faults: list[Diagnostic] = []

    def refuse(self) -> None:
        """Raise ``PatternError`` if anything is wrong."""
        if self._faults:
            raise PatternError(self._faults)

    def _fault(self, message: str, help: str) -> None:
        self._faults.append(Diagnostic("desk.answer", message, help))

    def words(self, name: str, said: str) -> str:
        """One line of words that is not empty."""
        words = " ".join(str(self._wishes.get(name) or "").split())
        if not words or len(words) > _LONGEST or not words.isprintable():
            self._fault(f"{said} is missing or too long", "Write a few words; all can be changed")
        return words

    def one_of(self, name: str, said: str, known: tuple[str, ...]) -> str:
        """One of the answers that the form offers."""
        answer = self._wishes.get(name)
        if answer not in known:
            self._fault(f"{said} is not chosen", f"Choose one of {', '.join(known)}")
        return str(answer)

    def day(self, name: str) -> str:
        """A day as year-month-day."""
        day = str(self._wishes.get(name) or "")
        if not re.fullmatch(r"[0-9]{4}-[0-9]{2}-[0-9]{2}", day):
            self._fault("the date is none", "Write it as year-month-day")
        return day

    def number(self, name: str, said: str, least: float, most: float) -> float:
        """A number in its room; a comma is read as a point."""
        return self._figure(self._wishes.get(name), said, least, most)

    def _figure(self, answer: Any, said: str, least: float, most: float) -> float:
        text = str(answer if answer is not None else "").strip().replace(",", ".")
        number = float(text) if re.fullmatch(r"[0-9]{1,6}(\.[0-9]{1,4})?", text) else -1.0
        if not least <= number <= most:
            self._fault(f"{said} is no number", f"Write one from {least:g} to {most:g}")
        return number

    def _rows(self, name: str) -> list[Mapping[str, Any]]:
        rows = self._wishes.get(name)
        return [each for each in rows if isinstance(each, dict)] if isinstance(rows, list) else []

    def sizes(self, dimension: Dimension) -> Iterable[str]:
        """A line for each size."""
        least, most = (each / 10 for each in _ROOM[dimension])
        lines: dict[str, str] = {}
        for row in self._rows("sizes")[:_MOST_SIZES]:
            name = " ".join(str(row.get("name") or "").split())[:_LONGEST]
            if not name:
                continue
            cm = self._figure(row.get("cm"), f"the {dimension.value} of size {name}", least, most)
            lines[name] = f"  {_quoted(name)}: {{{dimension.value}: {cm:g} cm}}"
        if not lines:
            self._fault("there is no size", "Give one size at least a name and a measure")
        return lines.values()

    def yarns(self) -> Iterable[str]:
        """A line for each of the two yarns."""
        rows = [*self._rows("yarns"), {}, {}]
        lines = []
        for key, row in zip(("main", "second"), rows, strict=False):
            name = " ".join(str(row.get("name") or "").split())[:_LONGEST]
            colour = str(row.get("colour") or "")
            if not name or not re.fullmatch("#[0-9a-fA-F]{6}", colour):
                self._fault(f"the {key} yarn has no name or no colour", "Give it both")
            weight = self._figure(row.get("weight"), f"the weight of the {key} yarn", 0, 7)
            grams = self._figure(row.get("grams"), f"the grams of a ball of {name}", 1, 5000)
            metres = self._figure(row.get("metres"), f"the metres of a ball of {name}", 1, 20000)
            fibre = " ".join(str(row.get("fibre") or "").split())[:_LONGEST]
            lines.append(
                f"  {key}: {{name: {_quoted(name)}, colour: {_quoted(colour)}, "
                f"weight: {weight:.0f}, fibre: {_quoted(fibre or '100 % wool')}, "
                f"ball: {grams:g} g = {metres:g} m}}"
            )
        return lines


def _quoted(words: str) -> str:
    """Words as YAML reads them back whatever is in them: a JSON text is a YAML text."""
    return json.dumps(words, ensure_ascii=False)
