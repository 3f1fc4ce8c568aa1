"""Names that a pattern gives itself are words of its own."""

from bindoff.files import MemoryFiles
from bindoff.pipeline import check_pattern
from tests.small_patterns import CAP, WAVES, changed


def ids(text: str) -> list[str]:
    files = MemoryFiles({"pattern.yaml": text, "waves.grid": WAVES})
    return [each.id for each in check_pattern(files, "pattern.yaml", "cap")]


def with_words(words: str, *changes: tuple[str, str]) -> str:
    said = ("      - chart: waves\n", f"      - say: {words}\n      - chart: waves\n")
    return changed(CAP, said, *changes)


def test_a_yarn_that_is_called_mc_needs_no_explaining() -> None:
    plain = "Change to MC and knit on."
    named = with_words(plain).replace("slate", "MC")

    assert "abbreviation.undefined" in ids(with_words(plain))
    assert "abbreviation.undefined" not in ids(named)
    assert "abbreviation.undefined" not in ids(with_words(plain).replace("name: Slate", "name: MC"))


def test_pm_for_the_start_of_the_round_is_a_marker_to_list() -> None:
    start = with_words("Join, pm for the start of the round.")

    assert "marker.count" in ids(start)
    assert "marker.count" not in ids(
        start.replace("sizes:\n", "notions: [1 stitch marker]\nsizes:\n", 1)
    )
