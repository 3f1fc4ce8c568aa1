"""Sizes that come out the same are told in one finding, however many they are."""

import pytest

from bindoff.files import MemoryFiles
from bindoff.pipeline import check_pattern
from tests.small_patterns import CAP, WAVES, changed


@pytest.mark.parametrize(
    ("heads", "told"),
    [
        ((52, 56), []),
        ((52, 52, 56), ["sizes A and B have the same finished measurements"]),
        ((52, 52, 52, 56, 60), ["sizes A to C have the same finished measurements"]),
        ((55, 56, 60), ["sizes A and B have the same finished measurements"]),  # by the multiple
        (
            (52, 52, 56, 60, 60),
            [
                "sizes A and B have the same finished measurements",
                "sizes D and E have the same finished measurements",
            ],
        ),
    ],
)
def test_neighbours_that_come_out_the_same_are_one_finding(
    heads: tuple[int, ...], told: list[str]
) -> None:
    sizes = "".join(f"  {'ABCDE'[at]}: {{head: {head} cm}}\n" for at, head in enumerate(heads))
    text = changed(
        CAP,
        ("  S: {head: 52 cm}\n  M: {head: 56 cm}\n", sizes),
        ("[20 cm, 21 cm]", "20 cm"),
    )
    files = MemoryFiles({"pattern.yaml": text, "waves.grid": WAVES})
    found = check_pattern(files, "pattern.yaml", "own")
    assert [each.message for each in found if each.id == "size.same"] == told
