"""The pattern's measures for every size: gauges, bodies, named values, finished figures."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

from generator.diagnostics import Diagnostic, PatternError, fail
from generator.plan.gauge import Gauge
from generator.plan.helpers import COUNTING, count_for, helpers
from generator.plan.standards.bodies import body as standard_body
from generator.plan.values import Kind, Measure, Value
from generator.source import models
from generator.source.amounts import formulas_at
from generator.source.formula import Call, Formula, Function, Quantity, evaluate, order_of
from generator.source.lengths import parse_length
from generator.source.read import Source
from generator.source.yamltree import Path


@dataclass(frozen=True, slots=True)
class Sizing:
    """What a formula of one size may refer to: its gauges, names and helpers."""

    name: str
    gauges: Mapping[str, Gauge]
    body: Mapping[str, float]
    names: Mapping[str, Quantity]
    helpers: Mapping[str, Function]


@dataclass(frozen=True, slots=True)
class Measures:
    """Every size's figures, and the source to evaluate further amounts from."""

    source: Source
    sizes: tuple[Sizing, ...]
    named: Mapping[str, Measure]
    finished: Mapping[str, Measure]

    def amount(self, *path: str | int) -> Measure:
        """The amount written at ``path`` for every size.

        Raises:
            PatternError: what the formula language raises.
        """
        formulas = formulas_at(self.source, path)
        return _measured(str(path[-1]), formulas, self.sizes, self.source, path)

    def counts(self, *path: str | int, least: int = 0) -> tuple[int, ...]:
        """The amount at ``path`` as whole stitches or rounds.

        Raises:
            PatternError: ``amount.whole`` or ``amount.small`` if a size's figure is a length, a
                fraction, or below ``least``.
        """
        measure = self.amount(*path)
        findings = list(_not_counts(measure, self.sizes, least))
        if findings:
            raise PatternError(findings)
        return measure.counts

    def numbers(self, size: int) -> dict[str, int]:
        """The named whole numbers of a size, as the row language uses them."""
        return {
            name: round(quantity.value)
            for name, quantity in self.sizes[size].names.items()
            if quantity.kind is not Kind.LENGTH and quantity.value == round(quantity.value)
        }


def measure_pattern(source: Source) -> Measures:
    """Gauges, bodies and all named measures of ``source``, in dependency order.

    Raises:
        PatternError: with every unknown name, loop, or figure that can't be had.
    """
    sizes = tuple(_sizing(source, name) for name in source.sizes)
    formulas = {name: formulas_at(source, ("measures", name)) for name in source.pattern.measures}
    given = tuple(sizes[0].names)
    clashes = [name for name in formulas if name in given]
    if clashes:
        raise PatternError(
            Diagnostic(
                "measure.taken",
                f"`{name}` is already the name of a body measurement or of the needles",
                "Give the measure another name",
                source.span("measures", name, key=True),
            )
            for name in clashes
        )
    named: dict[str, Measure] = {}
    for name in _ordered(formulas, given):
        path = ("measures", name)
        measure = _measured(name, formulas[name], sizes, source, path)
        named[name] = measure
        sizes = tuple(
            replace(size, names={**size.names, name: _quantity(measure, index)})
            for index, size in enumerate(sizes)
        )
    finished = {
        label: _measured(
            label,
            formulas_at(source, ("finished", label)),
            sizes,
            source,
            ("finished", label),
        )
        for label in source.pattern.finished
    }
    return Measures(source, sizes, named, finished)


def _quantity(measure: Measure, size: int) -> Quantity:
    return Quantity(measure.values[size].rounded, measure.kind)


def _ordered(formulas: Mapping[str, tuple[Formula, ...]], given: tuple[str, ...]) -> list[str]:
    """An order that suits every size, whose formulas may differ."""
    order: list[str] = []
    merged = {
        name: replace(
            per_size[0],
            names=tuple(dict.fromkeys(n for formula in per_size for n in formula.names)),
        )
        for name, per_size in formulas.items()
    }
    order.extend(order_of(merged, given))
    return order


def _sizing(source: Source, name: str) -> Sizing:
    pattern = source.pattern
    size = pattern.sizes[name]
    main = _gauge(source, ("sizes", name, "gauge"), size.gauge) if size.gauge else None
    gauges = {"": main or _gauge(source, ("gauge",), pattern.gauge)}
    for key, written in pattern.gauges.items():
        gauges[key] = _gauge(source, ("gauges", key), written)
    body = _body(source, name, size)
    names = {key.replace(" ", "_"): Quantity(mm, Kind.LENGTH) for key, mm in body.items()}
    if pattern.made.needles is not None:
        names["needles"] = Quantity(pattern.made.needles, Kind.STITCHES)
    return Sizing(name, gauges, body, names, helpers(gauges))


def _body(source: Source, name: str, size: models.Size) -> dict[str, float]:
    """Body measurements in mm: those of the standard body it is like, then the size's own."""
    body: dict[str, float] = {}
    if size.like is not None:
        try:
            person = standard_body(size.like)
            body.update({figure.dimension.value: figure.mm for figure in person.figures})
        except ValueError as error:
            raise fail(
                "size.unknown-body",
                f"there is no standard body called `{size.like}`",
                f"Write one of those the tables have: {error}",
                source.span("sizes", name, "like"),
            ) from None
    for key, text in size.body.items():
        body[key] = parse_length(text, source.tree.text_span(("sizes", name, key)))
    return body


def _gauge(source: Source, path: Path, written: models.Gauge) -> Gauge:
    if written.swatch is not None:
        swatch = written.swatch
        inner = (*path, "swatch")
        return Gauge.from_swatch(
            swatch.stitches,
            parse_length(swatch.width, source.tree.text_span((*inner, "width"))),
            swatch.rounds,
            parse_length(swatch.height, source.tree.text_span((*inner, "height"))),
            written.state,
        )
    place = source.span(*path, "over")
    return Gauge.over(
        written.stitches or 0, written.rounds or 0, parse_length(written.over, place), written.state
    )


def _measured(
    name: str, formulas: tuple[Formula, ...], sizes: tuple[Sizing, ...], source: Source, path: Path
) -> Measure:
    found = [_value(formula, size) for formula, size in zip(formulas, sizes, strict=True)]
    kinds = {kind for kind, _ in found}
    if len({kind is Kind.LENGTH for kind in kinds}) > 1:
        raise fail(
            "amount.mixed",
            f"`{name}` is a length in some sizes and a count in others",
            "Give every size the same kind of figure",
            source.span(*path),
        )
    return Measure(name, found[0][0], tuple(value for _, value in found), source.span(*path))


def _value(formula: Formula, size: Sizing) -> tuple[Kind, Value]:
    """One size's figure with its derivation; a count taken from a length keeps its rounding."""
    quantity = evaluate(formula, size.names, size.helpers)
    inputs = tuple((name, size.names[name].value) for name in formula.names)
    kind = Kind(quantity.kind.value)
    exact, error = quantity.value, None
    prefix, helper = _counting_call(formula, size)
    if helper and isinstance(formula.root, Call):
        arguments = [
            evaluate(replace(formula, root=a), size.names, size.helpers)
            for a in formula.root.arguments
        ]
        named = {
            key: evaluate(replace(formula, root=a), size.names, size.helpers)
            for key, a in formula.root.named
        }
        value = count_for(helper, size.gauges[prefix], *arguments, **named)
        exact, error = value.exact, value.error_mm
    return kind, Value(exact, quantity.value, formula.text, inputs, error)


def _counting_call(formula: Formula, size: Sizing) -> tuple[str, str]:
    """The gauge and the counting helper of a formula that is one call of it, or empty names."""
    if isinstance(formula.root, Call):
        for prefix in size.gauges:
            helper = formula.root.function.removeprefix(f"{prefix}_" if prefix else "")
            if helper in COUNTING and (prefix == "" or helper != formula.root.function):
                return prefix, helper
    return "", ""


def _not_counts(measure: Measure, sizes: tuple[Sizing, ...], least: int) -> Iterator[Diagnostic]:
    for size, value in zip(sizes, measure.values, strict=True):
        figure = value.rounded
        if measure.kind is Kind.LENGTH:
            yield Diagnostic(
                "amount.length",
                "a length stands where a number of stitches or rounds is due",
                "Turn it into a count with `stitches(…)` or `rounds(…)`",
                measure.span,
            )
            return
        if figure != round(figure):
            yield Diagnostic(
                "amount.whole",
                f"size {size.name} comes to {figure:g}, which is not a whole number",
                "Round it, for example with `nearest(…, 2)`, or change what it is made from",
                measure.span,
            )
        elif figure < least:
            yield Diagnostic(
                "amount.small",
                f"size {size.name} comes to {figure:g}, but at least {least} is needed",
                "Check the measures this figure is made from",
                measure.span,
            )
