"""A number, a length or a formula, or one for each size: read once, with its place."""

from collections.abc import Collection, Iterator

from bindoff.diagnostics import Diagnostic, PatternError, Span, fail
from bindoff.records import Said, replace
from bindoff.source.formula import Formula, Kind, Literal, Quantity, parse_formula
from bindoff.source.yamltree import NOWHERE, Place

Plain = int | float | str


class Amount(Said):
    """An amount as ``written``, its formulas, one for all sizes or one for each, and its place.

    The models take what is written; there are no formulas before the amount is ``read``. Amounts
    are equal when the same is written. ``name`` is the key it stands under, or its position in a
    list of amounts.
    """

    UNSAID = frozenset(("name", "place", "formulas"))

    written: Plain | tuple[Plain, ...] | dict[str, Plain]
    name: str = ""
    place: Place = NOWHERE
    formulas: tuple[Formula, ...] = ()

    @classmethod
    def of(cls, written: Plain, value: Quantity) -> "Amount":
        """One figure for every size that stands nowhere in a source."""
        root = Literal(value, str(written), 0, len(str(written)))
        return cls(written, "", NOWHERE, (Formula(str(written), NOWHERE.span, root, (), ()),))

    @property
    def span(self) -> Span:
        """The place of all that is written."""
        return self.place.span

    def read(self, name: str, place: Place, sizes: tuple[str, ...]) -> "Amount":
        """The amount written at ``place`` with its formulas.

        Raises:
            PatternError: ``amount.sizes`` when a list is too long or short or a size is missing;
                and what ``parse_formula`` raises, for all sizes at once.
        """
        match self.written:
            case tuple():
                refuse_count(len(self.written), place, sizes)
                places = [place.of(index) for index in range(len(sizes))]
            case dict():
                refuse_names(self.written, place, sizes)
                places = [place.of(size) for size in sizes]
            case _:
                return replace(self, name=name, place=place, formulas=(_formula(place),))
        formulas: list[Formula] = []
        findings: list[Diagnostic] = []
        for each in places:
            try:
                formulas.append(_formula(each))
            except PatternError as error:
                findings.extend(error.findings)
        if findings:
            raise PatternError(findings)
        return replace(self, name=name, place=place, formulas=tuple(formulas))

    def for_size(self, index: int, size: str) -> "Amount":
        """The amount as if that size had been written alone."""
        match self.written:
            case tuple():
                written = self.written[index]
            case dict():
                written = self.written[size]
            case _:
                return self
        return Amount(written, self.name, self.place_of(index, size), (self.formulas[index],))

    @property
    def by_size(self) -> bool:
        """Whether something is written for each size."""
        return isinstance(self.written, tuple | dict)

    def place_of(self, index: int, size: str) -> Place:
        """The place of what is written for the size with that index and name."""
        return self.place.of(size if isinstance(self.written, dict) else index)

    def formula(self, index: int) -> Formula:
        """The formula of the size with that index."""
        return self.formulas[index if len(self.formulas) > 1 else 0]


NONE = Amount.of(0, Quantity(0))
NO_LENGTH = Amount.of("0 cm", Quantity(0, Kind.LENGTH))
"""What is meant where nothing is written; they hold for any number of sizes."""


def _formula(place: Place) -> Formula:
    return parse_formula(place.text, place.text_span)


def refuse_count(given: int, place: Place, sizes: tuple[str, ...]) -> None:
    """Raises a ``PatternError`` unless as many values are ``given`` at ``place`` as ``sizes``."""
    if given != len(sizes):
        raise fail(
            "amount.sizes",
            f"{_number(given, 'value')} for {_number(len(sizes), 'size')}",
            "Give one for each size in order: " + ", ".join(sizes),
            place.span,
        )


def refuse_names(given: Collection[str], place: Place, sizes: tuple[str, ...]) -> None:
    """Raises a ``PatternError`` unless a value is ``given`` at ``place`` for each of ``sizes``."""
    findings = list(_wrong_names(tuple(given), place, sizes))
    if findings:
        raise PatternError(findings)


def _wrong_names(
    given: tuple[str, ...], place: Place, sizes: tuple[str, ...]
) -> Iterator[Diagnostic]:
    listed = ", ".join(sizes)
    for name in given:
        if name not in sizes:
            yield Diagnostic(
                "amount.sizes",
                f"the pattern has no size `{name}`",
                f"Give one value for each size: {listed}",
                place.of(name).key_span,
            )
    missing = [size for size in sizes if size not in given]
    if missing:
        yield Diagnostic(
            "amount.sizes",
            f"there is no value for {', '.join(missing)}",
            f"Give one for each size: {listed}",
            place.span,
        )


def _number(count: int, what: str) -> str:
    return f"{count} {what}" if count == 1 else f"{count} {what}s"
