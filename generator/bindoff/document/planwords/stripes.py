"""Base stripes of a tube."""

from collections.abc import Iterable, Iterator

from bindoff.document.planwords.listing import (
    Listing,
    Section,
    groups,
    minute_words,
    sized_listing,
    span,
)
from bindoff.document.planwords.techniques import technique_parts
from bindoff.document.voice import Voice
from bindoff.english import listed
from bindoff.plan.coloured import TubeColours, embroidered_on, seen
from bindoff.plan.persize import named
from bindoff.plan.picture import PicturePlan


def tube_section(voice: Voice, tube: TubeColours) -> Section:
    """A tube: the work in each size, its stripes, and the techniques side by side."""
    piece = voice.plan.source.pattern.pieces[tube.piece]
    weights = piece.colour_plan
    rounds = "round" if weights.shortest_stripe == 1 else "rounds"
    barred = [voice.yarn_names[yarn] for yarn in weights.never_base]
    carried = (
        f" A yarn that rests for {weights.carry} rounds or fewer is carried up, which saves its "
        "two ends."
        if weights.carry
        else ""
    )
    ends = (
        f" Of a change its two ends take {2 * weights.minutes_per_end:g}, and the ends of a strand "
        "count as much."
        if weights.minutes_per_end
        else " The ends of strands are not counted: say how long one takes under `minutes per end`."
    )
    return Section(
        f"{piece.title}: base stripes",
        (
            "Every round is knitted in one yarn, as the zones and stripes of the tube want it. "
            f"Counted are {weights.minutes_per_change:g} minutes for a change of yarn.{carried}"
            if not tube.colours
            else "Every round is knitted in one base yarn, and what differs from it is "
            f"embroidered. Counted are {weights.minutes_per_stitch:g} minutes for an embroidered "
            f"stitch and {weights.minutes_per_change:g} for a change of yarn, in stripes of at "
            f"least {weights.shortest_stripe} {rounds}."
            + ends
            + carried
            + _proved(tube)
            + (f" Never a base: {listed(barred)}." if barred else ""),
            _work_listing(voice, tube),
            *_stripe_listings(voice, tube),
            *(technique_parts(voice, tube.colours, "picture") if tube.colours else ()),
        ),
    )


def _proved(tube: TubeColours) -> str:
    """Whether every size's plan is sure to be the cheapest, and else how near to it it is."""
    more = max(plan.stripes.minutes - plan.stripes.least_minutes for plan in tube.plans)
    if more < 1e-6:
        return " No plan takes less time."
    return f" A plan that takes less time, if there is one, takes at most {more:.0f} minutes less."


def _work_listing(voice: Voice, tube: TubeColours) -> Listing:
    """What each size's plan makes of the tube, beside one base throughout."""
    names = voice.yarn_names
    stripes = [plan.stripes for plan in tube.plans]
    weights = voice.plan.source.pattern.pieces[tube.piece].colour_plan
    embroidered = [dict(each.embroidered) for each in stripes]
    yarns = [yarn for yarn in names if any(each.get(yarn) for each in embroidered)]
    resumed = weights.minutes_per_change - 2 * weights.minutes_per_end
    changes = [
        each.change_count * weights.minutes_per_change + each.resumed * resumed for each in stripes
    ]
    strands = [2 * plan.strands for plan in tube.plans]
    of_strands = [2 * each.strands * weights.minutes_per_end for each in stripes]
    if not tube.colours:
        return sized_listing(
            voice,
            "The work in each size",
            [
                ("Rounds in all", [plan.tube.total_rounds for plan in tube.plans]),
                ("Rounds that are seen", [seen(plan) for plan in tube.plans]),
                ("Stripes", [len(each.stripes) for each in stripes]),
                ("Changes of yarn", [each.change_count for each in stripes]),
                ("Yarns carried up", [each.resumed for each in stripes]),
                ("Ends", [each.ends for each in stripes]),
                ("Minutes, changes of yarn", [minute_words(each) for each in changes]),
            ],
        )
    rows: list[tuple[str, Iterable[object]]] = [
        ("Rounds in all", [plan.tube.total_rounds for plan in tube.plans]),
        ("Rounds that are seen", [seen(plan) for plan in tube.plans]),
        ("Picture, first round", [plan.first for plan in tube.plans]),
        ("Picture, last round", [plan.last for plan in tube.plans]),
        ("Stripes", [len(each.stripes) for each in stripes]),
        ("Changes of yarn", [each.change_count for each in stripes]),
        ("Yarns carried up", [each.resumed for each in stripes]),
        ("Ends of stripes", [each.ends for each in stripes]),
        ("Ends of strands", strands),
        *((f"Embroidered in {names[y]}", [each.get(y, 0) for each in embroidered]) for y in yarns),
        ("Embroidered in all", [each.embroidered_total for each in stripes]),
        (
            "Minutes, embroidery",
            [
                minute_words(e.minutes - c - s)
                for e, c, s in zip(stripes, changes, of_strands, strict=True)
            ],
        ),
        *(
            (("Minutes, ends of strands", [minute_words(each) for each in of_strands]),)
            if weights.minutes_per_end
            else ()
        ),
        ("Minutes, changes of yarn", [minute_words(each) for each in changes]),
        ("Minutes in all", [minute_words(each.minutes) for each in stripes]),
        ("One base throughout: yarn", [names[each.single.yarn] for each in stripes]),
        ("One base throughout: embroidered", [each.single.embroidered for each in stripes]),
        ("One base throughout: minutes", [minute_words(each.single.minutes) for each in stripes]),
        ("Saved: embroidered stitches", [each.stitches_saved for each in stripes]),
        ("Saved: minutes", [minute_words(each.minutes_saved) for each in stripes]),
    ]
    return sized_listing(voice, "The work in each size", rows)


def _stripe_listings(voice: Voice, tube: TubeColours) -> Iterator[Listing]:
    """The stripes, one table for all sizes that have the same."""
    rows = [_stripe_rows(voice, plan) for plan in tube.plans]
    for sizes, index in groups(voice.sizes, rows):
        yield Listing(
            f"Stripes from the cast-on up, {named(sizes)}",
            ("Rounds", "Count", "Base", "Embroidered on it"),
            "<><<",
            rows[index],
        )


def _stripe_rows(voice: Voice, plan: PicturePlan) -> tuple[tuple[str, ...], ...]:
    names = voice.yarn_names
    rows = []
    for stripe in plan.stripes.stripes:
        on_it = embroidered_on(plan, stripe)
        told = ", ".join(f"{names[yarn]} {count}" for yarn, count in on_it.items()) or "–"
        rounds = span(stripe.first, stripe.last)
        rows.append((rounds, str(stripe.rounds), names[stripe.yarn], told))
    return tuple(rows)
