"""A document tree as markup for other engines: a page of HTML, and the source of a typesetter.

Both say what the tree says, with the same typefaces, sizes and paper, drawings as SVG and all that
their own tagging needs (headings, lists, header cells, captions, words for pictures).
"""

import json
from collections.abc import Iterator
from dataclasses import dataclass, field, fields, is_dataclass
from html import escape
from importlib.resources import files
from pathlib import Path
from typing import Any

from bindoff.document.drawing import Drawing
from bindoff.document.tree import (
    Block,
    Blocks,
    Callout,
    Cover,
    DefinitionList,
    Document,
    Emphasis,
    Figure,
    Heading,
    Inlines,
    ItemList,
    LineBreak,
    Link,
    PageBreak,
    Paragraph,
    Ringed,
    SizeValues,
    Strong,
    Table,
    Text,
    in_print,
)
from bindoff.render.svg import render_svg

FONTS = (
    ("Lato", "normal", 400, "fontpkg_lato", "Lato-Regular.ttf"),
    ("Lato", "normal", 700, "fontpkg_lato", "Lato-Bold.ttf"),
    ("IBM Plex Serif", "normal", 400, "fontpkg_ibm_plex_serif", "IBMPlexSerif-Regular.ttf"),
    ("IBM Plex Serif", "italic", 400, "fontpkg_ibm_plex_serif", "IBMPlexSerif-Italic.ttf"),
    ("IBM Plex Serif", "normal", 600, "fontpkg_ibm_plex_serif", "IBMPlexSerif-SemiBold.ttf"),
)
WIDEST_MM = 170.0
_IN_LINES = (Text, Strong, Emphasis, Link, SizeValues, Ringed, LineBreak)
_PNG = b"\x89PNG"


def copy_fonts(folder: Path) -> None:
    """The typefaces in use, so that no engine looks for others."""
    for _, _, _, package, name in FONTS:
        data = files(package).joinpath("files", name).read_bytes()
        (folder / name).write_bytes(data)


@dataclass(slots=True)
class Pictures:
    """Where the pictures of a document are written; each is named by its number."""

    folder: Path
    names: list[str] = field(default_factory=list)

    def add(self, picture: Drawing | bytes, alt: str) -> tuple[str, float]:
        """The file's name and the width in mm."""
        number = len(self.names)
        if isinstance(picture, Drawing):
            name, data = f"{number}.svg", svg(picture, alt, number).encode()
            width = min(WIDEST_MM, picture.width)
        else:
            name = f"{number}.{'png' if picture.startswith(_PNG) else 'jpg'}"
            width, data = 90.0, picture
        (self.folder / name).write_bytes(data)
        self.names.append(name)
        return name, width


def svg(drawing: Drawing, alt: str, number: int) -> str:
    """A drawing as SVG without the declaration, which HTML does not take."""
    return render_svg(drawing, "Picture", alt, f"d{number}").partition("\n")[2]


def words(node: object) -> str:
    """All that is said in a tree, drawings and descriptions of pictures left out: what each page
    of markup has to say. It knows no kind of block, so that none can be forgotten."""
    match node:
        case Text(text):
            return text
        case SizeValues(values):
            return in_print(values)
        case Ringed(letters):
            return " ".join(letters)
        case Cover(title):
            return " ".join([title, *map(words, fields_of(node)[1:])])
        case LineBreak():
            return " "
        case Drawing() | str() | bytes():
            return ""
        case tuple():
            inline = all(isinstance(each, _IN_LINES) for each in node)
            return ("" if inline else " ").join(map(words, node))
        case _ if is_dataclass(node):
            return " ".join(map(words, fields_of(node)))
        case _:
            return ""


def fields_of(node: Any) -> list[object]:
    """What a record holds, in order."""
    return [getattr(node, each.name) for each in fields(node)]


# ---------------------------------------------------------------- HTML

_STYLE = """
@page { size: A4; margin: 18mm 18mm 22mm; @bottom-right { content: counter(page); } }
body { font: 10pt/1.4 "IBM Plex Serif"; margin: 0 }
h1, h2, h3, h4, table, caption, figcaption, dt { font-family: Lato }
table { border-collapse: collapse; font-size: 8pt; width: 100% }
td, th { padding: 2pt 4pt; text-align: right; border-bottom: .5pt solid #ccc }
th:first-child { text-align: left }
figure { margin: 8pt 0; break-inside: avoid }
svg { max-width: 100% }
aside { background: #eee; padding: 6pt }
.ring { border: .5pt solid; border-radius: 50%; padding: 0 2pt }
"""


def html(document: Document, folder: Path) -> str:
    """``document`` as a page of HTML; its typefaces and photographs lie in ``folder``."""
    faces = "".join(
        f'@font-face {{ font-family: "{family}"; font-style: {style}; font-weight: {weight};'
        f" src: url({name}) }}\n"
        for family, style, weight, _, name in FONTS
    )
    body = "\n".join(_html_blocks(document.blocks, Pictures(folder)))
    return (
        f'<!doctype html><html lang="{document.language}"><head><meta charset="utf-8">'
        f"<title>{escape(document.title)}</title>"
        f'<meta name="author" content="{escape(document.author)}">'
        f"<style>{faces}{_STYLE}</style></head><body>{body}</body></html>"
    )


def _html_blocks(blocks: Blocks, pictures: Pictures) -> Iterator[str]:
    for block in blocks:
        yield _html_block(block, pictures)


def _html_block(block: Block, pictures: Pictures) -> str:
    match block:
        case Heading(level, children, id):
            return f"<h{level}{_id(id)}>{_html(children)}</h{level}>"
        case Paragraph(children):
            return f"<p>{_html(children)}</p>"
        case ItemList(items, ordered, start):
            inner = "".join(
                f"<li>{''.join(_html_blocks(item.blocks, pictures))}</li>" for item in items
            )
            return f'<ol start="{start}">{inner}</ol>' if ordered else f"<ul>{inner}</ul>"
        case DefinitionList(entries):
            inner = "".join(
                f"<dt>{_html_picture(each.mark, '', pictures) if each.mark else ''}"
                f"{_html(each.term)}</dt><dd>{_html(each.meaning)}</dd>"
                for each in entries
            )
            return f"<dl>{inner}</dl>"
        case Table():
            beside = _html_block(block.beside.figure, pictures) if block.beside else ""
            return beside + _html_table(block)
        case Figure(picture, alt, caption, id):
            shown = _html_picture(picture, alt, pictures)
            said = f"<figcaption>{_html(caption)}</figcaption>" if caption else ""
            return f"<figure{_id(id)}>{shown}{said}</figure>"
        case Callout(_, title, inner):
            said = "".join(_html_blocks(inner, pictures))
            return f"<aside><p><b>{_html(title)}</b></p>{said}</aside>"
        case Cover(title, byline, lead, facts, art):
            shown = _html_block(art, pictures) if art else ""
            return (
                f"<h1>{escape(title)}</h1><p>{_html(byline)}</p><p>{_html(lead)}</p>"
                f"{_html_block(facts, pictures)}{shown}"
            )
        case PageBreak():
            return '<div style="break-after: page"></div>'


def _html_table(table: Table) -> str:
    heads = "".join(f'<th scope="col">{_html(each.heading)}</th>' for each in table.columns)
    groups = "".join(
        f'<th scope="colgroup" colspan="{wide}">{_html(words)}</th>' for words, wide in table.groups
    )
    rows = "".join(
        "<tr>"
        + "".join(
            f'<th scope="row">{_html(cell)}</th>'
            if at < table.header_columns
            else f"<td>{_html(cell)}</td>"
            for at, cell in enumerate(row.cells)
        )
        + "</tr>"
        for row in table.rows
    )
    over = f"<tr>{groups}</tr>" if groups else ""
    return (
        f"<table{_id(table.id)}><caption>{_html(table.caption)}</caption>"
        f"<thead>{over}<tr>{heads}</tr></thead><tbody>{rows}</tbody></table>"
    )


def _html_picture(picture: Drawing | bytes, alt: str, pictures: Pictures) -> str:
    name, _ = pictures.add(picture, alt)
    if isinstance(picture, Drawing):
        return svg(picture, alt, len(pictures.names))
    return f'<img src="{name}" alt="{escape(alt)}" style="width: 90mm">'


def _id(id: str) -> str:
    return f' id="{id}"' if id else ""


def _html(inlines: Inlines) -> str:
    return "".join(map(_html_inline, inlines))


def _html_inline(node: object) -> str:
    match node:
        case Text(text):
            return escape(text)
        case Strong(children):
            return f"<strong>{_html(children)}</strong>"
        case Emphasis(children):
            return f"<em>{_html(children)}</em>"
        case Link(children, target):
            return f'<a href="{escape(target)}">{_html(children)}</a>'
        case SizeValues(values):
            return escape(in_print(values))
        case Ringed(letters):
            return " ".join(f'<span class="ring">{escape(letter)}</span>' for letter in letters)
        case LineBreak():
            return "<br>"
        case _:
            raise AssertionError(node)


# ---------------------------------------------------------------- the typesetter


def typst(document: Document, folder: Path) -> str:
    """``document`` as the source of the typesetter; its pictures are written to ``folder``."""
    language, _, region = document.language.partition("-")
    place = f', region: "{region}"' if region else ""
    head = f"""
#set document(title: {_string(document.title)}, author: {_string(document.author)}, date: none)
#set page(paper: "a4", margin: (x: 18mm, top: 18mm, bottom: 22mm), numbering: "1")
#set text(font: "IBM Plex Serif", size: 10pt, lang: "{language}"{place})
#show heading: set text(font: "Lato")
#show figure: set block(breakable: true)
#show figure.where(kind: table): set figure.caption(position: top)
#show table: set text(font: "Lato", size: 8pt)
#set table(stroke: none, inset: (x: 4pt, y: 2pt))
#let ring(it) = box(stroke: .5pt, radius: 50%, inset: (x: 2pt), it)
"""
    return head + "\n\n".join(_typst_blocks(document.blocks, Pictures(folder)))


def _typst_blocks(blocks: Blocks, pictures: Pictures) -> Iterator[str]:
    for block in blocks:
        yield _typst_block(block, pictures)


def _typst_block(block: Block, pictures: Pictures) -> str:
    match block:
        case Heading(level, children, id):
            return f"#heading(level: {level})[{_typst(children)}]{_label(id)}"
        case Paragraph(children):
            return _typst(children)
        case ItemList(items, ordered, start):
            inner = ", ".join(
                f"[{_joined(_typst_blocks(item.blocks, pictures))}]" for item in items
            )
            return f"#enum(start: {start}, {inner})" if ordered else f"#list({inner})"
        case DefinitionList(entries):
            inner = ", ".join(
                f"([{_typst_swatch(each.mark, pictures) if each.mark else ''}"
                f"{_typst(each.term)}], [{_typst(each.meaning)}])"
                for each in entries
            )
            return f"#terms({inner})"
        case Table():
            beside = _typst_block(block.beside.figure, pictures) if block.beside else ""
            return f"{beside}\n\n{_typst_table(block)}"
        case Figure(picture, alt, caption, id):
            shown = _typst_picture(picture, alt, pictures)
            return f"#figure([{shown}], caption: [{_typst(caption)}]){_label(id)}"
        case Callout(_, title, inner):
            said = _joined(_typst_blocks(inner, pictures))
            return (
                f"#block(fill: luma(238), inset: 6pt, width: 100%)[#strong[{_typst(title)}]\n\n"
                f"{said}]"
            )
        case Cover(title, byline, lead, facts, art):
            shown = f"\n\n{_typst_block(art, pictures)}" if art else ""
            return (
                f"#heading(level: 1)[#{_string(title)};]\n\n{_typst(byline)}\n\n{_typst(lead)}\n\n"
                f"{_typst_block(facts, pictures)}{shown}"
            )
        case PageBreak():
            return "#pagebreak()"


def _typst_table(table: Table) -> str:
    aligned = ", ".join(
        {"left": "left", "right": "right", "centre": "center"}[each.align] for each in table.columns
    )
    groups = "".join(
        f"table.cell(colspan: {wide})[{_typst(words)}], " for words, wide in table.groups
    )
    heads = ", ".join(f"[{_typst(each.heading)}]" for each in table.columns)
    rows = ",\n".join(", ".join(f"[{_typst(cell)}]" for cell in row.cells) for row in table.rows)
    return (
        f"#figure(kind: table, caption: [{_typst(table.caption)}], "
        f"table(columns: {len(table.columns)}, align: ({aligned},), "
        f"table.header({groups}{heads}),\n{rows})){_label(table.id)}"
    )


def _typst_picture(picture: Drawing | bytes, alt: str, pictures: Pictures) -> str:
    name, width = pictures.add(picture, alt)
    return f'#image("{name}", width: {width:.2f}mm, alt: {_string(alt or "picture")})'


def _typst_swatch(mark: Drawing, pictures: Pictures) -> str:
    """A picture that stands in a line."""
    return f"#box({_typst_picture(mark, 'swatch', pictures)[1:]})"


def _joined(parts: Iterator[str]) -> str:
    return "\n\n".join(parts)


def _label(id: str) -> str:
    return f" <{id}>" if id else ""


def _string(text: str) -> str:
    return json.dumps(text, ensure_ascii=False)


def _typst(inlines: Inlines) -> str:
    return "".join(map(_typst_inline, inlines))


def _typst_inline(node: object) -> str:
    match node:
        case Text(text):
            return f"#{_string(text)};"
        case Strong(children):
            return f"#strong[{_typst(children)}];"
        case Emphasis(children):
            return f"#emph[{_typst(children)}];"
        case Link(children, target):
            where = f"<{target[1:]}>" if target.startswith("#") else _string(target)
            return f"#link({where})[{_typst(children)}];"
        case SizeValues(values):
            return f"#{_string(in_print(values))};"
        case Ringed(letters):
            return " ".join(f"#ring[#{_string(letter)};];" for letter in letters)
        case LineBreak():
            return "#linebreak();"
        case _:
            raise AssertionError(node)
