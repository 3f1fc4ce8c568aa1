"""The lengths that makers keep to, which techniques name and amounts of yarn count with.

All are common practice, no source. They are millimetres, and printed in the pattern's units as
``{{ lengths.tail }}``.
"""

from collections.abc import Mapping
from types import MappingProxyType

CRAFT_LENGTHS: Mapping[str, float] = MappingProxyType(
    {
        "tail": 150.0,  # left where a yarn begins or ends
        "weave": 50.0,  # along which an end is woven in
        "strand": 600.0,  # longest strand to embroider with
        "strand_tail": 150.0,  # left at each end of a strand to embroider with
        "float": 25.0,  # longest float before it is trapped
        "gauge": 100.0,  # over which stitches are counted
        "swatch": 150.0,  # least side of a swatch
    }
)
"""Millimetres by name."""
