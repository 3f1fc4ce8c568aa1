"""Says a row in the house style, in US or UK terms, with every size's numbers."""

from collections.abc import Mapping
from enum import StrEnum

from generator.document.tree import Inlines
from generator.source.rowlang.stitches import StitchBook, Terms
from generator.source.rowlang.syntax import Row


class Form(StrEnum):
    """Abbreviated for the page (``k2tog``), or spelled out for the ear (``knit 2 together``)."""

    SHORT = "short"
    LONG = "long"


def words(
    row: Row,
    sizes_numbers: Mapping[str, tuple[int, ...]],
    terms: Terms,
    book: StitchBook,
    *,
    form: Form = Form.SHORT,
    yarns: Mapping[str, str] | None = None,
) -> Inlines:
    """``row`` as a sentence; a computed number that differs between sizes is a ``SizeValues``.

    ``yarns`` gives the printed name of each yarn id; an id without one is printed as it is.
    """
    raise NotImplementedError


def as_source(row: Row, book: StitchBook, terms: Terms = Terms.US) -> str:
    """``row`` in the house style with computed numbers as ``{name}``: the row language again."""
    raise NotImplementedError
