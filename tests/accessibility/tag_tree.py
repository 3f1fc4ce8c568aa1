"""The tag tree of a PDF as readers see it that are none of ours.

pikepdf gives the elements and which marked content stands under each, PDFium the text of that.
Poppler's ``pdfinfo -struct-text`` gives roles and the text under them in one, but reads a page anew
for every element: it is asked where PDFium can't tell, and to judge that the two agree.
"""

import re
import subprocess
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import pikepdf

from tests.accessibility.marked_text import marked_text


@dataclass(slots=True, eq=False)
class Node:
    """A structure element: role, its pikepdf object, and children: text or nodes in order."""

    role: str
    element: Any = None
    kids: list["Node | str"] = field(default_factory=list)

    @property
    def nodes(self) -> list["Node"]:
        """The children that are elements."""
        return [kid for kid in self.kids if isinstance(kid, Node)]

    def text(self) -> str:
        """All text at and under this node, as one string."""
        return "".join(kid if isinstance(kid, str) else kid.text() for kid in self.kids)

    def said(self) -> str:
        """What is read aloud of that text: the words that stand for it where it has any."""
        actual = self.element.get("/ActualText")
        if actual is not None:
            return str(actual)
        return "".join(kid if isinstance(kid, str) else kid.said() for kid in self.kids)

    def walk(self) -> Iterator["Node"]:
        """This node and all under it, in reading order."""
        yield self
        for node in self.nodes:
            yield from node.walk()

    def find(self, *roles: str) -> list["Node"]:
        """The nodes of these roles at and under this one, in reading order."""
        return [node for node in self.walk() if node.role in roles]

    def attribute(self, name: str, default: Any = None) -> Any:
        """An attribute of the element, whatever its owner."""
        held = self.element.get("/A", pikepdf.Array())
        for one in held if isinstance(held, pikepdf.Array) else [held]:
            if name in one:
                return one[name]
        return default

    @property
    def alt(self) -> str:
        """The alternative text."""
        return str(self.element.get("/Alt", ""))

    @property
    def notes(self) -> list[Any]:
        """The annotations that the element itself holds."""
        kids = self.element.get("/K", pikepdf.Array())
        return [
            kid.Obj
            for kid in (kids if isinstance(kids, pikepdf.Array) else [kids])
            if isinstance(kid, pikepdf.Dictionary) and kid.get("/Type") == "/OBJR"
        ]

    @property
    def address(self) -> str:
        """Where a link out of the file leads."""
        return next((str(note.A.URI) for note in self.notes if "/A" in note), "")


def struct_text(path: Path) -> str:
    """What ``pdfinfo -struct-text`` prints for a file."""
    shown = subprocess.run(
        ["pdfinfo", "-struct-text", "-enc", "UTF-8", str(path)],
        capture_output=True,
        encoding="utf-8",
        check=True,
    )
    assert shown.stderr == ""
    return shown.stdout


def parsed(shown: str) -> Node:
    """The root of a tree that ``pdfinfo`` printed; depth is told by two spaces."""
    root = Node("")
    branch = [root]
    for line in shown.splitlines():
        bare = line.lstrip(" ")
        if not bare or re.match(r"/|Object \d", bare):
            continue
        depth = (len(line) - len(bare)) // 2
        del branch[depth + 1 :]
        if bare[0] == '"':
            branch[-1].kids.append(bare[1:-1])
        else:
            name = re.match(r"\w+", bare)
            assert name, bare
            node = Node(name[0])
            branch[-1].kids.append(node)
            branch.append(node)
    (document,) = root.nodes
    return document


def elements(kids: Any) -> Iterator[Any]:
    """Every structure element under ``kids``, in the order of the tree."""
    for kid in kids if isinstance(kids, pikepdf.Array) else [kids]:
        if isinstance(kid, pikepdf.Dictionary) and "/S" in kid:
            yield kid
            yield from elements(kid.get("/K", pikepdf.Array()))


def marks(file: pikepdf.Pdf, kids: Any, page: Any = None) -> Iterator[tuple[int, int]]:
    """Page and number of each marked content under ``kids``, in the order of the tree."""
    return _marks(_page_numbers(file), kids, page)


def _page_numbers(file: pikepdf.Pdf) -> dict[Any, int]:
    return {one.obj.objgen: index for index, one in enumerate(file.pages)}


def _marks(numbers: Mapping[Any, int], kids: Any, page: Any) -> Iterator[tuple[int, int]]:
    for kid in kids if isinstance(kids, pikepdf.Array) else [kids]:
        if isinstance(kid, int):
            yield numbers[page.objgen], kid
        elif "/MCID" in kid:
            yield numbers[kid.get("/Pg", page).objgen], int(kid.MCID)
        elif "/S" in kid:
            yield from _marks(numbers, kid.get("/K", pikepdf.Array()), kid.get("/Pg", page))


def read(path: Path, file: pikepdf.Pdf) -> Node:
    """The document element of ``file``, which is the opened ``path``."""
    texts = marked_text(path)
    return by_poppler(path, file) if texts is None else by_pdfium(texts, file)


def by_pdfium(texts: Mapping[tuple[int, int], str], file: pikepdf.Pdf) -> Node:
    """The document element of ``file``, with the text of its marked content from ``texts``."""
    numbers = _page_numbers(file)

    def node(element: Any, page: Any) -> Node:
        page = element.get("/Pg", page)
        return Node(str(element.S)[1:], element, list(kids(element.get("/K", ()), page)))

    def kids(held: Any, page: Any) -> Iterator[Node | str]:
        for kid in held if isinstance(held, pikepdf.Array) else [held]:
            if not isinstance(kid, int) and "/S" in kid:
                yield node(kid, page)
            else:
                yield from filter(None, map(texts.get, _marks(numbers, kid, page)))

    (document,) = (one for one in kids(file.Root.StructTreeRoot.K, None) if isinstance(one, Node))
    return document


def by_poppler(path: Path, file: pikepdf.Pdf) -> Node:
    """The document element of ``file``, which is the opened ``path``, with the text that Poppler
    finds under each of its elements."""
    tree = parsed(struct_text(path))
    nodes = list(tree.walk())
    found = list(elements(file.Root.StructTreeRoot.K))
    assert [node.role for node in nodes] == [str(one.S)[1:] for one in found]
    for node, element in zip(nodes, found, strict=True):
        node.element = element
    return tree


def outline(node: Node, depth: int = 0) -> Iterator[str]:
    """The tree as lines to compare: an element a line, but a row of cells or a list entry on one.

    Figures show their alternative text; what is drawn in them is left out.
    """
    marks = {"/Scope": "", "/ListNumbering": "", "/ColSpan": "×"}
    told = [
        f"{sign}{str(value).lstrip('/')}"
        for name, sign in marks.items()
        if (value := node.attribute(name)) is not None
    ]
    head = f"{'  ' * depth}{node.role}{''.join(f' [{one}]' for one in told)}"
    if node.role == "Figure":
        yield f"{head}: {node.alt}"
    elif node.role == "TR":
        yield f"{head}: " + " | ".join(_cell(cell) for cell in node.nodes)
    elif node.role == "LI" and all(_plain(kid) for kid in node.nodes):
        yield f"{head}: " + " | ".join(f"{kid.role}: {_said(kid)}" for kid in node.nodes)
    elif _plain(node):
        yield f"{head}: {_said(node)}"
    else:
        yield head
        for kid in node.nodes:
            yield from outline(kid, depth + 1)


def _plain(node: Node) -> bool:
    return all(kid.role in ("Link", "Span") for kid in node.nodes)


def _said(node: Node) -> str:
    if "/ActualText" in node.element:
        return node.said()
    return "".join(
        kid if isinstance(kid, str) else kid.said() if kid.role == "Span" else f"<{kid.text()}>"
        for kid in node.kids
    )


def _cell(cell: Node) -> str:
    scope = str(cell.attribute("/Scope", ""))[1:]
    span = int(cell.attribute("/ColSpan", 1))
    told = f"{cell.role}{f' {scope}' if scope else ''}{f' ×{span}' if span > 1 else ''}"
    return f"{told}: {cell.said()}".rstrip(": ") if cell.role == "TH" else cell.text() or "–empty–"
