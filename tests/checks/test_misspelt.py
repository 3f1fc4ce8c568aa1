"""Spelling against a published dictionary (the library's US English), the trade's words, and the
rules of UK spelling; slips are common ones of typists (common practice, no source)."""

import subprocess
import sys
from functools import cache
from pathlib import Path

import hunspell
import pytest

from bindoff.checks.texts import misspelt
from bindoff.craft.spellings import US_TO_UK, us_forms
from bindoff.files import MemoryFiles
from tests.bench.plainwords import HEAD
from tests.faults.seeding import base, checked

WORDS = Path(misspelt.__file__).parents[1] / "words"


@cache
def found(words: str, terms: str = "US") -> dict[str, str]:
    """Findings on spelling in a pattern that says ``words``: the id, and what it says."""
    name, place = (
        ("toy", "Weave the ends") if terms == "US" else ("collar", "Sew the three buttons")
    )
    files = dict(base(name))
    text = files["pattern.yaml"].replace(place, f"{words}. {place}")
    assert f"terms: {terms}" in text
    said = checked(MemoryFiles(files | {"pattern.yaml": text}))
    return {
        f.id: f"{f.message}; {f.help}" for f in said if f.id in ("prose.misspelt", "prose.spelling")
    }


@pytest.mark.parametrize(
    ("slip", "meant"),
    [
        ("kniting", "knitting"),
        ("stiches", "stitches"),
        ("recieve", "receive"),
        ("lenght", "length"),
        ("seperate", "separate"),
        ("stockinnette", "stockinette"),
        ("untill", "until"),
        ("begining", "beginning"),
        ("neddle", "needle"),
        ("guage", "gauge"),
        ("roudn", "round"),
        ("thier", "their"),
        ("hte", "the"),
    ],
)
def test_a_slip_of_the_pen_is_heard_with_what_is_meant(slip: str, meant: str) -> None:
    told = found(f"Mind the {slip} here")["prose.misspelt"]

    assert f"`{slip}`" in told
    assert f"`{meant}`" in told


@pytest.mark.parametrize(
    "word",
    [
        # of the trade
        "purlwise", "intarsia", "selvedge", "steeked", "snoods", "raglans", "nupps", "amigurumi",
        "tog", "dpns", "kfb",
        # compounds and coinages
        "jogless", "freeform", "twiddly", "wobblekins",
        # both spellings of -ize
        "realize", "organize",
    ],
)  # fmt: skip
def test_words_of_the_trade_and_coinages_are_left_alone(word: str) -> None:
    assert "prose.misspelt" not in found(f"Mind the {word} here")


def test_names_are_left_alone() -> None:
    assert not found("Ask Morwena Trevanyon in Ebbstow about it")


def test_what_is_said_three_times_is_a_word_of_the_designers_own() -> None:
    assert "prose.misspelt" in found("Sew the flurb on")
    assert not found("Sew the flurb on, turn the flurb and press the flurb")


def test_a_text_in_another_language_is_not_read() -> None:
    german = "Die Maschen locker abketten und den Faden vernähen, dann die Naht schliessen"

    assert not found(german)


@pytest.mark.parametrize(
    ("terms", "word", "right"),
    [
        ("US", "realise", "realize"),
        ("US", "moulded", "molded"),
        ("US", "neighbour", "neighbor"),
        ("US", "cosy", "cozy"),
        ("UK", "neighboring", "neighbouring"),
        ("UK", "theater", "theatre"),
        ("UK", "traveled", "travelled"),
    ],
)
def test_the_other_sides_spelling_is_told(terms: str, word: str, right: str) -> None:
    assert f"`{right}`" in found(f"Mind the {word} here", terms)["prose.spelling"]


@pytest.mark.parametrize("word", ["realise", "moulded", "cosier", "skilful", "draught", "pyjamas"])
def test_uk_spelling_is_right_in_uk_terms(word: str) -> None:
    assert not found(f"Mind the {word} here", "UK")


@pytest.mark.parametrize(("us", "uk"), US_TO_UK.items())
def test_the_rules_lead_from_uk_to_us(us: str, uk: str) -> None:
    """The library's dictionary is of US English: it has the one and not the other."""
    spell = hunspell.Hunspell("en_US").spell

    assert spell(us)
    assert not spell(uk)
    assert us in us_forms(uk)


def test_the_ordinary_words_are_in_the_dictionary() -> None:
    """``python -m tests.bench.plainwords`` renews the list of our patterns' words."""
    head, *lines = (WORDS / "plain.txt").read_text(encoding="utf-8").splitlines()
    spell = hunspell.Hunspell("en_US").spell

    assert head == HEAD
    assert [w for w in " ".join(lines).split() if not spell(w) and not spell(w.capitalize())] == []


def test_the_dictionary_is_loaded_for_words_that_are_not_ordinary() -> None:
    """A demo says nothing else, so its check has the time it had without spelling."""
    program = (
        "import sys; from bindoff.files import DiskFiles;"
        "from bindoff.pipeline import check_pattern;"
        "check_pattern(DiskFiles('patterns/ropewalk-hat'), 'pattern.yaml', 'ropewalk-hat');"
        "print('hunspell' in sys.modules)"
    )
    root = Path(__file__).parents[2]
    ran = subprocess.run(
        [sys.executable, "-c", program], cwd=root, capture_output=True, text=True, check=True
    )

    assert ran.stdout.strip() == "False"
