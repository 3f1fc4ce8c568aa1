"""Rows by their side, and the end of a row at which something is done, as texts tell them."""

from collections.abc import Iterable, Iterator, Sequence

from bindoff import regex as re
from bindoff.checks.context import Context
from bindoff.checks.sentencesof import Sentence
from bindoff.checks.texts.told import truths
from bindoff.checks.texts.told.counts import Statement
from bindoff.checks.texts.told.numbers import NUMBER, number_of
from bindoff.checks.texts.told.scene import Scene
from bindoff.checks.texts.told.truths import flat, phrase
from bindoff.plan.worked import StepPlan
from bindoff.source.rowlang.syntax import Alter, CountChange, Fill, Part, Repeat, Row, Work

_SIDE = r"(?:(right|wrong)[- ]sides?|(?-i:\b(RS|WS)\b))"
_NUMBERED = phrase(
    rf"\brow ({NUMBER}) (?:is |being )(?:now |always |worked )?(?:on )?(?:an? |the )?{_SIDE}(?: "
    rf"rows?)?\b"
    rf"|\brow ({NUMBER}) ?\((?:an? |the |on the )?{_SIDE}(?: row)?\)"
)
_ODD_EVEN = phrase(
    rf"{_SIDE} (?:facing|toward|towards)(?: you)? (?:on|in)(?: all| the| all the)? (odd|even)\b"
    rf"|\b(odd|even)(?:-numbered)?(?: rows?)? (?:are|being|is)(?: all)?(?: worked)?(?: on)?(?: "
    rf"the)? {_SIDE}"
    rf"|\b{_SIDE} rows? (?:are|have|being)(?: all)?(?: the)? (odd|even)\b"
)
_LAST_OF = phrase(
    rf"\b(?:the )?last (?:one |row )?of (?:them|these|those|which)(?: rows)?,? (?:is |being "
    rf")?(?:worked )?"
    rf"(?:on )?(?:an? |the )?{_SIDE}\b"
)
_BOUND_OFF = phrase(
    rf"\b(?:bind|binding|bound|cast|casting) off\b[^.;:]{{0,40}}? (?:where|at the (?:beginning"
    rf"|start) of|on|in)"
    rf" (?:an? |the next |the following |the )?{_SIDE}(?: rows?)?\b(?! (?:facing|of|out))"
)
_SHAPED_ON = phrase(
    rf"\b(?:(?:in|de)creas(?:e|es|ed|ing)|shap(?:e|ed|es|ing))\b[^.;:]*?,? (?:always |only |all "
    rf"|each time )?"
    rf"(?:on|from) (?:the )?{_SIDE}(?! rows?)\b"
)
_KNIT_ON = phrase(
    rf"\b(knit|purl)(?:s|ting|ing|ted|ed)? (?:in |on )?(?:all |every |each )?(?:of )?(?:the "
    rf")?{_SIDE} rows?\b"
    rf"|\b{_SIDE} rows? (?:is|are) (?:all )?(?:worked )?(knit|purl)(?:ted|ed)?\b"
)
_WORKED_AT = phrase(
    r"\b(?:decreas(?:e|es|ed|ing)|increas(?:e|es|ed|ing)|shap(?:e|es|ed|ing)|bind(?:ing)? off"
    r"|bound off"
    r"|cast(?:ing)? off|lost|lose|loses)\b[^.;:]{0,70}? (?:at|on) the (beginning|start|end) of"
    rf" (?:every |each |the |all |an? |these |those )?(?:other |second |following )*(?:{_SIDE} "
    rf")?rows?\b"
)
_TWO_ENDS = phrase(
    r"\b(?:both|each end|beginning and (?:the )?end|start and (?:the )?end|either)\b"
)
_BORDER = phrase(r"\b(?:border|edging|edge|band|trim)\b")
_FROM_WRONG = phrase(
    r"\b(?:hold|holding|with|have|having|keep)\b[^.;:]{0,20}\bwrong side (?:of the \w+ "
    r")?(?:toward|towards"
    r"|facing|to) (?:you|us)\b"
)
_NAMES = {True: "a wrong-side row", False: "a right-side row"}
_WRONG = ("wrong", "ws")


def rowsides_told(context: Context, scene: Scene, sentence: Sentence) -> Iterator[Statement]:
    """Every side or end of a row in a sentence that the rows near it do not have."""
    if "row" in sentence.words or "side" in sentence.words or "ound off" in sentence.words:
        yield from _numbered(scene, sentence)
        yield from _odd_even(context, sentence)
        yield from _ended(scene, sentence)
        yield from _shaped_on(scene, sentence)
        yield from _knit_on(context, scene, sentence)
        yield from _at_end(context, scene, sentence)
        yield from _bordered(context, scene, sentence)


def _wrong(sentence: Sentence, found: "re.Match[str]", words: str) -> Statement:
    return Statement(sentence.start + found.start(), sentence.start + found.end(), 0, None, words)


def _says_wrong(found: "re.Match[str]") -> bool:
    """Whether it speaks of the wrong side."""
    said = (each.lower() for each in found.groups() if each)
    return any(each in _WRONG for each in said)


def _flat_steps(steps: Iterable[StepPlan]) -> list[StepPlan]:
    return [step for step in steps if step.flat and any(step.rounds)]


def _starts_wrong(step: StepPlan) -> set[bool]:
    """The sides of a step's first row; true is the wrong side."""
    return {each.wrong_side for each in step.before}


def _numbered(scene: Scene, sentence: Sentence) -> Iterator[Statement]:
    """``row 3 is a right-side row``, counted in the step, from its heading on or in the piece."""
    if scene.plan is None:
        return
    every = _flat_steps(scene.plan.steps)
    if not every or any(step.charts for step in every):
        return
    near = _flat_steps((*scene.behind[:1], *scene.here, *scene.section[:1])) or every[:1]
    for found in _NUMBERED.finditer(sentence.words):
        number = number_of(found[1] or found[4])
        sides = {
            first is not (number % 2 == 0)
            for step in (*near, every[0])
            for first in _starts_wrong(step)
        }
        if sides == {not _says_wrong(found)}:
            yield _wrong(sentence, found, f"row {number} is {_NAMES[not _says_wrong(found)]}")


def _odd_even(context: Context, sentence: Sentence) -> Iterator[Statement]:
    """The side of odd rows, of a pattern whose flat pieces all begin on the same."""
    found = _ODD_EVEN.search(sentence.words)
    if found is None or context.pattern.charts or "chart" in sentence.words:
        return
    pieces = [_flat_steps(plan.steps) for plan in context.plan.pieces]
    firsts = {side for steps in pieces if steps for side in _starts_wrong(steps[0])}
    odd = next(each for each in found.groups() if each and each.lower() in ("odd", "even"))
    if len(firsts) == 1:
        is_wrong = firsts.pop() is (odd.lower() == "odd")
        if is_wrong is not _says_wrong(found):
            name = _NAMES[is_wrong].removeprefix("a ")
            yield _wrong(sentence, found, f"{odd.lower()} rows are {name}s")


def _ended(scene: Scene, sentence: Sentence) -> Iterator[Statement]:
    """The side of the last of so many rows, and of the row that binds off."""
    own = scene.own
    for found in _LAST_OF.finditer(sentence.words) if own is not None and own.flat else ():
        assert own is not None
        sides = {not each.wrong_side for each in own.after}
        if sides == {not _says_wrong(found)}:
            yield _wrong(sentence, found, f"the last row here is {_NAMES[not _says_wrong(found)]}")
    for found in _BOUND_OFF.finditer(sentence.words):
        for step in (*scene.here, *_after(scene)):
            sides = set(_binding_sides(step))
            if sides:
                if sides == {not _says_wrong(found)}:
                    name = _NAMES[not _says_wrong(found)]
                    yield _wrong(sentence, found, f"the row that binds off is {name}")
                break


def _after(scene: Scene) -> Sequence[StepPlan]:
    """The next steps behind a text, beyond a heading too."""
    steps = scene.plan.steps if scene.plan is not None else ()
    at = int(scene.prose.path[3]) if steps else 0
    return steps[at + 1 : at + 4]


def _binding_sides(step: StepPlan) -> Iterator[bool]:
    """The sides of the rows of a flat step that bind off."""
    if not step.flat:
        return
    if step.closes and step.closes.by and not any(step.rounds):
        yield from (each.wrong_side for each in step.before)
    for index, row in enumerate(step.rows):
        if any(
            isinstance(part, Alter) and part.change is CountChange.BIND_OFF
            for part in flat(row.parts)
        ):
            yield from (each.wrong_side is not (index % 2 == 1) for each in step.before)


def _near(scene: Scene) -> Sequence[StepPlan]:
    """The steps that a text of a piece speaks of: its own, or those up to the next heading."""
    return (scene.own,) if scene.own is not None else scene.coming or scene.ahead


def _shaped_on(scene: Scene, sentence: Sentence) -> Iterator[Statement]:
    """Shaping that is said to be on one side, where all of it is on the other."""
    for found in _SHAPED_ON.finditer(sentence.words):
        sides = {
            side is not (row % 2 == 1)
            for step in _flat_steps(_near(scene))
            for size, _ in enumerate(step.before)
            for row in truths.shaped_rows(step, size)
            for side in (step.before[size].wrong_side,)
        }
        if sides == {not _says_wrong(found)}:
            name = _NAMES[not _says_wrong(found)].removeprefix("a ")
            yield _wrong(sentence, found, f"the rows that shape are {name}s")


def _knit_on(context: Context, scene: Scene, sentence: Sentence) -> Iterator[Statement]:
    """Rows of a side that are said to be knit, where they are purled, or the other way about."""
    for found in _KNIT_ON.finditer(sentence.words):
        stitch = next(e for e in found.groups() if e and e.lower() in ("knit", "purl"))[0].lower()
        steps = _flat_steps(_near(scene) if scene.plan is not None else truths.all_steps(context))
        worked = {each for step in steps for each in _plain(step, _says_wrong(found))}
        if worked == {"p" if stitch == "k" else "k"}:
            name = _NAMES[_says_wrong(found)].removeprefix("a ")
            done = "purled" if stitch == "k" else "knit"
            yield _wrong(sentence, found, f"{name}s are {done} here")


def _plain(step: StepPlan, wrong: bool) -> Iterator[str]:
    """The stitch of each row of a side that is one stitch throughout, of a step whose rows all
    are."""
    if not step.answers.in_turn or not step.rows or len(step.rows) % 2:
        return
    fills = [row.parts[0].stitch for row in step.rows if _is_plain(row)]  # type: ignore[union-attr]
    if len(fills) != len(step.rows):
        return
    for first in _starts_wrong(step):
        for index, each in enumerate(fills):
            if (first is not (index % 2 == 1)) is wrong:
                yield each


def _is_plain(row: Row) -> bool:
    return len(row.parts) == 1 and isinstance(row.parts[0], Fill)


def _at_end(context: Context, scene: Scene, sentence: Sentence) -> Iterator[Statement]:
    """Shaping that is said to be at one end of rows, where all of it is at the other."""
    if scene.plan is None or _TWO_ENDS.search(sentence.words):
        return
    for found in _WORKED_AT.finditer(sentence.words):
        side = next((each for each in found.groups()[1:] if each), None)
        ends = {
            end
            for step in _flat_steps(_near(scene))
            for index, row in enumerate(step.rows)
            for end in _ends(context, row)
            if side is None
            or (next(iter(_starts_wrong(step))) is not (index % 2 == 1)) is (side.lower() in _WRONG)
        }
        said = "end" if found[1].lower() == "end" else "beginning"
        if len(ends) == 1 and said not in ends:
            yield _wrong(sentence, found, f"the rows here shape at their {ends.pop()}")


def _ends(context: Context, row: Row) -> Iterator[str]:
    """The ends of a row at which it changes its count: before or after what fills it."""
    filled = [i for i, part in enumerate(row.parts) if isinstance(part, Fill | Repeat)]
    if len(filled) != 1:
        return
    for index, part in enumerate(row.parts):
        if index != filled[0] and _changes(context, part):
            yield "beginning" if index < filled[0] else "end"


def _changes(context: Context, part: Part) -> bool:
    if isinstance(part, Alter):
        return part.change in (CountChange.BIND_OFF, CountChange.CAST_ON)
    return isinstance(part, Work) and context.plan.book[part.stitch].shapes


def _bordered(context: Context, scene: Scene, sentence: Sentence) -> Iterator[Statement]:
    """An edging that is begun with the wrong side toward the knitter: they are worked outside."""
    if scene.plan is None:
        return
    headings = [step.heading for step in scene.plan.steps if step.heading]
    title = context.pattern.pieces[scene.plan.key].title
    if _BORDER.search(" ".join((title, *headings[:1]))):
        for found in _FROM_WRONG.finditer(sentence.words):
            yield _wrong(sentence, found, "an edging is worked with the right side facing")
