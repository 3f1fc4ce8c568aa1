"""Comments as they leave the desk: a list in plain text, and notes in a copy of the PDF."""

import io
from collections.abc import Iterator

from pikepdf import Array, Dictionary, Name, Object, Pdf, String

from bindoff.desk.comments import Comment
from bindoff.render.pdf.screen import Region

_SIDE = 18.0  # points of a note's sign
_OPEN, _CLOSED = (0.96, 0.75, 0.25), (0.75, 0.8, 0.82)
_CLAIMS = ("pdfuaid:part", "pdfuaid:rev", "pdfaid:part", "pdfaid:conformance")


def as_list(title: str, version: str, comments: tuple[Comment, ...]) -> str:
    """All comments, the open ones first, each with its answers."""
    still = [each for each in comments if not each.closed]
    done = [each for each in comments if each.closed]
    lines = [f"Comments on {title}, version {version}", ""]
    lines += ["There are no comments."] if not comments else []
    for heading, group in (("Open", still), ("Closed", done)):
        if group:
            lines += [f"{heading}: {len(group)}", ""]
            for each in group:
                lines += [*_told(each), ""]
    return "\n".join(lines).rstrip() + "\n"


def _told(comment: Comment) -> Iterator[str]:
    yield f"{comment.id}. {comment.at}"
    if comment.said:
        yield f"   > {comment.said}"
    yield f"   {_signed(comment.text, comment.by, comment.date)}"
    for answer in comment.answers:
        yield f"   - {_signed(answer.text, answer.by, answer.date)}"


def _signed(text: str, by: str, date: str) -> str:
    who = ", ".join(filter(None, (by, date)))
    words = "\n   ".join(text.split("\n"))
    return f"{words} ({who})" if who else words


def with_notes(
    pdf: bytes, placed: list[tuple[Comment, tuple[Region, ...]]], heights: tuple[float, ...]
) -> bytes:
    """A copy of a PDF in which each comment is a note on every page that shows its place.

    ``heights`` are those of the pages in points. Answers are replies to their note, and a closed
    comment has the review state Completed (ISO 32000-1, 12.5.6.3 and 12.5.6.4). The copy is for
    reading along: it no longer claims to be PDF/A or PDF/UA, which want more of notes.
    """
    document = Pdf.open(io.BytesIO(pdf))
    for comment, regions in placed:
        shown: set[int] = set()
        for region in regions:
            if region.page not in shown:
                shown.add(region.page)
                top = heights[region.page] - region.top
                left = max(region.left - _SIDE - 4, 4)
                _note(document, region.page, comment, (left, top - _SIDE, left + _SIDE, top))
    with document.open_metadata(set_pikepdf_as_editor=False, update_docinfo=False) as about:
        for claim in _CLAIMS:
            if claim in about:
                del about[claim]
    made = io.BytesIO()
    document.save(made, deterministic_id=True)
    return made.getvalue()


def _note(
    document: Pdf, page: int, comment: Comment, box: tuple[float, float, float, float]
) -> None:
    """A note on a page, with the replies to it."""
    words = f"{comment.id}. {comment.at}\n{comment.text}"
    name = f"comment-{comment.id}-{page + 1}"
    colour = _CLOSED if comment.closed else _OPEN
    note = _annotation(document, name, words, comment.by, comment.date, box)
    note.C = Array(colour)
    note.Name = Name.Comment
    replies = [
        _annotation(document, f"{name}-{number}", each.text, each.by, each.date, box)
        for number, each in enumerate(comment.answers, 1)
    ]
    if comment.closed:
        state = _annotation(document, f"{name}-closed", "Closed", comment.by, "", box)
        state.StateModel, state.State = String("Review"), String("Completed")
        replies.append(state)
    for reply in replies:
        reply.IRT = note
        reply.F = 2  # not drawn beside the note that it replies to
    sheet = document.pages[page].obj
    if "/Annots" not in sheet:
        sheet.Annots = Array()
    for each in (note, *replies):
        each.P = sheet
        sheet.Annots.append(each)


def _annotation(
    document: Pdf,
    name: str,
    words: str,
    by: str,
    date: str,
    box: tuple[float, float, float, float],
) -> Object:
    made = document.make_indirect(
        Dictionary(
            Type=Name.Annot,
            Subtype=Name.Text,
            Rect=Array([round(side, 2) for side in box]),
            Contents=String(words),
            NM=String(name),
            T=String(by or "Comment"),
            F=4,
        )
    )
    if date:
        made.M = String(f"D:{date.replace('-', '')}")
    return made
