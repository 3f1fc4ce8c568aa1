"""Whether every size fits: its body, the needles of its machine, and what is drawn on it."""

from collections.abc import Iterator, Sequence

from bindoff.craft.ease import usual_ease
from bindoff.diagnostics import Diagnostic, PatternError
from bindoff.plan.fit import fitted
from bindoff.plan.plan import Plan, make_plan
from bindoff.records import Record
from bindoff.source.bundle import Source
from bindoff.source.onesize import one_size
from bindoff.source.regauge import regauge
from bindoff.source.statedgauge import StatedGauge

_PICTURE, _NEEDLES = ("picture", "motif"), ("machine.needles", "tube.needles")


class Fault(Record):
    """Why a size does not fit: ``what`` is body, needles, picture or steps, ``said`` a sentence."""

    what: str
    said: str


class Judged(Record):
    """A size, and why it does not fit; no faults where it does."""

    size: str
    faults: tuple[Fault, ...]


class Verdict(Record):
    """Every size judged, and what they were judged by: body, needles, picture."""

    sizes: tuple[Judged, ...]
    by: tuple[str, ...]


def judge(plan: Plan) -> Verdict:
    """The sizes of a pattern that can be made in all of them."""
    faults: list[list[Fault]] = [[] for _ in plan.source.sizes]
    found = list(fitted(plan.measures.finished, _bodies(plan)))
    for fit in found:
        low, high = usual_ease(fit.dimension)
        for size, percent in enumerate(fit.percent):
            if not low <= percent <= high:
                than = "larger" if percent > 0 else "smaller"
                said = (
                    f"{fit.label.lower()} is {abs(percent):.0f} % {than} than the {fit.dimension}, "
                    f"and usual is {low:+.0f} to {high:+.0f} %"
                )
                faults[size].append(Fault("body", said))
    judged = zip(plan.source.sizes, faults, strict=True)
    by = (*(("body",) if found else ()), *_of_machine(plan.source))
    return Verdict(tuple(Judged(size, tuple(each)) for size, each in judged), by)


def judge_each(source: Source, stated: Sequence[StatedGauge] = ()) -> Verdict:
    """Every size of a pattern by itself, for one that can't be made in all.

    Raises:
        PatternError: as ``regauge``.
    """
    changed = regauge(source, stated)[0] if stated else source
    sizes: list[Judged] = []
    by: set[str] = set()
    for size in source.sizes:
        try:
            found = judge(make_plan(one_size(changed, size)))
        except PatternError as error:
            sizes.append(Judged(size, tuple(_faults(error.findings))))
        else:
            sizes += found.sizes
            by |= set(found.by)
    ordered = [what for what in ("body", "needles", "picture") if what in by]
    return Verdict(tuple(sizes), tuple(ordered))


def _bodies(plan: Plan) -> dict[str, tuple[float, ...]]:
    """The body measures that every size has, in mm per size."""
    sizes = plan.measures.sizes
    shared = [name for name in sizes[0].body if all(name in size.body for size in sizes)]
    return {name: tuple(size.body[name] for size in sizes) for name in shared}


def _of_machine(source: Source) -> Iterator[str]:
    pieces = source.pattern.pieces
    if any(piece.tube or source.pattern.on_machine(key) for key, piece in pieces.items()):
        yield "needles"
    if any(piece.pictured for piece in pieces.values()):
        yield "picture"


def _faults(findings: Sequence[Diagnostic]) -> Iterator[Fault]:
    """The first finding about each of the things that a size is judged by."""
    seen: set[str] = set()
    for finding in findings:
        what = "steps"
        if finding.id in _NEEDLES:
            what = "needles"
        elif finding.id.split(".")[0] in _PICTURE:
            what = "picture"
        if what not in seen:
            seen.add(what)
            yield Fault(what, finding.message.split(" (the figures of")[0])
