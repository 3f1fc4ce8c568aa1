"""What a page asks about comments: all of them, one more, an answer, an end; and how they leave."""

from collections.abc import Iterator
from typing import Any

import msgspec

from bindoff import regex as re
from bindoff.commands.shared import Named
from bindoff.desk.asking import EDITIONS, Answer, RefusedError, number_of, text_of
from bindoff.desk.comments import (
    LONGEST,
    Comment,
    Reply,
    answered,
    closed,
    commented,
    find,
    placed,
    read_comments,
)
from bindoff.desk.proofnotes import as_list, with_notes
from bindoff.desk.proofs import Look, Proof, make_proof
from bindoff.diagnostics import Span
from bindoff.pipeline import build_pattern
from bindoff.records import replace
from bindoff.render.pdf.screen import Region

_LONGEST_NAME = 80
_NOWHERE = Region(0, 30.0, 30.0, 60.0, 50.0, Span("", 1, 1, 1, 1))


def changed_comments(pattern: Named, proof: Proof | None, asked: Answer) -> tuple[Comment, ...]:
    """The comments after what a page asks to do: ``add``, ``answer``, ``close`` or ``open`` one.

    A place for another one is known where the pattern was built.

    Raises ``PatternError`` for a file of comments that can't be read; ``OSError``.
    """
    do = text_of(asked, "do")
    if do == "add":
        if proof is None:
            raise RefusedError(409, "comments can be added when the pattern builds: mend it first")
        size = text_of(asked, "size")
        if size and size not in proof.source.sizes:
            raise RefusedError(400, "there is no such size")
        file = text_of(asked, "file")
        if not proof.files.exists(file):
            raise RefusedError(404, "there is no such file in the folder")
        at = placed(proof.plan, proof.files, file, number_of(asked, "line"), size)
        by, date, words = _signed(asked)
        return commented(pattern, replace(at, text=words, by=by, date=date))
    id = number_of(asked, "id")
    try:
        if do == "answer":
            by, date, words = _signed(asked)
            return answered(pattern, id, Reply(words, by, date))
        if do in ("close", "open"):
            return closed(pattern, id, do == "close")
    except KeyError:
        raise RefusedError(404, "there is no such comment") from None
    raise RefusedError(400, "a comment is added, answered, closed or opened again")


def _signed(asked: Answer) -> tuple[str, str, str]:
    """Who, on which day, and the words."""
    by, date, words = (
        text_of(asked, "by").strip(),
        text_of(asked, "date"),
        text_of(asked, "text").strip(),
    )
    if not words or len(words) > LONGEST or not _printable(words):
        raise RefusedError(400, f"a comment has 1 to {LONGEST} characters")
    if len(by) > _LONGEST_NAME or not _printable(by):
        raise RefusedError(400, "the name is too long")
    if not re.fullmatch(r"([0-9]{4}-[0-9]{2}-[0-9]{2})?", date):
        raise RefusedError(400, "the day is none")
    return by, date, words


def _printable(words: str) -> bool:
    return all(each.isprintable() or each == "\n" for each in words)


def comment_data(comments: tuple[Comment, ...], proof: Proof | None) -> list[dict[str, Any]]:
    """Comments as plain data, each with the place where it stands now; with none, and no word on
    it, where the pattern has not been built."""
    return [_data(each, proof) for each in comments]


def _data(comment: Comment, proof: Proof | None) -> dict[str, Any]:
    record: dict[str, Any] = msgspec.to_builtins(comment)
    if proof is None:
        return record | {"gone": False, "same": True, "file": "", "from": [1, 1], "to": [1, 1]}
    found = find(comment, proof.plan, proof.files)
    span = found.span if found else None
    return record | {
        "gone": found is None,
        "same": found is not None and found.same,
        "file": span.file.removeprefix(proof.files.display("")) if span else "",
        "from": [span.line, span.column] if span else [1, 1],
        "to": [span.end_line, span.end_column] if span else [1, 1],
    }


# ---------------------------------------------------------------- what leaves the desk


def listed_comments(pattern: Named) -> str:
    """The list of all comments; raises ``PatternError``."""
    from bindoff.source.read import read_source

    comments = read_comments(pattern.files)
    source = read_source(pattern.files, pattern.source, pattern.called)
    return as_list(source.pattern.title, source.pattern.version, comments)


def commented_pdf(pattern: Named, edition: str) -> bytes:
    """A copy of the saved pattern's PDF with its comments as notes; raises ``PatternError``."""
    look = Look(EDITIONS[edition])
    proof = make_proof(pattern.files, pattern.source, pattern.called, look)
    made = build_pattern(pattern.files, pattern.source, pattern.called, look.pdf)
    pdf = next(data for name, data in made.files.items() if name.endswith(".pdf"))
    notes = [(each, tuple(_regions(each, proof))) for each in read_comments(pattern.files)]
    return with_notes(pdf, notes, tuple(height for _, height in proof.screen.sizes))


def _regions(comment: Comment, proof: Proof) -> Iterator[Region]:
    """The strips of pages that show its place; the first page where none does."""
    found = find(comment, proof.plan, proof.files)
    shown = [
        region
        for region in proof.screen.regions
        if found
        and region.span.file == found.span.file
        and region.span.line <= found.span.line
        and (found.span.line, found.span.column) <= (region.span.end_line, region.span.end_column)
    ]
    narrow = min((each.span.end_line - each.span.line for each in shown), default=0)
    least = [each for each in shown if each.span.end_line - each.span.line == narrow]
    yield from least or [_NOWHERE]
