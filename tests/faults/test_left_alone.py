"""Sound sentences in wordings that are easily taken for slips, and the slips beside them."""

import pytest

from bindoff.diagnostics import Severity
from bindoff.files import MemoryFiles
from bindoff.pipeline import plan_pattern
from bindoff.plan.yarn import Purpose
from bindoff.source.model import TextUse
from tests.faults.said import said
from tests.faults.seeding import base, checked

LENGTHS = ("prose.inches", "prose.units")


@pytest.mark.parametrize(
    ("text", "ids"),
    [
        ("It measures 75 by 90 cm (29½ by 35½ in).", set()),
        ("Block to 75 × 90 cm (29½ × 35½ in).", set()),
        ("Make it 9 to 10 cm (3½ to 4 in) deep.", set()),
        ("Leave tails of 15–20 cm (6–8 in).", set()),
        ("Leave tails of 15 cm to 20 cm / 6 to 8 in.", set()),
        ("between 20 and 25 cm (8 and 10 in)", set()),
        ("Cut 1 m (1 yd) of waste yarn.", set()),
        ("Cut 3 m (3 yd) of it.", set()),
        ("buttons of 15 mm (⅝ in)", set()),
        ("buttons of 22 mm / ⅞ in", set()),
        ("It measures 75 by 90 cm (29½ by 45½ in).", {"prose.inches"}),
        ("It measures 75 by 90 cm (39½ by 35½ in).", {"prose.inches"}),
        ("Make it 9 to 10 cm (3½ to 6 in) deep.", {"prose.inches"}),
        ("Cut 3 m (5 yd) of it.", {"prose.inches"}),
        ("buttons of 15 mm (1½ in)", {"prose.inches"}),
        ("Make it 9 to 10 cm deep.", {"prose.units"}),
        ("It is 5 (6, 7) cm (2, 2¼, 2¾ in) long.", set()),
    ],
)
def test_ranges_and_sides_of_a_rectangle_are_read_in_both_units(text: str, ids: set[str]) -> None:
    assert said(text, "hat", LENGTHS) == ids


@pytest.mark.parametrize(
    ("text", "check", "pattern", "heard"),
    [
        ("Work 8 rounds of the chart 6 times.", "prose.reference", "hat", False),
        ("Work the chart 6 (6, 9, 9) times.", "prose.reference", "hat", False),
        ("Work Chart B.", "prose.reference", "hat", True),
        ("They are set in 6 rows of 5.", "wording.rows-in-tube", "hat", False),
        ("Lay out four rows of squares.", "wording.rows-in-tube", "hat", False),
        ("Work 6 rows of rib.", "wording.rows-in-tube", "hat", True),
        ("The marks of the tide gauge at the lock.", "wording.gauge", "cowl", False),
        ("Measure the needle with a needle gauge.", "wording.gauge", "cowl", False),
        ("Change to 3.75 mm needles if your swatch is loose.", "tool.unlisted", "hat", False),
        ("A loose knitter may prefer 3.75 mm needles.", "tool.unlisted", "hat", False),
        ("Change to 3.75 mm needles.", "tool.unlisted", "hat", True),
        ("Turn up 4 cm for the child, 5 cm for the adult.", "abbreviation.two", "hat", False),
        ("MC is for the body, and MC is for the edge.", "abbreviation.two", "hat", True),
        ("See that the thread is through every stitch.", "notion.count", "hat", False),
    ],
)
def test_a_wording_is_left_alone_or_heard(text: str, check: str, pattern: str, heard: bool) -> None:
    step = ("pieces", pattern, "steps", 1, "say")

    assert said(text, pattern, {check}, step, TextUse.STEP) == ({check} if heard else set())


@pytest.mark.parametrize(
    ("before", "after", "check", "heard"),
    [
        ("Join to work in the round", "Work in the round from here on", "edge.join", False),
        ("Join to work in the round", "From now on work in rounds", "edge.join", False),
        ("Join to work in the round", "Spread them over the needles", "edge.join", True),
    ],
)
def test_joining_may_be_told_in_other_words(
    before: str, after: str, check: str, heard: bool
) -> None:
    files = dict(base("hat"))
    assert before in files["pattern.yaml"]
    files["pattern.yaml"] = files["pattern.yaml"].replace(before, after)

    loud = {each.id for each in checked(MemoryFiles(files)) if each.severity is not Severity.NOTE}

    assert (check in loud) is heard


EYES = "Embroider two eyes in Inky."


def _face(more: str) -> dict[str, str]:
    """The seal with its eyes in a yarn that no row is worked in."""
    files = dict(base("toy"))
    text = files["pattern.yaml"].replace(
        "yarns:\n",
        'yarns:\n  inky: {name: Inky, colour: "#222222", weight: 4, fibre: 100 % acrylic, '
        "ball: 50 g = 100 m}\n",
        1,
    )
    step = f"      - say: {EYES}\n{more}"
    at = text.index("      - section: Tail")
    return files | {"pattern.yaml": text[:at] + step + text[at:]}


@pytest.mark.parametrize(
    ("more", "ids"),
    [
        ("", {"yarn.unused"}),
        ("        yarn: inky\n", {"yarn.uncounted"}),
        ("        yarn: inky\n        takes: 3 m\n", set()),
        ("        yarn: inky\n        takes: 2 g\n", set()),
        ("        yarn: inky\n        takes: 2 stones\n", {"length.unknown-unit"}),
        ("        yarn: inky\n        takes: 0 g\n", {"yarn.takes"}),
    ],
)
def test_yarn_that_words_alone_take_is_counted(more: str, ids: set[str]) -> None:
    found = checked(MemoryFiles(_face(more)))

    assert {each.id for each in found if each.severity is not Severity.NOTE} == ids


@pytest.mark.parametrize(("takes", "metres"), [("3 m", 3.0), ("300 cm", 3.0), ("1.5 g", 3.0)])
def test_what_words_take_is_counted_as_embroidery(takes: str, metres: float) -> None:
    """A ball of 50 g has 100 m: a gram is 2 m."""
    files = MemoryFiles(_face(f"        yarn: inky\n        takes: {takes}\n"))

    plan = plan_pattern(files, "pattern.yaml", "seal")

    (total,) = (each for each in plan.yarn if each.yarn == "inky")
    (need,) = total.needs
    (part,) = (each for each in need.parts if each.name is Purpose.EMBROIDERY)
    assert part.metres == pytest.approx(metres)
    assert need.balls == 1
