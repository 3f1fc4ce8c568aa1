"""Render a drawing as an SVG file with a title, a description and sizes in millimetres.

One SVG unit is one millimetre. Shapes of one look that follow each other become one path, and
paths are written with relative steps in hundredths of a millimetre, so a chart of thousands of
stitches stays small. The text is set in a generic family: nothing is fetched from elsewhere.
"""

import xml.etree.ElementTree as ET
from collections.abc import Iterable, Iterator, Mapping
from functools import lru_cache
from hashlib import blake2b
from itertools import groupby

from bindoff import regex as re
from bindoff.document.drawing import Drawing, Label, Lines, Path, Rect, Shape, Stamps

FONT = "Lato, sans-serif"
_PAPER = "#ffffff"

_XLINK = "http://www.w3.org/1999/xlink"
_MANY = 12  # places of a stamp that are worth a name

_START = re.compile(r"M[-\d. ]+")


@lru_cache(maxsize=16)  # charts mostly stay while a pattern is written
def render_svg(
    drawing: Drawing, title: str, description: str, id: str = "drawing", language: str = ""
) -> str:
    """The drawing as SVG 1.1 text, on paper; ``id`` prefixes the ids of title and description.

    Where several drawings stand on one page, each needs an ``id`` of its own: see ``id_of``.

    ``language`` is the tag (BCP 47) of their language, if it is known.
    """
    width, height = _number(drawing.width), _number(drawing.height)
    svg = ET.Element(
        "svg",
        {
            "xmlns": "http://www.w3.org/2000/svg",
            "version": "1.1",
            "width": f"{width}mm",
            "height": f"{height}mm",
            "viewBox": f"0 0 {width} {height}",
            "role": "img",
            "aria-labelledby": f"{id}-title {id}-description",
            **_SETTING,
            **({"xml:lang": language} if language else {}),
        },
    )
    for tag, name, text in (("title", "title", title), ("desc", "description", description)):
        ET.SubElement(svg, tag, id=f"{id}-{name}").text = text
    svg.append(_paper(width, height))
    taken = dict[str, int]()
    for of, group in groupby(drawing.shapes, key=_of):
        parent = svg
        if of:
            parent = ET.SubElement(svg, "g", id=_layer(id, of, taken))
        parent.extend(_elements(group))
    return f'<?xml version="1.0" encoding="utf-8"?>\n{ET.tostring(svg, encoding="unicode")}\n'


def inline_svg(drawing: Drawing, alt: str, paper: bool = True) -> ET.Element:
    """The drawing as an element for a page, on paper, without ids that could meet others there.

    ``alt`` is what it is called; one without stands beside words that say the same. Without
    ``paper`` it must be seen on any ground.
    """
    width, height = _number(drawing.width), _number(drawing.height)
    told = {"role": "img", "aria-label": alt} if alt else {"aria-hidden": "true"}
    look = {"viewBox": f"0 0 {width} {height}", "width": f"{width}mm", "height": f"{height}mm"}
    svg = ET.Element("svg", {"xmlns": "http://www.w3.org/2000/svg", **look, **told, **_SETTING})
    if paper:
        svg.append(_paper(width, height))
    svg.extend(_elements(drawing.shapes))
    return svg


_SETTING = {"font-family": FONT, "stroke-linecap": "butt", "stroke-linejoin": "round"}


def _paper(width: str, height: str) -> ET.Element:
    """On a dark page, ink alone vanishes."""
    return ET.Element("rect", x="0", y="0", width=width, height=height, fill=_PAPER)


def _of(shape: Shape) -> str:
    """What a shape shows: shapes of one name that follow each other are one group."""
    return shape.of if isinstance(shape, Rect | Stamps) else ""


def _layer(id: str, of: str, taken: dict[str, int]) -> str:
    """The id of a group, by which vector editors call it; no two alike in a file."""
    name = f"{id}-{'-'.join(re.findall(r'[a-z0-9]+', of.casefold()))}"
    taken[name] = taken.get(name, 0) + 1
    return name if taken[name] == 1 else f"{name}-{taken[name]}"


def id_of(name: str) -> str:
    """A file's name as an id: one word of letters, digits, ``-``, ``.`` and ``_``, no two alike."""
    return "chart-" + "".join(
        each if each.isascii() and (each.isalnum() or each in "-.") else f"_{ord(each):x}_"
        for each in name
    )


def _elements(shapes: Iterable[Shape]) -> Iterator[ET.Element]:
    for (look, _), group in groupby(enumerate(shapes), key=_together):
        members = [shape for _, shape in group]
        first = members[0]
        if isinstance(first, Label):
            yield from (_text(label) for label in members if isinstance(label, Label))
        elif isinstance(first, Stamps) and _is_named(first):
            yield from _used(first, look)
        else:
            data = "".join(_outline(shape) for shape in members)
            if data:
                yield ET.Element("path", {"d": data, **look})


def _together(numbered: tuple[int, Shape]) -> tuple[dict[str, str], int]:
    """What neighbours share that are one path. A path that is filled and has an outline stays by
    itself, as it covers what lies beneath it."""
    number, shape = numbered
    path = shape.path if isinstance(shape, Stamps) and _is_named(shape) else shape
    covers = isinstance(path, Path) and path.fill is not None and path.stroke is not None
    return _look(shape), number if covers else -1


def _is_named(stamps: Stamps) -> bool:
    """Whether the outline is in the file once: as a stitch is, each of which covers the next."""
    path = stamps.path
    return path.fill is not None and path.stroke is not None and len(stamps.places) >= _MANY


def _used(stamps: Stamps, look: Mapping[str, str]) -> Iterator[ET.Element]:
    """A stamp at its places. Its name says what it is: no other on a page has the same."""
    data = _path_data(stamps.path.commands)
    told = repr((data, sorted(look.items()))).encode()
    name = f"stamp-{blake2b(told, digest_size=8).hexdigest()}"
    named = ET.Element("defs")
    ET.SubElement(named, "path", {"id": name, "d": data, **look})
    yield named
    places = ET.Element("g", {"xmlns:xlink": _XLINK})
    for x, y in stamps.places:
        ET.SubElement(places, "use", {"xlink:href": f"#{name}", "x": _number(x), "y": _number(y)})
    yield places


def _look(shape: Shape) -> dict[str, str]:
    """The attributes that shapes must share to be one path."""
    match shape:
        case Rect():
            return _of_rect(shape.fill, shape.stroke, shape.width)
        case Path(_, fill, stroke, width, cut) | Stamps(Path(_, fill, stroke, width, cut)):
            ends = {"stroke-linecap": "round"} if stroke and not cut else {}
            return _paint(fill, stroke, width) | ends
        case Lines(stroke=stroke, width=width, dash=dash):
            dashes = {"stroke-dasharray": f"{_number(dash[0])} {_number(dash[1])}"} if dash else {}
            return _paint(None, stroke, width) | dashes
        case Label():
            return {}


@lru_cache(maxsize=256)
def _of_rect(fill: str | None, stroke: str | None, width: float) -> dict[str, str]:
    """Remembered, because the cells of a chart have few colours."""
    return _paint(fill, stroke, width) | {"stroke-linejoin": "miter"}


def _paint(fill: str | None, stroke: str | None, width: float) -> dict[str, str]:
    paint = {"fill": fill or "none"}
    return paint | ({"stroke": stroke, "stroke-width": _number(width)} if stroke else {})


def _text(label: Label) -> ET.Element:
    x, y = _number(label.x), _number(label.y)
    look = {"x": x, "y": y, "font-size": _number(label.size), "fill": label.colour}
    if label.anchor != "start":
        look["text-anchor"] = label.anchor
    if label.bold:
        look["font-weight"] = "bold"
    if label.turn:
        look["transform"] = f"rotate({_number(-label.turn)} {x} {y})"
    text = ET.Element("text", look)
    text.text = label.text
    return text


# ---------------------------------------------------------------- path data


def _outline(shape: Shape) -> str:
    match shape:
        case Rect():
            x, y = shape.x, shape.y
            left, top = round(x * 100), round(y * 100)
            wide, high = round((x + shape.w) * 100) - left, round((y + shape.h) * 100) - top
            return f"M{_plain(left)} {_plain(top)}h{_plain(wide)}v{_plain(high)}h{_plain(-wide)}z"
        case Lines(segments):
            return "".join([_segment(*ends) for ends in segments])
        case Path(commands):
            return _path_data(commands)
        case Stamps(path, places):
            return _stamped(path.commands, places)
        case Label():
            return ""


def _path_data(commands: Iterable[tuple[str | float, ...]]) -> str:
    """The commands with relative steps; steps are taken between rounded points, so none drifts.

    Only the first point is told by its place, so that what follows it is the same anywhere.
    """
    parts: list[str] = []
    x = y = start_x = start_y = 0
    for name, *numbers in commands:
        points = [round(float(number) * 100) for number in numbers]
        match name:
            case "M":
                begin = f"m{_plain(points[0] - x)} {_plain(points[1] - y)}"
                parts.append(begin if parts else begin.upper())
                start_x, start_y = points
            case "L" if points[1] == y:
                parts.append(f"h{_plain(points[0] - x)}")
            case "L" if points[0] == x:
                parts.append(f"v{_plain(points[1] - y)}")
            case "L" | "C":
                steps = [_plain(n - (y if place % 2 else x)) for place, n in enumerate(points)]
                parts.append(str(name).lower() + " ".join(steps))
            case _:
                parts.append("z")
                points = [start_x, start_y]
        x, y = points[-2:]
    return "".join(parts)


def _segment(x1: float, y1: float, x2: float, y2: float) -> str:
    left, top = round(x1 * 100), round(y1 * 100)
    across, down = round(x2 * 100) - left, round(y2 * 100) - top
    begin = f"M{_plain(left)} {_plain(top)}"
    if not down:
        return f"{begin}h{_plain(across)}"
    return f"{begin}v{_plain(down)}" if not across else f"{begin}l{_plain(across)} {_plain(down)}"


def _stamped(
    commands: tuple[tuple[str | float, ...], ...], places: Iterable[tuple[float, float]]
) -> str:
    """The commands at every place: only where they begin differs from place to place."""
    (_, left, top), *_ = commands
    x, y = _hundredths(float(left)), _hundredths(float(top))
    tail = _START.split(_path_data(commands))[1]
    return "".join(
        [
            f"M{_plain(round(right * 100) + x)} {_plain(round(down * 100) + y)}{tail}"
            for right, down in places
        ]
    )


def _hundredths(millimetres: float) -> int:
    return round(millimetres * 100)


@lru_cache(maxsize=1 << 16)
def _plain(hundredths: int) -> str:
    """Hundredths of a millimetre as the shortest number in millimetres.

    Remembered, because the symbols of a chart stand in few columns and rows.
    """
    whole, part = divmod(abs(hundredths), 100)
    sign = "-" if hundredths < 0 else ""
    if not part:
        return f"{sign}{whole}"
    tail = str(part // 10) if part % 10 == 0 else f"{part:02d}"
    return f"{sign}{whole or ''}.{tail}"


def _number(millimetres: float) -> str:
    return _plain(_hundredths(millimetres))
