"""``bindoff check --list``: every check and every proof, as text or as plain data."""

import textwrap
from collections.abc import Iterator, Sequence

from bindoff.checks.engine import Check
from bindoff.checks.proofs import Proof

_WIDTH = 88
_INDENT = "    "


def as_text(checks: Sequence[Check], proofs: Sequence[Proof]) -> str:
    """All of them for a reader, the checks first."""
    lines = [f"Checks ({len(checks)}). A pattern may silence one under `silence:`, with a reason."]
    for check in checks:
        lines += ["", f"{check.id} ({check.severity}): {check.title}"]
        lines += _wrapped("Looks at: ", check.looks_at)
        lines += _wrapped("Why: ", check.why)
        lines += _wrapped("What to do: ", check.remedy)
    lines += ["", "", f"Always on ({len(proofs)}). These stop the work and can't be silenced."]
    for stage in dict.fromkeys(proof.stage for proof in proofs):
        lines += ["", f"{stage}:"]
        for proof in proofs:
            if proof.stage == stage:
                lines += ["", f"{proof.id}: {proof.holds}", *_wrapped("Why: ", proof.why)]
    return "\n".join(lines)


def as_data(checks: Sequence[Check], proofs: Sequence[Proof]) -> dict[str, list[dict[str, str]]]:
    """All of them for ``json.dumps``."""
    return {
        "checks": [
            {
                "id": check.id,
                "severity": check.severity.value,
                "title": check.title,
                "looks at": check.looks_at,
                "why": check.why,
                "remedy": check.remedy,
            }
            for check in checks
        ],
        "always on": [
            {"id": proof.id, "stage": proof.stage, "holds": proof.holds, "why": proof.why}
            for proof in proofs
        ],
    }


def _wrapped(label: str, words: str) -> Iterator[str]:
    yield from textwrap.wrap(
        label + words, _WIDTH, initial_indent=_INDENT, subsequent_indent=_INDENT
    )
