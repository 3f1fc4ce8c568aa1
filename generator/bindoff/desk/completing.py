"""What may be written at a place of a source: keys by the schema, values by its own names too.

The place is found from the lines above by their indentation, so it works while the file can't be
read, as it can't between two letters.
"""

import json
from collections.abc import Iterator, Mapping, Sequence
from functools import cache
from typing import Any

from bindoff import regex as re
from bindoff.commands.schema import schema
from bindoff.records import Record

Schema = Mapping[str, Any]

_LINE = re.compile(r"^( *)((?:- +)*)(?:(\"[^\"]*\"|'[^']*'|[^\s:#\"'\[{-][^:#]*?) *:(?: |$))?")
ITEM = "[]"
"""Stands in a path for the position in a list."""

# The keys whose value is a name of the pattern, and the part of the pattern that has these names.
NAMED = {
    **dict.fromkeys(("yarn", "ground", "yarns"), "yarns"),
    **dict.fromkeys(("chart", "grid"), "charts"),
    "gauge": "gauges",
    "join": "pieces",
    "mirror of": "pieces",
}


class Offer(Record):
    """A word to write, and what it means."""

    word: str
    meaning: str = ""


class Offers(Record):
    """What may stand from ``start`` (a column from 1) to the cursor; ``keys`` are followed by a
    colon."""

    start: int
    keys: bool
    words: tuple[Offer, ...]


def offers(text: str, line: int, column: int) -> Offers:
    """What may be written at a line and column (both from 1) of a source."""
    lines = text.split("\n")[: max(line, 1)]
    before = lines.pop()[: max(column - 1, 0)]
    parts = _LINE.match(before)
    assert parts is not None
    indent = len(parts[1]) + len(parts[2])
    if parts[3] is None:
        token = before[indent:]
        if not re.fullmatch(r"[\w./ -]*", token):
            return Offers(column, False, ())
        path, beside = _path(lines, len(parts[1]), parts[2])
        return Offers(indent + 1, True, tuple(_keys(path, beside)))
    path, _ = _path(lines, len(parts[1]), parts[2])
    start = len(before)
    while start > parts.end() and re.match(r"[\w./ -]", before[start - 1]):
        start -= 1
    start += 1 + len(before[start:]) - len(before[start:].lstrip(" "))
    words = tuple(_values([*path, parts[3].strip("\"'")], text))
    return Offers(start, False, words)


def _path(lines: Sequence[str], indent: int, dashes: str) -> tuple[list[str], list[str]]:
    """The keys and list items around a key at ``indent``, and the keys beside it in its group."""
    path: list[str] = []
    beside: list[str] = []
    limit = indent + len(dashes)
    if dashes:
        path += [ITEM] * dashes.count("-")
        limit = indent + 1  # a list may stand as deep as the key it belongs to
    first = not dashes
    for each in reversed(lines):
        if not each.strip() or each.lstrip().startswith("#"):
            continue
        parts = _LINE.match(each)
        assert parts is not None
        inner = len(parts[1]) + len(parts[2])
        key = parts[3]
        if first and inner == limit and key is not None:
            beside.insert(0, key.strip("\"'"))
            if parts[2]:  # the line that begins the item this key is in
                path = [ITEM] * parts[2].count("-") + path
                limit, first = len(parts[1]) + 1, False
            continue
        if inner < limit and key is not None:
            first = False
            marks = [ITEM] * parts[2].count("-")
            path = [*marks, key.strip("\"'"), *path]
            limit = len(parts[1]) + 1 if parts[2] else len(parts[1])
            if not limit:
                break
    return path, beside


@cache
def _root() -> Schema:
    found: Schema = json.loads(schema())
    return found


def _branches(node: Schema) -> Iterator[Schema]:
    """The forms that ``node`` may have, references followed."""
    if "$ref" in node:
        yield from _branches(_root()["$defs"][node["$ref"].rpartition("/")[2]])
        return
    forms = [*node.get("anyOf", ()), *node.get("oneOf", ())]
    if not forms:
        yield node
    for each in forms:
        yield from _branches(each)


def _at(path: Sequence[str]) -> list[Schema]:
    """The forms of what stands at ``path``."""
    found = list(_branches(_root()))
    for part in path:
        inner: list[Schema] = []
        for each in found:
            if part == ITEM:
                step = each.get("items")
            else:
                step = each.get("properties", {}).get(part, each.get("additionalProperties"))
            if isinstance(step, dict):
                inner += _branches(step)
        found = inner
    return found


def _keys(path: Sequence[str], beside: Sequence[str]) -> Iterator[Offer]:
    """The keys that may come at ``path``; of many forms, those that have all keys beside it, and
    for a new item the key that begins each form."""
    forms = [each for each in _at(path) if "properties" in each]
    if len(forms) > 1 and not beside:
        for each in forms:
            for key in each.get("required", ())[:1]:
                yield Offer(key, each.get("description", ""))
        return
    fitting = [each for each in forms if all(key in each["properties"] for key in beside)] or forms
    known = dict.fromkeys(beside)
    for each in fitting:
        for key, about in each["properties"].items():
            if key not in known:
                known[key] = None
                yield Offer(key, about.get("description", ""))


def meaning(path: Sequence[str], beside: Sequence[str]) -> str:
    """What the key at the end of ``path`` is for, in a group with the keys ``beside`` it; empty if
    that is not known."""
    *owner, key = path
    forms = [each for each in _at(owner) if key in each.get("properties", {})]
    fitting = [each for each in forms if all(name in each["properties"] for name in beside)]
    told = (each["properties"][key].get("description", "") for each in (*fitting, *forms))
    return next(filter(None, told), "")


def _values(path: Sequence[str], text: str) -> Iterator[Offer]:
    """The values that may come at ``path``: words of the schema, and names of the pattern."""
    known: dict[str, None] = {}
    forms = _at(path)
    for form in forms:
        inner = list(_branches(form["items"])) if isinstance(form.get("items"), dict) else []
        for each in (form, *inner):
            words = [each["const"]] if "const" in each else each.get("enum", ())
            known |= dict.fromkeys(str(word) for word in words)
            if each.get("type") == "boolean":
                known |= {"true": None, "false": None}
    part = NAMED.get(path[-1])
    if part is not None:
        known |= dict.fromkeys(_names(text, part))
    numbers = any(form.get("type") in ("number", "integer") for form in forms)
    if numbers or path[0] in ("measures", "finished"):
        known |= dict.fromkeys(_names(text, "measures"))
    yield from map(Offer, known)


def _names(text: str, part: str) -> Iterator[str]:
    """The names under a top key, as the lines have them."""
    found = re.search(rf"^{re.escape(part)}:.*\n((?:[ #].*\n|\n)*)", f"{text}\n", re.MULTILINE)
    for line in found[1].split("\n") if found else ():
        if key := re.match(r"  ([^\s#:-][^:]*):", line):
            yield key[1].strip("\"'")
