"""What a line starts with: the place as the reader finds it."""

from bindoff.document.differencewords.telling import Telling, piece_title
from bindoff.document.schematics import DIMENSION_NAMES
from bindoff.english import capital, listed
from bindoff.plan.differences.change import Change, ChangedPart, Place
from bindoff.plan.differences.said import What
from bindoff.plan.persize import named

IN_GAUGE = (What.GAUGE, What.GAUGE_STATE, What.GAUGE_TOOL, What.GAUGE_WORKED)


def for_sizes(sizes: tuple[str, ...]) -> str:
    """``, size M`` or ``, sizes S and M``; nothing for all."""
    if not sizes:
        return ""
    return f", {named(sizes)}"


def lead_of(telling: Telling, change: Change) -> str:
    """What a line starts with: the place as the reader finds it."""
    place = change.place
    match place.part:
        case ChangedPart.YARN:
            return telling.yarn(str(place.old if place.new is None else place.new))
        case ChangedPart.CHART:
            return chart_lead(telling, change)
        case ChangedPart.PIECE:
            return {
                What.TOTAL_ROUNDS: "In all",
                What.SCHEMATIC: f"Schematic, {DIMENSION_NAMES.get(change.of, change.of)}",
            }.get(change.what, piece_title(telling, place.old, place.new))
        case ChangedPart.STEP:
            return _step_lead(place)
        case _:
            return _pattern_lead(telling, change)


def _pattern_lead(telling: Telling, change: Change) -> str:
    match change.what:
        case What.SIZE | What.SIZE_ORDER:
            return "Sizes"
        case What.BODY:
            return f"To fit {change.of}"
        case _ if change.what in IN_GAUGE:
            pieces = telling.found.new.source.pattern.pieces.values()
            named = [piece.title for piece in pieces if change.of and piece.gauge == change.of]
            return listed(named) or change.of or telling.new.term["gauge"].capitalize()
        case What.TOOL:
            return "Tools"
        case What.NOTION:
            return "Notions"
        case What.STITCH:
            return f"Abbreviation {change.of}"
        case What.TEXT | What.PROSE:
            return capital(change.of)
        case _:
            return change.of


def chart_lead(telling: Telling, change: Change) -> str:
    """The title of a chart, and the round where it is about one."""
    place = change.place
    plan = telling.found.old if place.new is None else telling.found.new
    title = plan.source.pattern.charts[str(place.old if place.new is None else place.new)].title
    return f"{title}, round {change.of}" if change.what is What.CELLS else title


def _step_lead(place: Place) -> str:
    old, new = place.old_step, place.new_step
    at = new or old
    assert at is not None
    section = f" ({at.section})" if at.section else ""
    if at.number is None:
        return f"Section {at.section}"
    if old and new and old.number != new.number:
        return f"Step {old.number}, now step {new.number}{section}"
    return f"Step {at.number}{section}"
