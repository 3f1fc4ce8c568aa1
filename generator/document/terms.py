"""The words that differ between US and UK craft English, for ``{{ terms.bind_off }}`` in prose."""

from collections.abc import Mapping
from typing import Literal


def terms(style: Literal["US", "UK"]) -> Mapping[str, str]:
    """Every term in the chosen style, under one name for both (the US word in snake case)."""
    raise NotImplementedError
