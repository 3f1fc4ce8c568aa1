"""The key of a chart: a swatch and a meaning for every symbol it uses."""

from generator.document.charts.spec import ChartKey, ChartSpec
from generator.document.drawing import Drawing
from generator.document.tree import DefinitionList


def swatch(key: ChartKey, cell_mm: float = 5.0, ratio: float = 1.0, colour: bool = True) -> Drawing:
    """One cell as the chart draws it; ``ratio`` is height to width."""
    raise NotImplementedError


def legend(spec: ChartSpec, cell_mm: float = 5.0, colour: bool = True) -> DefinitionList:
    """The keys the chart uses, in the order of ``spec.keys``."""
    raise NotImplementedError
