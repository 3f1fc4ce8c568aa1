"""The fifty points of a technical editor's checklist: who answers each.

The points are those of published guides to technical editing of knitting patterns, in our own
words; the guides agree on the areas. A point is answered by checks and proofs (their ids), by the
structure of the program (why it can't be got wrong), or it needs a person (what is left to do).
"""

from dataclasses import dataclass

import pytest

from bindoff.checks.allchecks import CHECKS
from bindoff.checks.proofs import PROOFS


@dataclass(frozen=True, slots=True)
class Point:
    """One point. At least one of the three answers is given; a point may need several."""

    number: int
    asks: str
    ids: tuple[str, ...] = ()
    structure: str = ""
    person: str = ""


POINTS = (
    Point(
        1,
        "title, designer, date and version on every page",
        ("source.missing", "source.format", "version.date"),
        "the head can't lack them, and the page foot prints them",
    ),
    Point(2, "photograph matches the text", person="look at the sample beside the pattern"),
    Point(3, "the description belongs to this design", person="read the summary"),
    Point(4, "skill is stated", ("head.skill",)),
    Point(
        5,
        "finished size and to-fit size are both given",
        ("source.missing", "source.size-measurement", "body.range"),
        "one table has bodies and finished measures",
    ),
    Point(6, "ease is stated and suits the piece", ("fit.ease", "fit.even"), "a note explains it"),
    Point(
        7,
        "sizes are in the same order everywhere",
        ("size.order", "prose.sizes"),
        "every figure per size is a tuple in the pattern's order",
    ),
    Point(
        8,
        "every size has every number",
        ("amount.sizes", "source.size-measurement", "amount.whole", "prose.sizes"),
    ),
    Point(
        9,
        "both units, and they agree",
        ("prose.inches", "prose.units", "length.without-unit"),
        "printed units are each rounded from the exact millimetres",
    ),
    Point(
        10,
        "yarn: name, fibre, weight, metres and grams of a ball",
        ("source.missing", "ball.malformed", "yarn.fibre", "yarn.weight-gauge", "yarn.ball-length"),
    ),
    Point(
        11,
        "amount of each colour in each size, with a reserve",
        ("yarn.unused", "yarn.swatch"),
        "the amounts are computed from the stitches and rounded up to balls",
    ),
    Point(
        12,
        "colours are named and lettered alike in text, chart and key",
        ("yarn.same-name", "colour.alike", "symbol.same"),
        "text, chart and key read one name and one symbol of each yarn",
    ),
    Point(
        13,
        "needles in mm and US sizes, kinds and lengths",
        ("tool.size", "tool.gauge"),
        person="whether kind and length suit the piece",
    ),
    Point(14, "tools listed are used, tools used are listed", ("tool.missing", "tool.unused")),
    Point(
        15,
        "notions and how many of them",
        ("marker.count", "notion.count", "tool.missing"),
        person="count the notions that no text names",
    ),
    Point(
        16,
        "gauge over 10 cm, in the stitch that is used, and its state",
        ("gauge.short", "gauge.words", "gauge.swapped", "gauge.unused"),
        "a gauge is always unwashed, washed or blocked",
    ),
    Point(17, "gauge times stitches is each stated width", ("stated.width", "measure.rounding")),
    Point(18, "gauge times rounds is each stated height", ("stated.height",)),
    Point(
        19,
        "the cast-on divides by the repeat, in every size",
        ("row.left-over", "chart.width", "crown.wedges"),
    ),
    Point(
        20,
        "a stitch count after every shaping row",
        structure="the count follows every step that changes it, and a table lists all",
    ),
    Point(
        21,
        "the running count is what the next instruction starts from",
        ("row.too-many", "row.too-few", "piece.still-live", "piece.held"),
    ),
    Point(
        22,
        "increases and decreases add up",
        ("even.direction", "even.room", "taper.count", "taper.change", "row.left-over"),
    ),
    Point(23, "the pace of a taper fits its rows", ("taper.room",)),
    Point(24, "repeats close, or the last part is said", ("row.left-over", "chart.part-repeat")),
    Point(25, "multiples in words are the chart's width", ("chart.width", "picture.width")),
    Point(
        26,
        "right and wrong side rows alternate",
        structure="sides are counted from the cast-on; chart rows and tapers read that count",
    ),
    Point(
        27,
        "round or flat wording is right",
        ("wording.rows-in-tube", "wording.rounds-in-panel"),
        "steps say round or row as the piece is worked",
    ),
    Point(28, "join without twist, marker for the start", ("edge.join", "marker.count")),
    Point(
        29,
        "every marker placed is used",
        ("marker.unused", "row.no-marker", "row.past-marker", "row.across-marker"),
    ),
    Point(30, "left and right pieces mirror each other", ("piece.mirror",)),
    Point(31, "shaping is symmetrical where it should be", ("shaping.lean", "crown.shape")),
    Point(
        32,
        "abbreviations are listed, used and defined once",
        ("abbreviation.undefined", "row.unknown-stitch", "row.stitch-taken"),
        "the list holds what the rows use",
    ),
    Point(33, "special stitches are explained", ("stitch.how", "stitch.unused")),
    Point(
        34,
        "brackets and asterisks are paired",
        ("row.unreadable", "row.star-inside", "prose.brackets"),
    ),
    Point(
        35,
        "chart and words agree, row by row",
        structure="the written rows are made from the same cells as the drawing",
    ),
    Point(
        36,
        "the chart's key is complete, and holds nothing more",
        (
            "source.grid-character",
            "chart.legend-unused",
            "chart.legend-twice",
            "chart.legend-letters",
            "chart.one-symbol",
        ),
    ),
    Point(
        37,
        "numbering and direction of charts are stated",
        structure="numbers stand where the row starts, and a note says how to read it",
    ),
    Point(38, "floats stay within reach, or catching is said", ("float.long", "chart.three-yarns")),
    Point(
        39,
        "labels of the schematic match the numbers, in all sizes",
        ("stated.width", "stated.height", "schematic.size"),
    ),
    Point(
        40,
        "yarn of each colour agrees with the charts",
        structure="yarn is counted from the stitches of the charts",
    ),
    Point(
        41,
        "seams and joins match in length",
        ("piece.mirror",),
        person="compare the edges that the finishing sews together",
    ),
    Point(42, "the cast-off suits the opening", ("edge.stretch",)),
    Point(
        43,
        "finishing in order: weave, wash, block to measurements",
        structure="notes on weaving in and on blocking are always printed, in that order",
        person="read the finishing text",
    ),
    Point(
        44,
        "care and safety fit the one who wears it",
        (
            "wearer.sizes",
            "wearer.hazards",
            "wearer.safety",
            "wearer.words",
            "care.fibre",
            "care.twice",
        ),
        "cautions follow from wearer, hazards, fibre and machine",
    ),
    Point(
        45,
        "links work; credits and rights are there",
        ("prose.link",),
        "rights are printed even when none are written",
        "try the links; ask whose work it rests on",
    ),
    Point(
        46,
        "one style: repeats, capitals, units, numbers",
        ("prose.doubled", "prose.unfinished", "title.twice"),
        "rows, counts and units are printed in one house style",
    ),
    Point(47, "US or UK spelling, and terms declared", ("prose.spelling", "source.choice")),
    Point(
        48,
        "page heads, page count, alternative text",
        ("alt.words", "source.missing"),
        "every page has its number, and no picture can lack its text",
    ),
    Point(
        49,
        "the instructions hold without the chart",
        ("chart.unused",),
        "every chart is written out in words, and the text edition holds all",
    ),
    Point(50, "contact for corrections, and a version note", ("head.contact", "version.changes")),
)


def test_all_fifty_points_are_there_in_order() -> None:
    assert [point.number for point in POINTS] == list(range(1, 51))


@pytest.mark.parametrize("point", POINTS, ids=lambda point: f"{point.number}")
def test_every_point_is_answered(point: Point) -> None:
    assert point.ids or point.structure or point.person


@pytest.mark.parametrize("point", POINTS, ids=lambda point: f"{point.number}")
def test_every_id_that_answers_a_point_is_declared(point: Point) -> None:
    declared = {check.id for check in CHECKS} | {proof.id for proof in PROOFS}

    assert set(point.ids) <= declared


def test_few_points_are_left_to_a_person_alone() -> None:
    alone = [point.number for point in POINTS if not (point.ids or point.structure)]

    assert alone == [2, 3]
