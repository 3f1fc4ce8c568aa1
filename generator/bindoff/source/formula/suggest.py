"""What to write instead of a name that doesn't exist."""

from collections.abc import Collection

from bindoff.diagnostics import Fix, closest, written_as

_MOST_NAMES = 30


def instead(name: str, known: Collection[str]) -> str:
    """Advice that names a close match and what does exist."""
    listed = ", ".join(f"`{each}`" for each in list(known)[:_MOST_NAMES])
    more = ", …" if len(known) > _MOST_NAMES else ""
    exist = f"these exist: {listed}{more}" if known else "none exist here"
    close = closest(name, known)
    return f"Write `{close}`, or another name; {exist}" if close else f"Use another name; {exist}"


def instead_fix(name: str, known: Collection[str]) -> tuple[Fix, ...]:
    """The fix that writes the close match, if there is one."""
    return written_as(closest(name, known))
