"""The lengths that makers keep to, which techniques and cautions name and yarn is counted with.

All are common practice, no source, but the one that names its source. They are millimetres, and
printed in the pattern's units as ``{{ lengths.tail }}``.
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
        "cord_end": 75.0,  # outside its channel: ASTM F1816, in 16 CFR 1120.3(b), 3 in (75 mm)
    }
)
"""Millimetres by name."""
