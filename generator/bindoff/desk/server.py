"""The server of the desk: one address on this machine, a fixed table of requests.

Files of the page and typefaces are looked up in dictionaries; what a request asks for by name is
looked up among what the folder lists. One pattern is built at a time, and of several requests of
one page that wait, only the newest is.
"""

import json
import secrets
import socket
import sys
import threading
from collections import OrderedDict
from collections.abc import Callable
from contextlib import suppress
from dataclasses import replace
from importlib.resources import files as packaged
from pathlib import Path
from traceback import print_exc
from typing import Any

import uvicorn
from starlette.applications import Starlette
from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import JSONResponse, Response
from starlette.routing import Route

from bindoff.catalogue import BuildState, Job, build, program
from bindoff.catalogue import Request as BuildRequest
from bindoff.commands.shared import Named, own_fault
from bindoff.desk.about import about
from bindoff.desk.asking import (
    EDITIONS,
    Answer,
    RefusedError,
    cells_of,
    lines_of,
    look_of,
    number_of,
    text_of,
    texts_of,
)
from bindoff.desk.begin import choices, first_pattern
from bindoff.desk.changes import change_data
from bindoff.desk.commenting import (
    changed_comments,
    comment_data,
    commented_pdf,
    listed_comments,
)
from bindoff.desk.comments import comments_digest, read_comments
from bindoff.desk.completing import offers
from bindoff.desk.edits import edit_data
from bindoff.desk.gauges import written_in
from bindoff.desk.guard import Guard
from bindoff.desk.mending import silencing, with_sound_fixes
from bindoff.desk.painting import faults, floats, paintable, painted, pasted
from bindoff.desk.placing import motif_data, moving
from bindoff.desk.proofs import (
    Picture,
    Proof,
    finding_data,
    found_in,
    make_proof,
    page_data,
    silenceable,
    text_sections,
    warm_up,
)
from bindoff.desk.quiet import Quiet
from bindoff.desk.reckoning import reckoned
from bindoff.desk.workplace import ChangedError, Overlay, Workplace, digests, open_files, save
from bindoff.diagnostics import PatternError
from bindoff.editions import Wanted
from bindoff.render.pdf.fonts import font_file, web_faces

_WEB = {
    "desk.js": ("built/desk.js", "text/javascript"),
    "desk.css": ("desk.css", "text/css"),
    "painter.css": ("painter.css", "text/css"),
    "icon.svg": ("icon.svg", "image/svg+xml"),
    "notices.txt": ("built/NOTICES.txt", "text/plain"),
}
_MOST_CLIENTS = 8  # tabs that are remembered
_KEPT = 2  # versions of each, so that a page that is on its way is still there
_FOREVER = {"cache-control": "private, max-age=31536000, immutable"}
_NEVER = {"cache-control": "no-store"}


class Desk:
    """What the server knows while it runs: the folder, and what each open page was last shown."""

    def __init__(
        self,
        workplace: Workplace,
        out: str,
        read_only: bool = False,
        opener: Callable[[str], object] = lambda folder: None,
    ) -> None:
        # ``opener`` shows a folder in the system's own window.
        self.workplace = workplace
        self._opener = opener
        self._out = out
        self._read_only = read_only
        self._turn = threading.Lock()  # whoever holds it builds
        self._quiet = Quiet()
        self._newest: dict[str, int] = {}
        self._proofs: OrderedDict[str, list[Proof]] = OrderedDict()
        self._made: dict[str, float] = {}
        self._compared: dict[str, tuple[object, Proof]] = {}  # with what, for each page

    def warm_up(self) -> None:
        """Load what a build needs while the browser opens."""
        with self._turn, suppress(Exception):  # a fault is told by the first build
            warm_up()

    # ------------------------------------------------------------ what may be asked

    def patterns(self, _: Answer) -> Answer:
        """The patterns that may be opened, and what the form for a new one offers."""
        known = self.workplace.patterns
        return {
            "patterns": list(known),
            "alone": self.workplace.alone,
            "read only": self._read_only,
            "choices": choices(),
        }

    def begin(self, asked: Answer) -> Answer:
        """Begin a pattern from the answers of the form."""
        self._refuse_if_read_only()
        wishes = asked.get("wishes")
        if not isinstance(wishes, dict):
            raise RefusedError(400, "the answers of the form are missing")
        try:
            title, texts = first_pattern(wishes)
            return {"pattern": self.workplace.begin(title, texts)}
        except PatternError as error:
            return {"faults": [f"{each.message}. {each.help}." for each in error.findings]}

    def files(self, asked: Answer) -> Answer:
        """The files of a pattern that can be written here."""
        pattern = self._pattern(asked)
        try:
            found = open_files(pattern)
        except PatternError as error:
            return {"files": [], "findings": finding_data(error.findings, pattern.files)}
        return {
            "source": pattern.source,
            "folder": str(pattern.files.folder),
            "files": [{"name": f.name, "text": f.text, "digest": f.digest} for f in found],
        }

    def since(self, asked: Answer) -> Answer:
        """What the files on the disk are now."""
        pattern = self._pattern(asked)
        return {"digests": digests(pattern), "comments": comments_digest(pattern)}

    def build(self, asked: Answer) -> Answer:
        """The pages of what is open; or why there are none, and the old ones stay."""
        client, version = text_of(asked, "client"), number_of(asked, "version")
        pattern, texts = self._pattern(asked), texts_of(asked)
        try:
            look = look_of(asked)
        except ValueError as error:
            return {"version": version, "no gauge": str(error)}
        self._newest[client] = max(version, self._newest.get(client, 0))
        with self._turn, self._quiet.building():
            if self._newest.get(client, 0) > version:
                return {"version": version, "superseded": True}
            files = Overlay(str(pattern.files.folder), texts)
            try:
                proof = make_proof(files, pattern.source, pattern.called, look)
            except PatternError as error:
                sound = with_sound_fixes(error.findings, files, pattern.source, pattern.called)
                findings = finding_data(sound, files)
                known = paintable(files, pattern.source, pattern.called)
                return {"version": version, "stale": True, "findings": findings, **known}
            except Exception as error:  # a fault of the program must not end the desk
                print_exc()
                findings = finding_data((own_fault(error),), files)
                return {"version": version, "stale": True, "findings": findings}
        self._keep(client, proof)
        return {
            "version": version,
            "stale": False,
            **page_data(proof),
            **painted(proof),
            "motifs": motif_data(proof),
        }

    def tell(self, asked: Answer) -> Answer:
        """Findings and text of the version that was built last for a page."""
        proof = self._last(asked)
        with self._turn, self._quiet.building():
            try:
                source = proof.source
                sound = with_sound_fixes(found_in(proof), proof.files, proof.name, source.name)
                findings = finding_data(sound, proof.files, silenceable())
                sections = list(text_sections(proof))
            except PatternError as error:
                return {"findings": finding_data(error.findings, proof.files), "text": []}
            except Exception as error:
                print_exc()
                return {"findings": finding_data((own_fault(error),), proof.files), "text": []}
        return {"version": asked.get("version"), "findings": findings, "text": sections}

    def compare(self, asked: Answer) -> Answer:
        """What differs in the version that was built last for a page from another text, or from
        another pattern; and the pages of that one."""
        proof, pattern, texts = self._last(asked), self._pattern(asked), texts_of(asked)
        look = replace(look_of(asked), gauges=())
        key = (pattern.called, tuple(sorted(texts.items())), digests(pattern), look)
        client = text_of(asked, "client")
        with self._turn:
            known, earlier = self._compared.get(client, (None, None))
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
            if client in self._proofs:
                self._compared[client] = key, earlier
        return {"changes": changes, "earlier": page_data(earlier)}

    def gauge(self, asked: Answer) -> Answer:
        """The changes that write the gauges of a page into its source."""
        proof = self._last(asked)
        edits = written_in(proof.source, look_of(asked).gauges)
        return {"edits": [edit_data(each, proof.files.display("")) for each in edits]}

    def silence(self, asked: Answer) -> Answer:
        """The change that silences a check with its reason."""
        proof = self._last(asked)
        check, because = text_of(asked, "check"), " ".join(text_of(asked, "because").split())
        if check not in silenceable() or not because:
            raise RefusedError(400, "a silence names a check and its reason")
        edits = silencing(proof.source, check, because)
        return {"edits": [edit_data(each, proof.files.display("")) for each in edits]}

    def comments(self, asked: Answer) -> Answer:
        """The comments on a pattern, after what the page asks to do with them."""
        proof, pattern = self._last(asked), self._pattern(asked)
        if asked.get("do") is not None:
            self._refuse_if_read_only()
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

    def why(self, asked: Answer) -> Answer:
        """How the figures at a line were reckoned, in the version that was built last."""
        proof = self._last(asked)
        file = proof.files.display(text_of(asked, "file"))
        return reckoned(proof.plan, file, number_of(asked, "line"))

    def about(self, asked: Answer) -> Answer:
        """What stands at a place of an open text, as the version that was built last knows it."""
        proof = self._last(asked)
        found = about(
            proof.plan,
            text_of(asked, "file"),
            text_of(asked, "text"),
            number_of(asked, "line"),
            number_of(asked, "column"),
        )
        if found is None:
            return {}
        return {"title": found.title, "lines": found.lines, "from": found.start, "to": found.end}

    def move(self, asked: Answer) -> Answer:
        """The change that moves a motif on its tube."""
        proof, rounds, at = self._last(asked), asked.get("rounds"), asked.get("at")
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

    def floats(self, asked: Answer) -> Answer:
        """Which floats of a grid that is being painted are too long."""
        return {"floats": floats(self._last(asked), text_of(asked, "file"), lines_of(asked))}

    def paste(self, asked: Answer) -> Answer:
        """Cells of a spreadsheet as lines of a grid, or why they are none."""
        proof, file, empty = self._last(asked), text_of(asked, "file"), text_of(asked, "empty")
        try:
            return {"rows": pasted(proof, file, cells_of(asked), empty)}
        except PatternError as error:
            return {"faults": faults(error)}

    def complete(self, asked: Answer) -> Answer:
        """What may be written at a place of a source."""
        text = text_of(asked, "text")
        found = offers(text, number_of(asked, "line"), number_of(asked, "column"))
        return {
            "start": found.start,
            "keys": found.keys,
            "words": [{"word": each.word, "meaning": each.meaning} for each in found.words],
        }

    def save(self, asked: Answer) -> tuple[int, Answer]:
        """Save one file, if the disk still has what was opened."""
        self._refuse_if_read_only()
        pattern = self._pattern(asked)
        try:
            digest = save(
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

    def make(self, asked: Answer) -> Answer:
        """All that ``bindoff build`` makes of the saved pattern, where it makes it."""
        self._refuse_if_read_only()
        pattern = self._pattern(asked)
        every = asked.get("every") is True
        wanted = BuildRequest(editions=Wanted(every=every))
        with self._turn:

            def made(share: float) -> None:
                self._made[pattern.called] = share

            made(0.0)
            try:
                built = build(Job(pattern.argument, self._out, wanted, program()), made)
            finally:
                del self._made[pattern.called]
        failed = built.state is BuildState.FAILED
        return {
            "failed": failed,
            "folder": str((Path(self._out) / pattern.called).resolve()),
            "paths": [] if failed else [Path(each).name for each in built.paths],
            "findings": finding_data(built.findings, pattern.files),
        }

    def progress(self, asked: Answer) -> Answer:
        """How much of a pattern that is being made has been made, from 0 to 1."""
        return {"made": self._made.get(self._pattern(asked).called)}

    def show(self, asked: Answer) -> Answer:
        """Open the folder of the outputs in the system's own window."""
        folder = Path(self._out) / self._pattern(asked).called
        if not folder.is_dir():
            raise RefusedError(404, "nothing has been made yet")
        self._opener(str(folder))
        return {}

    def pdf(self, called: str, edition: str) -> bytes:
        """The PDF of the saved pattern, as ``bindoff build`` makes it."""
        from bindoff.pipeline import build_pattern

        pattern = self.workplace.patterns.get(called)
        if pattern is None or edition not in EDITIONS:
            raise RefusedError(404, "there is no such pattern or edition")
        with self._turn:
            try:
                made = build_pattern(
                    pattern.files, pattern.source, pattern.called, EDITIONS[edition]
                )
            except PatternError:
                raise RefusedError(409, "the saved pattern has an error") from None
        return next(data for name, data in made.files.items() if name.endswith(".pdf"))

    def notes(self, called: str, edition: str) -> bytes:
        """The comments on the saved pattern: as a list, or as notes in a copy of its PDF."""
        pattern = self.workplace.patterns.get(called)
        if pattern is None or edition not in ("list", *EDITIONS):
            raise RefusedError(404, "there is no such pattern or edition")
        with self._turn:
            try:
                if edition == "list":
                    return listed_comments(pattern).encode()
                return commented_pdf(pattern, edition)
            except PatternError as error:
                raise RefusedError(409, f"{error.findings[0].message}") from None

    def page(self, digest: str) -> str | None:
        """A page that was shown a short time ago."""
        return next((p.pages[digest] for p in self._known() if digest in p.pages), None)

    def photo(self, digest: str) -> Picture | None:
        """A photograph on such a page."""
        return next((p.photos[digest] for p in self._known() if digest in p.photos), None)

    # ------------------------------------------------------------ what is kept

    def _keep(self, client: str, proof: Proof) -> None:
        kept = self._proofs.setdefault(client, [])
        kept.append(proof)
        del kept[:-_KEPT]
        self._proofs.move_to_end(client)
        while len(self._proofs) > _MOST_CLIENTS:
            gone, _ = self._proofs.popitem(last=False)
            self._newest.pop(gone, None)
            self._compared.pop(gone, None)

    def _known(self) -> list[Proof]:
        shown = [proof for kept in list(self._proofs.values()) for proof in reversed(kept)]
        return [*shown, *(earlier for _, earlier in list(self._compared.values()))]

    def _last(self, asked: Answer) -> Proof:
        kept = self._proofs.get(text_of(asked, "client"))
        if not kept:
            raise RefusedError(404, "nothing was built for this page")
        return kept[-1]

    def _pattern(self, asked: Answer) -> Named:
        found = self.workplace.patterns.get(text_of(asked, "pattern"))
        if found is None:
            raise RefusedError(404, "there is no such pattern in the folder")
        return found

    def _refuse_if_read_only(self) -> None:
        if self._read_only:
            raise RefusedError(403, "this desk was started for reading only")


# ---------------------------------------------------------------- requests


async def _asked(request: Request) -> Answer:
    try:
        asked = json.loads(await request.body())
    except (ValueError, RecursionError):
        raise RefusedError(400, "the request is no JSON") from None
    if not isinstance(asked, dict):
        raise RefusedError(400, "the request is no JSON object")
    return asked


def application(desk: Desk, nonce: str) -> Starlette:
    """The table of requests."""
    web = packaged("bindoff").joinpath("desk", "web")
    static = {
        name: (web.joinpath(*path.split("/")).read_bytes(), kind)
        for name, (path, kind) in _WEB.items()
    }
    index = web.joinpath("index.html").read_text("utf-8").replace("@NONCE@", nonce)
    fonts = {each.file for each in web_faces()}
    answers: dict[str, Callable[[Answer], Any]] = {
        "patterns": desk.patterns,
        "begin": desk.begin,
        "files": desk.files,
        "since": desk.since,
        "build": desk.build,
        "tell": desk.tell,
        "compare": desk.compare,
        "gauge": desk.gauge,
        "silence": desk.silence,
        "comments": desk.comments,
        "why": desk.why,
        "about": desk.about,
        "complete": desk.complete,
        "floats": desk.floats,
        "move": desk.move,
        "paste": desk.paste,
        "save": desk.save,
        "make": desk.make,
        "progress": desk.progress,
        "show": desk.show,
    }

    async def home(_: Request) -> Response:
        return Response(index, media_type="text/html", headers=_NEVER)

    async def file(request: Request) -> Response:
        data, kind = static.get(request.path_params["name"], (None, ""))
        if data is None:
            raise RefusedError(404, "there is nothing here")
        return Response(data, media_type=kind, headers={"cache-control": "no-cache"})

    async def font(request: Request) -> Response:
        name = request.path_params["name"]
        if name not in fonts:
            raise RefusedError(404, "there is no such typeface")
        data = await run_in_threadpool(font_file, name)
        return Response(data, media_type="font/ttf", headers=_FOREVER)

    async def page(request: Request) -> Response:
        svg = desk.page(request.path_params["digest"])
        if svg is None:
            raise RefusedError(404, "this page is no longer kept")
        return Response(svg, media_type="image/svg+xml", headers=_FOREVER)

    async def photo(request: Request) -> Response:
        picture = desk.photo(request.path_params["digest"])
        if picture is None:
            raise RefusedError(404, "this picture is no longer kept")
        return Response(picture.data, media_type=picture.kind, headers=_FOREVER)

    async def pdf(request: Request) -> Response:
        called, edition = request.path_params["called"], request.path_params["edition"]
        data = await run_in_threadpool(desk.pdf, called, edition)
        return Response(data, media_type="application/pdf", headers=_NEVER)

    async def notes(request: Request) -> Response:
        called, edition = request.path_params["called"], request.path_params["edition"]
        data = await run_in_threadpool(desk.notes, called, edition)
        kind = "text/plain; charset=utf-8" if edition == "list" else "application/pdf"
        return Response(data, media_type=kind, headers=_NEVER)

    def answering(work: Callable[[Answer], Any]) -> Callable[[Request], Any]:
        async def answer(request: Request) -> Response:
            made = await run_in_threadpool(work, await _asked(request))
            status, data = made if isinstance(made, tuple) else (200, made)
            return JSONResponse(data, status, headers=_NEVER)

        return answer

    async def refused(_: Request, error: Exception) -> Response:
        assert isinstance(error, RefusedError)
        return JSONResponse({"fault": error.reason}, error.status, headers=_NEVER)

    async def fault(_: Request, error: Exception) -> Response:
        finding = own_fault(error)
        said = f"{finding.message}. {finding.help}."
        return JSONResponse({"fault": said}, 500, headers=_NEVER)

    return Starlette(
        routes=[
            Route("/", home),
            Route("/static/{name}", file),
            Route("/font/{name}", font),
            Route("/page/{digest}", page),
            Route("/photo/{digest}", photo),
            Route("/pdf/{called}/{edition}", pdf),
            Route("/notes/{called}/{edition}", notes),
            *(
                Route(f"/{name}", answering(work), methods=["POST"])
                for name, work in answers.items()
            ),
        ],
        exception_handlers={RefusedError: refused, Exception: fault},
    )


class Running:
    """A server on a free port of this machine. ``address`` is where its page is."""

    def __init__(self, desk: Desk, port: int = 0) -> None:
        self._desk = desk
        # Named a TCP socket, because only then small answers are sent without waiting for more.
        self._socket = socket.socket(socket.AF_INET, socket.SOCK_STREAM, socket.IPPROTO_TCP)
        if sys.platform != "win32":
            self._socket.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        self._socket.bind(("127.0.0.1", port))
        self._socket.listen(128)  # the browser may be there before the server is
        self.port: int = self._socket.getsockname()[1]
        self.token = secrets.token_urlsafe(24)
        nonce = secrets.token_urlsafe(16)
        guard = Guard(application(desk, nonce), self.port, self.token, nonce)
        self._server = uvicorn.Server(
            uvicorn.Config(
                guard,
                http="h11",
                ws="none",
                lifespan="off",
                log_config=None,
                access_log=False,
                server_header=False,
                date_header=False,
                proxy_headers=False,
                timeout_graceful_shutdown=1,
            )
        )

    @property
    def address(self) -> str:
        """The address of the page, with its secret."""
        return f"http://127.0.0.1:{self.port}/{self.token}/"

    def serve(self) -> None:
        """Answer requests until Ctrl-C, or ``stop`` from another thread."""
        threading.Thread(target=self._desk.warm_up, daemon=True).start()
        self._server.run([self._socket])

    def stop(self) -> None:
        """End ``serve``."""
        self._server.should_exit = True
