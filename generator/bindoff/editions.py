"""The editions of a pattern: what is printed of it for whom, and under which file names."""

import unicodedata
from collections.abc import Iterator, Sequence
from typing import Literal

from bindoff import regex as re
from bindoff.records import Record, replace
from bindoff.render.pdf import PdfOptions


class TextOptions(Record):
    """How text editions are written.

    Lines are wrapped at ``width`` characters, or not at 0. ``explained``: an abbreviation is
    followed by what it stands for where a section first uses it.
    """

    width: int = 0
    explained: bool = True


Form = Literal["html", "epub", "test sheets", "braille", "uncontracted braille"]
"""What a pattern is written as beside pages of paper and plain text."""

CHOICES = ("letter", "large print", "print saver", "grey", "card", "single sizes", "html", "epub")
"""All editions beside the pattern itself, by the names that a source chooses them with."""

_FORMS: tuple[Form, ...] = ("html", "epub", "test sheets", "braille", "uncontracted braille")


class Wanted(Record):
    """The editions that are asked for beside the pattern itself.

    ``sizes`` get an edition each; ``card`` is the one for the machine; ``forms`` are other kinds of
    files of all sizes; ``every`` asks for all, of one size each those of ``sizes`` if any are
    named; ``chosen`` are some of ``CHOICES``, wanted where the pattern has them.
    """

    sizes: tuple[str, ...] = ()
    card: bool = False
    every: bool = False
    forms: tuple[Form, ...] = ()
    chosen: tuple[str, ...] = ()

    @property
    def choices(self) -> tuple[str, ...]:
        """The names of the editions that are wanted where the pattern has them."""
        return CHOICES if self.every else self.chosen

    @property
    def all_forms(self) -> tuple[Form, ...]:
        """The forms that are written."""
        return tuple(form for form in _FORMS if form in (*self.forms, *self.choices))


PATTERN_ALONE = Wanted()
PLAIN_TEXT = TextOptions()


class Edition(Record):
    """A PDF called the pattern's name and ``suffix``; with ``text`` the same as plain text.

    It has all sizes, or the one ``size``; ``what`` is the pattern or the card for the machine. The
    text is called the pattern's name and ``words``: paper, type and colour make no other text.
    """

    suffix: str
    pdf: PdfOptions
    size: str = ""
    text: bool = False
    what: Literal["pattern", "card"] = "pattern"
    words: str = ""


def editions(
    wanted: Wanted, pdf: PdfOptions, sizes: tuple[str, ...], has_card: bool
) -> tuple[Edition, ...]:
    """What to build of a pattern with those sizes, the pattern itself first.

    Sizes of one edition each are printed as ``pdf`` says. Of all editions, the card is left out
    where the pattern ``has_card`` not. No two editions, of this call or of any other for the same
    sizes, have the same name, even where case is not told apart.
    """
    return tuple(_editions(wanted, pdf, sizes, has_card))


def _editions(
    wanted: Wanted, pdf: PdfOptions, sizes: tuple[str, ...], has_card: bool
) -> Iterator[Edition]:
    yield Edition(_printed(pdf), pdf, text=True)
    printed = {
        "letter": replace(pdf, paper="letter"),
        "large print": replace(pdf, theme="large-print"),
        "print saver": replace(pdf, theme="print-saver"),
        "grey": replace(pdf, grey=True),
    }
    for name, each in printed.items():
        if name in wanted.choices:
            yield Edition(_printed(each), each)
    if has_card and (wanted.card or "card" in wanted.choices):
        card = replace(pdf, theme="card")
        suffix = f"-card{_printed(replace(pdf, theme='calm'))}"
        yield Edition(suffix, card, text=True, what="card", words="-card")
    each_size = "single sizes" in wanted.choices
    singles = wanted.sizes or (sizes if each_size else ())
    if not each_size or len(sizes) > 1:
        parts = _size_parts(sizes)
        for size in dict.fromkeys(singles):
            # A size that is not there is refused later, whatever it is called.
            words = f"-{parts.get(size, 'size')}"
            yield Edition(f"{words}{_printed(pdf)}", pdf, size, text=True, words=words)


def _printed(pdf: PdfOptions) -> str:
    """How a PDF is printed as part of a file name; nothing as it usually is."""
    usual = PdfOptions()
    named = (
        pdf.paper if pdf.paper != usual.paper else "",
        pdf.theme if pdf.theme != usual.theme else "",
        "grey" if pdf.grey else "",
    )
    return "".join(f"-{part}" for part in named if part)


_TAKEN = re.compile("(letter|large-print|print-saver|grey|card|test-sheets|uncontracted)(-.*)?")
"""What a size may not be called in a file name, since an edition is."""


def _size_parts(sizes: Sequence[str]) -> dict[str, str]:
    """The name of every size as part of a file name; each another, whichever of them is built."""
    found: dict[str, str] = {}
    taken = set[str]()
    for number, size in enumerate(sizes, start=1):
        part = file_part(size)
        if not part or part.casefold() in taken or _TAKEN.fullmatch(part.casefold()):
            part = f"size-{number}-{part}".rstrip("-")
        found[size] = part
        taken.add(part.casefold())
    return found


def file_part(size: str) -> str:
    """The name of a size in the letters that every system takes: ``Child S`` is ``Child-S``.

    ``5½`` is ``5-1-2``, ``Größe`` is ``Grosse``; empty if nothing of it can be written so.
    """
    parted = re.sub(r"(?<=\d)(?=[¼-¾⅐-⅞])", "-", size.replace("ß", "ss"))
    plain = unicodedata.normalize("NFKD", parted.replace("Ł", "L").replace("ł", "l"))
    letters = re.sub(r"(?<=\d)\N{FRACTION SLASH}", "-", plain).encode("ascii", "ignore").decode()
    return re.sub(r"[^\w.]+", "-", letters).strip("-.")
