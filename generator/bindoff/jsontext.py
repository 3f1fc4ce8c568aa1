"""Plain data as JSON to be read: one value a line, indented by one."""

import json

import msgspec

from bindoff import regex as re

_NOT_ASCII = re.compile(r"[^\x00-\x7f]+")


def indented(data: object) -> bytes:
    """``data`` in UTF-8.

    Raises:
        UnicodeEncodeError: for a file's name that is no text.
    """
    return msgspec.json.format(msgspec.json.encode(data), indent=1)


def as_ascii(data: object) -> str:
    """``data`` as any console can print it: other characters are escaped."""
    try:
        text = indented(data).decode()
    except UnicodeEncodeError:
        return json.dumps(data, indent=1)
    return _NOT_ASCII.sub(lambda found: json.dumps(found[0])[1:-1], text)
