"""Motifs on the map of a tube: where they lie on its page, and the change that moves one."""

from collections.abc import Iterator, Sequence
from typing import Any

from bindoff.desk.edits import Edit
from bindoff.desk.proofs import Proof
from bindoff.diagnostics import Span
from bindoff.document.tubemap import TUBE
from bindoff.plan.motifs import Cells, Placed
from bindoff.plan.picture import PicturePlan
from bindoff.plan.tube import TubePart, TubeRounds
from bindoff.render.pdf.svgwriter import ChartPlace
from bindoff.source.tube import MOTIF_PLACES, Motif

_PAIRS = ("sides", "front and back")
_QUARTERS = ("left", "front", "right", "back")


def motif_data(proof: Proof) -> list[dict[str, Any]]:
    """Every motif on a map: its rectangle on the page, where it lies and where it may lie."""
    return [
        _data(proof, place, key, plan, motif)
        for place in proof.screen.charts
        if place.cells.file.startswith(TUBE)
        for key in [place.cells.file.removeprefix(TUBE)]
        for plan in _tubes(proof, key)[:1]
        for motif in plan.motifs
    ]


def _tubes(proof: Proof, key: str) -> tuple[PicturePlan, ...]:
    steps = (step for piece in proof.plan.pieces if piece.key == key for step in piece.steps)
    return next((step.tubes for step in steps if step.tubes), ())


def _data(
    proof: Proof, place: ChartPlace, key: str, plan: PicturePlan, motif: Placed
) -> dict[str, Any]:
    written, cells, tube = motif.written, place.cells, plan.tube
    left = place.left + (cells.columns - motif.last_stitch) * place.w
    top = place.top + (cells.rows - motif.last) * place.h
    span = written.place.span
    low, high = _room(tube, written)
    grid = proof.source.grids[motif.chart][0]  # of the first size, as the map is
    return {
        "page": place.page,
        "box": [left, top, left + motif.width * place.w, top + len(motif.cells) * place.h],
        "w": place.w,
        "h": place.h,
        "file": span.file.removeprefix(proof.files.display("")),
        "from": [span.line, span.column],
        "to": [span.end_line, span.end_column],
        "piece": key,
        "motif": proof.source.pattern.pieces[key].motifs.index(written),
        "title": proof.source.pattern.charts[motif.chart].title,
        "place": motif.place,
        "at": written.at_,
        "stitch": motif.stitch,
        "stitches": tube.needles - motif.width + 1,
        "middle": motif.stitch - 1 + motif.width / 2,
        "needles": tube.needles,
        "places": _places(tube, written),
        "key": _key(written),
        "grid": grid.file.removeprefix(proof.files.display("")),
        "drawn": drawn(motif.cells, grid.rounds),
        "rounds": high - motif.last if written.below_top is not None else motif.first - low,
        "most": high - low + 1 - len(motif.cells),
    }


def drawn(cells: Cells, rows: Sequence[str]) -> list[int]:
    """For each stitch of a motif from its left, the stitch of its grid, from the right there.

    A copy may be the mirror image of the grid: it is where each character then stands for one yarn.
    """
    wide = len(rows[0])
    found: list[int] = []
    for left in range(0, len(cells[0]), wide):
        copy = [row[left : left + wide] for row in cells]
        mirrored = not _means_one(copy, rows)
        found += range(1, wide + 1) if mirrored else range(wide, 0, -1)
    return found


def _means_one(cells: Sequence[Sequence[str | None]], rows: Sequence[str]) -> bool:
    """Whether every character stands for the same in all cells."""
    meant = {
        pair for line, row in zip(cells, rows, strict=True) for pair in zip(row, line, strict=True)
    }
    return len(meant) == len({sign for sign, _ in meant})


def _room(tube: TubeRounds, written: Motif) -> tuple[int, int]:
    """The first and last round of the zone that a motif lies on."""
    part = TubePart.OUTER if written.on == "body" else TubePart.LINING_BRIM
    segment = tube.segment(part)
    assert segment is not None
    return segment.first, segment.last


def _key(written: Motif) -> str:
    return "below top" if written.below_top is not None else "above rim"


def _places(tube: TubeRounds, written: Motif) -> list[tuple[str, float]]:
    """The places by name that a motif may have instead, with the stitches before their middle; of
    a pair, both. None for one that is placed by its stitch or goes all around."""
    if not isinstance(written.at_, str):
        return []
    middles = [
        (name, (tube.front - 1 + quarter * tube.needles / 4) % tube.needles)
        for quarter, name in enumerate(_QUARTERS)
    ]
    if written.at_ not in _PAIRS:
        return middles
    return [(_PAIRS[quarter % 2], middle) for quarter, (_, middle) in enumerate(middles)]


# ---------------------------------------------------------------- moving one


def moving(written: Motif, rounds: int | None, at: str | int | None) -> Iterator[Edit]:
    """The change of the source that gives a motif another height or place.

    Raises ``ValueError`` for what is neither.
    """
    if at is not None and at != written.at_:
        same = isinstance(at, str) == isinstance(written.at_, str) and written.at_ is not None
        if not same or (isinstance(at, str) and at not in MOTIF_PLACES):
            raise ValueError(f"{at!r} is no other place of the motif")
        yield Edit(written.place.of("at").span, str(at))
    if rounds is None:
        return
    if rounds < 0:
        raise ValueError("a motif is not lower than its edge")
    key, said = _key(written), f"{rounds} {'round' if rounds == 1 else 'rounds'}"
    if key in written.place.node.children:
        yield Edit(written.place.of(key).span, said)
        return
    first = written.place.of("around" if written.around else "at").span
    end = Span(first.file, first.end_line, first.end_column, first.end_line, first.end_column)
    if written.place.text.startswith("{"):
        yield Edit(end, f", {key}: {said}")
    else:
        indent = " " * (written.place.of("chart").key_span.column - 1)
        yield Edit(end, f"\n{indent}{key}: {said}")
