"""Streams of a file, compressed; what is written again is not compressed again."""

import zlib
from functools import lru_cache
from typing import Any

import pikepdf
from pikepdf import Dictionary, Name


def stream(pdf: pikepdf.Pdf, data: bytes, **entries: Any) -> Any:
    """A compressed stream of ``pdf`` whose dictionary has ``entries`` too."""
    return pikepdf.Stream(pdf, _packed(data), Dictionary(Filter=Name.FlateDecode, **entries))


@lru_cache(maxsize=64)  # after an edit most pages and typefaces are what they were
def _packed(data: bytes) -> bytes:
    return zlib.compress(data)
