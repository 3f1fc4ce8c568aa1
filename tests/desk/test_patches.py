"""What travels of a page that a key has changed makes the old page the new one, and is little."""

from random import Random
from xml.etree import ElementTree as ET

import pytest

from bindoff.desk.patches import MOST, patch, patches
from bindoff.desk.proofs import Look, Proof, make_proof
from bindoff.desk.workplace import Overlay
from bindoff.render.pdf import PdfOptions
from tests.desk.running import PATTERNS

NAME = "netmender-mittens"


def patched(before: str, after: str) -> str:
    """``before`` with what is new in ``after`` put into it, as the page of the desk does."""
    made = patch(before, after)
    assert made is not None
    head, *old, foot = before.split("\n")
    assert made.whole == len(old)
    assert 0 <= made.start <= made.end <= len(old)
    old[made.start : made.end] = made.lines
    return "\n".join((head, *old, foot))


def test_any_page_becomes_any_other_on_the_same_paper() -> None:
    random = Random(7)
    pages = [
        "\n".join(("<svg>", *random.choices("abc", k=size % 6), "</svg>")) for size in range(90)
    ]

    assert [patched(one, other) for one in pages for other in pages] == pages * len(pages)


def test_another_paper_is_no_patch() -> None:
    assert patch("<svg a4>\n<a/>\n</svg>", "<svg letter>\n<a/>\n</svg>") is None


@pytest.fixture(scope="module")
def two() -> tuple[Proof, Proof]:
    """A demo as it is, and with a letter more in its summary."""
    text = (PATTERNS / NAME / "pattern.yaml").read_text(encoding="utf-8")
    texts = {"pattern.yaml": text.replace("Warm mittens", "Warmx mittens", 1)}
    before, after = (
        make_proof(Overlay(str(PATTERNS / NAME), each), "pattern.yaml", NAME, Look())
        for each in ({}, texts)
    )
    return before, after


def test_a_letter_moves_next_to_nothing(two: tuple[Proof, Proof]) -> None:
    before, after = two
    (new,) = (digest for digest in after.order if digest not in before.pages)
    found = patches(before, after)

    assert list(found) == [new]
    assert found[new]["of"] == before.order[after.order.index(new)]
    assert len(found[new]["svg"]) < 3000 < 100_000 < len(after.pages[new])
    assert patches(before, before) == {}


def test_each_line_of_a_page_is_a_whole_element(two: tuple[Proof, Proof]) -> None:
    for page in two[0].pages.values():
        head, *lines, foot = page.split("\n")
        whole = ET.fromstring(page)
        assert len(whole) == len(lines)
        assert all(len(ET.fromstring(f"{head}{each}{foot}")) == 1 for each in lines[::9])


def test_a_page_that_differs_much_is_left_to_be_fetched(two: tuple[Proof, Proof]) -> None:
    before, _ = two
    large = Look(PdfOptions(theme="large-print"))
    other = make_proof(Overlay(str(PATTERNS / NAME), {}), "pattern.yaml", NAME, large)

    assert all(len(each["svg"]) <= MOST for each in patches(before, other).values())
    assert len(patches(before, other)) < len(other.order)
