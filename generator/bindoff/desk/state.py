"""What the server of the desk knows while it runs: the folder, and what each page was last shown.

One pattern is built at a time, and of several requests of one page that wait, only the newest is.
"""

import threading
from collections import OrderedDict
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress

from bindoff.commands.shared import Named
from bindoff.desk.asking import Answer, RefusedError, text_of
from bindoff.desk.proofs import Look, Picture, Proof, warm_up
from bindoff.desk.quiet import Quiet
from bindoff.desk.workplace import Workplace
from bindoff.files import DiskFiles

_MOST_CLIENTS = 8  # tabs that are remembered
_KEPT = 2  # versions of each, so that a page that is on its way is still there


class Desk:
    """The folder of a desk and what its pages were shown.

    What is made goes to the folder ``out``; ``opener`` shows a folder in the system's own window.
    ``turn`` is held by whoever builds. ``newest`` has the last version that each page asked for,
    ``made`` how much of a pattern that is being made there is, ``compared`` what each page is
    compared with.
    """

    def __init__(
        self,
        workplace: Workplace,
        out: str,
        read_only: bool = False,
        opener: Callable[[str], object] = lambda folder: None,
    ) -> None:
        self.workplace = workplace
        self.out = out
        self.read_only = read_only
        self.opener = opener
        self.turn = threading.Lock()
        self.newest: dict[str, int] = {}
        self.made: dict[str, float] = {}
        self.compared: dict[str, tuple[object, Proof]] = {}
        self._quiet = Quiet()
        self._proofs: OrderedDict[str, list[Proof]] = OrderedDict()

    def warm_up(self) -> None:
        """Load what a build needs while the browser opens."""
        with self.turn, suppress(Exception):  # a fault is told by the first build
            warm_up()

    @contextmanager
    def building(self) -> Iterator[None]:
        """One's turn to build, without a stop for garbage."""
        with self.turn, self._quiet.building():
            yield

    # ------------------------------------------------------------ what a request is about

    def pattern_of(self, asked: Answer) -> Named:
        """The pattern that a request names."""
        found = self.workplace.patterns.get(text_of(asked, "pattern"))
        if found is None:
            raise RefusedError(404, "there is no such pattern in the folder")
        return found

    def last(self, asked: Answer) -> Proof:
        """What was built last for the page that asks."""
        known = self.last_if_any(asked)
        if known is None:
            raise RefusedError(404, "nothing was built for this page")
        return known

    def last_if_any(self, asked: Answer) -> Proof | None:
        """The same; ``None`` for a page whose pattern has not been built yet."""
        kept = self._proofs.get(text_of(asked, "client"))
        return kept[-1] if kept else None

    def known(self, pattern: Named, look: Look) -> Proof | None:
        """What some page was shown of a pattern, if the folder still is what it was built of."""
        for proof in self._known():
            files = proof.files
            if (
                isinstance(files, DiskFiles)
                and (files.folder, proof.name) == (pattern.files.folder, pattern.source)
                and proof.look == look
                and files.still(files.seen)
            ):
                return proof
        return None

    def refuse_if_read_only(self) -> None:
        """Raise ``RefusedError`` at a desk that changes nothing."""
        if self.read_only:
            raise RefusedError(403, "this desk was started for reading only")

    # ------------------------------------------------------------ what is kept

    def keep(self, client: str, proof: Proof) -> None:
        """Keep what was built for a page, and forget what is older."""
        kept = self._proofs.setdefault(client, [])
        kept.append(proof)
        del kept[:-_KEPT]
        self._proofs.move_to_end(client)
        while len(self._proofs) > _MOST_CLIENTS:
            gone, _ = self._proofs.popitem(last=False)
            self.newest.pop(gone, None)
            self.compared.pop(gone, None)

    def keep_compared(self, client: str, key: object, proof: Proof) -> None:
        """Keep what a page that is still known is compared with."""
        if client in self._proofs:
            self.compared[client] = key, proof

    def page(self, digest: str) -> str | None:
        """A page that was shown a short time ago."""
        return next((p.pages[digest] for p in self._known() if digest in p.pages), None)

    def photo(self, digest: str) -> Picture | None:
        """A photograph on such a page."""
        return next((p.photos[digest] for p in self._known() if digest in p.photos), None)

    def _known(self) -> list[Proof]:
        shown = [proof for kept in list(self._proofs.values()) for proof in reversed(kept)]
        return [*shown, *(earlier for _, earlier in list(self.compared.values()))]
