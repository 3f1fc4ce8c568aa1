"""The signs of rows in words."""

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bindoff.document.spokenrows import signs_in_words


@pytest.mark.parametrize(
    ("written", "said"),
    [
        ("2/2 RC, 3/4 in", "2 over 2 RC, 3/4 in"),
        ("*K2, p2; repeat from * to end", "Star, k2, p2; repeat from star to end"),
        ("2/1/3 LPC, 1/2 cup", "2 over 3 around 1 LPC, 1/2 cup"),
        (
            "*K2, [yo, k1] 3 times; repeat from\u00a0* to end",
            "Star, k2, start of repeat, yo, k1, "
            "end of repeat, work it 3 times; repeat from star to end",
        ),
        ("K1, *p1, k1; repeat from * to end", "K1, star, p1, k1; repeat from star to end"),
        ("*M1, k2; repeat from * to end", "star, M1, k2; repeat from star to end"),
        ("[Ssk, k1] twice", "Start of repeat, ssk, k1, end of repeat, work it twice"),
        (
            "[k1, [p1, k1] twice] to end",
            "start of repeat, k1, start of repeat, p1, k1, end of "
            "repeat, work it twice, end of repeat, work it to end",
        ),
        (
            "(k1, yo, k1) in next stitch",
            "start of group, k1, yo, k1, end of group, all in next stitch",
        ),
        ("5 * 3, *see [there] (in next stitch)", "5 * 3, *see [there] (in next stitch)"),
    ],
)
def test_signs_of_rows_become_words(written: str, said: str) -> None:
    assert signs_in_words(written) == said


@given(st.text("0123456789 .,/*[]()kpRC", max_size=30))
def test_digits_are_never_changed_lost_or_moved(text: str) -> None:
    assert re.findall(r"\d", signs_in_words(text)) == re.findall(r"\d", text)
    assert signs_in_words(signs_in_words(text)) == signs_in_words(text)
