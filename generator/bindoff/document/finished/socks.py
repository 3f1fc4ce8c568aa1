"""A sock lying on its side: its leg bends into the instep, its heel and sole lie behind."""

from collections.abc import Iterator, Mapping
from math import hypot, pi

from bindoff.document.faces import Look
from bindoff.document.finished.courses import Course, Courses
from bindoff.document.finished.laidflat import Patch
from bindoff.document.finished.strips import Strip
from bindoff.plan.gauge import Gauge
from bindoff.plan.outlines.shapes import Outline, Part
from bindoff.records import replace


def sock_patches(outline: Outline, courses: Courses, gauge: Gauge) -> Iterator[Patch | Strip]:
    """The parts of a sock with their rows, the hindmost first. What a round of the foot purls lies
    on the instep; heel and sole are smooth."""
    parts = {part.name: part for part in outline.parts}
    from_cuff = outline.parts[0].name == "leg"
    down = courses if from_cuff else tuple(reversed(courses))
    leg, foot, toe = _shared(down, parts, gauge)
    smooth = tuple(replace(each, faces=(None,)) for each in foot)
    ribbed = any(Look.PURL in each.faces for each in foot)
    instep = tuple(replace(each, faces=leg[-1].faces if ribbed else (None,)) for each in foot)
    for name, rows in (("leg", leg), ("heel flap", smooth)):
        if name in parts:
            above = tuple(reversed(rows))
            yield Patch(_all_around(parts[name]), above, down=True, around=False, from_head=True)
    sole = _all_around(parts["sole"])
    yield Patch(sole, smooth, turn=pi / 2, around=False, from_head=True)
    yield Strip(parts["instep"].one, parts["instep"].other, instep, from_head=True)
    yield Patch(_all_around(parts["toe"]), toe, turn=pi / 2, around=False, from_head=True)


def _shared(
    courses: Courses, parts: Mapping[str, Part], gauge: Gauge
) -> tuple[Courses, Courses, Courses]:
    """The rows of leg, foot and toe, each at least one."""
    leg = _rows(parts["leg"], gauge)
    toe = _rows(parts["toe"], gauge)
    of_leg, rest = courses[:leg] or courses[:1], courses[leg:] or courses[-1:]
    of_foot: tuple[Course, ...] = rest[:-toe] or rest[:1]
    return of_leg, of_foot, rest[-toe:]


def _rows(part: Part, gauge: Gauge) -> int:
    """How many rows a straight part is long."""
    (a, b), (c, d) = part.one[0], part.one[-1]
    long = max(abs(c - a), abs(d - b)) if part.name == "toe" else hypot(c - a, d - b)
    return max(1, round(long / gauge.round_mm))


def _all_around(part: Part) -> tuple[tuple[float, float], ...]:
    return (*part.one, *reversed(part.other))
