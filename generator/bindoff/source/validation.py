"""From plain data to the models: every fault with its place, in words for a designer."""

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from copy import deepcopy
from typing import Any

from pydantic_core import ErrorDetails, ValidationError

from bindoff import regex as re
from bindoff.diagnostics import Diagnostic, PatternError, closest, gathered, written_as
from bindoff.records import Record
from bindoff.source.keptmodels import reader
from bindoff.source.model import Model
from bindoff.source.pattern import Pattern
from bindoff.source.size import Size
from bindoff.source.steps.registry import STEPS
from bindoff.source.steps.step import Step
from bindoff.source.yamltree import YamlTree

Path = tuple[str | int, ...]


def validate(tree: YamlTree) -> Pattern:
    """The pattern in ``tree``; a number where only text will do is taken as it was typed.

    Raises:
        PatternError: with every fault found (ids ``source.…``).
    """
    data = deepcopy(tree.data)
    faults, pattern = _tried(data)
    typed = [fault for fault in faults if fault.is_number_for_text]
    for fault in typed:
        _put(data, fault.path, tree.text(fault.path))
    if typed:
        faults, pattern = _tried(data)
    if pattern is None:
        raise PatternError(gathered(_findings(faults, tree)))
    return pattern


def _tried(data: Any) -> tuple[list["_Fault"], Pattern | None]:
    """What the models find at fault in ``data``, or the pattern."""
    models: dict[int, type[Model]] = {}
    try:
        return [], reader().validate_python(data, context=models)
    except ValidationError as error:
        return [_Fault.of(each, data, models) for each in error.errors()], None


def _put(data: Any, path: Path, text: str) -> None:
    _value(data, path[:-1])[path[-1]] = text


def _value(data: Any, path: Path) -> Any:
    for part in path:
        data = data[part]
    return data


# ---------------------------------------------------------------- what the models report


class _Fault(Record):
    """A fault as the models report it.

    ``path`` leads through the data, with a missing key at its end; ``model`` holds the last key.
    """

    kind: str
    path: Path
    model: type[Model] | None
    given: Any
    context: Mapping[str, Any]
    message: str

    @classmethod
    def of(cls, error: ErrorDetails, data: Any, models: Mapping[int, type[Model]]) -> "_Fault":
        """The fault with its path in ``data``, whose groups are read by ``models``."""
        missing = error["type"] == "missing"
        path = _real_path(error["loc"], data, missing)
        return cls(
            error["type"],
            path,
            models.get(id(_value(data, path[:-1]))),
            None if missing else error.get("input"),
            error.get("ctx", {}),
            error["msg"],
        )

    @property
    def is_number_for_text(self) -> bool:
        """Whether a number stands where only text will do, as in a version 1.0 or a length."""
        number = isinstance(self.given, int | float) and not isinstance(self.given, bool)
        return self.kind == "string_type" and number

    @property
    def key(self) -> str:
        """The last part of the path, as a word."""
        return str(self.path[-1]) if self.path else ""

    @property
    def known(self) -> tuple[str, ...]:
        """The keys that may stand where the last one does."""
        fields = self.model.model_fields.items() if self.model else ()
        return tuple(field.alias or name for name, field in fields)

    @property
    def required(self) -> bool:
        """Whether the pattern can't do without the key."""
        fields = self.model.model_fields.values() if self.model else ()
        return any(field.is_required() for field in fields if field.alias == self.key)

    @property
    def meaning(self) -> str:
        """What the key is for; empty if that is not known."""
        fields = self.model.model_fields.values() if self.model else ()
        said = (field.description for field in fields if field.alias == self.key)
        return (next(said, None) or "").removesuffix(".")


def _real_path(loc: Sequence[int | str], data: Any, missing: bool) -> Path:
    """``loc`` without the names of the union branches that were tried."""
    parts = list(loc)
    if parts[:1] == ["pieces"] and parts[2:3] in (["steps"], ["schematic"]):
        branch = 4 if parts[2] == "steps" else 3
        del parts[branch : branch + 1]
    path: list[str | int] = []
    for part in parts[:-1] if missing else parts:
        inside = isinstance(data, dict) and part in data
        inside = inside or (isinstance(data, list) and isinstance(part, int) and part < len(data))
        if inside:
            path.append(part)
            data = data[part]
    return (*path, parts[-1]) if missing else tuple(path)


# ---------------------------------------------------------------- findings


def _findings(faults: list[_Fault], tree: YamlTree) -> Iterator[Diagnostic]:
    """One finding for each place: unions report every branch, and whatever holds a fault is
    often at fault for it too."""
    by_path: dict[Path, list[_Fault]] = defaultdict(list)
    for fault in faults:
        by_path[fault.path].append(fault)
    misspelt = _misspelt(faults)
    holders = {path[:length] for path in by_path for length in range(len(path))}
    for path, here in by_path.items():
        holds_another = path in holders
        meant_elsewhere = here[0].kind == "missing" and path in misspelt
        if not holds_another and not meant_elsewhere:
            yield _finding(here, tree)


def _misspelt(faults: list[_Fault]) -> set[Path]:
    """Missing keys that stand there under a name much like their own."""
    written: dict[Path, list[str]] = defaultdict(list)
    for fault in faults:
        if fault.kind == "extra_forbidden":
            written[fault.path[:-1]].append(fault.key)
    return {
        fault.path
        for fault in faults
        if fault.kind == "missing" and closest(fault.key, written[fault.path[:-1]])
    }


def _finding(here: list[_Fault], tree: YamlTree) -> Diagnostic:
    """The finding for all faults of one place; a rule says more than a kind of value."""
    fault = next((each for each in here if each.kind == "value_error"), here[0])
    kinds = {each.kind for each in here}
    match fault.kind:
        case "missing":
            return _missing(fault, tree)
        case "extra_forbidden":
            return _unknown_key(fault, tree)
        case "union_tag_not_found" if fault.path[2:3] == ("steps",):
            return _unknown_step(fault, tree)
        case "union_tag_not_found" | "union_tag_invalid":
            return _unknown_shape(fault, tree)
    if kinds == {"literal_error"}:
        return _choice(fault, tree)
    if fault.given is None:
        return Diagnostic(
            "source.nothing",
            f"nothing is written for {said(fault.path)}",
            _with_meaning(fault, "Fill it in" if fault.required else "Fill it in, or take it out"),
            tree.key_span(fault.path),
        )
    return _wrong_value(fault, kinds, tree)


def _missing(fault: _Fault, tree: YamlTree) -> Diagnostic:
    owner = fault.path[:-1]
    if not owner:
        help, place = f"Add a line `{fault.key}: …` that is not indented", tree.span(())
    else:
        braces = tree.text(owner).startswith("{")
        where = "inside the braces" if braces else "on a line of its own"
        help = f"Add `{fault.key}: …` {where}"
        place = tree.key_span(owner)
    return Diagnostic(
        "source.missing",
        f"`{fault.key}` is missing" + (f" in {said(owner)}" if owner else ""),
        _with_meaning(fault, help),
        place,
    )


def _with_meaning(fault: _Fault, help: str) -> str:
    return f"{help}: {fault.meaning[0].lower()}{fault.meaning[1:]}" if fault.meaning else help


def _unknown_key(fault: _Fault, tree: YamlTree) -> Diagnostic:
    place = tree.key_span(fault.path)
    if fault.path[2:3] == ("steps",) and fault.key in STEPS:
        return Diagnostic(
            "source.two-steps",
            f"`{fault.key}` begins another step, but stands inside this one",
            f"Put a dash before it, as in `- {fault.key}: …`, in line with the other dashes",
            place,
        )
    owner = f" in {said(fault.path[:-1])}" if fault.path[:-1] else ""
    return Diagnostic(
        "source.unknown-key",
        f"`{fault.key}` means nothing{owner}",
        _instead(fault.key, fault.known),
        place,
        fixes=written_as(closest(fault.key, fault.known)),
    )


def _unknown_step(fault: _Fault, tree: YamlTree) -> Diagnostic:
    verbs = tuple(STEPS)
    plain = tuple(field.alias or name for name, field in Step.model_fields.items())
    if fault.given is None:
        return Diagnostic(
            "source.step",
            f"{said(fault.path)} says nothing",
            f"Write what to do behind the dash, as in `{verbs[2]}: …`, or take the dash out",
            tree.span(fault.path),
        )
    if isinstance(fault.given, str):
        word = next((verb for verb in verbs if fault.given.startswith(f"{verb} ")), None)
        rest = fault.given.removeprefix(f"{word} ")
        help = f"Write `- {word}: {rest}`" if word else f"Begin it with one of {_listed(verbs)}"
        message = "a colon is missing in this step" if word else "this step names nothing to do"
        fixes = written_as(f"{word}: {rest}") if word else ()
        return Diagnostic("source.step", message, help, tree.span(fault.path), fixes=fixes)
    names = (
        [key for key in fault.given if key not in plain] if isinstance(fault.given, dict) else []
    )
    if not names:
        return Diagnostic(
            "source.step",
            "this step names nothing to do",
            f"Begin it with one of {_listed(verbs)}",
            tree.span(fault.path),
        )
    return Diagnostic(
        "source.step",
        f"there is no step called `{names[0]}`",
        _instead(names[0].replace("_", " "), verbs),
        tree.key_span((*fault.path, names[0])),
        fixes=written_as(closest(names[0].replace("_", " "), verbs)),
    )


def _unknown_shape(fault: _Fault, tree: YamlTree) -> Diagnostic:
    shapes = ["tube", "hat", "mitten", "panel"]
    written = isinstance(fault.given, dict) and "shape" in fault.given
    return Diagnostic(
        "source.choice" if written else "source.missing",
        f"there is no outline called `{tree.text((*fault.path, 'shape'))}`"
        if written
        else "`shape` is missing in the schematic",
        f"Write `shape:` with one of {_listed(shapes)}",
        tree.span((*fault.path, "shape")) if written else tree.key_span(fault.path),
    )


def _choice(fault: _Fault, tree: YamlTree) -> Diagnostic:
    choices = str(fault.context.get("expected", "")).replace(" or ", ", ").split(", ")
    options = [choice.strip("'") for choice in choices]
    written = tree.text(fault.path)
    close = closest(written.lower(), [option.lower() for option in options])
    likely = [option for option in options if option.lower() == close]
    if likely and len(options) > 1:
        help = f"Write `{likely[0]}`; the choices are {_listed(options)}"
    else:
        help = f"Write {'' if len(options) == 1 else 'one of '}{_listed(options)}"
    if fault.given is None:
        message, place = f"nothing is written for {said(fault.path)}", tree.key_span(fault.path)
    else:
        message, place = f"{said(fault.path)} can't be `{written}`", tree.span(fault.path)
    fixes = written_as(likely[0] if likely else None)
    return Diagnostic("source.choice", message, help, place, fixes=fixes)


def _wrong_value(fault: _Fault, kinds: set[str], tree: YamlTree) -> Diagnostic:
    """A value of the wrong kind, or one that a rule of its model refuses."""
    if fault.kind == "value_error":
        message, _, help = str(fault.context.get("error", fault.message)).partition("||")
        group = isinstance(fault.given, dict)
        place = tree.key_span(fault.path) if group else tree.span(fault.path)
        return Diagnostic("source.value", message, help or "Correct the value", place)
    if fault.kind == "string_pattern_mismatch":
        return Diagnostic(
            "source.format",
            f"{said(fault.path)} can't be `{tree.text(fault.path)}`",
            _FORMATS.get(fault.key, "Follow the examples in the guide"),
            tree.span(fault.path),
        )
    message, help = _kind_wanted(kinds) if fault.model is not Size else _BODY
    figures = {key: _figure(value) for key, value in fault.context.items()}
    text = tree.text(fault.path)
    comma = message == _NUMBER[0] and _DECIMAL_COMMA.fullmatch(text)
    return Diagnostic(
        "source.value",
        f"{said(fault.path)} {message}",
        help.format(**figures),
        tree.span(fault.path),
        fixes=written_as(text.replace(",", ".") if comma else None),
    )


_DECIMAL_COMMA = re.compile(r"[0-9]+,[0-9]+")


def _kind_wanted(kinds: set[str]) -> tuple[str, str]:
    """What the kinds of value that were tried add up to, and what to write."""
    if {"int_type", "float_type"} <= kinds:
        return "must be an amount", "Write a number, a length such as 21 cm, or a formula"
    if "string_type" in kinds and kinds & {"tuple_type", "too_short"}:
        return "must be a row or a list of rows", "Write a row such as `k all`"
    if {"string_type", "model_type"} <= kinds:
        return "must be a yarn or a stitch", "Write the short name of a yarn, or a stitch such as p"
    return _WRONG_KIND.get(min(kinds), ("can't be read", "Correct it"))


def _figure(value: Any) -> str:
    return f"{value:g}" if isinstance(value, int | float) else str(value)


_FORMATS: Mapping[str, str] = {
    "colour": 'Write six of 0-9 and a-f after #, in quotes, such as "#3d4a57"',
    "date": "Write the day as year-month-day, such as 2026-11-02",
}

_BODY = ("must be a length", "Write what is measured on the body, as in `56 cm`")
_GROUP = (
    "must be made of lines that each name something",
    "Write them below it, each indented, as `name: value`",
)
_LIST = ("must be a list", "Put brackets around it, or each entry on a line that begins with `- `")
_WHOLE = ("must be a whole number", "Write a number without a fraction")
_NUMBER = ("must be a number", "Write a number such as 22 or 9.5")
_TRUTH = ("must be true or false", "Write true or false")

_WRONG_KIND: Mapping[str, tuple[str, str]] = {
    "string_type": ("must be words", "Write plain words here"),
    "string_too_short": ("is empty", "Write a few words here"),
    "string_too_long": ("is too long", "Shorten it to {max_length} characters at the most"),
    "too_short": ("is empty", "Give at least {min_length}"),
    "too_long": ("has too many entries", "Give {max_length} at the most"),
    "dict_type": _GROUP,
    "model_type": _GROUP,
    "model_attributes_type": _GROUP,
    "tuple_type": _LIST,
    "int_type": _WHOLE,
    "int_parsing": _WHOLE,
    "int_from_float": _WHOLE,
    "float_type": _NUMBER,
    "float_parsing": _NUMBER,
    "finite_number": _NUMBER,
    "bool_parsing": _TRUTH,
    "bool_type": _TRUTH,
    "greater_than": ("is too small", "Write a number above {gt}"),
    "greater_than_equal": ("is too small", "Write {ge} or more"),
    "less_than_equal": ("is too large", "Write {le} or less"),
}


# ---------------------------------------------------------------- words

_ONE_OF: Mapping[str, str] = {
    "changes": "change",
    "charts": "chart",
    "gauges": "gauge",
    "measures": "measure",
    "photos": "photo",
    "pieces": "piece",
    "silence": "silence",
    "sizes": "size",
    "steps": "step",
    "stitches": "stitch",
    "tools": "tool",
    "yarns": "yarn",
}


def said(path: Path) -> str:
    """A path as a designer would say it: ``"`to` of step 3 of the piece `hat`"``."""
    words: list[str] = []
    rest = list(path)
    while rest:
        part = rest.pop()
        owner = rest[-1] if rest else None
        one = _ONE_OF.get(str(owner)) if rest[-2:-1] != ["gauge"] else None
        if isinstance(part, int):
            words.append(f"{one or 'entry'} {part + 1}")
        elif one and (len(rest) == 1 or owner == "steps"):
            words.append(f"the {one} `{part}`")
        else:
            words.append(f"`{part}`")
            continue
        if one:
            rest.pop()
    return " of ".join(words) or "the pattern"


_SHORT_LIST = 20


def _listed(names: Sequence[str]) -> str:
    return ", ".join(f"`{name}`" for name in names)


def _instead(name: str, known: Sequence[str]) -> str:
    close = closest(name, known)
    if close and len(known) > _SHORT_LIST:
        return f"Write `{close}` if that is what you mean"
    if close:
        return f"Write `{close}` if that is what you mean; these are known: {_listed(known)}"
    return f"Write one of these, or take it out: {_listed(known)}" if known else "Take it out"
