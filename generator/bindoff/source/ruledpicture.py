"""The lines of a chart that was saved as a picture: where they run, and how many cells they part.

A line is thin and differs from what is on both its sides, which the edge between two cells does
not; and lines lie at one distance from each other, over the whole chart, in both directions. The
numbers beside a chart are not crossed by its lines, and so are left aside.
"""

from collections import Counter
from collections.abc import Callable, Sequence
from itertools import pairwise
from statistics import mean, median
from typing import TYPE_CHECKING, cast

from bindoff.records import Record

if TYPE_CHECKING:
    from PIL.Image import Image

_THICK = (1, 2, 4)  # pixels: the lines that are looked for are at most so thick
_LEAST_CELL = 5  # pixels from line to line, below which nothing is left between them
_ROOM = 3  # a cell is at least so many times as wide as its lines are thick
_STEP = 12  # of 255: what a line differs at least from both its sides
_SEEN = 0.08  # share of its length on which a line is seen, at least
_OF_CLEAREST = (0.3, 0.5, 0.7)  # and of what is seen of the clearest: the shadows that a picture
# made smaller or larger has beside its lines are fainter
_CLEAR = 0.6  # share from which a line was drawn as one
_OFF = 0.12  # of a cell: how far a line may lie from its place
_LEAST_LINES = 3
_CLEARER = 2.5  # times as much is marked on lines as elsewhere
_SMALLEST, _LARGEST = 32, 16_000_000  # pixels across or down, and in all, of a screenshot
_NEAR_WHOLE, _FEW = 0.2, 3  # of a cell, and pixels: how far what is left at an edge may be from
# whole cells
_RUN_ON = 0.15  # of what is seen of the lines elsewhere, where they run on
_WHOLE = 0.75  # of the side of a cell, from which a line runs along all of it
_TORN = 0.6  # sides of cells that a line runs along in part, for each that it runs along
_ASIDE = 0.15  # of a cell: what is left out beside its lines


class Lines(Record):
    """Lines in one direction, in pixels from the left or the top: the first, how far it is from one
    to the next, and how thick they are; they part so many ``cells``."""

    first: float
    step: float
    cells: int
    thick: int

    @property
    def last(self) -> float:
        """Where the last one runs."""
        return self.first + self.cells * self.step

    def inside(self, cell: int) -> tuple[int, int]:
        """The pixels of a cell, from 0, without the lines beside it: first, and one past last."""
        start = self.first + cell * self.step
        beside = max(self.thick / 2 + 0.5, self.step * _ASIDE)
        first = round(start + beside)
        return first, max(first + 1, round(start + self.step - beside))


class Ruling(Record):
    """The lines of a chart: ``across`` parts its columns from the left, ``down`` its rounds from
    the top."""

    across: Lines
    down: Lines


class UnevenError(Exception):
    """Lines run through the picture, but they don't part whole cells of one size; says how."""


def ruling(image: "Image") -> Ruling | None:
    """The lines of an upright RGB picture; ``None`` where it has none in both directions.

    Raises:
        UnevenError: there are lines in both directions that part no whole cells of one size.
    """
    if image.width * image.height > _LARGEST or min(image.size) < _SMALLEST:
        return None
    from PIL import Image

    grey = image.convert("L")
    turned = grey.transpose(Image.Transpose.TRANSPOSE)
    found: list[Ruling] = []
    crooked = False
    for thick in _THICK:
        profiles = [_profile(each, thick) for each in (grey, turned)]
        lines = [_regular(each, thick) for each in profiles]
        across, down = lines
        if across and down and _along_whole_cells(grey, across, down):
            found.append(Ruling(across, down))
        crooked = crooked or all(_clear(each) for each in profiles)
    if found:
        best = max(found, key=lambda each: each.across.cells * each.down.cells)
        return Ruling(
            _to_the_edges(best.across, best.down, turned),
            _to_the_edges(best.down, best.across, grey),
        )
    if crooked:
        raise UnevenError("its lines are not at one distance from each other")
    return None


def _marked(grey: "Image", thick: int) -> "Image":
    """A grey picture: 255 where a pixel differs from those ``thick`` pixels to both its sides."""
    from PIL import Image, ImageChops

    wide, high = grey.size
    # Beyond its edges the picture is mirrored, so that a line along an edge is seen too.
    mirrored = grey.transpose(Image.Transpose.FLIP_LEFT_RIGHT)
    around = Image.new("L", (wide + 2 * thick, high))
    around.paste(mirrored, (1 + thick - wide, 0))
    around.paste(mirrored, (wide - 1 + thick, 0))
    around.paste(grey, (thick, 0))
    before = around.crop((0, 0, wide, high))
    behind = around.crop((2 * thick, 0, 2 * thick + wide, high))
    darker = ImageChops.subtract(ImageChops.darker(before, behind), grey)
    lighter = ImageChops.subtract(grey, ImageChops.lighter(before, behind))
    return ImageChops.lighter(darker, lighter).point([0] * _STEP + [255] * (256 - _STEP))


def _profile(grey: "Image", thick: int) -> tuple[float, ...]:
    """For every column of pixels the share that is marked."""
    from PIL import Image

    if grey.width <= 2 * thick:
        return (0.0,) * grey.width
    shares = _marked(grey, thick).resize((grey.width, 1), Image.Resampling.BOX)
    return tuple(each / 255 for each in shares.tobytes())


def _along_whole_cells(grey: "Image", lines: Lines, crossing: Lines) -> bool:
    """Whether upright lines are marked along whole sides of cells or not at all, as drawn ones are;
    those of knitted fabric, whose stitches lie as regularly, are not."""
    from PIL import Image

    marked = _marked(grey, lines.thick)
    whole = part = 0
    for number in range(lines.cells + 1):
        place = min(max(int(lines.first + number * lines.step), 1), grey.width - 2)
        ends = max(0.0, crossing.first), min(crossing.last, grey.height)
        near = [
            marked.resize((1, crossing.cells), Image.Resampling.BOX, (at, ends[0], at + 1, ends[1]))
            for at in (place - 1, place, place + 1)
        ]
        sides = [max(each) for each in zip(*(one.tobytes() for one in near), strict=True)]
        whole += sum(side >= _WHOLE * 255 for side in sides)
        part += sum(0.25 * 255 < side < _WHOLE * 255 for side in sides)
    return part < _TORN * whole


def _places(profile: Sequence[float], of_clearest: float) -> list[float]:
    """The middles of the columns that are seen as lines, if fainter ones are left out."""
    least = max(_SEEN, of_clearest * max(profile))
    found: list[float] = []
    run: list[int] = []
    for place in range(len(profile) + 1):
        if place < len(profile) and profile[place] >= least:
            run.append(place)
        elif run:
            found.append(sum(run) / len(run) + 0.5)
            run = []
    return found


def _clear(profile: Sequence[float]) -> bool:
    """Whether lines run through the whole picture, wherever they lie."""
    places = _places(profile, _OF_CLEAREST[0])
    return sum(profile[round(place - 0.5)] >= _CLEAR for place in places) > _LEAST_LINES


def _regular(profile: Sequence[float], thick: int) -> Lines | None:
    """The lines of a profile if they lie at one distance; some may be hidden."""
    for of_clearest in _OF_CLEAREST:
        places = _places(profile, of_clearest)
        if len(places) >= _LEAST_LINES:
            steps = [after - before for before, after in pairwise(places)]
            for step in (min(steps), median(steps)):
                lines = _fitted(places, step, thick)
                if lines and _stands_out(profile, lines):
                    return lines
    return None


def _fitted(places: Sequence[float], step: float, thick: int) -> Lines | None:
    """Lines about ``step`` from each other, if all ``places`` are such."""
    if step < max(_LEAST_CELL, _ROOM * thick):
        return None
    numbers = [0]
    for before, after in pairwise(places):
        more = round((after - before) / step)
        if more == 0:
            return None
        numbers.append(numbers[-1] + more)
    middle, at = mean(numbers), mean(places)
    pairs = list(zip(numbers, places, strict=True))
    step = sum((number - middle) * (place - at) for number, place in pairs)
    step /= sum((number - middle) ** 2 for number in numbers)
    first = at - middle * step
    off = max(abs(first + number * step - place) for number, place in pairs)
    if off > max(1.0, _OFF * step) or 2 * len(numbers) <= numbers[-1]:
        return None
    return Lines(first, step, numbers[-1], thick)


def _stands_out(profile: Sequence[float], lines: Lines) -> bool:
    """Whether far more is marked on the lines than between them, where drawn pixels may be too; and
    every second or third line as clearly as the rest, which numbers beside a chart are not."""
    on = [int(lines.first + number * lines.step) for number in range(lines.cells + 1)]
    near = {place + by for place in on for by in range(-2, 3)}
    between = [share for place, share in enumerate(profile) if place not in near]
    marked = [max(profile[max(0, place - 1) : place + 2], default=0.0) for place in on]
    turns = [mean(marked[begin::every]) for every in (2, 3) for begin in range(every)]
    return (
        mean(marked) > _CLEARER * (mean(between) if between else 0.0)
        and min(turns) > max(turns) / _CLEARER
    )


def _to_the_edges(lines: Lines, crossing: Lines, turned: "Image") -> Lines:
    """``lines`` with the cells beyond the first and the last, as far as those that cross them run.

    ``turned`` has the crossing lines upright, so that what is left lies at its top and its foot.
    Raises ``UnevenError`` where the edge of the picture cuts through cells.
    """
    before = _beyond(lines, crossing, turned, lines.first, -1)
    behind = _beyond(lines, crossing, turned, lines.last, 1)
    first = lines.first - before * lines.step
    return Lines(first, lines.step, before + lines.cells + behind, lines.thick)


def _beyond(lines: Lines, crossing: Lines, turned: "Image", edge: float, way: int) -> int:
    """How many cells lie beyond the ``edge`` of those known, ``way`` 1 below and -1 above."""
    cells_of = [lines.first + cell * lines.step for cell in range(lines.cells)]
    least = _RUN_ON * mean(_seen(turned, at, at + lines.step, crossing) for at in cells_of)
    near = max(_NEAR_WHOLE * lines.step, min(_FEW, 0.4 * lines.step))
    cells = 0
    while True:
        start = edge + way * cells * lines.step
        end = min(max(start + way * lines.step, 0.0), float(turned.height))
        room = (end - start) * way
        if room < near or _seen(turned, min(start, end), max(start, end), crossing) <= least:
            return cells
        if room < lines.step - near:
            raise UnevenError("its edge cuts through cells")
        cells += 1


def _seen(picture: "Image", top: float, foot: float, lines: Lines) -> float:
    """The share of the upright ``lines`` that runs all the way between two heights of a picture, a
    cell or less apart: letters stand on part of it at most."""
    strip = picture.crop((0, round(top), picture.width, max(round(top) + 1, round(foot))))
    profile = _profile(strip, lines.thick)
    places = [int(lines.first + number * lines.step) for number in range(lines.cells + 1)]
    near = [profile[max(0, place - 1) : place + 2] for place in places]
    return mean(max(shares, default=0.0) >= _WHOLE for shares in near)


def colours_between(
    image: "Image", ruling: Ruling, yarn_of: Callable[[str], str]
) -> list[tuple[str, float]]:
    """The yarn that fills most of each cell, from the top left, and the share of it that it fills.

    Colours are told apart by eights of a channel, more finely than any two yarns.
    """
    coarse = image.point([(value & 0xF8) | 4 for value in range(256)] * 3)
    columns = [ruling.across.inside(cell) for cell in range(ruling.across.cells)]
    found: list[tuple[str, float]] = []
    for line in range(ruling.down.cells):
        top, foot = ruling.down.inside(line)
        for left, right in columns:
            cell = coarse.crop((max(0, left), max(0, top), right, foot))
            pixels = cell.width * cell.height
            counts: Counter[str] = Counter()
            colours = cast("list[tuple[int, tuple[int, int, int]]]", cell.getcolors(pixels))
            for count, colour in colours:
                counts[yarn_of(f"#{bytes(colour).hex()}")] += count
            yarn, most = counts.most_common(1)[0]
            found.append((yarn, most / pixels))
    return found
