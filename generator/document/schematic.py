"""Schematic drawings: the flat shape of a piece in true proportion, with dimension lines."""

from dataclasses import dataclass

from generator.document.drawing import Drawing


@dataclass(frozen=True, slots=True)
class Extent:
    """A length in mm, what it is called, and the label of its dimension line (the next letter of
    the alphabet if empty)."""

    mm: float
    name: str
    label: str = ""


@dataclass(frozen=True, slots=True)
class Schematic:
    """A drawing, what its labels stand for as (label, name), and its words."""

    drawing: Drawing
    labels: tuple[tuple[str, str], ...]
    alt: str


def tube(
    width: Extent,
    depth: Extent,
    brim: Extent | None = None,
    *,
    gathered: bool = True,
    max_mm: tuple[float, float] = (85.0, 80.0),
    text_mm: float = 3.0,
) -> Schematic:
    """A tube lying flat, gathered at the top, with a turned-up brim."""
    raise NotImplementedError


def hat(
    width: Extent,
    body: Extent,
    crown: Extent,
    brim: Extent | None = None,
    *,
    max_mm: tuple[float, float] = (85.0, 80.0),
    text_mm: float = 3.0,
) -> Schematic:
    """A hat lying flat: a straight body and a domed crown."""
    raise NotImplementedError


def mitten(
    width: Extent,
    cuff: Extent,
    to_thumb: Extent,
    hand: Extent,
    thumb: Extent,
    thumb_width: Extent | None = None,
    *,
    max_mm: tuple[float, float] = (85.0, 100.0),
    text_mm: float = 3.0,
) -> Schematic:
    """A mitten lying flat with its thumb: ``hand`` runs from the cuff to the tip."""
    raise NotImplementedError


def panel(
    bottom: Extent,
    height: Extent,
    top: Extent | None = None,
    *,
    max_mm: tuple[float, float] = (85.0, 80.0),
    text_mm: float = 3.0,
) -> Schematic:
    """A flat piece: a rectangle, or a trapezoid where ``top`` differs."""
    raise NotImplementedError
