"""Lists of figures for the sizes that are those of the plan but for a size, or for two exchanged.

A number is held against all that is near its place, so that a figure of one thing may be confirmed
by another. A list is told by all its figures together: one that has those of its own step in every
size but one, and of nothing else in all, has a slip in that size.
"""

from collections.abc import Iterator, Sequence
from itertools import pairwise

from bindoff.checks.context import Context
from bindoff.checks.engine import Finding
from bindoff.checks.prose import Prose
from bindoff.checks.sentencesof import Sentence, sentences_of
from bindoff.checks.texts.told import truths
from bindoff.checks.texts.told.judged import Judged
from bindoff.checks.texts.told.numbers import Listed, Lists, in_figures, lists_as_numbers
from bindoff.checks.texts.told.scene import Scene, scene_of
from bindoff.checks.texts.told.truths import phrase
from bindoff.checks.walk import steps_of
from bindoff.plan.values import Kind
from bindoff.plan.worked import Progress, StepPlan
from bindoff.remembered import once_each

Counts = tuple[int, ...]

_FEWEST_SIZES = 3
"""Of two figures one that fits proves nothing of the other."""
_SMALLEST = 6
"""Small figures come again by chance."""
_STITCHES = phrase(r"^ (?:[a-z]+ ){0,2}(?:stitches|sts|loops)\b")
_BETWEEN = phrase(r"^ (?:stitches|sts)(?: now)? (?:stand |lie |are )?between the (?:2 )?markers\b")
_HALF = phrase(r"\bhalf\b|\bhalves\b")


def nearly_told(context: Context, prose: Prose, told: Sequence[Judged]) -> Iterator[Finding]:
    """Every list of stitches in a text that agrees with the plan in all sizes but one, or that has
    two of its figures exchanged; those that were ``told`` as wrong are told already."""
    sizes = len(context.source.sizes)
    if sizes < _FEWEST_SIZES or "(" not in prose.text:
        return
    lists = lists_as_numbers(in_figures(prose.text), sizes)
    if not lists.lists:
        return
    scene = scene_of(context, prose)
    wrong = [(each.start, each.end) for each in told if each.wrong]
    for sentence in sentences_of(prose, lists.text):
        for listed in _within(sentence, lists):
            if any(start < listed.end and listed.start < end for start, end in wrong):
                continue
            yield from tuple(_marked(context, scene, sentence, listed)) or _off(
                context, scene, sentence, listed
            )


def _within(sentence: Sentence, lists: Lists) -> Iterator[Listed]:
    """The lists of a sentence that count stitches."""
    for each in lists.lists if not sentence.supposes else ():
        inside = sentence.start <= each.start <= each.end <= sentence.start + len(sentence.words)
        if inside and _STITCHES.search(_behind(sentence, each)):
            yield each


def _behind(sentence: Sentence, listed: Listed) -> str:
    """The words of a sentence behind a list."""
    return sentence.words[listed.end - sentence.start :]


def _marked(
    context: Context, scene: Scene, sentence: Sentence, listed: Listed
) -> Iterator[Finding]:
    """Stitches said to stand between the markers, at a step that leaves others there."""
    if scene.own is None or not _BETWEEN.search(_behind(sentence, listed)):
        return
    last = [levels[-1] for levels in scene.own.levels if levels]
    places = [sorted(level.markers) for level in last]
    if len(places) != len(listed.figures) or len({len(each) for each in places}) != 1:
        return
    between = [
        tuple(b - a for a, b in zip(one, other, strict=True))
        for one, other in pairwise(zip(*places, strict=True))
    ]
    if between and listed.figures not in between:
        yield _other(context, scene, listed, between[0])


def _off(context: Context, scene: Scene, sentence: Sentence, listed: Listed) -> Iterator[Finding]:
    """A list with a figure that is not the plan's, or with two exchanged."""
    figures = listed.figures
    if min(figures) < _SMALLEST:
        return
    halved = _HALF.search(sentence.words) is not None
    one = _but_for_one(scene, figures)
    two = None if one else _exchanged(context, figures, halved=halved)
    meant = one or two
    if meant is not None and not _known(context, figures, sure=one is not None):
        yield _other(context, scene, listed, meant)


def _but_for_one(scene: Scene, figures: Counts) -> Counts | None:
    """The stitches of a step, of which a list has those of all sizes but one."""
    for counts in _counts_of(scene.own) if scene.own is not None else ():
        if sum(a != b for a, b in zip(figures, counts, strict=True)) == 1:
            return counts
    return None


def _exchanged(context: Context, figures: Counts, *, halved: bool) -> Counts | None:
    """The stitches of any step, or halves of them, of which a list has two in each other's
    place."""
    every = _all_counts(context)
    halves = [tuple(n // 2 for n in each) for each in every if not any(n % 2 for n in each)]
    for counts in halves if halved else every:
        differ = sum(a != b for a, b in zip(figures, counts, strict=True))
        if differ == _TWO and sorted(figures) == sorted(counts) and len(set(counts)) > _TWO:
            return counts
    return None


_TWO = 2


def _other(context: Context, scene: Scene, listed: Listed, counts: Counts) -> Finding:
    """The finding of a list, where the plan has ``counts``."""
    off = [i for i, (a, b) in enumerate(zip(listed.figures, counts, strict=True)) if a != b]
    said = " ".join(scene.prose.text[listed.start : listed.end].split())
    right = f"{counts[0]} ({', '.join(map(str, counts[1:]))})"
    return Finding(
        f"`{said}` stands here, and the plan has {right}",
        scene.prose.place(listed.start, listed.end),
        sizes=tuple(context.source.sizes[index] for index in off),
    )


# ---------------------------------------------------------------- what the plan has


def _counts_of(step: StepPlan) -> tuple[Counts, ...]:
    """The stitches that a step finds, begins and leaves, per size."""
    found = [_live(step.before), _live(step.after)]
    if step.begins is not None:
        found.append(tuple(map(sum, zip(*step.begins.parts, strict=True))))
    return tuple(each for each in dict.fromkeys(found) if all(each))


def _live(progress: Sequence[Progress]) -> Counts:
    return tuple(each.stitches for each in progress)


@once_each
def _all_counts(context: Context) -> tuple[Counts, ...]:
    """The stitches that any step finds, begins or leaves."""
    return tuple(dict.fromkeys(each for at in steps_of(context) for each in _counts_of(at.step)))


def _known(context: Context, figures: Counts, *, sure: bool) -> bool:
    """Whether anything in the plan has all figures of a list; with ``sure`` only what has one
    figure in each size, as of many some will fit."""
    return any(
        all(number in some for number, some in zip(figures, each, strict=True))
        for each in _all_figures(context)
        if not sure or set(map(len, each)) == {1}
    )


@once_each
def _all_figures(context: Context) -> tuple[truths.Figures, ...]:
    """All that any step counts, with halves of it, and all measures that are counts."""
    steps = truths.all_steps(context)
    found = [figures for step in steps for figures in _figures_of(context, step)]
    found += [*truths.edge_counts(context, steps), *truths.repeat_counts(context, steps)]
    for value in context.plan.measures.named.values():
        if value.kind is not Kind.LENGTH:
            found.append(truths.plain(value.counts))
    return tuple(dict.fromkeys((*found, *truths.halves(tuple(found)))))


def _figures_of(context: Context, step: StepPlan) -> Iterator[truths.Figures]:
    yield from truths.leaves(step, rows=True)
    yield truths.finds(step)
    yield from truths.changes(step)
    yield from truths.numbers_in(context, step)
    yield from truths.between_edges(context, step)
    yield from map(truths.plain, truths.between_markers(step))
    yield truths.plain(step.rounds)
