"""What there is in a pattern that a text may name, and how often anything names it."""

from collections.abc import Iterator

from bindoff import regex as re
from bindoff.checks.context import Context
from bindoff.checks.texts.named.nouns import Noun, kinds_of
from bindoff.checks.walk import parts_of, steps_of
from bindoff.records import Record
from bindoff.remembered import once_each
from bindoff.source.model import Model
from bindoff.source.rowlang.syntax import Alter, CountChange


class World(Record):
    """The names that a pattern has, all in lower case.

    ``names`` are all that the source calls something by: titles, keys, sections, groups of
    stitches, edges, measures and charts; ``lists`` are its tools and notions; ``said`` is all that
    is written. ``kinds`` are the kinds of pieces that it makes; ``holds`` says that rows hold
    stitches.
    """

    context: Context
    names: tuple[str, ...]
    lists: tuple[str, ...]
    said: str
    kinds: frozenset[str]
    holds: bool

    @property
    def warned(self) -> bool:
        """Whether a check of hazards speaks of all that is put on: for a child, and undeclared."""
        pattern = self.context.pattern
        return bool({"child", "infant"} & set(pattern.wearer)) and not pattern.hazards

    @property
    def called(self) -> str:
        """All names, with those in the lists."""
        return " | ".join((*self.names, *self.lists))

    def has(self, noun: Noun) -> bool:
        """Whether the pattern has a thing: by its kind, by a name, or because it is told twice."""
        if noun.kinds & self.kinds or noun.forms.search(self.called):
            return True
        head = noun.word.split()[-1]
        if " " in noun.word and re.search(rf"\b{head}", self.called):
            return True
        return len(noun.forms.findall(self.said)) > 1


@once_each
def world_of(context: Context) -> World:
    """All that a pattern names."""
    pattern = context.pattern
    titles = " ".join((pattern.title, *(piece.title for piece in pattern.pieces.values())))
    lists = (*pattern.notions, *(f"{tool.name} {tool.use or ''}" for tool in pattern.tools))
    return World(
        context,
        tuple(name.lower().replace("_", " ") for name in _names(context) if name),
        tuple(map(str.lower, lists)),
        "\n".join(each.raw for each in context.prose).lower(),
        frozenset(kinds_of(titles)) or frozenset(kinds_of(pattern.summary)),
        any(part.change is CountChange.HOLD for part in _altered(context)),
    )


_TEXTS = ("first", "note", "say", "in_mirror", "how")
_KEYS = ("edge", "parts", "along", "held", "state", "worked", "label")


def _names(context: Context) -> Iterator[str]:
    pattern = context.pattern
    yield pattern.title
    for key, piece in pattern.pieces.items():
        yield from (key, piece.title)
        for step in piece.steps:
            yield from names_in(step)
    yield from (part.group or "" for part in _altered(context))
    for key, chart in pattern.charts.items():
        yield from (key, chart.title)
    for key, yarn in pattern.yarns.items():
        yield from (key, yarn.name)
    yield from (*pattern.measures, *pattern.finished, *pattern.stitch_patterns, *pattern.sizes)
    yield from (each.raw for each in context.prose if each.path[-1:] and each.path[-1] in _KEYS)


def names_in(step: Model) -> Iterator[str]:
    """The words of a step that are none of its texts, such as its section or the edge picked up."""
    for name in type(step).model_fields:
        if name not in _TEXTS and isinstance(value := getattr(step, name), str):
            yield value


def _altered(context: Context) -> Iterator[Alter]:
    """What rows hold, take up again, cast on and bind off."""
    for at in steps_of(context):
        for row in at.step.all_rows:
            yield from (part for part in parts_of(row) if isinstance(part, Alter))
