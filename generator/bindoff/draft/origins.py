"""Words of the text that the draft says otherwise stand in a remark beside what they became."""

from collections.abc import Iterable, Iterator

from bindoff import regex as re
from bindoff.draft.lines import Origin

_WORD = re.compile(r"\w+")
_LONGEST = 96


def words_of(text: str) -> frozenset[str]:
    """The words of ``text``, small."""
    return frozenset(word.casefold() for word in _WORD.findall(text))


def remarks(origins: Iterable[Origin], written: Iterable[str], indent: str) -> Iterator[str]:
    """A remark with the text's own words for each of ``origins`` that ``written`` doesn't hold."""
    there = words_of(" ".join(written))
    for origin in dict.fromkeys(origins):
        if not words_of(origin.text) <= there:
            yield from remark(origin, indent)


def remark(origin: Origin, indent: str) -> Iterator[str]:
    """Words of the text as a remark, with their line."""
    lead = f"{indent}# line {origin.line}: "
    for part in _wrapped(" ".join(origin.text.split()), _LONGEST - len(lead)):
        yield f"{lead}{part}"
        lead = f"{indent}#   "


def _wrapped(text: str, width: int) -> Iterator[str]:
    line = ""
    for word in text.split(" "):
        if line and len(line) + 1 + len(word) > width:
            yield line
            line = word
        else:
            line = f"{line} {word}" if line else word
    yield line
