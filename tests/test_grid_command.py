"""``bindoff grid``: from a picture to a chart that builds, and from a chart to a picture."""

from io import BytesIO
from pathlib import Path

import pytest
import yaml
from click.testing import CliRunner, Result
from PIL import Image

from bindoff.cli import main
from bindoff.files import DiskFiles
from bindoff.source.grid import read_grid
from bindoff.source.read import read_source

PATTERNS = Path(__file__).parents[1] / "patterns"
HARBOUR = PATTERNS / "harbour-light-hat"
YARNS = "slate=#3d4a57,foam=#e8eef0,brick=#b3472f"
FLAG = "....ff\n...fff\nbbbb..\n......\n"


def run(*words: object) -> Result:
    result = CliRunner().invoke(main, ["grid", *map(str, words)])
    assert result.exception is None or isinstance(result.exception, SystemExit)
    return result


def colours(rounds: str, by_character: dict[str, str]) -> Image.Image:
    """A picture of grid lines, one pixel a stitch."""
    lines = rounds.split()
    image = Image.new("RGB", (len(lines[0]), len(lines)))
    hexes = [by_character[c] for line in lines for c in line]
    image.putdata([(int(h[1:3], 16), int(h[3:5], 16), int(h[5:7], 16)) for h in hexes])
    return image


@pytest.fixture
def flag(tmp_path: Path) -> Path:
    """A picture of six by four flat stitches, each 12 wide and 9 high."""
    image = colours(FLAG, {".": "#3d4a57", "f": "#e8eef0", "b": "#b3472f"})
    path = tmp_path / "flag.png"
    image.resize((72, 36), Image.Resampling.NEAREST).save(path)
    return path


GAUGE = "18 x 24"  # a stitch is 24/18 as wide as high, like 12 to 9 pixels


def from_image(picture: Path, *more: object) -> Result:
    return run("from-image", picture, "--stitches", 6, "--yarns", YARNS, "--gauge", GAUGE, *more)


# ---------------------------------------------------------------- from a picture


def test_a_picture_becomes_a_grid_file_beside_it(flag: Path) -> None:
    result = from_image(flag)

    assert result.exit_code == 0, result.output
    assert flag.with_suffix(".grid").read_text() == FLAG


def test_what_is_printed_is_the_chart_for_the_source(flag: Path) -> None:
    printed = from_image(flag).stdout

    assert yaml.safe_load(printed) == {
        "charts": {
            "flag": {
                "title": "Flag",
                "grid": "flag.grid",
                "legend": {".": "slate", "f": "foam", "b": "brick"},
                "alt": "",
            }
        }
    }
    # 6 of 18 stitches in 10 cm, 4 of 24 rounds in 10 cm
    assert "6 stitches by 4 rounds, 3.3 x 1.7 cm" in printed
    assert "slate 15, foam 5, brick 4" in printed


@pytest.mark.parametrize("yarn", ["no", "123", "true", "a:b", "é"])
def test_names_that_yaml_would_read_otherwise_are_quoted(flag: Path, yarn: str) -> None:
    result = from_image(flag, "--yarns", f"{yarn}=#3d4a57,foam=#e8eef0")

    assert yaml.safe_load(result.stdout)["charts"]["flag"]["legend"]["."] == yarn


def test_yarns_that_do_not_appear_are_not_in_the_legend(flag: Path) -> None:
    result = from_image(flag, "--yarns", YARNS + ",lamp=#00ff00")

    assert "lamp" not in result.stdout


def test_the_gauge_decides_the_rounds(flag: Path) -> None:
    """A picture of 72 by 36, 20 stitches wide, at 20 to 28 a square: 14 rounds."""
    out = flag.with_name("out.grid")
    words = ("--stitches", 20, "--gauge", "20 x 28 / 4 in", "--yarns", YARNS, "--out", out)
    result = run("from-image", flag, *words)

    assert result.exit_code == 0, result.output
    assert len(out.read_text().split()) == 14


def test_a_grid_can_be_mirrored_and_cleaned(flag: Path, tmp_path: Path) -> None:
    image = colours("..x...\n......\n", {".": "#3d4a57", "x": "#e8eef0"})
    speck = tmp_path / "speck.png"
    image.resize((72, 18), Image.Resampling.NEAREST).save(speck)

    from_image(flag, "--mirror")
    from_image(speck, "--clean", "--dither", "none")

    mirrored = "".join(f"{line[::-1]}\n" for line in FLAG.split())
    assert flag.with_suffix(".grid").read_text() == mirrored
    assert speck.with_suffix(".grid").read_text() == "......\n......\n"


def test_a_background_shows_through(tmp_path: Path) -> None:
    path = tmp_path / "clear.png"
    Image.new("RGBA", (12, 9)).save(path)
    words = ("--stitches", 1, "--yarns", YARNS, "--gauge", GAUGE)

    refused = run("from-image", path, *words)
    assert refused.exit_code == 1
    assert "error[image.transparent]: parts of `clear.png` are transparent" in refused.stderr
    assert "--background slate" in refused.stderr

    assert run("from-image", path, *words, "--background", "brick").exit_code == 0
    assert path.with_suffix(".grid").read_text() == "b\n"


def test_a_pattern_gives_its_yarns_its_characters_and_its_gauge(tmp_path: Path) -> None:
    """The harbour's own picture, drawn flat, comes back as the harbour's own grid."""
    source = read_source(DiskFiles(str(HARBOUR)))
    yarns = {
        c: source.pattern.yarns[str(y)].colour
        for c, y in source.pattern.charts["light"].legend.items()
    }
    text = (HARBOUR / "light.grid").read_text()
    small = colours(text, yarns)
    path = tmp_path / "light.png"
    # Size S is worked at 10 stitches and 13.8 rounds to 10 cm.
    small.resize((small.width * 69, small.height * 50), Image.Resampling.NEAREST).save(path)
    out = tmp_path / "again.grid"

    result = run("from-image", path, "--stitches", 24, "--pattern", HARBOUR, "--out", out)

    assert result.exit_code == 0, result.output
    assert read_grid(out.read_text(), "x").rounds == read_grid(text, "x").rounds


def test_a_pattern_need_not_have_its_grid_yet(flag: Path, tmp_path: Path) -> None:
    folder = tmp_path / "hat"
    folder.mkdir()
    (folder / "pattern.yaml").write_text((HARBOUR / "pattern.yaml").read_text())

    result = run(
        "from-image", flag, "--stitches", 6, "--pattern", folder, "--yarns", "night,foam,brick"
    )

    assert result.exit_code == 0, result.output
    assert set((folder / "flag.grid").read_text()) == {".", "w", "r", "\n"}


def test_a_file_that_is_there_is_kept(flag: Path) -> None:
    target = flag.with_suffix(".grid")
    target.write_text("mine")

    refused = from_image(flag)
    assert refused.exit_code == 1
    assert "error[file.exists]" in refused.stderr
    assert target.read_text() == "mine"

    assert from_image(flag, "--force").exit_code == 0
    assert target.read_text() == FLAG


# ---------------------------------------------------------------- what goes wrong


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("--stitches", 0), "image.stitches"),
        (("--stitches", 1001), "image.stitches"),
        (("--background", "moss"), "image.background"),
        (("--out", "no/such/folder/x.grid"), "file.unwritable"),
    ],
)
def test_what_cannot_be_done_is_said_and_exits_with_1(
    flag: Path, words: tuple[object, ...], said: str
) -> None:
    result = from_image(flag, *words)

    assert result.exit_code == 1
    assert f"error[{said}]" in result.stderr
    assert "help: " in result.stderr
    assert not flag.with_suffix(".grid").exists()


@pytest.mark.parametrize(
    ("name", "data", "said"),
    [
        ("notes.png", b"not a picture", "image.unknown"),
        ("cut.png", b"\x89PNG\r\n\x1a\n\0\0\0\rIHDR", "image.broken"),
        ("huge.png", b"\0" * 50_000_001, "file.too-large"),
    ],
)
def test_files_that_are_no_pictures_exit_with_1(
    tmp_path: Path, name: str, data: bytes, said: str
) -> None:
    (tmp_path / name).write_bytes(data)

    result = from_image(tmp_path / name)

    assert result.exit_code == 1
    assert f"error[{said}]" in result.stderr
    assert name in result.stderr


def test_files_that_are_not_there_or_not_files_exit_with_1(tmp_path: Path) -> None:
    assert "error[file.missing]" in from_image(tmp_path / "boat.png").stderr
    assert "error[file.unreadable]" in from_image(tmp_path).stderr
    assert run("from-image", tmp_path / "x", "--stitches", 4, "--pattern", tmp_path).exit_code == 1


def test_a_linked_picture_is_read(flag: Path, tmp_path: Path) -> None:
    album = tmp_path / "album"
    album.mkdir()
    (album / "link.png").symlink_to(flag)

    assert from_image(album / "link.png").exit_code == 0
    assert (album / "link.grid").read_text() == FLAG


@pytest.mark.parametrize(
    "words",
    [
        ("--gauge", GAUGE),
        ("--yarns", YARNS),
        ("--yarns", "slate", "--gauge", GAUGE),
        ("--yarns", "slate=blue", "--gauge", GAUGE),
        ("--yarns", "slate=#12345g", "--gauge", GAUGE),
        ("--yarns", "a=#123456,a=#654321", "--gauge", GAUGE),
        ("--yarns", "", "--gauge", GAUGE),
        ("--yarns", YARNS, "--gauge", "20"),
        ("--yarns", YARNS, "--gauge", "0 x 20"),
        ("--yarns", YARNS, "--gauge", "S = 20 x 20"),
        ("--yarns", YARNS, "--gauge", GAUGE, "--dither", "floyd"),
    ],
)
def test_a_command_line_that_says_too_little_exits_with_2(
    flag: Path, words: tuple[str, ...]
) -> None:
    result = run("from-image", flag, "--stitches", 6, *words)

    assert result.exit_code == 2
    assert not flag.with_suffix(".grid").exists()


# ---------------------------------------------------------------- preview


def opened(path: Path) -> Image.Image:
    return Image.open(BytesIO(path.read_bytes()))


def middle(image: Image.Image, across: int, down: int, place: int, line: int) -> tuple[int, ...]:
    """The average of the middle of a stitch, places counted from the top left."""
    w, h = image.width / across, image.height / down
    box = (place * w + w / 4, line * h + h / 4, place * w + 3 * w / 4, line * h + 3 * h / 4)
    found = image.resize((1, 1), Image.Resampling.BOX, box=box).getpixel((0, 0))
    assert isinstance(found, tuple)
    return found


def nearest(colour: tuple[int, ...], yarns: dict[str, tuple[int, int, int]]) -> str:
    return min(
        yarns, key=lambda y: sum((a - b) ** 2 for a, b in zip(colour, yarns[y], strict=True))
    )


@pytest.mark.parametrize("yarns", [YARNS, ".=#3d4a57,f=#e8eef0,b=#b3472f"])
def test_a_grid_file_is_shown_as_knitted(tmp_path: Path, yarns: str) -> None:
    grid, out = tmp_path / "flag.grid", tmp_path / "flag.png"
    grid.write_text(FLAG)

    result = run("preview", grid, "--yarns", yarns, "--gauge", GAUGE, "--out", out)

    assert result.exit_code == 0, result.output
    image = opened(out)
    assert image.width == 6 * 24
    assert image.height == 4 * 18  # a stitch is 24/18 as wide as it is high
    # At 18 stitches to 10 cm six are 33.3 mm.
    assert image.width / image.info["dpi"][0] * 25.4 == pytest.approx(100 / 3, rel=1e-3)
    rgb = {".": (61, 74, 87), "f": (232, 238, 240), "b": (179, 71, 47)}
    seen = "".join(
        "".join(nearest(middle(image, 6, 4, place, line), rgb) for place in range(6)) + "\n"
        for line in range(4)
    )
    assert seen == FLAG


def test_a_chart_of_a_pattern_is_shown_in_its_own_gauge(tmp_path: Path) -> None:
    out = tmp_path / "rope.png"

    result = run("preview", PATTERNS / "ropewalk-hat", "--chart", "rope", "--out", out)

    assert result.exit_code == 0, result.output
    assert "8 stitches by 19 rounds" in result.output
    image = opened(out)
    assert image.height / image.width == pytest.approx((19 / 28) / (8 / 24), rel=0.01)


def test_a_chart_is_repeated_and_sized_as_wished(tmp_path: Path) -> None:
    out = tmp_path / "net.png"

    result = run(
        *("preview", PATTERNS / "netmender-mittens" / "pattern.yaml", "--across", 3, "--up", 2),
        *("--width", 333, "--gauge", "20 x 20", "--out", out),
    )

    assert "18 stitches by 12 rounds" in result.output
    assert opened(out).size == (333, 222)


def test_purled_stitches_look_unlike_knitted_ones(tmp_path: Path) -> None:
    """The net is dark where it is flat: knit and purl stitches of one yarn differ as drawn."""
    out = tmp_path / "net.png"
    run("preview", PATTERNS / "netmender-mittens", "--out", out)
    image = opened(out)
    lines = (PATTERNS / "netmender-mittens" / "net.grid").read_text().split()
    w, h = image.width // 6, image.height / 6
    cells = {
        lines[line][place]: image.crop(
            (place * w + 4, round(line * h) + 4, place * w + w - 4, round(line * h) + 14)
        ).tobytes()
        for line in (2, 3)
        for place in range(6)
    }

    assert set(cells) == {"-", "."}
    assert cells["-"] != cells["."]


def test_a_preview_keeps_files_and_names_what_is_missing(tmp_path: Path) -> None:
    grid, out = tmp_path / "flag.grid", tmp_path / "flag.png"
    grid.write_text(FLAG)
    out.write_bytes(b"mine")
    words = ("--gauge", GAUGE, "--out", out)

    assert "error[file.exists]" in run("preview", grid, "--yarns", YARNS, *words).stderr
    assert out.read_bytes() == b"mine"
    unknown = run("preview", grid, "--yarns", ".=#3d4a57,f=#e8eef0", *words).stderr
    assert "`b` in round 2 stands for no yarn" in unknown
    assert f"{grid}:3:1" in unknown
    assert "bbbb.." in unknown
    chart = run("preview", HARBOUR, "--chart", "boat", "--out", out).stderr
    assert "error[preview.chart]" in chart
    assert "light" in chart
    assert "error[png.size]" in run("preview", HARBOUR, "--width", 0, "--out", out).stderr
    assert run("preview", grid, "--out", out).exit_code == 2


def test_a_fabric_of_too_many_stitches_is_refused(tmp_path: Path) -> None:
    grid = tmp_path / "wide.grid"
    grid.write_text("." * 200 + "\n")
    words = ("--yarns", ".=#3d4a57", "--gauge", GAUGE, "--across", 6, "--out", tmp_path / "x.png")

    assert "error[preview.too-large]" in run("preview", grid, *words).stderr


def test_a_picture_goes_to_a_chart_to_fabric_and_back(flag: Path, tmp_path: Path) -> None:
    """What is seen of the fabric is nearest to the yarns it was knitted in."""
    out, again = tmp_path / "fabric.png", tmp_path / "again.grid"
    from_image(flag)
    words = ("--yarns", YARNS, "--gauge", GAUGE)
    run("preview", flag.with_suffix(".grid"), *words, "--out", out)

    result = from_image(out, "--out", again)

    assert result.exit_code == 0, result.output
    assert again.read_text() == FLAG
