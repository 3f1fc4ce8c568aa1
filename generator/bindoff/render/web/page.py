"""One HTML file that holds the whole pattern, for a phone or tablet without a network.

Without its script it is the whole text. With it a maker chooses a size and sees its figures only,
ticks steps, lays a ruler on charts, and counts rounds to the next stop of the machine; all of that
stays in the browser. A policy in the file lets it load and send nothing.
"""

import xml.etree.ElementTree as ET
from base64 import b64encode
from collections.abc import Iterable, Iterator
from hashlib import sha256
from importlib.resources import files

from bindoff.document.drawing import Drawing
from bindoff.document.tree import Document, Figure, Heading
from bindoff.render.web.markup import (
    Chapter,
    Markup,
    chapters,
    define_once,
    element,
    width_class,
)
from bindoff.render.web.pictures import media_type

_LEAST_SHARE, _MOST_SHARE = 0.7, 1.3
"""Of its printed width, how small a drawing gets on a narrow screen before it is scrolled, and how
large on a wide one."""

_CONTENTS, _MACHINE = "Contents", "At the machine"


def render_page(document: Document, name: str, cards: tuple[Document, ...] = ()) -> bytes:
    """``document`` as an HTML file; ``name`` is under which the browser keeps what is ticked.

    ``cards`` are those for the machine, one a size of the document, if there are any.
    """
    style, script = _style((document, *cards)), _text("page.js")
    head = element(
        "head",
        {},
        element("meta", {"charset": "utf-8"}),
        element(
            "meta", {"http-equiv": "Content-Security-Policy", "content": policy(style, script)}
        ),
        element("meta", {"name": "viewport", "content": "width=device-width, initial-scale=1"}),
        element("meta", {"name": "color-scheme", "content": "light dark"}),
        *(
            element("meta", {"name": key, "content": value})
            for key, value in (
                ("author", document.author),
                ("description", document.summary),
                ("keywords", ", ".join(document.keywords)),
                ("rights", document.rights),
                ("copy", document.copy_for),
                ("generator", "bindoff"),
            )
            if value
        ),
        element("title", {}, document.title),
        element("style", {}, style),
    )
    body = _body(document, cards)
    define_once([body])
    body.append(element("script", {}, script))
    kept = f"{name} {document.version}".strip()
    html = element("html", {"lang": document.language, "data-kept": kept}, head, body)
    return f"<!DOCTYPE html>\n{ET.tostring(html, encoding='unicode', method='html')}\n".encode()


def policy(style: str, script: str) -> str:
    """What the file may load: its own style and script, and pictures that it holds.

    Source: W3C, Content Security Policy Level 3, 6.1 and 8.2 (``'sha256-…'`` of inline parts).
    """
    return (
        f"default-src 'none'; style-src {_hash(style)}; script-src {_hash(script)}; "
        "img-src data:; base-uri 'none'; form-action 'none'"
    )


def _hash(text: str) -> str:
    return f"'sha256-{b64encode(sha256(text.encode()).digest()).decode()}'"


def _text(name: str) -> str:
    return files("bindoff.render.web").joinpath(name).read_text("utf-8")


def _style(documents: Iterable[Document]) -> str:
    widths = sorted({width_class(each) for one in documents for each in _drawings(one)})
    rules = (
        f".w{width} svg{{min-width:{width * _LEAST_SHARE:.1f}cm;"
        f"max-width:{width * _MOST_SHARE:.1f}cm}}\n"
        for width in widths
    )
    return _text("page.css") + "".join(rules)


def _drawings(document: Document) -> Iterator[Drawing]:
    for block in document.blocks:
        if isinstance(block, Figure) and isinstance(block.picture, Drawing):
            yield block.picture


def _body(document: Document, cards: tuple[Document, ...]) -> ET.Element:
    markup = Markup(document.sizes, _inside)
    parts = chapters(document.blocks)
    links = [(part.id, part.title) for part in parts if part.id]
    if cards:
        links.append(("ui-machine", _MACHINE))
    clear = {"id": "ui-clear", "type": "button", "hidden": "hidden"}
    footer = element(
        "footer",
        {},
        element("button", clear, "Clear ticks, rulers and counters"),
        element("p", {"class": "small"}, _imprint(document)),
    )
    main = element(
        "main",
        {"id": "ui-text", "tabindex": "-1"},
        *(_opening(document) if all(part.id for part in parts) else ()),
        *(_section(part, markup) for part in parts),
        *(_machine(document, cards) if cards else ()),
    )
    return element(
        "body",
        {},
        element("a", {"class": "skip", "href": "#ui-text"}, "Skip to the pattern"),
        _bar(document),
        element("div", {"class": "frame"}, _contents(links), main),
        footer,
    )


def _opening(document: Document) -> Iterator[ET.Element]:
    yield element("h1", {}, document.title)


def _imprint(document: Document) -> str:
    version = f"version {document.version}" if document.version else ""
    copy = f"Copy for {document.copy_for}" if document.copy_for else ""
    said = (copy, document.title, version, document.date, document.author)
    return " · ".join(filter(None, said))


def _contents(links: Iterable[tuple[str, str]]) -> ET.Element:
    entries = (element("li", {}, element("a", {"href": f"#{id}"}, title)) for id, title in links)
    inner = element("details", {"open": "open"}, element("summary", {}, _CONTENTS))
    inner.append(element("ul", {}, *entries))
    return element("nav", {"aria-label": _CONTENTS}, inner)


def _section(part: Chapter, markup: Markup) -> ET.Element:
    if not part.id:
        return element("section", {}, *markup.blocks(part.blocks))
    made = element("section", {"aria-labelledby": part.id}, *markup.blocks(part.blocks))
    made[0].set("id", part.id)
    return made


def _bar(document: Document) -> ET.Element:
    """What the script fills with a choice of sizes; without it nothing is shown."""
    every = element("option", {}, "All sizes")
    every.set("value", "")
    sizes = [every]
    sizes += [
        element("option", {"value": str(index)}, size) for index, size in enumerate(document.sizes)
    ]
    choice = element("label", {"for": "ui-size"}, "Size ")
    select = element("select", {"id": "ui-size", "autocomplete": "off"}, *sizes)
    kept = element("span", {"id": "ui-kept", "role": "status"})
    onward = element("a", {"id": "ui-next", "href": "#ui-text"}, "Next step")
    return element(
        "div",
        {"id": "ui-bar", "role": "region", "aria-label": "Your place", "hidden": "hidden"},
        *([choice, select] if len(document.sizes) > 1 else []),
        kept,
        onward,
    )


def _machine(document: Document, cards: tuple[Document, ...]) -> Iterator[ET.Element]:
    """The stops of the counter, size by size; the script adds the counter."""
    title = element("h2", {"id": "ui-machine"}, _MACHINE)
    made = element("section", {"aria-labelledby": "ui-machine"}, title)
    for size, card in enumerate(cards):
        markup = Markup(card.sizes, _inside, down=1)
        blocks = tuple(
            block for block in card.blocks if not (isinstance(block, Heading) and block.level == 1)
        )
        for part in chapters(blocks):
            names = {"class": "card", "data-size": str(size)}
            made.append(element("div", names, *markup.blocks(part.blocks)))
    yield made


def _inside(picture: bytes) -> str:
    return f"data:{media_type(picture)};base64,{b64encode(picture).decode()}"
