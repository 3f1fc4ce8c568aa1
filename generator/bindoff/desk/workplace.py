"""The folder that the desk works in: its patterns, their files as text, and saving them.

Every name that a request brings is looked up among those that the folder lists, so no request
reaches another file.
"""

import hashlib
import unicodedata
from collections.abc import Iterable, Mapping
from contextlib import suppress
from pathlib import Path

from bindoff import regex as re
from bindoff.commands.shared import Named, named
from bindoff.commands.wholefile import write_whole
from bindoff.diagnostics import PatternError, fail
from bindoff.files import GRID_LIMIT, SOURCE_NAME, DiskFiles
from bindoff.records import Record
from bindoff.render.output import is_reserved
from bindoff.source.yamltree import read_yaml

_TEMPLATES = ("templates", "templates/notes", "templates/safety", "templates/techniques")
COMMENTS = "proof.yaml"
"""The file beside a pattern that holds comments on it; the desk keeps it, nobody types in it."""
REREAD = "reread.yaml"
"""The file beside it that says which sentences have been read once more, kept in the same way."""

_TITLE = re.compile(r"^title:.*$", re.MULTILINE)
_MARK = b"\xef\xbb\xbf"
_NAME_LENGTH = 60
_NEW_GRID = re.compile(rf"[a-z][a-z0-9-]{{0,{_NAME_LENGTH}}}\.grid")


class OpenFile(Record):
    """A file as the desk shows it: lines ended by a line feed, and the digest of its bytes."""

    name: str
    text: str
    digest: str


class Overlay(DiskFiles):
    """A pattern's folder as it would be if the open ``texts`` were saved."""

    def __init__(self, folder: str, texts: Mapping[str, str]) -> None:
        super().__init__(folder)
        self._texts = {name: text.encode("utf-8", "surrogatepass") for name, text in texts.items()}
        self._lists: dict[str, tuple[str, ...]] = {}

    def _listed(self, name: str) -> tuple[str, ...]:
        # A build asks for many files, and is of one folder as it was when it began.
        if name not in self._lists:
            self._lists[name] = super()._listed(name)
        return self._lists[name]

    def _names(self, folder: str) -> Iterable[str]:
        open_here = {
            name.rpartition("/")[2]
            for name in self._texts
            if (name.rpartition("/")[0] or ".") == folder
        }
        return {*super()._names(folder), *open_here}

    def _bytes(self, name: str, size: int = -1) -> bytes:
        if name in self._texts:
            return self._texts[name] if size < 0 else self._texts[name][:size]
        return super()._bytes(name, size)


class Workplace:
    """A folder that holds patterns, or one pattern. ``patterns`` names those that may be opened."""

    def __init__(self, argument: str) -> None:
        path = Path(argument)
        self._only = argument if path.is_file() or (path / SOURCE_NAME).is_file() else ""
        self._root = path

    @property
    def alone(self) -> bool:
        """Whether it is one pattern, named by the user."""
        return bool(self._only)

    @property
    def home(self) -> Path:
        """The folder in which a new pattern gets its own."""
        inner = self._root / "patterns"
        return inner if inner.is_dir() else self._root

    @property
    def patterns(self) -> dict[str, Named]:
        """The patterns there are now, by what they are called."""
        if self._only:
            only = named(self._only)
            return {only.called: only}
        found = (
            [named(str(self._root / SOURCE_NAME))] if (self._root / SOURCE_NAME).is_file() else []
        )
        for parent in (self._root, self._root / "patterns"):
            with suppress(OSError):
                found += [
                    named(str(each.parent))
                    for each in sorted(parent.glob(f"*/{SOURCE_NAME}"))
                    if not each.parent.name.startswith(".") and each.is_file()
                ]
        known: dict[str, Named] = {}
        for each in found:
            known.setdefault(each.called, each)
        return known

    def begin(self, title: str, texts: Mapping[str, str]) -> str:
        """Begin a pattern of that title in a folder of its own; what it is called.

        Raises ``PatternError`` where the title gives no name, or it is taken.
        """
        name = folder_name(title)
        if not name or is_reserved(name):
            raise fail(
                "desk.answer",
                f"no folder can be named after the title `{title}`",
                "Write a title with a few letters or digits in it",
            )
        home = self.home
        folder = home / name
        if folder.exists() or folder.is_symlink():
            raise fail(
                "file.exists", f"there is a folder `{name}` already", "Give it another title"
            )
        draft = home / f".{name}.new"
        try:
            draft.mkdir(parents=True)
            for part, text in texts.items():
                (draft / part).write_text(text, encoding="utf-8", newline="\n")
            draft.rename(folder)
        except OSError as error:
            raise fail(
                "file.unwritable",
                f"`{folder}` can't be written: {error.strerror or error}",
                "Start the desk in a folder of your own",
            ) from None
        return name


def title_of(pattern: Named) -> str:
    """The title that a pattern's source has now, also one that does not build; else its folder."""
    try:
        text = pattern.files.read_text(pattern.source)
        line = _TITLE.search(text)
        title = read_yaml(line[0], pattern.source).data["title"] if line else ""
    except PatternError:
        title = ""
    return title.strip() if isinstance(title, str) and title.strip() else pattern.called


def folder_name(title: str) -> str:
    """A title as the name of a folder: ``Größe 5½, Hat`` is ``grosse-5-1-2-hat``."""
    parted = re.sub(r"(?<=\d)(?=[¼-¾⅐-⅞])", "-", title.replace("ß", "ss"))
    plain = unicodedata.normalize("NFKD", parted).replace("\N{FRACTION SLASH}", "-")
    letters = plain.encode("ascii", "ignore").decode().lower()
    return re.sub(r"[^a-z0-9]+", "-", letters).strip("-")[:_NAME_LENGTH].strip("-")


def open_files(pattern: Named) -> tuple[OpenFile, ...]:
    """Every file of a pattern that can be written here, its source first.

    Raises ``PatternError`` for a source that is no text; other such files are left out.
    """
    found = []
    for name in _names(pattern):
        try:
            data = pattern.files.read_bytes(name, limit=GRID_LIMIT)
            found.append(
                OpenFile(name, pattern.files.read_text(name, limit=GRID_LIMIT), _digest(data))
            )
        except PatternError:
            if name == pattern.source:
                raise
    return tuple(found)


def digests(pattern: Named) -> dict[str, str]:
    """The digest of every such file as it is on the disk now."""
    found = {}
    for name in _names(pattern):
        with suppress(PatternError):
            found[name] = _digest(pattern.files.read_bytes(name, limit=GRID_LIMIT))
    return found


def _names(pattern: Named) -> list[str]:
    files = pattern.files
    here = [
        each
        for each in files.list_dir()
        if each.endswith((".yaml", ".grid"))
        and (each not in (COMMENTS, REREAD) or each == pattern.source)
    ]
    own = [
        f"{folder}/{each}"
        for folder in _TEMPLATES
        for each in files.list_dir(folder)
        if each.endswith(".md")
    ]
    first = [pattern.source] if pattern.source in here else []
    return [*first, *(each for each in here if each != pattern.source), *own]


class ChangedError(Exception):
    """The file on the disk is not the one that was opened; ``now`` is what it is."""

    def __init__(self, now: OpenFile | None) -> None:
        super().__init__("changed on disk")
        self.now = now


def save(pattern: Named, name: str, text: str, digest: str) -> str:
    """Save an open file, all of it or nothing, and give its new digest.

    Line ends, byte order mark and rights stay as they were. An empty ``digest`` is that of a grid
    that was begun here and is not on the disk yet. Raises ``ChangedError`` where the disk has
    another text than the one with that ``digest``; ``KeyError`` for a name that the folder doesn't
    list, and that no new grid may have; ``OSError``, ``PatternError``.
    """
    if name not in _names(pattern):
        if digest or not _NEW_GRID.fullmatch(name) or is_reserved(name):
            raise KeyError(name)
        return _begin(pattern.files.folder / name, text.encode("utf-8"))
    path = (pattern.files.folder / name).resolve()
    before = path.read_bytes()
    if _digest(before) != digest:
        now = next((each for each in open_files(pattern) if each.name == name), None)
        raise ChangedError(now)
    data = _as_before(text, before)
    write_whole(path, data)
    return _digest(data)


def _begin(path: Path, data: bytes) -> str:
    """Write a file that is not there; a link is none, wherever it leads."""
    try:
        with path.open("xb") as file:
            file.write(data)
    except FileExistsError:
        raise ChangedError(None) from None
    return _digest(data)


def _as_before(text: str, before: bytes) -> bytes:
    """``text`` as bytes with the line ends and the byte order mark of ``before``."""
    ends = b"\r\n" if b"\r\n" in before and before.count(b"\r\n") == before.count(b"\n") else b"\n"
    mark = _MARK if before.startswith(_MARK) else b""
    return mark + text.encode("utf-8").replace(b"\n", ends)


def _digest(data: bytes) -> str:
    return hashlib.sha256(data).hexdigest()
