"""Setting text: what may break where, and lines that are few and even."""

import re
from collections.abc import Sequence

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bindoff.document.tree import Emphasis, Inlines, LineBreak, SizeValues, Strong, Text
from bindoff.render.pdf.fonts import clean, covered, shape, styled
from bindoff.render.pdf.hyphens import hyphens, partable
from bindoff.render.pdf.tagging import Tag
from bindoff.render.pdf.text import Line, TextRun, Word, lines, narrowest, runs, widest, words
from bindoff.render.pdf.theme import Look, theme

LOOK = Look("sans", 10.0, "#000000")
THEME = theme("calm")


def cut(text: str, width: float, balance: bool = False) -> list[str]:
    """``text`` broken to ``width`` points, as strings."""
    return [said(line) for line in lines(words([TextRun(text, LOOK)]), width, balance)]


def said(line: Line) -> str:
    return "".join(part.text for _, part in line.pieces)


def composed(*inlines: object) -> Sequence[Word]:
    nodes: Inlines = inlines  # type: ignore[assignment]
    return words(runs(nodes, THEME.body, THEME, lambda link: Tag("Link")))


def spoken(word: Word) -> str:
    return "".join(part.text for part in word.parts)


prose = st.lists(
    st.text(st.sampled_from("abcdefghijklm,.()0123456789"), min_size=1, max_size=12),
    min_size=1,
    max_size=40,
).map(" ".join)


@given(prose, st.floats(80, 400))
def test_lines_lose_nothing_and_fit(text: str, width: float) -> None:
    set_lines = lines(words([TextRun(text, LOOK)]), width)
    assert "".join(said(line) for line in set_lines) == text
    assert all(line.width <= width + 0.02 for line in set_lines)


@given(prose, st.floats(80, 400))
def test_lines_are_as_few_as_filling_each_would_give(text: str, width: float) -> None:
    """First-fit breaking is known to use the fewest lines; ours uses no more."""
    measured = words([TextRun(text, LOOK)])
    count, filled, gap = 1, 0.0, 0.0
    for word in measured:
        if filled and filled + gap + word.width > width + 0.01:
            count, filled = count + 1, word.width
        else:
            filled += gap + word.width
        gap = word.gap
    assert len(lines(measured, width)) == count


@given(prose, st.floats(80, 400))
def test_balanced_lines_are_no_wider_or_more(text: str, width: float) -> None:
    measured = words([TextRun(text, LOOK)])
    even = lines(measured, width, balance=True)
    assert len(even) == len(lines(measured, width))
    assert max(line.width for line in even) <= width + 0.02


def test_only_the_last_line_has_no_space_at_its_end() -> None:
    broken = cut("one two three four five six seven", 60)
    assert len(broken) > 2
    assert all(line.endswith(" ") for line in broken[:-1])
    assert not broken[-1].endswith(" ")


def test_balance_avoids_a_short_last_line() -> None:
    text = "Knit plain and slide the markers up and count between them."
    width = widest(words([TextRun(text, LOOK)])) - 2
    plain, even = cut(text, width), cut(text, width, balance=True)
    assert len(plain) == len(even) == 2
    assert len(even[1]) > len(plain[1])


def test_short_list_of_sizes_never_breaks() -> None:
    (only,) = composed(SizeValues(("80", "88", "96", "104")))
    assert spoken(only) == "80\N{NO-BREAK SPACE}(88,\N{NO-BREAK SPACE}96,\N{NO-BREAK SPACE}104)"


def list_lines(width: float) -> list[str]:
    values = ("72", "76", "84", "90", "94", "98", "102", "106", "110", "114")
    inlines = (Text("Cast on for your size and join "), SizeValues(values), Text(" stitches."))
    found = lines(composed(*inlines), width)
    return ["".join(part.text for _, part in line.pieces).replace("\xa0", " ") for line in found]


def test_long_list_of_sizes_does_not_break_where_a_line_can_hold_it() -> None:
    whole = "72 (76, 84, 90, 94, 98, 102, 106, 110, 114)"
    width = widest(composed(Text(whole))) + 1
    for wider in (0, 20, 60, 140):
        assert any(whole in line for line in list_lines(width + wider))


def test_list_of_sizes_too_long_for_a_line_breaks_after_a_comma_but_not_before_its_bracket() -> (
    None
):
    found = list_lines(90)
    inside = [line.rstrip() for line in found if re.search(r"\d+,", line)]
    assert len(inside) > 1
    assert all(line.endswith(",") for line in inside[:-1])
    assert any("72 (76," in line for line in inside)
    assert " ".join(" ".join(found).split()) == (
        "Cast on for your size and join 72 (76, 84, 90, 94, 98, 102, 106, 110, 114) stitches."
    )


def test_one_value_for_all_sizes_prints_once() -> None:
    (only,) = composed(SizeValues(("8", "8", "8")))
    assert spoken(only) == "8"


@pytest.mark.parametrize("unit", ["cm", "mm", "g", "m", "in", "%"])
def test_number_keeps_its_unit(unit: str) -> None:
    """ISO 80000-1, 7.1.4: a space between number and unit; we do not let a line end in it."""
    assert len(composed(Text(f"12 {unit}"))) == 1
    assert len(composed(SizeValues(("36", "38")), Text(f" {unit}"))) == 1


def test_sign_between_words_does_not_begin_a_line() -> None:
    pieces = [spoken(word) for word in composed(Text("10 cm / 4 in = 1 – 2 × 3"))]
    assert not [piece for piece in pieces if piece[0] in "/=–×"]
    values = SizeValues(("53", "56"))
    pieces = [spoken(word) for word in composed(values, Text(" / 4"))]
    assert pieces == ["53\N{NO-BREAK SPACE}(56)\N{NO-BREAK SPACE}/", "4"]


def test_number_is_rather_kept_with_the_word_that_names_it() -> None:
    """The first line could hold "st" but not "st 24"; a slightly shorter line reads better."""
    width = widest(words([TextRun("knit the round again at st", LOOK)])) + 1
    assert cut("knit the round again at st 24 and end off", width)[1].startswith("st 24")


@pytest.mark.parametrize(
    ("word", "goes_on", "stays"),
    [("k", "to 1 stitch", True), ("sc", "in next 2", True), ("in", "the next 2", False)],
)
def test_abbreviation_is_rather_kept_with_what_it_goes_with(
    word: str, goes_on: str, stays: bool
) -> None:
    """The first line could hold it; a word with a vowel is none and fills the line."""
    before = "knit to marker, slip it, make one, "
    width = widest(words([TextRun(before + word, LOOK)])) + 1
    _, second, *_ = cut(f"{before}{word} {goes_on} before marker", width)

    assert second.startswith(f"{word} {goes_on}" if stays else goes_on)


def test_number_may_be_parted_from_an_ordinary_word() -> None:
    assert len(composed(Text("12 minutes"))) == 2


@pytest.mark.parametrize(
    ("text", "pieces"),
    [
        ("double-layered", ["double-", "layered"]),
        ("k2tog", ["k2tog"]),
        ("−10%", ["−10%"]),
        ("2–4", ["2–4"]),
        ("p1-k1", ["p1-", "k1"]),
        ("a\N{NO-BREAK SPACE}b", ["a\N{NO-BREAK SPACE}b"]),
    ],
)
def test_where_a_word_may_be_cut(text: str, pieces: list[str]) -> None:
    assert [spoken(word) for word in composed(Text(text))] == pieces


def test_word_wider_than_the_line_is_cut_rather_than_clipped() -> None:
    broken = cut("https" + "x" * 60, 80)
    assert "".join(broken) == "https" + "x" * 60
    assert len(broken) > 3


def test_forced_break_ends_a_line_even_twice() -> None:
    broken = [
        said(line) for line in lines(composed(Text("a"), LineBreak(), LineBreak(), Text("b")), 99)
    ]
    assert broken == ["a ", "", "b"]


def test_stress_changes_the_face_but_not_the_words() -> None:
    bold, italic = composed(Strong((Text("bold"),)), Text(" "), Emphasis((Text("lean"),)))
    assert bold.parts[0].look.face == "sans-bold"
    assert italic.parts[0].look.face == "sans-italic"
    assert styled("serif-bold", False, True) == "serif-bold-italic"


def test_large_print_has_no_italics() -> None:
    """American Council of the Blind large-print guideline: no italics."""
    large = theme("large-print")
    (run,) = runs((Emphasis((Text("lean"),)),), large.body, large, lambda link: Tag("Link"))
    assert run.look.face == "sans-bold"


def test_kerning_draws_letters_together() -> None:
    """Lato's GPOS table pairs T and o; plain advances would leave a hole."""
    width, kerns = shape("To", "sans")
    apart = shape("T", "sans").width + shape("o", "sans").width
    assert kerns is not None
    assert kerns[0] < -50
    assert width == pytest.approx(apart + kerns[0] / 1000)


def test_figures_are_as_wide_as_one_another() -> None:
    """Columns of figures line up only when all digits have one width."""
    assert len({shape(digit, face).width for digit in "0123456789" for face in ("sans",)}) == 1


def test_text_is_composed_and_rid_of_invisible_characters() -> None:
    assert clean("cafe\u0301\u00ad\u2060\ttea") == "café tea"


def test_pieces_of_another_family_are_told_apart() -> None:
    assert list(covered("a✓b", "sans")) == [("a", "sans"), ("✓", "serif"), ("b", "sans")]
    assert list(covered("plain", "sans")) == [("plain", "sans")]


@given(prose)
def test_widest_is_one_line_and_narrowest_one_word(text: str) -> None:
    measured = words([TextRun(text, LOOK)])
    assert len(lines(measured, widest(measured) + 0.01)) == 1
    assert narrowest(measured) <= widest(measured) + 0.01


# ---------------------------------------------------------------- parted words

SOFT = "\N{SOFT HYPHEN}"
GERMAN = "Die Maschenprobe bestimmt Nadelspiel und Fertigmaße des Zopfmusterhandschuhs"
"""Long words whose joints anybody can see; written for this test."""


def parted(text: str, width: float, language: str) -> list[str]:
    """``text`` in lines with words parted where that helps."""
    found = lines(words([TextRun(text, LOOK)]), width, hyphens=hyphens(language))
    return [said(line) for line in found]


@pytest.mark.parametrize("width", [75.0, 85.0, 95.0, 110.0])
def test_long_words_are_parted_where_a_line_would_be_ragged(width: float) -> None:
    """The joints are those of Duden: Ma-schen-pro-be, Na-del-spiel (from memory)."""
    whole, found = cut(GERMAN, width), parted(GERMAN, width, "de")
    ends = [line.rpartition(" ")[2] for line in found if line.endswith(SOFT)]
    assert ends
    assert len(found) <= len(whole)
    assert "".join(found).replace(SOFT, "") == "".join(whole)
    joints = "Ma-schen-pro-be be-stimmt Na-del-spiel Fer-tig-ma-ße Zopf-mus-ter-hand-schuhs"
    for end in ends:
        bare = end.removesuffix(SOFT)
        assert any(
            bare == word.replace("-", "")[: len(bare)]
            and bare in ("".join(word.split("-")[:count]) for count in range(1, 9))
            for word in joints.split()
        ), end


@given(st.text("abcdefgk2tog. ", max_size=120), st.floats(40, 300))
def test_parted_lines_lose_nothing_and_fit(text: str, width: float) -> None:
    found = lines(words([TextRun(text, LOOK)]), width, hyphens=hyphens("en-US"))
    assert all(line.width <= width + 0.01 for line in found)
    told = "".join(said(line) for line in found).replace(SOFT, "")
    assert told.split() == " ".join(cut(text, 1e6)).split()


@pytest.mark.parametrize("word", ["k2tog", "SSK", "M1L", "sl1wyif", "stitch", "3-needle"])
def test_names_of_stitches_and_short_words_stay_whole(word: str) -> None:
    assert not partable(word)
    assert hyphens("en-US")(word) == ()


def test_language_without_a_rule_parts_no_word() -> None:
    assert hyphens("tlh")("Maschenprobe") == ()
