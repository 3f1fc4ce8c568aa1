"""A cable that only a chart shows needs its needle as one in words does."""

from pathlib import Path

from bindoff.files import DiskFiles, MemoryFiles
from tests.faults.seeding import checked

HAT = Path(__file__).parents[2] / "patterns" / "hawser-hat"


def test_a_cable_needle_is_missed_where_a_chart_crosses_stitches() -> None:
    text = (HAT / "pattern.yaml").read_text(encoding="utf-8")
    lines = [line for line in text.splitlines(keepends=True) if "cable needle" not in line]
    grids = {path.name: path.read_text(encoding="utf-8") for path in HAT.glob("*.grid")}

    found = checked(MemoryFiles({"pattern.yaml": "".join(lines), **grids}))

    assert "the steps need a cable needle, and the lists name none" in {
        each.message for each in found
    }
    assert "tool.missing" not in {each.id for each in checked(DiskFiles(str(HAT)))}
