"""What stands at a place of the source, in a few lines: a key, a yarn, a measure, a stitch.

The words of a key are the schema's, those of a stitch the ones of ``bindoff words``; what a yarn or
a measure comes to is taken from the plan.
"""

from collections.abc import Iterator, Sequence

from bindoff import regex as re
from bindoff.desk.completing import ITEM, NAMED, meaning
from bindoff.desk.reckoning import figures_of
from bindoff.diagnostics import PatternError, Span
from bindoff.plan.plan import Plan
from bindoff.records import Record
from bindoff.source.rowlang.listing import entries, explained
from bindoff.source.steps.step import STEP_TEXTS
from bindoff.source.yamltree import Place, read_yaml

_WORD = re.compile(r"[\w/#&+.-]+")
_PROSE = (*STEP_TEXTS, "title", "section", "summary", "skill", "alt", "finishing", "because")
_WITH_ROWS = ("pieces", "stitch patterns", "charts", "stitches")


class About(Record):
    """What is said of a place, and the characters (from 1, the end excluded) it is said of."""

    title: str
    lines: tuple[str, ...]
    start: tuple[int, int]
    end: tuple[int, int]


def about(plan: Plan, name: str, text: str, line: int, column: int) -> About | None:
    """What is known of a line and column (from 1) of the file ``name`` with that text.

    ``None`` where nothing is, and where the text can't be read.
    """
    if name.endswith(".grid"):
        return _cell(plan, name, text, line, column)
    try:
        tree = read_yaml(text, name)
    except PatternError:
        return None
    path, place, on_key = _found(Place(tree.lines, tree.root, tree.root.span), line, column)
    if not path:
        return None
    if on_key:
        group = tree.at(path[:-1]).node.children
        return _said(plan, path, [str(each) for each in group], place.key_span)
    if place.node.text is None:
        return None
    return _value(plan, path, place, line, column)


def _found(place: Place, line: int, column: int) -> tuple[tuple[str | int, ...], Place, bool]:
    """The path to what holds a place, and whether it is on the key."""
    path: tuple[str | int, ...] = ()
    while True:
        for part in place.node.children:
            child = place.of(part)
            named = isinstance(part, str)
            if named and _holds(child.key_span, line, column):
                return (*path, part), child, True
            if _holds(child.span, line, column):
                path, place = (*path, part), child
                break
        else:
            return path, place, False


def _holds(span: Span, line: int, column: int) -> bool:
    return (span.line, span.column) <= (line, column) < (span.end_line, span.end_column)


def _said(plan: Plan, path: Sequence[str | int], beside: Sequence[str], span: Span) -> About | None:
    """What a key is for; of a name that the pattern gives itself, what has that name."""
    key = str(path[-1])
    if len(path) == 2 and (own := list(_named(plan, str(path[0]), key))):
        return _at(own[0], own[1:], span)
    steps = [ITEM if isinstance(part, int) else part for part in path]
    words = meaning(steps, beside)
    return _at(key, [words], span) if words else None


def _at(title: str, lines: Sequence[str], span: Span) -> About:
    return About(title, tuple(lines), (span.line, span.column), (span.end_line, span.end_column))


def _value(
    plan: Plan, path: Sequence[str | int], place: Place, line: int, column: int
) -> About | None:
    """What a name means where it is used: a yarn, a chart, a piece, a measure, or a stitch."""
    keys = [part for part in path if isinstance(part, str)]
    key = keys[-1] if keys else ""
    part = "yarns" if "legend" in keys else NAMED.get(key)
    whole = place.text
    if part and (own := list(_named(plan, part, whole))):
        return _at(own[0], own[1:], place.span)
    if key in _PROSE:
        return None
    text = place.lines.line(line - 1)
    for found in _WORD.finditer(text):
        if found.start() < column <= found.end():
            span = Span(place.span.file, line, found.start() + 1, line, found.end() + 1)
            own = list(_named(plan, "measures", found[0]))
            if own:
                return _at(own[0], own[1:], span)
            return _stitch(plan, found[0], span) if keys[0] in _WITH_ROWS else None
    return None


def _stitch(plan: Plan, word: str, span: Span) -> About | None:
    """A stitch as ``bindoff words`` has it; ``k2`` and ``p3`` are their stitch, counted."""
    for tried in (word, re.sub(r"(?<=[a-z])[0-9]+$", "", word)):
        found = entries(tried, plan.book) if tried else ()
        if found:
            first, *rest = explained(found[0], plan.book).split("\n")
            return _at(first, _joined(rest), span)
    return None


def _joined(lines: Sequence[str]) -> list[str]:
    """Sentences that were wrapped for a terminal, each as one line again."""
    return re.sub(r"(?<![.:])\n", " ", "\n".join(each.strip() for each in lines)).split("\n")


def _named(plan: Plan, part: str, name: str) -> Iterator[str]:
    """The title of what has that name in a part of the pattern, and what there is to say of it."""
    pattern = plan.source.pattern
    if part == "yarns" and name in pattern.yarns:
        yarn = pattern.yarns[name]
        yield f"Yarn {yarn.name}"
        yield ", ".join(filter(None, (yarn.colour, f"weight {yarn.weight}", yarn.fibre, yarn.ball)))
        for total in plan.yarn:
            if total.yarn == name:
                grams = [f"{need.grams:.0f} g" for need in total.needs]
                yield f"Needed: {_by_size(plan, grams)}."
    elif part == "charts" and name in pattern.charts:
        chart = pattern.charts[name]
        yield f"Chart {chart.title}"
        sizes = [f"{grid.width} stitches, {grid.height} lines" for grid in plan.source.grids[name]]
        yield f"{_by_size(plan, sizes)}."
        yield chart.alt
    elif part == "pieces" and name in pattern.pieces:
        piece = plan.piece(name)
        yield f"Piece {pattern.pieces[name].title}"
        steps = sum(not step.heading for step in piece.steps)
        yield f"{steps} steps." if steps != 1 else "1 step."
    elif part in ("measures", "finished"):
        known = plan.measures.named if part == "measures" else plan.measures.finished
        if name in known:
            yield f"Measure {name}" if part == "measures" else name
            rows = figures_of(name, known[name], plan)["rows"]
            formulas = dict.fromkeys(row["formula"] for row in rows if row["formula"])
            yield from (f"= {formula}" for formula in formulas)
            values = [row["value"] for row in rows for _ in row["sizes"]]
            yield f"{_by_size(plan, values)}."


def _by_size(plan: Plan, words: Sequence[str]) -> str:
    """One word for all sizes, or each with its size."""
    if len(set(words)) == 1:
        return words[0]
    return ", ".join(f"{size} {each}" for size, each in zip(plan.source.sizes, words, strict=True))


def _cell(plan: Plan, name: str, text: str, line: int, column: int) -> About | None:
    """What the character of a grid stands for in the charts that are drawn by it."""
    lines = text.split("\n")
    row = lines[line - 1] if 1 <= line <= len(lines) else ""
    character = row[column - 1 : column] if column >= 1 else ""
    if not character.strip():
        return None
    pattern = plan.source.pattern
    for key, chart in pattern.charts.items():
        stands = chart.legend.get(character)
        grid = next((each for each in plan.source.grids[key] if each.file.endswith(name)), None)
        if grid is None or stands is None:
            continue
        yarn, stitch = (stands, stands) if isinstance(stands, str) else (stands.yarn, stands.stitch)
        said = [pattern.yarns[yarn].name] if yarn in pattern.yarns else []
        said += [stitch] if stitch and stitch not in pattern.yarns else []
        number = grid.height - (line - grid.first_line)
        right = len(row.rstrip()) - column + 1
        where = f"Line {number} of {chart.title}, stitch {right} from the right"
        return About(
            where, (f"`{character}`: {', '.join(said)}.",), (line, column), (line, column + 1)
        )
    return None
