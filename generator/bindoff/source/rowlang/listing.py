"""``bindoff words``: every word a row knows, and what one of them is, as text or as plain data."""

import textwrap
from collections.abc import Iterator
from itertools import groupby
from typing import Any

from bindoff import regex as re
from bindoff.craft.book import Act, Caution, Craft, Lean, Side, Stitch, StitchBook
from bindoff.english import capital
from bindoff.source.rowlang.sayings import SAYINGS, Saying
from bindoff.source.rowlang.vocabulary import Vocabulary, change

_WIDTH = 88
_INDENT = "    "

Entry = Stitch | Act | Saying | Caution


def all_words(book: StitchBook) -> str:
    """Every stitch by family, then crosses, ways to work, and what holds a row together."""
    lines = [
        f"Words that rows know, crochet in {book.terms} terms. `bindoff words WORD` explains one.",
    ]
    for family, stitches in groupby(book.stitches, key=lambda stitch: stitch.family):
        lines += ["", f"{capital(family)}:"]
        for stitch in stitches:
            lines += _wrapped(f"{_names(stitch, book)}: {stitch.wording(book.terms).name}")
    lines += ["", "Crosses:"]
    lines += _wrapped(
        "2/1 RC, 2/1 LC, 2/1 RPC, 2/1 LPC: the first number crosses in front, to the right or the "
        "left; P purls those behind, and W at the end is the form of a wrong-side row"
    )
    lines += _wrapped(
        "2/1/2 RC, 2/1/2 LPC: the first and the last change places around those in the middle"
    )
    lines += _wrapped("c4f, c4b: 2/2 LC, 2/2 RC")
    lines += ["", "Ways to work a stitch, and things done between stitches:"]
    for act in book.acts:
        words = act.wording(book.terms)
        also = f", {', '.join(act.aliases)}" if act.aliases else ""
        lines += _wrapped(f"{words.abbreviation}{also}: {words.name}")
    lines += ["", "What holds a row together:"]
    for saying in SAYINGS:
        also = f"; also {', '.join(others)}" if (others := _not_shown(saying)) else ""
        lines += _wrapped(f"{saying.example}: {saying.meaning}{also}")
    lines += ["", "Words that are not read, because they can mean several things or no stitch:"]
    lines += _wrapped(", ".join(caution.word for caution in book.cautions))
    return "\n".join(lines)


def all_data(book: StitchBook) -> dict[str, list[dict[str, Any]]]:
    """All of them for ``json.dumps``."""
    return {
        "stitches": [_stitch_data(stitch, book) for stitch in book.stitches],
        "acts": [_data(act, book) for act in book.acts],
        "sayings": [_data(saying, book) for saying in SAYINGS],
        "not read": [_data(caution, book) for caution in book.cautions],
    }


def entries(word: str, book: StitchBook) -> tuple[Entry, ...]:
    """What a row can mean by ``word``: a stitch, an act, sayings with it, or why it is not read."""
    plain = " ".join(word.lower().split())
    found: list[Entry] = []
    said = Vocabulary(book, {}).stitch(plain) if plain else None
    if said:
        found.append(book.worked(said.stitch.id, said.how))
    elif caution := book.caution(plain):
        return (caution,)
    if act := book.act(plain):
        found.append(act)
    examples = (saying for saying in SAYINGS if plain in (*saying.words, saying.example))
    return (*found, *examples) if not (said or act) else tuple(found)


def explained(entry: Entry, book: StitchBook) -> str:
    """One entry for a reader."""
    if isinstance(entry, Stitch):
        return "\n".join(_stitch_lines(entry, book))
    data = _data(entry, book)
    lines = textwrap.wrap(f"{data['word']}: {data['is']}", _WIDTH, subsequent_indent=_INDENT)
    if "do" in data:
        lines += _wrapped(f"{data['do']}.")
    return "\n".join(lines)


def as_data(entry: Entry, book: StitchBook) -> dict[str, Any]:
    """One entry for ``json.dumps``."""
    return _stitch_data(entry, book) if isinstance(entry, Stitch) else _data(entry, book)


# ---------------------------------------------------------------- stitches


def _stitch_lines(stitch: Stitch, book: StitchBook) -> Iterator[str]:
    words = stitch.wording(book.terms)
    yield f"{words.abbreviation}: {words.name}"
    yield from _wrapped(stitch.how_to)
    yield from _wrapped(f"{capital(change(stitch))}.")
    yield from _wrapped(_across_the_sea(stitch, book))
    yield from _wrapped(_leans(stitch))
    for side in Side:
        shown = book.showing(stitch, side)
        if shown.id != stitch.id:
            yield from _wrapped(f"To show it, a {_row(side)} works: {_told(shown, book)}.")
    if stitch.mirror:
        yield from _wrapped(f"Mirror partner: {_told(book.mirrored(stitch), book)}.")
    if stitch.symbol:
        cells = "1 cell" if stitch.cells == 1 else f"{stitch.cells} cells"
        yield from _wrapped(
            f"Chart symbol: `{stitch.symbol.name}`, {stitch.symbol.picture}, {cells}."
        )
    if stitch.takes:
        yield from _wrapped(f"May be followed by: {', '.join(stitch.takes)}.")
    also = [name for name in stitch.names(book.terms) if name != words.abbreviation.lower()]
    if also:
        yield from _wrapped(f"Also written: {', '.join(also)}.")


def _across_the_sea(stitch: Stitch, book: StitchBook) -> str:
    """What the other terms call a crochet stitch, and what they mean by its name here."""
    if stitch.craft is not Craft.CROCHET:
        return ""
    there = book.terms.other
    short, word = _short(stitch, book), stitch.wording(there).abbreviation
    if short == word:
        return ""
    other = book.elsewhere(short.lower())
    warning = f"; there `{short}` is what is {_short(other, book)} here" if other else ""
    return f"In {there} terms: {word}{warning}."


def _leans(stitch: Stitch) -> str:
    ways = [(lean, side) for side in Side if (lean := stitch.leans(side))]
    if not ways:
        return ""
    if len({lean for lean, _ in ways}) == 1:
        return f"Seen from the right side: leans {_towards(ways[0][0])}, whichever side is worked."
    said = ", ".join(f"{_towards(lean)} when worked on the {side}" for lean, side in ways)
    return f"Seen from the right side: leans {said}."


def _stitch_data(stitch: Stitch, book: StitchBook) -> dict[str, Any]:
    words = stitch.wording(book.terms)
    return {
        "word": words.abbreviation,
        "is": words.name,
        "family": stitch.family,
        "how": stitch.how_to,
        "uses": stitch.consumes,
        "makes": stitch.produces,
        "leans": {side.value: lean for side in Side if (lean := stitch.leans(side))},
        "shown by": {side.value: _short(book.showing(stitch, side), book) for side in Side},
        "mirror": _short(book.mirrored(stitch), book),
        "symbol": stitch.symbol.name if stitch.symbol else None,
        "cells": stitch.cells,
        "followed by": list(stitch.takes),
        "names": list(stitch.names(book.terms)),
    }


def _names(stitch: Stitch, book: StitchBook) -> str:
    short = stitch.wording(book.terms).abbreviation
    also = [name for name in stitch.names(book.terms) if name != short.lower()]
    return ", ".join((short, *also))


def _short(stitch: Stitch, book: StitchBook) -> str:
    return stitch.wording(book.terms).abbreviation


def _told(stitch: Stitch, book: StitchBook) -> str:
    return f"{_short(stitch, book)} ({stitch.wording(book.terms).name})"


def _row(side: Side) -> str:
    return "right-side row" if side is Side.RIGHT else "wrong-side row"


def _towards(lean: Lean) -> str:
    return "neither way" if lean is Lean.CENTRED else f"to the {lean}"


# ---------------------------------------------------------------- other words


def _data(entry: Act | Saying | Caution, book: StitchBook) -> dict[str, Any]:
    match entry:
        case Act():
            words = entry.wording(book.terms)
            return {"word": words.abbreviation, "is": words.name, "do": entry.how_to.rstrip(".")}
        case Saying():
            return {"word": entry.example, "is": entry.meaning}
        case Caution():
            return {"word": entry.word, "is": entry.why, "do": entry.help}


def _not_shown(saying: Saying) -> list[str]:
    """The words of a saying that its example does without."""
    shown = re.findall(r"[a-z&]+", saying.example)
    return [word for word in saying.words if word not in shown]


def _wrapped(words: str) -> list[str]:
    return textwrap.wrap(words, _WIDTH, initial_indent=_INDENT, subsequent_indent=_INDENT)
