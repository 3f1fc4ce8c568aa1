"""Amounts as written, for all sizes: one formula a size, each with its place."""

from bindoff.diagnostics import Diagnostic, PatternError, fail
from bindoff.source.formula import Formula, parse_formula
from bindoff.source.read import Source
from bindoff.source.yamltree import Path


def formulas_at(source: Source, path: Path) -> tuple[Formula, ...]:
    """The formula of each size at ``path``: the same one if only one is written.

    Raises:
        PatternError: ``amount.sizes`` when a list is too long or short or a size is missing;
            and what ``parse_formula`` raises, for all sizes at once.
    """
    data = source.tree.data
    for part in path:
        data = data[part]  # type: ignore[index]
    if isinstance(data, list):
        paths = _from_list(source, path, len(data))
    elif isinstance(data, dict):
        paths = _from_mapping(source, path, tuple(data))
    else:
        return (_formula(source, path),) * len(source.sizes)
    formulas: list[Formula] = []
    findings: list[Diagnostic] = []
    for place in paths:
        try:
            formulas.append(_formula(source, place))
        except PatternError as error:
            findings.extend(error.findings)
    if findings:
        raise PatternError(findings)
    return tuple(formulas)


def _formula(source: Source, path: Path) -> Formula:
    return parse_formula(source.tree.text(path), source.tree.text_span(path))


def _from_list(source: Source, path: Path, given: int) -> list[Path]:
    if given != len(source.sizes):
        raise fail(
            "amount.sizes",
            f"{_number(given, 'value')} for {_number(len(source.sizes), 'size')}",
            "Give one for each size in order: " + ", ".join(source.sizes),
            source.span(*path),
        )
    return [(*path, index) for index in range(given)]


def _from_mapping(source: Source, path: Path, given: tuple[str, ...]) -> list[Path]:
    listed = ", ".join(source.sizes)
    findings = [
        Diagnostic(
            "amount.sizes",
            f"the pattern has no size `{name}`",
            f"Give one value for each size: {listed}",
            source.span(*path, name, key=True),
        )
        for name in given
        if name not in source.sizes
    ]
    missing = [size for size in source.sizes if size not in given]
    if missing:
        findings.append(
            Diagnostic(
                "amount.sizes",
                f"there is no value for {', '.join(missing)}",
                f"Give one for each size: {listed}",
                source.span(*path),
            )
        )
    if findings:
        raise PatternError(findings)
    return [(*path, size) for size in source.sizes]


def _number(count: int, what: str) -> str:
    return f"{count} {what}" if count == 1 else f"{count} {what}s"
