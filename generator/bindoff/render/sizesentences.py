"""Running text is said in sentences, and once for each figure that differs between sizes."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from functools import lru_cache
from itertools import groupby, zip_longest
from typing import TypeVar

from bindoff import regex as re
from bindoff.document.tree import (
    Emphasis,
    Field,
    Inlines,
    LineBreak,
    Link,
    Ringed,
    SizeValues,
    Strong,
    Text,
    plain,
)
from bindoff.english import counted_in_order, ended, listed
from bindoff.records import Record, field
from bindoff.render.spoken import sentences, spelled

NO_FIGURE = "–"

# A slot in a sentence: a value per size, or a web address that must not be spelled out.
_FIRST_SLOT = 0xF0000
_SLOT = "[\U000f0000-\U000ffffd]"

T = TypeVar("T")


Notation = Callable[[str], str]
"""Puts the signs of a craft into words: what they mean is none of this stage's business."""


class Teller(Record):
    """Says running text for the sizes of a document.

    ``places`` has the number of the section in which each id stands.
    """

    sizes: tuple[str, ...]
    language: str
    notation: Notation = str
    places: Mapping[str, str] = field(default_factory=dict)

    def told(self, inlines: Inlines, label: str = "") -> list[str]:
        """The lines of ``inlines``. ``label`` opens the first one, or stands before a size line.

        Sentences in turn that differ between sizes are told together, size by size, so that what
        one size does and how many stitches that gives is one line.
        """
        template, slots = _flattened(inlines, self.places)
        return list(_said(self.sizes, self.language, self.notation, template, slots, label))

    def said(self, template: str, slots: Sequence[SizeValues | str], label: str) -> list[str]:
        """What ``told`` says of inlines that are a ``template`` whose ``slots`` hold figures."""
        lines: list[str] = []
        for together in self._together(sentences(template, _SLOT), slots):
            said = self._by_size(together, slots)
            if lines or not label or not said:
                lines += said
            else:
                lines = [label, *said] if len(said) > 1 else [f"{label} {said[0]}"]
        return lines

    def spelled(self, text: str) -> str:
        """``text`` on one line with its signs in words."""
        return spelled(self.notation(_unmarked(text)), self.language)

    def once(self, inlines: Inlines) -> str:
        """``inlines`` in one line: for headings and labels, where figures seldom stand."""
        return self.spelled(plain(inlines))

    def labelled(self, sizes: Sequence[int]) -> str:
        """``Size S``, or ``Sizes S and M``, or ``Sizes S, M and L``."""
        names = [self.spelled(self.sizes[size]) for size in sizes]
        return f"Size {names[0]}" if len(names) == 1 else f"Sizes {listed(names)}"

    def _together(
        self, running: Sequence[str], slots: Sequence[SizeValues | str]
    ) -> Iterator[list[str]]:
        """Sentences in turn that give each size a figure and differ between sizes; others alone."""

        def joins(sentence: str) -> bool:
            columns = self._figures(sentence, slots)
            return len(set(columns)) > 1 and all(NO_FIGURE not in each for each in columns)

        for each_size, group in groupby(running, joins):
            found = list(group)
            yield from [found] if each_size else [[sentence] for sentence in found]

    def _figures(self, sentence: str, slots: Sequence[SizeValues | str]) -> list[tuple[str, ...]]:
        """The figures of ``sentence`` for each size; an empty list where it has none."""
        here = [slots[ord(mark) - _FIRST_SLOT] for mark in re.findall(_SLOT, sentence)]
        figures = [slot.values for slot in here if isinstance(slot, SizeValues)]
        if any(len(values) != len(self.sizes) for values in figures):
            raise ValueError(f"{figures} has not one value for each of {self.sizes}")
        return list(zip(*figures, strict=True))

    def _by_size(self, together: Sequence[str], slots: Sequence[SizeValues | str]) -> list[str]:
        """Sentences once for each different set of figures in them."""
        groups = _merged(self._figures("".join(together), slots))
        if len(groups) < 2:
            return list(filter(None, (ended(self._filled(each, slots, 0)) for each in together)))
        lines = []
        for values, sizes in groups:
            filled = (
                ()
                if set(values) == {NO_FIGURE}
                else (ended(self._filled(sentence, slots, sizes[0])) for sentence in together)
            )
            said = " ".join(filter(None, filled))
            lines.append(f"{self.labelled(sizes)}: {said or 'not for this size.'}")
        return lines

    def _filled(self, sentence: str, slots: Sequence[SizeValues | str], size: int) -> str:
        """``sentence`` for one size, spelled out, with web addresses as they are."""

        def figure(mark: re.Match[str]) -> str:
            slot = slots[ord(mark[0]) - _FIRST_SLOT]
            if isinstance(slot, str):
                return mark[0]
            return "none" if slot.values[size] == NO_FIGURE else _unmarked(slot.values[size])

        def address(mark: re.Match[str]) -> str:
            return str(slots[ord(mark[0]) - _FIRST_SLOT])

        filled = counted_in_order(re.sub(_SLOT, figure, sentence))
        said = spelled(self.notation(filled), self.language)
        return re.sub(_SLOT, address, "none" if said == NO_FIGURE else said)


@lru_cache(maxsize=1 << 12)  # most of what is said stays while a pattern is written
def _said(
    sizes: tuple[str, ...],
    language: str,
    notation: Notation,
    template: str,
    slots: tuple[SizeValues | str, ...],
    label: str,
) -> tuple[str, ...]:
    return tuple(Teller(sizes, language, notation).said(template, slots, label))


def _flattened(
    inlines: Inlines, places: Mapping[str, str]
) -> tuple[str, tuple[SizeValues | str, ...]]:
    """The characters of ``inlines`` with slots for figures and addresses, and what fills them.

    A link within the document is followed by the number of the section it leads to.
    """
    slots: list[SizeValues | str] = []

    def slot(value: SizeValues | str) -> str:
        slots.append(value)
        return chr(_FIRST_SLOT + len(slots) - 1)

    def text(inlines: Inlines) -> Iterator[str]:
        for node, following in zip_longest(inlines, inlines[1:]):
            match node:
                case Text(characters):
                    said = _unmarked(characters)
                    yield said.rstrip() if isinstance(following, Ringed) else said
                case Strong(children) | Emphasis(children):
                    yield from text(children)
                case Link(children, target) if target.startswith("#"):
                    yield from text(children)
                    if number := places.get(target[1:]):
                        yield f" (Section {slot(number)})"
                case Link(children, target):
                    shown = "".join(text(children))
                    address = target.removeprefix("mailto:")
                    if shown == address:
                        yield slot(address)
                    else:
                        kind = "link" if address == target else "e-mail"
                        yield f"{shown} ({kind}: {slot(address)})"
                case SizeValues():
                    yield slot(node)
                case Ringed(letters):  # a voice takes “(a)” for an article
                    yield "".join(f", letter {letter}" for letter in letters)
                case LineBreak():
                    yield "\n"
                case Field():
                    yield node.said

    return "".join(text(inlines)), tuple(slots)


def _unmarked(text: str) -> str:
    """``text`` on one line, without the characters that slots are made of."""
    line = text.replace("\n", " ")
    return line if line.isascii() else re.sub(_SLOT, "\ufffd", line)


def _merged(values: Sequence[T]) -> list[tuple[T, list[int]]]:
    """Equal values with the places where they stand, in the order of their first place."""
    places: dict[T, list[int]] = {}
    for place, value in enumerate(values):
        places.setdefault(value, []).append(place)
    return list(places.items())
