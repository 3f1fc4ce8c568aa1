"""What the checks look at: one frozen object made from a finished plan and document."""

from bindoff.checks.prose import Prose, prose_of
from bindoff.document.chartpages import ChartPage
from bindoff.document.tree import Document
from bindoff.files import Files
from bindoff.plan.plan import Plan
from bindoff.records import Record
from bindoff.source.pattern import Pattern
from bindoff.source.read import Source


class Context(Record):
    """A pattern after its last stage but the renders.

    ``prose`` holds every text of the designer's own; ``folder`` names the files beside the source.
    """

    plan: Plan
    document: Document
    charts: tuple[ChartPage, ...]
    prose: tuple[Prose, ...]
    folder: tuple[str, ...]

    @property
    def source(self) -> Source:
        """The source of the plan."""
        return self.plan.source

    @property
    def pattern(self) -> Pattern:
        """The pattern as written."""
        return self.plan.source.pattern

    @property
    def in_english(self) -> bool:
        """Whether its texts can be read: sentences are known in English alone."""
        return self.pattern.language.startswith("en")


def context_of(
    plan: Plan, document: Document, charts: tuple[ChartPage, ...], files: Files
) -> Context:
    """Gathers what the checks need; reads only the pattern's own templates.

    Raises:
        PatternError: when a template of the pattern's own can't be read.
    """
    return Context(plan, document, charts, prose_of(plan.source, files), files.list_dir())
