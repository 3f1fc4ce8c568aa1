"""Charts with two repeats in a row, worked by a reader of the text edition who keeps a marker at
the middle."""

import re
from typing import Any

import pytest

from bindoff.document.charts.layout import Look, box_in, lay_out, whole
from tests.document.patterns import Data, Steps, data, fault, files_of, text_of
from tests.document.test_chartpages import pages
from tests.faults.seeding import checked

LEGEND = {".": "k", "-": "p", "o": "yo", ">": "k2tog", "<": "ssk", "x": "no stitch"}


def triangle(repeat: int = 4) -> str:
    """A spine of one stitch, an edge of two at each side; a yarn over inside each edge and at both
    sides of the spine in every right-side row: four stitches in two rows, as a published lesson on
    shawl shapes has it (F77 of the project's facts). So many pairs of rows as ``repeat`` has
    stitches by two add one repeat at each side."""
    lines = []
    for pair in range(repeat // 2):
        inner = "." * pair
        right, left = f"{inner}o..", f"..o{inner}"
        plain = "." * (pair + 3)
        lines.append((left, "." * repeat, f"{inner}o.o{inner}", "." * repeat, right))
        lines.append((plain, "." * repeat, "." * (2 * pair + 3), "." * repeat, plain))
    wide = [max(len(line[at]) for line in lines) for at in range(5)]
    rows = []
    for left, one, centre, other, right in lines:
        beside = "x" * ((wide[2] - len(centre)) // 2)
        parts = (left.rjust(wide[0], "x"), one, f"{beside}{centre}{beside}", other)
        rows.append("|".join((*parts, right.ljust(wide[4], "x"))))
    return "\n".join(reversed(rows)) + "\n"


def piece(grid: str, cast_on: int, **chart: Any) -> tuple[Data, dict[str, str]]:
    times = chart.pop("times", 1)
    legend = {c: name for c, name in LEGEND.items() if c in grid}
    entry = {"title": "Wing", "grid": "wing.grid", "legend": legend, "alt": "Wing."} | chart
    rows = times * len(grid.split())
    steps: Steps = [{"cast on": cast_on}, {"chart": "wing", "rounds": rows}, {"bind off": "all"}]
    source = data(steps, 1, charts={"wing": entry}, measures={"n": [cast_on]})
    source["pieces"]["cap"]["worked"] = "flat"
    return source, {"wing.grid": grid}


# ---------------------------------------------------------------- a knitter with a marker

_ROW = re.compile(r"Row (\d+) \((right|wrong) side\): (.*)\.")
_ROWS = re.compile(
    r"(?:(.*?), )?star, (.*?); repeat from star to (?:(\d+) stitch(?:es)? before )?the middle, "
    r"(?:(.*?), )?star, (.*?); repeat from star to (?:end|last (?:(\d+) )?stitch(?:es)?)(?:, (.*))?"
)
_STITCHES = {"yo": (0, 1), "k2tog": (2, 1), "p2tog": (2, 1), "ssk": (2, 1), "ssp": (2, 1)}


def _acts(words: str | None) -> list[tuple[int, int]]:
    """What each stitch uses and makes."""
    found = []
    for word in (words or "").split(", "):
        said = re.fullmatch(r"(knit|purl) (\d+)|(\w+?)(?: (\d+) times)?", word) if word else None
        if said is not None:
            one = (1, 1) if said[1] else _STITCHES[said[3]]
            found += [one] * int(said[2] or said[4] or 1)
    return found


def worked(text: str, live: int, middle: int) -> list[tuple[int, int, int]]:
    """For each row the stitches it leaves, those before the middle one as the right side counts
    them, and how often each repeat was worked.

    Raises ``AssertionError`` where a repeat does not stop where it says, both are not worked
    equally often, or the middle stitch is not worked alone.
    """
    found = []
    for _, side, words in _ROW.findall(text):
        parts = _ROWS.fullmatch(words)
        assert parts is not None, words
        before, one, short, between, other, left, after = parts.groups()
        to_middle = (middle if side == "right" else live - 1 - middle) - int(short or 0)
        at_first, in_one = _uses(before), _uses(one)
        times, over = divmod(to_middle - at_first, in_one)
        assert over == 0
        stop = int(left) if left else int("last stitch" in words)
        in_between = _uses(between)
        again, over = divmod(live - at_first - times * in_one - in_between - stop, _uses(other))
        assert over == 0
        assert again == times
        assert _uses(after) == stop
        acts = [*_acts(before), *_acts(one) * times, *_acts(between)]
        acts += [*_acts(other) * again, *_acts(after)]
        made, made_before = _past(acts, to_middle + int(short or 0))
        live, middle = made, made_before if side == "right" else made - 1 - made_before
        found.append((live, middle, times))
    return found


def _uses(words: str | None) -> int:
    return sum(uses for uses, _ in _acts(words))


def _past(acts: list[tuple[int, int]], middle: int) -> tuple[int, int]:
    """The stitches that a row makes, and those of them before the middle one, which is worked over
    the stitch after ``middle`` others, alone."""
    used = made = 0
    before = -1
    for uses, makes in acts:
        if uses and used == middle:
            assert (uses, makes) == (1, 1)
            before = made
        used, made = used + uses, made + makes
    assert before >= 0
    return made, before


# ---------------------------------------------------------------- what is worked


@pytest.mark.parametrize("across", [1, 2, 5])
def test_a_triangle_with_a_spine_grows_by_four_in_two_rows(across: int) -> None:
    """2 + 4 n + 1 + 4 n + 2 stitches; each time through the chart adds one repeat at each side."""
    start = 5 + 8 * across
    text, plan = text_of(*piece(triangle(), start))
    rows = worked(text, start, 2 + 4 * across)

    assert [live for live, _, _ in rows] == [start + 4, start + 4, start + 8, start + 8]
    assert [middle for _, middle, _ in rows] == [(live - 1) // 2 for live, _, _ in rows]
    assert {times for _, _, times in rows} == {across}
    assert plan.pieces[0].steps[1].after[0].stitches == start + 8
    assert "The middle is the stitch between the two repeats of row 1" in text


def test_each_time_through_the_chart_has_one_repeat_more_at_each_side() -> None:
    source, files = piece(triangle(), 13, times=3)
    text, plan = text_of(source, files)
    step = plan.pieces[0].steps[1]

    assert step.charts[0].passes == ((1, 2, 3),)
    assert step.after[0].stitches == 13 + 3 * 8
    assert "work each of its two repeats once in every row; each time after that, once more" in text


def test_columns_say_the_same_as_marks() -> None:
    grid = triangle()
    left, one, centre, _, right = grid.split()[0].split("|")
    columns = {"before": len(right), "repeat": len(one), "centre": len(centre), "after": len(left)}
    marked, said = (
        text_of(*piece(grid, 21)),
        text_of(*piece(grid.replace("|", ""), 21, columns=columns)),
    )

    assert marked[0] == said[0]


@pytest.mark.parametrize("across", [1, 3])
@pytest.mark.parametrize(
    ("right", "left"),
    [("o<..", "..>o"), ("<.o", ".."), (".", "o>o<.")],
    ids=["alike", "lace", "unlike"],
)
def test_two_repeats_unlike_each_other_are_worked_on_both_sides(
    right: str, left: str, across: int
) -> None:
    grid = f"..|{'-' * len(left)}|...|{'-' * len(right)}|..\n..|{left}|o.o|{right}|..\n"
    live = 5 + across * (len(left) + len(right))
    text, plan = text_of(*piece(grid, live))
    rows = worked(text, live, 2 + across * len(right))

    assert [made for made, _, _ in rows] == [live + 2, live + 2]
    assert [times for _, _, times in rows] == [across, across]
    assert plan.pieces[0].steps[1].after[0].stitches == live + 2


# ---------------------------------------------------------------- what is refused


@pytest.mark.parametrize(
    ("grid", "cast_on", "id", "words"),
    [
        # together they use what they make, and neither does alone
        (".|...|.|..|.\n.|o..|.|>x|.\n", 8, "chart.count", "in each repeat"),
        (".|..|...|..|.\n.|..|x.x|..|.\n", 7, "chart.count", "between the repeats"),
        (triangle(), 15, "chart.width", "a multiple of 8 stitches, plus 5"),
        ("..|.|..|.\n..|.|..|.\n", 6, "grid.marks", "has 3 of the marks"),
        (".|..||..|.\n.|..||..|.\n", 6, "grid.marks", "has 4 of the marks"),
    ],
)
def test_two_repeats_are_proved_one_by_one(grid: str, cast_on: int, id: str, words: str) -> None:
    found = fault(*piece(grid, cast_on))

    assert found.id == id
    assert words in found.message
    assert found.help


# ---------------------------------------------------------------- how it looks


def test_both_repeats_are_boxed() -> None:
    spec = pages(*piece(triangle(), 21))["wing"].spec
    layout = lay_out(spec, Look(), whole(spec))
    boxes = [edges for _, edges in box_in(layout)]

    assert [(box.first_stitch, box.last_stitch) for box in spec.repeats] == [(5, 8), (14, 17)]
    assert {box.label for box in spec.repeats} == {"4-stitch repeat"}
    for left, _, right, _ in boxes:
        assert right - left == pytest.approx(4 * layout.w)


@pytest.mark.parametrize(("listed", "told"), [(0, True), (1, True), (2, False), (3, True)])
def test_as_many_markers_are_listed_as_the_written_rows_ask_for(listed: int, told: bool) -> None:
    """ "Keep a marker at each side of it": two."""
    source, files = piece(triangle(), 13)
    source["notions"] = [f"{listed} marker{'s' * (listed > 1)}"] if listed else []
    text, _ = text_of(source, files)

    assert "keep a marker at each side of it" in text
    found = [each.message for each in checked(files_of(source, files)) if each.id == "marker.count"]
    assert bool(found) is told, found
