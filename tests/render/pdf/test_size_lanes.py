"""Which figures of a step stand in the lanes of their sizes, and which stay in the text."""

from bindoff.document.phrases import join
from bindoff.document.tree import Inlines, SizeValues, plain
from bindoff.render.pdf.sizelanes import Shown, displayed


def of(*values: str) -> Inlines:
    return (SizeValues(values),)


def told(inlines: Inlines) -> list[str]:
    """The parts in turn; figures in lanes by their unit."""
    return [
        f"lane of {part.rows[0][1]}" if isinstance(part, Shown) else plain(part).strip()
        for part in displayed(inlines)
    ]


def test_figures_that_end_a_sentence_stand_in_lanes() -> None:
    words = join("Cast on ", of("84", "92"), " stitches. Join. In all ", of("2", "3"), " rounds.")

    assert told(words) == ["Cast on", "lane of stitches", "Join. In all", "lane of rounds"]


def test_a_sentence_with_figures_of_its_own_keeps_those_at_its_end() -> None:
    """Half of a row in the text and half in lanes can't be read in one go."""
    words = join(
        "K", of("12", "14"), ", pick up ", of("11", "13"), " stitches, *k1; repeat from * to end, ",
        "pick up ", of("11", "13"), " stitches. In all ", of("54", "64"), " stitches.",
    )  # fmt: skip

    assert told(words) == [
        "K12 (14), pick up 11 (13) stitches, *k1; repeat from * to end, pick up 11 (13) stitches. "
        "In all",
        "lane of stitches",
    ]


def test_figures_that_are_the_same_in_every_size_are_like_words() -> None:
    words = join("Back ", of("4", "4"), ", front ", of("5", "6"), " stitches.")

    assert told(words)[1:] == ["lane of stitches"]
