"""A document that has every node of the tree, in the shapes real patterns have."""

import io
from dataclasses import dataclass

from bindoff.document.drawing import Drawing, Label, Lines, Path, Rect, Shape
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
    SizeValues,
    Strong,
    Table,
    TableRow,
    Text,
)

SIZES = ("3 mo", "6 mo", "1 yr", "2–4", "6–8", "S", "M", "L")


@dataclass(frozen=True)
class Options:
    """Stands in for the caller's options."""

    paper: str = "a4"
    theme: str = "calm"
    grey: bool = False


def t(text: str) -> Inlines:
    return (Text(text),)


def p(*parts: str | Inline) -> Paragraph:
    return Paragraph(tuple(Text(part) if isinstance(part, str) else part for part in parts))


def item(*parts: str | Inline) -> ListItem:
    return ListItem((p(*parts),))


def chart(columns: int = 24, rounds: int = 60, cell: float = 3.4) -> Drawing:
    """A colour chart: cells, a heavier line each ten, round and stitch numbers."""
    colours = ("#e9e4d6", "#2f4858", "#b5562f")
    left, top = 2.0, 2.0
    shapes: list[Shape] = []
    for row in range(rounds):
        for column in range(columns):
            wave = (column * 3 + row * row // 7) % 12
            kind = 1 if wave < 3 else 2 if (row // 6 + column // 8) % 5 == 0 else 0
            box = (left + column * cell, top + row * cell, cell, cell)
            shapes.append(Rect(*box, fill=colours[kind]))
    for row in range(rounds):
        for column in range(columns):
            if (row // 6 + column // 8) % 5 == 0 and (column * 3 + row * row // 7) % 12 >= 3:
                x, y = left + (column + 0.5) * cell, top + (row + 0.5) * cell
                d = cell * 0.16
                shapes.append(
                    Path(
                        (
                            ("M", x - d, y),
                            ("L", x, y - d),
                            ("L", x + d, y),
                            ("L", x, y + d),
                            ("Z",),
                        ),
                        fill="#ffffff",
                    )
                )
    wide, high = columns * cell, rounds * cell
    thin = [(left, top + r * cell, left + wide, top + r * cell) for r in range(rounds + 1)]
    thin += [(left + c * cell, top, left + c * cell, top + high) for c in range(columns + 1)]
    shapes.append(Lines(tuple(thin), "#8a9297", 0.1))
    heavy = [(left, top + r * cell, left + wide, top + r * cell) for r in range(0, rounds + 1, 10)]
    shapes.append(Lines(tuple(heavy), "#1b2328", 0.3))
    shapes.append(Lines(((left + wide / 2, 0.0, left + wide / 2, top + high + 2.0),), dash=(1, 1)))
    for row in range(0, rounds, 2):
        y = top + high - (row + 0.5) * cell + 0.9
        shapes.append(Label(left + wide + 1.2, y, str(row + 1), 2.5, bold=(row + 1) % 10 == 1))
    for column in range(0, columns, 5):
        x = left + wide - (column + 0.5) * cell
        shapes.append(Label(x, top + high + 3.4, str(column + 1), 2.5, "middle"))
    shapes.append(Label(0.6, top + high / 2, "work upwards", 2.4, "middle", turn=90))
    return Drawing(left + wide + 8.0, top + high + 5.0, tuple(shapes))


def hat_picture(width: float = 80.0, height: float = 70.0) -> Drawing:
    """A hat with stripes, drawn to be the art of a cover."""
    w, h = width, height
    dome = (
        ("M", w * 0.12, h * 0.72),
        ("C", w * 0.1, h * 0.05, w * 0.9, h * 0.05, w * 0.88, h * 0.72),
        ("Z",),
    )
    shapes: list[Shape] = [
        Rect(0, 0, w, h, fill="#eef1f1"),
        Path(dome, fill="#2f4858"),
        Rect(w * 0.09, h * 0.66, w * 0.82, h * 0.22, fill="#b5562f"),
    ]
    ribs = [(w * x / 100, h * 0.67, w * x / 100, h * 0.87) for x in range(12, 90, 4)]
    shapes.append(Lines(tuple(ribs), "#7a3417", 0.5))
    waves = tuple((w * x / 100, h * 0.55, w * (x + 3) / 100, h * 0.5) for x in range(20, 80, 6))
    shapes.append(Lines(waves, "#e9e4d6", 1.2))
    return Drawing(w, h, tuple(shapes))


def mark(colour: str, diamond: bool = False) -> Drawing:
    """A chart cell for the key."""
    shapes: list[Shape] = [Rect(0.1, 0.1, 4.6, 4.6, fill=colour, stroke="#1b2328", width=0.15)]
    if diamond:
        shapes.append(
            Path(
                (("M", 1.4, 2.4), ("L", 2.4, 1.4), ("L", 3.4, 2.4), ("L", 2.4, 3.4), ("Z",)),
                fill="#ffffff",
            )
        )
    return Drawing(4.8, 4.8, tuple(shapes))


def photo(kind: str = "PNG", size: tuple[int, int] = (360, 240), mode: str = "RGB") -> bytes:
    """A photograph of nothing: a gradient."""
    from PIL import Image

    image = Image.linear_gradient("L").resize(size)
    if mode == "RGBA":
        image = Image.merge("RGBA", (image, image.rotate(180), image.rotate(180), image))
    elif mode == "RGB":
        image = Image.merge("RGB", (image, image.rotate(180), image.point(lambda v: v // 2 + 60)))
    out = io.BytesIO()
    image.save(out, kind)
    return out.getvalue()


def size_columns() -> tuple[Column, ...]:
    return tuple(Column(t(name), "right", index) for index, name in enumerate(SIZES))


def measures() -> Table:
    rows = (
        ("Fits head, cm", "40", "43", "46", "50", "52", "54", "56", "59"),
        ("Fits head, in", "15¾", "17", "18", "19¾", "20½", "21¼", "22", "23¼"),
        ("Finished circumference, cm", "36", "38.5", "41.5", "45", "47", "48.5", "50.5", "53"),
        ("Depth with brim folded, cm", "14", "15.5", "17", "18.5", "19.5", "20.5", "21.5", "22"),
        ("Stitches", "72", "76", "84", "90", "94", "98", "102", "106"),
        ("Ease", "−10%", "−10%", "−10%", "−10%", "−10%", "−10%", "−10%", "−10%"),
    )
    return Table(
        t("Finished measures"),
        (Column(t("")), *size_columns()),
        tuple(TableRow(tuple(t(cell) for cell in row)) for row in rows),
        groups=((t(""), 1), (t("Child"), 5), (t("Adult"), 3)),
        id="measures",
    )


def stripes(rows: int = 64) -> Table:
    """A long table with a column of prose."""
    names = ("slate", "foam", "rust")
    notes = (
        "Knit plain.",
        "Knit plain; slide the half-round markers up and count the stitches between them.",
        "Cut and join; leave tails of 12 cm.",
        "",
    )
    body = tuple(
        TableRow(
            (
                t(f"{3 * n + 1}–{3 * n + 3}"),
                t(names[n % 3]),
                t("3"),
                t(str(3 * n + 3)),
                t(notes[n * n % 4]),
            )
        )
        for n in range(rows)
    )
    return Table(
        t("Stripes of the tube, from the brim up"),
        (
            Column(t("Rounds"), "left"),
            Column(t("Yarn"), "left"),
            Column(t("Count"), "right"),
            Column(t("In all"), "right"),
            Column(t("What to do"), "left", weight=3.0),
        ),
        body,
        id="stripes",
    )


def prose_table() -> Table:
    """Eight sizes beside a column of prose: too wide unless the prose gives way."""
    rows = (
        (
            "Cast on with waste yarn and join to work in the round, taking care not to twist",
            ("72", "76", "84", "90", "94", "98", "102", "106"),
        ),
        ("Work in ribbing until the piece measures", ("3.5 cm",) * 3 + ("4.5 cm",) * 5),
        ("Rounds to the start of the crown", ("44", "50", "55", "60", "64", "66", "70", "72")),
        ("Decrease rounds", ("8", "8", "9", "10", "10", "10", "11", "11")),
        ("Stitches left to gather", ("9", "9", "–", "10", "10", "11", "11", "12")),
    )
    return Table(
        t("The hat in all sizes"),
        (Column(t("Work"), weight=2.0), *size_columns()),
        tuple(TableRow((t(name), *(t(cell) for cell in cells))) for name, cells in rows),
    )


def cover(art: Drawing | bytes | None = None) -> Cover:
    return Cover(
        "Breakwater Hat",
        (Text("designed by Ida Marrow · Ebbstow · version 1.2"),),
        t(
            "A folded, double-layered hat whose waves are planned as stripes and finished with "
            "a needle. Worked by hand in the round, or on a circular machine."
        ),
        DefinitionList(
            (
                Definition(t("Sizes"), t("3 months to adult L")),
                Definition(
                    t("Finished head"),
                    (
                        SizeValues(("36", "38.5", "41.5", "45", "47", "48.5", "50.5", "53")),
                        Text(" cm"),
                    ),
                ),
                Definition(t("Yarn"), t("Medium (4), 150 m in slate, 90 m in foam, 20 m in rust")),
                Definition(t("Needles"), t("4.5 mm circular, 40 cm, and double-pointed needles")),
                Definition(t("Gauge"), t("20 sts × 28 rounds = 10 cm, washed")),
                Definition(t("Skills"), t("Stranding, duplicate stitch, grafting")),
            )
        ),
        Figure(
            art if art is not None else hat_picture(),
            "A dark hat with a rust ribbed brim and a line of pale waves above it.",
        ),
    )


ABBREVIATIONS = (
    ("beg", "beginning"),
    ("dec", "decrease"),
    ("k", "knit"),
    ("k2tog", "knit two together: slants to the right"),
    ("m1l", "make one, leaning left"),
    ("m1r", "make one, leaning right"),
    ("p", "purl"),
    ("pm", "place marker"),
    ("rep", "repeat"),
    ("rnd", "round"),
    ("sl", "slip"),
    ("ssk", "slip, slip, knit the two together: slants to the left"),
    ("st(s)", "stitch(es)"),
    ("yo", "yarn over"),
)


def blocks() -> tuple[Block, ...]:
    """The sample pattern."""
    return (
        cover(),
        PageBreak(),
        Heading(2, t("Before you begin"), "begin"),
        p(
            "Read the pattern through once. Figures for several sizes stand in one order, the "
            "smallest first: ",
            SizeValues(("72", "76", "84", "90", "94", "98", "102", "106")),
            " sts. Where one number stands alone it is right for all. See ",
            Link(t("the finished measures"), "#measures"),
            " and choose by the ",
            Emphasis(t("finished")),
            " circumference, or ",
            Link(t("write to the designer"), "https://example.org/ebbstow/breakwater"),
            " if you are between two sizes.",
        ),
        measures(),
        Heading(3, t("Materials")),
        DefinitionList(
            (
                Definition(t("Slate"), t("150 (160, 175, 190, 205, 220, 235, 250) m")),
                Definition(t("Foam"), t("90 m in every size")),
                Definition(
                    t("Notions"),
                    t(
                        "16 markers, of which two differ from the others; a tapestry needle; "
                        "waste yarn in a colour that shows"
                    ),
                ),
            )
        ),
        Heading(3, t("Abbreviations")),
        DefinitionList(
            tuple(Definition(t(short), t(full)) for short, full in ABBREVIATIONS), columns=2
        ),
        Callout(
            "safety",
            t("Small children"),
            (
                p("Do not add cords, pompoms or loose buttons to a hat for a child under three."),
                ItemList(
                    (item("Weave ends in for at least 5 cm."), item("Pull every end to test."))
                ),
            ),
        ),
        Heading(2, t("The hat"), "hat"),
        Heading(3, t("Brim")),
        Paragraph(
            (
                Text("With slate, cast on "),
                SizeValues(("72", "76", "84", "90", "94", "98", "102", "106")),
                Text(" sts. Join, taking care not to twist; the round begins at the centre back."),
                LineBreak(),
                Strong(t("Every round: ")),
                Text("*k1, p1; repeat from * to end, until the brim measures 8 cm."),
            )
        ),
        Callout(
            "tip",
            t("A firm edge"),
            (p("Cast on over a needle one size larger than the one you knit with."),),
        ),
        p("Then work the turn:"),
        ItemList(
            (
                item("Purl one round; this ", Strong(t("turning round")), " folds the brim."),
                item("Knit ", SizeValues(("3", "3", "3", "4", "4", "4", "5", "5")), " rounds."),
                ListItem(
                    (
                        p("Change to the picture. For each round:"),
                        ItemList(
                            (
                                item("knit the round in its base colour;"),
                                item("note the stitches to be embroidered:"),
                            )
                        ),
                        p("They are worked after the hat is off the needles."),
                    )
                ),
                item(
                    "Continue until the piece measures ",
                    SizeValues(("14", "15.5", "17", "18.5", "19.5", "20.5", "21.5", "22")),
                    " cm from the turning round.",
                ),
            ),
            ordered=True,
        ),
        prose_table(),
        stripes(),
        Heading(2, t("Chart"), "chart"),
        p("Read every round from right to left. The dashed line is the centre front."),
        DefinitionList(
            (
                Definition(t("A"), t("slate, the base"), mark("#2f4858")),
                Definition(t("B"), t("foam"), mark("#e9e4d6")),
                Definition(
                    t("C"), t("rust, embroidered in duplicate stitch"), mark("#b5562f", True)
                ),
            ),
            columns=3,
        ),
        Figure(
            chart(),
            "Chart of 24 stitches and 60 rounds: waves in three colours.",
            (
                Text("Chart A: waves, worked once at the front. See "),
                Link(t("stripes"), "#stripes"),
            ),
            "chart-a",
        ),
        Heading(2, t("Finishing")),
        Heading(3, t("Closing the crown")),
        p(
            "Thread the tail through the live stitches twice, draw up firmly and fasten off on the "
            "wrong side. Weave in ends along their own colour. The lining is stitched to the first "
            "round of the brim, loosely, so that the edge keeps its stretch; check on the head of "
            "the wearer before you cut the yarn, because a join that is too tight cannot be "
            "blocked wider afterwards."
        ),
        Heading(4, t("Blocking")),
        p("Wash at 30 °C, press in a towel and dry over a bowl of about the right size."),
        Figure(photo(), "The finished hat from the side.", t("The finished hat"), "photo"),
        Callout("note", t("Care"), (p("Hand wash. Do not tumble dry."),)),
        Paragraph(
            t(
                "Version 1.2, 1 May 2024. You may sell what you knit from this pattern; you "
                "may not sell or copy the pattern."
            ),
            "small",
        ),
    )


def document(*parts: Block, **more: str) -> Document:
    """A document of ``parts``, or the whole sample."""
    return Document(
        title=more.get("title", "Breakwater Hat"),
        author="Ida Marrow",
        language="en",
        version="1.2",
        date="2024-05-01",
        summary="A folded hat with waves, for children and adults.",
        sizes=SIZES,
        blocks=parts or blocks(),
        keywords=("knitting", "hat"),
    )
