"""A record is to the reader and to ``dataclasses`` what a frozen dataclass is."""

from dataclasses import MISSING, Field, asdict, dataclass, fields, is_dataclass, replace
from importlib import import_module
from pkgutil import walk_packages

import pytest

import bindoff
from bindoff.records import Record, Said, field

MODULES = [
    each.name
    for each in walk_packages(bindoff.__path__, "bindoff.")
    if each.name != "bindoff.__main__"
]


class Hank(Record):
    """A record as the program has them."""

    name: str
    metres: float
    tags: tuple[str, ...] = ()
    uses: dict[str, int] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Twin:
    """The same as a dataclass."""

    name: str
    metres: float
    tags: tuple[str, ...] = ()


class Label(Said):
    """A record that is equal to another of the same words."""

    UNSAID = frozenset({"line"})

    words: str
    line: int


def test_records_that_say_the_same_are_neither_unequal_nor_different() -> None:
    assert Label("tar", 1) == Label("tar", 2)
    assert not Label("tar", 1) != Label("tar", 2)  # noqa: SIM202
    assert Label("tar", 1) != Label("rope", 1)


def test_whoever_says_what_is_equal_says_what_is_not() -> None:
    for module in MODULES:
        import_module(module)
    kinds, found = [Record], []
    while kinds:
        kind = kinds.pop()
        kinds += kind.__subclasses__()
        if "__eq__" in vars(kind) and "__ne__" not in vars(kind):
            found.append(kind.__qualname__)
    assert found == []


TAR = Hank("tar", 90.0)


def test_what_dataclasses_asks_is_answered() -> None:
    assert is_dataclass(TAR)
    assert [each.name for each in fields(TAR)] == ["name", "metres", "tags", "uses"]
    assert fields(Hank)[0].default is MISSING
    assert fields(Hank)[2].default == ()
    assert asdict(TAR) == {"name": "tar", "metres": 90.0, "tags": (), "uses": {}}


def test_a_changed_copy_leaves_the_record_as_it_was() -> None:
    assert replace(TAR, metres=45.0) == Hank("tar", 45.0)
    assert TAR.metres == 90.0
    with pytest.raises(TypeError):
        replace(TAR, weight=1)  # type: ignore[call-arg]


def test_nothing_changes_a_record() -> None:
    with pytest.raises(AttributeError):
        TAR.metres = 1.0  # type: ignore[misc]
    with pytest.raises(AttributeError):
        TAR.other = 1.0  # type: ignore[attr-defined]


def test_equal_records_are_of_one_kind_and_share_a_hash() -> None:
    class Other(Record):
        name: str

    class Kin(Record):
        name: str

    assert Other("a") == Other("a") != Other("b")
    assert hash(Other("a")) == hash(Other("a"))
    assert len({Other("a"), Kin("a")}) == 2


def test_it_looks_and_is_matched_as_a_dataclass() -> None:
    class Ply(Record):
        name: str
        metres: float
        tags: tuple[str, ...] = ()

    assert repr(Ply("a", 1.0)).split("(")[1] == repr(Twin("a", 1.0)).split("(")[1]
    match TAR:
        case Hank(name, metres):
            assert (name, metres) == ("tar", 90.0)


def test_records_without_equality_are_themselves_alone() -> None:
    class Spot(Record, eq=False):
        x: int

    spot = Spot(1)
    assert spot != Spot(1)
    assert {spot: "here"}[spot] == "here"


def test_a_default_is_made_anew_for_each() -> None:
    assert Hank("a", 1.0).uses is not Hank("b", 1.0).uses


def test_no_record_has_the_field_of_a_dataclass_for_a_default() -> None:
    """A field of ``dataclasses`` is no more than a strange value to a record."""
    for module in MODULES:
        import_module(module)

    kinds = [each for each in Record.__subclasses__() if each.__module__.startswith("bindoff.")]
    assert len(kinds) > 200
    for kind in kinds:
        assert not any(isinstance(each, Field) for each in kind.__struct_defaults__), kind
