"""What is wrong, where, and what to do: one data type shared by all stages.

A diagnostic is data. The stage that finds a fault builds one; ``bindoff.report`` alone
turns it into words on a screen or JSON.
"""

from collections.abc import Iterable
from enum import StrEnum
from functools import lru_cache

from bindoff.records import Record, replace


class Span(Record, order=True):
    """A place in a source file. Lines and columns count from 1; ``end_column`` is exclusive."""

    file: str
    line: int
    column: int
    end_line: int
    end_column: int

    def inside(self, start: int, end: int) -> "Span":
        """The part of a one-line span from character offset ``start`` to ``end`` (exclusive)."""
        return Span(
            self.file, self.line, self.column + start, self.line, self.column + max(end, start + 1)
        )

    def __str__(self) -> str:
        return f"{self.file}:{self.line}:{self.column}"


class Severity(StrEnum):
    """How much a finding matters: an error stops the build, a warning does not."""

    ERROR = "error"
    WARNING = "warning"
    NOTE = "note"


class Fix(Record):
    """A change of the source that would mend a finding: ``text`` in the place of what stands at
    ``span``, or at the finding's own place where that is ``None``. ``words`` say what it does."""

    words: str
    text: str
    span: Span | None = None


class Diagnostic(Record):
    """One finding: a stable ``id``, what is wrong (``message``), where, and what to do (``help``).

    House style: ``message`` starts lower case and has no full stop; ``help`` is an instruction.
    ``sizes`` names the sizes it is about, none where it is about all or about no size. ``follows``
    are findings that this one is the likely cause of: they go once it is mended, or speak up then.
    ``fixes`` are changes that would mend it, if any is known. ``beside`` are other places that may
    be the wrong ones: of two statements that contradict each other, the second.
    """

    id: str
    message: str
    help: str
    span: Span | None = None
    severity: Severity = Severity.ERROR
    sizes: tuple[str, ...] = ()
    follows: "tuple[Diagnostic, ...]" = ()
    fixes: tuple[Fix, ...] = ()
    beside: tuple[Span, ...] = ()


class PatternError(Exception):
    """Raised by a stage that cannot go on; carries every finding it gathered first."""

    def __init__(self, findings: Iterable[Diagnostic]) -> None:
        self.findings = tuple(dict.fromkeys(findings))
        super().__init__("; ".join(finding.message for finding in self.findings))


MOST_FINDINGS = 100
"""So many findings of a stage are told; nobody mends more at a time."""

MOST_ALIKE = 3
"""So many findings that say the same stand each at its place; of more, the first counts them."""


def gathered(findings: Iterable[Diagnostic]) -> tuple[Diagnostic, ...]:
    """What a stage found, as much as can be read: what is said often is counted, the rest cut.

    Takes no more of ``findings`` than it needs, so a source of nothing but faults ends soon.
    """
    alike: dict[tuple[str, str], list[Diagnostic]] = {}
    cut = False
    for finding in findings:
        key = finding.id, finding.message
        if key not in alike and len(alike) == MOST_FINDINGS:
            cut = True
            break
        alike.setdefault(key, []).append(finding)
    told: list[Diagnostic] = []
    for same in alike.values():
        if len(same) <= MOST_ALIKE:
            told.extend(same)
        else:
            message = f"{same[0].message}; the same is so in {len(same) - 1:,} more places"
            told.append(replace(same[0], message=message))
    if cut:
        help = "Mend what is listed first: one slip often causes many findings"
        more = "more is wrong than is listed here"
        told.append(Diagnostic("source.more", more, help, told[-1].span, told[-1].severity))
    return tuple(told)


_LONGEST_WORD = 60
_MOST_COMPARED = 300


def closest(word: str, known: Iterable[str], cutoff: float = 0.6) -> str | None:
    """What was probably meant by ``word``, if any of the ``known`` words is much like it.

    Words longer than any name are like none; of very many only those that begin alike are compared.
    """
    names = tuple(name for name in known if len(name) <= _LONGEST_WORD)
    if len(names) > _MOST_COMPARED:
        names = tuple(name for name in names if name[:1] == word[:1])[:_MOST_COMPARED]
    return _closest(word, names, cutoff) if len(word) <= _LONGEST_WORD else None


@lru_cache(maxsize=1024)
def _closest(word: str, names: tuple[str, ...], cutoff: float) -> str | None:
    from difflib import get_close_matches  # which a sound pattern never needs

    return next(iter(get_close_matches(word, names, 1, cutoff)), None)


def written_as(text: str | None) -> tuple[Fix, ...]:
    """The fix that writes ``text`` in the place of the finding; none where it is not known."""
    return () if text is None else (Fix(f"Write `{text}`", text),)


def fail(
    id: str, message: str, help: str, span: Span | None = None, fixes: tuple[Fix, ...] = ()
) -> PatternError:
    """A ``PatternError`` with a single error; write ``raise fail(...)``."""
    return PatternError([Diagnostic(id, message, help, span, fixes=fixes)])
