"""A first pattern from the answers of a form: one of the starters, with her words in its places.

Only values are changed, each where it stands, so the remarks of the starter stay beside them.
"""

import json
from collections.abc import Iterator, Mapping, Sequence
from functools import cache
from typing import Any

from bindoff import regex as re
from bindoff.commands.new import SOURCE, STARTERS, texts
from bindoff.craft.yarn_weights import YARN_WEIGHTS
from bindoff.diagnostics import Diagnostic, PatternError
from bindoff.source.yamltree import Place, YamlTree, read_yaml

_LONGEST = 300  # characters of an answer
_WEARERS = ("adult", "child", "infant")
_BALL = re.compile(r"([\d.]{1,9}) g = ([\d.]{1,9}) m")
_CENTIMETRES = re.compile(r"([\d.]{1,9}) cm")

# The starters are in US words; these are all that differ.
_UK_WORDS = (("stockinette", "stocking stitch"), ("color", "colour"), ("gray", "grey"))

Wishes = Mapping[str, Any]


class AnswersError(PatternError):
    """Answers that can't be used; ``places`` has for each finding the field that it is about, as
    ``title`` or ``yarns/0/name``."""

    def __init__(self, findings: Sequence[Diagnostic], places: Sequence[str]) -> None:
        super().__init__(findings)
        self.places = tuple(places)


@cache
def choices() -> dict[str, Any]:
    """What the form offers: each starter with what stands in it."""
    return {
        "kinds": [_kind(name) for name in STARTERS],
        "weights": [{"number": each.number, "name": each.name} for each in YARN_WEIGHTS],
    }


def _kind(name: str) -> dict[str, Any]:
    data = read_yaml(texts("", name)[SOURCE], SOURCE).data
    return {
        "id": name,
        "summary": data["summary"].split(". ")[0] + ".",
        "needles": data.get("made", {}).get("needles"),
        "gauge": {key: data["gauge"][key] for key in ("stitches", "rounds", "tool")},
        "sizes": [
            {"name": size, "measures": {key: _number(_CENTIMETRES, cm) for key, cm in body.items()}}
            for size, body in data["sizes"].items()
        ],
        "yarns": [
            {
                "key": key,
                **{part: yarn[part] for part in ("name", "colour", "weight", "fibre")},
                "grams": _number(_BALL, yarn["ball"]),
                "metres": _number(_BALL, yarn["ball"], 2),
            }
            for key, yarn in data["yarns"].items()
        ],
    }


def _number(pattern: re.Pattern[str], text: str, group: int = 1) -> str:
    found = pattern.match(text)
    return found[group] if found else ""


def first_pattern(wishes: Wishes) -> tuple[str, dict[str, str]]:
    """The title, and the files of the pattern by their names.

    Raises ``AnswersError`` (id ``desk.answer``) with a finding for every answer that can't be used.
    """
    form = _Form(wishes)
    kind = form.one_of("kind", "what to begin with", tuple(STARTERS))
    form.refuse()
    title = form.words("title", "the title")
    files = dict(texts("", kind))
    changes = list(_changes(form, title, read_yaml(files[SOURCE], SOURCE)))
    form.refuse()
    files[SOURCE] = _changed(files[SOURCE], changes, wishes.get("terms") == "UK")
    return title, files


Change = tuple[int, int, str]
"""The characters from, to, and what stands there instead."""


def _changes(form: "_Form", title: str, tree: YamlTree) -> Iterator[Change]:
    """Every value that the form gives, with its place in the starter."""

    def to(value: str, *path: str | int) -> Change:
        return _at(tree.at(path), value)

    data = tree.data
    yield to(_quoted(title), "title")
    yield to(_quoted(form.words("designer", "your name")), "designer")
    yield to(_quoted(form.words("summary", "what it is")), "summary")
    if form.has("contact"):
        yield to(_quoted(form.words("contact", "where readers can write to you")), "contact")
    yield to(form.day("date"), "date")
    yield to(f"[{form.one_of('wearer', 'for whom it is', _WEARERS)}]", "wearer")
    yield to(form.one_of("terms", "the words", ("US", "UK")), "terms")
    yield to(form.one_of("units", "the units", ("both", "metric", "imperial")), "units")
    yield to(form.number("stitches", "the stitches of the gauge", 1, 100), "gauge", "stitches")
    yield to(form.number("rounds", "the rounds of the gauge", 1, 150), "gauge", "rounds")
    yield to(_quoted(form.words("tool", "the needle or the tension")), "gauge", "tool")
    if "needles" in data.get("made", {}):
        needles = form.number("needles", "the needles of the machine", 8, 400)
        yield to(needles, "made", "needles")
    bodies = zip(data["sizes"], form.rows("sizes", len(data["sizes"])), strict=True)
    for at, (size, row) in enumerate(bodies):
        given = row.get("measures")
        measures = given if isinstance(given, dict) else {}
        for key in data["sizes"][size]:
            said, place = f"the {key} of size {size}", f"sizes/{at}/{key}"
            cm = form.figure(measures.get(key), said, 1, 300, place)
            yield to(f"{cm} cm", "sizes", size, key)
    yarns = zip(data["yarns"], form.rows("yarns", len(data["yarns"])), strict=True)
    for at, (key, row) in enumerate(yarns):
        place = f"yarns/{at}/"
        name = form.line(row.get("name"), f"the name of the yarn {key}", f"{place}name")
        yield to(_quoted(name), "yarns", key, "name")
        colour = form.colour(row.get("colour"), name, f"{place}colour")
        yield to(_quoted(colour), "yarns", key, "colour")
        weight = form.figure(row.get("weight"), f"the weight of {name}", 0, 7, f"{place}weight")
        yield to(weight, "yarns", key, "weight")
        fibre = form.line(row.get("fibre"), f"the fibre of {name}", f"{place}fibre")
        yield to(_quoted(fibre), "yarns", key, "fibre")
        said = f"of a ball of {name}"
        grams = form.figure(row.get("grams"), f"the grams {said}", 1, 5000, f"{place}grams")
        metres = form.figure(row.get("metres"), f"the meters {said}", 1, 20000, f"{place}metres")
        yield to(f"{grams} g = {metres} m", "yarns", key, "ball")


def _at(place: Place, value: str) -> Change:
    return place.node.start, place.node.end, value


def _changed(source: str, changes: list[Change], british: bool) -> str:
    """``source`` with its values changed, the last one first, and its own words in UK spelling."""
    parts: list[str] = []
    done = 0
    for start, end, value in sorted(changes):
        parts += [_in_words(source[done:start], british), value]
        done = end
    return "".join([*parts, _in_words(source[done:], british)])


def _in_words(text: str, british: bool) -> str:
    for us, uk in _UK_WORDS if british else ():
        text = re.sub(rf"\b{us}(?=s?\b)", uk, text)
    return text


class _Form:
    """The answers, and what is wrong with them; the place of a fault is that of its field."""

    def __init__(self, wishes: Wishes) -> None:
        self._wishes = wishes
        self._faults: list[Diagnostic] = []
        self._places: list[str] = []

    def refuse(self) -> None:
        """Raise ``AnswersError`` if anything is wrong."""
        if self._faults:
            raise AnswersError(self._faults, self._places)

    def _fault(self, message: str, help: str, place: str) -> None:
        self._faults.append(Diagnostic("desk.answer", message, help))
        self._places.append(place)

    def has(self, name: str) -> bool:
        """Whether there is any answer."""
        return bool(str(self._wishes.get(name) or "").strip())

    def words(self, name: str, said: str) -> str:
        """One line of words that is not empty."""
        return self.line(self._wishes.get(name), said, name)

    def line(self, answer: Any, said: str, place: str) -> str:
        """The same for an answer that stands in a row."""
        words = " ".join(str(answer or "").split())
        if not words:
            self._fault(f"{said} is missing", "Write a few words; all can be changed", place)
        elif len(words) > _LONGEST:
            self._fault(f"{said} is too long", f"Write at most {_LONGEST} characters", place)
        elif not words.isprintable():
            self._fault(f"{said} has a character that can't be seen", "Type it anew", place)
        return words

    def one_of(self, name: str, said: str, known: tuple[str, ...]) -> str:
        """One of the answers that the form offers."""
        answer = self._wishes.get(name)
        if answer not in known:
            self._fault(f"{said} is not chosen", f"Choose one of {', '.join(known)}", name)
        return str(answer)

    def day(self, name: str) -> str:
        """A day as year-month-day."""
        day = str(self._wishes.get(name) or "")
        if not re.fullmatch(r"[0-9]{4}-[0-9]{2}-[0-9]{2}", day):
            self._fault("the date is none", "Write it as year-month-day", name)
        return day

    def colour(self, answer: Any, name: str, place: str) -> str:
        """A colour as ``#rrggbb``."""
        colour = str(answer or "")
        if not re.fullmatch("#[0-9a-fA-F]{6}", colour):
            self._fault(f"the color of {name} is missing", "Choose one", place)
        return colour

    def number(self, name: str, said: str, least: float, most: float) -> str:
        """A number in its room; a comma is read as a point."""
        return self.figure(self._wishes.get(name), said, least, most, name)

    def figure(self, answer: Any, said: str, least: float, most: float, place: str) -> str:
        """The same for an answer that stands in a row."""
        text = str(answer if answer is not None else "").strip().replace(",", ".")
        number = float(text) if re.fullmatch(r"[0-9]{1,6}(\.[0-9]{1,4})?", text) else -1.0
        if not least <= number <= most:
            self._fault(f"{said} is no number", f"Write one from {least:g} to {most:g}", place)
        return f"{number:g}"

    def rows(self, name: str, count: int) -> list[Mapping[str, Any]]:
        """As many rows of answers as the starter has; an empty one for each that is missing."""
        given = self._wishes.get(name)
        known: list[Any] = given if isinstance(given, list) else []
        rows: list[Mapping[str, Any]] = [each for each in known if isinstance(each, dict)]
        return [*rows, *({} for _ in range(count))][:count]


def _quoted(words: str) -> str:
    """Words as YAML reads them back whatever is in them: a JSON text is a YAML text."""
    return json.dumps(words, ensure_ascii=False)
