"""The pattern's measures for every size: named values, finished figures, and any other amount."""

from collections.abc import Iterable, Iterator, Mapping, Sequence

from bindoff.diagnostics import Diagnostic, PatternError, Span, fail
from bindoff.plan.helpers import COUNTING, count_for, helper_name
from bindoff.plan.persize import together
from bindoff.plan.sizing import Sizing, sizings
from bindoff.plan.values import Kind, Measure, Value
from bindoff.records import Record, replace
from bindoff.source.amount import Amount
from bindoff.source.formula import Call, Formula, Node, Quantity, evaluate, order_of
from bindoff.source.read import Source
from bindoff.source.rowlang.syntax import SIZE

MOST = 10_000
"""Stitches on the needles, or rounds of a step, at the most; beyond it is a slip of the pen."""


Places = tuple[tuple[str, Span], ...]
"""Every size by name, with the place of its own figure."""


class Measures(Record):
    """Every size's figures, and the source to evaluate further amounts from."""

    source: Source
    sizes: tuple[Sizing, ...]
    named: Mapping[str, Measure]
    finished: Mapping[str, Measure]

    def amount(self, amount: Amount) -> Measure:
        """``amount`` for every size.

        Raises:
            PatternError: what the formula language raises; ``amount.mixed`` for a length in one
                size and a count in another.
        """
        return _amount(self.sizes, amount)

    def counts(self, amount: Amount, least: int = 0) -> tuple[int, ...]:
        """``amount`` as whole stitches or rounds.

        Raises:
            PatternError: ``amount.length``, ``amount.whole``, ``amount.small`` or ``amount.large``
                if a size's figure is a length, a fraction, below ``least`` or above ``MOST``.
        """
        measure = self.amount(amount)
        _refuse(_not_counts(measure, _places(amount, self.sizes), least), self.sizes)
        return measure.counts

    def lengths(self, amount: Amount, zero: bool = False) -> tuple[float, ...]:
        """``amount`` as lengths in mm above 0, or not below 0 with ``zero``.

        Raises:
            PatternError: ``amount.no-length`` or ``amount.small``.
        """
        measure = self.amount(amount)
        _refuse(_not_lengths(measure, _places(amount, self.sizes), zero), self.sizes)
        return measure.rounded

    def numbers(self, size: int) -> dict[str, int]:
        """The named whole numbers of a size, as the row language uses them, and its place."""
        return {
            name: round(quantity.value)
            for name, quantity in self.sizes[size].names.items()
            if quantity.kind is not Kind.LENGTH and quantity.value == round(quantity.value)
        } | {SIZE: size}


def measure_pattern(source: Source) -> Measures:
    """Gauges, bodies and all named measures of ``source``, whatever order they are written in.

    Raises:
        PatternError: with every unknown name, loop, or figure that can't be had; ``measure.taken``
            for a measure that is called like a body measurement.
    """
    bodies = sizings(source)
    _refuse_taken(source, bodies)
    written = source.pattern.measures
    values: list[dict[str, Figure]] = []
    found: list[tuple[str, Diagnostic]] = []
    for index, size in enumerate(bodies):
        own = {name: amount.formula(index) for name, amount in written.items()}
        try:
            values.append(_evaluated(own, size, bodies))
        except PatternError as error:
            found.extend((size.name, finding) for finding in error.findings)
    _refuse(found, bodies)
    sizes = tuple(
        replace(size, names={**size.names, **{n: _quantity(f) for n, f in figures.items()}})
        for size, figures in zip(bodies, values, strict=True)
    )
    named = {
        name: _measure(amount, sizes, [figures[name] for figures in values])
        for name, amount in written.items()
    }
    printed = source.pattern.finished
    finished = {label: _amount(sizes, amount) for label, amount in printed.items()}
    for label, measure in finished.items():
        _refuse(_not_lengths(measure, _places(printed[label], sizes)), sizes)
    return Measures(source, sizes, named, finished)


def _refuse(found: Iterable[tuple[str, Diagnostic]], sizes: Sequence[Sizing]) -> None:
    findings = together(found, [size.name for size in sizes])
    if findings:
        raise PatternError(findings)


def _refuse_taken(source: Source, sizes: Sequence[Sizing]) -> None:
    taken = {name for size in sizes for name in size.names}
    findings = [
        Diagnostic(
            "measure.taken",
            f"`{name}` is already the name of a body measurement or of the needles",
            "Give the measure another name",
            amount.place.key_span,
        )
        for name, amount in source.pattern.measures.items()
        if name in taken
    ]
    if findings:
        raise PatternError(findings)


# ---------------------------------------------------------------- evaluating

Figure = tuple[Kind, Value]


def _evaluated(
    formulas: Mapping[str, Formula], size: Sizing, sizes: Sequence[Sizing]
) -> dict[str, Figure]:
    """The named measures of one size, by name."""
    lacking = [each for f in formulas.values() for each in _lacking(f, size, sizes, formulas)]
    if lacking:
        raise PatternError(lacking)
    figures: dict[str, Figure] = {}
    for name in order_of(formulas, tuple(size.names)):
        figures[name] = _figure(formulas[name], size)
        size = replace(size, names={**size.names, name: _quantity(figures[name])})
    return figures


def _quantity(figure: Figure) -> Quantity:
    kind, value = figure
    return Quantity(value.rounded, kind)


def _amount(sizes: Sequence[Sizing], amount: Amount) -> Measure:
    figures: list[Figure] = []
    found: list[tuple[str, Diagnostic]] = []
    for index, size in enumerate(sizes):
        formula = amount.formula(index)
        try:
            lacking = list(_lacking(formula, size, sizes))
            if lacking:
                raise PatternError(lacking)
            figures.append(_figure(formula, size))
        except PatternError as error:
            found.extend((size.name, finding) for finding in error.findings)
    _refuse(found, sizes)
    return _measure(amount, sizes, figures)


def _measure(amount: Amount, sizes: Sequence[Sizing], figures: Sequence[Figure]) -> Measure:
    kinds = [kind for kind, _ in figures]
    if len({kind is Kind.LENGTH for kind in kinds}) > 1:
        places = _places(amount, sizes)
        bare, count = next(
            (place, value.rounded)
            for (_, place), (kind, value) in zip(places, figures, strict=True)
            if kind is not Kind.LENGTH
        )
        raise fail(
            "amount.mixed",
            f"`{amount.name}` is a length in other sizes, and this is a number without a unit",
            f"Write the unit, as in `{count:g} cm`, or give every size a count",
            bare,
        )
    kind = next((each for each in kinds if each is not Kind.NUMBER), Kind.NUMBER)
    return Measure(amount.name, kind, tuple(value for _, value in figures), amount.span)


def _lacking(
    formula: Formula, size: Sizing, sizes: Sequence[Sizing], named: Iterable[str] = ()
) -> Iterator[Diagnostic]:
    """Names in a formula that this size lacks and another has, and needles that nobody gave."""
    elsewhere = {name for other in sizes for name in other.names}
    for name in formula.names:
        if name in size.names or name in named:
            continue
        if name == "needles":
            yield Diagnostic(
                "measure.needles",
                "the number of needles is asked for, and the pattern does not give it",
                "Add `made: {by: machine, needles: …}` to the head, with the number of your "
                "machine",
                formula.place_of(name),
            )
        elif name in elsewhere:
            yield Diagnostic(
                "measure.lacking",
                f"the size has no `{name.replace('_', ' ')}`, which other sizes have",
                f"Add `{name.replace('_', ' ')}: …` with its unit to the size `{size.name}`",
                formula.place_of(name),
            )


def _figure(formula: Formula, size: Sizing) -> Figure:
    """One size's figure with its derivation; a count taken from a length keeps its rounding."""
    quantity = evaluate(formula, size.names, size.helpers)
    inputs = tuple((name, size.names[name].value) for name in formula.names if name in size.names)
    count = _count(formula, size)
    exact, error = (count.exact, count.error_mm) if count else (quantity.value, None)
    return quantity.kind, Value(exact, quantity.value, formula.text, inputs, error)


def _count(formula: Formula, size: Sizing) -> Value | None:
    """The count with its rounding, where a formula is one call of a counting helper."""
    call = formula.root
    if not isinstance(call, Call):
        return None
    counting = {
        helper_name(name, helper): (helper, gauge)
        for name, gauge in size.gauges.items()
        for helper in COUNTING
    }
    if call.function not in counting:
        return None

    def figure(part: Node) -> Quantity:
        return evaluate(replace(formula, root=part), size.names, size.helpers)

    helper, gauge = counting[call.function]
    arguments = [figure(argument) for argument in call.arguments]
    by_name = {name: figure(argument) for name, argument in call.named}
    return count_for(helper, gauge, *arguments, **by_name)


# ---------------------------------------------------------------- refusing figures


def _places(amount: Amount, sizes: Sequence[Sizing]) -> Places:
    return tuple((size.name, amount.formula(index).span) for index, size in enumerate(sizes))


def _not_counts(measure: Measure, places: Places, least: int) -> Iterator[tuple[str, Diagnostic]]:
    if measure.kind is Kind.LENGTH:
        finding = Diagnostic(
            "amount.length",
            f"`{measure.name}` is a number of stitches or rounds, and this is a length",
            "Turn it into a count with `stitches(…)` or `rounds(…)`",
            measure.span,
        )
        yield from ((size, finding) for size, _ in places)
        return
    for (size, place), value in zip(places, measure.values, strict=True):
        found = _fault_of_count(value.rounded, least)
        if found is not None:
            id, message, help = found
            yield size, Diagnostic(id, f"`{measure.name}`: {message}", help, place)


def _fault_of_count(figure: float, least: int) -> tuple[str, str, str] | None:
    if figure != round(figure):
        return (
            "amount.whole",
            f"{figure:g} is not a whole number",
            "Round it, for example with `nearest(…, 2)`, or change what it is made from",
        )
    if figure < least:
        return (
            "amount.small",
            f"{figure:.0f} is less than {least}, the least that can be worked",
            "Check the measures this figure is made from",
        )
    if figure > MOST:
        return (
            "amount.large",
            f"{figure:.0f} is more than {MOST:,}, the most that can be worked",
            "Check the measures and the gauge this figure is made from",
        )
    return None


def _not_lengths(
    measure: Measure, places: Places, zero: bool = False
) -> Iterator[tuple[str, Diagnostic]]:
    if measure.kind is not Kind.LENGTH:
        finding = Diagnostic(
            "amount.no-length",
            f"`{measure.name}` is a length, and this is a number without a unit",
            f"Write its unit, as in `{measure.rounded[0]:g} cm`; `width(…)` and `height(…)` turn "
            "counts "
            "into lengths",
            measure.span,
        )
        yield from ((size, finding) for size, _ in places)
        return
    for (size, place), mm in zip(places, measure.rounded, strict=True):
        if mm < 0 or (mm == 0 and not zero):
            yield (
                size,
                Diagnostic(
                    "amount.small",
                    f"`{measure.name}` comes to {mm / 10:g} cm, and must be "
                    + ("0 or more" if zero else "above 0"),
                    "Check the measures this length is made from",
                    place,
                ),
            )
