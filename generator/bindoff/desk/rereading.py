"""Sentences that no check can prove, and which of them their designer has read once more.

What has been read is kept beside the pattern in ``reread.yaml``, never in its source: the digest of
each sentence with what is asked of it. A sentence that changes, and one of which something else is
asked since the work has changed, is another, and is asked again.
"""

import threading
from collections import Counter
from collections.abc import Iterator
from functools import lru_cache
from hashlib import sha256
from pathlib import Path
from typing import Any

from bindoff.commands.shared import Named
from bindoff.desk.beside import read_list, write_list
from bindoff.desk.proofs import Proof
from bindoff.desk.workplace import REREAD
from bindoff.diagnostics import Span
from bindoff.files import Files
from bindoff.records import Record

MOST = 2000
"""Sentences that are kept as read; of more, the oldest are forgotten."""
_SHOWN = 60  # characters of a sentence in the file, for whoever looks into it

_turn = threading.Lock()


class Tick(Record):
    """A sentence that has been read: its digest, how it begins, and on which day."""

    digest: str
    said: str = ""
    date: str = ""


class Asked(Record):
    """A sentence of the source at ``span``, in ``parts`` of which some are claims; what is asked of
    it, and where the claims stand."""

    digest: str
    parts: tuple[tuple[str, bool], ...]
    whys: tuple[str, ...]
    span: Span
    claims: tuple[Span, ...]

    @property
    def words(self) -> str:
        """The sentence on one line."""
        return "".join(part for part, _ in self.parts)


@lru_cache(maxsize=2)
def asked_of(proof: Proof) -> tuple[str, tuple[Asked, ...]]:
    """What the list is, in words, and every sentence of it in the order of the source."""
    from bindoff.checks.context import context_of
    from bindoff.checks.queries.listed import queries_of

    context = context_of(proof.plan, proof.document, proof.charts, proof.files)
    queries = queries_of(context)
    alike = Counter[str]()
    asked = list[Asked]()
    for each in queries.asked:
        whys = tuple(dict.fromkeys(doubt.why for doubt in each.doubts))
        place = "/".join(map(str, each.prose.path[:2]))
        parts = each.parts
        digest = _digest(place, "".join(part for part, _ in parts), *whys)
        alike[digest] += 1
        if alike[digest] > 1:
            digest = _digest(digest, str(alike[digest]))
        at = (each.prose.place(each.start + d.start, each.start + d.end) for d in each.doubts)
        asked.append(Asked(digest, parts, whys, each.span, tuple(dict.fromkeys(at))))
    return queries.heading, tuple(asked)


def _digest(*words: str) -> str:
    return sha256("\0".join(words).encode("utf-8", "surrogatepass")).hexdigest()[:32]


def read_ticks(files: Files) -> tuple[Tick, ...]:
    """All sentences that have been read, the oldest first; none where there is no such file.

    Raises ``PatternError`` (``desk.reread``, ``yaml.…``) for a file that holds something else.
    """
    return read_list(files, REREAD, "read", Tick, "desk.reread", "what you have read")[0]


def ticked(pattern: Named, asked: Asked, date: str) -> tuple[Tick, ...]:
    """With that sentence among those that have been read; raises ``PatternError``, ``OSError``."""
    said = f"{asked.words[:_SHOWN].rstrip()} …" if len(asked.words) > _SHOWN else asked.words
    with _turn:
        known = read_ticks(pattern.files)
        if any(each.digest == asked.digest for each in known):
            return known
        return _kept(pattern, (*known, Tick(asked.digest, said, date))[-MOST:])


def unticked(pattern: Named, digest: str) -> tuple[Tick, ...]:
    """Without the sentence of that digest; raises ``PatternError``, ``OSError``."""
    with _turn:
        known = read_ticks(pattern.files)
        return _kept(pattern, tuple(each for each in known if each.digest != digest))


def _kept(pattern: Named, ticks: tuple[Tick, ...]) -> tuple[Tick, ...]:
    write_list(Path(pattern.files.folder), REREAD, "read", ticks, "digest")
    return ticks


def reread_data(proof: Proof, ticks: tuple[Tick, ...]) -> dict[str, Any]:
    """The list as plain data: each sentence with its places, and whether it has been read."""
    heading, asked = asked_of(proof)
    read = {each.digest for each in ticks}
    return {"heading": heading, "asked": [_data(each, proof, read) for each in asked]}


def _data(asked: Asked, proof: Proof, read: set[str]) -> dict[str, Any]:
    return {
        "digest": asked.digest,
        "parts": [list(part) for part in asked.parts],
        "whys": list(asked.whys),
        "read": asked.digest in read,
        "claims": list(_places((asked.span, *asked.claims), proof)),
    }


def _places(spans: tuple[Span, ...], proof: Proof) -> Iterator[dict[str, Any]]:
    """The place of the whole sentence, then those of its claims."""
    prefix = proof.files.display("")
    for span in spans:
        yield {
            "file": span.file.removeprefix(prefix),
            "from": [span.line, span.column],
            "to": [span.end_line, span.end_column],
        }
