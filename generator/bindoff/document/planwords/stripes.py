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
    return Section(
        f"{piece.title}: base stripes",
        (
            "Every round is knitted in one yarn, as the zones and stripes of the tube want it. "
            f"Counted are {weights.minutes_per_change:g} minutes for a change of yarn."
            if not tube.colours
            else "Every round is knitted in one base yarn, and what differs from it is "
            f"embroidered. Counted are {weights.minutes_per_stitch:g} minutes for an embroidered "
            f"stitch and {weights.minutes_per_change:g} for a change of yarn, in stripes of at "
            f"least {weights.shortest_stripe} {rounds}."
            + (f" Never a base: {listed(barred)}." if barred else ""),
            _work_listing(voice, tube),
            *_stripe_listings(voice, tube),
            *(technique_parts(voice, tube.colours, "picture") if tube.colours else ()),
        ),
    )


def _work_listing(voice: Voice, tube: TubeColours) -> Listing:
    """What each size's plan makes of the tube, beside one base throughout."""
    names = voice.yarn_names
    stripes = [plan.stripes for plan in tube.plans]
    weights = voice.plan.source.pattern.pieces[tube.piece].colour_plan
    embroidered = [dict(each.embroidered) for each in stripes]
    yarns = [yarn for yarn in names if any(each.get(yarn) for each in embroidered)]
    changes = [each.change_count * weights.minutes_per_change for each in stripes]
    if not tube.colours:
        return sized_listing(
            voice,
            "The work in each size",
            [
                ("Rounds in all", [plan.tube.total_rounds for plan in tube.plans]),
                ("Rounds that are seen", [seen(plan) for plan in tube.plans]),
                ("Stripes", [len(each.stripes) for each in stripes]),
                ("Changes of yarn", [each.change_count for each in stripes]),
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
        *((f"Embroidered in {names[y]}", [each.get(y, 0) for each in embroidered]) for y in yarns),
        ("Embroidered in all", [each.embroidered_total for each in stripes]),
        (
            "Minutes, embroidery",
            [minute_words(e.minutes - c) for e, c in zip(stripes, changes, strict=True)],
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
