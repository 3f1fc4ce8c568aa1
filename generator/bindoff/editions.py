"""The editions of a pattern: what is printed of it for whom, and under which file names."""

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from typing import Literal

from bindoff.render.pdf import PdfOptions


@dataclass(frozen=True, slots=True)
class TextOptions:
    """How text editions are written.

    Lines are wrapped at ``width`` characters, or not at 0. ``explained``: an abbreviation is
    followed by what it stands for where it is first used.
    """

    width: int = 0
    explained: bool = False


@dataclass(frozen=True, slots=True)
class Wanted:
    """The editions that are asked for beside the pattern itself.

    ``sizes`` get an edition each; ``card`` is the one for the machine; ``every`` asks for all.
    """

    sizes: tuple[str, ...] = ()
    card: bool = False
    every: bool = False


PATTERN_ALONE = Wanted()
PLAIN_TEXT = TextOptions()


@dataclass(frozen=True, slots=True)
class Edition:
    """A PDF, and with ``text`` the same as text: files called the pattern's name and ``suffix``.

    It has all sizes, or the one ``size``; ``what`` is the pattern or the card for the machine.
    """

    suffix: str
    pdf: PdfOptions
    size: str = ""
    text: bool = False
    what: Literal["pattern", "card"] = "pattern"


def editions(
    wanted: Wanted, pdf: PdfOptions, sizes: tuple[str, ...], has_card: bool
) -> tuple[Edition, ...]:
    """What to build of a pattern with those sizes, the pattern itself first.

    Sizes of one edition each are printed as ``pdf`` says. Of all editions, the card is left out
    where the pattern ``has_card`` not.
    """
    return tuple(_told_apart(_editions(wanted, pdf, sizes, has_card)))


def _editions(
    wanted: Wanted, pdf: PdfOptions, sizes: tuple[str, ...], has_card: bool
) -> Iterator[Edition]:
    yield Edition("", pdf, text=True)
    if wanted.every:
        yield Edition("-letter", replace(pdf, paper="letter"))
        yield Edition("-large-print", replace(pdf, theme="large-print"))
        yield Edition("-print-saver", replace(pdf, theme="print-saver"))
        yield Edition("-grey", replace(pdf, grey=True))
    if wanted.card or (wanted.every and has_card):
        yield Edition("-card", replace(pdf, theme="large-print"), text=True, what="card")
    singles = sizes if wanted.every else wanted.sizes
    if not wanted.every or len(sizes) > 1:
        for size in dict.fromkeys(singles):
            yield Edition(f"-{file_part(size)}", pdf, size, text=True)


def file_part(size: str) -> str:
    """The name of a size as part of a file name: ``Child S`` becomes ``Child-S``."""
    return re.sub(r"[^\w.]+", "-", size).strip("-.") or "size"


def _told_apart(found: Iterable[Edition]) -> Iterator[Edition]:
    """Suffixes that differ even where case is not told apart."""
    taken: list[str] = []
    for edition in found:
        suffix, number = edition.suffix, 1
        while suffix.casefold() in taken:
            number += 1
            suffix = f"{edition.suffix}-{number}"
        taken.append(suffix.casefold())
        yield replace(edition, suffix=suffix)
