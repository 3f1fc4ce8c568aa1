"""Mutants that live and may: those that ``survivors.md`` explains, and guards of our own.

``survivors.md`` holds the mutants that change nothing a reader could notice, with the reason, in
this form:

    ## bindoff.plan.module.function
    Reason, in a line or more.
    ```diff
    -line before
    +line after
    ```

A ``zip`` that is no longer strict needs no entry: that is a guard against our own slips, which no
input can reach.
"""

import re

Change = tuple[str, tuple[str, ...]]  # a function and the lines its mutant takes and gives


def function_of(key: str) -> str:
    """``bindoff.plan.spacing.Spacing.decrease_row`` for the tool's mangled key."""
    module, _, mangled = key.rpartition(".")
    name = re.sub(r"__mutmut_\d+$", "", mangled)
    return f"{module}.{name.removeprefix('x').removeprefix('_').strip('ǁ').replace('ǁ', '.')}"


def changed_lines(diff: str) -> tuple[str, ...]:
    """The lines of a diff that differ, with their sign and without indentation."""
    lines = [line for line in diff.splitlines() if re.match(r"[-+](?![-+]{2})", line)]
    return tuple(line[0] + line[1:].strip() for line in lines)


def only_less_strict(lines: tuple[str, ...]) -> bool:
    """Whether the lines differ in nothing but how strict a ``zip`` is, and not more so."""
    took = " ".join(line[1:] for line in lines if line.startswith("-"))
    gave = " ".join(line[1:] for line in lines if line.startswith("+"))
    more = gave.count("strict=True") > took.count("strict=True")
    return "strict=" in took and not more and _without_strict(took) == _without_strict(gave)


def _without_strict(line: str) -> str:
    return re.sub(r",?\s*(strict=(True|False|None))?,?\s*(\)|$)", r"\3", line)


def read_explained(text: str) -> set[Change]:
    """The changes that ``survivors.md`` explains."""
    found: set[Change] = set()
    for section in re.split(r"^## ", text, flags=re.MULTILINE)[1:]:
        function = section.splitlines()[0].strip()
        for block in re.findall(r"^```diff\n(.*?)^```", section, re.DOTALL | re.MULTILINE):
            found.add((function, changed_lines(block)))
    return found
