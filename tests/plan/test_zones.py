"""Tubes of zones and wanted stripes, worked by a maker's hand beside the plan."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bindoff.diagnostics import Diagnostic
from bindoff.plan.picture import PicturePlan
from bindoff.plan.steps.stripes import Striped
from tests.small_machine import COWL
from tests.small_patterns import TUBE, changed, faults_of, plan_of

STRIPES = """\
      stripes:
        - {from: 3 cm above rim, rounds: 2, yarn: foam}
        - {from: 7 rounds above rim, rounds: 1, yarn: foam}
        - {from: 4 rounds below top, rounds: 2 cm, yarn: foam}
"""
PLAIN = changed(TUBE, ("    picture: {chart: waves, start: 1, ground: slate}\n", "")).replace(
    "      - embroider: from plan\n", ""
)
RUST = """\
  rust: {name: Rust, colour: "#a6452a", weight: 4, ball: 9 g = 20 m}
"""
PICTURE = "    tube: {visible: visible, brim: 3 cm, gather: 1 cm}\n"


def one_fault(text: str) -> Diagnostic:
    (fault,) = faults_of(text)
    return fault


def tubes(text: str) -> tuple[PicturePlan, ...]:
    plan = plan_of(text)
    detail = plan.pieces[0].steps[0].detail
    assert isinstance(detail, Striped)
    return detail.plans


def cranked(plan: PicturePlan) -> str:
    """What a maker has in each round who stops where the counter says, cuts and joins."""
    stops = {change.counter: change.take_up for change in plan.stripes.changes}
    yarn, rounds = plan.stripes.bases[0], ""
    for counter in range(plan.tube.total_rounds):
        if counter in stops:
            (yarn,) = stops[counter]
        rounds += yarn[0]
    return rounds


def test_wanted_stripes_lie_where_they_are_wanted() -> None:
    """14 rounds to 10 cm: S has 60 x 1.4 = 84 rounds, M 98. 3 cm are 4.2, so 4: rounds 5 and 6.
    Seven rounds above the rim is round 8. 2 cm are 2.8, so 3, and end 4 below the top."""
    small, medium = tubes(COWL)

    assert cranked(small) == "ssssff" + "s" + "f" + "s" * 69 + "fff" + "ssss"
    assert cranked(medium) == "ssssff" + "s" + "f" + "s" * 83 + "fff" + "ssss"
    assert small.tube.fold_after is None
    assert not small.has_picture
    assert small.stripes.embroidered_total == 0


def test_a_shortest_stripe_does_not_touch_what_is_wanted() -> None:
    text = changed(COWL, ("    steps:", "    colour plan: {shortest stripe: 3}\n    steps:"))

    assert [each.stripes.bases for each in tubes(text)] == [
        each.stripes.bases for each in tubes(COWL)
    ]


def test_a_brim_in_a_yarn_of_its_own_has_it_in_both_layers() -> None:
    """S of the folded tube: lining 1 to 15, brim 16 to 23 over the fold, outside 24 to 38."""
    text = changed(PLAIN, ("gather: 1 cm}", "gather: 1 cm, yarns: {brim: foam}}"))

    assert cranked(tubes(text)[0]) == "s" * 15 + "f" * 8 + "s" * 15


@pytest.mark.parametrize(
    ("yarns", "outside", "inside"),
    [
        ("brim outside: foam", "f", "s"),
        ("brim inside: foam", "s", "f"),
        ("brim outside: foam, brim inside: rust", "f", "r"),
        ("brim: foam, brim inside: rust", "f", "r"),
        ("lining: rust, brim outside: foam", "f", "s"),
    ],
)
def test_each_layer_of_the_brim_may_have_its_own_yarn(
    yarns: str, outside: str, inside: str
) -> None:
    """S: lining 1 to 15, the brim's layer that is turned out 16 to 19, up to the fold, the one
    that it hides 20 to 23, outside 24 to 38."""
    text = changed(
        PLAIN,
        ("gather: 1 cm}", f"gather: 1 cm, yarns: {{{yarns}}}}}"),
        ("yarns:\n", f"yarns:\n{RUST if 'rust' in yarns else ''}"),
        ("    title: Cap\n", "    title: Cap\n    yarn: slate\n"),
    )
    (small, _) = tubes(text)
    rounds = cranked(small)

    gathered, lining = ("s", "r") if "lining" in yarns else ("s", "s")
    assert rounds == gathered + lining * 14 + outside * 4 + inside * 4 + "s" * 15


@pytest.mark.parametrize("layer", ["brim outside", "brim inside"])
def test_a_layer_of_a_brim_that_is_not_there_has_no_yarn(layer: str) -> None:
    text = changed(
        PLAIN, ("brim: 3 cm, gather: 1 cm}", f"gather: 1 cm, yarns: {{{layer}: foam}}}}")
    )
    fault = one_fault(text)

    assert fault.message == f"`{layer}:` has a yarn, and the tube has no brim"
    assert fault.help == "Say in `brim:` how deep it is, or take the yarn out"


def test_a_stripe_on_the_brim_lies_on_the_layer_that_is_turned_out() -> None:
    """The turned-up brim shows the lining's side of the fold: rounds 16 to 19, the rim first."""
    stripe = "stripes: [{from: 1 rounds above rim, rounds: 2, yarn: foam, on: brim}]"
    text = changed(PLAIN, ("gather: 1 cm}", f"gather: 1 cm, {stripe}}}"))

    assert cranked(tubes(text)[0]) == "s" * 16 + "ff" + "s" * 20


def test_no_yarn_changes_where_nobody_sees_it() -> None:
    """A picture in foam at the very bottom, stripes of five rounds at least: before, one would
    begin in the lining; now the lining is all in its own yarn."""
    text = changed(
        TUBE,
        ("brim: 3 cm, gather: 1 cm}", "gather: 1 cm}"),
        ("start: 1,", "start: 0,"),
        ("    steps:", "    colour plan: {shortest stripe: 5}\n    steps:"),
    )
    plan = tubes_with_grid(text, "########\n........\n........\n########\n")

    assert set(plan.stripes.bases[: plan.tube.fold_after]) == {"slate"}


def tubes_with_grid(text: str, grid: str) -> PicturePlan:
    detail = plan_of(text, grid).pieces[0].steps[0].detail
    assert isinstance(detail, Striped)
    return detail.plans[0]


def test_a_wanted_line_beside_a_picture_is_knitted_and_not_embroidered() -> None:
    stripe = "stripes: [{from: 2 rounds below top, rounds: 1, yarn: foam}]"
    text = changed(
        TUBE,
        ("gather: 1 cm}", f"gather: 1 cm, {stripe}}}"),
        ("    steps:", "    colour plan: {shortest stripe: 4}\n    steps:"),
    )

    for plan in tubes(text):
        outer = plan.tube.segments[-2].last
        assert plan.stripes.bases[outer - 4 : outer] == ("slate", "foam", "slate", "slate")
        assert not any(plan.overlay[outer - 3])


@settings(max_examples=30, deadline=None)
@given(st.lists(st.integers(1, 20), min_size=1, max_size=6), st.booleans())
def test_any_stripes_are_knitted_as_they_are_counted(heights: list[int], from_top: bool) -> None:
    """Stripes one round apart, counted from either edge by hand."""
    written, rounds = [], ""
    for height in heights:
        edge = "below top" if from_top else "above rim"
        place = f"{len(rounds)} rounds {edge}"
        written.append(f"        - {{from: {place}, rounds: {height}, yarn: foam}}\n")
        rounds += "f" * height + "s"
    text = changed(
        COWL, (STRIPES, "      stripes:\n" + "".join(written)), ("[60 cm, 70", "[100 cm, 110")
    )

    whole = rounds.ljust(140, "s")
    assert cranked(tubes(text)[0]) == (whole[::-1] if from_top else whole)


@pytest.mark.parametrize(
    ("stripe", "id", "says"),
    [
        ("{from: 3 cm over rim, rounds: 2, yarn: foam}", "tube.stripe-place", "does not say"),
        ("{from: 83 rounds above rim, rounds: 2, yarn: foam}", "tube.stripe-outside", "after 83"),
        (
            "{from: 1 cm above rim, rounds: 1, yarn: foam, on: brim}",
            "tube.stripe-outside",
            "no brim",
        ),
        ("{from: 3 above rim, rounds: 2, yarn: foam}", "amount.no-length", "without a unit"),
        ("{from: 5 rounds above rim, rounds: 2, yarn: foam}", "tube.stripes-meet", "round 6"),
        ("{from: 5 cm above rim, rounds: 0, yarn: foam}", "amount.small", "is less than 1"),
        ("{from: 9 cm above rim, rounds: 1, yarn: fom}", "source.unknown-yarn", "`fom`"),
    ],
)
def test_a_stripe_that_can_not_lie_there(stripe: str, id: str, says: str) -> None:
    text = changed(COWL, ("      stripes:\n", f"      stripes:\n        - {stripe}\n"))
    fault = one_fault(text)

    assert fault.id == id
    assert says in fault.message


def test_a_stripe_in_a_round_of_the_picture() -> None:
    stripe = "stripes: [{from: 2 rounds above rim, rounds: 1, yarn: foam}]"
    fault = one_fault(changed(TUBE, ("gather: 1 cm}", f"gather: 1 cm, {stripe}}}")))

    assert fault.id == "tube.stripe-in-picture"


@pytest.mark.parametrize(
    ("tube", "says"),
    [
        ("{visible: 10 cm, length: 10 cm}", "either `visible:` or `length:`"),
        ("{gather: 1 cm}", "either `visible:` or `length:`"),
        ("{length: 10 cm, brim: 2 cm}", "no `brim:`"),
    ],
)
def test_a_tube_is_folded_or_it_is_not(tube: str, says: str) -> None:
    text = changed(PLAIN, ("{visible: visible, brim: 3 cm, gather: 1 cm}", tube))

    assert any(says in each.message for each in faults_of(text))


def test_sizes_may_have_other_needles() -> None:
    text = changed(COWL, ("M: {neck: 40 cm}", "M: {neck: 40 cm, needles: 24}"))

    assert [each.tube.needles for each in tubes(text)] == [22, 24]
    assert [each.tube.markers for each in tubes(text)] == [(1, 12), (1, 13)]


def test_a_picture_must_go_around_the_needles_of_every_size() -> None:
    text = changed(TUBE, ("M: {head: 26 cm}", "M: {head: 26 cm, needles: 25}"))
    fault = one_fault(text)

    assert fault.id == "picture.width"
    assert fault.message.startswith("size M: ")
