"""``abbreviations: as written`` prints the designer's own words for stitches, ``house`` ours."""

import pytest

from bindoff.document.build import build_document
from bindoff.document.spokenrows import signs_in_words
from bindoff.files import MemoryFiles
from bindoff.plan.plan import make_plan
from bindoff.render.text import render_text
from bindoff.source.read import read_source
from tests.small_patterns import CAP, WAVES, changed

ROWS = """\
      - work: ["K2, C6F, M1L, knit to end", "k2, *p2, K2TOG; repeat from * to last 2, p2"]
      - work: "make 1 left, P to last 3 sts k3tog"
"""
STEPS = '      - work: "*k2, p2; repeat from * to end"\n        rounds: 8\n'


def edition(head: str) -> str:
    text = changed(
        CAP,
        ("gauge:", f"{head}gauge:"),
        (STEPS, ROWS),
        ('  foam: {name: Foam, colour: "#e9eef0", weight: 4, ball: 100 g = 200 m}\n', ""),
        ('{".": slate, "#": foam}', '{".": k, "#": p}'),
        ("multiple = 8", "multiple = 8, plus = 3"),
    )
    rest = text.partition("      - chart: waves\n")[0] + "      - bind off: all\n"
    plan = make_plan(read_source(MemoryFiles({"pattern.yaml": rest, "waves.grid": WAVES})))
    document, _ = build_document(plan, MemoryFiles({}))
    return render_text(document, 0, signs_in_words)


def test_the_designers_words_survive_in_rows_and_in_the_list() -> None:
    text = edition("abbreviations: as written\n")

    assert "K2, C6F, M1L, k to end." in text
    assert "p2, K2TOG" in text
    assert "K2TOG: knit 2 together" in text
    assert "C6F: 3 over 3 left cross" in text or "C6F: 3/3 left cross" in text


@pytest.mark.parametrize("head", ["", "abbreviations: house\n"])
def test_the_house_has_its_own(head: str) -> None:
    text = edition(head)

    assert "C6F" not in text
    assert "K2TOG" not in text
    assert "k2tog: knit 2 together" in text
