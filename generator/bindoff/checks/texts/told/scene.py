"""Where a sentence stands in the work, and what is worked there."""

from collections.abc import Iterator, Sequence

from bindoff import regex as re
from bindoff.checks.context import Context
from bindoff.checks.prose import Prose
from bindoff.plan.worked import PiecePlan, StepPlan
from bindoff.records import Record
from bindoff.remembered import once_each
from bindoff.source.model import TextUse
from bindoff.source.steps.say import SayStep
from bindoff.source.steps.step import STEP_TEXTS


class Scene(Record):
    """What a text stands at; a text of the whole pattern has no ``plan``.

    ``own`` is the step that a note belongs to. ``ahead`` are the steps that a text between steps
    goes before: up to the next such text or heading, ``coming`` up to the next heading. ``behind``
    are those since the last heading, and ``section`` are all between two headings. ``live`` are the
    stitches on the needles, per size; none outside a piece.
    """

    prose: Prose
    plan: PiecePlan | None = None
    own: StepPlan | None = None
    ahead: tuple[StepPlan, ...] = ()
    coming: tuple[StepPlan, ...] = ()
    behind: tuple[StepPlan, ...] = ()
    section: tuple[StepPlan, ...] = ()
    live: tuple[int, ...] = ()

    @property
    def here(self) -> tuple[StepPlan, ...]:
        """The steps that the text is about: its own, or those ahead."""
        return (self.own,) if self.own is not None else self.ahead


def step_scenes(context: Context) -> Iterator[Scene]:
    """The scene of each text of a step, in an English pattern."""
    if not context.in_english:
        return
    for prose in context.prose:
        if prose.kind is TextUse.STEP and prose.path[-1] in STEP_TEXTS:
            scene = scene_of(context, prose)
            if scene.plan is not None:
                yield scene


def scene_of(context: Context, prose: Prose) -> Scene:
    """Where a text stands: at a step, or nowhere in particular."""
    if prose.piece is None or len(prose.path) < 4 or prose.path[2] != "steps":
        return Scene(prose)
    plan = next((each for each in context.plan.pieces if each.key == prose.piece), None)
    index = int(prose.path[3])
    if plan is None or index >= len(plan.steps):
        return Scene(prose)
    step = plan.steps[index]
    first, last = _section(plan.steps, index)
    own = None if isinstance(step.step, SayStep) else step
    after = plan.steps[index + 1 : last]
    return Scene(
        prose,
        plan,
        own if own is not None and works(own) else None,
        tuple(_up_to_words(after)) if own is None else (),
        tuple(filter(works, after)),
        tuple(filter(works, plan.steps[first:index])),
        tuple(filter(works, plan.steps[first:last])),
        tuple(each.stitches for each in step.before),
    )


def works(step: StepPlan) -> bool:
    """Whether a step works anything, rather than says it."""
    return any(step.rounds) or step.begins is not None or step.closes is not None


def _section(steps: Sequence[StepPlan], index: int) -> tuple[int, int]:
    """The steps between the heading before ``index`` and the one after it."""
    first = next((at for at in range(index, -1, -1) if steps[at].heading), 0)
    last = next((at for at in range(index + 1, len(steps)) if steps[at].heading), len(steps))
    return first, last


def _up_to_words(steps: Sequence[StepPlan]) -> Iterator[StepPlan]:
    """The steps up to the next words between steps, at least one."""
    any_ = False
    for step in steps:
        if isinstance(step.step, SayStep) and any_:
            return
        if works(step):
            any_ = True
            yield step


# ---------------------------------------------------------------- parts that have a name


class Part(Record):
    """Steps that go by one name: those below a heading, or of a whole piece."""

    name: str
    steps: tuple[StepPlan, ...]


@once_each
def parts_of(context: Context) -> tuple[Part, ...]:
    """Every piece and every section, in the order in which they are worked."""
    found: list[Part] = []
    for plan in context.plan.pieces:
        title = context.pattern.pieces[plan.key].title
        found.append(Part(title, tuple(filter(works, plan.steps))))
        for index, step in enumerate(plan.steps):
            if step.heading:
                _, last = _section(plan.steps, index)
                found.append(Part(step.heading, tuple(filter(works, plan.steps[index:last]))))
    return tuple(found)


def parts_named(context: Context, noun: str, piece: str | None = None) -> tuple[Part, ...]:
    """The pieces and sections whose name has ``noun`` in it, in one number or the other.

    A section wins over a piece of the same name, and one of ``piece`` over others.
    """
    word = re.compile(rf"\b{re.escape(noun.rstrip('s'))}s?\b", re.IGNORECASE)
    found = [part for part in parts_of(context) if part.steps and word.search(part.name)]
    exact = [part for part in found if word.fullmatch(part.name)]
    if piece is not None:
        plan = context.plan.piece(piece)
        inside = [part for part in found if set(map(id, part.steps)) <= set(map(id, plan.steps))]
        exact = [part for part in exact if part in inside] or inside or exact
    return tuple(exact or found)


_SIZE_WORDS = re.compile(r"\b(smallest|largest|biggest)\b", re.IGNORECASE)


def sizes_named(context: Context, sentence: str, number: int | None = None) -> tuple[int, ...]:
    """The sizes that a sentence speaks of; all where it names none.

    Of several that are named, each with a number, the one that goes with the ``number`` that begins
    there: the next before it where a size comes first, as in ``the cap has 5, the hood 9``, the
    next after it else, as in ``97 for the cap or 127 for the hood``.
    """
    names = context.source.sizes
    every = tuple(range(len(names)))
    if len(names) == 1:
        return every
    places = sorted(_sizes_at(names, sentence))
    found = {size for _, size in places}
    if number is not None and len(found) > 1:
        figures = [each.start() for each in re.finditer(r"(?<![\w.])\d+", sentence)]
        before = [size for at, size in places if at < number]
        after = [size for at, size in places if at > number]
        nearest = before[-1:] if figures and places[0][0] < figures[0] else after[:1]
        return tuple(nearest) or tuple(sorted(found))
    return tuple(sorted(found)) or every


def _sizes_at(names: Sequence[str], sentence: str) -> Iterator[tuple[int, int]]:
    """Where a sentence names sizes, and which."""
    for index, name in enumerate(names):
        sized = rf"\b[Ss]izes?\b[^.;]{{0,40}}?\b({re.escape(name)})(?![\w’'])"
        for each in re.finditer(sized, sentence):
            yield each.start(1), index
        for each in re.finditer(rf"(?i:the) {re.escape(name)} size\b", sentence):
            yield each.start(), index
        if len(name) > _SHORT:
            named = rf"\b(?:{re.escape(name)}|[Tt]he {re.escape(name.lower())})\b"
            for each in re.finditer(named, sentence):
                yield each.start(), index
        else:
            letters = (
                rf"\b(?:[Tt]he|in|for) {re.escape(name)}(?=,? (?:which|that|has|is|and|or)\b|[,.;])"
            )
            for each in re.finditer(letters, sentence):
                yield each.start(), index
    for each in _SIZE_WORDS.finditer(sentence):
        yield each.start(), 0 if each[1].lower() == "smallest" else len(names) - 1


_SHORT = 3
"""A name no longer than that is a size's only where it is called one."""
