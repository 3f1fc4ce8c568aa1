"""How a pattern speaks: rows, measures, abbreviations and the names that prose may print."""

import pytest

from bindoff.diagnostics import Span
from bindoff.document.prose import inlines
from bindoff.document.tree import SizeValues
from bindoff.document.voice import body_label, body_rows, number
from bindoff.source.rowlang.parse import parse_row
from tests.document.patterns import FOAM, SLATE, data, printed, voice

STEPS = [{"cast on": "n"}, {"bind off": "all"}]


def said(markdown: str, **changes: object) -> str:
    """Prose of the pattern with its names filled in."""
    return printed(inlines(markdown, voice(data(STEPS, 2, **changes)).values))


def test_prose_prints_measures_with_their_unit_and_counts_without() -> None:
    measures = {"n": [40, 48], "few": 8, "wide": "width(n)", "share": "n / 100"}

    assert said("{{ n }}", measures=measures) == "40 (48)"
    assert said("{{ few }}", measures=measures) == "8"
    assert said("{{ wide }}", measures=measures) == "20 (24) cm / 7¾ (9½) in"
    assert said("{{ share }}", measures=measures) == "0.4 (0.48)"


def test_prose_prints_body_measurements_needles_yarns_and_terms() -> None:
    made = {"by": "machine", "needles": 48}
    sizes = {"A": {"hand length": "17 cm"}, "B": {"hand length": "19 cm"}}
    yarns = {"slate": SLATE, "foam": FOAM}
    steps = [*STEPS, {"cast on": "n", "yarn": "foam"}, {"bind off": "all", "yarn": "foam"}]
    pieces = {"cap": {"title": "Cap", "steps": steps}}
    more = {"made": made, "sizes": sizes, "yarns": yarns, "pieces": pieces, "terms": "UK"}

    assert said("{{ hand_length }}", **more) == "17 (19) cm / 6¾ (7½) in"
    assert said("{{ needles }}", **more) == "48"
    assert said("{{ yarns.foam }} {{ terms.color }}", **more) == "Foam colour"


@pytest.mark.parametrize(("terms", "abbreviation"), [("US", "sc"), ("UK", "dc")])
def test_abbreviations_follow_the_terms(terms: str, abbreviation: str) -> None:
    """US single crochet is UK double crochet (Craft Yarn Council's chart, from memory)."""
    assert voice(data(STEPS, terms=terms)).abbreviation("sc")[0] == abbreviation


def test_a_row_says_the_numbers_of_all_sizes_and_the_names_of_yarns() -> None:
    speaker = voice(data(STEPS))
    text = "k{n} in slate, p to end"
    span = Span("pattern.yaml", 1, 1, 1, 1 + len(text))
    row = parse_row(text, span, speaker.plan.book, ("slate",))

    assert printed(speaker.row(row)) == "K40 (48) in Slate, p to end."
    assert SizeValues(("40", "48")) in speaker.row(row)


@pytest.mark.parametrize(
    ("value", "figure"), [(48.0, "48"), (0.48, "0.48"), (1_234_567.0, "1234567"), (-3.0, "−3")]
)
def test_a_figure_without_a_unit_is_never_in_powers_of_ten(value: float, figure: str) -> None:
    assert number(value) == figure


def test_only_bodies_that_are_written_or_read_are_told() -> None:
    """A standard body has many measurements; those that shape the piece are printed."""
    sizes = {"A": {"like": "woman S"}, "B": {"like": "woman M"}}
    measures = {"n": "stitches(chest, multiple = 8)", "few": 8}
    plan = voice(data(STEPS, sizes=sizes, measures=measures)).plan
    (chest,) = body_rows(plan)

    assert chest[0] == "chest"
    assert len(plan.measures.sizes[0].body) > 1


def test_a_measure_around_a_part_whose_length_is_told_too_says_so() -> None:
    """A foot of 18 cm may be long or wide."""
    foot = {"foot": "20 cm"}
    plan = voice(data(STEPS, sizes=dict.fromkeys("AB", foot | {"foot length": "24 cm"}))).plan
    alone = voice(data(STEPS, sizes=dict.fromkeys("AB", foot))).plan

    assert body_label(plan, "foot") == "foot, around"
    assert body_label(plan, "foot length") == "foot length"
    assert body_label(alone, "foot") == "foot"


def test_a_body_of_the_tables_says_where_it_is_taken() -> None:
    """Measured waists lie at the navel; a designer's own may lie anywhere, and chests have one
    place."""
    like = {"A": {"like": "woman S"}, "B": {"like": "woman M"}}
    own = {"A": {"like": "woman S"}, "B": {"like": "woman M", "waist": "80 cm"}}
    measures = {"n": "stitches(waist + chest, multiple = 8)", "few": 8}

    for sizes, name, label in (
        (like, "waist", "waist (at the navel)"),
        (own, "waist", "waist"),
        (like, "chest", "chest"),
    ):
        plan = voice(data(STEPS, sizes=sizes, measures=measures)).plan
        assert body_label(plan, name) == label
