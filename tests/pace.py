"""How fast this machine is now, so that limits of time hold on a slow or a busy one too."""

from time import process_time

_STEPS = 500_000
_REFERENCE = 0.034
"""Seconds of CPU for so many steps on the machine for which limits are told, with nothing else to
do. Measured, no source."""


def pace() -> float:
    """By what a limit of seconds is multiplied here: 1 on a machine as fast as the reference."""
    began = process_time()
    total = 0
    for step in range(_STEPS):
        total += step * step
    return max(1.0, (process_time() - began) / _REFERENCE)
