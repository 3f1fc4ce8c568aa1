"""The server of the desk: one address on this machine, a fixed table of requests.

Files of the page and typefaces are looked up in dictionaries; what a request asks for by name is
looked up among what the folder lists. What the page asks in JSON is answered in ``answers``.
"""

import json
import secrets
import socket
import sys
import threading
from collections.abc import Callable
from importlib.resources import files as packaged
from typing import Any

import uvicorn
from starlette.applications import Starlette
from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import JSONResponse, Response
from starlette.routing import Route

from bindoff.commands.shared import own_fault
from bindoff.desk.answers import ANSWERS, FILES
from bindoff.desk.asking import Answer, RefusedError
from bindoff.desk.guard import Guard
from bindoff.desk.state import Desk
from bindoff.render.pdf.fonts import font_file, web_faces

_WEB = {
    "desk.js": ("built/desk.js", "text/javascript"),
    "desk.css": ("desk.css", "text/css"),
    "painter.css": ("painter.css", "text/css"),
    "icon.svg": ("icon.svg", "image/svg+xml"),
    "notices.txt": ("built/NOTICES.txt", "text/plain"),
}
_FOREVER = {"cache-control": "private, max-age=31536000, immutable"}
_NEVER = {"cache-control": "no-store"}


def application(desk: Desk, nonce: str) -> Starlette:
    """The table of requests."""
    return Starlette(
        routes=[
            *_page_itself(nonce),
            *_pictures(desk),
            *(
                Route(f"/{name}/{{called}}/{{edition}}", _file(desk, w))
                for name, w in FILES.items()
            ),
            *(Route(f"/{n}", _answer(desk, w), methods=["POST"]) for n, w in ANSWERS.items()),
        ],
        exception_handlers={RefusedError: _refused, Exception: _fault},
    )


def _page_itself(nonce: str) -> list[Route]:
    """The page, its script, its look and its typefaces."""
    web = packaged("bindoff").joinpath("desk", "web")
    static = {
        name: (web.joinpath(*path.split("/")).read_bytes(), kind)
        for name, (path, kind) in _WEB.items()
    }
    index = web.joinpath("index.html").read_text("utf-8").replace("@NONCE@", nonce)
    fonts = {each.file for each in web_faces()}

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

    return [Route("/", home), Route("/static/{name}", file), Route("/font/{name}", font)]


def _pictures(desk: Desk) -> list[Route]:
    """The pages of a pattern that were shown last, and the photographs on them."""

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

    return [Route("/page/{digest}", page), Route("/photo/{digest}", photo)]


def _file(desk: Desk, work: Callable[[Desk, str, str], tuple[bytes, str]]) -> Callable[..., Any]:
    """A file of a pattern and an edition, named in the path."""

    async def answer(request: Request) -> Response:
        called, edition = request.path_params["called"], request.path_params["edition"]
        data, kind = await run_in_threadpool(work, desk, called, edition)
        return Response(data, media_type=kind, headers=_NEVER)

    return answer


def _answer(
    desk: Desk, work: Callable[[Desk, Answer], Answer | tuple[int, Answer]]
) -> Callable[..., Any]:
    """Data for data."""

    async def answer(request: Request) -> Response:
        made = await run_in_threadpool(work, desk, await _asked(request))
        status, data = made if isinstance(made, tuple) else (200, made)
        return JSONResponse(data, status, headers=_NEVER)

    return answer


async def _asked(request: Request) -> Answer:
    try:
        asked = json.loads(await request.body())
    except (ValueError, RecursionError):
        raise RefusedError(400, "the request is no JSON") from None
    if not isinstance(asked, dict):
        raise RefusedError(400, "the request is no JSON object")
    return asked


async def _refused(_: Request, error: Exception) -> Response:
    assert isinstance(error, RefusedError)
    return JSONResponse({"fault": error.reason}, error.status, headers=_NEVER)


async def _fault(_: Request, error: Exception) -> Response:
    finding = own_fault(error)
    return JSONResponse({"fault": f"{finding.message}. {finding.help}."}, 500, headers=_NEVER)


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
