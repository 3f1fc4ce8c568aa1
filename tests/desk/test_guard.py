"""Requests from anywhere but the desk's own page are refused, and malformed ones do no harm.

The attacks are those that servers on people's own machines met: names that are bound anew to
127.0.0.1, forms of other pages, other ports of this machine, paths out of the folder.
"""

import json
from collections.abc import Iterator
from pathlib import Path

import pytest

from bindoff.desk.server import Running
from tests.desk.running import copied, path_of, raw, running, send

NAME = "ropewalk-hat"


@pytest.fixture(scope="module")
def desk(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Running]:
    folder = copied(tmp_path_factory.mktemp("desk"), NAME)
    (folder / "secret.txt").write_text("out of reach", encoding="utf-8")
    with running(folder) as desk:
        yield desk


PATTERN = json.dumps({"pattern": NAME}).encode()
SAVE = {"pattern": NAME, "text": "x", "digest": "0" * 64}


def test_the_desks_own_page_is_let_in(desk: Running) -> None:
    assert send(desk)[0] == 200
    assert send(desk, "POST", "files", PATTERN)[0] == 200
    fetched = {"Sec-Fetch-Site": "same-origin", "Sec-Fetch-Mode": "cors"}
    assert send(desk, "POST", "files", PATTERN, fetched)[0] == 200
    assert send(desk, host=f"localhost:{desk.port}")[0] == 200


@pytest.mark.parametrize(
    ("host", "status"),
    [
        ("harbour.example", 421),
        ("127.0.0.1.harbour.example:{port}", 421),
        ("127.0.0.1", 421),
        ("localhost", 421),
        ("127.0.0.1:1", 421),
        ("[::1]:{port}", 421),
        ("0.0.0.0:{port}", 421),
        ("localhost.:{port}", 421),
    ],
)
def test_another_host_is_refused(desk: Running, host: str, status: int) -> None:
    """A page whose name is bound anew to this machine still names itself as the host."""
    assert send(desk, host=host.format(port=desk.port))[0] == status


def test_a_request_without_a_host_or_with_two_is_refused(desk: Running) -> None:
    path = path_of(desk, "").encode()
    own = f"127.0.0.1:{desk.port}".encode()

    assert b"200" not in raw(desk, b"GET " + path + b" HTTP/1.0\r\n\r\n")
    twice = b"GET " + path + b" HTTP/1.1\r\nHost: " + own + b"\r\nHost: a.example\r\n\r\n"
    assert b"200" not in raw(desk, twice)


@pytest.mark.parametrize(
    "path", ["/", "/favicon.ico", "/wrong/", "/{half}/", "/{token}", "/{token}x/", "/%2e%2e/"]
)
def test_who_knows_no_secret_finds_nothing(desk: Running, path: str) -> None:
    half = desk.token[: len(desk.token) // 2]
    assert send(desk, path=path.format(token=desk.token, half=half))[0] == 404


@pytest.mark.parametrize(
    ("headers", "status"),
    [
        ({"Sec-Fetch-Site": "cross-site"}, 403),
        ({"Sec-Fetch-Site": "same-site"}, 403),
        ({"Sec-Fetch-Site": "cross-site", "Sec-Fetch-Mode": "no-cors"}, 403),
        (
            {
                "Sec-Fetch-Site": "cross-site",
                "Sec-Fetch-Mode": "navigate",
                "Sec-Fetch-Dest": "iframe",
            },
            403,
        ),
        (
            {
                "Sec-Fetch-Site": "cross-site",
                "Sec-Fetch-Mode": "navigate",
                "Sec-Fetch-Dest": "document",
            },
            200,
        ),
        ({"Sec-Fetch-Site": "none"}, 200),
    ],
)
def test_another_page_can_only_link_to_the_desk(
    desk: Running, headers: dict[str, str], status: int
) -> None:
    assert send(desk, headers=headers)[0] == status


def test_another_page_can_not_link_into_the_desk(desk: Running) -> None:
    link = {
        "Sec-Fetch-Site": "cross-site",
        "Sec-Fetch-Mode": "navigate",
        "Sec-Fetch-Dest": "document",
    }
    assert send(desk, path=f"pdf/{NAME}/a4", headers=link)[0] == 403
    assert send(desk, "POST", "files", PATTERN, link)[0] == 403


@pytest.mark.parametrize(
    ("headers", "status"),
    [
        ({"Origin": "https://harbour.example"}, 403),
        ({"Origin": "null"}, 403),
        ({"Origin": ""}, 403),
        ({"Origin": "http://127.0.0.1:1"}, 403),
        ({"Origin": "http://localhost:{port}"}, 403),
        ({"Content-Type": "text/plain"}, 415),
        ({"Content-Type": "application/x-www-form-urlencoded"}, 415),
        ({"Content-Type": "application/json; charset=utf-8"}, 415),
        ({"Sec-Fetch-Site": "same-site"}, 403),
        ({"Content-Length": "7000000"}, 413),
    ],
)
def test_a_form_of_another_page_is_refused(
    desk: Running, headers: dict[str, str], status: int
) -> None:
    """A page of another name can send forms here, and texts, but no JSON with our origin."""
    told = {name: value.format(port=desk.port) for name, value in headers.items()}
    assert send(desk, "POST", "files", PATTERN, told)[0] == status


@pytest.mark.parametrize("method", ["OPTIONS", "PUT", "DELETE", "PATCH", "TRACE", "CONNECT"])
def test_no_other_method_is_known(desk: Running, method: str) -> None:
    status, headers, _ = send(desk, method)
    assert status == 405
    assert not [name for name in headers if name.startswith("access-control")]


@pytest.mark.parametrize(
    "body", [b"", b"{", b"[]", b"null", b"1", b'"a"', b"\xff\xfe", b"[" * 100_000, b"{}"]
)
def test_a_body_that_is_no_request_is_refused(desk: Running, body: bytes) -> None:
    assert send(desk, "POST", "files", body)[0] == 400


def test_a_body_without_a_length_is_refused(desk: Running) -> None:
    own = f"127.0.0.1:{desk.port}"
    head = (
        f"POST {path_of(desk, 'files')} HTTP/1.1\r\nHost: {own}\r\nOrigin: http://{own}\r\n"
        "Content-Type: application/json\r\n"
    ).encode()

    assert b"411" in raw(desk, head + b"\r\n")
    assert b"411" in raw(desk, head + b"Transfer-Encoding: chunked\r\n\r\n2\r\n{}\r\n0\r\n\r\n")
    both = b"Content-Length: 2\r\nTransfer-Encoding: chunked\r\n\r\n0\r\n\r\n"
    assert b"200" not in raw(desk, head + both)
    assert b"400" in raw(desk, head + b"Content-Length: two\r\n\r\n{}")
    assert b"400" in raw(desk, head + b"Content-Length: -1\r\n\r\n{}")


@pytest.mark.parametrize(
    "asked",
    [
        {"pattern": ".."},
        {"pattern": "../.."},
        {"pattern": "/etc"},
        {"pattern": ""},
        {"pattern": 7},
        {"pattern": None},
        {"pattern": ["ropewalk-hat"]},
        {},
    ],
)
def test_no_request_names_a_folder(desk: Running, asked: dict[str, object]) -> None:
    for name in ("files", "since", "save", "make", "show", "compare", "progress"):
        assert send(desk, "POST", name, json.dumps(asked).encode())[0] in (400, 404)


@pytest.mark.parametrize(
    "file",
    ["../secret.txt", "secret.txt", "/etc/passwd", "", ".hidden.yaml", "new.yaml", "a/../b.yaml"],
)
def test_only_a_listed_file_is_saved(desk: Running, file: str) -> None:
    asked = json.dumps({**SAVE, "file": file}).encode()
    assert send(desk, "POST", "save", asked)[0] == 404


@pytest.mark.parametrize(
    "path",
    [
        "static/../guard.py",
        "static/%2e%2e%2fguard.py",
        "static/",
        "static/index.html",
        "font/../../secret.txt",
        "font/Lato-Regular.ttf%00",
        "page/" + "0" * 32,
        "page/..%2f..",
        "photo/1",
        "pdf/../a4",
        "pdf/ropewalk-hat/a5",
        "notes/../list",
        "notes/ropewalk-hat/a5",
        "notes/..%2f..%2fetc/list",
        "files",
        "nothing",
    ],
)
def test_no_path_reaches_the_disk(desk: Running, path: str) -> None:
    assert send(desk, path=path)[0] in (404, 405)


@pytest.mark.parametrize("name", ["compare", "gauge", "silence", "about", "why", "tell"])
def test_what_asks_of_a_build_needs_a_page_that_has_one(desk: Running, name: str) -> None:
    clients: tuple[object, ...] = ("nobody", "", 3, None, ["a"])
    for client in clients:
        asked = {"client": client, "pattern": NAME, "texts": {}, "gauges": ["x"], "line": -1}
        status, _, data = send(desk, "POST", name, json.dumps(asked).encode())
        assert status in (400, 404)
        assert b"Traceback" not in data


def test_texts_outside_the_folder_are_not_read(desk: Running) -> None:
    """An open text may have any name; the stages ask only for names that are safe."""
    texts = {"../../secret.txt": "x", "/etc/passwd": "x", "pattern.yaml": "title: a\n"}
    asked = {"client": "a", "version": 1, "pattern": NAME, "texts": texts}
    status, _, data = send(desk, "POST", "build", json.dumps(asked).encode())

    assert status == 200
    assert json.loads(data)["stale"] is True
    assert send(desk, "POST", "build", json.dumps({**asked, "texts": []}).encode())[0] == 400
    assert send(desk, "POST", "build", json.dumps({**asked, "size": 4}).encode())[0] == 400
    assert send(desk, "POST", "build", json.dumps({**asked, "edition": "a9"}).encode())[0] == 400


def test_every_answer_has_the_headers_that_shut_the_page_in(desk: Running) -> None:
    for status, headers, _ in (send(desk), send(desk, path="/"), send(desk, "POST", "files", b"[")):
        assert status in (200, 400, 404)
        policy = headers["content-security-policy"]
        assert "default-src 'none'" in policy
        assert "unsafe" not in policy
        assert "frame-ancestors 'none'" in policy
        assert headers["x-content-type-options"] == "nosniff"
        assert headers["referrer-policy"] == "no-referrer"
        assert headers["cross-origin-resource-policy"] == "same-origin"
        assert headers["cross-origin-opener-policy"] == "same-origin"
        assert "access-control-allow-origin" not in headers


def test_the_desk_listens_on_this_machine_alone(desk: Running) -> None:
    assert desk.address.startswith("http://127.0.0.1:")
    assert len(desk.token) >= 32


def test_a_link_out_of_the_folder_is_neither_shown_nor_saved(tmp_path: Path) -> None:
    folder = copied(tmp_path / "patterns", NAME)
    outside = tmp_path / "outside.grid"
    outside.write_text("..\n", encoding="utf-8")
    (folder / NAME / "out.grid").symlink_to(outside)
    (folder / NAME / "in.grid").symlink_to(folder / NAME / "rope.grid")
    with running(folder) as desk:
        _, _, data = send(desk, "POST", "files", PATTERN)
        names = [each["name"] for each in json.loads(data)["files"]]
        asked = json.dumps({**SAVE, "file": "out.grid"}).encode()
        status = send(desk, "POST", "save", asked)[0]

    assert "in.grid" in names
    assert "out.grid" not in names
    assert status == 404
    assert outside.read_text(encoding="utf-8") == "..\n"
