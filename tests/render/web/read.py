"""A page of HTML as the tree that is compared with the text edition: the roles are those of a PDF.

Read by Python's own parser, which knows nothing of how the page was made.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from html.parser import HTMLParser

from tests.accessibility.tag_tree import Node

VOID = frozenset({"meta", "br", "img", "input", "link", "hr"})


@dataclass(slots=True)
class Part:
    """An element of a page."""

    tag: str
    attributes: dict[str, str] = field(default_factory=dict)
    kids: list["Part | str"] = field(default_factory=list)

    @property
    def parts(self) -> list["Part"]:
        """The children that are elements."""
        return [kid for kid in self.kids if isinstance(kid, Part)]

    def walk(self) -> Iterator["Part"]:
        """This element and all under it."""
        yield self
        for part in self.parts:
            yield from part.walk()

    def find(self, *tags: str) -> list["Part"]:
        """The elements of these names at and under this one."""
        return [part for part in self.walk() if part.tag in tags]

    def text(self) -> str:
        """The text that is seen."""
        if "named" in self.classes or self.tag in ("svg", "style", "script"):
            return ""
        if self.tag == "br":
            return "\n"
        return "".join(kid if isinstance(kid, str) else kid.text() for kid in self.kids)

    @property
    def classes(self) -> list[str]:
        """Its classes."""
        return self.attributes.get("class", "").split()


class _Reader(HTMLParser):
    def __init__(self) -> None:
        super().__init__()
        self.root = Part("")
        self.branch = [self.root]

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        part = Part(tag, {name: value or "" for name, value in attrs})
        self.branch[-1].kids.append(part)
        if tag not in VOID:
            self.branch.append(part)

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.branch[-1].kids.append(Part(tag, {name: value or "" for name, value in attrs}))

    def handle_endtag(self, tag: str) -> None:
        assert self.branch[-1].tag == tag, f"</{tag}> ends {self.branch[-1].tag}"
        self.branch.pop()

    def handle_data(self, data: str) -> None:
        self.branch[-1].kids.append(data)


def parsed(page: bytes) -> Part:
    """The root of a page; every element is closed where it should be."""
    reader = _Reader()
    reader.feed(page.decode())
    reader.close()
    assert reader.branch == [reader.root]
    return reader.root


class WebNode(Node):
    """A node with what its element is called and leads to."""

    @property
    def address(self) -> str:
        return str(self.element.get("href", ""))


def tree(main: Part) -> Node:
    """What stands in the main part of a page, as a tree of tags."""
    return _node("Document", list(_blocks(main)))


def _node(role: str, kids: Sequence[Node | str], **more: object) -> Node:
    return WebNode(role, more, list(kids))


def _blocks(part: Part) -> Iterator[Node]:
    for each in part.parts:
        yield from _block(each)


def _block(part: Part) -> Iterator[Node]:
    match part.tag:
        case "h1" | "h2" | "h3" | "h4":
            yield _node(part.tag.upper(), _inlines(part))
        case "p":
            yield _node("P", _inlines(part))
        case "section" | "header" | "div":
            yield from _blocks(part)
        case "ol":
            start = int(part.attributes.get("start", "1"))
            items = [_item(item, f"{number}.") for number, item in enumerate(part.parts, start)]
            yield _node("L", items, **{"/A": {"/ListNumbering": "/Decimal"}})
        case "ul":
            items = [_item(item, "•") for item in part.parts]
            yield _node("L", items, **{"/A": {"/ListNumbering": "/Disc"}})
        case "dl":
            yield _node(
                "L", [_entry(each) for each in part.parts], **{"/A": {"/ListNumbering": "/None"}}
            )
        case "figure":
            (picture,) = part.find("svg", "img")
            alt = picture.attributes.get("aria-label", picture.attributes.get("alt", ""))
            yield _node("Figure", [], **{"/Alt": alt})
            for caption in part.find("figcaption"):
                yield _node("Caption", _inlines(caption))
        case "table":
            yield _table(part)
        case _:
            raise AssertionError(f"<{part.tag}> has no place here")


def _item(item: Part, label: str) -> Node:
    return _node("LI", [_node("Lbl", [label]), _node("LBody", list(_blocks(item)))])


def _entry(part: Part) -> Node:
    term, meaning = part.parts
    return _node("LI", [_node("Lbl", [term.text().strip()]), _node("LBody", _inlines(meaning))])


def _table(part: Part) -> Node:
    roles = {
        "caption": "Caption",
        "thead": "THead",
        "tbody": "TBody",
        "tr": "TR",
        "th": "TH",
        "td": "TD",
    }
    kids: list[Node | str] = []
    for each in part.parts:
        if each.tag in ("thead", "tbody", "tr"):
            kids.append(_table(each))
        else:
            span = int(each.attributes.get("colspan", "1"))
            kids.append(_node(roles[each.tag], _inlines(each), **{"/A": {"/ColSpan": span}}))
    return _node(roles.get(part.tag, "Table"), kids)


def _inlines(part: Part) -> list[Node | str]:
    found: list[Node | str] = []
    for kid in part.kids:
        if isinstance(kid, str):
            found.append(kid)
        elif kid.tag == "a":
            target = kid.attributes["href"]
            found.append(_node("Link", [kid.text()], href=target if ":" in target else ""))
        elif kid.tag in ("strong", "em", "span") and "named" not in kid.classes:
            found += _inlines(kid)
        else:
            found.append(kid.text())
    return found
