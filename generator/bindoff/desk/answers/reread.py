"""What no check can prove: the sentences to be read once more, and which have been."""

from bindoff import regex as re
from bindoff.desk.asking import Answer, RefusedError, text_of
from bindoff.desk.rereading import asked_of, read_ticks, reread_data, ticked, unticked
from bindoff.desk.state import Desk
from bindoff.diagnostics import PatternError


def reread(desk: Desk, asked: Answer) -> Answer:
    """The sentences of what was built last for a page, after one was ticked off as read, or not."""
    proof, pattern, do = desk.last(asked), desk.pattern_of(asked), asked.get("do")
    if do is not None:
        desk.refuse_if_read_only()
    try:
        with desk.building():
            _, sentences = asked_of(proof)
        if do is None:
            ticks = read_ticks(pattern.files)
        else:
            digest, date = text_of(asked, "digest"), text_of(asked, "date")
            found = next((each for each in sentences if each.digest == digest), None)
            if found is None:
                raise RefusedError(404, "this sentence is no longer asked about")
            if do not in ("tick", "untick") or not re.fullmatch(r"\d{4}-\d\d-\d\d", date):
                raise RefusedError(400, "a sentence is ticked or unticked, on a day")
            make = do == "tick"
            ticks = ticked(pattern, found, date) if make else unticked(pattern, digest)
    except PatternError as error:
        return {"fault": f"{error.findings[0].message}. {error.findings[0].help}."}
    except OSError as error:
        return {"fault": f"what you have read can't be written down: {error.strerror or error}"}
    return reread_data(proof, ticks)
