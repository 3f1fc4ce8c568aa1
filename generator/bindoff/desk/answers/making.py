"""What is made of the saved pattern: every file of it, or its PDF."""

from pathlib import Path

from bindoff.catalogue import BuildState, Job, Request, build, program
from bindoff.desk.asking import EDITIONS, Answer, RefusedError
from bindoff.desk.proofs import finding_data
from bindoff.desk.state import Desk
from bindoff.diagnostics import PatternError
from bindoff.editions import Wanted


def make(desk: Desk, asked: Answer) -> Answer:
    """All that ``bindoff build`` makes of the saved pattern, where it makes it."""
    desk.refuse_if_read_only()
    pattern = desk.pattern_of(asked)
    every = asked.get("every") is True
    wanted = Request(editions=Wanted(every=every))
    with desk.turn:

        def made(share: float) -> None:
            desk.made[pattern.called] = share

        made(0.0)
        try:
            built = build(Job(pattern.argument, desk.out, wanted, program()), made)
        finally:
            del desk.made[pattern.called]
    failed = built.state is BuildState.FAILED
    return {
        "failed": failed,
        "folder": str((Path(desk.out) / pattern.called).resolve()),
        "paths": [] if failed else [Path(each).name for each in built.paths],
        "findings": finding_data(built.findings, pattern.files),
    }


def progress(desk: Desk, asked: Answer) -> Answer:
    """How much of a pattern that is being made has been made, from 0 to 1."""
    return {"made": desk.made.get(desk.pattern_of(asked).called)}


def show(desk: Desk, asked: Answer) -> Answer:
    """Open the folder of the outputs in the system's own window."""
    folder = Path(desk.out) / desk.pattern_of(asked).called
    if not folder.is_dir():
        raise RefusedError(404, "nothing has been made yet")
    desk.opener(str(folder))
    return {}


def pdf(desk: Desk, called: str, edition: str) -> tuple[bytes, str]:
    """The PDF of the saved pattern, as ``bindoff build`` makes it."""
    from bindoff.pipeline import build_pattern

    pattern = desk.workplace.patterns.get(called)
    if pattern is None or edition not in EDITIONS:
        raise RefusedError(404, "there is no such pattern or edition")
    with desk.turn:
        try:
            made = build_pattern(pattern.files, pattern.source, pattern.called, EDITIONS[edition])
        except PatternError:
            raise RefusedError(409, "the saved pattern has an error") from None
    data = next(data for name, data in made.files.items() if name.endswith(".pdf"))
    return data, "application/pdf"
