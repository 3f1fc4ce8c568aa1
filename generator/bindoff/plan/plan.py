"""The whole plan of a pattern: measures, pieces, yarn, fit."""

from collections.abc import Collection, Iterator

from bindoff.diagnostics import Diagnostic, PatternError
from bindoff.plan.groups import never_taken
from bindoff.plan.measures import Measures, measure_pattern
from bindoff.plan.picture import PicturePlan, main_yarn, piece_gauges, plan_tubes
from bindoff.plan.pieces import plan_piece
from bindoff.plan.steps.crown import Crowned
from bindoff.plan.stitchpatterns import Patterns
from bindoff.plan.worked import PiecePlan
from bindoff.plan.yarnplan import YarnTotal, balls_of, loop_of, plan_yarn
from bindoff.records import Record
from bindoff.source.read import Source
from bindoff.source.rowlang.custom import declare, with_partner
from bindoff.source.rowlang.stitches import StitchBook, Terms, standard_book
from bindoff.source.steps.join import JoinStep
from bindoff.source.steps.pick_up_along import PickUpAlongStep


class Plan(Record):
    """Everything the document needs to know, for all sizes."""

    source: Source
    measures: Measures
    book: StitchBook
    pieces: tuple[PiecePlan, ...]
    yarn: tuple[YarnTotal, ...]

    def piece(self, key: str) -> PiecePlan:
        """The plan of a piece by its key."""
        return next(piece for piece in self.pieces if piece.key == key)


LEFTOVERS = frozenset({"yarn.unused", "piece.never-joined", "piece.group-left"})
"""What is wrong where something is left over when all pieces are worked."""


def make_plan(source: Source, leftovers: bool = False) -> Plan:
    """The plan of ``source``; with ``leftovers`` some yarns may be listed and not used, and
    stitches may wait for a piece that never takes them up.

    Raises:
        PatternError: with every finding of the first part of the plan that has any; all pieces
            are tried, so each reports its own first fault.
    """
    measures = measure_pattern(source)
    _check_schematics(measures)
    book = stitch_book(source)
    patterns = Patterns(source, book)
    pieces: list[PiecePlan] = []
    findings: list[Diagnostic] = []
    failed: set[str] = set()
    for key in source.pattern.pieces:
        try:
            tubes = _tubes(measures, key)
            pieces.append(plan_piece(measures, key, book, tubes, patterns, tuple(pieces)))
        except PatternError as error:
            failed.add(key)
            findings.extend(
                each
                for each in error.findings
                if not _joins(source, key, each, failed - {key})
                and not (each.id == "piece.group-unknown" and failed - {key})
            )
    if not findings and not leftovers:
        findings = [*_never_joined(source, pieces), *_never_taken(pieces)]
    if findings:
        raise PatternError(findings)
    yarn = plan_yarn(measures, tuple(pieces))
    unused = list(_unused(source, yarn))
    if unused and not leftovers:
        raise PatternError(unused)
    return Plan(source, measures, book, tuple(pieces), yarn)


def _joins(source: Source, key: str, finding: Diagnostic, failed: Collection[str]) -> bool:
    """Whether a finding says only that a piece is joined to one that could not be worked, or
    picked up along it."""
    steps = source.pattern.pieces[key].steps
    if finding.id == "piece.join":
        return any(
            isinstance(step, JoinStep)
            and step.join in failed
            and finding.span == step.place.of("join").span
            for step in steps
        )
    return finding.id == "pickup.piece" and any(
        edge.of in failed and finding.span == edge.place.of("of").span
        for step in steps
        if isinstance(step, PickUpAlongStep)
        for edge in step.pick_up_along
    )


def crown_starts(plan: Plan) -> dict[tuple[str, int], int]:
    """The fewest stitches with which any size begins each crown, by piece and step."""
    return {
        (piece.key, index): min(step.detail.crown.stitches)
        for piece in plan.pieces
        for index, step in enumerate(piece.steps)
        if isinstance(step.detail, Crowned)
    }


def _check_schematics(measures: Measures) -> None:
    """Raises a ``PatternError`` with every dimension of a schematic that is no length above 0."""
    findings: list[Diagnostic] = []
    for piece in measures.source.pattern.pieces.values():
        for amount in piece.schematic.dimensions.values() if piece.schematic else ():
            try:
                measures.lengths(amount)
            except PatternError as error:
                findings.extend(error.findings)
    if findings:
        raise PatternError(findings)


def stitch_book(source: Source) -> StitchBook:
    """The standard stitches and the pattern's own."""
    book = standard_book(Terms(source.pattern.terms))

    for key, stitch in source.pattern.stitches.items():
        span, place = stitch.place.key_span, stitch.place.of("symbol")
        symbol = None if stitch.symbol is None else (stitch.symbol, place.span)
        own = declare(
            book, key, stitch.uses, stitch.makes, stitch.name, stitch.how, span, symbol=symbol
        )
        book = book.extended((own,))
    for key, stitch in source.pattern.stitches.items():
        for field, partner in (("wrong side", stitch.wrong_side), ("mirror", stitch.mirror)):
            if partner is not None:
                book = with_partner(book, key, field, partner, stitch.place.of(field).span)
    return book


def _tubes(measures: Measures, key: str) -> tuple[PicturePlan, ...]:
    """The tubes of a piece that is one from the machine, in every size; none for other pieces."""
    source = measures.source
    piece = source.pattern.pieces[key]
    if piece.tube is None:
        return ()
    ground = main_yarn(source, piece)
    ball = balls_of(source)[ground]
    loops = tuple(
        loop_of(source, ground, g, ball, piece.gauge).mm for g in piece_gauges(measures, piece)
    )
    return plan_tubes(measures, key, loops)


def _never_joined(source: Source, pieces: list[PiecePlan]) -> Iterator[Diagnostic]:
    """Pieces whose stitches are left live, and no step joins them."""
    joined = {closed.to for piece in pieces for closed in piece.closings}
    for piece in pieces:
        if piece.left and piece.key not in joined:
            yield Diagnostic(
                "piece.never-joined",
                f"the piece `{piece.key}` leaves its stitches live, and no later piece joins them",
                f"Add a step such as `- join: {piece.key}` to a later piece, or bind them off",
                source.pattern.pieces[piece.key].place.key_span,
            )


def _never_taken(pieces: list[PiecePlan]) -> Iterator[Diagnostic]:
    """Stitches that were held under a name, and wait when all pieces are made."""
    waiting = (group for groups in pieces[-1].groups for group in groups if group.copies)
    yield from map(never_taken, {group.name: group for group in waiting}.values())


def _unused(source: Source, yarn: tuple[YarnTotal, ...]) -> Iterator[Diagnostic]:
    used = {total.yarn for total in yarn}
    for key, written in source.pattern.yarns.items():
        if key not in used:
            yield Diagnostic(
                "yarn.unused",
                f"the yarn `{key}` is listed, but no step uses it",
                "Take it out of `yarns:`, or use it in a step or chart; for what words alone tell, "
                f"such as embroidery, write a step `say:` with `yarn: {key}` and `takes: 3 m`",
                written.place.key_span,
            )
