"""Changes a pattern's tree: parts of other patterns at the places where such parts belong.

What comes out is sound YAML, so most of it reaches further than a slip in the letters does.
"""

import random
from collections import defaultdict
from collections.abc import Callable, Iterator, Mapping, Sequence
from copy import deepcopy
from typing import Any

import yaml

from tests.hostile import inventing

# Mappings whose keys are the designer's own names.
_NAMED = {
    "yarns", "gauges", "sizes", "measures", "finished", "charts", "legend", "stitches", "pieces",
}  # fmt: skip
_LOADER = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
_DUMPER = getattr(yaml, "CSafeDumper", yaml.SafeDumper)

Place = tuple[str, ...]
Slot = tuple[Place, Any, Any]
"""Where a value belongs, its container, and its key there."""

_PROSE_KEYS = {
    "say", "note", "notes", "care", "finishing", "licence", "summary", "skill", "alt", "caption",
    "contact", "title", "section", "how", "designer", "because", "worked", "tool", "use", "name",
}  # fmt: skip
_ROW_KEYS = {"work", "taper", "plain", "edging"}


class Donors:
    """Parts of patterns by the place where they belong."""

    def __init__(self, texts: Sequence[str]) -> None:
        self._parts: dict[Place, list[tuple[Any, Any]]] = defaultdict(list)
        for text in texts:
            for place, container, key in slots(yaml.load(text, _LOADER)):
                self._parts[place].append((key, container[key]))

    def like(self, place: Place, dice: random.Random) -> tuple[Any, Any] | None:
        """A key and value that belong at ``place``."""
        found = self._parts.get(place)
        return deepcopy(dice.choice(found)) if found else None

    def below(self, place: Place, dice: random.Random) -> tuple[Any, Any] | None:
        """A key and value of a container at ``place``."""
        inside = [each for each in self._parts if each[:-1] == place]
        return self.like(dice.choice(inside), dice) if inside else None

    def any(self, dice: random.Random) -> Any:
        """A value from anywhere."""
        return deepcopy(dice.choice(self._parts[dice.choice(list(self._parts))])[1])


def slots(data: Any, place: Place = ()) -> Iterator[Slot]:
    """Every value of a tree with the place where it belongs."""
    if isinstance(data, dict):
        for key in list(data):
            part = "*" if place and place[-1] in _NAMED else str(key)
            yield (*place, part), data, key
            yield from slots(data[key], (*place, part))
    elif isinstance(data, list):
        for index in range(len(data)):
            yield (*place, "#"), data, index
            yield from slots(data[index], (*place, "#"))


def grafted(text: str, dice: random.Random, donors: Donors) -> str | None:
    """``text`` with one to three changes of its tree; ``None`` if it is no YAML."""
    try:
        data = yaml.load(text, _LOADER)
    except (yaml.YAMLError, ValueError, RecursionError):
        return None
    if not isinstance(data, dict) or not data:
        return None
    for _ in range(dice.choice((1, 1, 1, 2, 3))):
        every = list(slots(data))
        if not every:
            break
        change = dice.choice(_CHANGES)
        change(every, data, dice, donors)
    try:
        return str(yaml.dump(data, Dumper=_DUMPER, sort_keys=False, allow_unicode=True))
    except (yaml.YAMLError, RecursionError, ValueError):
        return None


Change = Callable[[list[Slot], dict[Any, Any], random.Random, Donors], None]


def _swap_in(every: list[Slot], _: Any, dice: random.Random, donors: Donors) -> None:
    """A value is replaced by one that another pattern has there."""
    place, container, key = dice.choice(every)
    found = donors.like(place, dice)
    if found is not None:
        container[key] = found[1]


def _add(every: list[Slot], data: dict[Any, Any], dice: random.Random, donors: Donors) -> None:
    """Something more where another pattern has it."""
    containers: list[tuple[Place, Any]] = [((), data)]
    containers += [(p, c[k]) for p, c, k in every if isinstance(c[k], dict | list)]
    place, container = dice.choice(containers)
    found = donors.below(place, dice)
    if found is None:
        return
    key, value = found
    if isinstance(container, list):
        container.insert(dice.randrange(len(container) + 1), value)
    else:
        container[key] = value


def _anything(every: list[Slot], _: Any, dice: random.Random, donors: Donors) -> None:
    _, container, key = dice.choice(every)
    container[key] = donors.any(dice)


def _drop(every: list[Slot], _: Any, dice: random.Random, donors: Donors) -> None:
    _, container, key = dice.choice(every)
    del container[key]


def _lists(every: list[Slot]) -> list[list[Any]]:
    return [c[k] for _, c, k in every if isinstance(c[k], list) and c[k]]


def _list(every: list[Slot], _: Any, dice: random.Random, donors: Donors) -> None:
    """A list longer, shorter, in another order."""
    lists = _lists(every)
    if not lists:
        return
    found = dice.choice(lists)
    match dice.randrange(5):
        case 0:
            found.append(deepcopy(dice.choice(found)))
        case 1:
            found.extend(deepcopy(found) * dice.choice((1, 1, 5, 80)))
        case 2:
            del found[dice.randrange(len(found))]
        case 3:
            dice.shuffle(found)
        case _:
            found[:] = found[: dice.randrange(len(found) + 1)]


def _per_size(every: list[Slot], data: dict[Any, Any], dice: random.Random, _: Donors) -> None:
    """One amount becomes several, as a list or by size."""
    sizes = data.get("sizes")
    names = list(sizes) if isinstance(sizes, dict) else ["S", "M"]
    amounts = [(c, k) for _, c, k in every if isinstance(c[k], int | float | str)]
    if not amounts:
        return
    container, key = dice.choice(amounts)
    values = [
        dice.choice((container[key], dice.randrange(60), f"{dice.randrange(60)} cm"))
        for _ in range(max(len(names) + dice.choice((0, 0, 0, 1, -1)), 0))
    ]
    container[key] = values if dice.random() < 0.6 else dict(zip(names, values, strict=False))


def _sizes(_: list[Slot], data: dict[Any, Any], dice: random.Random, donors: Donors) -> None:
    """More sizes than the lists have values."""
    sizes = data.get("sizes")
    if isinstance(sizes, dict) and sizes:
        first = next(iter(sizes.values()))
        for number in range(dice.choice((1, 1, 3, 12, 70))):
            sizes[f"{number}X"] = deepcopy(first)


def _figure(every: list[Slot], _: Any, dice: random.Random, __: Donors) -> None:
    """A number a little or very different, a name a measure has, or a formula."""
    found = [(c, k) for _, c, k in every if isinstance(c[k], int | float)]
    amounts = [
        (c, k) for p, c, k in every if ("measures" in p or "finished" in p or "schematic" in p)
    ]
    if found and dice.random() < 0.5:
        container, key = dice.choice(found)
        old = container[key]
        container[key] = dice.choice((old + 1, old - 1, old * 2, old / 3, old * 1000, -old, 0))
    elif amounts:
        container, key = dice.choice(amounts)
        container[key] = inventing.formula(dice)


def _invent(every: list[Slot], data: dict[Any, Any], dice: random.Random, _: Donors) -> None:
    """Rows, prose and legends made up."""
    wanted = [(c, k) for __, c, k in every if k in _ROW_KEYS | _PROSE_KEYS | {"legend"}]
    if not wanted:
        return
    container, key = dice.choice(wanted)
    if key in _ROW_KEYS:
        rows = [inventing.row(dice) for _ in range(dice.choice((1, 1, 1, 2, 4)))]
        container[key] = rows[0] if len(rows) == 1 else rows
    elif key == "legend":
        yarns = data.get("yarns")
        container[key] = inventing.legend(dice, tuple(yarns) if isinstance(yarns, dict) else ())
    else:
        container[key] = inventing.prose(dice)


def _steps(every: list[Slot], _: Any, dice: random.Random, donors: Donors) -> None:
    """Steps of another piece among these, or in another order."""
    found = [c[k] for _, c, k in every if k == "steps" and isinstance(c[k], list) and c[k]]
    if not found:
        return
    steps = dice.choice(found)
    at = dice.randrange(len(steps))
    match dice.randrange(4):
        case 0:
            steps[at:at] = [deepcopy(steps[dice.randrange(len(steps))])]
        case 1:
            other = dice.randrange(len(steps))
            steps[at], steps[other] = steps[other], steps[at]
        case _:
            _, more = donors.like(("pieces", "*", "steps"), dice) or (None, [])
            start = dice.randrange(len(more) + 1)
            steps[at:at] = more[start : start + dice.choice((1, 1, 2, 4))]


def _rename(every: list[Slot], _: Any, dice: random.Random, __: Donors) -> None:
    """A name of the designer's own in other letters, everywhere it stands as a whole value."""
    named = [(c, k) for p, c, k in every if p[-1] == "*" and isinstance(c, dict)]
    if not named:
        return
    container, key = dice.choice(named)
    new = dice.choice((
        str(key).upper(), f"{key} {key}", "Łódź", "чайка", "αβγ", "הבי", "x" * 300, "1", "", " ",
        "from", "all", "start", "true", "needles", "a/b", "../x", "<b>", "{{ x }}", "\u202eabc",
    ))  # fmt: skip
    items = [(new if each == key else each, value) for each, value in container.items()]
    container.clear()
    container.update(items)
    for _, other, at in every:
        there = at in other if isinstance(other, dict) else at < len(other)
        if there and other[at] == key:
            other[at] = new


_CHANGES: tuple[Change, ...] = (
    *(_swap_in,) * 5,
    *(_add,) * 5,
    *(_figure,) * 4,
    *(_invent,) * 4,
    *(_steps,) * 4,
    *(_list,) * 2,
    _per_size,
    _per_size,
    _drop,
    _rename,
    _sizes,
    _anything,
)


def texts_of(sources: Sequence[Mapping[str, str]]) -> tuple[str, ...]:
    """The pattern texts of ``sources``."""
    return tuple(each["pattern.yaml"] for each in sources)
