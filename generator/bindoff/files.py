"""The one small object between the program and the machine's files."""

import hashlib
import os
import stat
import unicodedata
from abc import ABC, abstractmethod
from collections.abc import Iterable, Mapping
from functools import lru_cache
from pathlib import Path, PurePath

from bindoff import regex as re
from bindoff.diagnostics import PatternError, Span, closest, fail
from bindoff.records import Record

SOURCE_NAME = "pattern.yaml"
SOURCE_LIMIT = 500_000
GRID_LIMIT = 4_000_000

_TEMPLATES = "templates"
_CHANGED = "changed while it was read"
_ENCODING_HELP = "Save it as plain text in UTF-8"


class Template(Record):
    """A template's text and the path it is shown under; ``packaged`` if it is the program's own."""

    name: str
    text: str
    file: str
    packaged: bool = False


class Seen(Record):
    """What was looked at in a folder; as long as it is the same, so is all that was made of it.

    ``read`` has the SHA-256 of each file that was read, ``None`` if it could not be, and nothing
    that is ever the case if it changed meanwhile; ``there`` says which names were found when they
    were asked for, ``listed`` what folders held.
    """

    read: Mapping[str, str | None]
    there: Mapping[str, bool]
    listed: Mapping[str, tuple[str, ...]]


class Files(ABC):
    """One pattern's folder and the packaged templates.

    Names are relative to the folder, with ``/`` between their parts, and can't lead out of it. All
    methods that read raise ``PatternError`` (ids ``file.…``) with the span ``named_at``: the place
    in the source that names the file, if there is one.
    """

    def __init__(self, name: str, prefix: str) -> None:
        self._name = name
        self._prefix = prefix

    @property
    def name(self) -> str:
        """The folder's own name, without the folders above it."""
        return self._name

    def display(self, name: str) -> str:
        """The path of ``name`` as the user would write it."""
        return f"{self._prefix}{name}"

    def exists(self, name: str) -> bool:
        """Whether ``name`` is a file inside the folder."""
        try:
            _check_name(name, None)
        except PatternError:
            return False
        folder, _, last = name.rpartition("/")
        return last in self._listed(folder or ".")

    def list_dir(self, name: str = ".") -> tuple[str, ...]:
        """Names of the files in a folder of the pattern, sorted; none if there is no such folder.

        Links that lead out of the pattern's folder are not among them, nor hidden files and copies
        that end with ``~``, which editors leave, nor names that no pattern can write: those with
        invisible characters, and those that are no text at all.
        """
        return tuple(
            each
            for each in self._listed(name)
            if each.isprintable() and not each.startswith(".") and each[-1] != "~"
        )

    def _listed(self, name: str) -> tuple[str, ...]:
        try:
            if name != ".":
                _check_name(name, None)
            return tuple(sorted(self._names(name)))
        except (PatternError, OSError):
            return ()

    @abstractmethod
    def _names(self, folder: str) -> Iterable[str]:
        """Names of the files in a folder whose name is safe; may raise ``OSError``."""

    @abstractmethod
    def _read(self, name: str, size: int) -> bytes:
        """The first ``size`` bytes of a file whose name is safe; may raise ``OSError``."""

    @abstractmethod
    def _packaged(self, name: str) -> str | None:
        """The text of a packaged template, ``None`` if there is none of that name."""

    def read_bytes(
        self, name: str, *, limit: int = SOURCE_LIMIT, named_at: Span | None = None
    ) -> bytes:
        """The file's bytes, at most ``limit``."""
        _check_name(name, named_at)
        try:
            data = self._read(self._as_on_disk(name), limit + 1)
        except FileNotFoundError:
            raise self._missing(name, named_at) from None
        except OSError as error:
            raise fail(
                "file.unreadable",
                f"`{name}` can't be read: {error.strerror or error}",
                "Check that it is an ordinary file that you may read",
                named_at,
            ) from None
        if len(data) > limit:
            raise fail(
                "file.too-large",
                f"`{name}` is larger than {limit / 1e6:g} MB",
                "Make it smaller, or check that it is the file you mean",
                named_at,
            )
        return data

    def read_text(
        self, name: str, *, limit: int = SOURCE_LIMIT, named_at: Span | None = None
    ) -> str:
        """The file as text, without a byte order mark, its lines ended by a line feed.

        Faults inside the file have their place in it.
        """
        data = self.read_bytes(name, limit=limit, named_at=named_at)
        return _decoded(data, name, self.display(name))

    def lines(self, display: str) -> tuple[str, ...]:
        """Lines for a report of the file shown as ``display``; none if it can't be read.

        Never raises; bytes that are no text become replacement characters.
        """
        prefix = self.display("")
        if not display.startswith(prefix):
            return ()
        try:
            data = self.read_bytes(display.removeprefix(prefix), limit=GRID_LIMIT)
        except PatternError:
            return ()
        return tuple(_plain(data.decode("utf-8-sig", errors="replace")).split("\n"))

    def template(self, name: str, *, named_at: Span | None = None) -> Template:
        """The pattern's own ``templates/name``, or else the packaged template."""
        _check_name(name, named_at)
        own = f"{_TEMPLATES}/{name}"
        if self.exists(own):
            return Template(name, self.read_text(own, named_at=named_at), self.display(own))
        text = self._packaged(name)
        if text is None:
            raise fail(
                "file.missing",
                f"there is no template `{name}`",
                f"Put one into the pattern's folder as `{own}`, or correct the name",
                named_at,
            )
        return Template(name, _plain(text), f"packaged {own}", packaged=True)

    def _as_on_disk(self, name: str) -> str:
        """``name`` with its accents as the folder has them: systems write é in one sign or two."""
        if name.isascii():
            return name
        folder, slash, last = name.rpartition("/")
        names = self._listed(folder or ".")
        wanted = unicodedata.normalize("NFC", last)
        same = (each for each in names if unicodedata.normalize("NFC", each) == wanted)
        return name if last in names else f"{folder}{slash}{next(same, last)}"

    def _missing(self, name: str, named_at: Span | None) -> PatternError:
        folder, _, last = name.rpartition("/")
        there = self._listed(folder or ".")
        close = closest(last, there)
        if close:
            help = f"Write `{f'{folder}/' if folder else ''}{close}`, which is there"
        else:
            help = f"Put the file there, as `{self.display(name)}`, or correct the name"
        return fail("file.missing", f"there is no file `{name}`", help, named_at)


class DiskFiles(Files):
    """Files of a real folder. ``display`` keeps the folder as the user wrote it.

    It remembers what was looked at; ask for ``seen`` when the work is done.
    """

    def __init__(self, folder: str) -> None:
        self._folder = Path(folder)
        self._digests: dict[str, str | None] = {}
        self._there: dict[str, bool] = {}
        self._listings: dict[str, tuple[str, ...]] = {}
        prefix = "" if folder in ("", ".") else f"{folder.rstrip('/')}/"
        super().__init__(self._folder.absolute().name, prefix)

    @property
    def folder(self) -> Path:
        """The folder as the user wrote it."""
        return self._folder

    @property
    def seen(self) -> Seen:
        """What was looked at since this object was made."""
        return Seen(dict(self._digests), dict(self._there), dict(self._listings))

    def still(self, seen: Seen) -> bool:
        """Whether all that was looked at is the same now."""
        now = DiskFiles(str(self._folder))
        return (
            all(now._digest(name) == digest for name, digest in seen.read.items())
            and all(now.exists(name) == there for name, there in seen.there.items())
            and all(now.list_dir(name) == names for name, names in seen.listed.items())
        )

    def exists(self, name: str) -> bool:
        """Whether ``name`` is a file inside the folder."""
        there = super().exists(name)
        self._there.setdefault(name, there)
        return there

    def list_dir(self, name: str = ".") -> tuple[str, ...]:
        """The names as every ``Files`` gives them."""
        names = super().list_dir(name)
        self._listings.setdefault(name, names)
        return names

    def _names(self, folder: str) -> Iterable[str]:
        return [path.name for path in self._inside(folder).iterdir() if self._is_ours(path)]

    def _is_ours(self, path: Path) -> bool:
        try:
            return path.is_file() and path.resolve().is_relative_to(self._folder.resolve())
        except (OSError, RuntimeError):
            return False

    def _read(self, name: str, size: int) -> bytes:
        self._digests.setdefault(name, None)
        data = self._bytes(name, size)
        digest = hashlib.sha256(data).hexdigest()
        known = self._digests[name]
        self._digests[name] = digest if known in (None, digest) else _CHANGED
        return data

    def _digest(self, name: str) -> str | None:
        try:
            return hashlib.sha256(self._bytes(name)).hexdigest()
        except OSError:
            return None

    def _bytes(self, name: str, size: int = -1) -> bytes:
        path = self._inside(name)
        if not stat.S_ISREG(path.stat().st_mode):
            raise OSError("it is not an ordinary file")
        with path.open("rb") as file:
            return file.read(size)

    def _inside(self, name: str) -> Path:
        """The real path of ``name``; a link may not lead out of the folder."""
        try:
            folder = self._folder.resolve()
            path = (folder / name).resolve()
        except RuntimeError:  # what pathlib makes of links in a circle
            raise OSError("it is a link that leads back to itself") from None
        if not path.is_relative_to(folder):
            raise OSError("it is a link to a place outside the pattern's folder")
        return path

    def _packaged(self, name: str) -> str | None:
        return packaged_template(name)


class MemoryFiles(Files):
    """Files held in memory, for tests. ``templates`` stand in for the packaged ones if given."""

    def __init__(
        self,
        files: Mapping[str, str | bytes],
        folder: str = "pattern",
        templates: Mapping[str, str] | None = None,
    ) -> None:
        super().__init__(PurePath(folder).name, f"{folder}/" if folder else "")
        self._files = {
            name: data.encode() if isinstance(data, str) else data for name, data in files.items()
        }
        self._templates = templates

    def _names(self, folder: str) -> Iterable[str]:
        paths = [PurePath(name) for name in self._files]
        return [path.name for path in paths if path.parent == PurePath(folder)]

    def _read(self, name: str, size: int) -> bytes:
        if name not in self._files:
            raise FileNotFoundError(name)
        return self._files[name][:size]

    def _packaged(self, name: str) -> str | None:
        return packaged_template(name) if self._templates is None else self._templates.get(name)


@lru_cache(maxsize=256)
def packaged_template(name: str) -> str | None:
    """A template that comes with the program; ``None`` if there is none of that name."""
    file = template_folder().joinpath(*name.split("/"))
    return file.read_text(encoding="utf-8") if file.is_file() else None


def split_pattern_path(argument: str) -> tuple[str, str]:
    """Folder and source name for a PATTERN on the command line: a folder or its source file."""
    if os.path.isdir(argument):
        return argument, SOURCE_NAME
    folder, name = os.path.split(argument.rstrip("/"))
    return folder or ".", name


def template_folder() -> Path:
    """Where the packaged templates are: inside an installed package, beside it in a checkout."""
    inside = Path(__file__).with_name("_templates")
    return inside if inside.is_dir() else Path(__file__).resolve().parents[2] / _TEMPLATES


def _check_name(name: str, named_at: Span | None) -> None:
    """Raises unless ``name`` is a relative path of plain parts."""
    parts = name.split("/")
    if "\\" in name:
        message, help = f"`{name}` has a backslash", "Write `/` between folder and file"
    elif not name.strip():
        message, help = "the name of a file is missing", "Write the name of a file"
    elif "\n" in name:
        message = "these are several lines, and the name of a file is one"
        help = "Put them into a text file in the pattern's folder, and write its name here"
    elif not name.isprintable():
        message, help = f"`{name}` has an invisible character", "Type the name anew"
    elif not parts[0] or re.match("[A-Za-z]:", name):
        message = f"`{name}` is a path that only this computer has"
        help = "Copy the file into the pattern's folder and write its name alone"
    elif ".." in parts:
        message = f"`{name}` leads out of the pattern's folder"
        help = "Copy the file into the pattern's folder and write its name alone"
    elif not all(parts) or "." in parts:
        message, help = f"`{name}` is not the name of a file", "Write it without `//` and `.` parts"
    else:
        return
    raise fail("file.name", message, help, named_at)


_KINDS = (
    (b"%pdf", "a PDF"),
    (b"{\\rtf", "a rich-text file (RTF)"),
    (b"pk\x03\x04", "a word processor's or spreadsheet's file (such as DOCX, ODT or XLSX)"),
    (b"\xd0\xcf\x11\xe0", "a word processor's file (DOC)"),
    (b"<!doctype", "a web page (HTML)"),
    (b"<html", "a web page (HTML)"),
    (b"<?xml", "an XML file"),
)


def foreign_kind(data: bytes) -> str:
    """What a file is that is not plain text, by its first bytes; empty where they say nothing."""
    start = data.lstrip()[:9].lower()
    return next((kind for first, kind in _KINDS if start.startswith(first)), "")


SAVE_AS_TEXT = (
    "Open it in the program that made it, copy what you need into a text editor, and save that as "
    "a file of plain text, encoding UTF-8"
)


def _decoded(data: bytes, name: str, display: str) -> str:
    if kind := foreign_kind(data):
        raise fail(
            "file.kind",
            f"`{name}` is {kind}, not plain text",
            SAVE_AS_TEXT,
            Span(display, 1, 1, 1, 2),
        )
    if data.startswith((b"\xff\xfe", b"\xfe\xff")):
        raise fail(
            "file.encoding",
            f"`{name}` is saved as UTF-16",
            _ENCODING_HELP,
            _place(data, 0, display),
        )
    if (zero := data.find(0)) >= 0:
        raise fail(
            "file.binary",
            f"`{name}` is not a text file",
            "Check the name; a text file has no zero bytes",
            _place(data, zero, display),
        )
    try:
        return _plain(data.decode("utf-8-sig"))
    except UnicodeDecodeError as error:
        # The codec's offsets count from behind the byte order mark.
        at = error.start + (len(data) - len(error.object))
        raise fail(
            "file.encoding",
            f"`{name}` is not in UTF-8: the byte {data[at]:#04x} here is no character",
            _ENCODING_HELP,
            _place(data, at, display),
        ) from None


def _place(data: bytes, offset: int, display: str) -> Span:
    """The place of a byte, its column counted in characters."""
    before = _plain(data[:offset].decode("utf-8-sig", errors="replace"))
    line, column = before.count("\n") + 1, len(before) - before.rfind("\n")
    return Span(display, line, column, line, column + 1)


def _plain(text: str) -> str:
    return text.removeprefix("\ufeff").replace("\r\n", "\n").replace("\r", "\n")
