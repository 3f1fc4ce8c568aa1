"""Comments on a pattern: shown, written, and taken along."""

from bindoff.desk.asking import EDITIONS, Answer, RefusedError
from bindoff.desk.commenting import (
    changed_comments,
    comment_data,
    commented_pdf,
    listed_comments,
)
from bindoff.desk.comments import comments_digest, read_comments
from bindoff.desk.state import Desk
from bindoff.diagnostics import PatternError


def comments(desk: Desk, asked: Answer) -> Answer:
    """The comments on a pattern, after what the page asks to do with them."""
    proof, pattern = desk.last_if_any(asked), desk.pattern_of(asked)
    if asked.get("do") is not None:
        desk.refuse_if_read_only()
    try:
        known = (
            read_comments(pattern.files)
            if asked.get("do") is None
            else changed_comments(pattern, proof, asked)
        )
    except PatternError as error:
        return {"fault": f"{error.findings[0].message}. {error.findings[0].help}."}
    except OSError as error:
        return {"fault": f"the comments can't be written: {error.strerror or error}"}
    return {"comments": comment_data(known, proof), "digest": comments_digest(pattern)}


def notes(desk: Desk, called: str, edition: str) -> tuple[bytes, str]:
    """The comments on the saved pattern: as a list, or as notes in a copy of its PDF."""
    pattern = desk.workplace.patterns.get(called)
    if pattern is None or edition not in ("list", *EDITIONS):
        raise RefusedError(404, "there is no such pattern or edition")
    with desk.turn:
        try:
            if edition == "list":
                return listed_comments(pattern).encode(), "text/plain; charset=utf-8"
            return commented_pdf(pattern, edition), "application/pdf"
        except PatternError as error:
            raise RefusedError(409, f"{error.findings[0].message}") from None
