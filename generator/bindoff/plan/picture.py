"""A tube from the machine: the colours to be seen, the stripes to knit, the embroidery."""

from collections.abc import Collection, Mapping
from functools import lru_cache

from bindoff.diagnostics import Diagnostic, PatternError, Span, fail
from bindoff.english import how_many
from bindoff.plan.colour.embroidery import (
    Embroidery,
    ThreadRule,
    plan_embroidery,
    refuse_short,
)
from bindoff.plan.colour.floats import float_limit
from bindoff.plan.colour.grid import ColourGrid
from bindoff.plan.colour.stripes import StripeOptions, StripePlan, embroidered_cells, plan_stripes
from bindoff.plan.gauge import Gauge
from bindoff.plan.measures import Measures
from bindoff.plan.motifs import Cells, Placed, place_motifs
from bindoff.plan.persize import together
from bindoff.plan.tube import (
    TubePart,
    TubeRounds,
    folded_tube,
    single_tube,
    starting_at,
    usual_starts,
)
from bindoff.plan.zones import Wanted, own_yarn_rounds, wanted_stripes, zone_yarns
from bindoff.records import Record, replace
from bindoff.source.amount import Amount
from bindoff.source.chart import CellMeaning, Chart
from bindoff.source.grid import Grid
from bindoff.source.lengths import parse_length
from bindoff.source.piece import Piece
from bindoff.source.read import Source
from bindoff.source.steps.gather import GatherStep
from bindoff.source.steps.join import JoinStep
from bindoff.source.steps.step import Step
from bindoff.source.tube import ColourPlan, Motif, Picture, Tube

MOST_STITCHES = 100_000
"""Stitches of a tube at the most: 400 needles, the most a machine may have, by 250
rounds, or 48 by 2,000. Each stitch is planned in its colour."""

LINING_MAY_LACK_MM = 20.0
"""How much shorter than the outside a lining that is gathered may be and still reach the top, as
the fabric gives way. Common practice, no source."""


class PicturePlan(Record):
    """One size's tube: where its picture lies, what to knit, what to embroider.

    ``first`` and ``last`` are the tube's rounds that carry the picture, or its ``motifs``, 1 and 0
    where it has none; ``fixed`` are the rounds whose yarn is no choice of the plan, with that yarn;
    ``colours`` covers the whole tube; ``overlay`` has its shape and holds the yarn to embroider,
    or ``None``.
    """

    tube: TubeRounds
    first: int
    last: int
    mirrored: bool
    colours: ColourGrid
    stripes: StripePlan
    overlay: tuple[tuple[str | None, ...], ...]
    embroidery: Embroidery
    motifs: tuple[Placed, ...] = ()
    fixed: tuple[tuple[int, str], ...] = ()

    @property
    def has_picture(self) -> bool:
        """Whether a picture lies on the tube."""
        return self.last >= self.first

    @property
    def strands(self) -> int:
        """Strands to embroider with, all yarns."""
        return sum(each.strands for each in self.embroidery.threads)

    @property
    def knitted(self) -> tuple[tuple[str, ...], ...]:
        """The yarn each stitch is knitted in, before any embroidery; shaped like ``overlay``."""
        return _knitted(self.colours.rounds, self.overlay, self.stripes.bases)


@lru_cache(maxsize=32)
def _knitted(
    rounds: tuple[tuple[str, ...], ...],
    overlay: tuple[tuple[str | None, ...], ...],
    bases: tuple[str, ...],
) -> tuple[tuple[str, ...], ...]:
    return tuple(
        tuple(base if covered else yarn for yarn, covered in zip(seen, above, strict=True))
        for seen, above, base in zip(rounds, overlay, bases, strict=True)
    )


def chart_yarns(chart: Chart) -> Mapping[str, str | None]:
    """The yarn each character of a chart stands for, ``None`` where it names a stitch alone."""
    return {
        character: meaning.yarn if isinstance(meaning, CellMeaning) else meaning
        for character, meaning in chart.legend.items()
    }


def cell_meaning(
    meaning: str | CellMeaning, yarns: Collection[str]
) -> tuple[str | None, str | None]:
    """The yarn and the stitch that a chart's character stands for, ``None`` where it has none.

    A name alone is that of one of the pattern's ``yarns``, or else of a stitch, or ``NO_STITCH``.
    """
    if isinstance(meaning, CellMeaning):
        return meaning.yarn, meaning.stitch
    return (meaning, None) if meaning in yarns else (None, meaning)


def main_yarn(source: Source, piece: Piece) -> str:
    """The yarn of a tube's rounds, where neither a zone nor a stripe nor a picture has another."""
    if piece.picture is not None:
        return piece.picture.ground
    return piece.yarn or next(iter(source.pattern.yarns))


def plan_tubes(measures: Measures, key: str, loop_mm: tuple[float, ...]) -> tuple[PicturePlan, ...]:
    """The tube piece ``key`` in every size; ``loop_mm`` is the yarn in one stitch per size.

    Raises:
        PatternError: ``tube.needles`` without a needle count; ``picture.width`` and
            ``picture.height`` when the grid does not fit the tube of some size; ``tube.stripe…``
            for stripes that can't lie where they are wanted.
    """
    source = measures.source
    piece = source.pattern.pieces[key]
    assert piece.tube is not None
    gauges = piece_gauges(measures, piece)
    tubes = _tubes(measures, piece)
    wanted = wanted_stripes(measures, piece.tube, tubes, gauges)
    main = main_yarn(source, piece)
    laid = _pictures(measures, piece, tubes)
    _refuse_on_picture(source, laid, wanted)
    return tuple(
        _picture_plan(source, piece, each, _under(piece, each, stripes, main), stripes, gauge, loop)
        for each, stripes, gauge, loop in zip(laid, wanted, gauges, loop_mm, strict=True)
    )


class _Laid(Record):
    """A tube and what is drawn on it from round ``first`` on, ``None`` where it is ground; nothing
    for a tube without a picture."""

    tube: TubeRounds
    first: int = 1
    picture: Cells = ()
    motifs: tuple[Placed, ...] = ()

    @property
    def last(self) -> int:
        return self.first + len(self.picture) - 1


def _pictures(measures: Measures, piece: Piece, tubes: tuple[TubeRounds, ...]) -> tuple[_Laid, ...]:
    """Every size's tube with the picture or the motifs where they lie."""
    source = measures.source
    if piece.motifs:
        return _with_motifs(measures, piece, tubes)
    if piece.picture is None:
        return tuple(map(_Laid, _turned(piece, None, tubes)))
    tubes = _turned(piece, piece.picture, tubes)
    start = measures.counts(piece.picture.start)
    findings: list[tuple[str, Diagnostic]] = []
    laid: list[_Laid] = []
    grids = source.grids[piece.picture.chart]
    for size, offset, tube, grid in zip(source.sizes, start, tubes, grids, strict=True):
        outer = tube.segment(TubePart.OUTER)
        assert outer is not None
        room = outer.last - outer.first + 1
        try:
            picture = _full_width(source, piece, grid, tube.needles)
        except PatternError as error:
            findings.extend((size, each) for each in error.findings)
            continue
        if offset + len(picture) > room:
            findings.append((size, _too_high(piece.picture, len(picture), offset, room)))
            continue
        laid.append(_Laid(tube, outer.first + offset, picture))
    if findings:
        raise PatternError(together(findings, source.sizes))
    return tuple(laid)


def _turned(
    piece: Piece, picture: Picture | None, tubes: tuple[TubeRounds, ...]
) -> tuple[TubeRounds, ...]:
    """The tubes with rounds that start where the designer wants them to."""
    assert piece.tube is not None
    wanted = piece.tube.start_of_round
    if picture is not None and picture.mirror and wanted not in (None, "left"):
        raise fail(
            "picture.round-start",
            "the front half of a mirrored picture is the first half of the round, which starts at "
            f"the wearer's left, and not at the {wanted}",
            "Take `start of round:` out, or draw the whole round and take `mirror: true` out",
            piece.tube.place.of("start of round").span,
        )
    return (
        tuple(starting_at(each, usual_starts(each)[wanted]) for each in tubes) if wanted else tubes
    )


def _with_motifs(
    measures: Measures, piece: Piece, tubes: tuple[TubeRounds, ...]
) -> tuple[_Laid, ...]:
    """Every size's tube with its motifs, in the rounds from the lowest of them to the highest."""
    assert piece.tube is not None
    source = measures.source
    drawn = [_on_ground(source, piece, piece.tube, motif) for motif in piece.motifs]
    gauges = piece_gauges(measures, piece)
    start = piece.tube.start_of_round
    laid: list[_Laid] = []
    for tube, motifs in place_motifs(measures, piece.motifs, tubes, gauges, drawn, start):
        first = min((each.first for each in motifs), default=1)
        last = max((each.last for each in motifs), default=0)
        rows: list[list[str | None]] = [[None] * tube.needles for _ in range(first, last + 1)]
        for motif in motifs:
            for round_, column, yarn in motif.at(tube.needles):
                rows[round_ - first][column] = yarn
        laid.append(_Laid(tube, first, tuple(map(tuple, rows)), motifs))
    return tuple(laid)


def _on_ground(source: Source, piece: Piece, tube: Tube, motif: Motif) -> tuple[Cells, ...]:
    """A motif's chart in yarns, per size; those of the zone it lies on are ground, which stays as
    it is."""
    zone = "brim_outside" if motif.on == "brim" else motif.on
    ground = tube.yarns.of(zone) or main_yarn(source, piece)
    yarns = _picture_yarns(source, motif.chart)
    seen = {c: None if yarn == ground else yarn for c, yarn in yarns.items()}
    return tuple(
        tuple(tuple(seen[c] for c in line) for line in grid.rounds)
        for grid in source.grids[motif.chart]
    )


def _refuse_on_picture(
    source: Source, laid: tuple[_Laid, ...], wanted: tuple[tuple[Wanted, ...], ...]
) -> None:
    """Raises for wanted stripes that lie in a round of the picture, which covers all of it; behind
    motifs they go on."""
    findings = [
        (
            size,
            Diagnostic(
                "tube.stripe-in-picture",
                f"the stripe lies in rounds {stripe.first} to {stripe.last} of the tube, and the "
                f"picture in rounds {each.first} to {each.last}",
                "Move the stripe or the picture, or draw the stripe into the picture's grid",
                stripe.written.place.of("from").span,
            ),
        )
        for size, each, stripes in zip(source.sizes, laid, wanted, strict=True)
        for stripe in stripes
        if not each.motifs and stripe.first <= each.last and each.first <= stripe.last
    ]
    if findings:
        raise PatternError(together(findings, source.sizes))


def piece_gauges(measures: Measures, piece: Piece) -> tuple[Gauge, ...]:
    """The gauge of a piece in every size."""
    return tuple(size.gauges[piece.gauge or ""] for size in measures.sizes)


def _tubes(measures: Measures, piece: Piece) -> tuple[TubeRounds, ...]:
    source = measures.source
    assert piece.tube is not None
    needles = [count for size in source.sizes if (count := source.pattern.needles(size))]
    if len(needles) < len(source.sizes):
        raise fail(
            "tube.needles",
            "a tube is worked on a fixed number of needles, and none is given",
            "Add `made: {by: machine, needles: …}` to the head of the pattern",
            piece.tube.place.key_span,
        )
    written = piece.tube
    gauges = piece_gauges(measures, piece)
    gather = measures.lengths(written.gather, zero=True)
    if written.length is not None:
        length = measures.lengths(written.length)
        single = map(single_tube, needles, gauges, length, gather)
        return _not_too_large(source, written, tuple(single))
    assert written.visible is not None
    visible = measures.lengths(written.visible)
    lining = measures.lengths(written.lining) if isinstance(written.lining, Amount) else None
    brim = measures.lengths(written.brim, zero=True)
    tubes = tuple(
        folded_tube(
            needles[index],
            gauge,
            visible[index],
            brim[index],
            gather[index],
            None if lining is None else lining[index],
        )
        for index, gauge in enumerate(gauges)
    )
    if lining is not None and any(map(_meets_the_top, piece.steps)):
        short = [
            (source.sizes[index], _lining_short(written, seen - inner))
            for index, (seen, inner) in enumerate(zip(visible, lining, strict=True))
            if seen - inner > LINING_MAY_LACK_MM
        ]
        if short:
            raise PatternError(together(short, source.sizes))
    return _not_too_large(source, written, tubes)


def _not_too_large(
    source: Source, written: Tube, tubes: tuple[TubeRounds, ...]
) -> tuple[TubeRounds, ...]:
    """``tubes``; raises where one has more stitches than can be planned."""
    too_large = [
        (source.sizes[index], _too_large(written, tube))
        for index, tube in enumerate(tubes)
        if tube.total_rounds * tube.needles > MOST_STITCHES
    ]
    if too_large:
        raise PatternError(together(too_large, source.sizes))
    return tubes


def _meets_the_top(step: Step) -> bool:
    """Whether a step closes both ends of a folded tube at its top: gathered, or joined."""
    return isinstance(step, GatherStep) or (isinstance(step, JoinStep) and step.join == "start")


def _lining_short(written: Tube, lacking_mm: float) -> Diagnostic:
    return Diagnostic(
        "tube.lining-short",
        f"the lining is {lacking_mm / 10:.3g} cm shorter than the outside, and its end does "
        "not reach the top",
        "Make `lining:` as long as `visible:`, or leave it out, which makes it so",
        written.place.of("lining").span,
    )


def _too_large(written: Tube, tube: TubeRounds) -> Diagnostic:
    return Diagnostic(
        "tube.large",
        f"the tube comes to {tube.total_rounds:,} rounds of {tube.needles} stitches, more than the "
        f"{MOST_STITCHES:,} stitches that can be planned",
        "Check the lengths of the tube and the gauge",
        written.place.key_span,
    )


def _full_width(
    source: Source, piece: Piece, grid: Grid, needles: int
) -> tuple[tuple[str, ...], ...]:
    """The picture around the whole tube as yarns, bottom round first, left to right."""
    assert piece.picture is not None
    yarns = _picture_yarns(source, piece.picture.chart)
    unit = grid.width * (2 if piece.picture.mirror else 1)
    if needles % unit:
        raise PatternError([_too_wide(piece.picture, grid, needles)])
    rounds = []
    for line in grid.rounds:
        once = line[::-1] + line if piece.picture.mirror else line
        rounds.append(tuple(yarns[character] for character in once * (needles // unit)))
    return tuple(rounds)


def _picture_yarns(source: Source, chart_key: str) -> dict[str, str]:
    chart = source.pattern.charts[chart_key]
    found: dict[str, str] = {}
    for character, yarn in chart_yarns(chart).items():
        if yarn not in source.pattern.yarns:
            raise fail(
                "picture.yarn",
                f"`{character}` stands for `{yarn}`, which is no yarn of this pattern",
                "In a picture every character stands for a yarn; declare it under `yarns:`",
                chart.place.of("legend").of(character).span,
            )
        found[character] = yarn
    return found


def _too_wide(picture: Picture, grid: Grid, needles: int) -> Diagnostic:
    """Why a grid does not fill the needles, and which widths near its own do."""
    mirror = picture.mirror
    if mirror and needles % 2:
        return Diagnostic(
            "picture.mirror",
            f"a mirrored picture needs two equal halves, and {needles} needles have none",
            "Take `mirror: true` out, or use an even number of needles",
            picture.place.of("mirror").span,
        )
    whole = needles // 2 if mirror else needles
    fitting = [width for width in range(1, whole + 1) if whole % width == 0]
    near = sorted(sorted(fitting, key=lambda width: (abs(width - grid.width), -width))[:3])
    if mirror:
        what = f"the grid and its mirror image are {2 * grid.width} stitches wide"
    else:
        what = f"the grid is {grid.width} stitches wide"
    first, last = grid.span(1, grid.width), grid.span(1, 1)
    return Diagnostic(
        "picture.width",
        f"{what}, and do not fill {needles} needles evenly"
        if mirror
        else f"{what}, and does not fill {needles} needles evenly",
        f"Make every line of the grid {' or '.join(str(width) for width in near)} stitches wide",
        Span(first.file, first.line, first.column, last.end_line, last.end_column),
    )


def _too_high(picture: Picture, height: int, offset: int, room: int) -> Diagnostic:
    start = f" and starts {how_many(offset, 'round')} above the lower edge" if offset else ""
    fits = f", or draw {how_many(room - offset, 'round')} at most" if room > offset else ""
    return Diagnostic(
        "picture.height",
        f"the picture is {how_many(height, 'round')} high{start}, and the outside has "
        f"{how_many(room, 'round')}",
        f"Make `visible:` longer or the gauge tighter{fits}",
        picture.place.of("chart").span,
    )


def _under(piece: Piece, laid: _Laid, wanted: tuple[Wanted, ...], main: str) -> tuple[str, ...]:
    """The yarn of every round without what is drawn on it: that of its zone, of a wanted stripe, or
    above a picture the one named for that."""
    assert piece.tube is not None
    tube, above = laid.tube, piece.picture and piece.picture.above
    zones = zone_yarns(tube, piece.tube, main)
    if above:
        upper = zone_yarns(tube, piece.tube, above)
        zones = zones[: laid.last] + upper[laid.last :]
    lines = {round_: stripe.written.yarn for stripe in wanted for round_ in stripe.rounds}
    return tuple(lines.get(number, yarn) for number, yarn in enumerate(zones, start=1))


def _colours(laid: _Laid, under: tuple[str, ...]) -> ColourGrid:
    """The whole tube, the picture or motifs on what is ``under`` them."""
    rounds = [(yarn,) * laid.tube.needles for yarn in under]
    for number, row in enumerate(laid.picture, start=laid.first - 1):
        rounds[number] = tuple(
            yarn or ground for yarn, ground in zip(row, rounds[number], strict=True)
        )
    return ColourGrid(tuple(rounds))


def _fixed(
    piece: Piece, laid: _Laid, under: tuple[str, ...], wanted: tuple[Wanted, ...]
) -> tuple[tuple[int, str], ...]:
    """The rounds whose yarn is no choice: all of a tube without a picture; else wanted stripes,
    zones with a yarn of their own, and what nobody sees, where a change of yarn is for nothing.

    A yarn that is never to be a base is not, unless a wanted stripe names it.
    """
    assert piece.tube is not None
    lines = {round_ for stripe in wanted for round_ in stripe.rounds}
    rounds: set[int] = lines | set(own_yarn_rounds(laid.tube, piece.tube))
    if not laid.picture:
        rounds = set(range(1, len(under) + 1))
    return tuple(
        (round_, yarn)
        for round_ in sorted(rounds)
        if (yarn := under[round_ - 1]) not in piece.colour_plan.never_base or round_ in lines
    )


def _picture_plan(
    source: Source,
    piece: Piece,
    laid: _Laid,
    under: tuple[str, ...],
    wanted: tuple[Wanted, ...],
    gauge: Gauge,
    loop_mm: float,
) -> PicturePlan:
    _refuse_two_yarns_fed(source, piece)
    colours = _colours(laid, under)
    yarns = tuple(yarn for yarn in source.pattern.yarns if yarn in colours.yarns)
    tube, first, last = laid.tube, laid.first, laid.last
    wishes = piece.colour_plan
    rule = _thread_rule(wishes, loop_mm, gauge)
    options = replace(
        _options(wishes, gauge, first, last, rule), fixed=_fixed(piece, laid, under, wanted)
    )
    stripes = _stripes(wishes, options, colours, yarns)
    overlay = embroidered_cells(colours, stripes)
    embroidery = _embroidery(overlay, yarns, rule)
    mirrored = piece.picture is not None and piece.picture.mirror
    return PicturePlan(
        tube,
        first,
        last,
        mirrored,
        colours,
        stripes,
        overlay,
        embroidery,
        laid.motifs,
        options.fixed,
    )


@lru_cache(maxsize=32)
def _embroidery(overlay: Cells, yarns: tuple[str, ...], rule: ThreadRule) -> Embroidery:
    """Remembered as the stripes are."""
    return plan_embroidery(overlay, yarns, rule)


def _refuse_two_yarns_fed(source: Source, piece: Piece) -> None:
    """Raises where rounds of two yarns are asked of a machine that feeds one to all needles
    (common practice, no source), unless the designer lays them in by hand."""
    if piece.colour_plan.stranded is True and source.pattern.made.by == "machine":
        raise fail(
            "stripe.one-feed",
            "the machine feeds one yarn to all needles, and cannot knit a round in two",
            "Write `stranded: laid in by hand` if the yarns of these rounds are laid into the "
            "hooks one by one, or take `stranded:` out",
            piece.colour_plan.place.of("stranded").span,
        )


def _stripes(
    wishes: ColourPlan, options: StripeOptions, colours: ColourGrid, yarns: tuple[str, ...]
) -> StripePlan:
    """The stripe plan; faults in the wishes for it point at them."""
    try:
        return plan_stripes(colours, yarns, options)
    except PatternError as error:
        raise PatternError(
            replace(
                each, span=each.span or wishes.place.of(_WISH.get(each.id, "never base")).key_span
            )
            for each in error.findings
        ) from None


_WISH = {"stripe.time": "minutes per end", "stripe.minimum": "shortest stripe"}
"""The key of the wish that a finding is about, where it is not the yarns that are never a base."""


def _thread_rule(wishes: ColourPlan, loop_mm: float, gauge: Gauge) -> ThreadRule:
    """How strands are cut, as long as the designer likes them."""
    place = wishes.place.of("strand").span
    rule = ThreadRule(
        loop_mm,
        gauge.stitch_mm,
        strand_mm=parse_length(wishes.strand, place),
        tail_mm=parse_length(wishes.tail, wishes.place.of("tail").span),
    )
    try:
        refuse_short(rule)
    except PatternError as error:
        raise PatternError(replace(each, span=place) for each in error.findings) from None
    return rule


def _options(
    plan: ColourPlan, gauge: Gauge, first: int, last: int, rule: ThreadRule
) -> StripeOptions:
    """The designer's wishes; ``first`` to ``last`` are the rounds of the picture."""
    stranded = tuple(range(first, last + 1)) if plan.stranded else ()
    return StripeOptions(
        stranded_rounds=stranded,
        float_limit=float_limit(gauge.stitches_per()),
        minutes_per_stitch=plan.minutes_per_stitch,
        minutes_per_change=plan.minutes_per_change,
        minimum_rounds=plan.shortest_stripe,
        not_base=plan.never_base,
        minutes_per_end=plan.minutes_per_end,
        carry=plan.carry,
        thread=rule,
    )
