"""What a check is, and how a pattern's findings come about. Knows nothing of knitting."""

from collections.abc import Callable, Iterable, Iterator, Sequence
from enum import IntEnum

from bindoff.checks.context import Context
from bindoff.diagnostics import Diagnostic, Severity, Span, closest, written_as
from bindoff.records import Record, names_of


class Finding(Record):
    """One thing a check found; ``help`` is the check's remedy unless it can say more.

    ``sizes`` names those it is about, none where it is about all; ``beside`` the places that it
    contradicts.
    """

    message: str
    span: Span | None = None
    help: str = ""
    sizes: tuple[str, ...] = ()
    beside: tuple[Span, ...] = ()


class Needs(IntEnum):
    """How far a pattern must have come for a check to read it."""

    SOURCE = 1
    """What is written."""
    SIZES = 2
    """Also gauges and bodies."""
    MEASURES = 3
    """Also all measures and finished figures."""
    PLAN = 4
    """Also the pieces as worked, and the document."""


Find = Callable[[Context], Iterator[Finding]]


class Check(Record):
    """A check: what it is for, in words, and the function that finds.

    ``title`` says what holds when nothing is found, ``why`` what a knitter suffers otherwise.
    Raises ``ValueError`` when a text is missing, so that no check goes undescribed.
    """

    id: str
    title: str
    looks_at: str
    why: str
    severity: Severity
    remedy: str
    find: Find
    needs: Needs = Needs.PLAN

    def __post_init__(self) -> None:
        missing = [name for name in names_of(self) if not getattr(self, name)]
        if missing:
            raise ValueError(f"the check {self.id!r} lacks {', '.join(missing)}")

    def diagnostics(self, context: Context) -> Iterator[Diagnostic]:
        """What it finds, as diagnostics of its own id and severity."""
        for found in self.find(context):
            help = found.help or self.remedy
            yield Diagnostic(
                self.id,
                found.message,
                help,
                found.span,
                self.severity,
                found.sizes,
                beside=found.beside,
            )


def check(
    *,
    id: str,
    title: str,
    looks_at: str,
    why: str,
    severity: Severity,
    remedy: str,
    needs: Needs = Needs.PLAN,
) -> Callable[[Find], Check]:
    """Makes a check of the function below it."""

    def made(find: Find) -> Check:
        return Check(id, title, looks_at, why, severity, remedy, find, needs)

    return made


def together(*groups: Iterable[Check]) -> tuple[Check, ...]:
    """All checks in order; raises ``ValueError`` if two have the same id."""
    checks = tuple(each for group in groups for each in group)
    ids = [each.id for each in checks]
    twice = sorted({id for id in ids if ids.count(id) > 1})
    if twice:
        raise ValueError(f"two checks are called {', '.join(twice)}")
    return checks


def run(
    checks: Sequence[Check], context: Context, proofs: Iterable[str] = ()
) -> tuple[Diagnostic, ...]:
    """All findings of ``checks``; those of a check that the pattern silences become notes.

    ``proofs`` are the ids that the stages before raise, which nothing silences. The findings
    include an error for each silence of an unknown id, and a note for each that silences nothing.
    """
    found = found_by(checks, context)
    fired = {diagnostic.id for diagnostic in found}
    known = [each.id for each in checks]
    return (*found, *_bad_silences(context, known, tuple(proofs), fired))


def found_by(checks: Iterable[Check], context: Context) -> tuple[Diagnostic, ...]:
    """What ``checks`` find; what the pattern silences is a note."""
    reasons = {silence.check: silence.because for silence in context.source.pattern.silence}
    found = (diagnostic for each in checks for diagnostic in each.diagnostics(context))
    return tuple(
        _silenced(each, reasons[each.id]) if each.id in reasons else each for each in found
    )


SILENCED = "silenced: "
"""How the message of a finding begins that a pattern silences."""


def _silenced(finding: Diagnostic, because: str) -> Diagnostic:
    return Diagnostic(
        finding.id,
        f"{SILENCED}{finding.message}",
        f"The reason given is: {because}",
        finding.span,
        Severity.NOTE,
    )


def _bad_silences(
    context: Context, known: Sequence[str], proofs: Sequence[str], fired: set[str]
) -> Iterator[Diagnostic]:
    for silence in context.source.pattern.silence:
        place = silence.place.of("check").span
        if silence.check in proofs:
            yield Diagnostic(
                "silence.proof",
                f"`{silence.check}` is always on and can't be silenced",
                "Take it out of `silence:`; what it finds has to be put right",
                place,
            )
        elif silence.check not in known:
            close = closest(silence.check, known)
            hint = f"Write `{close}` if you mean that" if close else "Correct the id"
            yield Diagnostic(
                "silence.unknown",
                f"there is no check called `{silence.check}`",
                f"{hint}; `bindoff check --list` names all",
                place,
                fixes=written_as(close),
            )
        elif silence.check not in fired:
            yield Diagnostic(
                "silence.unneeded",
                f"`{silence.check}` finds nothing here, so there is nothing to silence",
                "Take it out of `silence:`, so that it can speak when it must",
                place,
                Severity.NOTE,
            )
