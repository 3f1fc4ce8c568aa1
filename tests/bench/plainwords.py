"""The ordinary words of our own patterns and templates: ``python -m tests.bench.plainwords``.

Prints ``checks/words/plain.txt``: words that the dictionary or the trade has, so that a pattern
which says nothing else is checked without the dictionary being loaded.
"""

import re
import textwrap
from collections.abc import Iterator
from pathlib import Path

from bindoff.checks.prose import prose_of
from bindoff.checks.texts.misspelt import in_dictionary
from bindoff.files import DiskFiles, Files
from bindoff.source.read import read_source
from tests.faults.seeding import sound

ROOT = Path(__file__).parents[2]
_WORD = re.compile(r"\b[A-Za-z]?[a-z]{2,}(?:['’](?:t|re|ll|ve|d))?\b")
HEAD = "# Ordinary words of patterns, which need no dictionary: python -m tests.bench.plainwords"


def texts() -> Iterator[str]:
    """The texts of sound patterns and of patterns to begin with, and all templates."""
    patterns: dict[str, Files] = dict(sound())
    for folder in sorted((ROOT / "templates" / "start").iterdir()):
        patterns[folder.name] = DiskFiles(str(folder))
    for name, files in patterns.items():
        for prose in prose_of(read_source(files, "pattern.yaml", name), files):
            yield prose.text
    for template in sorted((ROOT / "templates").rglob("*.md")):
        yield re.sub(r"\{[#%{].*?[#%}]\}", " ", template.read_text(encoding="utf-8"))


def plain_words() -> list[str]:
    """Their words, in small letters, in order."""
    found = {word.lower().replace("’", "'") for text in texts() for word in _WORD.findall(text)}
    return sorted(filter(in_dictionary, found))


if __name__ == "__main__":
    print(HEAD)
    print(textwrap.fill(" ".join(plain_words()), 110))
