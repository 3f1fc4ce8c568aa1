"""Heads of children by a published growth standard, read from a library that holds its tables."""

from pygrowup.tables.by_day.hcfa import DATA


def who_head_mm(sex: str, month: int, z: float = 0.0) -> float:
    """Head circumference at ``z`` deviations: WHO Child Growth Standards, L = 1 at every age."""
    row = DATA[sex][min(round(month * 30.4375), 1826)]
    return 10 * float(row["m"]) * (1 + z * float(row["s"]))
