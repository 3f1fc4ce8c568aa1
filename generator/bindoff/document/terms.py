"""The words that differ between US and UK craft English, for ``{{ terms.bind_off }}`` in prose.

The pairs are those of the trade's own conversion lists (common practice, no source). One name
serves both: the US word in snake case.
"""

from collections.abc import Mapping
from types import MappingProxyType
from typing import Literal

# name: (US, UK)
_PAIRS: Mapping[str, tuple[str, str]] = MappingProxyType(
    {
        # knitting
        "bind_off": ("bind off", "cast off"),
        "binding_off": ("binding off", "casting off"),
        "bound_off": ("bound off", "cast off"),
        "bind_off_edge": ("bind-off edge", "cast-off edge"),
        "gauge": ("gauge", "tension"),
        "stockinette": ("stockinette stitch", "stocking stitch"),
        "reverse_stockinette": ("reverse stockinette stitch", "reverse stocking stitch"),
        "seed_stitch": ("seed stitch", "moss stitch"),
        "duplicate_stitch": ("duplicate stitch", "Swiss darning"),
        # crochet
        "single_crochet": ("single crochet", "double crochet"),
        "half_double_crochet": ("half double crochet", "half treble crochet"),
        "double_crochet": ("double crochet", "treble crochet"),
        "skip": ("skip", "miss"),
        # spelling
        "color": ("color", "colour"),
        "colors": ("colors", "colours"),
        "center": ("center", "centre"),
        "fiber": ("fiber", "fibre"),
        "fibers": ("fibers", "fibres"),
        "gray": ("gray", "grey"),
        "jewelry": ("jewelry", "jewellery"),
        "license": ("license", "licence"),
        "pajamas": ("pajamas", "pyjamas"),
    }
)


def terms(style: Literal["US", "UK"]) -> Mapping[str, str]:
    """Every term in the chosen style, by its one name."""
    column = {"US": 0, "UK": 1}[style]
    return {name: pair[column] for name, pair in _PAIRS.items()}
