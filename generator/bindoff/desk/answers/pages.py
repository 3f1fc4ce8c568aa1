"""The pages of what is open, what is found in it, and how its figures were reckoned."""

from traceback import print_exc

from bindoff.commands.shared import own_fault
from bindoff.desk.asking import Answer, look_of, number_of, text_of, texts_of
from bindoff.desk.changes import change_data
from bindoff.desk.mending import with_sound_fixes
from bindoff.desk.painting import paintable, painted
from bindoff.desk.patches import patches
from bindoff.desk.placing import motif_data
from bindoff.desk.proofs import (
    finding_data,
    found_in,
    make_proof,
    page_data,
    silenceable,
    text_sections,
)
from bindoff.desk.reckoning import reckoned
from bindoff.desk.state import Desk
from bindoff.desk.workplace import Overlay, digests
from bindoff.diagnostics import PatternError
from bindoff.records import replace


def build(desk: Desk, asked: Answer) -> Answer:
    """The pages of what is open; or why there are none, and the old ones stay."""
    client, version = text_of(asked, "client"), number_of(asked, "version")
    pattern, texts = desk.pattern_of(asked), texts_of(asked)
    try:
        look = look_of(asked)
    except ValueError as error:
        return {"version": version, "no gauge": str(error)}
    desk.newest[client] = max(version, desk.newest.get(client, 0))
    with desk.building():
        if desk.newest.get(client, 0) > version:
            return {"version": version, "superseded": True}
        files = Overlay(str(pattern.files.folder), texts)
        try:
            known = None if texts else desk.known(pattern, look)
            proof = known or make_proof(files, pattern.source, pattern.called, look)
        except PatternError as error:
            sound = with_sound_fixes(error.findings, files, pattern.source, pattern.called)
            findings = finding_data(sound, files)
            grids = paintable(files, pattern.source, pattern.called)
            return {"version": version, "stale": True, "findings": findings, **grids}
        except Exception as error:  # a fault of the program must not end the desk
            print_exc()
            findings = finding_data((own_fault(error),), files)
            return {"version": version, "stale": True, "findings": findings}
    before = desk.last_if_any(asked)
    desk.keep(client, proof)
    return {
        "version": version,
        "stale": False,
        **page_data(proof),
        "patches": patches(before, proof) if before else {},
        **painted(proof),
        "motifs": motif_data(proof),
    }


def tell(desk: Desk, asked: Answer) -> Answer:
    """Findings and text of the version that was built last for a page."""
    proof = desk.last(asked)
    with desk.building():
        try:
            source = proof.source
            sound = with_sound_fixes(found_in(proof), proof.files, proof.name, source.name)
            findings = finding_data(sound, proof.files, silenceable())
            sections = text_sections(proof)
        except PatternError as error:
            return {"findings": finding_data(error.findings, proof.files), "text": []}
        except Exception as error:
            print_exc()
            return {"findings": finding_data((own_fault(error),), proof.files), "text": []}
    return {"version": asked.get("version"), "findings": findings, "text": sections}


def compare(desk: Desk, asked: Answer) -> Answer:
    """What differs in the version that was built last for a page from another text, or from
    another pattern; and the pages of that one."""
    proof, pattern, texts = desk.last(asked), desk.pattern_of(asked), texts_of(asked)
    look = replace(look_of(asked), gauges=())
    key = (pattern.called, tuple(sorted(texts.items())), digests(pattern), look)
    client = text_of(asked, "client")
    with desk.turn:
        known, earlier = desk.compared.get(client, (None, None))
        files = Overlay(str(pattern.files.folder), texts)
        try:
            if earlier is None or known != key:
                earlier = make_proof(files, pattern.source, pattern.called, look)
            changes = change_data(earlier.plan, proof.plan)
        except PatternError as error:
            return {"findings": finding_data(error.findings, files)}
        except Exception as error:
            print_exc()
            return {"findings": finding_data((own_fault(error),), files)}
        desk.keep_compared(client, key, earlier)
    return {"changes": changes, "earlier": page_data(earlier)}


def why(desk: Desk, asked: Answer) -> Answer:
    """How the figures at a line were reckoned, in the version that was built last."""
    proof = desk.last(asked)
    file = proof.files.display(text_of(asked, "file"))
    return reckoned(proof.plan, file, number_of(asked, "line"))
