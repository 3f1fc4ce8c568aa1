"""Rows that are worked in a stitch pattern: what they use, make and mean, in rows and in rounds.

The stitches of the examples are worked out by hand; ``Fabric`` knits them once more by keeping the
column of every stitch on the needle, and knows nothing of the plan's zones.
"""

from collections.abc import Sequence

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bindoff.diagnostics import Diagnostic, PatternError, Span
from bindoff.document.build import build_document
from bindoff.document.spokenrows import signs_in_words
from bindoff.files import MemoryFiles
from bindoff.plan.established import Established, Knitter
from bindoff.plan.rowcount import LiveStitches, after_row, count_row
from bindoff.plan.stitchpatterns import Patterns, as_worked
from bindoff.render.text import render_text
from bindoff.source.rowlang.parse import parse_row
from bindoff.source.rowlang.stitches import Terms, standard_book
from bindoff.source.rowlang.syntax import Group, Part, Work
from bindoff.source.steps.taper import TaperStep
from tests.small_patterns import CAP, WAVES, changed, faults_of, plan_of, source_of

BOOK = standard_book(Terms.US)
NOWHERE = Span("pattern.yaml", 1, 1, 1, 200)
CHART = "      - chart: waves\n"
TAPER = """\
      - taper: k1, ssk, in seed to last 3 stitches, k2tog, k1
        in: seed
        to: cast_on - 8
        over: 12
"""
STEPS = '      - work: "*k2, p2; repeat from * to end"\n        rounds: 8\n'


def patterns_of(rows: Sequence[str], extra: str = "") -> Patterns:
    listed = ", ".join(f'"{row}"' for row in rows)
    text = changed(
        CAP, ("pieces:", f"stitch patterns:\n  seed: {{rows: [{listed}]{extra}}}\npieces:")
    )
    return Patterns(source_of(text, WAVES), BOOK)


class Knitting:
    """A piece worked row by row, with the stitches that each ``in pattern`` comes to."""

    def __init__(self, patterns: Patterns, stitches: int, *, flat: bool) -> None:
        self.patterns, self.flat = patterns, flat
        self.needle, self.wrong_side = LiveStitches(stitches), False
        self.established = Established((), stitches)
        self.rows = 0

    def work(self, text: str) -> str:
        row = parse_row(text, NOWHERE, BOOK, patterns=self.patterns.names)
        knitter = Knitter(
            self.patterns, self.established.zones, self.needle, self.wrong_side, self.flat
        )
        counted = count_row(
            row, self.needle.left, {}, self.needle.left_markers, BOOK, layer=knitter
        )
        said = " ".join(
            stitch
            for stretch in counted.stretches
            for stitch in stitches_of(
                knitter.parts(stretch.part, stretch.used[0], stretch.used[1] - stretch.used[0])
            )
        )
        self.rows += 1
        self.established = knitter.after(counted, self.rows)
        self.needle = after_row(self.needle, counted, flat=self.flat)
        self.wrong_side = self.wrong_side != self.flat
        return said


def stitches_of(parts: Sequence[Part]) -> list[str]:
    found: list[str] = []
    for part in parts:
        if isinstance(part, Group):
            assert isinstance(part.times, int)
            found += stitches_of(part.parts) * part.times
        else:
            assert isinstance(part, Work)
            found.append(part.stitch)
    return found


def test_a_rib_goes_on_inside_its_decreases_in_rounds() -> None:
    piece = Knitting(patterns_of(["*k2, p1; repeat from * to end"]), 12, flat=False)

    assert piece.work("in seed") == "k k p k k p k k p k k p"
    assert piece.work("k1, ssk, in pattern to last 3 stitches, k2tog, k1") == "k k p k k p"
    assert piece.work("in pattern") == "k p k k p k k p k k"  # columns 1 to 10


def test_a_rib_goes_on_inside_its_decreases_in_rows() -> None:
    rows = ["*k2, p1; repeat from * to end", "*k1, p2; repeat from * to end"]
    piece = Knitting(patterns_of(rows), 12, flat=True)

    assert piece.work("in seed") == "k k p k k p k k p k k p"
    assert piece.work("in pattern") == "k p p k p p k p p k p p"
    assert piece.work("k1, ssk, in pattern to last 3 stitches, k2tog, k1") == "k k p k k p"
    assert piece.work("in pattern") == "p p k p p k p p k p"  # columns 10 to 1


def test_stitches_added_at_the_edges_are_taken_into_the_pattern() -> None:
    piece = Knitting(patterns_of(["*k2, p1; repeat from * to end"]), 9, flat=False)

    piece.work("in seed")
    piece.work("m1, in pattern to end, m1, m1")

    assert piece.work("in pattern") == "p k k p k k p k k p k k"


def test_rows_between_count_as_rows_of_the_pattern() -> None:
    piece = Knitting(
        patterns_of(["k all", "p all", "*k1, p1; repeat from * to end"]), 4, flat=False
    )

    assert piece.work("in seed") == "k k k k"
    assert piece.work("k all") == ""
    assert piece.work("in pattern") == "k p k p"


def test_a_short_row_moves_on_only_what_it_works() -> None:
    piece = Knitting(patterns_of(["k all", "p all"], ", worked: round"), 6, flat=True)

    piece.work("in seed")
    piece.work("in pattern to last 2 stitches, turn")

    assert piece.work("in pattern") == "k k k k"
    assert piece.work("in pattern") == "p p p p p p"


@settings(max_examples=60, deadline=None)
@given(
    st.lists(
        st.lists(st.sampled_from("kp"), min_size=4, max_size=4), min_size=2, max_size=4
    ).filter(lambda rows: len(rows) % 2 == 0),
    st.lists(st.tuples(st.integers(-2, 2), st.integers(-2, 2)), min_size=1, max_size=8),
    st.booleans(),
)
def test_every_stitch_stays_in_its_column(
    fabric: list[list[str]], edges: list[tuple[int, int]], flat: bool
) -> None:
    """``fabric`` is seen as each row's own side sees it; the columns are kept one by one."""
    texts = [f"*{', '.join(f'{each}1' for each in row)}; repeat from * to end" for row in fabric]
    piece = Knitting(patterns_of(texts), 24, flat=flat)
    columns = list(range(24))  # from the right-side edge
    expected = [fabric[0][c % 4] for c in columns]
    assert piece.work("in seed").split() == expected
    for number, (right, left) in enumerate(edges, start=1):
        wrong = flat and number % 2 == 1
        first, last = (left, right) if wrong else (right, left)
        begin = "m1, " * first if first > 0 else f"[k2tog] {-first} times, " if first else ""
        end = ", m1" * last if last > 0 else f", [k2tog] {-last} times" if last else ""
        rest = f"to last {-2 * last} stitches" if last < 0 else "to end"
        said = piece.work(f"{begin}in pattern {rest}{end}").split()
        inner = columns[max(0, -2 * right) : len(columns) - max(0, -2 * left)]
        row = fabric[number % len(fabric)]
        if wrong:
            assert said == [row[3 - c % 4] for c in reversed(inner)]
        else:
            assert said == [row[c % 4] for c in inner]
        columns = list(range(inner[0] - abs(right), inner[-1] + abs(left) + 1))


# ---------------------------------------------------------------- whole patterns


def cap(rows: str, *works: str) -> str:
    steps = "".join(f"      - work: {work}\n" for work in works)
    return changed(
        CAP,
        ("pieces:", f"stitch patterns:\n  {rows}\npieces:"),
        (STEPS, steps),
    )


SEED = (
    "seed: {title: Seed stitch, "
    "rows: ['*k1, p1; repeat from * to end', '*p1, k1; repeat from * to end']}"
)


def faults(rows: str, *works: str) -> list[tuple[str, str]]:
    return [(each.id, each.message) for each in faults_of(cap(rows, *works))]


def test_a_pattern_is_established_where_it_is_named() -> None:
    plan = plan_of(cap(SEED, "in seed\n        rounds: 5", "in pattern\n        rounds: 3"))
    first, second = (step.patterns.stitch for step in plan.pieces[0].steps[1:3])

    assert [(each.rows.key, each.begun, each.rounds) for each in first] == [("seed", True, (5, 5))]
    assert [(each.rows.key, each.begun, each.rounds) for each in second] == [
        ("seed", False, (3, 3))
    ]


def test_a_chart_is_worked_within_the_stitches_of_a_row() -> None:
    plan = plan_of(cap(SEED, "k4, chart waves to last 4 stitches, k4\n        rounds: 3"))
    (chart,) = plan.pieces[0].steps[1].charts

    assert chart.chart == "waves"
    before = [progress.stitches for progress in plan.pieces[0].steps[1].before]
    assert chart.across == tuple((stitches - 8) // 8 for stitches in before)


@pytest.mark.parametrize(
    ("rows", "works", "id"),
    [
        (SEED, ["in pattern"], "row.not-established"),
        (SEED, ["in sead"], "row.unknown-pattern"),
        (SEED, ["in seed", "k all", "in pattern"], "row.not-established"),
        (SEED, ["k2, in seed to last 2, k2", "in pattern"], "row.not-established"),
        (SEED, ["k1, in seed to end"], "row.pattern-fit"),
        (SEED, ["'[in seed over 2] 2 times, k to end'"], "row.pattern-inside"),
        ("seed: {rows: ['*2/2 RC, p2; repeat from * to end']}", ["in seed over 12, k to end",
          "k1, in seed over 11, k to end"], "row.pattern-cut"),
        ("seed: {rows: ['k2, *yo, k2tog; repeat from * to last 2 stitches, k2']}",
         ["in seed over 12, k to end", "k1, in seed over 11, k to end"], "row.pattern-cut"),
        ("seed: {rows: ['*k2, p2; repeat from * to end'], multiple: 3}", ["in seed"],
         "pattern.multiple"),
        ("seed: {rows: ['*yo, k2; repeat from * to end']}", ["in seed"], "pattern.row"),
        ("seed: {rows: ['pm, k all']}", ["in seed"], "pattern.row"),
        (SEED, [", ".join(["in seed over 2, k1"] * 25) + ", k to end"], "piece.patterns"),
    ],
)  # fmt: skip
def test_what_cannot_be_said_exactly_is_refused(rows: str, works: list[str], id: str) -> None:
    found: tuple[Diagnostic, ...] = faults_of(cap(rows, *works))

    assert [each.id for each in found] == [id]
    assert found[0].help


def test_a_taper_works_its_plain_rounds_in_a_pattern() -> None:
    text = changed(
        cap(SEED, "in seed"),
        (CHART, CHART + TAPER),
        ("      - crown: 8\n        to: 8\n", ""),
    )
    plan = plan_of(text)
    step = next(step for step in plan.pieces[0].steps if isinstance(step.step, TaperStep))

    assert [each.rows.key for each in step.patterns.stitch] == ["seed"]
    assert step.patterns.stitch[0].rounds == (12, 12)


def test_rows_in_pattern_in_every_size_are_told_once() -> None:
    document, _ = build_document(
        plan_of(cap(SEED, "in seed\n        rounds: 5", "in pattern\n        rounds: 3")),
        MemoryFiles({}),
    )
    text = render_text(document, 0, signs_in_words)

    assert "Work the rows of Seed stitch" in text
    assert "Work in pattern for 3 rounds." in text
    assert text.count("Round 2: Star, p1, k1; repeat from star to end.") == 1


def test_without_patterns_in_pattern_is_refused_with_what_to_write() -> None:
    with pytest.raises(PatternError) as raised:
        parse_row("k1, in pattern to last stitch, k1", NOWHERE, BOOK)

    (found,) = raised.value.findings
    assert found.id == "row.in-pattern"
    assert "stitch patterns:" in found.help


def test_multiple_and_plus_follow_from_the_rows() -> None:
    rows = patterns_of(
        ["*k3, p1; repeat from * to last 3 stitches, k3", "p all"], ", worked: round"
    ).rows("seed", chart=False, flat=False)

    assert (rows.multiple, rows.plus) == (4, 3)
    assert rows.needs == "a multiple of 4 stitches plus 3"


def test_rows_written_for_rounds_are_told_for_rows_by_their_partners() -> None:
    patterns = patterns_of(
        ["*k1, yo, k2tog; repeat from * to end", "*k2, p1; repeat from * to end"], ", worked: round"
    )
    rows = patterns.rows("seed", chart=False, flat=True)

    said = as_worked(rows, BOOK, flat=True)

    assert said[0] == parse_row("*k1, yo, k2tog; repeat from * to end", NOWHERE, BOOK)
    assert said[1] == parse_row("*k1, p2; repeat from * to end", NOWHERE, BOOK)
