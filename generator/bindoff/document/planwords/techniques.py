"""Techniques side by side."""

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence

from bindoff.document.planwords.listing import Listing, groups, minute_words, span
from bindoff.document.voice import Voice
from bindoff.english import listed
from bindoff.plan.colour.embroidery import Area
from bindoff.plan.colour.technique import (
    Obstacle,
    Technique,
    TechniqueChoice,
)
from bindoff.plan.coloured import SizeColours
from bindoff.plan.persize import named
from bindoff.records import Record

_MARKS: Mapping[Obstacle, str] = {
    Obstacle.NOT_WHOLE_ROUNDS: "r",
    Obstacle.TOO_MANY_COLOURS: "c",
    Obstacle.LONG_FLOATS: "f",
    Obstacle.TUBE: "t",
    Obstacle.STIFF: "s",
    Obstacle.NOT_AVAILABLE: "m",
}


def rule(duplicate: str) -> str:
    """How the recommendation is found, in one sentence."""
    ways = listed([*(technique.value for technique in tuple(Technique)[:-1]), duplicate])
    return (
        "Of the techniques with no obstacle, the one with the fewest minutes more than plain "
        f"knitting is recommended (of equals the first of {ways}); where each of them meets an "
        f"obstacle, it is {duplicate}, which can be worked on any plain fabric."
    )


def technique_parts(
    voice: Voice, colours: Sequence[SizeColours], whole: str
) -> Iterator[str | Listing]:
    """The choices for bands and areas, and what their marks mean."""
    duplicate = voice.term["duplicate_stitch"]
    yield (
        f"Techniques side by side, with the minutes each adds. {rule(duplicate)} "
        "An area is priced as if it were alone on plain rounds."
    )
    bands = [each.bands() for each in colours]
    areas = [each.area_choices() for each in colours]
    yield from _choice_listings(
        voice,
        f"Bands of rounds, counted from round 1 of the {whole}",
        ("Rounds", "Yarns"),
        "<<",
        [tuple(_band_row(voice, band) for band in each) for each in bands],
    )
    if any(areas):
        yield from _choice_listings(
            voice,
            f"Areas of touching stitches, counted from round 1 of the {whole}",
            ("Rounds", "Yarn", "Stitches each", "Areas"),
            "<<>>",
            [_area_rows(voice, each) for each in areas],
        )
    met = {
        obstacle
        for each in (*bands, *([choice for _, choice in found] for found in areas))
        for choice in each
        for price in choice.prices
        for obstacle in price.obstacles
    }
    words = _obstacles(voice, colours)
    marks = [f"{_MARKS[obstacle]} {words[obstacle]}" for obstacle in Obstacle if obstacle in met]
    if marks:
        yield f"Obstacles: {'; '.join(marks)}."


class _ChoiceRow(Record):
    """A row of a table of choices; sizes that differ in ``count`` and ``minutes`` share a table.

    ``count`` is the number of areas, empty for a band.
    """

    start: tuple[str, ...]
    count: str
    marks: tuple[str, ...]
    minutes: tuple[str, ...]
    recommended: str

    @property
    def cells(self) -> tuple[str, ...]:
        prices = (f"{m} {n}".strip() for m, n in zip(self.marks, self.minutes, strict=True))
        count = (self.count,) if self.count else ()
        return (*self.start, *count, *prices, self.recommended)


def _choice_row(
    voice: Voice, choice: TechniqueChoice, start: tuple[str, ...], count: str = ""
) -> _ChoiceRow:
    duplicate = voice.term["duplicate_stitch"]
    return _ChoiceRow(
        start,
        count,
        tuple("".join(_MARKS[each] for each in price.obstacles) for price in choice.prices),
        tuple(
            "–" if price.minutes is None else minute_words(price.minutes) for price in choice.prices
        ),
        duplicate if choice.recommended is Technique.DUPLICATE else choice.recommended.value,
    )


def _band_row(voice: Voice, band: TechniqueChoice) -> _ChoiceRow:
    yarns = ", ".join(voice.yarn_names[yarn] for yarn in band.yarns)
    return _choice_row(voice, band, (span(band.first, band.last), yarns))


def _area_rows(
    voice: Voice, areas: Sequence[tuple[Area, TechniqueChoice]]
) -> tuple[_ChoiceRow, ...]:
    """One row for all areas that agree in everything but their place in the round."""
    counts = Counter((area.stitches, choice) for area, choice in areas)
    ordered = sorted(counts, key=lambda each: (each[1].first, each[1].last))
    return tuple(
        _choice_row(
            voice,
            choice,
            (
                span(choice.first, choice.last),
                voice.yarn_names[choice.yarns[0]],
                str(stitches),
            ),
            str(counts[stitches, choice]),
        )
        for stitches, choice in ordered
    )


def _choice_listings(
    voice: Voice,
    caption: str,
    start: tuple[str, ...],
    align: str,
    rows: Sequence[tuple[_ChoiceRow, ...]],
) -> Iterator[Listing]:
    duplicate = voice.term["duplicate_stitch"].capitalize()
    techniques = tuple(technique.value.capitalize() for technique in tuple(Technique)[:-1])
    columns = (*start, *techniques, duplicate, "Recommended")
    shapes = [tuple((r.start, r.marks, r.recommended) for r in each) for each in rows]
    for sizes, index in groups(voice.sizes, shapes):
        same = {rows[voice.sizes.index(size)] for size in sizes}
        differ = "minutes and numbers of areas" if rows[index][0].count else "minutes"
        words = named(sizes)
        if len(same) > 1:
            words = f"{named(sizes[:1])} ({listed(sizes[1:])}: only {differ} differ)"
        cells = tuple(row.cells for row in rows[index])
        yield Listing(f"{caption}, {words}", columns, f"{align}>>>><", cells)


def _obstacles(voice: Voice, colours: Sequence[SizeColours]) -> Mapping[Obstacle, str]:
    limits = sorted({each.rule.float_limit for each in colours})
    carried = max(each.rule.colours_stranded for each in colours)
    return {
        Obstacle.NOT_WHOLE_ROUNDS: f"a round has more than one {voice.term['color']}",
        Obstacle.TOO_MANY_COLOURS: f"a round has more than {carried} {voice.term['colors']}",
        Obstacle.LONG_FLOATS: f"a float passes more than {listed(map(str, limits), 'or')} stitches",
        Obstacle.TUBE: "in a tube the yarns end a round on the wrong side of their block",
        Obstacle.STIFF: "an area is too large to be covered with a second layer of yarn",
        Obstacle.NOT_AVAILABLE: "the machine feeds one yarn to all needles",
    }
