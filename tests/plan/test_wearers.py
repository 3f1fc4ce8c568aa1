"""Who a size is for, against the measured medians that the tables hold, and what is worn where."""

import pytest

from bindoff.craft.wearers import Fitting, Wearer, Worn, wearers, wearers_of, worn_on

ALL = ("infant", "child", "adult")
INFANT, TODDLER, CHILD, ADULT = Wearer


@pytest.mark.parametrize(
    ("name", "body", "declared", "who"),
    [
        # Median heads: WHO 43 cm at 6 months, 49 at 3 years; ANSUR II 56 and 57.5.
        ("1", {"head": 430}, ALL, {INFANT, TODDLER}),
        ("1", {"head": 465}, ALL, {INFANT, TODDLER, CHILD}),
        ("1", {"head": 480}, ALL, {TODDLER, CHILD}),
        ("1", {"head": 500}, ALL, {CHILD}),
        ("1", {"head": 535}, ALL, {CHILD, ADULT}),
        ("1", {"head": 570}, ALL, {ADULT}),
        ("1", {"foot length": 135}, ("child", "adult"), {TODDLER, CHILD}),
        ("1", {"foot length": 250}, ("child", "adult"), {ADULT}),
        ("1", {"chest": 865, "head": 545}, ("child", "adult"), {ADULT}),
        ("1", {"upper arm": 230, "chest": 760}, ("child", "adult"), {ADULT}),
        # What is declared holds where a measure says nobody of that; a small child counts anyway.
        ("1", {"head": 570}, ("child",), {CHILD}),
        ("1", {"head": 480}, ("child", "adult"), {TODDLER, CHILD}),
        ("1", {"head": 480}, ("adult",), {TODDLER, ADULT}),
        ("1", {"head": 430}, ("child",), {INFANT, TODDLER, CHILD}),
        ("1", {}, ("infant",), {INFANT, TODDLER}),
        ("1", {}, ("child", "adult"), {CHILD, ADULT}),
        ("1", {"neck": 330}, ("adult",), {ADULT}),
        # By name.
        ("Woman S", {"head": 535}, ALL, {ADULT}),
        ("Child", {"head": 535}, ALL, {CHILD}),
        ("12 years", {"chest": 760}, ("child", "adult"), {CHILD}),
        ("Toddler", {"head": 490}, ALL, {TODDLER, CHILD}),
        ("Toddler", {}, ("child",), {TODDLER, CHILD}),
        ("2T", {}, ("child",), {TODDLER, CHILD}),
        ("5T", {}, ("child",), {CHILD}),
        ("2 years", {}, ("child",), {TODDLER, CHILD}),
        ("6-12 months", {}, ("infant", "child"), {INFANT, TODDLER}),
        ("18 months", {}, ("child",), {TODDLER, CHILD}),
        ("6-8 years", {}, ALL, {CHILD}),
    ],
)
def test_a_size_tells_who_wears_it(
    name: str, body: dict[str, float], declared: tuple[str, ...], who: set[Wearer]
) -> None:
    assert wearers_of(Fitting(name, body), declared) == who


def test_an_edition_is_for_whom_its_sizes_are_for() -> None:
    sizes = [Fitting("Child", {"head": 500}), Fitting("M", {"head": 570})]

    assert wearers(sizes, ALL) == {CHILD, ADULT}
    assert wearers(sizes[1:], ALL) == {ADULT}


@pytest.mark.parametrize(
    ("measured", "titles", "part"),
    [
        (["head"], ["Quay Cap"], Worn.HEAD),
        (["neck"], ["Quay", "Ring"], Worn.NECK),
        (["neck", "head"], ["Quay Cowl", "Ring"], Worn.NECK),
        (["head"], ["Quay Snood"], Worn.NECK),
        (["neck", "head"], ["Quay Cap"], Worn.HEAD),
        (["neck", "chest"], ["Quay Scarf"], Worn.BODY),
        (["head", "chest"], ["Quay Pullover"], Worn.BODY),
        (["foot", "foot length"], ["Quay", "Leg"], Worn.FOOT),
        (["hand"], ["Quay", "Left"], Worn.HAND),
        ([], ["Quay Slippers"], Worn.FOOT),
        ([], ["Quay Bonnet"], Worn.HEAD),
        ([], ["Quay", "Left mitten"], Worn.HAND),
        (["neck"], ["Quay Cowl", "Ring"], Worn.NECK),
        ([], ["Capstan Blanket"], None),
    ],
)
def test_a_piece_is_worn_where_its_measures_or_its_titles_say(
    measured: list[str], titles: list[str], part: Worn | None
) -> None:
    assert worn_on(measured, titles) is part
