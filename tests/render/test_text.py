"""The text edition says all that the document says, line by line, size by size."""

import re
import unicodedata
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bindoff.document.tree import (
    Block,
    Callout,
    Column,
    Cover,
    Definition,
    DefinitionList,
    Document,
    Emphasis,
    Figure,
    Heading,
    Inline,
    Inlines,
    ItemList,
    LineBreak,
    Link,
    ListItem,
    PageBreak,
    Paragraph,
    Ringed,
    SizeValues,
    Strong,
    Table,
    TableRow,
    Text,
)
from bindoff.english import ended
from bindoff.render.spoken import sentences, spelled
from bindoff.render.text import render_text

SIZES = ("S", "M", "L")


def t(*parts: str | Inline) -> Inlines:
    """Running text from strings and nodes."""
    return tuple(Text(part) if isinstance(part, str) else part for part in parts)


def per_size(*values: str) -> SizeValues:
    return SizeValues(values)


def document(*blocks: Block, sizes: tuple[str, ...] = SIZES) -> Document:
    return Document(
        "Harbour Hat", "Ada Quay", "en", "1.0", "2026-11-02", "A warm hat.", sizes, blocks
    )


def told(*blocks: Block, sizes: tuple[str, ...] = SIZES) -> str:
    """What the text edition makes of ``blocks``, without its opening and its end."""
    how = (
        "Where sizes differ, a line begins with the sizes that it is for.\n",
        "To go to a step, search for the word Step and its number.\n",
    )
    whole = render_text(document(*blocks, sizes=sizes)).replace(how[0], "").replace(how[1], "")
    bare = render_text(document(sizes=sizes))
    end = "\n\nEnd of Harbour Hat.\n"
    assert whole.endswith(end)
    opening = bare.removesuffix(end).rstrip("\n")
    assert whole.startswith(opening)
    return whole.removeprefix(opening).removesuffix(end).strip("\n")


# ---------------------------------------------------------------- sizes


def test_a_sentence_is_said_once_for_each_figure() -> None:
    paragraph = Paragraph(
        t("Cast on ", per_size("80", "88", "88"), " sts, 2.5 cm apart. Join, approx. here. Work on")
    )
    assert told(paragraph) == (
        "Size S: Cast on 80 stitches, 2.5 centimeters apart.\n"
        "Sizes M and L: Cast on 88 stitches, 2.5 centimeters apart.\n"
        "Join, approx. here.\n"
        "Work on."
    )


def test_what_a_size_does_and_how_many_stitches_that_makes_is_one_line() -> None:
    paragraph = Paragraph(
        t("Knit to ", per_size("2", "3", "3"), ". ", per_size("8", "8", "9"), " sts. Turn.")
    )
    assert told(paragraph) == (
        "Size S: Knit to 2. 8 stitches.\nSize M: Knit to 3. 8 stitches.\n"
        "Size L: Knit to 3. 9 stitches.\nTurn."
    )


def test_what_only_the_page_needs_is_not_told() -> None:
    text = told(
        Heading(2, t("Charts")),
        Heading(3, t("How to look"), print_only=True),
        Paragraph(t("From right to left."), print_only=True),
        DefinitionList((Definition(t("Tar"), t("a dot"), print_only=True),)),
        Heading(3, t("Rope")),
        ItemList((ListItem((Paragraph(t("Turn.")), Paragraph(t("See left."), print_only=True))),)),
    )
    assert text.endswith("number.\n\n\nSection 1: Charts\n\n\nSection 1.1: Rope\n\nTurn.")


def test_a_link_says_the_number_of_its_section() -> None:
    text = told(
        Paragraph(t(Link(t("the chart"), "#rope"), ", or ", Link(t("lost"), "#lost"), ".")),
        Heading(2, t("Charts")),
        Heading(3, t("Rope"), "rope"),
    )
    assert "\nthe chart (Section 1.1), or lost.\n" in f"\n{text}"


def test_figures_that_agree_in_all_sizes_need_no_sizes() -> None:
    paragraph = Paragraph(t("Knit ", per_size("4", "4", "4"), " rounds."))
    assert told(paragraph) == "Knit 4 rounds."


def test_a_document_for_one_size_reads_without_sizes() -> None:
    size_table = Table(
        t("Counts"),
        (Column(t("Step")), Column(t("M"), size=0)),
        (TableRow((t("Brim"), t("80"))),),
    )
    paragraph = Paragraph(t("Cast on ", per_size("80"), "."))

    assert told(paragraph, size_table, sizes=("M",)) == (
        "Cast on 80.\n\nTable with 1 row: Counts.\nBrim: 80.\nEnd of table."
    )
    assert "Size: M." in render_text(document(paragraph, sizes=("M",)))


def test_several_figures_of_a_sentence_stay_together() -> None:
    paragraph = Paragraph(
        t("Work ", per_size("4", "4", "6"), " rounds, ", per_size("80", "88", "88"), " stitches.")
    )
    assert told(paragraph) == (
        "Size S: Work 4 rounds, 80 stitches.\n"
        "Size M: Work 4 rounds, 88 stitches.\n"
        "Size L: Work 6 rounds, 88 stitches."
    )


def test_a_size_without_figures_is_told_so() -> None:
    paragraph = Paragraph(t("Work ", per_size("–", "2", "2"), " more rounds."))
    both = Paragraph(t("Work ", per_size("–", "2", "2"), " of ", per_size("8", "9", "9"), "."))

    assert told(paragraph).startswith("Size S: not for this size.\nSizes M and L: Work 2")
    assert told(both).startswith("Size S: Work none of 8.")


def test_a_figure_may_begin_a_sentence_and_stand_in_stress() -> None:
    paragraph = Paragraph(
        t("Turn. ", Strong((per_size("8", "9", "9"),)), " rounds are left. ", Emphasis(t("Rest.")))
    )
    assert told(paragraph) == (
        "Turn.\nSize S: 8 rounds are left.\nSizes M and L: 9 rounds are left.\nRest."
    )


def test_a_figure_that_stands_alone_has_its_label_on_its_own_line() -> None:
    facts = DefinitionList(
        (
            Definition(t("Skill"), t("easy")),
            Definition(t("Finished head"), t(per_size("50", "52", "54"), " cm")),
            Definition(t("Empty:"), ()),
        )
    )
    assert told(facts) == (
        "Skill: easy.\n"
        "\n"
        "Finished head:\n"
        "Size S: 50 centimeters.\n"
        "Size M: 52 centimeters.\n"
        "Size L: 54 centimeters.\n"
        "\n"
        "Empty:"
    )


def test_an_initial_that_is_bound_to_a_name_ends_no_sentence() -> None:
    """The letter of a size does."""
    bound = Paragraph(t("Designed by A.\N{NO-BREAK SPACE}Stranger. Cut it for size A. Knit on."))

    assert told(bound) == "Designed by A. Stranger.\nCut it for size A.\nKnit on."


def test_a_value_must_have_one_figure_for_each_size() -> None:
    with pytest.raises(ValueError, match="one value for each"):
        told(Paragraph(t(per_size("1", "2"))))


# ---------------------------------------------------------------- blocks


def test_sections_are_numbered_and_listed() -> None:
    text = render_text(
        document(
            Heading(1, t("Harbour Hat")),
            Heading(2, t("Materials")),
            Heading(3, t("Tools")),
            Heading(4, t("Hooks")),
            Heading(3, t("Yarn")),
            Heading(2, t("Crown")),
            Heading(3, t("Close")),
        )
    )
    assert re.findall("^Section.*[^.\n]$", text, re.M) == [
        "Section 1: Materials",
        "Section 1.1: Tools",
        "Section 1.1.1: Hooks",
        "Section 1.2: Yarn",
        "Section 2: Crown",
        "Section 2.1: Close",
    ]
    assert "Contents:\nSection 1: Materials.\nSection 2: Crown.\n" in text
    assert "\n\n\nSection 2: Crown\n" in text
    assert text.count("Harbour Hat") == 2


def test_the_opening_says_who_when_and_how_to_read() -> None:
    cover = Cover(
        "Harbour Hat",
        t("Designed by Ada Quay"),
        t("A warm hat."),
        DefinitionList((Definition(t("Skill"), t("easy")),)),
        Figure(b"", "A grey hat with a lighthouse."),
    )
    assert render_text(document(cover)).startswith(
        "Harbour Hat\n"
        "Designed by Ada Quay.\n"
        "Version 1.0, 2 November 2026.\n"
        "\n"
        "A warm hat.\n"
        "\n"
        "The sizes are S, M and L.\n"
        "\n"
        "Skill: easy.\n"
        "\n"
        "Picture: A grey hat with a lighthouse.\n"
    )
    assert render_text(document()).startswith("Harbour Hat\nBy Ada Quay.\n")
    differing = document(Paragraph(t(per_size("1", "2", "3"))))
    assert "Where sizes differ, a line begins with the sizes" in render_text(differing)
    versioned = replace(cover, byline=t("By Ada Quay · version 1.0"))
    assert render_text(document(versioned)).startswith(
        "Harbour Hat\nBy Ada Quay, version 1.0.\n\nA warm hat."
    )


def test_numbered_entries_are_steps_and_others_are_lines() -> None:
    def entry(*blocks: Block) -> ListItem:
        return ListItem(blocks)

    inner = ItemList((entry(Paragraph(t("loosely"))), entry(Paragraph(t("evenly")))), True)
    steps = ItemList(
        (
            entry(Paragraph(t("knit. Turn."))),
            entry(Paragraph(t("purl ", per_size("1", "2", "2"))), inner),
            entry(inner),
        ),
        ordered=True,
        start=3,
    )
    assert told(steps) == (
        "Step 3 of 5: knit.\n"
        "Turn.\n"
        "\n"
        "Step 4 of 5:\n"
        "Size S: purl 1.\n"
        "Sizes M and L: purl 2.\n"
        "Step 4, part 1 of 2: loosely.\n"
        "Step 4, part 2 of 2: evenly.\n"
        "\n"
        "Step 5 of 5:\n"
        "Step 5, part 1 of 2: loosely.\n"
        "Step 5, part 2 of 2: evenly."
    )
    assert told(ItemList((entry(Paragraph(t("a"))), entry(Paragraph(t("b")))))) == "a.\nb."


def test_tables_of_a_step_are_set_apart() -> None:
    table = Table(t("Counts"), (Column(t("Row")), Column(t("Left"))), (TableRow((t("a"), t("8"))),))
    blocks = (Paragraph(t("Knit.")), table, table, Paragraph(t("Purl.")), Paragraph(t("Turn.")))
    whole = "Table with 1 row: Counts.\na: 8.\nEnd of table."
    assert told(ItemList((ListItem(blocks),), ordered=True)) == (
        f"Step 1 of 1: Knit.\n\n{whole}\n\n{whole}\n\nPurl.\nTurn."
    )
    assert told(ItemList((ListItem((table,)),), ordered=True)) == f"Step 1 of 1:\n\n{whole}"


def test_lists_with_empty_lines_are_set_apart_in_a_step() -> None:
    rows = (t("Row 1: knit ", per_size("1", "2", "2")), t("Row 2: purl"))
    inner = ItemList(tuple(ListItem((Paragraph(row),)) for row in rows))
    blocks = (Paragraph(t("Work.")), inner, Paragraph(t("Turn.")))
    assert told(ItemList((ListItem(blocks),), ordered=True)) == (
        "Step 1 of 1: Work.\n\n"
        "Size S: Row 1: knit 1.\nSizes M and L: Row 1: knit 2.\n\nRow 2: purl.\n\nTurn."
    )


def test_steps_are_counted_through_all_lists_of_a_section() -> None:
    def steps(start: int, *texts: str) -> ItemList:
        items = tuple(ListItem((Paragraph(t(text)),)) for text in texts)
        return ItemList(items, ordered=True, start=start)

    text = told(
        Heading(2, t("Hat")),
        Heading(3, t("Brim")),
        steps(1, "a", "b"),
        Paragraph(t("c")),
        Heading(3, t("Crown")),
        steps(3, "d"),
        Heading(2, t("Flap")),
        steps(1, "e"),
        steps(1, "f"),
    )
    assert re.findall("Step.*", text) == [
        "Step 1 of 3: a.",
        "Step 2 of 3: b.",
        "Step 3 of 3: d.",
        "Step 1 of 1: e.",
        "Step 1 of 1: f.",
    ]


def test_pictures_notes_and_breaks() -> None:
    assert told(Figure(b"", "A chart, 46 × 60.", t("Chart A"))) == (
        "Picture: A chart, 46 by 60.\nCaption: Chart A."
    )
    assert told(Callout("safety", t("Cords"), (Paragraph(t("None. Ever.")),)), PageBreak()) == (
        "Safety: Cords.\nNone.\nEver.\nEnd of safety note."
    )
    assert told(Callout("tip", (), (Paragraph(t("Rest")), Paragraph(t("Breathe"))))) == (
        "Tip.\nRest.\n\nBreathe.\nEnd of tip."
    )


def test_links_within_the_document_are_words_and_others_name_their_address() -> None:
    site = "https://ebbstow.example/2–3/a-1m"
    assert (
        told(
            Paragraph(
                t(
                    "See ",
                    Link(t("the ", Strong(t("chart"))), "#chart"),
                    ", ",
                    Link(t("our page"), site),
                    " or ",
                    Link(t("ada@ebbstow.example"), "mailto:ada@ebbstow.example"),
                    ".",
                )
            )
        )
        == f"See the chart, our page (link: {site}) or ada@ebbstow.example."
    )


def test_a_forced_line_break_ends_a_line() -> None:
    assert told(Paragraph((Text("1 Quay Street"), LineBreak(), Text("ebbstow")))) == (
        "1 Quay Street.\nebbstow."
    )


# ---------------------------------------------------------------- tables


def sized_columns() -> tuple[Column, ...]:
    return tuple(Column(t(name), size=index) for index, name in enumerate(SIZES))


def test_a_row_of_a_table_is_its_name_and_then_each_figure_in_words() -> None:
    table = Table(
        t("Shaping"),
        (Column(t("Step")), Column(t("Part")), Column(t("Note")), *sized_columns() * 2),
        (
            TableRow((*map(t, ("1", "ribbing", "loose", "80", "88", "88", "4", "4", "4")),)),
            TableRow((*map(t, ("2", "crown")), (), *map(t, ("8", "–", "9", "4", "4", "5")))),
        ),
        header_columns=2,
        groups=((t(""), 3), (t("Stitches"), 3), (t("Rounds"), 3)),
    )
    assert told(table) == (
        "Table with 2 rows: Shaping.\n"
        "Step 1, ribbing.\n"
        "Note: loose.\n"
        "Stitches:\n"
        "Size S: 80.\n"
        "Sizes M and L: 88.\n"
        "Rounds: 4.\n"
        "\n"
        "Step 2, crown.\n"
        "Stitches:\n"
        "Size S: 8.\n"
        "Size M: not for this size.\n"
        "Size L: 9.\n"
        "Rounds:\n"
        "Sizes S and M: 4.\n"
        "Size L: 5.\n"
        "End of table."
    )


def test_a_table_with_one_column_beside_the_name_needs_no_column_words() -> None:
    table = Table(
        t("Chart in words"),
        (Column(t("Round")), Column(t("Work"))),
        (
            TableRow((t("1"), t("K 46."))),
            TableRow((t("2 (right side)"), t("*K 4, p 2; repeat from * to end"))),
            TableRow((t("Last"), ())),
        ),
    )
    assert told(table) == (
        "Table with 3 rows: Chart in words.\n"
        "Round 1: K 46.\n"
        "Round 2 (right side): *K 4, p 2; repeat from * to end.\n"
        "Last.\n"
        "End of table."
    )


def test_a_table_of_sizes_says_equal_figures_once() -> None:
    table = Table(
        (),
        (Column(t("Measure")), *sized_columns()),
        (
            TableRow((t("Head"), t("50 cm"), t("52 cm"), t("54 cm"))),
            TableRow((t("Brim"), t("5 cm"), t("5 cm"), t("5 cm"))),
        ),
        groups=((t(""), 1), (t("Sizes"), 3)),
    )
    assert told(table) == (
        "Table with 2 rows.\n"
        "Head:\n"
        "Size S: 50 centimeters.\n"
        "Size M: 52 centimeters.\n"
        "Size L: 54 centimeters.\n"
        "\n"
        "Brim: 5 centimeters.\n"
        "End of table."
    )


@pytest.mark.parametrize(
    ("letters", "said"),
    [(("a",), "Chest, letter a: 84."), (("a", "g"), "Chest, letter a, letter g: 84.")],
)
def test_a_letter_of_a_drawing_is_called_so(letters: tuple[str, ...], said: str) -> None:
    """espeak-ng 1.51 reads “(a):” as an article, and “letter a:” by its name."""
    name = (Text("Chest "), Ringed(letters))
    node = Table((), (Column(()), Column(())), (TableRow((name, (Text("84"),))),))

    assert said in told(node)


def test_a_unit_in_a_heading_goes_to_its_figures() -> None:
    table = Table(
        (),
        (Column(t("Part")), Column(t("Tail, cm")), *sized_columns(), *sized_columns()),
        (TableRow((*map(t, ("Head", "9", "53", "56", "–", "20¾", "22", "–")),)),),
        groups=((t(""), 2), (t("cm"), 3), (t("in"), 3)),
    )
    assert told(table).split("\n")[1:-1] == [
        "Head.",
        "Tail: 9 centimeters.",
        "Size S: 53 centimeters, 20 and three quarters inches.",
        "Size M: 56 centimeters, 22 inches.",
        "Size L: not for this size.",
    ]


def test_a_unit_in_the_name_of_a_row_goes_to_its_figures() -> None:
    table = Table(
        (),
        (Column(t("Part")), *sized_columns()),
        (TableRow((*map(t, ("To fit head, in", "20¾", "22", "–")),)),),
    )
    assert told(table).split("\n")[1:-1] == [
        "To fit head:",
        "Size S: 20 and three quarters inches.",
        "Size M: 22 inches.",
        "Size L: not for this size.",
    ]


def test_rows_that_give_one_thing_in_several_units_are_told_as_one() -> None:
    rows = (("Head, cm", "50", "52", "–"), ("Head, in", "19¾", "20½", "–"), ("Brim, in", *"222"))
    columns = (Column(t("Part")), *sized_columns())
    table = Table((), columns, tuple(TableRow(tuple(map(t, row))) for row in rows))
    assert told(table).split("\n") == [
        "Table with 2 rows.",
        "Head:",
        "Size S: 50 centimeters, 19 and three quarters inches.",
        "Size M: 52 centimeters, 20 and one half inches.",
        "Size L: not for this size.",
        "",
        "Brim: 2 inches.",
        "End of table.",
    ]
    twice = replace(table, rows=(table.rows[0], table.rows[0]))
    assert told(twice).startswith("Table with 2 rows."), "the same unit again is another row"


def test_a_table_without_figures_per_size_takes_a_line_for_each_row() -> None:
    def table(*texts: str) -> Table:
        return Table(
            (),
            (Column(t("Size")), Column(t("Stitches")), Column(t("Work"))),
            tuple(
                TableRow((t(size), t("9"), t(text)))
                for size, text in zip(SIZES, texts, strict=True)
            ),
        )

    assert told(table("k 3", "k 2", "p 1")).split("\n")[1:-1] == [
        "Size S. Stitches: 9. Work: k 3.",
        "Size M. Stitches: 9. Work: k 2.",
        "Size L. Stitches: 9. Work: p 1.",
    ]
    assert "Size M.\nStitches: 9.\nWork: k 2." in told(table("k 3", "k 2", "k 1, " * 50))
    assert "Size M.\nStitches: 9.\nWork: k 2." in told(table("k 3", "k 2", "Knit. Turn."))


def test_what_a_row_names_more_than_one_of_is_in_the_plural() -> None:
    columns = (Column(t("Area")), Column(t("Yarn")), Column(t("Stitches")))
    cells = [("1", "Sea", "4"), ("6 to 10", "Foam", "4 each"), ("11–12", "Foam", "3 each")]
    rows = tuple(TableRow(tuple(map(t, row))) for row in cells)
    areas = told(Table(t("Areas"), columns, rows))
    sizes = (Column(t("Size")), Column(t("Pace")), Column(t("Rounds")))
    paces = told(
        Table(
            t("Paces"),
            sizes,
            (TableRow((t(", ".join(SIZES[:2])), t("a"), t("2"))),
             TableRow((t(SIZES[-1]), t("b"), t("3")))),
        )
    )  # fmt: skip

    assert "Area 1. Yarn: Sea." in areas
    assert "Areas 6 to 10. Yarn: Foam." in areas
    assert "Areas 11 to 12. Yarn: Foam." in areas
    assert f"Sizes {SIZES[0]} and {SIZES[1]}. Pace: a." in paces
    assert f"Size {SIZES[-1]}. Pace: b." in paces


def test_columns_grouped_by_size_come_together_by_what_they_measure() -> None:
    columns = tuple(
        Column(t(name), size=size) for size in range(3) for name in ("Stitches", "Rounds")
    )
    table = Table(
        t("Counts"),
        (Column(t("Part")), *columns),
        (TableRow(tuple(map(t, ("Brim", "80", "4", "88", "4", "88", "5")))),),
        groups=((t(""), 1), *((t(size), 2) for size in SIZES)),
    )
    assert told(table).split("\n")[1:-1] == [
        "Brim.",
        "Stitches:",
        "Size S: 80.",
        "Sizes M and L: 88.",
        "Rounds:",
        "Sizes S and M: 4.",
        "Size L: 5.",
    ]


def test_a_column_for_one_of_several_sizes_names_it() -> None:
    table = Table(
        t("Counts"),
        (Column(t("Part")), Column(t("M"), size=1)),
        (TableRow((t("Brim"), t("80"))),),
    )
    assert told(table).split("\n")[1:-1] == ["Brim:", "Size M: 80."]


def test_figures_may_differ_in_the_name_and_the_cells_of_a_row() -> None:
    table = Table(
        t("Steps"),
        (Column(t("Step")), Column(t("Work")), Column(t("Left"))),
        (
            TableRow(
                (t("Round ", per_size("5", "7", "7")), t("Knit"), t(per_size("8", "9", "9"), " st"))
            ),
        ),
    )
    assert told(table).split("\n")[1:-1] == [
        "Size S: Round 5.",
        "Sizes M and L: Round 7.",
        "Work: Knit.",
        "Left:",
        "Size S: 8 stitches.",
        "Sizes M and L: 9 stitches.",
    ]


# ---------------------------------------------------------------- spelling


@pytest.mark.parametrize("sign", "½⅓⅔¼¾⅛⅜⅝⅞")
def test_fractions_are_called_what_unicode_calls_them(sign: str) -> None:
    """The Unicode Character Database names each sign VULGAR FRACTION and its value in words."""
    words = unicodedata.name(sign).removeprefix("VULGAR FRACTION ").lower()

    assert spelled(sign) == words
    assert spelled(f"2{sign}") == spelled(f"2 {sign}") == f"2 and {words}"


@pytest.mark.parametrize(
    ("sign", "several"),
    [("mm", "millimetres"), ("cm", "centimetres"), ("m", "metres"), ("g", "grams")],
)
def test_units_are_spelled_as_the_si_brochure_does_and_in_the_us_as_nist_does(
    sign: str, several: str
) -> None:
    """SI Brochure, 9th edition, tables 2 and 7; NIST SP 330 spells "meter" for US use."""
    assert spelled(f"2.5 {sign}", "en-GB") == f"2.5 {several}"
    assert spelled(f"1 {sign}", "en-GB") == f"1 {several.removesuffix('s')}"
    assert spelled(f"2.5 {sign}", "en-US") == f"2.5 {several.replace('tre', 'ter')}"


@pytest.mark.parametrize(
    ("written", "said"),
    [
        ("50 cm (19¾ in)", "50 centimeters (19 and three quarters inches)"),
        ("46 in slate, 4 in wide, 4 in.", "46 in slate, 4 inches wide, 4 inches."),
        ("½ in, 1/2 in, 1 in", "one half inch, 1/2 inch, 1 inch"),
        ("15 cm / 6 in here, 6 in in each", "15 centimeters or 6 inches here, 6 inches in each"),
        ("50 g / 1¾ oz", "50 grams or 1 and three quarters ounces"),
        (
            "5 mm needles – flap, 4 mm crochet hook",
            "5 millimeter needles, flap, 4 millimeter crochet hook",
        ),
        ("by A · 2", "by A, 2"),
        ("8″ × 10″", "8 inches by 10 inches"),
        ("10 × 10 cm", "10 by 10 centimeters"),
        ("9.6 sts x 13.2 rnds", "9.6 stitches by 13.2 rounds"),
        ("4× or × 4", "4 times or times 4"),
        ("5–7 sts, 2½–3 mm", "5 to 7 stitches, 2 and one half to 3 millimeters"),
        ("1,250 m = 50 g", "1,250 meters equals 50 grams"),
        ("k2, m1, 3 st St st", "k2, m1, 3 stitches St st"),
        ("S → L, ≈ 5 ± 1, ≤ 3", "S to L, about 5 plus or minus 1, at most 3"),
        ("30 °C, −2°", "30 degrees Celsius, minus 2 degrees"),
        ("a\u00a0b\u2009c\u00add\u200be  f", "a b cde f"),
        ("12 cm² of 2026-11-02", "12 cm² of 2 November 2026"),
        ("order 2026-13-02, row 12-10-12", "order 2026-13-02, row 12-10-12"),
        ("60 yd, 2 oz, 6 ft", "60 yards, 2 ounces, 6 feet"),
        ("15 + 14 + 15", "15 plus 14 plus 15"),
        ("a No. 5 hook. No. Five", "a number 5 hook. No. Five"),
    ],
)
def test_signs_become_words(written: str, said: str) -> None:
    assert spelled(written) == said


@given(st.text("0123456789 .,×–x/kpcmin()½″°→", max_size=30))
def test_digits_are_never_changed_lost_or_moved(text: str) -> None:
    assert re.findall(r"\d", spelled(text)) == re.findall(r"\d", text)
    assert spelled(spelled(text)) == spelled(text)


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("Work 2.5 cm. 5 rounds.", ["Work 2.5 cm.", "5 rounds."]),
        ("Join, e.g. On dpns.", ["Join, e.g. On dpns."]),
        (
            "Use approx. 80 m. See no. 3. No. Stop!",
            ["Use approx. 80 m.", "See no. 3.", "No.", "Stop!"],
        ),
        ('"Rest." (Then go.) Do', ['"Rest."', "(Then go.)", "Do"]),
        ("k2. p2", ["k2. p2"]),
        ("size S. Cast on", ["size S.", "Cast on"]),
        ("one\ntwo", ["one", "two"]),
        ("  ", []),
    ],
)
def test_sentences_end_where_a_reader_would_pause(text: str, found: list[str]) -> None:
    assert sentences(text) == found


@pytest.mark.parametrize(
    ("line", "result"), [("a", "a."), ("a.", "a."), ("(a.)", "(a.)"), ("a:", "a:"), ("a)", "a).")]
)
def test_a_sentence_ends_once(line: str, result: str) -> None:
    assert ended(line) == result


# ---------------------------------------------------------------- the whole

WORDS = st.text("abcS .,–×½3\n\u00a0─│\U000f0001", max_size=12)
VALUES = st.tuples(WORDS, WORDS, WORDS).map(SizeValues)
LEAVES = st.one_of(WORDS.map(Text), VALUES, st.just(LineBreak()))
INLINES = st.lists(
    st.one_of(
        LEAVES,
        st.tuples(LEAVES).map(Strong),
        st.tuples(LEAVES).map(lambda inner: Link(inner, "https://ebbstow.example/a")),
    ),
    max_size=3,
).map(tuple)
PARAGRAPHS = INLINES.map(Paragraph)
TABLES = st.tuples(INLINES, INLINES, INLINES, INLINES).map(
    lambda cells: Table(
        cells[0],
        (Column(t("Step")), Column(t("Note")), Column(t("S"), size=0), Column(t("M"), size=1)),
        (TableRow(cells),),
    )
)
BLOCKS: st.SearchStrategy[Block] = st.one_of(
    PARAGRAPHS,
    TABLES,
    st.builds(Heading, st.sampled_from([1, 2, 3, 4]), INLINES),
    st.builds(Figure, st.just(b""), WORDS, INLINES),
    st.lists(st.builds(Definition, INLINES, INLINES), max_size=2).map(
        lambda entries: DefinitionList(tuple(entries))
    ),
    st.lists(PARAGRAPHS.map(lambda each: ListItem((each,))), max_size=3).map(
        lambda items: ItemList(tuple(items), ordered=True)
    ),
    PARAGRAPHS.map(lambda each: Callout("note", (), (each,))),
)


@given(st.lists(BLOCKS, max_size=4), st.sampled_from([0, 24]))
def test_every_document_is_clean_lines(blocks: list[Block], width: int) -> None:
    """UTF-8, no padding, no box drawing, at most two empty lines (common practice, no source)."""
    text = render_text(document(*blocks), width)

    text.encode("utf-8")
    lines = text.split("\n")
    assert lines[-1] == ""
    assert "\n\n\n\n" not in text
    assert all(line == line.strip() and "  " not in line for line in lines)
    assert not re.search("[\u2500-\u259f\U000f0000-\U000ffffd\t\r\u00a0]", text)
    assert text == render_text(document(*blocks), width)


@given(st.lists(st.sampled_from(["80", "88", "96", "4½"]), min_size=5, max_size=5))
def test_each_size_finds_its_own_figure_and_no_other(values: list[str]) -> None:
    sizes = ("XS", "S", "M", "L", "XL")
    found: dict[str, str] = {}
    text = told(Paragraph(t("Cast on ", SizeValues(tuple(values)), ".")), sizes=sizes)

    for line in text.split("\n"):
        label, _, sentence = line.rpartition(": ")
        names = re.findall(r"\b(?:XS|S|M|L|XL)\b", label) or sizes
        found |= dict.fromkeys(names, sentence)
    assert [found[size] for size in sizes] == [f"Cast on {spelled(value)}." for value in values]


def test_lines_are_wrapped_on_demand_without_breaking_words() -> None:
    words = "Knit on with the yarn that waits at the back of the work for 46 rounds. "
    whole = document(Paragraph(t(words * 3, "https://ebbstow.example/a-long-address-to-read")))
    wrapped = render_text(whole, 40)

    assert max(len(line) for line in wrapped.split("\n") if " " in line) <= 40
    assert wrapped.split() == render_text(whole).split()


def test_the_spelling_follows_the_language_of_the_document() -> None:
    length = Paragraph(t("Knit 5 cm."))
    assert "5 centimetres" in render_text(replace(document(length), language="en-GB"))
    assert "5 centimeters" in render_text(replace(document(length), language="en-US"))
