"""Words on a place of the source, and changes that the page makes of it when it is asked to."""

from bindoff.desk.about import about as told_about
from bindoff.desk.asking import Answer, RefusedError, look_of, number_of, text_of
from bindoff.desk.completing import offers
from bindoff.desk.edits import edit_data
from bindoff.desk.gauges import written_in
from bindoff.desk.mending import silencing
from bindoff.desk.placing import moving
from bindoff.desk.proofs import silenceable
from bindoff.desk.state import Desk


def about(desk: Desk, asked: Answer) -> Answer:
    """What stands at a place of an open text, as the version that was built last knows it."""
    proof = desk.last(asked)
    found = told_about(
        proof.plan,
        text_of(asked, "file"),
        text_of(asked, "text"),
        number_of(asked, "line"),
        number_of(asked, "column"),
    )
    if found is None:
        return {}
    return {"title": found.title, "lines": found.lines, "from": found.start, "to": found.end}


def complete(desk: Desk, asked: Answer) -> Answer:
    """What may be written at a place of a source."""
    text = text_of(asked, "text")
    found = offers(text, number_of(asked, "line"), number_of(asked, "column"))
    return {
        "start": found.start,
        "keys": found.keys,
        "words": [{"word": each.word, "meaning": each.meaning} for each in found.words],
    }


def gauge(desk: Desk, asked: Answer) -> Answer:
    """The changes that write the gauges of a page into its source."""
    proof = desk.last(asked)
    edits = written_in(proof.source, look_of(asked).gauges)
    return {"edits": [edit_data(each, proof.files.display("")) for each in edits]}


def silence(desk: Desk, asked: Answer) -> Answer:
    """The change that silences a check with its reason."""
    proof = desk.last(asked)
    check, because = text_of(asked, "check"), " ".join(text_of(asked, "because").split())
    if check not in silenceable() or not because:
        raise RefusedError(400, "a silence names a check and its reason")
    edits = silencing(proof.source, check, because)
    return {"edits": [edit_data(each, proof.files.display("")) for each in edits]}


def move(desk: Desk, asked: Answer) -> Answer:
    """The change that moves a motif on its tube."""
    proof, rounds, at = desk.last(asked), asked.get("rounds"), asked.get("at")
    piece = proof.source.pattern.pieces.get(text_of(asked, "piece"))
    index = number_of(asked, "motif")
    if piece is None or not 0 <= index < len(piece.motifs):
        raise RefusedError(404, "there is no such motif")
    if not isinstance(rounds, int | None) or not isinstance(at, str | int | None):
        raise RefusedError(400, "a motif is moved to a round and a place")
    try:
        edits = list(moving(piece.motifs[index], rounds, at))
    except ValueError as error:
        raise RefusedError(400, str(error)) from None
    return {"edits": [edit_data(each, proof.files.display("")) for each in edits]}
