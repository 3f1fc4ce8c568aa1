"""Which finished measure sits on which part of the body, and with what ease."""

import pytest

from bindoff.plan.fit import around, fitted
from bindoff.plan.values import Kind, Measure, Value

BODIES = {"head": (560.0, 580.0), "neck": (340.0, 360.0), "foot length": (240.0, 260.0)}


def measure(*figures: float, kind: Kind = Kind.LENGTH) -> Measure:
    return Measure("m", kind, tuple(Value(mm, mm, "") for mm in figures))


def parts(label: str, *bodies: str, kind: Kind = Kind.LENGTH) -> list[str]:
    found = fitted(
        {label: measure(504, 522, kind=kind)}, {key: BODIES.get(key, (1.0, 1.0)) for key in bodies}
    )
    return [each.dimension for each in found]


def test_ease_is_finished_less_body_in_millimetres_and_percent() -> None:
    """504 mm on a head of 560 are 56 mm or a tenth less; 522 on 580 likewise."""
    finished = {"Head circumference": measure(504, 522), "Depth": measure(210, 220)}
    (hat,) = fitted(finished, {"head": (560, 580)})

    assert (hat.label, hat.dimension, hat.body) == ("Head circumference", "head", (560, 580))
    assert hat.measure is finished["Head circumference"]
    assert hat.mm == (-56, -58)
    assert hat.percent == pytest.approx((-10, -10))


@pytest.mark.parametrize(
    ("label", "bodies", "found"),
    [
        ("Circumference", ["head"], ["head"]),
        ("Finished circumference", ["head"], ["head"]),
        ("Around", ["head"], ["head"]),
        ("Around the neck", ["head", "neck"], ["neck"]),
        ("NECK", ["head", "neck"], ["neck"]),
        ("Circumference", ["head", "neck"], []),  # of which?
        ("Circumference", ["head", "foot length"], ["head"]),  # a length goes around nothing
        ("Circumference", ["foot length"], []),
        ("Circumference", [], []),
        ("Brim circumference", ["head"], []),  # a label that says more is another measure
        ("Foot length", ["foot", "foot length"], ["foot length"]),
        ("Foot", ["foot", "foot length"], ["foot"]),
        ("Depth of neck", ["neck"], []),  # not around it
        ("Length above head", ["head"], []),
        ("Forehead", ["head"], []),
        ("Width", ["head"], []),
        ("Circumference", ["shelf"], []),  # a measurement of the pattern's own
        ("Shelf", ["shelf"], []),
    ],
)
def test_a_label_speaks_of_a_part_only_where_that_is_clear(
    label: str, bodies: list[str], found: list[str]
) -> None:
    assert parts(label, *bodies) == found


def test_a_count_fits_no_body() -> None:
    assert parts("Head", "head") == ["head"]
    assert parts("Head", "head", kind=Kind.STITCHES) == []


def test_every_label_is_looked_at() -> None:
    finished = {"Depth": measure(200, 210), "Neck": measure(350, 370), "Head": measure(500, 520)}
    found = fitted(finished, {"head": BODIES["head"], "neck": BODIES["neck"]})

    assert [(each.label, each.mm) for each in found] == [
        ("Neck", (10, 10)),
        ("Head", (-60, -60)),
    ]


@pytest.mark.parametrize(
    ("bodies", "found"),
    [
        (["head"], "head"),
        (["head", "neck"], None),
        (["foot length"], None),
        (["hand length", "hand"], "hand"),
        (["head", "shelf"], "head"),
        (["shelf"], None),
        ([], None),
    ],
)
def test_a_tube_goes_around_the_only_part_there_is(bodies: list[str], found: str | None) -> None:
    assert around(bodies) == found
