"""Which requests are let in.

The desk listens on this machine only, but every page that a browser shows can send requests there.
So a request must name the address of the desk itself as its host, carry the secret of this start
in its path, and come from the desk's own page. Each of the three is enough against most attacks;
none is trusted alone.
"""

import asyncio
import hmac
from collections.abc import Awaitable, Callable, Iterable, MutableMapping
from typing import Any

from bindoff import regex as re

Scope = MutableMapping[str, Any]
Message = MutableMapping[str, Any]
Receive = Callable[[], Awaitable[Message]]
Send = Callable[[Message], Awaitable[None]]
App = Callable[[Scope, Receive, Send], Awaitable[None]]

MOST_BYTES = 6_000_000
"""The longest body of a request: every open file of a pattern, and some."""

PATIENCE = 30.0
"""Seconds in which a body must have come."""

_FROM_HERE = (None, b"same-origin", b"none")

POLICY = (
    "default-src 'none'; script-src 'self'; style-src 'self' 'nonce-{nonce}'; img-src 'self'; "
    "font-src 'self'; connect-src 'self'; base-uri 'none'; form-action 'none'; "
    "frame-ancestors 'none'; require-trusted-types-for 'script'; trusted-types desk"
)
"""The content security policy; ``nonce`` is that of the start."""


class Guard:
    """Lets those requests through to ``app`` that come from the desk's own page.

    ``token`` is the secret that every path begins with; ``nonce`` allows the editor its styles.
    """

    def __init__(self, app: App, port: int, token: str, nonce: str) -> None:
        self._app = app
        self._hosts = (f"127.0.0.1:{port}".encode(), f"localhost:{port}".encode())
        self._prefix = f"/{token}/".encode()
        self._headers = _always(nonce)

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer one request, or refuse it."""
        if scope["type"] == "lifespan":
            await self._app(scope, receive, send)
            return
        if scope["type"] != "http":
            return  # no web socket is ever accepted

        async def guarded(message: Message) -> None:
            if message["type"] == "http.response.start":
                message["headers"] = [*message.get("headers", ()), *self._headers]
            await send(message)

        refusal = self._refusal(scope)
        if refusal:
            await _refuse(guarded, *refusal)
            return
        if scope["method"] != "POST":
            await self._app(self._inside(scope), _nothing, guarded)
            return
        try:
            body = await asyncio.wait_for(_body(receive), PATIENCE)
        except TimeoutError:
            await _refuse(guarded, 408, "the request took too long")
            return
        if body is None:
            await _refuse(guarded, 413, "the request is too long")
            return
        await self._app(self._inside(scope), _replay(body), guarded)

    def _inside(self, scope: Scope) -> Scope:
        """The request with its path after the secret."""
        path = scope["path"][len(self._prefix) - 1 :]
        return {**scope, "path": path, "raw_path": path.encode(), "root_path": ""}

    def _refusal(self, scope: Scope) -> tuple[int, str] | None:
        """The status and the reason to refuse a request, if there is one."""
        headers: list[tuple[bytes, bytes]] = scope["headers"]
        host = _only(headers, b"host")
        if host not in self._hosts:
            return 421, "this is not the address of the desk"
        path = scope.get("raw_path") or scope["path"].encode()
        if not hmac.compare_digest(path[: len(self._prefix)], self._prefix):
            return 404, "there is nothing here"
        if _only(headers, b"sec-fetch-site") not in _FROM_HERE and not (
            path == self._prefix and _opens_a_page(scope["method"], headers)
        ):
            return 403, "another page asked for this"
        if scope["method"] in ("GET", "HEAD"):
            return None
        if scope["method"] != "POST":
            return 405, "the desk knows GET and POST"
        return _refused_body(headers, b"http://" + host)


def _opens_a_page(method: str, headers: list[tuple[bytes, bytes]]) -> bool:
    """Whether a link was followed to a page of its own, as from the file that the desk starts with.

    It shows nothing to the page that the link was on, and works only for who knows the secret.
    """
    said = (_only(headers, b"sec-fetch-mode"), _only(headers, b"sec-fetch-dest"))
    cross = _only(headers, b"sec-fetch-site") == b"cross-site"
    return method == "GET" and cross and said == (b"navigate", b"document")


def _refused_body(headers: list[tuple[bytes, bytes]], own: bytes) -> tuple[int, str] | None:
    """Why a POST is refused before its body is read."""
    length = _only(headers, b"content-length")
    if _only(headers, b"origin") != own:
        return 403, "another page asked for this"
    if _only(headers, b"content-type") != b"application/json":
        return 415, "a request is written in JSON"
    if length is None or _all(headers, b"transfer-encoding"):
        return 411, "a request says how long it is"
    if not re.fullmatch(rb"[0-9]{1,12}", length):
        return 400, "a request says how long it is"
    if int(length) > MOST_BYTES:
        return 413, "the request is too long"
    return None


def _all(headers: Iterable[tuple[bytes, bytes]], name: bytes) -> list[bytes]:
    return [value for each, value in headers if each.lower() == name]


def _only(headers: Iterable[tuple[bytes, bytes]], name: bytes) -> bytes | None:
    """The value of a header; nothing that is ever right if it is there twice."""
    values = _all(headers, name)
    return values[0] if len(values) == 1 else (b"twice" if values else None)


async def _body(receive: Receive) -> bytes | None:
    """The whole body; ``None`` if it is longer than any may be."""
    parts = bytearray()
    while True:
        message = await receive()
        if message["type"] == "http.disconnect":
            return bytes(parts)
        parts += message.get("body", b"")
        if len(parts) > MOST_BYTES:
            return None
        if not message.get("more_body"):
            return bytes(parts)


def _replay(body: bytes) -> Receive:
    """``body`` as the one message of a request."""
    left = [body]

    async def receive() -> Message:
        if left:
            return {"type": "http.request", "body": left.pop(), "more_body": False}
        return {"type": "http.disconnect"}

    return receive


async def _nothing() -> Message:
    return {"type": "http.request", "body": b"", "more_body": False}


async def _refuse(send: Send, status: int, reason: str) -> None:
    text = f"{reason}\n".encode()
    headers = [
        (b"content-type", b"text/plain; charset=utf-8"),
        (b"content-length", str(len(text)).encode()),
        (b"connection", b"close"),
    ]
    await send({"type": "http.response.start", "status": status, "headers": headers})
    await send({"type": "http.response.body", "body": text})


def _always(nonce: str) -> list[tuple[bytes, bytes]]:
    """The headers of every answer."""
    return [
        (b"content-security-policy", POLICY.format(nonce=nonce).encode()),
        (b"x-content-type-options", b"nosniff"),
        (b"referrer-policy", b"no-referrer"),
        (b"cross-origin-resource-policy", b"same-origin"),
        (b"cross-origin-opener-policy", b"same-origin"),
        (b"x-frame-options", b"DENY"),
    ]
