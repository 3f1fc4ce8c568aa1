"""A desk that runs in a thread, and requests to it, also such as no browser sends."""

import json
import shutil
import socket
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from http.client import HTTPConnection
from pathlib import Path
from typing import Any

from bindoff.desk.server import Running
from bindoff.desk.state import Desk
from bindoff.desk.workplace import Workplace
from tests.small_patterns import CAP, WAVES

PATTERNS = Path(__file__).parents[2] / "patterns"
Answer = tuple[int, dict[str, str], bytes]


@contextmanager
def running(folder: Path, read_only: bool = False) -> Iterator[Running]:
    """A desk over ``folder`` that ends with the ``with``."""
    desk = Running(Desk(Workplace(str(folder)), str(folder / "made"), read_only))
    thread = threading.Thread(target=desk.serve, daemon=True)
    thread.start()
    try:
        yield desk
    finally:
        desk.stop()
        thread.join(10)
        assert not thread.is_alive()


def copied(folder: Path, *names: str) -> Path:
    """``folder`` with copies of demo patterns in it."""
    for name in names:
        shutil.copytree(PATTERNS / name, folder / name)
    return folder


def small(folder: Path) -> Path:
    """``folder`` with a small cap in it, which is soon made in every edition."""
    cap = folder / "quay-cap"
    cap.mkdir()
    (cap / "pattern.yaml").write_text(CAP, encoding="utf-8")
    (cap / "waves.grid").write_text(WAVES, encoding="utf-8")
    return folder


def emptied(folder: Path) -> None:
    """Remove all that is in ``folder``."""
    for each in folder.iterdir():
        if each.is_dir() and not each.is_symlink():
            shutil.rmtree(each)
        else:
            each.unlink()


def send(
    desk: Running,
    method: str = "GET",
    path: str = "",
    body: bytes | None = None,
    headers: dict[str, str] | None = None,
    host: str | None = None,
) -> Answer:
    """A request as a browser sends it, but for what is given. ``path`` follows the secret."""
    connection = HTTPConnection("127.0.0.1", desk.port, timeout=60)
    known = {"Host": host or f"127.0.0.1:{desk.port}", **(headers or {})}
    if method == "POST":
        known.setdefault("Origin", f"http://127.0.0.1:{desk.port}")
        known.setdefault("Content-Type", "application/json")
    connection.putrequest(method, path_of(desk, path), skip_host=True, skip_accept_encoding=True)
    for name, value in known.items():
        connection.putheader(name, value)
    if body is not None and "Content-Length" not in known:
        connection.putheader("Content-Length", str(len(body)))
    connection.endheaders(body)
    answer = connection.getresponse()
    data = answer.read()
    connection.close()
    return answer.status, {name.lower(): value for name, value in answer.getheaders()}, data


def path_of(desk: Running, path: str) -> str:
    """``path`` after the secret; one that begins with ``/`` is taken as it is."""
    return path if path.startswith("/") else f"/{desk.token}/{path}"


def ask(desk: Running, name: str, **asked: Any) -> tuple[int, dict[str, Any]]:
    """What the page asks: the status and the data of the answer."""
    status, _, data = send(desk, "POST", name, json.dumps(asked).encode())
    return status, json.loads(data)


def raw(desk: Running, text: bytes) -> bytes:
    """The first line of the answer to bytes sent as they are; empty if it only hangs up."""
    with socket.create_connection(("127.0.0.1", desk.port), timeout=60) as connection:
        connection.sendall(text)
        answer = b""
        while b"\r\n" not in answer:
            part = connection.recv(4096)
            if not part:
                break
            answer += part
    return answer.split(b"\r\n")[0]
