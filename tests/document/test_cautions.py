"""The cautions say what the published rules say, each sentence with its source beside it."""

import json
import re
from pathlib import Path

import pytest
from click.testing import CliRunner

from bindoff.cli import main
from bindoff.craft.lengths import CRAFT_LENGTHS
from bindoff.document.cautions import CAUTIONS, as_text, caution_of, packaged_cautions

FOLDER = Path(__file__).parents[2] / "templates" / "safety"
SAID = {
    caution.name: " ".join(sentence.words for sentence in caution.sentences)
    for caution in packaged_cautions()
}


def test_every_packaged_caution_is_listed_with_a_source_for_each_sentence() -> None:
    assert sorted(CAUTIONS) == sorted(path.stem for path in FOLDER.glob("*.md"))
    for caution in packaged_cautions():
        assert caution.sentences
        for sentence in caution.sentences:
            assert sentence.words.endswith(".")
            assert not re.search(r"[.!?]\)? [A-Z]", sentence.words)
            assert sentence.source


@pytest.mark.parametrize(
    "line", ["Cover points.", "A. {# Source:  #}", "{% if x %}A. {# Source: b #}"]
)
def test_a_sentence_without_its_source_is_refused(line: str) -> None:
    with pytest.raises(ValueError, match="no sentence with its source"):
        caution_of("own", f"{{# Variables: none #}}\n# Own\n\n{line}\n")


def test_the_sheet_has_every_sentence_and_source() -> None:
    sheet = " ".join(as_text().split())
    result = CliRunner().invoke(main, ["check", "--cautions"])
    as_json = json.loads(CliRunner().invoke(main, ["check", "--cautions", "--json"]).output)

    assert result.exit_code == 0
    assert " ".join(result.output.split()) == sheet
    assert "{" not in sheet
    assert "in a mitten" in sheet
    assert "is worn or used" in sheet
    for caution in packaged_cautions():
        for sentence in caution.sentences:
            assert f"{sentence.words} [{sentence.source}]" in sheet
            assert any(each["words"] == sentence.words for each in as_json)


def test_the_ban_of_small_parts_is_not_said_of_clothing() -> None:
    """16 CFR 1501.3(d): children's clothing and accessories such as buttons are exempt."""
    assert "toys and other articles" in SAID["small-parts"]
    assert "but not in clothing and its buttons" in SAID["small-parts"]


def test_bobbles_of_yarn_are_not_warned_of() -> None:
    """16 CFR 1501.4: yarn and fabric are no small parts."""
    assert not any("bobble" in words for words in SAID.values())


def test_cords_have_the_figures_of_the_published_rules() -> None:
    """ASTM F1816 (16 CFR 1120.3(b)): none at neck and hood in 2T to 12; at waist and bottom in 2T
    to 16 at most 3 in (75 mm); upper outerwear alone. EN 14682:2014: to 14 years; hats, gloves and
    scarves are out of its scope."""
    words = SAID["cords"]

    assert CRAFT_LENGTHS["cord_end"] == 75
    for figure in ("2T to 12", "2T to 16", "3 in", "to 14 years", "hats, gloves and scarves"):
        assert figure in words
    assert "for guidance" in words
    assert "where you live comes first" in words


def test_sleep_is_told_as_paediatricians_do() -> None:
    """American Academy of Pediatrics, 2022: back, firm and flat, nothing loose or weighted, no
    hats. 16 CFR 1615 and 1616: sleepwear to size 14, but infants' to 9 months and tight-fitting."""
    for word in ("backs", "firm, flat", "hats", "loose", "weighted"):
        assert word in SAID["sleep"]
    for word in ("size 14", "1615 and 1616", "9 months", "tight-fitting"):
        assert word in SAID["nightwear"]


def test_a_patch_is_worn_for_days() -> None:
    """European Society of Contact Dermatitis, 2015: worn 2 days, read to day 7 (from memory)."""
    assert "two days" in SAID["wool"]
    assert "hours" not in SAID["wool"]
