"""The benchmarks, which are run by hand, set like beside like and can be begun at all."""

import re
from collections import Counter
from html import unescape
from pathlib import Path

import pytest

from bindoff.files import DiskFiles
from bindoff.source.read import read_source
from tests.bench import catalogue, markup
from tests.bench.documents import ROOT, document_of, words

DEMOS = ("harbour-light-hat", "netmender-mittens", "herring-quay-shawl")


@pytest.mark.parametrize("name", DEMOS)
def test_rivals_are_given_every_word_of_the_tree(name: str, tmp_path: Path) -> None:
    """Whatever the tree has learnt to say, the pages of the rivals say too."""
    document = document_of("demo", ROOT / "patterns" / name)
    page = markup.html(document, tmp_path).partition("<body>")[2]
    bare = re.sub(r"<svg.*?</svg>", " ", page, flags=re.DOTALL)
    said = re.sub(r"<[^>]*>", " ", re.sub(r"</?(?:strong|em|a|span)\b[^>]*>", "", bare))
    wanted = Counter(words(markup.words(document.blocks)))

    assert wanted - Counter(words(unescape(said))) == Counter()
    assert markup.typst(document, tmp_path).count("#heading") == page.count("<h")


def test_the_patterns_of_the_catalogue_are_read(tmp_path: Path) -> None:
    names = catalogue.generate(tmp_path, len(catalogue.DEMOS) + 1)

    titles = [read_source(DiskFiles(str(tmp_path / name))).pattern.title for name in names]

    assert titles == [f"Number {at}" for at in range(len(names))]
