"""What a knitter of one size is told, by the text edition and by a PDF's tags, as plain tokens.

Both editions say the same in different ways: the PDF prints ``80 (88, 96) sts``, ``20¾ in`` and
``8–9``, the text edition a line for each size, ``20 and three quarters inches`` and ``8 to 9``.
Here both are brought to one form, made without the program's own speller. For one size at a time,
its figure is taken out of each list of figures, or its line out of each group of lines; signs,
fractions and units become one token whichever way they are written; punctuation goes. Words,
numbers and their order stay. A table leaves a mark where it stands and is told apart, row by row.
"""

import re
from calendar import month_name
from collections.abc import Collection, Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from functools import cache
from itertools import groupby
from typing import Generic, TypeVar

from tests.accessibility.tag_tree import Node

NONE = "none"  # where a size has no figure
TABLE = "[table]"

_FRACTIONS = {
    "one half": "½", "one third": "⅓", "two thirds": "⅔", "one quarter": "¼",
    "three quarters": "¾", "one eighth": "⅛", "three eighths": "⅜", "five eighths": "⅝",
    "seven eighths": "⅞",
}  # fmt: skip
_SIGNS = (
    (r"(\d[½⅓⅔¼¾⅛⅜⅝⅞]?)\s?–\s?(?=\d)", r"\1 to "),
    (r"\s/\s", " or "),
    (r"\s–\s", " "),
    (r"−\s?(?=\d)", "minus "),
    (r"\(([^()]*)\) in next stitch", r"start of group, \1, end of group, all in next stitch"),
    (r"\*", " star "),
    (r"\s\+\s", " plus "),
    (r"(\d)/(\d+)(?= [A-Z]{2,4}\b)", r"\1 over \2"),
    ("=", " equals "),
    ("→", " to "),
    ("×", " by "),
    ("≈", " about "),
    ("±", " plus or minus "),
    ("″", " in "),
    ("°C", " degrees Celsius "),
    ("%", " % "),
    ("©", " Copyright "),
    ("·", " "),
)
_BRACKETS = re.compile(r"\[([^\[\]]*)\](?= (?:\d|once|twice|to end|to last|to marker))")
_TOKENS = {
    "centimeter": "cm", "centimeters": "cm", "millimeter": "mm", "millimeters": "mm",
    "centimetre": "cm", "centimetres": "cm", "millimetre": "mm", "millimetres": "mm",
    "metre": "m", "metres": "m", "ounce": "oz", "ounces": "oz", "foot": "ft", "feet": "ft",
    "meter": "m", "meters": "m", "gram": "g", "grams": "g", "yard": "yd", "yards": "yd",
    "inch": "in", "inches": "in", "stitch": "st", "stitches": "st", "sts": "st",
    "round": "rnd", "rounds": "rnd", "rnds": "rnd", "times": "by",
}  # fmt: skip
_UNITS = frozenset(("mm", "cm", "m", "in", "g", "yd", "oz", "ft"))
_PARTED = re.compile(r"(.*) \((?:sizes? .+|part (\d+) of \d+)\)")
_HOW_TO_READ = r"The sizes are .*\n|Sizes?: .*\nTo go to a|To go to a|Contents:\n"
_STEP = re.compile(r"(?:Step|Stage) (\d+)(?: of \d+|, part (\d+)(?: of \d+)?):")


@cache
def tokens(text: str) -> tuple[str, ...]:
    """The words and numbers of ``text``, however its signs, fractions and units are written.

    Capitals don't count: where a sign becomes a word, that word begins the sentence.
    """
    text = re.sub(
        rf"(?:\b(\d+) and )?\b({'|'.join(_FRACTIONS)})\b",
        lambda found: f"{found[1] or ''}{_FRACTIONS[found[2]]}",
        text.replace("\N{NO-BREAK SPACE}", " ").replace("\N{SOFT HYPHEN}", ""),
    )
    text = re.sub(r", letter (?=[a-z]{1,2}\b)", " ", text)
    text = re.sub(r"\b(\d{4})-(\d\d)-(\d\d)\b", lambda found: in_words(found[0]), text)
    text = re.sub(r"\bthis many (\w+): (\d+)\b", _in_order, text)
    while (inner := _BRACKETS.search(text)) is not None:
        said = f"start of repeat, {inner[1]}, end of repeat, work it"
        text = f"{text[: inner.start()]}{said}{text[inner.end() :]}"
    for sign, words in _SIGNS:
        text = re.sub(sign, words, text)
    bare = (word.strip('.,;:()[]"“”‘’!?') for word in text.split())
    return tuple(_TOKENS.get(word, word).casefold() for word in bare if word)


def in_words(date: str) -> str:
    """``2 November 2026`` for ``2026-11-02``."""
    year, month, day = map(int, date.split("-"))
    return f"{day} {month_name[month]} {year}"


def _in_order(found: re.Match[str]) -> str:
    """``8 rounds`` for ``this many rounds: 8``, as the text edition has it for one size."""
    things, count = found[1], found[2]
    if things == "times":
        return {"1": "once", "2": "twice"}.get(count, f"{count} times")
    return f"{count} {re.sub('(?<=ch)es$|s$', '', things) if count == '1' else things}"


@dataclass(slots=True)
class Row:
    """A row of the PDF's table for one size, in tokens.

    ``name`` is what its header cells say and ``over`` their column headings; ``cells`` are what the
    other cells say, each with the headings over it. They are ``per_size`` if each size has its own:
    then those are ``mine`` too, and further ones belong at ``end``.
    """

    name: list[str] = field(default_factory=list)
    over: list[str] = field(default_factory=list)
    cells: list[tuple[Sequence[str], Sequence[str]]] = field(default_factory=list)
    per_size: bool = False
    mine: list[tuple[Sequence[str], Sequence[str]]] = field(default_factory=list)
    end: int = 0

    def __str__(self) -> str:
        told = (" ".join([f"[{' '.join(over)}]", *cell]) for over, cell in self.cells)
        return f"{' '.join(self.name)}: {'; '.join(told)}"

    def is_told(self, told: Sequence[str]) -> bool:
        """Whether ``told`` says the whole row in its order and nothing else.

        A heading may stand before its cell, or after it (a unit does), or around it; a unit may
        also come from the end of the row's name. The heading over the name is not needed, and is
        in the plural where the name is of several.
        """
        for named in self._named():
            for cut in range(len(named), -1, -1):
                first, last = named[:cut], named[cut:]
                end = len(told) - len(last)
                if (
                    list(told[: len(first)]) == first
                    and list(told[end:]) == last
                    and self._follow(told[len(first) : end], 0)
                ):
                    return True
        return False

    def _named(self) -> Iterator[list[str]]:
        """How a row may be called: ``Areas 6 to 10``, ``Sizes S and M``."""
        yield self.name
        yield [*self.over, *self.name]
        if self.over:
            several = [*self.over[:-1], f"{self.over[-1]}s"]
            yield [*several, *self.name]
            for at in range(1, len(self.name)):
                yield [*several, *self.name[:at], "and", *self.name[at:]]

    def _follow(self, told: Sequence[str], index: int) -> bool:
        """Whether ``told`` is the cells from ``index`` on."""
        if index == len(self.cells):
            return not told
        return any(
            list(told[: len(way)]) == way and self._follow(told[len(way) :], index + 1)
            for way in self._ways(*self.cells[index])
        )

    def _ways(self, heading: Sequence[str], cell: Sequence[str]) -> Iterator[list[str]]:
        for cut in range(len(heading), -1, -1):
            yield [*heading[:cut], *cell, *heading[cut:]]
        if len(self.cells) == 1:
            yield [*cell]


R = TypeVar("R")


@dataclass(slots=True)
class Grid(Generic[R]):
    """A table for one size, of rows of a kind: ``Row`` in a PDF, tokens in the text edition."""

    caption: Sequence[str]
    rows: list[R]


@dataclass(slots=True)
class Section(Generic[R]):
    """What stands under one heading: tokens in order with a mark for each table, and the tables."""

    heading: Sequence[str]
    tokens: list[str] = field(default_factory=list)
    tables: list[Grid[R]] = field(default_factory=list)


# ---------------------------------------------------------------- the text edition


def of_text(text: str, sizes: Sequence[str], size: int) -> list[Section[list[str]]]:
    """The sections of a text edition; the first is what stands before all headings."""
    sections: list[Section[list[str]]] = [Section(())]
    lines = iter(_body(text).split("\n"))
    for line in lines:
        if found := re.match(r"Section [\d.]+: (.*)", line):
            sections.append(Section(tokens(found[1])))
        elif found := re.match(r"Table with (\d+) rows?[:.] ?(.*)", line):
            inner = list(iter(lambda: next(lines), "End of table."))
            rows = _rows_of(inner, int(found[1]))
            told = [_told(row, sizes, size) for row in rows]
            sections[-1].tables.append(Grid(tokens(found[2]), told))
            sections[-1].tokens.append(TABLE)
        elif not re.fullmatch(r"End of (?:safety note|note|tip)\.", line):
            sections[-1].tokens += _told([line], sizes, size)
    return sections


def _body(text: str) -> str:
    """``text`` without what only a text edition needs: how to read it, its contents, its end."""
    first, *paragraphs = re.sub(r"\nEnd of .*\n$", "", text).split("\n\n")
    kept = [one for one in paragraphs if not re.match(_HOW_TO_READ, one)]
    return "\n\n".join((first, *kept))


def _rows_of(lines: Sequence[str], count: int) -> list[list[str]]:
    """Rows are set apart by empty lines; where there are none, each has one line."""
    groups = [list(group) for filled, group in groupby(lines, bool) if filled]
    rows = groups if len(groups) == count else [[line] for line in lines]
    assert len(rows) == count, f"{count} rows were announced, {len(rows)} follow: {lines[:5]}"
    return rows


def _told(lines: Iterable[str], sizes: Sequence[str], size: int) -> list[str]:
    """The tokens of those ``lines`` that are for one size; of a step's label, its number."""
    names = "|".join(sorted(map(re.escape, sizes), key=len, reverse=True))
    label = re.compile(rf"Sizes? ((?:{names})(?:(?:, | and )(?:{names}))*): (.*)")
    found: list[str] = []
    for line in lines:
        if (step := _STEP.match(line)) is not None:
            found += ["step", step[2] or step[1]]
            line = line[step.end() :].strip()
        if (for_some := label.fullmatch(line)) is not None:
            if sizes[size] not in re.split(r", | and ", for_some[1]):
                continue
            line = for_some[2]
        line = re.sub(r" \(Section [\d.]+\)", "", line.removeprefix("All sizes: "))
        found += [NONE] if line == "not for this size." else tokens(line)
    return found


# ---------------------------------------------------------------- the PDF


def of_tags(
    root: Node,
    sizes: Sequence[str],
    size: int,
    figures: Iterable[Sequence[str]],
    print_only: Collection[Sequence[str]] = (),
) -> list[Section[Row]]:
    """The sections of a tag tree; the first is the cover's, its picture last as in the text.

    What is ``print_only``, in tokens, is left out: it tells how to look at the page.
    ``figures`` are the lists of figures that differ between sizes: the PDF has to print each as the
    trade does, ``80 (88, 96)``, or to name the size of each, and the one for ``size`` is taken.
    """
    return _Reader(sizes, size, figures, print_only).read(root)


def in_lanes(figures: Sequence[str], sizes: Sequence[str]) -> str:
    """What stands for figures in a row, each in the place of its size: ``S: 80; M: 88; L: 96``."""
    return "; ".join(f"{size}: {figure}" for size, figure in zip(sizes, figures, strict=True))


class _Reader:
    """Walks a tag tree in reading order."""

    def __init__(
        self,
        sizes: Sequence[str],
        size: int,
        figures: Iterable[Sequence[str]],
        print_only: Collection[Sequence[str]],
    ) -> None:
        self._print_only = print_only
        self._sizes = sizes
        self._size = size
        figures = list(figures)
        self._printed = {f"{one[0]} ({', '.join(one[1:])})": one[size] for one in figures}
        self._printed |= {in_lanes(one, sizes): one[size] for one in figures}
        longest_first = sorted(map(re.escape, self._printed), key=len, reverse=True)
        self._lists = re.compile(rf"(?<![\d.,])(?:{'|'.join(longest_first)})")
        self._sections: list[Section[Row]] = [Section(())]
        self._picture = ""  # the alternative text of the picture before
        self._caption = ""  # the caption of the table before
        self._cover: list[str] = []

    def read(self, root: Node) -> list[Section[Row]]:
        self._all(root.nodes)
        self._sections[0].tokens += self._cover
        for section in self._sections:
            for grid in section.tables:
                grid.rows = _units_together(grid.rows)
        return self._sections

    def _all(self, nodes: Iterable[Node]) -> None:
        for node in nodes:
            self._node(node)

    def _node(self, node: Node) -> None:
        if node.role != "Table":
            self._caption = ""
        match node.role:
            case "P" | "H2" | "H3" | "H4" | "Caption" if tokens(node.text()) in self._print_only:
                pass
            case "Figure" if tokens(node.alt) in self._print_only:
                pass
            case "H1" | "P" | "LBody" if all(kid.role in ("Link", "Span") for kid in node.nodes):
                self._say(self._chosen(_said(node)))
            case "H2" | "H3" | "H4":
                self._sections.append(Section(tokens(node.text())))
            case "L":
                entries = (each for each in node.nodes if _entry(each) not in self._print_only)
                for entry in entries:
                    self._label(entry, str(node.attribute("/ListNumbering")))
                    self._all(entry.find("LBody")[:1])
            case "LBody" | "Div":
                self._all(node.nodes)
            case "TOC":
                pass  # the sections again, with their pages
            case "Figure":
                self._figure(node)
            case "Caption":
                said = ["caption", *self._chosen(node.text())]
                if len(self._sections) == 1:
                    self._cover += said  # after its picture
                else:
                    self._say(said)
            case "Table":
                self._table(node)
            case _:
                raise AssertionError(f"{node.role} with {node.text()!r} has no place here")

    def _say(self, said: Iterable[str]) -> None:
        self._sections[-1].tokens += said

    def _chosen(self, text: str) -> Sequence[str]:
        """The tokens of ``text`` with this size's figure for each list of figures.

        A sentence that has none for this size is not for it.
        """
        found: list[str] = []
        for sentence in re.split(r"(?<=[.!?])\s+(?=[A-Z*–])", text.replace("\xa0", " ")):
            chosen: list[str] = []

            def figure(printed: re.Match[str], chosen: list[str] = chosen) -> str:
                chosen.append(self._printed[printed[0]])
                return NONE if chosen[-1] == "–" else chosen[-1]

            said = self._lists.sub(figure, sentence) if self._printed else sentence
            found += [NONE] if set(chosen) == {"–"} else tokens(said)
        return found

    def _label(self, entry: Node, numbering: str) -> None:
        label = entry.nodes[0].text()
        match numbering:
            case "/Decimal":
                self._say(["step", label.rstrip(".")])
            case "/None":
                self._say(tokens(label))
            case _:
                assert label in "•–", label

    def _figure(self, node: Node) -> None:
        part = _PARTED.fullmatch(node.alt)
        if part and part[2] and int(part[2]) > 1 and part[1] == self._picture:
            return  # the rest of a picture too large for a page
        self._picture = node.alt
        said = ["picture", *tokens(node.alt)]
        if len(self._sections) == 1:
            self._cover += said
        else:
            self._say(said)

    # ------------------------------------------------------------ tables

    def _table(self, node: Node) -> None:
        """A table, or further columns of the one before where the page is too narrow for all."""
        caption = "".join(one.text() for one in node.find("Caption"))
        part = _PARTED.fullmatch(caption)
        more = part is not None and part[1] == self._caption
        self._caption = part[1] if part else caption
        heads = _columns(node.find("THead")[0])
        rows = [self._row(row, heads) for row in node.find("TBody")[0].nodes]
        if more:
            for row, rest in zip(self._sections[-1].tables[-1].rows, rows, strict=True):
                assert row.name == rest.name, f"{rest.name} goes on for {row.name}"
                assert row.per_size, "a part is for some of the sizes"
                shared = [cell for cell in rest.cells if cell not in rest.mine]
                assert shared == [cell for cell in row.cells if cell not in row.mine]
                row.cells[row.end : row.end] = rest.mine
                row.mine += rest.mine
                row.end += len(rest.mine)
            return
        self._sections[-1].tables.append(Grid(tokens(self._caption), rows))
        self._say([TABLE])

    def _row(self, row: Node, heads: Sequence[Sequence[str]]) -> Row:
        """A row's name, and its cells for this size or for all."""
        assert len(row.nodes) == len(heads), row.text()
        found = Row()
        for cell, over in zip(row.nodes, heads, strict=True):
            for_sizes = [size for head in over for size in self._named(head)]
            found.per_size = found.per_size or bool(for_sizes)
            if for_sizes:
                found.end = len(found.cells)
            if for_sizes and self._sizes[self._size] not in for_sizes:
                continue
            text = _said(cell)
            said = [NONE] if text == "–" else self._chosen(text)
            heading = [word for head in over if not self._named(head) for word in tokens(head)]
            if cell.role == "TH":
                found.name += said
                found.over += heading
            elif text:
                found.cells.append((heading, said))
                if for_sizes:
                    found.mine.append((heading, said))
                    found.end = len(found.cells)
        return found

    def _named(self, heading: str) -> Sequence[str]:
        """The sizes that a heading names: one, or neighbours that agree in the whole table."""
        if heading == "all sizes":
            return self._sizes
        names = heading.split(", ")
        return names if set(names) <= set(self._sizes) else ()


def _units_together(rows: Sequence[Row]) -> list[Row]:
    """Rows in turn that differ in the unit at the end of their names only, and give a figure for
    each size in it, as one: the text edition tells them so."""
    found: list[Row] = []
    last = ""  # the unit of the row before
    for row in rows:
        *words, unit = row.name
        alone = row.per_size and len(row.cells) == 1 and words and unit in _UNITS
        if alone and last and unit != last and found[-1].name in (words, [*words, last]):
            first = found[-1]
            if first.name != words:
                found[-1] = Row(words, first.over, [([last], first.cells[0][1])], True)
            found[-1].cells.append(([unit], row.cells[0][1]))
        else:
            found.append(row)
        last = unit if alone else ""
    for row in found:
        said = [cell for cell in row.cells if list(cell[1]) != [NONE]]
        if row.per_size and len(row.cells) > 1 and row.cells[0][0] and row.cells[0][0][0] in _UNITS:
            row.cells = said or row.cells[:1]
    return found


def _entry(node: Node) -> Sequence[str]:
    """The tokens of a list's entry: its label, then what it says."""
    label, *rest = node.nodes
    return (*tokens(label.text()), *(word for each in rest for word in tokens(each.text())))


def _said(node: Node) -> str:
    """The text of a node; after a link out of the file, its address as the text edition has it."""
    if node.role != "Link":
        if "/ActualText" in node.element:
            return node.said()
        return "".join(kid if isinstance(kid, str) else _said(kid) for kid in node.kids)
    text, address = node.text(), node.address
    if not address or text == address.removeprefix("mailto:"):
        return text
    kind = "e-mail" if address.startswith("mailto:") else "link"
    return f"{text} ({kind}: {address.removeprefix('mailto:')})"


def _columns(head: Node) -> list[list[str]]:
    """The headings over each column, from the top."""
    columns: list[list[str]] = []
    for row in head.nodes:
        wide = [
            cell.text() for cell in row.nodes for _ in range(int(cell.attribute("/ColSpan", 1)))
        ]
        columns = columns or [[] for _ in wide]
        for column, heading in zip(columns, wide, strict=True):
            column += [heading] if heading else []
    return columns
