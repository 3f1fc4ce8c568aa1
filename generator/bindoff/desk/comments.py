"""Comments on a pattern, kept beside it in ``proof.yaml``: each at a step, a measure or a line.

A comment finds its place again after the pattern has changed: at the step or the line that still
says what it said, the nearest if several do; else where it stood, marked as changed.
"""

import threading
from collections.abc import Callable, Iterator
from hashlib import sha256
from pathlib import Path

from bindoff.commands.shared import Named
from bindoff.desk.beside import read_list, write_list
from bindoff.desk.reckoning import holds
from bindoff.desk.workplace import COMMENTS
from bindoff.diagnostics import PatternError, Span, fail
from bindoff.files import Files
from bindoff.plan.plan import Plan
from bindoff.records import Record, replace

MOST = 500
LONGEST = 4000  # characters of a comment

_turn = threading.Lock()


class Reply(Record):
    """What somebody said of a comment, on a day written year-month-day."""

    text: str
    by: str = ""
    date: str = ""


class Comment(Record):
    """``at`` is its place in words; ``size`` is that of a number.

    ``piece`` and ``step`` (from 1), or ``measure`` or ``finished``, or ``file`` and ``line`` find
    the place again, with what the source ``said`` there.
    """

    id: int
    at: str
    text: str
    by: str = ""
    date: str = ""
    size: str = ""
    piece: str = ""
    step: int = 0
    measure: str = ""
    finished: str = ""
    file: str = ""
    line: int = 0
    said: str = ""
    answers: tuple[Reply, ...] = ()
    closed: bool = False


class Found(Record):
    """Where a comment stands now; ``same`` says whether its place still says what it said."""

    span: Span
    same: bool


def read_comments(files: Files) -> tuple[Comment, ...]:
    """All comments of a pattern, none where it has no such file.

    Raises ``PatternError`` (``desk.comments``, ``yaml.…``) for a file that holds something else.
    """
    found, start = read_list(files, COMMENTS, "comments", Comment, "desk.comments", "the comments")
    if len({each.id for each in found}) != len(found):
        raise fail(
            "desk.comments",
            "two comments have the same id",
            f"Mend `{COMMENTS}`: give one of them another number",
            start,
        )
    return found


def comments_digest(pattern: Named) -> str:
    """What tells whether the comments have changed; empty where there are none."""
    try:
        return sha256((pattern.files.folder / COMMENTS).read_bytes()).hexdigest()
    except OSError:
        return ""


def write_comments(folder: Path, comments: tuple[Comment, ...]) -> None:
    """Write them all, or nothing; raises ``OSError``."""
    write_list(folder, COMMENTS, "comments", comments, "id")


# ---------------------------------------------------------------- changes


def commented(pattern: Named, comment: Comment) -> tuple[Comment, ...]:
    """With one more comment, which gets the next number."""
    with _turn:
        known = read_comments(pattern.files)
        if len(known) >= MOST:
            raise fail("desk.comments", f"there are {MOST} comments", f"Clear `{COMMENTS}` out")
        number = max((each.id for each in known), default=0) + 1
        return _kept(pattern, (*known, replace(comment, id=number)))


def answered(pattern: Named, id: int, answer: Reply) -> tuple[Comment, ...]:
    """With an answer to the comment of that number; raises ``KeyError`` if there is none."""
    return _changed(pattern, id, lambda each: replace(each, answers=(*each.answers, answer)))


def closed(pattern: Named, id: int, now: bool) -> tuple[Comment, ...]:
    """With that comment closed, or open again; raises ``KeyError`` if there is none."""
    return _changed(pattern, id, lambda each: replace(each, closed=now))


def _changed(pattern: Named, id: int, change: Callable[[Comment], Comment]) -> tuple[Comment, ...]:
    with _turn:
        known = read_comments(pattern.files)
        if all(each.id != id for each in known):
            raise KeyError(id)
        return _kept(pattern, tuple(change(each) if each.id == id else each for each in known))


def _kept(pattern: Named, comments: tuple[Comment, ...]) -> tuple[Comment, ...]:
    write_comments(pattern.files.folder, comments)
    return comments


# ---------------------------------------------------------------- places


def placed(plan: Plan, files: Files, file: str, line: int, size: str = "") -> Comment:
    """A comment without words at a line of a file: at the measure or the step that it is in, or
    else at the line."""
    display = files.display(file)
    said = _line(files, file, line)
    sized = f", size {size}" if size else ""
    for name, measure in plan.measures.named.items():
        if measure.span and holds(measure.span, display, line):
            return Comment(0, f"Measure {name}{sized}", "", size=size, measure=name, said=said)
    for name, measure in plan.measures.finished.items():
        if measure.span and holds(measure.span, display, line):
            title = f"Finished measurement {name}{sized}"
            return Comment(0, title, "", size=size, finished=name, said=said)
    for key, step, number, span in _steps(plan):
        if holds(span, display, line):
            title = f"Step {number} of {plan.source.pattern.pieces[key].title}"
            said = _line(files, file, span.line)
            return Comment(0, f"{title}{sized}", "", size=size, piece=key, step=step, said=said)
    return Comment(
        0, f"Line {line} of {file}{sized}", "", size=size, file=file, line=line, said=said
    )


def find(comment: Comment, plan: Plan, files: Files) -> Found | None:
    """Where a comment stands now; ``None`` where its measure, piece or file is gone."""
    prefix = files.display("")
    if name := comment.measure or comment.finished:
        known = plan.measures.named if comment.measure else plan.measures.finished
        span = known[name].span if name in known else None
        if span is None:
            return None
        now = _line(files, span.file.removeprefix(prefix), span.line)
        return Found(span, now == comment.said)
    if comment.piece:
        steps = [(step, span) for key, step, _, span in _steps(plan) if key == comment.piece]
        texts = [_line(files, span.file.removeprefix(prefix), span.line) for _, span in steps]
        alike = [each for each, said in zip(steps, texts, strict=True) if said == comment.said]
        near = sorted(alike or steps, key=lambda each: abs(each[0] - comment.step))
        return Found(near[0][1], bool(alike)) if near else None
    lines = _lines(files, comment.file)
    alike_lines = [number for number, said in enumerate(lines, 1) if said == comment.said]
    number = min(alike_lines, key=lambda each: abs(each - comment.line), default=comment.line)
    if not 1 <= number <= len(lines):
        return None
    span = Span(files.display(comment.file), number, 1, number, len(lines[number - 1]) + 1)
    return Found(span, bool(alike_lines))


def _steps(plan: Plan) -> Iterator[tuple[str, int, int, Span]]:
    """Every step: its piece, its place among all of the piece, the number printed, where it is."""
    for piece in plan.pieces:
        number = 0
        for place, step in enumerate(piece.steps, 1):
            number += not step.heading
            if not step.heading:
                yield piece.key, place, number, step.span


def _lines(files: Files, file: str) -> list[str]:
    try:
        return [each.strip() for each in files.read_text(file).split("\n")]
    except PatternError:
        return []


def _line(files: Files, file: str, line: int) -> str:
    lines = _lines(files, file)
    return lines[line - 1] if 1 <= line <= len(lines) else ""
