"""A chart begun from a form: an empty grid, and the lines of the source that name it.

Nothing is written to the disk: the page takes both as what one has typed, to be undone or saved.
"""

import json
from collections.abc import Iterator, Mapping
from typing import Any

from bindoff.craft.book import StitchBook
from bindoff.desk.edits import Edit
from bindoff.desk.proofs import Proof
from bindoff.desk.workplace import folder_name
from bindoff.diagnostics import Diagnostic, PatternError, Span
from bindoff.records import Record, replace
from bindoff.source.chart import NO_STITCH
from bindoff.source.grid import MAX_SIDE, MAX_STITCHES
from bindoff.source.sheetgrid import Known, characters

_OFFERED = ("k", "p", "yo", "k2tog", "ssk", "cdd", "m1l", "m1r", "sl1", NO_STITCH)
_MOST_MEANINGS = 40


class NewChart(Record):
    """An empty grid in the file ``file``, and the changes of the source that name it."""

    file: str
    text: str
    edits: tuple[Edit, ...]


def chart_choices(proof: Proof) -> dict[str, Any]:
    """What the form offers: the yarns of the pattern, and stitches that charts often have."""
    book = proof.plan.book
    offered = [name for name in _OFFERED if name == NO_STITCH or book.find(name)]
    return {
        "yarns": [
            {"key": key, "name": yarn.name, "colour": yarn.colour}
            for key, yarn in proof.source.pattern.yarns.items()
        ],
        "stitches": [{"key": name, "name": _words(book, name)} for name in offered],
    }


def _words(book: StitchBook, name: str) -> str:
    stitch = book.find(name)
    return name if stitch is None else stitch.wording(book.terms).name


def new_chart(proof: Proof, wishes: Mapping[str, Any]) -> NewChart:
    """The chart that the answers of the form describe; its cells are all the first meaning.

    Raises ``PatternError`` that names every answer that can't be used.
    """
    answers = _Answers(proof, wishes)
    title, alt = answers.words("title", "the title"), answers.words("alt", "what the chart shows")
    wide = answers.count("stitches", "the number of stitches")
    high = answers.count("rounds", "the number of rounds")
    meanings = answers.meanings()
    key = answers.key(title)
    if wide * high > MAX_STITCHES:
        answers.fault(f"the chart has more than {MAX_STITCHES} stitches", "Make it smaller")
    if answers.faults:
        raise PatternError(answers.faults)
    known = _known(proof)
    if "." not in known.signs.values() and meanings[0] not in known.signs:
        known = replace(known, signs={**known.signs, meanings[0]: "."})  # the ground, by custom
    signs = characters(meanings, known)
    legend = ", ".join(f"{_quoted(signs[each])}: {_plain(each)}" for each in meanings)
    file = f"{key}.grid"
    entry = (
        f"title: {_quoted(title)}",
        f"grid: {file}",
        f"legend: {{{legend}}}",
        f"alt: {_quoted(alt)}",
    )
    text = f"{signs[meanings[0]] * wide}\n" * high
    return NewChart(file, text, tuple(_naming(proof, key, entry)))


def _known(proof: Proof) -> Known:
    """The characters that the pattern's charts have for what they name so far."""
    pattern, book = proof.source.pattern, proof.plan.book
    known = {
        meaning: sign
        for chart in reversed(pattern.charts.values())
        for sign, meaning in chart.legend.items()
        if isinstance(meaning, str)
    }

    def stitch_of(value: str) -> tuple[str, int] | None:
        found = book.find(value)
        return (value, found.cells) if found else None

    return Known({key: key for key in pattern.yarns}, stitch_of, known)


def _naming(proof: Proof, key: str, entry: tuple[str, ...]) -> Iterator[Edit]:
    """The change that puts the chart behind those there are, or before the pieces."""
    whole = proof.source.pattern.place
    lines = whole.lines
    if "charts" not in whole.node.children:
        block = "".join(f"    {each}\n" for each in entry)
        yield _at(whole.of("pieces").key_span.file, whole.of("pieces").key_span.line, 1,
                  f"charts:\n  {key}:\n{block}")  # fmt: skip
        return
    charts = whole.of("charts")
    if charts.text.startswith("{"):
        end = charts.span
        comma = ", " if charts.node.children else ""
        flow = f"{comma}{key}: {{{', '.join(entry)}}}"
        yield _at(end.file, end.end_line, end.end_column - 1, flow)
        return
    children = list(charts.node.children.values())
    column = charts.of(next(iter(charts.node.children))).key_span.column
    last = lines.number(max(child.end - 1 for child in children))
    indent = " " * (column - 1)
    block = "".join(f"\n{indent}  {each}" for each in entry)
    yield _at(charts.span.file, last + 1, len(lines.line(last)) + 1, f"\n{indent}{key}:{block}")


def _at(file: str, line: int, column: int, text: str) -> Edit:
    return Edit(Span(file, line, column, line, column), text)


class _Answers:
    """The answers of the form, and what is wrong with them."""

    def __init__(self, proof: Proof, wishes: Mapping[str, Any]) -> None:
        self._proof, self._wishes = proof, wishes
        self.faults: list[Diagnostic] = []

    def fault(self, message: str, help: str) -> None:
        """Remember what is wrong."""
        self.faults.append(Diagnostic("desk.answer", message, help))

    def words(self, name: str, said: str) -> str:
        """A line of text."""
        words = " ".join(str(self._wishes.get(name) or "").split())
        if not words or len(words) > 300 or not words.isprintable():
            self.fault(f"{said} is missing", "Write it in a few words; all can be changed")
        return words

    def count(self, name: str, said: str) -> int:
        """A number of cells."""
        answer = self._wishes.get(name)
        text = str(answer if answer is not None else "").strip()
        number = int(text) if text.isascii() and text.isdigit() and len(text) < 6 else 0
        if not 1 <= number <= MAX_SIDE:
            self.fault(f"{said} is none", f"Write a whole number from 1 to {MAX_SIDE}")
        return max(number, 1)

    def meanings(self) -> list[str]:
        """What the characters are to stand for, each once, the ground first."""
        given = self._wishes.get("legend")
        names = [str(each).strip() for each in given] if isinstance(given, list) else []
        found = list(dict.fromkeys(each for each in names if each))[:_MOST_MEANINGS]
        book, yarns = self._proof.plan.book, self._proof.source.pattern.yarns
        for each in found:
            if each not in yarns and each != NO_STITCH and book.find(each) is None:
                self.fault(
                    f"`{each[:40]}` is neither a yarn of the pattern nor a stitch that is known",
                    "Write stitches as the pattern's rows do, with commas between them",
                )
        if not found:
            self.fault("there is nothing to paint with", "Choose yarns or stitches")
        return found or [""]

    def key(self, title: str) -> str:
        """What the chart is called in the source and its file on the disk: after its title."""
        key = folder_name(title)
        if not title:
            return ""  # said already
        taken = key in self._proof.source.pattern.charts or self._proof.files.exists(f"{key}.grid")
        if not key or not key[0].isalpha():
            self.fault("no file can be named after the title", "Begin the title with a letter")
        elif taken:
            self.fault(f"there is a chart or a grid `{key}` already", "Give it another title")
        return key


def _quoted(words: str) -> str:
    """Words as YAML reads them back whatever is in them: a JSON text is a YAML text."""
    return json.dumps(words, ensure_ascii=False)


def _plain(words: str) -> str:
    """A name as it is where it can be read as nothing else."""
    plain = words.replace("_", "").replace(" ", "")
    safe = plain.isascii() and plain.isalnum() and words[0].isalpha()
    return words if safe and words.lower() not in _WORDS else _quoted(words)


_WORDS = ("yes", "no", "on", "off", "y", "n", "true", "false", "null")
