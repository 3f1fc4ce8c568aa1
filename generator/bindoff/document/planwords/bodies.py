"""The bodies that the sizes fit, and where their figures are from."""

from collections.abc import Iterator, Mapping, Sequence

from bindoff.craft.bodies import Dimension, body
from bindoff.document.voice import body_rows
from bindoff.plan.persize import named
from bindoff.plan.plan import Plan


def body_measures(plan: Plan) -> Mapping[str, Sequence[float]]:
    """The body measurements that are printed, in mm per size."""
    return dict(body_rows(plan))


def table_sources(plan: Plan, dimensions: Sequence[str]) -> Iterator[str]:
    """Where the built-in tables have the figures of sizes that are like a standard body."""
    said: dict[tuple[str, str], list[str]] = {}
    for name, size in plan.source.pattern.sizes.items():
        if size.like is None:
            continue
        for dimension in dimensions:
            figure = body(size.like).figure(Dimension(dimension))
            if figure is not None and dimension not in size.body:
                source = f"{figure.taken}; {figure.source}" if figure.taken else figure.source
                said.setdefault((dimension, source), []).append(name)
    for (dimension, source), sizes in said.items():
        yield f"{dimension.capitalize()} of {named(sizes)}: {source}."
