"""A chart cut into pieces that fit a page, and the map that shows how they join."""

from dataclasses import dataclass

from generator.document.charts.draw import Window
from generator.document.charts.spec import ChartSpec
from generator.document.drawing import Drawing


@dataclass(frozen=True, slots=True)
class Tile:
    """One piece: its number from 1, how many there are, what it shows and its words."""

    number: int
    count: int
    window: Window
    drawing: Drawing
    label: str
    alt: str


def chart_figures(
    spec: ChartSpec,
    max_width_mm: float,
    max_height_mm: float,
    cell_mm: float = 4.0,
    largest_cell_mm: float = 6.0,
    *,
    where: str = "",
    number_mm: float = 2.3,
    colour: bool = True,
) -> tuple[Tile, ...]:
    """The chart in as few pieces as fit ``max_width_mm`` by ``max_height_mm``."""
    raise NotImplementedError


def key_map(spec: ChartSpec, tiles: tuple[Tile, ...], max_width_mm: float = 60.0) -> Drawing:
    """A small picture of the whole chart with the numbered pieces outlined."""
    raise NotImplementedError
