"""Tools as a knitter asks for them in a shop: after millimetres the number that is on the needle
where the pattern's words are those of the United States."""

from bindoff import regex as re
from bindoff.craft.needles import hook as hook_of
from bindoff.craft.needles import needle
from bindoff.source.head import Tool

_SIZED = re.compile(
    r"(?<!\d)(?P<mm>\d+(?:\.\d+)?) ?mm\b[^,;()\d]*?\b(?:(?P<hook>hooks?)|needles?|dpns?)\b",
    re.IGNORECASE,
)


def named(tool: Tool, terms: str) -> str:
    """The name of ``tool``; in US ``terms`` with the US size: ``3 mm circular needle (US 2½)``.

    The table is that of ``craft.needles``; a size that it has no one US number for stays as it is,
    and so does a name that tells the US size itself.
    """
    name = tool.name
    told = re.search(r"\bUS\b", name)
    found = _SIZED.search(name) if terms == "US" and not told else None
    size = _us_size(float(found["mm"]), hook=bool(found["hook"])) if found else None
    return f"{name[: found.end()]} (US {size}){name[found.end() :]}" if found and size else name


def _us_size(mm: float, *, hook: bool) -> str | None:
    try:
        return hook_of(mm).us if hook else needle(mm).us
    except ValueError:  # no such size is sold: `check` says so
        return None
