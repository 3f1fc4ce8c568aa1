"""The tube in words: the counter table of its stripes, what the plan saves, the embroidery."""

from collections.abc import Sequence
from dataclasses import dataclass

from generator.document.phrases import join, listed, paragraph, text
from generator.document.tree import Blocks, Column, Inlines, Link, Paragraph, Table, TableRow
from generator.document.units import per_size
from generator.document.voice import Voice
from generator.plan.colour.embroidery import Area, YarnThread
from generator.plan.colour.mirror import Mirror, mirror_pairs
from generator.plan.picture import PicturePlan
from generator.plan.tube import Part

WASTE_ROUNDS = 8
"""Rounds in waste yarn before and after the main yarn; common practice, no source."""

Event = tuple[str, int]
"""What happens, and after how many rounds."""


def stripe_blocks(voice: Voice, plans: Sequence[PicturePlan]) -> Blocks:
    """How the tube is knitted: cast-on, counter table, waste yarn, and the work it saves."""
    first = plans[0]
    needles = first.tube.needles
    base = voice.yarn_names[first.stripes.bases[0]]
    return (
        paragraph(
            f"Cast on all {needles} needles with waste yarn and crank at least {WASTE_ROUNDS} "
            f"rounds. Set the counter to 0 and join {base}."
        ),
        paragraph(_markers(first)),
        paragraph(
            "Crank to the number in the table, stop, do what the row says, and go on. Every "
            "number is what the counter shows when the round is finished."
        ),
        *_tables(voice, plans),
        paragraph(
            f"Change back to waste yarn, crank {WASTE_ROUNDS} rounds, and take the tube off the "
            "machine."
        ),
        paragraph(*_saving(voice, plans)),
    )


def _markers(plan: PicturePlan) -> str:
    if len(plan.tube.markers) == 1:
        return "Mark needle 1, where every round starts."
    one, half = plan.tube.markers
    return (
        f"Mark needle {one}, where every round starts, and needle {half}, where the second half "
        "starts: they are the two sides of the hat."
    )


def _tables(voice: Voice, plans: Sequence[PicturePlan]) -> tuple[Table, ...]:
    """One table if the same things happen in the same order in all sizes, else one for each."""
    events = [_events(voice, plan) for plan in plans]
    names = [[what for what, _ in each] for each in events]
    if all(each == names[0] for each in names):
        rows = [(what, [each[index][1] for each in events]) for index, what in enumerate(names[0])]
        return (_table(rows, "Counter table", voice.sizes),)
    return tuple(
        _table([(what, [count]) for what, count in each], f"Counter table, size {size}", ("Round",))
        for size, each in zip(voice.sizes, events, strict=True)
    )


def _table(
    rows: Sequence[tuple[str, Sequence[int]]], caption: str, sizes: tuple[str, ...]
) -> Table:
    many = len(sizes) > 1
    columns = (
        Column(text("Then"), weight=3.0),
        *(
            Column(text(size), align="right", size=index if many else None)
            for index, size in enumerate(sizes)
        ),
    )
    return Table(
        text(f"{caption}: after which round to stop"),
        columns,
        tuple(TableRow((text(what), *(text(str(c)) for c in counts))) for what, counts in rows),
    )


def _events(voice: Voice, plan: PicturePlan) -> list[Event]:
    """Changes of yarn, the fold and the end, in order of the counter."""
    names = voice.yarn_names
    found: list[tuple[int, int, str]] = []
    for change in plan.stripes.changes:
        cut = listed(names[yarn] for yarn in change.drop)
        join_ = listed(names[yarn] for yarn in change.take_up)
        words = ", ".join(
            part for part in (f"cut {cut}" if cut else "", f"join {join_}" if join_ else "") if part
        )
        found.append((change.counter, 1, words[:1].upper() + words[1:]))
    for part, words in _PLACES.items():
        segment = plan.tube.segment(part)
        if segment is not None:
            found.append((segment.last, 0, words))
    found.append((plan.tube.total_rounds, 2, "The main yarn ends; change to waste yarn"))
    return [(words, counter) for counter, _, words in sorted(found)]


_PLACES = {
    Part.LINING: "Lining done: mark this round, the lining side of the brim starts",
    Part.LINING_BRIM: "Mark this round: the fold line",
    Part.OUTER_BRIM: "Brim done: mark this round, the visible side starts",
}


def _saving(voice: Voice, plans: Sequence[PicturePlan]) -> tuple[Inlines | str, ...]:
    stripes = [plan.stripes for plan in plans]
    single = voice.yarn_names[stripes[0].single.yarn]
    saved = [plan.stitches_saved for plan in stripes]
    minutes = [plan.minutes_saved for plan in stripes]
    left = per_size([plan.embroidered_total for plan in stripes])
    if min(saved) <= 0:
        return ("This leaves ", left, " stitches to embroider.")
    hours = per_size([_hours(each) for each in minutes])
    return (
        "Knitted in these stripes, the tube leaves ",
        left,
        " stitches to embroider. That is ",
        per_size(saved),
        f" fewer than on a tube knitted in {single} throughout, and about ",
        hours,
        " less work in all, with the changes of yarn counted in.",
    )


def _hours(minutes: float) -> str:
    if minutes < 90:
        return f"{round(minutes / 10) * 10} minutes"
    return f"{round(minutes / 30) / 2:g} hours"


# ---------------------------------------------------------------- embroidery


def embroidery_blocks(voice: Voice, piece: str, plans: Sequence[PicturePlan]) -> Blocks:
    """What is embroidered, by yarn and by area, and where the picture lies on the tube."""
    technique = voice.term["duplicate_stitch"]
    return (
        Paragraph(
            join(
                f"Work the picture in {technique} from the ",
                (Link(text("embroidery chart"), f"#chart-embroidery-{piece}"),),
                ". The chart numbers the rounds of the picture; its round 1 is round ",
                per_size([plan.first for plan in plans]),
                " of the tube, and stitch 1 of the chart is stitch 1 of the round.",
                _mirror(plans[0]),
            )
        ),
        _thread_table(voice, plans),
        *_area_tables(voice, plans),
    )


def _mirror(plan: PicturePlan) -> str:
    if not plan.mirrored:
        return ""
    half = plan.tube.needles // 2
    return (
        f" The back mirrors the front: what is at stitch s of the front half is again at stitch "
        f"{plan.tube.needles + 1} minus s, with the mirror line between stitches {half} and "
        f"{half + 1}."
    )


def _thread_table(voice: Voice, plans: Sequence[PicturePlan]) -> Table:
    """Areas, stitches, strands and thread of every yarn, per size where they differ."""
    each_mm, unit = (914.4, "yd") if voice.units == "imperial" else (1000.0, "m")
    rows = []
    for yarn, name in voice.yarn_names.items():
        threads = [_thread(plan, yarn) for plan in plans]
        if any(thread.stitches for thread in threads):
            cells = (
                [thread.areas for thread in threads],
                [thread.stitches for thread in threads],
                [thread.strands for thread in threads],
                [f"{thread.thread_mm / each_mm:.1f}" for thread in threads],
            )
            rows.append(TableRow((text(name), *(per_size(cell) for cell in cells))))
    return Table(
        text("Embroidery by yarn"),
        (
            Column(text("Yarn"), weight=2.0),
            Column(text("Areas"), align="right"),
            Column(text("Stitches"), align="right"),
            Column(text("Strands"), align="right"),
            Column(text(f"Thread, {unit}"), align="right"),
        ),
        tuple(rows),
    )


def _thread(plan: PicturePlan, yarn: str) -> YarnThread:
    nothing = YarnThread(yarn, 0, 0, 0, 0, 0.0)
    return next((t for t in plan.embroidery.threads if t.yarn == yarn), nothing)


def _area_tables(voice: Voice, plans: Sequence[PicturePlan]) -> tuple[Table, ...]:
    """The areas in working order; one table if all sizes agree, as rounds of the picture."""
    lists = [_areas(plan) for plan in plans]
    mirrored = plans[0].mirrored
    if all(each == lists[0] for each in lists):
        return (_area_table(voice, lists[0], "Areas in working order, bottom to top", mirrored),)
    return tuple(
        _area_table(voice, each, f"Areas in working order, size {size}", mirrored)
        for size, each in zip(voice.sizes, lists, strict=True)
    )


@dataclass(frozen=True, slots=True)
class _AreaRow:
    """An area as the table prints it, rounds counted within the picture.

    ``again`` is the stitch at which its mirror image starts, ``None`` where it is its own image or
    the picture has none.
    """

    yarn: str
    first: int
    last: int
    round_: int
    stitch: int
    stitches: int
    again: int | None


def _areas(plan: PicturePlan) -> list[_AreaRow]:
    """The areas of a plan; of two that mirror each other, only the first."""
    areas = plan.embroidery.areas
    images: dict[int, int] = {}
    if plan.mirrored:
        axis = Mirror((plan.tube.needles + 1) / 2, None)
        images = dict(mirror_pairs(plan.embroidery, plan.tube.needles, axis))
    second = set(images.values())
    return [
        _area_row(area, plan, index in images)
        for index, area in enumerate(areas)
        if index not in second
    ]


def _area_row(area: Area, plan: PicturePlan, has_image: bool) -> _AreaRow:
    round_, stitch = area.cells[0]
    below = plan.first - 1
    return _AreaRow(
        area.yarn,
        area.first_round - below,
        area.last_round - below,
        round_ - below,
        stitch,
        area.stitches,
        plan.tube.needles + 1 - stitch if has_image else None,
    )


def _area_table(voice: Voice, areas: list[_AreaRow], caption: str, mirrored: bool) -> Table:
    rows = []
    for number, area in enumerate(areas, start=1):
        rounds = f"{area.first}" if area.first == area.last else f"{area.first} to {area.last}"
        cells = [
            str(number),
            voice.yarn_names[area.yarn],
            rounds,
            f"round {area.round_}, stitch {area.stitch}",
            str(area.stitches),
        ]
        if mirrored:
            cells.append(f"stitch {area.again}" if area.again else "–")
        rows.append(TableRow(tuple(text(cell) for cell in cells)))
    columns = [
        Column(text("Area"), align="right"),
        Column(text("Yarn")),
        Column(text("Rounds")),
        Column(text("Start")),
        Column(text("Stitches"), align="right"),
    ]
    if mirrored:
        columns.append(Column(text("Mirrored at")))
    return Table(text(caption), tuple(columns), tuple(rows))
