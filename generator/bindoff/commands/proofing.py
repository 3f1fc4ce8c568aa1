"""What proof-readers ask of ``compare``: old and new words side by side, and marked pages.

Words are those of the text editions, so that an old text edition will do where no old source is
left.
"""

from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Any

from bindoff import regex as re
from bindoff.commands.gridshared import write_file
from bindoff.commands.shared import Named, attempt
from bindoff.commands.wordsbeside import Words, side_by_side, words_that_differ
from bindoff.diagnostics import Diagnostic
from bindoff.files import GRID_LIMIT, Files
from bindoff.records import Record

if TYPE_CHECKING:
    from bindoff.plan.plan import Plan

_SIZE = re.compile(r"Size: (.+)\.")
_OPENING = 20  # lines in which a text edition of one size names it


class Compared(Record):
    """What is wrong with either pattern, and, unless that is an error, what differs: as lines and
    as plain data."""

    old_findings: tuple[Diagnostic, ...] = ()
    new_findings: tuple[Diagnostic, ...] = ()
    lines: tuple[str, ...] = ()
    data: Any = None


def is_text(pattern: Named) -> bool:
    """Whether a text edition is named, and no source."""
    return pattern.source.casefold().endswith(".txt")


def words_beside(before: Named, after: Named) -> Compared:
    """The words of ``before``, a source or a text edition, beside those of ``after``."""
    old = attempt(before, lambda each: _read(each) if is_text(each) else _told(each, ""))
    if not isinstance(old, tuple) or not old or not isinstance(old[0], str):
        return Compared(old_findings=_findings(old))
    lines = tuple(str(line) for line in old)
    size = _size_of(lines) if is_text(before) else ""
    new = attempt(after, lambda each: _nearest(each, size, lines))
    if not isinstance(new, list):
        return Compared(new_findings=_findings(new))
    title = f"{after.called}: words that differ from {before.argument}"
    shown = tuple(side_by_side(new)) if new else ("No word differs.",)
    return Compared(lines=(title, "", *shown), data=[_data(each) for each in new])


def write_marked(before: Named, after: Named, target: Path, force: bool) -> Compared:
    """Write the pages of ``after`` with a bar beside each line that ``before`` has not."""

    def write(pattern: Named) -> bool:
        from bindoff.document.build import build_document
        from bindoff.document.differencewords.sections import change_section
        from bindoff.pipeline import drawn_for
        from bindoff.render.pdf import PdfOptions
        from bindoff.render.pdf.marked import render_marked

        assert not isinstance(old, tuple)
        new, look = _planned(pattern), drawn_for("calm")
        was, _ = build_document(old, before.files, drawn=look)
        now, _ = build_document(new, pattern.files, change_section(old, new), look)
        write_file(target, render_marked(was, now, PdfOptions()), force)
        return True

    old = attempt(before, _planned)
    if isinstance(old, tuple):
        return Compared(old_findings=_findings(old))
    done = attempt(after, write)
    if done is not True:
        return Compared(new_findings=_findings(done))
    return Compared(lines=(f"{target}: written",), data=[])


def _findings(failed: Any) -> tuple[Diagnostic, ...]:
    return tuple(each for each in failed if isinstance(each, Diagnostic))


def _data(words: Words) -> dict[str, Any]:
    return {"under": words.heading, "old": list(words.old), "new": list(words.new)}


def _read(pattern: Named) -> tuple[str, ...]:
    return tuple(pattern.files.read_text(pattern.source, limit=GRID_LIMIT).splitlines()) or ("",)


def _size_of(lines: tuple[str, ...]) -> str:
    """The size of an edition of one size; nothing where it has all."""
    return next((found[1] for line in lines[:_OPENING] if (found := _SIZE.fullmatch(line))), "")


def _planned(pattern: Named) -> "Plan":
    from bindoff.pipeline import plan_pattern

    return plan_pattern(pattern.files, pattern.source, pattern.called)


def _told(pattern: Named, size: str) -> tuple[str, ...]:
    return next(_editions(_planned(pattern), pattern.files, size))


def _nearest(pattern: Named, size: str, old: tuple[str, ...]) -> list[Words]:
    """What differs from the edition that is most like the old one: with its abbreviations
    explained, as most are, or without."""
    every = _editions(_planned(pattern), pattern.files, size)
    found = (list(words_that_differ(old, new)) for new in every)
    return min(found, key=lambda words: sum(len(each.old) + len(each.new) for each in words))


def _editions(plan: "Plan", files: Files, size: str) -> Iterator[tuple[str, ...]]:
    """The text edition in lines, with abbreviations explained and without."""
    from bindoff.document.build import abbreviation_names
    from bindoff.document.expansion import expanded
    from bindoff.document.spokenrows import signs_in_words
    from bindoff.pipeline import told_in_size
    from bindoff.render.text import render_text

    document = told_in_size(plan, files, size)
    for each in (expanded(document, abbreviation_names(plan)), document):
        yield tuple(render_text(each, notation=signs_in_words).splitlines())
