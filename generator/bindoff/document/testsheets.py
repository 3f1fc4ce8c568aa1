"""Sheets for test knitters: measures to fill in beside those expected, steps to tick, faults found.

They are filled in on a screen or on paper, or typed into the text edition.
"""

from collections.abc import Iterator, Sequence
from itertools import count

from bindoff import regex as re
from bindoff.document.phrases import heading, join, paragraph, text
from bindoff.document.tree import (
    Block,
    Blocks,
    Column,
    Document,
    Field,
    Heading,
    Inlines,
    ItemList,
    Paragraph,
    Table,
    TableRow,
    interrupting,
    plain,
)
from bindoff.document.typography import set_in_type
from bindoff.document.units import per_size
from bindoff.document.voice import Voice, voice_of
from bindoff.english import capital
from bindoff.plan.gauge import Gauge
from bindoff.plan.plan import Plan

_FAULTS = 8  # rows of the report
_WORDS = 64  # characters of a step that tell which it is
_PIECE = "piece-"
_FIGURE, _NOTE, _LINE = 8, 12, 26  # widths of fields, in figures


def test_sheets(plan: Plan, document: Document) -> Document:
    """The sheets for the pattern of ``document``."""
    voice = voice_of(plan)
    pattern = plan.source.pattern
    title = f"{pattern.title}: sheets for test knitters"
    blocks = (
        Heading(1, text(title)),
        paragraph(
            f"For version {pattern.version} of the pattern. Knit one size or several, fill in what "
            "you measure, and tick each step when its counts came out. Leave empty what you do not "
            "know."
        ),
        *_about_you(voice),
        *_gauges(voice),
        *_finished(voice),
        *_steps(voice, document),
        *_faults(voice),
    )
    made = Document(
        title,
        pattern.designer,
        document.language,
        pattern.version,
        pattern.date,
        "Measures to fill in beside those expected, all steps to tick, and a report of faults.",
        voice.sizes,
        blocks,
        keywords=document.keywords,
        rights=document.rights,
    )
    return set_in_type(made)


def _entry(name: str, label: str, width: int) -> Inlines:
    return (Field(name, label, width=width),)


def _about_you(voice: Voice) -> Iterator[Block]:
    yield heading(2, "You and your knitting", "you")
    asked = [
        ("knitter", "Your name or initials"),
        ("size", "Size or sizes knitted"),
        *(
            (f"yarn-{number}", f"Yarn used for {name}, with its fiber and lot")
            for number, name in enumerate(voice.yarn_names.values(), 1)
        ),
        ("tools", "Needles or hooks used"),
        ("time", "Hours it took"),
    ]
    yield Table(
        text("What you used"),
        (Column(text("Question"), weight=2.0), Column(text("Answer"))),
        tuple(
            TableRow((text(_spelled(voice, label)), _entry(f"you-{name}", label, _LINE)))
            for name, label in asked
        ),
    )


def _spelled(voice: Voice, words: str) -> str:
    return words.replace("fiber", "fibre") if voice.plan.source.pattern.terms == "UK" else words


def _gauges(voice: Voice) -> Iterator[Block]:
    """Every gauge of the pattern over 10 cm or 4 in, washed as it tells, and as measured."""
    gauges = voice.plan.measures.sizes
    over = {"metric": "10 cm", "imperial": "4 in", "both": "10 cm / 4 in"}[voice.units]
    rows = []
    for number, key in enumerate(gauges[0].gauges, 1):
        for what in ("stitches", "rounds"):
            figures = per_size([f"{_per(each.gauges[key], what):.3g}" for each in gauges])
            label = f"{capital(what)}{f', {key}' if key else ''}"
            fields = (
                _entry(f"gauge-{number}-{what}-{when}", f"{label}, {when}", _FIGURE)
                for when in ("before washing", "after washing")
            )
            rows.append(TableRow((text(label), figures, *fields)))
    yield heading(2, capital(voice.term["gauge"]), "gauge")
    yield Table(
        text(f"Over {over}"),
        (
            Column(text("Count"), weight=2.0),
            Column(text("Expected")),
            Column(text("Before washing")),
            Column(text("After washing")),
        ),
        tuple(rows),
    )


def _per(gauge: Gauge, what: str) -> float:
    return gauge.stitches_per() if what == "stitches" else gauge.rounds_per()


def _finished(voice: Voice) -> Iterator[Block]:
    measures = voice.plan.measures.finished
    rows = []
    for number, (label, measure) in enumerate(measures.items(), 1):
        named = _entry(f"measure-{number}", f"{label}, measured", _NOTE)
        rows.append(TableRow((text(label), voice.measure(measure), named)))
    for number, total in enumerate(voice.plan.yarn, 1):
        name = f"{voice.yarn_names[total.yarn]}, grams used"
        grams = per_size([round(need.grams) for need in total.needs])
        named = _entry(f"yarn-{number}", name, _NOTE)
        rows.append(TableRow((text(name), join(grams, " g with its reserve"), named)))
    yield heading(2, "Finished measures and yarn", "measures")
    yield Table(
        text("After washing and drying flat"),
        (Column(text("Measure"), weight=2.0), Column(text("Expected")), Column(text("Measured"))),
        tuple(rows),
    )


def _steps(voice: Voice, document: Document) -> Iterator[Block]:
    """A table for each piece: a step a row, a box for each size."""
    yield heading(2, "Steps", "steps")
    number = count(1)
    title, rows, piece = "", list[TableRow](), ""
    blocks = (*document.blocks, Heading(2, ()))
    for block, apart in zip(blocks, interrupting(blocks), strict=True):
        match block:
            case Heading(2, children, id):
                if rows:
                    yield _ticks(voice, title, rows)
                title, rows = plain(children), []
                piece = id if id.startswith(_PIECE) else ""
            case ItemList(items, True, start) if piece and not apart:
                for at, item in enumerate(items, start):
                    words = _short(item.blocks)
                    boxes = tuple(
                        (Field(f"step-{next(number)}", f"Step {at}, size {size}", "tick"),)
                        for size in voice.sizes
                    )
                    rows.append(TableRow((text(f"{at}. {words}"), *boxes)))
            case _:
                pass


def _ticks(voice: Voice, title: str, rows: Sequence[TableRow]) -> Table:
    sizes = (Column(text(size), "centre", index) for index, size in enumerate(voice.sizes))
    columns = (Column(text("Step"), weight=4.0), *sizes)
    return Table(text(f"{title}: came out as written"), columns, tuple(rows))


def _short(blocks: Blocks) -> str:
    """The first words of a step, enough to know it by."""
    first = next((each for each in blocks if isinstance(each, Paragraph)), None)
    words = plain(first.children) if first else ""
    sentence = re.split(r"(?<=[.;]) ", words.replace("\n", " "), maxsplit=1)[0]
    if len(sentence) <= _WORDS:
        return sentence
    return f"{sentence[:_WORDS].rsplit(' ', 1)[0]} …"


def _faults(voice: Voice) -> Iterator[Block]:
    version = voice.plan.source.pattern.version
    yield heading(2, "Faults", "faults")
    yield paragraph(
        f"Each of them in version {version}: where it stands, what is there, and what you think "
        "should be there."
    )
    asked = (
        ("page", "Page", 5),
        ("step", "Step or row", 8),
        ("size", "Size", 6),
        ("what", "What", 34),
    )
    rows = tuple(
        TableRow(
            (
                text(str(number)),
                *(
                    _entry(f"fault-{number}-{name}", f"Fault {number}: {label}", width)
                    for name, label, width in asked
                ),
            )
        )
        for number in range(1, _FAULTS + 1)
    )
    columns = (Column(text("Fault")), *(Column(text(label)) for _, label, _ in asked))
    yield Table(text(f"Faults found in version {version}"), columns, rows)
