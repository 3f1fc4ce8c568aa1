"""What the commands that make chart grids share: yarns and pattern, files, the printed chart."""

import json
import os
import sys
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, NoReturn

import click

from bindoff import regex as re
from bindoff.commands.shared import own_fault, say
from bindoff.diagnostics import Diagnostic, PatternError, fail
from bindoff.files import DiskFiles, Files
from bindoff.report import full

if TYPE_CHECKING:
    from bindoff.source.read import Source

_YARN = re.compile(r"([^\s=,]+)(?:=(#[0-9a-fA-F]{6}))?")


def _yarn_list(
    context: click.Context, parameter: click.Parameter, text: str | None
) -> Mapping[str, str | None] | None:
    """``slate=#3d4a57,foam=#e8eef0``; a bare name takes its colour from a pattern."""
    if text is None:
        return None
    found: dict[str, str | None] = {}
    for part in text.split(","):
        match = _YARN.fullmatch(part.strip())
        if match is None:
            raise click.BadParameter(f"{part.strip()!r} is not like slate=#3d4a57.")
        if match[1] in found:
            raise click.BadParameter(f"{match[1]!r} is there twice.")
        found[match[1]] = match[2] and match[2].lower()
    return found


yarns_option = click.option(
    "--yarns",
    callback=_yarn_list,
    metavar="YARNS",
    help="The yarns, such as slate=#3d4a57,foam=#e8eef0.",
)
pattern_option = click.option(
    "--pattern", "folder", metavar="PATTERN", help="Take yarns and gauge from this pattern."
)
force_option = click.option(
    "--force", is_flag=True, help="Write over a file that is there already."
)


def folder_of(argument: str | None) -> str | None:
    """The folder of a pattern named by its folder or its source."""
    from bindoff.files import split_pattern_path

    return split_pattern_path(argument)[0] if argument is not None else None


def stem(name: str) -> str:
    """A file's name without its ending."""
    return os.path.splitext(name)[0]


def chart_entry(target: Path, legend: Mapping[str, str], remarks: Sequence[str]) -> str:
    """The chart for ``pattern.yaml``, under remarks on what was made.

    A character whose meaning is not known is left for the designer to say.
    """
    key = re.sub(r"\W+", "_", target.stem.lower()).strip("_") or "chart"
    meant = ", ".join(f"{json.dumps(sign)}: {_plain(each)}" for sign, each in legend.items())
    unknown = [sign for sign, each in legend.items() if not each]
    told = f"  # say for {' and '.join(unknown)} which yarn or stitch it is" if unknown else ""
    return (
        "".join(f"# {remark}\n" for remark in remarks) + "charts:\n"
        f"  {_plain(key)}:\n"
        f"    title: {_plain(target.stem.replace('-', ' ').replace('_', ' ').capitalize())}\n"
        f"    grid: {_plain(target.name)}\n"
        f"    legend: {{{meant}}}{told}\n"
        '    alt: ""  # say in a sentence what the chart shows\n'
    )


def _plain(text: str) -> str:
    """A YAML scalar: as it is where it can only be read as these words, else in quotes."""
    safe = re.fullmatch(r"[A-Za-z][\w. -]*[\w]|[A-Za-z]", text, re.ASCII)
    words = ("yes", "no", "on", "off", "y", "n", "true", "false", "null")
    return text if safe and text.lower() not in words else json.dumps(text, ensure_ascii=False)


def colours_of(
    source: "Source | None", yarns: Mapping[str, str | None] | None
) -> Mapping[str, str]:
    """The colour of every yarn: of the pattern, or of the command line's where it names any."""
    if source is None and yarns is None:
        raise click.UsageError("Give the yarns: --yarns slate=#3d4a57,foam=#e8eef0, or --pattern.")
    own = {key: yarn.colour for key, yarn in source.pattern.yarns.items()} if source else {}
    colours: dict[str, str] = {}
    for yarn, colour in (own if yarns is None else yarns).items():
        found = colour or own.get(yarn)
        if found is None:
            raise click.UsageError(f"Give the yarn {yarn!r} a colour, such as {yarn}=#3d4a57.")
        colours[yarn] = found
    return colours


def unread_pattern(argument: str) -> "Source":
    """A pattern without its grids, one of which may be what is to be made."""
    from bindoff.files import split_pattern_path
    from bindoff.source.placing import placed
    from bindoff.source.read import Source
    from bindoff.source.validation import validate
    from bindoff.source.yamltree import read_yaml

    folder, name = split_pattern_path(argument)
    files: Files = DiskFiles(folder)
    tree = read_yaml(files.read_text(name), files.display(name))
    pattern, _ = placed(validate(tree), tree.at(()))
    return Source(name, pattern, {}, ())


def characters_of(source: "Source") -> Mapping[str, str]:
    """The characters that stand for yarns in the pattern's charts; the first of each yarn."""
    found: dict[str, str] = {}
    for chart in source.pattern.charts.values():
        for character, meaning in chart.legend.items():
            known = isinstance(meaning, str) and meaning in source.pattern.yarns
            if known and len(character) == 1 and character not in found.values():
                found.setdefault(str(meaning), character)
    return found


# ---------------------------------------------------------------- files


def read_file(path: str, limit: int) -> bytes:
    """The bytes of a file; a link is followed wherever it leads."""
    folder, name = os.path.split(os.path.realpath(path) if os.path.islink(path) else path)
    return DiskFiles(folder or ".").read_bytes(name, limit=limit)


def write_file(target: Path, data: bytes, force: bool) -> None:
    """Raises ``PatternError`` when the file is there and may not be written over, or can't be."""
    try:
        with target.open("wb" if force else "xb") as file:
            file.write(data)
    except FileExistsError:
        raise fail(
            "file.exists",
            f"`{target}` is there already",
            "Choose another name with `--out`, or write over it with `--force`",
        ) from None
    except OSError as error:
        raise fail(
            "file.unwritable",
            f"`{target}` can't be written: {error.strerror or error}",
            "Choose a file in a folder that is there and that you may write to",
        ) from None


@contextmanager
def reported() -> Iterator[None]:
    """Findings on the terminal, and exit code 1."""
    try:
        yield
    except PatternError as error:
        _stop(error.findings)
    except click.ClickException:
        raise
    except Exception as error:
        _stop((own_fault(error),))


def _stop(findings: Sequence[Diagnostic]) -> NoReturn:
    say(full(findings, _lines).rstrip("\n"), err=True)
    sys.exit(1)


def _lines(path: str) -> tuple[str, ...]:
    folder, name = os.path.split(path)
    files = DiskFiles(folder or ".")
    return files.lines(files.display(name))
