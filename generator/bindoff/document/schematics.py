"""The schematic of every piece, its letters, and a table that says them per size."""

from collections.abc import Iterator, Mapping
from dataclasses import replace
from itertools import count, product
from string import ascii_uppercase
from types import MappingProxyType
from typing import assert_never

from bindoff.diagnostics import PatternError
from bindoff.document.drawn import USUALLY, Drawn
from bindoff.document.phrases import text
from bindoff.document.schematic import Extent, Ink, Schematic, hat, mitten, panel, tube
from bindoff.document.sizetables import length_figures, unit_table
from bindoff.document.tree import Blocks, Figure, Table
from bindoff.document.units import scales
from bindoff.document.voice import Voice
from bindoff.plan.values import Measure
from bindoff.source.amount import Amount
from bindoff.source.shape import HatShape, MittenShape, PanelShape, TubeShape

Shape = TubeShape | HatShape | MittenShape | PanelShape

DIMENSION_NAMES: Mapping[str, str] = MappingProxyType(
    {
        "around": "circumference",
        "depth": "depth with the brim turned up",
        "body": "edge to crown",
        "crown": "crown",
        "brim": "brim",
        "cuff": "cuff",
        "to thumb": "cuff to thumb opening",
        "hand": "hand, cuff to tip",
        "thumb": "thumb",
        "lower edge": "lower edge",
        "upper edge": "upper edge",
        "height": "height",
    }
)
"""What a dimension is called in print, by the key that the source gives it."""


def schematic_blocks(voice: Voice, drawn: Drawn = USUALLY) -> Blocks:
    """A figure for every piece that has a schematic, and a table of what the finished measurements
    do not tell; letters run on."""
    blocks: list[Figure | Table] = []
    for key, labels in _labels(voice).items():
        piece = voice.plan.source.pattern.pieces[key]
        assert piece.schematic is not None
        measures = _measures(voice, piece.schematic)
        told = _told(voice, piece.schematic)
        rest = {role: measure for role, measure in measures.items() if role not in told}
        try:
            made = _draw(piece.schematic, measures, labels, drawn)
        except PatternError as error:
            place = piece.schematic.place.span
            raise PatternError(replace(each, span=place) for each in error.findings) from None
        scale = "not to scale between sizes" if len(voice.sizes) > 1 else "not to scale"
        caption = text(f"{piece.title}: schematic, {scale}")
        blocks.append(Figure(made.drawing, made.alt, caption, f"schematic-{key}"))
        if rest:
            more = "further " if told else ""
            caption_words = f"{piece.title}: {more}measurements of the schematic"
            blocks.append(_table(voice, caption_words, rest, labels))
    return tuple(blocks)


def finished_letters(voice: Voice) -> Mapping[str, str]:
    """The letters of the schematics that stand for finished measurements, by their labels."""
    found: dict[str, list[str]] = {}
    for key, labels in _labels(voice).items():
        shape = voice.plan.source.pattern.pieces[key].schematic
        assert shape is not None
        for role, label in _told(voice, shape).items():
            found.setdefault(label, []).append(labels[role])
    return {label: ", ".join(letters) for label, letters in found.items()}


def _labels(voice: Voice) -> dict[str, dict[str, str]]:
    """The letter of every dimension, by the piece and the key that the source gives it."""
    letters = _letters()
    return {
        key: {role: next(letters) for role in piece.schematic.dimensions}
        for key, piece in voice.plan.source.pattern.pieces.items()
        if piece.schematic is not None
    }


def _told(voice: Voice, shape: Shape) -> dict[str, str]:
    """The dimensions that are written as a finished measurement is, with the label of that."""
    finished = voice.plan.source.pattern.finished
    labels = {_plain(amount): label for label, amount in reversed(finished.items())}
    found = {role: labels.get(_plain(amount)) for role, amount in shape.dimensions.items()}
    return {role: label for role, label in found.items() if label is not None}


def _plain(amount: Amount) -> str:
    """An amount without its spaces, which mean nothing."""
    return "".join(str(amount.written).split())


def _letters() -> Iterator[str]:
    """A to Z, then AA, AB and so on."""
    for length in count(1):
        yield from ("".join(letters) for letters in product(ascii_uppercase, repeat=length))


def _measures(voice: Voice, shape: Shape) -> dict[str, Measure]:
    """The dimensions given, in the source's order of keys."""
    amount = voice.plan.measures.amount
    return {role: amount(each) for role, each in shape.dimensions.items()}


def _draw(
    shape: Shape, measures: dict[str, Measure], labels: dict[str, str], drawn: Drawn
) -> Schematic:
    """The piece in the proportions of its middle size."""

    def extent(role: str, part: float = 1.0) -> Extent:
        values = measures[role].rounded
        return Extent(values[len(values) // 2] * part, DIMENSION_NAMES[role], labels[role])

    look = Ink(drawn.letters, tint=drawn.colour)
    brim = extent("brim") if "brim" in measures else None
    match shape:
        case TubeShape():
            return tube(extent("around", 0.5), extent("depth"), brim, look=look)
        case HatShape():
            return hat(extent("around", 0.5), extent("body"), extent("crown"), brim, look=look)
        case MittenShape():
            return mitten(
                extent("around", 0.5),
                cuff=extent("cuff"),
                hand=extent("hand"),
                to_thumb=extent("to thumb"),
                thumb=extent("thumb"),
                look=look,
            )
        case PanelShape():
            upper = extent("upper edge") if "upper edge" in measures else None
            return panel(extent("lower edge"), extent("height"), upper, look=look)
        case _:
            assert_never(shape)


def _table(
    voice: Voice, caption: str, measures: dict[str, Measure], labels: dict[str, str]
) -> Table:
    rows = [
        length_figures(voice, f"{labels[role]}: {DIMENSION_NAMES[role]}", measure.rounded)
        for role, measure in measures.items()
    ]
    return unit_table(voice.sizes, caption, "Letter and measurement", scales(voice.units), rows)
