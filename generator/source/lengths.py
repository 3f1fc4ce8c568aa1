"""Lengths and ball sizes as people write them, to millimetres, grams and metres."""

from generator.diagnostics import Span


def parse_length(text: str, span: Span | None = None) -> float:
    """``21 cm``, ``8.25 in``, ``8¼ in``, ``8 1/4"`` or ``35 mm`` as millimetres."""
    raise NotImplementedError


def parse_ball(text: str, span: Span | None = None) -> tuple[float, float]:
    """``100 g = 180 m`` or ``50 g = 120 yd`` as grams and metres."""
    raise NotImplementedError
