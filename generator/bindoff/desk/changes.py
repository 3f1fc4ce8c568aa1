"""What differs between two plans, in the words of ``bindoff compare``, for the page."""

from typing import Any

from bindoff.document.differencewords.plainlines import plain_lines
from bindoff.document.differencewords.sections import MEASURES, change_blocks, measure_blocks
from bindoff.document.tree import Heading, plain
from bindoff.document.verdictwords import TITLE, verdict_lines
from bindoff.plan.differences.find import differences
from bindoff.plan.plan import Plan
from bindoff.plan.verdict import judge


def change_data(old: Plan, new: Plan) -> list[dict[str, Any]]:
    """Sections with a title (empty where nothing has changed) and their lines.

    Raises ``PatternError`` for prose that can't be printed.
    """
    found = differences(old, new)
    sections: list[dict[str, Any]] = []
    for block in change_blocks(found, 2):
        if isinstance(block, Heading):
            sections.append({"title": plain(block.children), "lines": []})
            continue
        if not sections:
            sections.append({"title": "", "lines": []})
        sections[-1]["lines"] += [_bare(line) for line in plain_lines((block,))]
    if measures := measure_blocks(found):
        sections.append(
            {"title": MEASURES, "lines": [_bare(each) for each in plain_lines(measures)]}
        )
    if found.changes:
        verdict = [_bare(line) for line in verdict_lines(judge(new), judge(old))]
        if verdict:
            sections.append({"title": TITLE, "lines": verdict})
    return sections


def _bare(line: str) -> str:
    """A line of a list without its mark: the page makes its own list."""
    return line.strip().removeprefix("- ")
