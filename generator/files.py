"""The one small object between the program and the machine's files."""

from abc import ABC, abstractmethod
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from generator.diagnostics import Span

SOURCE_LIMIT = 2_000_000
GRID_LIMIT = 4_000_000


@dataclass(frozen=True, slots=True)
class Template:
    """A template's text and the path it is shown under."""

    name: str
    text: str
    file: str


class Files(ABC):
    """One pattern's folder and the packaged templates; names are relative to the folder."""

    @abstractmethod
    def display(self, name: str) -> str:
        """The path of ``name`` as the user would write it."""

    @abstractmethod
    def exists(self, name: str) -> bool:
        """Whether ``name`` is a file inside the folder."""

    @abstractmethod
    def list_dir(self, name: str = ".") -> tuple[str, ...]:
        """Names in a folder of the pattern, sorted; empty when there is none."""

    @abstractmethod
    def read_bytes(
        self, name: str, *, limit: int = SOURCE_LIMIT, named_at: Span | None = None
    ) -> bytes:
        """The file's bytes; ``named_at`` is the place that asks for it."""

    def read_text(
        self, name: str, *, limit: int = SOURCE_LIMIT, named_at: Span | None = None
    ) -> str:
        """The file as text, without a byte order mark, lines ended by a line feed."""
        raise NotImplementedError

    def lines(self, display: str) -> tuple[str, ...]:
        """Lines of the file shown as ``display`` for a report; empty when unreadable."""
        raise NotImplementedError

    def template(self, name: str) -> Template:
        """The pattern's own ``templates/name`` or else the packaged one."""
        raise NotImplementedError


class DiskFiles(Files):
    """Files of a real folder."""

    def __init__(self, folder: str | Path) -> None:
        raise NotImplementedError


class MemoryFiles(Files):
    """Files held in memory, for tests."""

    def __init__(
        self,
        files: Mapping[str, str | bytes],
        folder: str = "pattern",
        templates: Mapping[str, str] | None = None,
    ) -> None:
        raise NotImplementedError


def split_pattern_path(argument: str) -> tuple[str, str]:
    """Folder and source name for a command-line PATTERN (a folder or its ``pattern.yaml``)."""
    raise NotImplementedError
