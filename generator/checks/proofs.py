"""What reading, planning and composing a pattern prove on the way; always on, never silenced.

A stage that can't go on says so under one of these ids. They are listed beside the checks so that
the list is the whole truth.
"""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Proof:
    """An id that a stage raises: what holds when it does not, and why that matters."""

    id: str
    stage: str
    holds: str
    why: str


PROOFS: tuple[Proof, ...] = ()
