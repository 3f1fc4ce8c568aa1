"""SVG files hold the same shapes as the drawing, say what they show, and are always the same."""

import re
import subprocess
import sys
import xml.etree.ElementTree as ET

import pytest
from fontTools.pens.boundsPen import ControlBoundsPen
from fontTools.pens.recordingPen import RecordingPen
from fontTools.svgLib.path import parse_path
from hypothesis import given
from hypothesis import strategies as st

from bindoff.document.drawing import Drawing, Label, Lines, Path, Rect, Shape, Stamps
from bindoff.render.svg import id_of, render_svg

SVG = "{http://www.w3.org/2000/svg}"

places = st.floats(-5, 200).map(lambda n: round(n, 2))
sizes = st.floats(0.01, 50).map(lambda n: round(n, 2))


def parse(*shapes: Shape, title: str = "T", text: str = "D") -> ET.Element:
    svg = render_svg(Drawing(100.0, 50.5, shapes), title, text)
    return ET.fromstring(svg.encode())


def data(root: ET.Element) -> list[str]:
    return [path.attrib["d"] for path in root.iter(f"{SVG}path")]


def drawn(root: ET.Element) -> list[tuple[str, tuple[tuple[float, float], ...]]]:
    """The path as an independent reader of SVG path data understands it."""
    pen = RecordingPen()
    for path in data(root):
        parse_path(path, pen)
    found: list[tuple[str, tuple[tuple[float, float], ...]]] = pen.value
    return found


def test_sizes_are_millimetres() -> None:
    root = parse()

    assert root.tag == f"{SVG}svg"
    assert (root.attrib["width"], root.attrib["height"]) == ("100mm", "50.5mm")
    assert root.attrib["viewBox"] == "0 0 100 50.5"


@given(st.text("aé–<>&\"'“” ", max_size=20), st.text("aé–<>&\"' ", max_size=20))
def test_a_screen_reader_hears_title_and_description(title: str, text: str) -> None:
    """SVG 2, section 5.8, and WAI-ARIA 1.2: an image is named by its title and description."""
    root = parse(title=title, text=text)
    first, second = list(root)[:2]

    assert (first.tag, second.tag) == (f"{SVG}title", f"{SVG}desc")
    assert (first.text or "", second.text or "") == (title, text)
    assert root.attrib["role"] == "img"
    assert root.attrib["aria-labelledby"].split() == [first.attrib["id"], second.attrib["id"]]


def test_ids_can_be_kept_apart_where_two_files_meet() -> None:
    drawing = Drawing(1, 1, ())

    assert 'id="front-title"' in render_svg(drawing, "T", "D", id="front")
    assert 'id="back-title"' in render_svg(drawing, "T", "D", id="back")


NAMES = st.text("aB9-. _é/", min_size=1, max_size=8)


@given(NAMES, NAMES)
def test_names_of_files_give_ids_of_their_own(one: str, other: str) -> None:
    """HTML, 3.2.6: an id has no space in it; XML 1.0: it begins with a letter."""
    assert re.fullmatch(r"[A-Za-z][-.\w]*", id_of(one), re.ASCII)
    assert (id_of(one) == id_of(other)) == (one == other)


def test_a_drawing_stands_on_paper() -> None:
    """Black lines without a ground vanish on a dark web page."""
    root = parse(Rect(1, 1, 2, 2, stroke="#000000"))
    first = next(
        each for each in root if each.tag not in (f"{SVG}title", f"{SVG}desc", f"{SVG}defs")
    )

    assert first.tag == f"{SVG}rect"
    box = {name: first.attrib[name] for name in ("x", "y", "width", "height", "fill")}
    assert box == {"x": "0", "y": "0", "width": "100", "height": "50.5", "fill": "#ffffff"}


@given(places, places, sizes, sizes)
def test_a_rectangle_is_where_it_was_drawn(x: float, y: float, w: float, h: float) -> None:
    pen = ControlBoundsPen(None)
    parse_path(data(parse(Rect(x, y, w, h, fill="#102030")))[0], pen)

    assert pen.bounds == pytest.approx((x, y, x + w, y + h), abs=0.011)


@given(
    st.lists(
        st.one_of(
            st.tuples(st.just("L"), places, places),
            st.tuples(st.just("C"), places, places, places, places, places, places),
            st.tuples(st.just("M"), places, places),
            st.just(("Z",)),
        ),
        max_size=40,
    )
)
def test_long_paths_do_not_drift(steps: list[tuple[str | float, ...]]) -> None:
    """Relative steps are taken between rounded points."""
    commands: tuple[tuple[str | float, ...], ...] = (("M", 1.0, 2.0), *steps)
    found = [p for _, points in drawn(parse(Path(commands, stroke="#000000"))) for p in points]
    ends = [
        (commands[n - 1], command) for n, command in enumerate(commands) if command[0] in ("L", "C")
    ]
    expected = [command[-2:] for command in commands if command[0] in ("L", "C")]

    assert ends or not expected
    for point in expected:
        assert any(abs(point[0] - x) < 0.006 and abs(point[1] - y) < 0.006 for x, y in found)  # type: ignore[operator]


def test_a_path_goes_on_from_its_start_after_it_is_closed() -> None:
    path = Path(
        (("M", 1, 1), ("L", 5, 1), ("L", 5, 5), ("Z",), ("L", 2, 9), ("M", 8, 8), ("L", 9, 8)),
        stroke="#000000",
    )

    assert data(parse(path)) == ["M1 1h4v4zl1 8m6 -1h1"]


@given(st.lists(st.tuples(places, places), min_size=1, max_size=9))
def test_stamps_are_the_outline_at_every_place(corners: list[tuple[float, float]]) -> None:
    outline = Path(
        (("M", 1, 0.5), ("L", 2, 0.5), ("C", 2, 1, 1, 1, 1, 0.5), ("Z",), ("M", 0, 3), ("L", 4, 2)),
        stroke="#000000",
    )
    stamps = Stamps(outline, tuple(corners))
    once = drawn(parse(stamps))
    each = [part for path in stamps.moved() for part in drawn(parse(path))]

    assert [name for name, _ in once] == [name for name, _ in each]
    for (_, points), (_, expected) in zip(once, each, strict=True):
        for point, place in zip(points, expected, strict=True):
            assert point == pytest.approx(place, abs=0.011)


def test_neighbours_of_one_look_are_one_path_and_order_is_kept() -> None:
    red = [Rect(x, 0, 1, 1, fill="#aa0000") for x in range(3)]
    blue = Rect(0, 0, 3, 1, fill="#0000aa")

    fills = [p.attrib["fill"] for p in parse(*red, blue, *red).iter(f"{SVG}path")]
    assert fills == ["#aa0000", "#0000aa", "#aa0000"]


def test_what_covers_another_outline_stays_above_it() -> None:
    """A thumb on a hand: as one path, both outlines would show."""
    box = (("M", 0.0, 0.0), ("L", 9.0, 0.0), ("L", 9.0, 9.0), ("Z",))
    hand, thumb = (Path(box, "#ffffff", "#000000", 0.4) for _ in range(2))

    assert len(data(parse(hand, thumb))) == 2


def test_lines_keep_their_weight_and_dashes() -> None:
    (path,) = parse(Lines(((1, 1, 4, 1), (2, 2, 2, 5)), "#123456", 0.35, (1.4, 0.8))).iter(
        f"{SVG}path"
    )

    assert path.attrib["d"] == "M1 1h3M2 2v3"
    assert path.attrib["stroke"] == "#123456"
    assert path.attrib["stroke-width"] == ".35"
    assert path.attrib["stroke-dasharray"] == "1.4 .8"
    assert path.attrib["fill"] == "none"


def test_a_path_may_be_both_filled_and_outlined() -> None:
    (path,) = parse(Path((("M", 0, 0), ("L", 1, 1), ("Z",)), "#ffffff", "#000000", 0.4)).iter(
        f"{SVG}path"
    )

    assert (path.attrib["fill"], path.attrib["stroke"]) == ("#ffffff", "#000000")


def test_labels_are_text_in_a_generic_family() -> None:
    label = Label(10, 20, "½ < 1 & “x”", 2.6, "end", "#333333", bold=True, turn=90)
    root = parse(label)
    (text,) = root.iter(f"{SVG}text")

    assert text.text == "½ < 1 & “x”"
    assert text.attrib | {} == {
        "x": "10",
        "y": "20",
        "font-size": "2.6",
        "text-anchor": "end",
        "fill": "#333333",
        "font-weight": "bold",
        "transform": "rotate(-90 10 20)",  # SVG turns clockwise, a label counter-clockwise
    }
    assert root.attrib["font-family"].endswith("sans-serif")


def test_nothing_is_fetched_from_elsewhere() -> None:
    svg = render_svg(Drawing(1, 1, (Label(0, 0, "a"),)), "T", "D")

    assert "href" not in svg.replace('xmlns:xlink="http://www.w3.org/1999/xlink"', "")
    assert "<style" not in svg
    assert "<script" not in svg


def test_the_same_drawing_is_the_same_file_in_every_process() -> None:
    code = (
        "from bindoff.document.drawing import *;from bindoff.render.svg import render_svg;"
        "print(render_svg(Drawing(9,9,(Rect(0,0,1,1,'#111111','#222222'),"
        "Lines(((0,0,1,1),),dash=(1,1)),Label(1,1,'a',bold=True))),'T','D'))"
    )
    found = {
        subprocess.run(
            [sys.executable, "-c", code],
            env={"PYTHONHASHSEED": seed, "PYTHONPATH": ":".join(filter(None, sys.path))},
            capture_output=True,
            check=True,
        ).stdout
        for seed in ("1", "2")
    }

    assert len(found) == 1
    assert b"</svg>" in found.pop()


def test_a_stroke_that_is_cut_has_no_round_ends() -> None:
    """Yarn that passes under another must not bulge out where it vanishes."""
    line = (("M", 1.0, 5.0), ("L", 9.0, 5.0))
    shapes = (Path(line, stroke="#000000", width=2.0), Path(line, stroke="#ffffff", cut=True))
    found = re.findall(r"<path [^>]*>", render_svg(Drawing(10, 10, shapes), "t", "d"))

    assert [("stroke-linecap" in each) for each in found] == [True, False]


def test_a_stitch_at_many_places_is_in_the_file_once() -> None:
    triangle = Path((("M", 0, 0), ("L", 2, 0), ("L", 1, 2), ("Z",)), "#204060", "#102030", 0.1)
    places = tuple((float(at), float(at % 5)) for at in range(30))
    found = ET.fromstring(render_svg(Drawing(40, 10, (Stamps(triangle, places),)), "t", "d"))
    named = found.findall(".//{*}defs/{*}path")
    used = found.findall(".//{*}use")

    assert len(named) == 1
    assert {each.get("{http://www.w3.org/1999/xlink}href") for each in used} == {
        f"#{named[0].get('id')}"
    }
    at = [(float(each.get("x", "nan")), float(each.get("y", "nan"))) for each in used]
    assert at == list(places)
