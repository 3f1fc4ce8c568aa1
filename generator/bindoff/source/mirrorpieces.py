"""Pieces that mirror another take over its steps, and all that they don't say themselves."""

from collections.abc import Mapping
from typing import Any

from bindoff.diagnostics import Diagnostic, closest, written_as
from bindoff.source.pattern import Pattern
from bindoff.source.piece import Piece

_SHARED = ("make", "worked", "made", "gauge", "yarn")


def with_mirrors(pattern: Pattern) -> tuple[Pattern, tuple[Diagnostic, ...]]:
    """``pattern`` with the steps of every mirrored piece, and what is wrong with the others.

    The steps keep their places: what is found in them points at the lines that are written.
    """
    if all(piece.mirror_of is None for piece in pattern.pieces.values()):
        return pattern, ()
    findings: list[Diagnostic] = []
    pieces: dict[str, Piece] = {}
    for key, piece in pattern.pieces.items():
        fault = _fault(key, piece, pattern.pieces)
        if fault is not None:
            findings.append(fault)
        elif piece.mirror_of is not None:
            piece = piece.with_values(_taken_over(piece, pattern.pieces[piece.mirror_of]))
        pieces[key] = piece
    return pattern.with_values({"pieces": pieces}), tuple(findings)


def _taken_over(piece: Piece, other: Piece) -> Mapping[str, Any]:
    shared = [name for name in _SHARED if name not in piece.model_fields_set]
    steps = tuple(step.mirrored() for step in other.steps)
    counted = piece.counted_at or (other.counted_at.mirrored() if other.counted_at else None)
    return {name: getattr(other, name) for name in shared} | {
        "steps": steps,
        "counted_at": counted,
    }


def _fault(key: str, piece: Piece, pieces: Mapping[str, Piece]) -> Diagnostic | None:
    """Why a piece can't mirror the one it names."""
    if piece.mirror_of is None:
        return None
    place = piece.place.of("mirror of").span
    other = pieces.get(piece.mirror_of)
    if other is None or piece.mirror_of == key:
        close = closest(piece.mirror_of, [name for name in pieces if name != key])
        return Diagnostic(
            "source.mirror",
            f"there is no other piece called `{piece.mirror_of}`",
            f"Write `{close}`" if close else "Name the piece that has the steps",
            place,
            fixes=written_as(close),
        )
    if other.mirror_of is not None:
        return Diagnostic(
            "source.mirror",
            f"`{piece.mirror_of}` mirrors a piece itself, and has no steps of its own",
            f"Write `mirror of: {other.mirror_of}`, or the steps",
            place,
        )
    if list(pieces).index(key) < list(pieces).index(piece.mirror_of):
        return Diagnostic(
            "source.mirror",
            f"`{piece.mirror_of}`, which this piece mirrors, is made after it",
            "Put the piece with the steps before the one that mirrors it",
            place,
        )
    return None
