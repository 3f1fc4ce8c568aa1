"""The keys of the charts: what stands for which yarn and stitch, the same in all charts."""

from collections.abc import Iterable, Mapping

from bindoff.craft.entry import Side, Stitch
from bindoff.craft.stitches.cells import BEYOND, BIND_OFF, NOT_WORKED, WRAPPED
from bindoff.diagnostics import PatternError, fail
from bindoff.document.charts.spec import ChartKey
from bindoff.document.charts.symbols import COLOUR_SYMBOLS, GROUND_SYMBOLS, symbol_of
from bindoff.document.voice import Voice
from bindoff.plan.colour.palette import assign_symbols
from bindoff.plan.picture import cell_meaning
from bindoff.plan.plan import Plan
from bindoff.records import replace
from bindoff.source.chart import NO_STITCH, Chart

_NO_SYMBOL = "square"  # the mark of a stitch whose entry has none
_EMPTY = COLOUR_SYMBOLS[0]
_NOTES = {
    BIND_OFF: "the stitch left on the right needle by the last of them is the next one of the row",
    WRAPPED: "the stitch that is wrapped stays on the needle",
    NOT_WORKED: "it lies beyond a turn and stays on the needle",
}
"""What the key adds, as the list of abbreviations does not."""
_LIKE_STITCHES = ("dot", "ring", "slash", "backslash")
"""Marks of yarns that look like a purl, a yarn over and the decreases."""


def worked_keys(voice: Voice, chart: Chart) -> tuple[ChartKey, ...]:
    """The key of a chart; entries that mean different things look different."""
    keys = [_chart_key(voice, chart, character) for character in chart.legend]
    names = set(voice.yarn_names.values())
    yarns = {_picture(symbol) for symbol in yarn_symbols(voice).values()}
    meant = {_picture(key.symbol): key.label for key in keys if key.label in names}
    found = []
    for key in keys:
        if meant.setdefault(_picture(key.symbol), key.label) != key.label:
            taken = yarns.union(meant, map(_picture, (each.symbol for each in keys)))
            free = next((each for each in COLOUR_SYMBOLS if _picture(each) not in taken), None)
            if free is None or key.span > 1:
                raise fail(
                    "chart.one-symbol",
                    f"the symbol of `{key.key}` stands for something else on this chart, and no "
                    "other is left",
                    "Part the chart into several, or declare stitches with a chart symbol",
                    chart.place.of("legend").of(key.key).span,
                )
            key = replace(key, symbol=free)
            meant[_picture(key.symbol)] = key.label
        found.append(key)
    return tuple(found)


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
        stitch.symbol.name if stitch.symbol else _NO_SYMBOL,
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
    symbols = [each for each in COLOUR_SYMBOLS if not stitches or each not in _LIKE_STITCHES]
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
