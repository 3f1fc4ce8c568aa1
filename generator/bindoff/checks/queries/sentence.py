"""A sentence as an editor reads it: where it stands, what is proved of it, what may be doubted."""

from collections.abc import Callable, Iterable, Iterator, Sequence

from bindoff import regex as re
from bindoff.checks.context import Context
from bindoff.checks.sentencesof import Sentence
from bindoff.checks.texts.told.numbers import Lists, in_figures
from bindoff.checks.texts.told.scene import Scene, parts_of, works
from bindoff.checks.texts.told.truths import Figures, Truth
from bindoff.plan.worked import StepPlan
from bindoff.records import Record


class Written(Record):
    """A row in words from ``start`` to ``end`` of a text; ``wrong`` says what speaks against it,
    and is empty where it is a row of the steps near."""

    start: int
    end: int
    wrong: str


class Told(Record):
    """A sentence of ``scene``. Its numbers are in figures, and each list of figures for the sizes
    is one of them; ``lists`` has the others. ``proved`` are the parts of the text, from start to
    end, that a check has held against the plan and found right; ``written`` the rows in words."""

    context: Context
    scene: Scene
    sentence: Sentence
    lists: Lists
    proved: tuple[tuple[int, int], ...]
    written: tuple[Written, ...] = ()

    @property
    def words(self) -> str:
        """Its words."""
        return self.sentence.words

    def raw(self, start: int, end: int) -> str:
        """A part of its words as they are written, but for numbers in words."""
        at = self.sentence.start
        return self.scene.prose.text[at + start : at + end]

    def written_at(self, start: int, end: int) -> str:
        """A part of its words, numbers in words and lists as they are written."""
        at = self.sentence.start
        return self.scene.prose.raw[at + start : at + end]

    def figures(self, start: int, end: int) -> tuple[int, ...]:
        """The number at a part of its words, or those of its list, for each size."""
        at, sizes = self.sentence.start, len(self.context.source.sizes)
        return figures_of(self.lists, at + start, at + end, sizes)

    @property
    def figures_written(self) -> str:
        """Its words with all their lists as they are written."""
        start = self.sentence.start
        return in_figures(self.scene.prose.text[start : start + len(self.words)])

    def whole(self, start: int, end: int) -> tuple[int, int]:
        """From where to where the number that ends a part of its words is written: with the list
        that it stands for, or as a word."""
        at, text = self.sentence.start, self.scene.prose.text
        listed = self.lists.between(at + start - 1, at + end)
        if listed is not None:
            return listed.start - at, end
        if self.words[start:end].isdigit() and not text[at + end - 1].isdigit():
            while start and (text[at + start - 1].isalpha() or text[at + start - 1] == "-"):
                start -= 1
        return start, end

    def is_proved(self, start: int, end: int) -> bool:
        """Whether a check has proved a part of its words."""
        at = self.sentence.start
        return any(a < at + end and at + start < b for a, b in self.proved)


class Doubt(Record):
    """A claim of a sentence, from ``start`` to ``end`` of its words, that nothing near confirms;
    ``why`` says in a few words what was looked for in vain."""

    start: int
    end: int
    why: str


def figures_of(lists: Lists, start: int, end: int, sizes: int) -> tuple[int, ...]:
    """The number at a part of a text, or those of its list, for each of so many sizes."""
    listed = lists.between(start - 1, end)
    return listed.figures if listed is not None else (int(lists.text[start:end]),) * sizes


def are_among(numbers: Sequence[int], facts: Iterable[Figures]) -> bool:
    """Whether one and the same fact has the number given for each size."""
    return len(Truth("", tuple(facts)).sizes_of(numbers)) == len(numbers)


Doubts = Callable[[Told], Iterator[Doubt]]


def _names(name: str, words: str) -> bool:
    """Whether words name a part, by its whole name or by the last word of it."""
    last = re.escape(name.split()[-1])
    return name.lower() in words.lower() or bool(re.search(rf"(?i)\b{last}s?\b", words))


def steps_near(told: Told) -> Sequence[StepPlan]:
    """The steps that a sentence may speak of: its own, those since the last heading and up to the
    next words; of a text of no step, those of the parts that it names, or all."""
    scene = told.scene
    if scene.own is not None:
        return (scene.own, *scene.behind[-1:])
    if scene.plan is not None:
        return (*scene.ahead, *scene.behind[-1:]) or scene.plan.steps
    named = [
        step
        for part in parts_of(told.context)
        if part.name and _names(part.name, told.words)
        for step in part.steps
    ]
    return named or tuple(
        step for plan in told.context.plan.pieces for step in plan.steps if works(step)
    )
