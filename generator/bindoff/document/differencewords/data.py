"""All changes as plain data."""

from dataclasses import asdict, is_dataclass
from typing import Any

from bindoff.document.differencewords.telling import Telling, telling_of
from bindoff.document.differencewords.texts import row_of
from bindoff.document.voice import Voice
from bindoff.plan.differences.change import Change, ChangedPart, Differences
from bindoff.plan.differences.said import Instruction
from bindoff.source.formula import Quantity

FORMAT = 1


def change_data(found: Differences) -> dict[str, Any]:
    """All changes as plain data, one record each; lengths in millimetres.

    A record has the keys of its place in both versions, what has changed and of which, and ``old``
    and ``new`` for every size, or once for what does not depend on size.
    """
    telling = telling_of(found)
    return {
        "format": FORMAT,
        "old": _edition(found.old.source.pattern.title, found.old.source.pattern.version),
        "new": _edition(found.new.source.pattern.title, found.new.source.pattern.version),
        "sizes": list(found.sizes),
        "changes": [_record(telling, change) for change in found.changes],
    }


def _edition(title: str, version: str) -> dict[str, str]:
    return {"title": title, "version": version}


def _record(telling: Telling, change: Change) -> dict[str, Any]:
    place = change.place
    record: dict[str, Any] = {"part": place.part.value}
    if place.part is not ChangedPart.PATTERN:
        record["key"] = {"old": place.old, "new": place.new}
    if place.part is ChangedPart.STEP:
        record["step"] = {
            side: asdict(at) if at else None
            for side, at in (("old", place.old_step), ("new", place.new_step))
        }
    record |= {"what": change.what.value, "of": change.of}
    values = {
        shift.size: {
            "old": _plain(telling.old, shift.old),
            "new": _plain(telling.new, shift.new),
        }
        for shift in change.shifts
    }
    return record | values.get("", {"sizes": values})


def _plain(voice: Voice, value: Any) -> Any:
    """A value as JSON holds it."""
    match value:
        case Quantity(number):
            return number
        case Instruction():
            return row_of(voice, value)
        case tuple():
            return [_plain(voice, each) for each in value]
        case _ if is_dataclass(value) and not isinstance(value, type):
            return asdict(value)
        case _:
            return value
