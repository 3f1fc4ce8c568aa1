"""``bindoff words``; and a stitch added to the book in one file is found wherever it is asked."""

import json
import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from bindoff.cli import main
from bindoff.source.rowlang.sayings import RESERVED
from bindoff.source.rowlang.stitches import Terms, standard_book

PACKAGE = Path(__file__).parents[1] / "generator" / "bindoff"


def words(*arguments: str) -> Result:
    return CliRunner().invoke(main, ["words", *arguments])


@pytest.mark.parametrize("terms", Terms)
def test_every_word_of_a_row_is_listed_and_explained(terms: Terms) -> None:
    book = standard_book(terms)
    listed = words("--terms", terms).output

    for name in (*book.by_name, *book.act_by_name, *RESERVED):
        told = words(name, "--terms", terms)
        assert told.exit_code == 0, name
        assert told.output.strip(), name
        assert name in listed.lower(), name


@pytest.mark.parametrize(
    ("asked", "told"),
    [
        (
            ("k2tog",),
            "k2tog: knit 2 together\n"
            "    Knit the next two stitches as if they were one.\n"
            "    Uses 2 stitches and makes 1.\n"
            "    Seen from the right side: leans to the right when worked on the right side, to "
            "the\n    left when worked on the wrong side.\n"
            "    To show it, a wrong-side row works: p2tog (purl 2 together).\n"
            "    Mirror partner: ssk (slip, slip, knit).\n"
            "    Chart symbol: `k2tog`, stroke leaning right, 1 cell.\n"
            "    May be followed by: tbl.\n",
        ),
        (("sl2",), "a right-side row works: sl wyib"),
        (("2/1", "LPC"), "Chart symbol: `purl cable 2/1 left`"),
        (("ktbl",), "a wrong-side row works: p tbl"),
        (("dc",), "In UK terms: tr; there `dc` is what is sc here."),
        (("dc", "--terms", "UK"), "dc: double crochet"),
        (("around",), "k around"),
        (("tbl",), "through back loop"),
        (("k1b",), "`k1 tbl`"),
    ],
)
def test_a_word_is_explained(asked: tuple[str, ...], told: str) -> None:
    assert told in words(*asked).output


def test_a_word_no_row_knows_is_told_with_what_is_near() -> None:
    found = words("p2tgo")

    assert found.exit_code == 1
    assert "`p2tog` (purl 2 together, uses 2 stitches and makes 1)" in found.stderr


def test_words_come_as_data_too() -> None:
    (ssk,) = json.loads(words("ssk", "--json").output)
    everything = json.loads(words("--json").output)

    assert (ssk["uses"], ssk["makes"], ssk["mirror"]) == (2, 1, "k2tog")
    assert ssk["leans"] == {"right side": "left", "wrong side": "right"}
    assert ssk in everything["stitches"]


TOY = """    knit_entry(
        "quay",
        (3, 2),
        "quay decrease",
        "Work the next three stitches as two.",
        aliases=("qd",),
        lean=Lean.RIGHT,
        mirror="yauq",
        on_wrong_side="yauq",
        symbol=Symbol("toy anchor", fills=circle(0.5, 0.5, 0.2), name="anchor"),
    ),
    knit_entry("yauq", (3, 2), "quay decrease back", "Work three as two.", lean=Lean.LEFT),
"""

ASK = """
from bindoff.plan.mirrored import mirrored
from bindoff.document.build import abbreviation_names
from bindoff.document.charts.legend import legend
from bindoff.document.rowwords import words
from bindoff.document.tree import plain
from bindoff.source.rowlang.stitches import Terms
from tests.document.patterns import built, data, flat, plan_of

signs = {".": "k", "#": "quay", "o": "yo"}
chart = {"title": "Toy", "grid": "toy.grid", "legend": signs, "alt": "A toy."}
steps = [{"cast on": 72}, {"chart": "toy"}, {"work": "k2, qd, yo, k to end"}, {"bind off": "all"}]
source = flat(data(steps, 1, charts={"toy": chart}))
files = {"toy.grid": "#o......\\n#o......\\n"}
plan = plan_of(source, files)
_, (page,) = built(source, files)
row = plan.pieces[0].steps[2].detail.rows[0]
key = page.spec.key_of["#"]
print(plain(words(row, {}, Terms.US, plan.book)))
print(key.symbol, key.said(), key.said(wrong_side=True), sep=", ")
entries = legend(page.spec).entries
print(*(plain(each.meaning) for each in entries if plain(each.term) == key.label))
print(abbreviation_names(plan)["quay"])
print(plain(words(mirrored(row, plan.book), {}, Terms.US, plan.book)))
"""


def test_a_stitch_added_in_one_file_is_known_everywhere(tmp_path: Path) -> None:
    shutil.copytree(PACKAGE, tmp_path / "bindoff", ignore=shutil.ignore_patterns("__pycache__"))
    shutil.copytree(PACKAGE.parents[1] / "templates", tmp_path / "bindoff/_templates")
    family = tmp_path / "bindoff/craft/stitches/special.py"
    before = family.read_text(encoding="utf-8")
    family.write_text(before.replace("STITCHES = (\n", "STITCHES = (\n" + TOY), encoding="utf-8")

    def run(*arguments: str) -> str:
        paths = f"{tmp_path}{os.pathsep}{Path(__file__).parents[1]}"
        return subprocess.run(
            [sys.executable, *arguments],
            env={"PYTHONPATH": paths},
            stdout=subprocess.PIPE,
            text=True,
            check=True,
        ).stdout

    assert run("-c", ASK).splitlines() == [
        "K2, quay, yo, k to end.",
        "anchor, quay, yauq",
        "toy anchor; quay on the right side, yauq on the wrong side",
        "quay decrease",
        "K to last 5 stitches, yo, yauq, k2.",
    ]
    told = run("-m", "bindoff", "words", "qd")
    assert "quay: quay decrease" in told
    assert "Uses 3 stitches and makes 2." in told
    assert "`anchor`, toy anchor, 1 cell" in told
