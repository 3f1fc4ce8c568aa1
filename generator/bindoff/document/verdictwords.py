"""The verdict on the sizes of a pattern, in lines."""

from collections.abc import Iterator, Mapping
from typing import Any

from bindoff.english import capital, listed
from bindoff.plan.persize import named
from bindoff.plan.verdict import Fault, Verdict

TITLE = "Verdict"


def verdict_lines(verdict: Verdict, before: Verdict | None = None) -> Iterator[str]:
    """A line for the sizes that fit, and one for each reason why others do not; nothing where the
    pattern has nothing to judge by. ``before`` is the verdict on an earlier version."""
    unfit = {fault: sizes for fault, sizes in _by_fault(verdict).items() if sizes}
    if not verdict.by and not unfit:
        return
    fitting = [each.size for each in verdict.sizes if not each.faults]
    if fitting:
        who = "Every size" if len(fitting) == len(verdict.sizes) else capital(named(fitting))
        one = len(fitting) == 1 or who == "Every size"
        yield f"- {who} {'fits' if one else 'fit'} {_judged_by(verdict, one)}."
    known = _unfit(before)
    for fault, sizes in unfit.items():
        verb = "does" if len(sizes) == 1 else "do"
        again = all(size in known for size in sizes)
        how = f"{verb} not fit" if before is None or again else "no longer fits"
        if how == "no longer fits" and len(sizes) > 1:
            how = "no longer fit"
        yield f"- {capital(named(sizes))} {how}: {fault.said}."


def verdict_data(verdict: Verdict) -> dict[str, Any]:
    """The verdict as JSON holds it."""
    return {
        each.size: {
            "fits": not each.faults,
            "faults": [{"what": fault.what, "said": fault.said} for fault in each.faults],
        }
        for each in verdict.sizes
    }


def _by_fault(verdict: Verdict) -> Mapping[Fault, list[str]]:
    """The sizes that share a fault."""
    found: dict[Fault, list[str]] = {}
    for each in verdict.sizes:
        for fault in each.faults:
            found.setdefault(fault, []).append(each.size)
    return found


def _unfit(verdict: Verdict | None) -> set[str]:
    return {each.size for each in verdict.sizes if each.faults} if verdict else set()


def _judged_by(verdict: Verdict, one: bool) -> str:
    """``its body, its needles and its picture``."""
    whose = "its" if one else "their"
    names = {"body": "body" if one else "bodies", "needles": "needles", "picture": "picture"}
    return listed(f"{whose} {names[what]}" for what in verdict.by) or "as it is"
