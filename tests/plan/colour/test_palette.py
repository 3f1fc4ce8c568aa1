"""Colours compared, simulated and inked, against published tables.

- CIEDE2000: Sharma, Wu and Dalal 2005, Color Research and Application 30(1), table 1. Pair 14 is
  left out: its hues lie exactly 180 degrees apart, where rounding decides between two results.
- Colour-vision deficiency: Machado, Oliveira and Fernandes 2009, matrices for severity 1.0.
- sRGB transfer curve: IEC 61966-2-1. Contrast and luminance: WCAG 2.2.
"""

import subprocess
import sys
from collections.abc import Sequence

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bindoff.diagnostics import PatternError
from bindoff.plan.colour.palette import (
    LIMITS,
    Lab,
    Limit,
    Vision,
    assign_symbols,
    ciede2000,
    difference,
    pairs_too_alike,
    simulate,
)

SHARMA_WU_DALAL: list[tuple[int, Lab, Lab, float]] = [
    (1, (50.0, 2.6772, -79.7751), (50.0, 0.0, -82.7485), 2.0425),
    (2, (50.0, 3.1571, -77.2803), (50.0, 0.0, -82.7485), 2.8615),
    (3, (50.0, 2.8361, -74.02), (50.0, 0.0, -82.7485), 3.4412),
    (4, (50.0, -1.3802, -84.2814), (50.0, 0.0, -82.7485), 1.0),
    (5, (50.0, -1.1848, -84.8006), (50.0, 0.0, -82.7485), 1.0),
    (6, (50.0, -0.9009, -85.5211), (50.0, 0.0, -82.7485), 1.0),
    (7, (50.0, 0.0, 0.0), (50.0, -1.0, 2.0), 2.3669),
    (8, (50.0, -1.0, 2.0), (50.0, 0.0, 0.0), 2.3669),
    (9, (50.0, 2.49, -0.001), (50.0, -2.49, 0.0009), 7.1792),
    (10, (50.0, 2.49, -0.001), (50.0, -2.49, 0.001), 7.1792),
    (11, (50.0, 2.49, -0.001), (50.0, -2.49, 0.0011), 7.2195),
    (12, (50.0, 2.49, -0.001), (50.0, -2.49, 0.0012), 7.2195),
    (13, (50.0, -0.001, 2.49), (50.0, 0.0009, -2.49), 4.8045),
    (15, (50.0, -0.001, 2.49), (50.0, 0.0011, -2.49), 4.7461),
    (16, (50.0, 2.5, 0.0), (50.0, 0.0, -2.5), 4.3065),
    (17, (50.0, 2.5, 0.0), (73.0, 25.0, -18.0), 27.1492),
    (18, (50.0, 2.5, 0.0), (61.0, -5.0, 29.0), 22.8977),
    (19, (50.0, 2.5, 0.0), (56.0, -27.0, -3.0), 31.903),
    (20, (50.0, 2.5, 0.0), (58.0, 24.0, 15.0), 19.4535),
    (21, (50.0, 2.5, 0.0), (50.0, 3.1736, 0.5854), 1.0),
    (22, (50.0, 2.5, 0.0), (50.0, 3.2972, 0.0), 1.0),
    (23, (50.0, 2.5, 0.0), (50.0, 1.8634, 0.5757), 1.0),
    (24, (50.0, 2.5, 0.0), (50.0, 3.2592, 0.335), 1.0),
    (25, (60.2574, -34.0099, 36.2677), (60.4626, -34.1751, 39.4387), 1.2644),
    (26, (63.0109, -31.0961, -5.8663), (62.8187, -29.7946, -4.0864), 1.263),
    (27, (61.2901, 3.7196, -5.3901), (61.4292, 2.248, -4.962), 1.8731),
    (28, (35.0831, -44.1164, 3.7933), (35.0232, -40.0716, 1.5901), 1.8645),
    (29, (22.7233, 20.0904, -46.694), (23.0331, 14.973, -42.5619), 2.0373),
    (30, (36.4612, 47.858, 18.3852), (36.2715, 50.5065, 21.2231), 1.4146),
    (31, (90.8027, -2.0831, 1.441), (91.1528, -1.6435, 0.0447), 1.4441),
    (32, (90.9257, -0.5406, -0.9208), (88.6381, -0.8985, -0.7239), 1.5381),
    (33, (6.7747, -0.2908, -2.4247), (5.8714, -0.0985, -2.2286), 0.6377),
    (34, (2.0776, 0.0795, -1.135), (0.9033, -0.0636, -0.5514), 0.9082),
]

MACHADO = {
    Vision.PROTAN: (
        (0.152286, 1.052583, -0.204868),
        (0.114503, 0.786281, 0.099216),
        (-0.003882, -0.048116, 1.051998),
    ),
    Vision.DEUTAN: (
        (0.367322, 0.860646, -0.227968),
        (0.280085, 0.672501, 0.047413),
        (-0.011820, 0.042940, 0.968881),
    ),
    Vision.TRITAN: (
        (1.255528, -0.076749, -0.178779),
        (-0.078411, 0.930809, 0.147602),
        (0.004733, 0.691367, 0.303900),
    ),
}

colours = st.tuples(*[st.integers(0, 255)] * 3).map(lambda rgb: "#{:02x}{:02x}{:02x}".format(*rgb))


def linear(colour: str) -> list[float]:
    parts = [int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5)]
    return [part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts]


def encoded(light: Sequence[float]) -> list[float]:
    """Channels from 0 to 255, not rounded."""
    inside = [min(max(part, 0.0), 1.0) for part in light]
    return [
        255 * (12.92 * part if part <= 0.0031308 else 1.055 * part ** (1 / 2.4) - 0.055)
        for part in inside
    ]


def channels(colour: str) -> list[int]:
    return [int(colour[at : at + 2], 16) for at in (1, 3, 5)]


@pytest.mark.parametrize(
    ("first", "second", "expected"),
    [row[1:] for row in SHARMA_WU_DALAL],
    ids=[f"pair {row[0]}" for row in SHARMA_WU_DALAL],
)
def test_ciede2000_of_the_published_pairs(first: Lab, second: Lab, expected: float) -> None:
    assert ciede2000(first, second) == pytest.approx(expected, abs=1e-4)
    assert ciede2000(second, first) == pytest.approx(expected, abs=1e-4)


@pytest.mark.parametrize("vision", MACHADO, ids=str)
@given(colour=colours)
def test_deficient_vision_is_the_published_matrix_in_linear_light(
    vision: Vision, colour: str
) -> None:
    light = linear(colour)
    wanted = encoded(
        [sum(part * each for part, each in zip(row, light, strict=True)) for row in MACHADO[vision]]
    )

    assert channels(simulate(colour, vision)) == pytest.approx(wanted, abs=0.51)


@given(st.integers(0, 255), st.sampled_from(Vision))
def test_a_grey_stays_the_same_grey_in_every_vision(level: int, vision: Vision) -> None:
    """The rows of each published matrix add up to 1."""
    grey = "#" + f"{level:02x}" * 3

    assert channels(simulate(grey, vision)) == pytest.approx(channels(grey), abs=1)


@given(colours)
def test_grey_print_keeps_the_luminance(colour: str) -> None:
    """Luminance weights of WCAG 2.2."""
    red, green, blue = linear(colour)
    level = encoded([0.2126 * red + 0.7152 * green + 0.0722 * blue])[0]

    assert channels(simulate(colour, Vision.GREY)) == pytest.approx([level] * 3, abs=0.6)


def test_red_and_green_are_told_apart_but_not_by_deutan_vision() -> None:
    alike = pairs_too_alike([("rust", "#a8452e"), ("moss", "#5f6b2d"), ("foam", "#f2f5f5")])

    assert {(pair.first, pair.second) for pair in alike} == {("rust", "moss")}
    assert Vision.DEUTAN in {pair.vision for pair in alike}
    assert Vision.NORMAL not in {pair.vision for pair in alike}


def test_colours_of_equal_luminance_are_alike_in_grey_only() -> None:
    (pair,) = pairs_too_alike([("blue", "#3f7fd0"), ("ochre", "#9a7a2a")])

    assert pair.vision is Vision.GREY
    assert pair.difference < pair.least


@given(st.lists(colours, min_size=2, max_size=4))
def test_alike_pairs_are_those_below_their_limit(shown: list[str]) -> None:
    yarns = [(f"yarn {at}", colour) for at, colour in enumerate(shown)]

    found = [(pair.first, pair.second, pair.vision) for pair in pairs_too_alike(yarns)]

    assert found == [
        (yarns[low][0], yarns[high][0], limit.vision)
        for low in range(len(yarns))
        for high in range(low + 1, len(yarns))
        for limit in LIMITS
        if difference(shown[low], shown[high], limit.vision) < limit.least
    ]


def test_the_designer_may_set_the_limits() -> None:
    yarns = [("a", "#000000"), ("b", "#ffffff")]

    assert pairs_too_alike(yarns) == ()
    assert len(pairs_too_alike(yarns, [Limit(Vision.NORMAL, 101.0)])) == 1


def test_symbols_are_given_in_order_around_the_designers_own() -> None:
    given = assign_symbols(("a", "b", "c"), ("dot", "cross", "ring"), {"b": "dot"})

    assert given == (("a", "cross"), ("b", "dot"), ("c", "ring"))


def test_the_same_symbol_twice_and_too_few_symbols_are_findings() -> None:
    with pytest.raises(PatternError) as raised:
        assign_symbols(("a", "b", "c"), ("dot",), {"a": "dot", "b": "dot"})

    assert [finding.id for finding in raised.value.findings] == ["symbol.same", "symbol.too-few"]


@given(st.sets(st.text("abc", min_size=1), max_size=6), st.sets(st.text("xyz", min_size=1)))
def test_symbols_are_distinct(yarns: set[str], symbols: set[str]) -> None:
    if len(symbols) < len(yarns):
        return
    given = assign_symbols(sorted(yarns), sorted(symbols))

    assert [yarn for yarn, _ in given] == sorted(yarns)
    assert len({symbol for _, symbol in given}) == len(yarns)


def test_the_colour_library_is_loaded_only_when_needed() -> None:
    """It takes longer to load than the rest of the plan together."""
    script = "import sys, bindoff.plan.colour.palette; sys.exit('coloraide' in sys.modules)"

    assert subprocess.run([sys.executable, "-c", script], check=False).returncode == 0


def test_a_pair_at_the_limit_is_far_enough_apart() -> None:
    apart = difference("#46566b", "#e9eef0")
    colours = (("slate", "#46566b"), ("foam", "#e9eef0"))

    assert pairs_too_alike(colours, (Limit(Vision.NORMAL, apart),)) == ()
    (pair,) = pairs_too_alike(colours, (Limit(Vision.NORMAL, apart + 0.01),))
    assert (pair.difference, pair.least) == (apart, apart + 0.01)
