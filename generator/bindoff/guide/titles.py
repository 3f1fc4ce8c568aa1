"""What groups of keys are called in the guide."""

from bindoff.guide.keys import Group
from bindoff.guide.topics import TOPICS

_GROUP_TITLES = {
    "Pattern": "The keys of a pattern",
    "Made": "made: how the main pieces are made",
    "Photo": "photos: each photograph",
    "Tool": "tools: each tool",
    "VersionChange": "changes: each version",
    "Silence": "silence: each check that does not count",
    "Gauge": "gauge",
    "Swatch": "swatch of a gauge",
    "Yarn": "yarns: each yarn",
    "YarnSwatch": "swatch of a yarn",
    "Size": "sizes: each size",
    "Chart": "charts: each chart",
    "Columns": "columns of a chart",
    "CellMeaning": "legend: what a character is",
    "ChartPlace": "at: where a chart stands in its row",
    "CustomStitch": "stitches: each stitch of your own",
    "StitchPattern": "stitch patterns: each pattern",
    "Piece": "pieces: each piece",
    "Step": "every step",
    "Column": "counted at: a column",
    "RowsShape": "schematic: from rows",
    "HatShape": "schematic: hat",
    "MittenShape": "schematic: mitten",
    "PanelShape": "schematic: panel",
    "RingShape": "schematic: ring",
    "TubeShape": "schematic: tube",
    "Shaping": "together: each shaping",
    "Stripe": "in stripes: each stripe",
    "Edge": "pick up along: each edge",
    "Tube": "tube",
    "ZoneYarns": "yarns of a tube",
    "WantedStripe": "stripes: each wanted stripe",
    "Picture": "picture",
    "Motif": "motifs: each motif",
    "ColourPlan": "colour plan",
}


def group_title(group: Group) -> str:
    """A step's own first key; of other groups what they describe."""
    if group.name in _GROUP_TITLES:
        return _GROUP_TITLES[group.name]
    return next(each.key for each in group.keys if each.required)


def place_of(group: str) -> str:
    """The title of the chapter that tells of a group."""
    return next(each.title for each in TOPICS if group in each.groups)
