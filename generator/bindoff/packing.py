"""The shop folder of a pattern: what buyers get, and what a shop shows of it.

``bindoff pack`` writes it. A copy for one reader is the part for buyers alone, with the reader's
name or order number in the foot of every page: no password, no script, nothing that hinders who
reads with a screen reader or prints.
"""

from collections.abc import Iterator, Mapping

from bindoff.diagnostics import Diagnostic, Severity
from bindoff.document.build import build_document
from bindoff.document.differencewords.sections import change_section
from bindoff.document.machinecard import has_card
from bindoff.document.shopwords import changes_text, listing_text
from bindoff.document.tree import Cover
from bindoff.editions import CHOICES, Wanted
from bindoff.files import Files
from bindoff.pipeline import Outputs, build_pattern, drawn_for, plan_pattern
from bindoff.plan.plan import Plan

FOR_BUYERS, PICTURES = "for-buyers", "pictures"
_OWN = frozenset({"numbers.json"})
"""What is for the designer alone."""


def pack_pattern(
    files: Files, source_name: str, called: str, earlier: Plan | None = None, copy_for: str = ""
) -> Outputs:
    """The files of a shop folder, and what the checks found; raises ``PatternError``.

    Its editions are those that the source chooses, else all. ``earlier`` is a version that buyers
    may have; ``copy_for`` makes it one reader's copy.
    """
    plan = plan_pattern(files, source_name, called)
    chosen = plan.source.pattern.editions or CHOICES
    made = build_pattern(
        files,
        source_name,
        called,
        earlier=earlier,
        wanted=Wanted(chosen=chosen),
        copy_for=copy_for,
    )
    bought = {name: data for name, data in sorted(made.files.items()) if name not in _OWN}
    found = dict(_bought(called, bought))
    notes: tuple[Diagnostic, ...] = ()
    if not copy_for:
        found |= dict(_shown(files, plan, called, chosen, earlier, bought))
        notes = tuple(_small_photo(plan))
    return Outputs(found, (*made.findings, *notes))


def _bought(called: str, bought: Mapping[str, bytes]) -> Iterator[tuple[str, bytes]]:
    from bindoff.render.zipped import zipped

    for name, data in bought.items():
        yield f"{FOR_BUYERS}/{name}", data
    yield f"{called}.zip", zipped((f"{called}/{name}", data) for name, data in bought.items())


def _shown(
    files: Files,
    plan: Plan,
    called: str,
    chosen: tuple[str, ...],
    earlier: Plan | None,
    bought: Mapping[str, bytes],
) -> Iterator[tuple[str, bytes]]:
    """What the shop shows: covers, a sheet of the pages, the listing, what is new."""
    from bindoff.render.shoppictures import COVERS, contact_sheet, cover_picture

    document, _ = build_document(plan, files, drawn=drawn_for("calm"))
    cover = next((each for each in document.blocks if isinstance(each, Cover)), None)
    art = cover.art.picture if cover and cover.art else None
    for name, size in COVERS.items():
        data = cover_picture(art, document.title, document.author, size)
        yield f"{PICTURES}/{name}.png", data
    yield f"{PICTURES}/pages.png", contact_sheet(bought[f"{called}.pdf"])
    yield "listing.txt", listing_text(plan, document, _there(plan, chosen)).encode()
    new = changes_text(plan, change_section(earlier, plan))
    if new:
        yield "what-changed.txt", new.encode()


def _there(plan: Plan, chosen: tuple[str, ...]) -> tuple[str, ...]:
    """The editions that were chosen and that the pattern has."""
    lacks = {
        "card": not has_card(plan),
        "single sizes": len(plan.source.sizes) == 1,
    }
    return tuple(name for name in chosen if not lacks.get(name, False))


def _small_photo(plan: Plan) -> Iterator[Diagnostic]:
    from bindoff.render.shoppictures import COVERS, photo_width

    if not plan.source.photos:
        return
    least = min(wide for wide, _ in COVERS.values())
    wide = photo_width(plan.source.photos[0])
    if wide < least:
        yield Diagnostic(
            "pack.photo-small",
            f"the photograph of the cover is {wide:,} pixels across, and the cover pictures are "
            f"{least:,}: they are enlarged and look soft",
            f"Take a photograph of at least {least:,} pixels across",
            plan.source.pattern.place.of("photos").span,
            severity=Severity.NOTE,
        )
