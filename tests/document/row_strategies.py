"""Rows of every shape for property tests; whatever they say can be written."""

from hypothesis import strategies as st

from bindoff.source.rowlang.syntax import (
    Alter,
    Base,
    Count,
    CountChange,
    Fill,
    Group,
    Hooked,
    InCorner,
    InEach,
    InFirst,
    InNext,
    InPattern,
    InSame,
    IntoOne,
    Marker,
    MarkerAct,
    MoreTimes,
    NamedNumber,
    Part,
    Repeat,
    Row,
    Target,
    ToCorner,
    ToEnd,
    ToGap,
    ToLast,
    ToMarker,
    Turn,
    Work,
)

NAMES = ("edge", "centre_panel", "n")
YARNS = ("slate", "foam", "warm_grey")

_COUNTED = st.sampled_from(["k", "p", "sl"])
_SINGLE = st.sampled_from(
    ["k2tog", "ssk", "yo", "m1l", "m1r", "kfb", "s2kp", "psso", "mb", "2/2 RC", "3/1 LPC"]
)
_CROCHET = st.sampled_from(["sc", "hdc", "dc", "tr", "sl st", "fpdc"])
_HOWS = {
    "k": [(), ("tbl",)],
    "p": [(), ("tbl",)],
    "sl": [(), ("purlwise",), ("knitwise",), ("wyif",), ("purlwise", "wyib")],
    "k2tog": [(), ("tbl",)],
}
_YARN = st.none() | st.sampled_from(YARNS)

numbers = st.integers(1, 200)
counts: st.SearchStrategy[Count] = numbers | st.sampled_from(NAMES).map(NamedNumber)
bracket_times: st.SearchStrategy[Count] = st.integers(1, 4) | st.sampled_from(NAMES).map(
    NamedNumber
)
targets: st.SearchStrategy[Target] = st.one_of(
    st.just(ToEnd()),
    counts.map(ToLast),
    st.booleans().map(lambda last: ToMarker(last=last)),
    st.builds(ToMarker, counts, st.booleans()),
    counts.map(ToGap),
    counts.map(lambda past: ToGap(past=past)),
    st.just(ToCorner()),
)


def _how(stitch: str) -> st.SearchStrategy[tuple[str, ...]]:
    return st.sampled_from(_HOWS.get(stitch, [()]))


@st.composite
def works(draw: st.DrawFn) -> Work:
    """A single stitch or several of a kind."""
    stitch = draw(
        _COUNTED | _SINGLE | st.sampled_from(["ch", "sk", "sc2tog", "fasten off", "ch 3 as dc"])
    )
    return Work(stitch, draw(counts), draw(_how(stitch)), draw(_YARN))


@st.composite
def fills(draw: st.DrawFn, stitches: st.SearchStrategy[str] = _COUNTED) -> Fill:
    """A stitch as far as a place."""
    stitch = draw(stitches)
    return Fill(stitch, draw(targets), draw(_how(stitch)), draw(_YARN))


@st.composite
def hookeds(draw: st.DrawFn) -> Hooked:
    """Crochet in a place."""
    base = draw(st.sampled_from(Base))
    where = draw(
        st.one_of(
            targets.map(lambda to: InEach(base, to)),
            counts.map(lambda count: InNext(count, base)),
            st.just(InFirst()),
            st.just(InSame(base)),
            st.booleans().map(InCorner),
        )
    )
    return Hooked(draw(_CROCHET), where, draw(counts), draw(_YARN))


_ONTO_NEEDLE = st.sampled_from([CountChange.CAST_ON, CountChange.PICK_UP])
_OFF_NEEDLE = st.sampled_from([CountChange.BIND_OFF, CountChange.HOLD])
_into_one = st.lists(
    st.builds(Work, st.sampled_from(["k", "p", "yo"]), st.integers(1, 3)), min_size=1, max_size=4
)

leaves: st.SearchStrategy[Part] = st.one_of(
    works(),
    fills(),
    hookeds(),
    _into_one.map(lambda parts: IntoOne(tuple(parts))),
    st.builds(
        lambda parts, base: IntoOne(tuple(parts), base=base),
        st.lists(st.builds(Work, _CROCHET, st.integers(1, 5)), min_size=1, max_size=3),
        st.sampled_from(Base),
    ),
    st.sampled_from(MarkerAct).map(Marker),
    st.builds(Alter, _ONTO_NEEDLE, counts),
    st.builds(Alter, _OFF_NEEDLE, counts | targets),
)


def _brackets(inner: st.SearchStrategy[Part]) -> st.SearchStrategy[Part]:
    parts = st.lists(inner, min_size=1, max_size=3).map(tuple)
    return st.builds(Group, parts, bracket_times) | st.builds(Repeat, parts, targets)


nested: st.SearchStrategy[Part] = st.recursive(leaves, _brackets, max_leaves=4)
_starred = st.builds(
    Repeat, st.lists(nested, min_size=1, max_size=3).map(tuple), bracket_times.map(MoreTimes)
)


@st.composite
def rows(draw: st.DrawFn) -> Row:
    """A whole row. A decrease or increase that goes on and on comes first: after others it would
    close a sequence that is repeated as a whole."""
    first = draw(st.sampled_from([(), (), (), ("k2tog",), ("kfb",)]))
    shaping = tuple(draw(fills(st.just(stitch))) for stitch in first)
    parts = (*shaping, *draw(st.lists(nested | _starred, min_size=1, max_size=4)))
    turn = draw(st.sampled_from([(), (), (Turn(),), (Turn(wrap=True),)]))
    return Row((*parts, *turn), draw(_YARN))


STITCH_PATTERNS = {"seed": "seed", "moss rib": "moss rib"}
CHARTS = {"fern": "fern"}

in_patterns: st.SearchStrategy[Part] = st.one_of(
    st.builds(InPattern, st.sampled_from(["", *STITCH_PATTERNS]), targets | counts),
    st.builds(
        InPattern, st.sampled_from(list(CHARTS)), st.none() | targets | counts, st.just(True)
    ),
)


@st.composite
def rows_in_pattern(draw: st.DrawFn) -> Row:
    """A row of which some is worked in stitch patterns."""
    return Row(tuple(draw(st.lists(in_patterns | works(), min_size=1, max_size=4))), draw(_YARN))
