"""Render a drawing as an SVG file with a title, a description and sizes in millimetres."""

from generator.document.drawing import Drawing


def render_svg(drawing: Drawing, title: str, description: str, id: str = "drawing") -> str:
    """The drawing as SVG 1.1 text; ``id`` prefixes the ids of title and description."""
    raise NotImplementedError
