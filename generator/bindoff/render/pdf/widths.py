"""How wide the columns of a table are: pure arithmetic on what each column needs."""

from collections.abc import Sequence

from bindoff.records import Record, replace

_FULL = 0.72  # a table that takes this much of the width is stretched to all of it


class Need(Record):
    """The least and the most width a column has use for, and whether it has a size's figures;
    ``block`` is the number of the heading over several columns that it stands under."""

    least: float
    most: float
    size: bool
    weight: float
    block: int = 0


def share(
    needs: Sequence[Need], width: float, narrow: float, stretch: bool = True
) -> list[float] | None:
    """Column widths that fill at most ``width`` (gaps not counted), or None if they cannot; with
    ``stretch`` all of it if it nearly is.

    Columns of sizes under one heading are equally wide. Columns up to ``narrow`` keep their natural
    width; the others share what is left by weight, none narrower than its least or wider than it
    has use for.
    """
    needs = evened(needs)
    if sum(need.least for need in needs) > width:
        return None
    natural = [need.most for need in needs]
    if sum(natural) <= width:
        return _stretched(needs, natural, width, narrow) if stretch else natural
    fixed = [need.size or need.most <= narrow for need in needs]
    left = width - sum(need.most for need, keeps in zip(needs, fixed, strict=True) if keeps)
    if left < sum(need.least for need, keeps in zip(needs, fixed, strict=True) if not keeps):
        fixed = [need.size for need in needs]
    return _poured(needs, fixed, width)


def evened(needs: Sequence[Need]) -> list[Need]:
    """The needs where columns of sizes under one heading get what the widest of them takes."""
    even: dict[int, float] = {}
    for need in needs:
        if need.size:
            even[need.block] = max(need.most, even.get(need.block, 0.0))
    return [
        replace(need, least=even[need.block], most=even[need.block]) if need.size else need
        for need in needs
    ]


def _stretched(
    needs: Sequence[Need], natural: list[float], width: float, narrow: float
) -> list[float]:
    extra = width - sum(natural)
    if sum(natural) < _FULL * width:
        return natural
    if any(need.size for need in needs):
        keen = [1.0 if need.size else 0.0 for need in needs]
    elif any(need.most > narrow for need in needs):
        keen = [need.weight if need.most > narrow else 0.0 for need in needs]
    else:
        keen = [need.weight for need in needs]
    total = sum(keen) or 1.0
    return [wide + extra * part / total for wide, part in zip(natural, keen, strict=True)]


def _poured(needs: Sequence[Need], fixed: Sequence[bool], width: float) -> list[float]:
    """Share what the fixed columns leave among the others, each within its least and most."""
    found = [need.most if keeps else 0.0 for need, keeps in zip(needs, fixed, strict=True)]
    open_ones = [index for index, keeps in enumerate(fixed) if not keeps]
    while open_ones:
        left = width - sum(found[index] for index in range(len(needs)) if index not in open_ones)
        total = sum(needs[index].weight for index in open_ones)
        parts = {index: left * needs[index].weight / total for index in open_ones}
        short = [index for index in open_ones if parts[index] < needs[index].least]
        long = [index for index in open_ones if parts[index] > needs[index].most]
        settled = short or long or open_ones
        for index in settled:
            need = needs[index]
            found[index] = min(max(parts[index], need.least), need.most)
        open_ones = [index for index in open_ones if index not in settled]
    return found
