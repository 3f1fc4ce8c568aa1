"""An EPUB of a document: text that reflows, a file for each chapter, drawings that hold text.

Sources: W3C, EPUB 3.3 (package document, navigation document, container) and EPUB Accessibility
1.1 (metadata). No conformance is claimed: that takes somebody who has read the book.
"""

import xml.etree.ElementTree as ET
from collections.abc import Iterator, Mapping, Sequence
from hashlib import sha256
from importlib.resources import files

from bindoff import regex as re
from bindoff.document.drawing import Drawing
from bindoff.document.tree import Cover, Document
from bindoff.records import Record
from bindoff.render.raster import render_png
from bindoff.render.web.markup import Kid, Markup, chapters, define_once, element
from bindoff.render.web.pictures import ending, media_type
from bindoff.render.zipped import zipped

_MIMETYPE = "mimetype"
_COVER_PX = 1200
_XHTML = "application/xhtml+xml"
_SUMMARY = (
    "Every drawing has a description, every chart that is worked from is written out row by row, "
    "and symbols repeat what colors show. Tables have headings for rows and columns. A figure that "
    "differs between sizes is told with the name of its size."
)
_ACCESS = (
    ("accessMode", "textual"),
    ("accessMode", "visual"),
    ("accessModeSufficient", "textual"),
    ("accessibilityFeature", "alternativeText"),
    ("accessibilityFeature", "displayTransformability"),
    ("accessibilityFeature", "readingOrder"),
    ("accessibilityFeature", "structuralNavigation"),
    ("accessibilityFeature", "tableOfContents"),
    ("accessibilityHazard", "none"),
    ("accessibilitySummary", _SUMMARY),
)


class _Page(Record):
    """A file of the book: its name, title and elements; ``drawn`` if any is a drawing."""

    name: str
    title: str
    id: str
    body: tuple[ET.Element, ...]

    @property
    def drawn(self) -> bool:
        """Whether it holds a drawing, which a package document must say."""
        return any(part.tag == "svg" for each in self.body for part in each.iter())


def render_book(document: Document, name: str) -> bytes:
    """``document`` as an EPUB; ``name`` tells it from others of its designer."""
    photos: dict[str, bytes] = {}

    def source(picture: bytes) -> str:
        photo = f"photo-{sha256(picture).hexdigest()[:12]}.{ending(picture)}"
        photos[photo] = picture
        return photo

    pages = tuple(_pages(document, Markup(document.sizes, source, lang="xml:lang")))
    _link(pages)
    cover = _cover(document)
    if cover is not None:
        photos.setdefault(*cover)
    contents = [
        (_MIMETYPE, b"application/epub+zip"),
        ("META-INF/container.xml", _container()),
        ("EPUB/package.opf", _package(document, name, pages, photos, cover[0] if cover else "")),
        ("EPUB/nav.xhtml", _navigation(document, pages)),
        ("EPUB/book.css", files("bindoff.render.web").joinpath("book.css").read_bytes()),
        *((f"EPUB/{page.name}", _xhtml(document, page)) for page in pages),
        *((f"EPUB/{photo}", data) for photo, data in sorted(photos.items())),
    ]
    return zipped(contents, frozenset({_MIMETYPE}))


def _pages(document: Document, markup: Markup) -> Iterator[_Page]:
    for number, part in enumerate(chapters(document.blocks)):
        body = list(markup.blocks(part.blocks))
        if part.id:
            body[0].set("id", part.id)
        define_once(body)
        if document.copy_for:
            body.append(element("p", {"class": "small"}, f"Copy for {document.copy_for}"))
        yield _Page(f"part-{number:02}.xhtml", part.title or document.title, part.id, tuple(body))


def _link(pages: Sequence[_Page]) -> None:
    """Let links within the document find the file their target has come to."""
    parts = [(page, part) for page in pages for each in page.body for part in each.iter()]
    home = {part.get("id"): page.name for page, part in parts if part.get("id")}
    for page, part in parts:
        target = part.get("href", "")
        if part.tag == "a" and target.startswith("#") and home.get(target[1:]) != page.name:
            part.set("href", f"{home[target[1:]]}{target}")


def _cover(document: Document) -> tuple[str, bytes] | None:
    """The picture of the cover as a file, if there is one."""
    art = next((each.art for each in document.blocks if isinstance(each, Cover)), None)
    if art is None:
        return None
    if isinstance(art.picture, Drawing):
        return "cover.png", render_png(art.picture, _COVER_PX)
    digest = sha256(art.picture).hexdigest()[:12]
    return f"photo-{digest}.{ending(art.picture)}", art.picture


def _container() -> bytes:
    root = {"full-path": "EPUB/package.opf", "media-type": "application/oebps-package+xml"}
    return _xml(
        element(
            "container",
            {"version": "1.0", "xmlns": "urn:oasis:names:tc:opendocument:xmlns:container"},
            element("rootfiles", {}, element("rootfile", root)),
        )
    )


def _package(
    document: Document,
    name: str,
    pages: Sequence[_Page],
    photos: Mapping[str, bytes],
    cover: str,
) -> bytes:
    items = [
        _item("nav", "nav.xhtml", _XHTML, "nav"),
        _item("style", "book.css", "text/css"),
        *(_item(_id(page.name), page.name, _XHTML, "svg" * page.drawn) for page in pages),
        *(
            _item(_id(photo), photo, media_type(data), "cover-image" * (photo == cover))
            for photo, data in sorted(photos.items())
        ),
    ]
    spine = (element("itemref", {"idref": _id(page.name)}) for page in pages)
    names = {
        "xmlns": "http://www.idpf.org/2007/opf",
        "version": "3.0",
        "unique-identifier": "id",
        "xml:lang": document.language,
    }
    metadata = element(
        "metadata", {"xmlns:dc": "http://purl.org/dc/elements/1.1/"}, *_metadata(document, name)
    )
    manifest = element("manifest", {}, *items)
    return _xml(element("package", names, metadata, manifest, element("spine", {}, *spine)))


def _metadata(document: Document, name: str) -> Iterator[ET.Element]:
    yield element("dc:identifier", {"id": "id"}, f"urn:uuid:{_identifier(document, name)}")
    yield element("dc:title", {}, document.title)
    yield element("dc:language", {}, document.language)
    if document.author:
        yield element("dc:creator", {}, document.author)
    if document.summary:
        yield element("dc:description", {}, document.summary)
    for word in document.keywords:
        yield element("dc:subject", {}, word)
    rights = [document.rights, f"Copy for {document.copy_for}" if document.copy_for else ""]
    if any(rights):
        yield element("dc:rights", {}, " · ".join(filter(None, rights)))
    day = document.date if re.fullmatch(r"\d{4}-\d\d-\d\d", document.date) else "1980-01-01"
    yield element("dc:date", {}, day)
    yield element("meta", {"property": "dcterms:modified"}, f"{day}T00:00:00Z")
    for key, value in _ACCESS:
        yield element("meta", {"property": f"schema:{key}"}, value)


def _identifier(document: Document, name: str) -> str:
    """A UUID that all versions of a pattern share, of the free kind (RFC 9562, 5.8)."""
    digits = sha256(f"{document.author}\n{document.title}\n{name}".encode()).hexdigest()
    return f"{digits[:8]}-{digits[8:12]}-8{digits[13:16]}-8{digits[17:20]}-{digits[20:32]}"


def _item(id: str, name: str, kind: str, properties: str = "") -> ET.Element:
    names = {"id": id, "href": name, "media-type": kind, "properties": properties}
    return element("item", names)


def _id(name: str) -> str:
    return name.replace(".", "-")


def _navigation(document: Document, pages: Sequence[_Page]) -> bytes:
    entries = (element("li", {}, element("a", {"href": page.name}, page.title)) for page in pages)
    nav = element(
        "nav",
        {"epub:type": "toc", "role": "doc-toc", "aria-label": "Contents"},
        element("h1", {}, "Contents"),
        element("ol", {}, *entries),
    )
    return _xhtml(document, _Page("nav.xhtml", f"{document.title}: contents", "", (nav,)))


def _xhtml(document: Document, page: _Page) -> bytes:
    body: list[Kid] = [element("section", {"aria-labelledby": page.id}, *page.body)]
    if not page.id:
        body = list(page.body)
    return _xml(
        element(
            "html",
            {
                "xmlns": "http://www.w3.org/1999/xhtml",
                "xmlns:epub": "http://www.idpf.org/2007/ops",
                "lang": document.language,
                "xml:lang": document.language,
            },
            element(
                "head",
                {},
                element("title", {}, page.title),
                element("link", {"rel": "stylesheet", "type": "text/css", "href": "book.css"}),
            ),
            element("body", {}, *body),
        ),
        "<!DOCTYPE html>\n",
    )


def _xml(root: ET.Element, doctype: str = "") -> bytes:
    told = ET.tostring(root, encoding="unicode")
    return f'<?xml version="1.0" encoding="utf-8"?>\n{doctype}{told}\n'.encode()
