"""The keys of the charts: what stands for which yarn and stitch, the same in all charts."""

from collections.abc import Iterable, Mapping

from bindoff.craft.entry import Side, Stitch
from bindoff.craft.marks import LIKE_STITCHES, OWN_MARKS
from bindoff.craft.stitches.cells import BEYOND, BIND_OFF, NOT_WORKED, WRAPPED
from bindoff.diagnostics import PatternError, fail
from bindoff.document.charts.spec import ChartKey
from bindoff.document.charts.symbols import (
    COLOUR_SYMBOLS,
    GROUND_SYMBOLS,
    marked,
    symbol_of,
)
from bindoff.document.voice import Voice
from bindoff.plan.colour.palette import assign_symbols
from bindoff.plan.picture import cell_meaning
from bindoff.plan.plan import Plan
from bindoff.records import replace
from bindoff.source.chart import NO_STITCH, Chart

_EMPTY = COLOUR_SYMBOLS[0]
_NOTES = {
    BIND_OFF: "the stitch left on the right needle by the last of them is the next one of the row",
    WRAPPED: "the stitch that is wrapped stays on the needle",
    NOT_WORKED: "it lies beyond a turn and stays on the needle",
}
"""What the key adds, as the list of abbreviations does not."""


def worked_keys(voice: Voice, chart: Chart) -> tuple[ChartKey, ...]:
    """The key of a chart: one stitch has one symbol, whatever its yarn, and no two share one.

    A stitch that several yarns are worked in has the mark of its yarn small beside its symbol.
    Raises ``PatternError`` where no mark is left for a stitch without a symbol of its own.
    """
    found, meant = list[ChartKey](), dict[str, object]()
    stitches = {c: _worked_as(voice, chart, c) for c in chart.legend}
    yarns_of: dict[str, set[str | None]] = {}
    for stitch, yarn in stitches.values():
        yarns_of.setdefault(stitch, set()).add(yarn)
    for key in (_chart_key(voice, chart, character) for character in chart.legend):
        stitch, yarn = stitches[key.key]
        mark = yarn_symbols(voice)[yarn] if yarn else _EMPTY
        if stitch and len(yarns_of[stitch]) > 1 and mark != _EMPTY:
            key = replace(key, symbol=marked(key.symbol, mark))
        found.append(key)
    order = sorted(range(len(found)), key=lambda at: _first_choice(voice, stitches, found[at]))
    for at in order:
        key = found[at]
        if meant.setdefault(_picture(key.symbol), stitches[key.key]) != stitches[key.key]:
            taken = {*meant, *(_picture(each.symbol) for each in found)}
            free = next((each for each in _free(voice) if _picture(each) not in taken), None)
            if free is None or key.span > 1:
                raise _no_symbol(chart, key.key)
            found[at] = replace(key, symbol=free)
            meant[_picture(free)] = stitches[key.key]
    return tuple(found)


def _worked_as(voice: Voice, chart: Chart, character: str) -> tuple[str, str | None]:
    """What a character means: the stitch that the right side shows, empty for a yarn's knit
    stitch, and its yarn."""
    plan = voice.plan
    stitch, yarn = stitch_of(plan, chart, character), _yarn_of(plan, chart, character)
    if stitch is None or (yarn and stitch.id == "k"):
        return "", yarn
    return plan.book.showing(stitch, Side.RIGHT).id, yarn


def _first_choice(
    voice: Voice, stitches: Mapping[str, tuple[str, str | None]], key: ChartKey
) -> int:
    """Who keeps a symbol that two would have: a yarn before a stitch of the book, and that before
    one of the designer's own."""
    stitch, _ = stitches[key.key]
    if not stitch:
        return 0
    return 2 if stitch in voice.plan.source.pattern.stitches else 1


def _no_symbol(chart: Chart, character: str) -> PatternError:
    return fail(
        "chart.one-symbol",
        f"no symbol is left for `{character}` that stands for nothing else",
        "Part the chart into several, or give stitches of your own a `symbol:`",
        chart.place.of("legend").of(character).span,
    )


def _free(voice: Voice) -> tuple[str, ...]:
    """Marks that no yarn has and no stitch of the pattern, which chose its own."""
    taken = {*yarn_symbols(voice).values(), *_chosen(voice)}
    return tuple(each for each in OWN_MARKS if each not in taken)


def _mark_of(voice: Voice, chart: Chart, character: str, stitch: str) -> str:
    """The mark of a stitch that has no symbol, the same in all charts."""
    plan = voice.plan
    named = (
        stitch_of(plan, each, key)
        for each in plan.source.pattern.charts.values()
        for key in each.legend
    )
    ids = dict.fromkeys(found.id for found in named if found and not found.symbol)
    marks = dict(zip(ids, _free(voice), strict=False))
    if stitch not in marks:
        raise _no_symbol(chart, character)
    return marks[stitch]


def _chosen(voice: Voice) -> set[str]:
    """The symbols that stitches of the pattern were given."""
    return {
        stitch.symbol for stitch in voice.plan.source.pattern.stitches.values() if stitch.symbol
    }


def _picture(symbol: str) -> str:
    return symbol_of(symbol).picture


def _chart_key(voice: Voice, chart: Chart, character: str) -> ChartKey:
    plan = voice.plan
    stitch, yarn = stitch_of(plan, chart, character), _yarn_of(plan, chart, character)
    colour = plan.source.pattern.yarns[yarn].colour if yarn else None
    if yarn and (stitch is None or stitch.id == "k"):
        name = voice.yarn_names[yarn]
        return ChartKey(character, yarn_symbols(voice)[yarn], name, colour, word=name)
    assert stitch is not None
    label = voice.abbreviation(stitch.id)[1]
    said = [said_of(voice, plan.book.showing(stitch, side)) for side in Side]
    if yarn:
        name = voice.yarn_names[yarn]
        label, said = f"{label} in {name}", [f"{word} in {name}" for word in said]
    return ChartKey(
        character,
        stitch.symbol.name if stitch.symbol else _mark_of(voice, chart, character, stitch.id),
        label,
        colour,
        word=said[0],
        wrong_side_word=said[1],
        span=stitch.cells,
        uses=stitch.consumes,
        worked=is_worked(stitch),
        beyond=stitch.id in BEYOND,
        note=_NOTES.get(stitch.id, ""),
    )


def said_of(voice: Voice, stitch: Stitch) -> str:
    """``knit {n}`` for a stitch whose number is part of its name, others by abbreviation."""
    if stitch.counted:
        return stitch.wording(voice.plan.book.terms).spoken
    return voice.abbreviation(stitch.id)[0]


def is_worked(stitch: Stitch) -> bool:
    """Whether anything is done for it: not for a cell that only keeps its place."""
    return stitch.id not in (NO_STITCH, NOT_WORKED)


def _yarn_of(plan: Plan, chart: Chart, character: str) -> str | None:
    yarn, _ = cell_meaning(chart.legend[character], plan.source.pattern.yarns)
    return yarn


def stitch_of(plan: Plan, chart: Chart, character: str) -> Stitch | None:
    """The stitch that a character names, ``None`` for a yarn alone."""
    _, stitch = cell_meaning(chart.legend[character], plan.source.pattern.yarns)
    return plan.book.named(stitch) if stitch is not None else None


def yarn_symbols(voice: Voice) -> Mapping[str, str]:
    """A chart symbol for every yarn, the same in all charts.

    Where a chart names stitches, yarns leave them the marks that stitches are known by. Raises
    ``PatternError`` where there are more yarns than symbols.
    """
    plan = voice.plan
    stitches = any(
        stitch_of(plan, chart, character)
        for piece in plan.pieces
        for step in piece.steps
        for rows in step.charts
        for chart in (plan.source.pattern.charts[rows.chart],)
        for character in chart.legend
    )
    barred = {*LIKE_STITCHES, *_chosen(voice)} - {_EMPTY} if stitches else set()
    symbols = [each for each in COLOUR_SYMBOLS if each not in barred]
    try:
        return dict(assign_symbols(tuple(voice.yarn_names), symbols))
    except PatternError as error:
        place = plan.source.pattern.yarns[list(voice.yarn_names)[len(symbols)]].place.key_span
        raise PatternError(replace(each, span=place) for each in error.findings) from None


def yarn_keys(voice: Voice) -> tuple[ChartKey, ...]:
    """The key of a picture as it will be seen: every yarn."""
    symbols = yarn_symbols(voice)
    return tuple(
        ChartKey(key, symbols[key], yarn.name, yarn.colour, word=yarn.name)
        for key, yarn in voice.plan.source.pattern.yarns.items()
    )


def overlay_keys(voice: Voice) -> tuple[ChartKey, ...]:
    """Embroidered stitches with the yarn's symbol, knitted ones with the same one small.

    The yarn whose cells are empty on other charts gets a symbol no other yarn has.
    """
    yarns = voice.plan.source.pattern.yarns
    symbols = yarn_symbols(voice)
    spare = _spare(symbols.values())
    knitted = tuple(
        ChartKey(
            key,
            GROUND_SYMBOLS[symbols[key]],
            f"{yarn.name}, as knitted",
            yarn.colour,
            word=f"{yarn.name} knitted",
        )
        for key, yarn in yarns.items()
    )
    embroidered = tuple(
        ChartKey(
            f"+{key}",
            spare if symbols[key] == _EMPTY else symbols[key],
            f"{yarn.name}, embroidered",
            yarn.colour,
            word=yarn.name,
        )
        for key, yarn in yarns.items()
    )
    return knitted + embroidered


def _spare(taken: Iterable[str]) -> str:
    used = set(taken)
    return next((each for each in COLOUR_SYMBOLS if each not in used | {_EMPTY}), _EMPTY)
