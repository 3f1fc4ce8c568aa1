"""What is worked out once for the same objects."""

import pytest

from bindoff.remembered import once_each


def test_the_same_object_is_asked_about_once_and_an_equal_one_anew() -> None:
    asked: list[list[int]] = []

    @once_each
    def total(numbers: list[int]) -> int:
        asked.append(numbers)
        return sum(numbers)

    one, other = [1, 2], [1, 2]
    assert [total(one), total(one), total(other)] == [3, 3, 3]
    assert len(asked) == 2


def test_several_objects_are_told_apart_and_old_ones_are_forgotten() -> None:
    asked = 0

    @once_each
    def joined(first: object, second: str) -> str:
        nonlocal asked
        asked += 1
        return f"{first}{second}"

    pattern = [1]
    assert joined(pattern, "a") == joined(pattern, "a") == "[1]a"
    assert joined(pattern, "b") == "[1]b"
    assert asked == 2
    for number in range(20):
        joined([number], "a")
    assert joined(pattern, "a") == "[1]a"
    assert asked == 23


def test_what_is_raised_is_raised_again() -> None:
    @once_each
    def refused(_: object) -> None:
        raise ValueError("refused")

    thing = object()
    for _ in range(2):
        with pytest.raises(ValueError, match="refused"):
            refused(thing)
