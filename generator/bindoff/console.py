"""What is printed arrives on every console, whatever letters it knows; if it can't, that is told.

Python ends in a traceback where a console lacks a letter, and where the output is closed or full.
"""

import codecs
import os
import sys
from collections.abc import Callable, Mapping
from contextlib import suppress
from types import MappingProxyType
from typing import NoReturn, TextIO

HANDLER = "bindoff.plain"
"""The name under which Python's encoders know ``_plain``."""

_PLAIN: Mapping[str, str] = MappingProxyType(
    {
        "…": "...", "–": "-", "—": "-", "−": "-", "‑": "-", "·": "-", "•": "*", "×": "x",
        "‘": "'", "’": "'", "′": "'", "“": '"', "”": '"', "″": '"', "«": '"', "»": '"',
        "½": "1/2", "¼": "1/4", "¾": "3/4", "→": "->", "≈": "about ", "≤": "<=", "≥": ">=",
        "±": "+/-", "°": " degrees ", "©": "(c)", "\u00a0": " ", "\u202f": " ", "\ufffd": "?",
    }
)  # fmt: skip


def _plain(error: UnicodeError) -> tuple[str, int]:
    """In the place of letters that an encoding lacks: the same in ASCII, or a question mark."""
    if not isinstance(error, UnicodeEncodeError):
        raise error
    lost = error.object[error.start : error.end]
    return "".join(_PLAIN.get(letter, "?") for letter in lost), error.end


codecs.register_error(HANDLER, _plain)


def on_console(run: Callable[[], object]) -> object:
    """``run`` with streams that take every text; ends with exit code 1 where they take none."""
    if sys.stdout is None:
        _give_up("it is closed")
    for stream in (sys.stdout, sys.stderr):
        with suppress(AttributeError, ValueError):  # not every stand-in for a console can do it
            stream.reconfigure(errors=HANDLER)  # type: ignore[union-attr]
    try:
        return run()
    except OSError as error:
        _give_up(error.strerror or str(error))
    except SystemExit:
        if type(sys.stdout).__name__ == "PacifyFlushWrapper":  # what click leaves of a closed pipe
            _give_up("what reads it has ended")
        raise


def _give_up(reason: str) -> NoReturn:
    with suppress(OSError, ValueError, AttributeError):
        error: TextIO | None = sys.stderr
        if error is not None:
            help = "Give the output another place, or free some space"
            error.write(f"error: the output can't be printed: {reason}\nhelp: {help}\n")
            error.flush()
    # Or Python would try once more to print what is left, and fail beyond our reach.
    sys.stdout = open(os.devnull, "w", encoding="utf-8")  # noqa: SIM115
    sys.exit(1)
