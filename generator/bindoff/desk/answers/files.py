"""Patterns and their files: what may be opened, begun and saved."""

from bindoff.desk.asking import Answer, RefusedError, text_of
from bindoff.desk.begin import AnswersError, choices, first_pattern
from bindoff.desk.comments import comments_digest
from bindoff.desk.proofs import finding_data
from bindoff.desk.state import Desk
from bindoff.desk.workplace import ChangedError, digests, open_files, title_of
from bindoff.desk.workplace import save as save_file
from bindoff.diagnostics import PatternError


def patterns(desk: Desk, _: Answer) -> Answer:
    """The patterns that may be opened, and what the form for a new one offers."""
    known = desk.workplace.patterns
    return {
        "patterns": list(known),
        "titles": {called: title_of(pattern) for called, pattern in known.items()},
        "home": str(desk.workplace.home.resolve()),
        "alone": desk.workplace.alone,
        "read only": desk.read_only,
        "choices": choices(),
    }


def begin(desk: Desk, asked: Answer) -> Answer:
    """Begin a pattern from the answers of the form."""
    desk.refuse_if_read_only()
    wishes = asked.get("wishes")
    if not isinstance(wishes, dict):
        raise RefusedError(400, "the answers of the form are missing")
    try:
        title, texts = first_pattern(wishes)
        return {"pattern": desk.workplace.begin(title, texts)}
    except PatternError as error:
        said = [f"{each.message}. {each.help}." for each in error.findings]
        # What only the folder refuses is its name, which is made of the title.
        places = error.places if isinstance(error, AnswersError) else ["title"] * len(said)
        return {"faults": said, "places": places}


def files(desk: Desk, asked: Answer) -> Answer:
    """The files of a pattern that can be written here."""
    pattern = desk.pattern_of(asked)
    try:
        found = open_files(pattern)
    except PatternError as error:
        return {"files": [], "findings": finding_data(error.findings, pattern.files)}
    return {
        "source": pattern.source,
        "folder": str(pattern.files.folder),
        "files": [{"name": f.name, "text": f.text, "digest": f.digest} for f in found],
    }


def since(desk: Desk, asked: Answer) -> Answer:
    """What the files on the disk are now."""
    pattern = desk.pattern_of(asked)
    return {"digests": digests(pattern), "comments": comments_digest(pattern)}


def save(desk: Desk, asked: Answer) -> tuple[int, Answer]:
    """Save one file, if the disk still has what was opened."""
    desk.refuse_if_read_only()
    pattern = desk.pattern_of(asked)
    try:
        digest = save_file(
            pattern, text_of(asked, "file"), text_of(asked, "text"), text_of(asked, "digest")
        )
    except KeyError:
        raise RefusedError(404, "there is no such file in the folder") from None
    except UnicodeEncodeError:
        raise RefusedError(400, "the text has a character that is none") from None
    except ChangedError as changed:
        now = changed.now
        return 409, {"text": now.text if now else None, "digest": now.digest if now else None}
    except OSError as error:
        return 409, {"fault": f"the file can't be written: {error.strerror or error}"}
    return 200, {"digest": digest}
