"""How full the pages of each demo are, in every edition of it.

    python -m tests.bench.pages [DEMO ...]

Prints the pages of an edition and how far down its frame each of them is filled, in hundredths; in
brackets inner pages under the goal of 86 % (70 % in large print) and a last page under the half. At
the end it counts the pages and what is in brackets, by kind of edition.
"""

import sys
from collections import Counter
from collections.abc import Iterator, Sequence

from bindoff.editions import Edition, Wanted
from bindoff.files import SOURCE_NAME
from bindoff.pipeline import plan_pattern
from bindoff.render.pdf.pages import lay_out
from tests.accessibility import builds

CHOSEN = ("letter", "large print", "print saver", "single sizes")
GOAL, LARGE_GOAL, LAST = 86, 70, 50


def main() -> None:
    """Print the table and what it adds up to."""
    pages: Counter[str] = Counter()
    slack: Counter[str] = Counter()
    for demo in sys.argv[1:] or builds.DEMOS:
        for name, edition, filled in measured(demo):
            large = edition.pdf.theme == "large-print"
            below = list(under(filled, LARGE_GOAL if large else GOAL))
            shown = (
                f"({each})" if less else f"{each}" for each, less in zip(filled, below, strict=True)
            )
            print(f"{demo:24} {name:20} {len(filled):3}  {' '.join(shown)}", flush=True)
            kind = "one size" if edition.size else name
            pages[kind] += len(filled)
            slack[kind] += sum(below)
    for kind, count in pages.items():
        print(f"{kind:20} {count:4} pages, {slack[kind]:3} under the goal")


def measured(demo: str) -> Iterator[tuple[str, Edition, Sequence[int]]]:
    """Each edition of a demo, its name, and how full its pages are, in hundredths."""
    files = builds.files(demo)
    plan = plan_pattern(files, SOURCE_NAME, demo)
    for name, made in builds.editions_of(plan, files, Wanted(chosen=CHOSEN)).items():
        layout = lay_out(made.printed, made.edition.pdf)
        filled = []
        for page in layout.pages:
            frame = layout.turned if page.turned else layout.frame
            low = max(each.top + each.band.height for each in page.placed)
            filled.append(round(100 * low / frame.height))
        yield name, made.edition, filled


def under(filled: Sequence[int], goal: int) -> Iterator[bool]:
    """For each page whether it is less full than it should be."""
    for number, each in enumerate(filled, start=1):
        yield each < (LAST if number == len(filled) else goal)


if __name__ == "__main__":
    main()
