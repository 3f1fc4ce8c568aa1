"""What the texts refer to: sections, charts and their rows, pages, sizes and yarns are there."""

from collections.abc import Iterable, Iterator

from bindoff import regex as re
from bindoff.checks.context import Context
from bindoff.checks.engine import Finding, check
from bindoff.checks.prose import Prose
from bindoff.checks.texts.named.judges import EXISTS, judged
from bindoff.checks.walk import parts_of, steps_of, yarns_worked
from bindoff.diagnostics import Severity, Span
from bindoff.document.tree import Heading, plain
from bindoff.plan.steps.common import HOOK
from bindoff.plan.worked import StepPlan
from bindoff.plan.yarn import BindOffKind, CastOnKind
from bindoff.source.model import TextUse
from bindoff.source.rowlang.syntax import Alter, CountChange

_SECTION = re.compile(
    r"\b(?:sections?|headings?) (?:called |named )?[“\"‘']?([A-Z][\w'’-]*(?: [a-z][\w'’-]*){0,3})"
)
_CHART = re.compile(
    r"\b[Cc]hart ([A-Z](?![\w'’])|[A-Z][a-z][\w'’-]*"
    r"|\d+(?![\w.]|\s*(?:\(|times|rows?|rounds?|stitches|repeats)))"
)
_THE_CHART = re.compile(r"\b(?:the|this) (?:whole )?charts?\b(?! of)", re.IGNORECASE)
_EDGE = re.compile(
    r"\b(?:the|each|both|its|their) (cast-on|picked-up|bound-off|cast-off|gathered|provisional)(?: "
    r"cast-on)?"
    r" (?:edges?|stitches)\b",
    re.IGNORECASE,
)
_PAGE = re.compile(r"\b(?:see|on|from|at) page \d+\b", re.IGNORECASE)
_SIZE = re.compile(r"\b[Ss]izes? ((?:\d?X{1,5}|X{0,5})(?:S|M|L)|\dX)\b")
_LETTERED = re.compile(r"(?:\d?X{1,5}|X{0,5})(?:S|M|L)|\dX")
_AGES = re.compile(r"\b[Ss]izes? (\d+) ?(?:to|–|-) ?(\d+) (years?|months?)\b")
_JOIN = re.compile(r"\b(?:[Jj]oin|[Rr]ejoin)(?: in)? (?:yarn )?([A-Z][a-z'’]+)(?![\w-])")
_CUT = re.compile(r"\b(?:[Cc]ut|[Bb]reak)(?: off)? (?:yarn )?([A-Z][a-z'’]+)(?![\w-])")
_AS_FOR = re.compile(
    r"\b(?:as|same as|like) (?:for|on) the ((?:left|right|upper|lower|[A-Z][a-z]+"
    r"|(?!other|first|second|third|last|next|same|two|whole|small|large|long|short|plain|main|big)"
    r"[a-z]{4,}) )?(back|front"
    r"|sleeve|yoke|body|collar|hood|pocket|band|cuff|strip|square|panel|flap|heel|foot|leg|toe"
    r"|thumb|crown|brim|half|wing|ear|arm|head|tail|border|neckband|armband)s?\b(?![-–\w])"
)
_LETTER = re.compile(r"\b(?:cut|break|carry|drop|change to|with|in) ([B-H])\b(?![.'’]?\w)")
_OF_LETTER = re.compile(r"\(([A-Z])\)|^([A-Z])$")


@check(
    id="prose.reference",
    title="What the text refers to is there",
    looks_at="sections, charts, sizes, yarns, pieces (`as for the back`), parts, things added to "
    "them, held stitches, edges, seams and methods that texts name, against those that there are; "
    "lists that name one part twice; pages, which differ from edition to edition; and a yarn "
    "that is cut before a step that works it",
    why="a knitter who is sent to something that is not there stops, and searches",
    severity=Severity.WARNING,
    remedy="Name what is there, as it is called there",
)
def references(context: Context) -> Iterator[Finding]:
    """One finding for each reference."""
    if not context.in_english:
        return
    for prose in context.prose:
        if prose.kind in (TextUse.STEP, TextUse.TEXT, TextUse.HEAD):
            yield from _parts(context, prose)
            yield from _sizes(context, prose)
            yield from _yarns(context, prose)
    yield from _changes(context)
    yield from judged(context, EXISTS)


def _parts(context: Context, prose: Prose) -> Iterator[Finding]:
    """Sections, charts, rows of charts and pages."""
    for found, place in prose.found(_SECTION):
        headings = _headings(context)
        words = found[1].lower()
        first = words.split()[0]
        if not any(words.startswith(each) or first in each.split() for each in headings):
            yield Finding(f"there is no section called `{found[1]}`", place)
    charts = context.pattern.charts
    called = {word for key, c in charts.items() for word in f"{key} {c.title}".lower().split()}
    for found, place in prose.found(_CHART):
        if found[1].lower() not in called:
            yield Finding(f"there is no chart called `{found[1]}`", place)
    for found, place in prose.found(_THE_CHART) if not charts else ():
        yield Finding(f"`{found[0]}` stands here, and the pattern has no chart", place)
    for found, place in prose.found(_AS_FOR):
        yield from _as_for(context, found[1], found[2], place)
    for found, place in prose.found(_EDGE):
        if not _has_edge(context, found[1].lower()):
            yield Finding(f"`{found[0]}` stands here, and no piece has one", place)
    for found, place in prose.found(_PAGE):
        yield Finding(f"`{found[0]}` is another page in each edition", place, "Name the section")


def _has_edge(context: Context, kind: str) -> bool:
    """Whether a step of any piece makes an edge of that kind."""
    steps = [at.step for at in steps_of(context)]
    changes = {
        part.change
        for step in steps
        for row in step.all_rows
        for part in parts_of(row)
        if isinstance(part, Alter)
    }
    begun = {step.begins.by for step in steps if step.begins is not None}
    closed = {step.closes.by for step in steps if step.closes is not None}
    match kind:
        case "cast-on":
            return bool(begun - {None}) or CountChange.CAST_ON in changes or _any_tube(steps)
        case "provisional":
            return CastOnKind.PROVISIONAL in begun or _any_tube(steps)
        case "picked-up":
            picked = {CountChange.PICK_UP, CountChange.PICK_UP_PURL} & changes
            told = any(re.search(r"(?i)\bpick(?:ed)? up\b", each.text) for each in context.prose)
            return (
                None in begun
                or bool(picked)
                or (
                    sum(
                        len(re.findall(r"(?i)\bpick(?:ed)?[- ]up\b", each.text))
                        for each in context.prose
                    )
                    > 1
                    and told
                )
            )
        case "gathered":
            return BindOffKind.GATHERED in closed or _any_tube(steps)
        case _:
            bound = CountChange.BIND_OFF in changes
            return bound or bool(closed - {None, BindOffKind.GATHERED}) or _any_tube(steps)


def _any_tube(steps: Iterable[StepPlan]) -> bool:
    """Whether there are tubes from the machine or edgings, whose edges are told by themselves."""
    return any(step.tubes or HOOK in step.tools for step in steps)


def _as_for(context: Context, which: str | None, part: str, place: Span) -> Iterator[Finding]:
    """A piece or a section that another is worked like, where there is none of that name."""
    headings = [each for each in _headings(context) if part in each]
    which = (which or "").strip().lower()
    # One that is made twice is a left and a right one, though its title names neither.
    sided = which in ("left", "right") and any(
        part in piece.title.lower() and piece.make > 1 for piece in context.pattern.pieces.values()
    )
    if not headings and not any(part in prose.piece for prose in context.prose if prose.piece):
        yield Finding(f"there is no {part} to work it like", place)
    elif which and headings and not sided and not any(which in each for each in headings):
        there = [p.title for p in context.pattern.pieces.values() if part in p.title.lower()]
        named = f": there is {' and '.join(there)}" if there else ""
        yield Finding(f"there is no {which} {part}{named}", place)


def _headings(context: Context) -> set[str]:
    found = {plain(b.children).lower() for b in context.document.blocks if isinstance(b, Heading)}
    found |= {at.step.heading.lower() for at in steps_of(context) if at.step.heading}
    found |= {piece.title.lower() for piece in context.pattern.pieces.values()}
    return found - {""}


def _sizes(context: Context, prose: Prose) -> Iterator[Finding]:
    names = set(context.source.sizes)
    if any(_LETTERED.fullmatch(name) for name in names):
        for found, place in prose.found(_SIZE):
            if not any(found[1] in name.split() for name in names):
                yield Finding(f"there is no size {found[1]}", place)
    for found, place in prose.found(_AGES):
        unit = found[3].rstrip("s")
        ages = {name for name in names if unit in name}
        for age in (found[1], found[2]):
            if ages and not any(age in re.findall(r"\d+", name) for name in ages):
                yield Finding(f"there is no size of {age} {unit}s", place)
                break


def _yarns(context: Context, prose: Prose) -> Iterator[Finding]:
    letters = {
        found[1] or found[2]
        for yarn in context.pattern.yarns.values()
        for found in [_OF_LETTER.search(yarn.name)]
        if found
    }
    for found, place in prose.found(_LETTER) if letters else ():
        if found[1] not in letters:
            yield Finding(f"no yarn goes by the letter {found[1]}", place)


def _changes(context: Context) -> Iterator[Finding]:
    """A yarn that a step of prose alone cuts, and the next step works."""
    keys = {yarn.name.lower(): key for key, yarn in context.pattern.yarns.items()}
    keys |= {key.lower(): key for key in context.pattern.yarns}
    for prose in context.prose:
        if prose.path[:1] != ("pieces",) or prose.path[-1] != "say":
            continue
        index = int(prose.path[3])
        later = [at for at in steps_of(context) if at.plan.key == prose.piece and at.index > index]
        following = next((at for at in later if any(at.step.rounds)), None)
        worked = yarns_worked(following.step) if following else set()
        if following is None or not worked:
            continue
        if any(at.step.begins for at in later if at.index <= following.index):
            continue  # which joins its yarn anew
        between = " ".join(_between(context, prose, index, following.index))
        joined = {keys.get(found[1].lower()) for found in _JOIN.finditer(between)}
        for found, place in prose.found(_CUT):
            key = keys.get(found[1].lower())
            if worked == {key} and not joined:
                yield Finding(f"this cuts {found[1]}, and the next rows are in it", place)


def _between(context: Context, prose: Prose, first: int, last: int) -> Iterator[str]:
    """The texts of these steps of a piece."""
    for each in context.prose:
        same = each.path[:3] == prose.path[:3] and len(each.path) > len(prose.path[:3])
        if same and first <= int(each.path[3]) <= last:
            yield each.text


CHECKS = (references,)
