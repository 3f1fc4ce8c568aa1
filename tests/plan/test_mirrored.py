"""A piece that mirrors another has the counts of one that is written out by hand.

Stitches are bound off where a row begins, so a right front does it a row later than a left front,
and its decreases lean the other way: common practice, no source.
"""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bindoff.diagnostics import Diagnostic, Span
from bindoff.document.build import build_document
from bindoff.document.tree import plain, texts
from bindoff.document.voice import voice_of
from bindoff.files import MemoryFiles
from bindoff.plan.mirrored import mirrored
from bindoff.plan.plan import Plan
from bindoff.plan.rowcount import count_row
from bindoff.plan.worked import PiecePlan
from bindoff.source.otherside import other_name, other_words
from bindoff.source.rowlang.parse import parse_row
from bindoff.source.rowlang.stitches import standard_book
from bindoff.source.rowlang.syntax import Row
from tests.small_patterns import FLAP, faults_of, plan_of

HEAD = FLAP.partition("pieces:\n")[0]


def pieces(worked: str = "flat", **written: tuple[str, ...] | str) -> str:
    """A pattern with these pieces: their steps, or the piece that one mirrors."""
    text = HEAD + "pieces:\n"
    for key, steps in written.items():
        text += f"  {key}:\n    title: {key.replace('_', ' ').capitalize()}\n"
        if isinstance(steps, str):
            text += f"    mirror of: {steps}\n"
        else:
            text += f"    worked: {worked}\n    steps:\n"
            text += "".join(f"      - {step}\n" for step in steps)
    return text


def piece(plan: Plan, key: str) -> PiecePlan:
    return next(each for each in plan.pieces if each.key == key)


def rows_told(plan: Plan, key: str) -> list[list[str]]:
    """The rows of every step of a piece, as they are printed."""
    voice = voice_of(plan)
    return [[plain(voice.row(row)) for row in step.rows] for step in piece(plan, key).steps]


def counts(plan: Plan, key: str) -> list[tuple[tuple[int, int], ...]]:
    return [
        tuple((each.rounds, each.stitches) for each in step.after)
        for step in piece(plan, key).steps
    ]


def agree(left: tuple[str, ...], right: tuple[str, ...], worked: str = "flat") -> None:
    """The mirrored left piece is the right piece that is written out."""
    mirrored = plan_of(pieces(worked, left_front=left, right_front="left_front"))
    written = plan_of(pieces(worked, left_front=left, right_front=right))

    assert rows_told(mirrored, "right_front") == rows_told(written, "right_front")
    assert counts(mirrored, "right_front") == counts(written, "right_front")


BODY = ("cast on: 40", "{work: [k all, p all], rounds: 20}")
END = ("bind off: all",)


@pytest.mark.parametrize(
    ("left", "right"),
    [
        ("work: ['bind off 6, k to end', p all]", "work: [k all, 'bind off 6, p to end']"),
        ("work: [k all, 'bind off 6, p to end']", "work: ['bind off 6, k to end', p all]"),
        (
            "{work: ['bind off 2, k to end', p all], times: 3}",
            "{work: [k all, 'bind off 2, p to end'], times: 3}",
        ),
        (
            "work: ['bind off 6, k2, ssk, k to end', p all]",
            "work: ['k to last 10, k2tog, k8', 'bind off 6, p to end']",
        ),
        (
            "work: ['cast on 6, k to end', p all]",
            "work: [k all, 'cast on 6, p to end']",
        ),
        (
            "{work: ['k1, ssk, k to end', p all], times: 4}",
            "{work: ['k to last 3, k2tog, k1', p all], times: 4}",
        ),
        (
            "{taper: 'k1, ssk, k to end', to: 30, over: 40, every: 2}",
            "{taper: 'k to last 3, k2tog, k1', to: 30, over: 40, every: 2}",
        ),
        (
            "work: ['sl1 wyib, k1, ssk, k to end', 'sl1 wyif, p to end']",
            "work: ['sl1 wyib, k to last 4, k2tog, k2', 'sl1 wyif, p to end']",
        ),
    ],
)
def test_a_mirrored_front_is_the_one_that_is_written_out(left: str, right: str) -> None:
    agree((*BODY, left, *END), (*BODY, right, *END))


def test_a_number_by_size_stays_one_by_size() -> None:
    """10 and 12 stitches to the edge: 8 and 10 to the decrease from the other end."""
    left = (*BODY, "work: ['k{narrow}, ssk, k to end', p all]", *END)
    right = (*BODY, "work: ['k to last {12, 14}, k2tog, k{narrow}', p all]", *END)

    agree(left, right)


def test_markers_hold_their_places_from_the_other_end() -> None:
    left = (
        "cast on: 40",
        "work: 'k10, pm, k to end'",
        "work: 'k to 3 before marker, k2tog, k1, sm, k to end'",
        "work: 'k to marker, remove marker, k to end'",
        *END,
    )
    right = (
        "cast on: 40",
        "work: 'k to last 10, pm, k10'",
        "work: 'k to marker, sm, k1, ssk, k to end'",
        "work: 'k to marker, remove marker, k to end'",
        *END,
    )

    agree(left, right, worked="round")


def test_short_rows_are_turned_on_the_other_side_a_row_later() -> None:
    """A shoulder in steps of 6: the left one is turned on right-side rows."""
    left = (
        *BODY,
        "work: ['k to last 6, turn', p to end, 'k to last 12, turn', p to end, k all]",
        *END,
    )
    right = (
        *BODY,
        "work: [k all, 'p to last 6, turn', k to end, 'p to last 12, turn', k to end]",
        *END,
    )

    agree(left, right)


TOGETHER = """\
together:
          - {title: armhole, at: start, work: [bind off 4, bind off 2], from: 1}
          - {title: armhole, at: start, work: 'k1, ssk', from: 5, times: 3}
          - {title: neck, at: end, work: 'k2tog, k1', from: 9, every: 4, times: 4}
        over: 30"""


def test_shapings_together_change_their_ends_and_bind_off_a_row_later() -> None:
    plan = plan_of(pieces(left_front=(*BODY, TOGETHER, *END), right_front="left_front"))
    left, right = (piece(plan, key).steps[2] for key in ("left_front", "right_front"))
    told = {
        (each.title, each.at, plain(voice_of(plan).row(each.works[0]))): each.rows[0]
        for each in right.detail.shapings
    }

    assert told == {
        ("armhole", "start", "Bind off 4 stitches."): (2,),
        ("armhole", "start", "Bind off 2 stitches."): (4,),
        ("armhole", "end", "K2tog, k1."): (5, 7, 9),
        ("neck", "start", "K1, ssk."): (9, 13, 17, 21),
    }
    assert [each.stitches for each in left.after] == [each.stitches for each in right.after]
    assert left.detail.stitches[0][:4] == (36, 36, 34, 34)
    assert right.detail.stitches[0][:4] == (40, 36, 36, 34)


def test_held_stitches_have_the_names_of_the_other_side() -> None:
    """A mitten: thumb stitches two from its beginning come two from the other's end."""
    left = (
        "cast on: 40",
        "work: 'k2, hold 8 stitches for left thumb, cast on 8, k to end'",
        *END,
        "{held: left thumb, pick up: 8, along: the edge of the left palm}",
        *END,
    )
    plan = plan_of(pieces("round", left_mitten=left, right_mitten="left_mitten"))

    assert rows_told(plan, "right_mitten")[1] == [
        "K to last 10 stitches, hold 8 stitches for right thumb, cast on 8 stitches, k2."
    ]
    thumb = piece(plan, "right_mitten").steps[3]
    assert (thumb.detail.parts[0].names, thumb.step.along) == (
        ("right thumb",),
        "the edge of the right palm",
    )


def test_the_document_says_that_it_mirrors_and_writes_all_rows() -> None:
    text = pieces(
        left_front=(*BODY, "say: Mark the left edge on the right side.", *END),
        right_front="left_front",
    )
    document, _ = build_document(plan_of(text), MemoryFiles({}))
    words = list(texts(document))

    assert any(each.startswith("This piece is the mirror image of “Left front”") for each in words)
    assert "Mark the right edge on the right side." in words


@pytest.mark.parametrize(
    ("name", "other"),
    [("left front", "right front"), ("Right_front", "Left_front"), ("bright edge", "bright edge")],
)
def test_names_change_their_side(name: str, other: str) -> None:
    assert other_name(name) == other


@pytest.mark.parametrize(
    ("prose", "other"),
    [
        ("Sew the left sleeve.", "Sew the right sleeve."),
        ("With the right side facing, 4 stitches are left.", None),
        ("Slip it to the right hand needle.", None),
        ("Left and right edge", "Left and left edge"),
    ],
)
def test_prose_changes_the_side_of_the_wearer_only(prose: str, other: str | None) -> None:
    assert other_words(prose) == (other or prose)


def fault(text: str) -> Diagnostic:
    (found,) = faults_of(text)
    return found


@pytest.mark.parametrize(
    ("step", "about"),
    [
        ("work: 'bind off 6, k to end'", "no row of this step"),
        ("{work: ['bind off 6, k to end', p all], rounds: 3}", "amid two such rows"),
        ("work: ['k to last 6, turn', p to end]", "turns these short rows"),
        ("bind off: 6", "row beside this one"),
        ("work: ['cast on 6, k2, ssk, k to end', p all]", "cast on first"),
    ],
)
def test_what_has_no_mirror_image_is_refused(step: str, about: str) -> None:
    found = fault(pieces(left_front=(*BODY, step, *END), right_front="left_front"))

    assert (found.id, about in found.message) == ("mirror.row", True)


@pytest.mark.parametrize(
    ("changes", "id"),
    [
        ({"right_front": "back"}, "source.mirror"),
        ({"right_front": "right_front"}, "source.mirror"),
        ({"right_front": "left_front", "third": "right_front"}, "source.mirror"),
    ],
)
def test_a_piece_mirrors_one_with_steps_made_before(changes: dict[str, str], id: str) -> None:
    assert fault(pieces(left_front=(*BODY, *END), **changes)).id == id


def test_a_piece_has_steps_or_mirrors() -> None:
    both = pieces(left_front=(*BODY, *END), right_front=(*BODY, *END))
    both = both.replace("right_front:\n", "right_front:\n    mirror of: left_front\n")
    none = pieces(left_front=(*BODY, *END)) + "  back:\n    title: Back\n"

    assert [fault(each).id for each in (both, none)] == ["source.value", "source.value"]


_STITCHES = st.sampled_from(
    ["k1", "k3", "p2", "k2tog", "ssk", "yo", "m1l", "m1r", "cdd", "RT", "LT"]
)
_ENDS = st.lists(_STITCHES, max_size=4)


@given(_ENDS, _ENDS, st.integers(0, 30))
def test_a_row_read_from_either_end_makes_as_many_stitches(
    head: list[str], tail: list[str], between: int
) -> None:
    """Whatever stands at its ends, and when it is turned once more."""
    book = standard_book()
    uses = sum(map(_used, tail))
    to = f"to last {uses}" if uses else "to end"
    row = _row(", ".join([*head, f"k {to}", *tail]))
    live = sum(map(_used, (*head, *tail))) + between + 1
    image = mirrored(row, book)
    rows = (row, image, mirrored(image, book))
    counted = [count_row(each, live, {}, (), book) for each in rows]

    assert len({(each.consumed, each.produced) for each in counted}) == 1


def _row(text: str) -> Row:
    return parse_row(text, Span("x", 1, 1, 1, len(text) + 1), standard_book(), ())


def _used(text: str) -> int:
    """The stitches that one stitch of the list uses."""
    return {"k3": 3, "p2": 2, "k2tog": 2, "ssk": 2, "cdd": 3, "RT": 2, "LT": 2, "k1": 1}.get(
        text, 0
    )


def patterned(rows: str, count: int) -> str:
    """Two fronts in a stitch pattern, the right one the left one's mirror image."""
    left = (
        f"cast on: {count}",
        "{work: [in seed to end, in seed to end], times: 3}",
        "{work: ['k1, ssk, in pattern to end', in pattern], times: 4}",
        *END,
    )
    text = pieces(left_front=left, right_front="left_front")
    return text.replace(
        "pieces:\n", f"stitch patterns:\n  seed: {{title: Seed, rows: {rows}}}\npieces:\n"
    )


SEED = "['*k1, p1; repeat from * to last stitch, k1', '*k1, p1; repeat from * to last stitch, k1']"
SHIFTED = "['*k1, p1; repeat from * to end', '*p1, k1; repeat from * to end']"


def test_a_pattern_that_is_the_same_from_both_ends_may_be_worked_in() -> None:
    plan = plan_of(patterned(SEED, 41))

    assert rows_told(plan, "right_front")[2] == [
        "In pattern to last 3 stitches, k2tog, k1.",
        "Work in pattern.",
    ]
    assert counts(plan, "right_front") == counts(plan, "left_front")


def test_a_pattern_that_is_not_is_refused() -> None:
    found = fault(patterned(SHIFTED, 40))

    assert (found.id, "same from both ends" in found.message) == ("mirror.row", True)
