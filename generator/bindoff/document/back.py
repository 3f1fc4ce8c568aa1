"""What follows the last stitch: finishing, techniques, care, safety, notes and rights."""

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence, Set

from bindoff import regex as re
from bindoff.craft.cables import cross_of
from bindoff.craft.fabric import FABRIC_YARN, Evidence, Fabric
from bindoff.craft.lengths import CRAFT_LENGTHS
from bindoff.craft.wearers import Fitting, Wearer, Worn, wearers, worn_on
from bindoff.diagnostics import PatternError, Span, closest, fail, written_as
from bindoff.document.drawn import USUALLY, Drawn
from bindoff.document.phrases import heading, join, paragraph, text
from bindoff.document.prose import blocks
from bindoff.document.stepnumbers import numbered
from bindoff.document.stripewords import MARKERS_OUT, marked_tubes
from bindoff.document.techniques.circumstances import circumstances
from bindoff.document.techniques.pictures import picture
from bindoff.document.tree import (
    Block,
    Blocks,
    Callout,
    Figure,
    Heading,
    Inlines,
    ItemList,
    ListItem,
    Paragraph,
    Strong,
)
from bindoff.document.units import round_length
from bindoff.document.voice import Voice, body_rows, has_ease
from bindoff.english import capital, ended, listed, name_in_one
from bindoff.files import Files
from bindoff.plan.steps.gather import Gather
from bindoff.plan.worked import PiecePlan, StepPlan
from bindoff.plan.yarn import LoopOrigin
from bindoff.plan.yarnends import carried_rounds, leaves_open
from bindoff.plan.yarnplan import YarnTotal
from bindoff.records import Record, replace
from bindoff.remembered import once_each
from bindoff.source.lengths import parse_length


def finishing_section(voice: Voice) -> Blocks:
    """The pattern's own finishing text."""
    source = voice.plan.source
    if source.pattern.finishing is None:
        return ()
    return (
        heading(2, "Finishing", "finishing"),
        *_own(voice, source.pattern.finishing, "finishing"),
        *((paragraph(MARKERS_OUT),) if marked_tubes(voice) else ()),
    )


def _own(voice: Voice, markdown: str, key: str) -> Blocks:
    """The designer's own text of that key."""
    place = voice.plan.source.pattern.place.of(key).text_span
    return blocks(markdown, voice.values, place, language=voice.prose_language)


def notes_section(voice: Voice, files: Files) -> Blocks:
    """How to read the pattern, and the designer's own notes."""
    source = voice.plan.source
    found: list[Block] = [heading(2, "Notes", "notes", columns=True)]
    if source.pattern.notes:
        found += _own(voice, source.pattern.notes, "notes")
    names = ["reading-sizes"] if len(voice.sizes) > 1 else []
    for name in (*names, "sizes-and-ease"):
        found += _template(voice, files, f"notes/{name}.md", 3)
    return tuple(found)


def gauge_notes(voice: Voice, files: Files) -> Blocks:
    """How to measure the gauge, and what follows from it on a machine."""
    found: list[Block] = []
    for name in ("gauge", "machine-sizes") if _cranks_tubes(voice) else ("gauge",):
        title, *rest = _template(voice, files, f"notes/{name}.md", 3)
        assert isinstance(title, Heading)  # _template has seen to it
        found += [replace(title, columns=True), *rest]
    return tuple(found)


def technique_section(
    voice: Voice,
    files: Files,
    drawn: Drawn = USUALLY,
    stitches: Iterable[str] = (),
    told: Collection[str] = (),
) -> Blocks:
    """The technique notes that the pattern's ``stitches`` (their ids) call for and those it asks
    for, but for those ``told`` before and those that stand at their steps."""
    used = set(stitches)
    before = {*told, *(each.name for each in _at_steps(voice, used))}
    names = [name for name in _names(voice, used) if name not in before]
    return (
        heading(2, "Techniques", "techniques", columns=True, wide=True),
        *_notes(voice, files, drawn, used, names),
    )


def step_notes(
    voice: Voice, files: Files, drawn: Drawn, stitches: Iterable[str], told: Collection[str]
) -> Mapping[str, Blocks]:
    """The technique notes that steps call for, by the id of the heading under which the first of
    these steps stands, but for those ``told`` elsewhere."""
    used = set(stitches)
    found: dict[str, Blocks] = {}
    for each in _at_steps(voice, used):
        if each.name not in told:
            title, *words = _notes(voice, files, drawn, used, (each.name,))
            assert isinstance(title, Heading)  # _template has seen to it
            wide = replace(title, columns=True, wide=True)
            lead = Paragraph(text(f"For step {each.step}."), role="aside")
            found[each.place] = (*found.get(each.place, ()), wide, lead, *words)
    return found


def _at_steps(voice: Voice, used: Set[str]) -> Iterator["_Called"]:
    """What steps call for, each technique once: where it is first needed."""
    told = set(_names(voice, used))
    for each in _techniques(voice):
        if each.name in told:
            told.remove(each.name)
            yield each


def told_at_charts(voice: Voice, stitches: Collection[str], in_steps: Collection[str]) -> list[str]:
    """The names of the technique notes that are about charts alone, to stand where these begin:
    how one is read, and how stitches are crossed where no row ``in_steps`` does that in words."""
    about = ["chart-flat", "chart-in-the-round"]
    if not any(_is_cross(voice, each) for each in in_steps):
        about.append("crossing-stitches")
    needed = _names(voice, set(stitches))
    return [name for name in about if name in needed]


def chart_notes(
    voice: Voice, files: Files, drawn: Drawn, stitches: Iterable[str], names: Sequence[str]
) -> Blocks:
    """Technique notes among the charts they are about."""
    found = _notes(voice, files, drawn, set(stitches), names)
    return tuple(replace(b, columns=True) if isinstance(b, Heading) else b for b in found)


def _names(voice: Voice, used: Set[str]) -> list[str]:
    asked = voice.plan.source.pattern.techniques
    return list(dict.fromkeys((*_needed(voice, used), *asked)))


def _notes(
    voice: Voice, files: Files, drawn: Drawn, used: Set[str], names: Sequence[str]
) -> Blocks:
    """Technique notes by their names, with their drawings."""
    shown = used | circumstances(voice.plan).shown
    found: list[Block] = []
    for name in names:
        title, *rest = _technique(voice, files, name)
        assert isinstance(title, Heading)  # _template has seen to it
        words = (replace(title, id=f"{TECHNIQUE}{name}"), *rest)
        own = not files.template(f"techniques/{name}.md").packaged
        found += words if own else _drawn(words, picture(name, drawn, shown))
    return tuple(found)


TECHNIQUE = "technique-"
"""What the id of the heading of a technique begins with."""


def _drawn(words: Blocks, drawing: Figure | None) -> Blocks:
    """A technique with its drawing between its title and its words."""
    title, *others = words
    return (title, drawing, *others) if drawing else words


def _technique(voice: Voice, files: Files, name: str) -> Blocks:
    asked = voice.plan.source.pattern.techniques
    listed_at = voice.plan.source.pattern.place.of("techniques")
    place = listed_at.of(asked.index(name)).span if name in asked else None
    try:
        return _template(voice, files, f"techniques/{name}.md", 3, place)
    except PatternError as error:
        if all(each.id not in ("file.missing", "file.name") for each in error.findings):
            raise
    close = closest(name, TECHNIQUES)
    hint = f"Write `{close}` if that is what you mean. The" if close else "The"
    raise fail(
        "file.missing",
        f"there is no technique called `{name}`",
        f"{hint} known ones are {listed(f'`{each}`' for each in TECHNIQUES)}; for one of your own "
        f"put `templates/techniques/NAME.md` into the pattern's folder",
        place,
        written_as(close),
    )


TECHNIQUES = (
    "backward-loop-cast-on",
    "blocking",
    "buttonholes",
    "cable-cast-on",
    "cast-on-circular-machine",
    "chart-flat",
    "chart-in-the-round",
    "crochet-cast-on",
    "crochet-edging",
    "crossing-stitches",
    "duplicate-stitch",
    "gathered-closing",
    "german-twisted-cast-on",
    "grafting",
    "held-thumb",
    "i-cord",
    "i-cord-bind-off",
    "intarsia",
    "join-folded-tube",
    "joining-a-new-yarn",
    "joining-at-an-edge",
    "knitted-cast-on",
    "leaning-decreases",
    "leaning-increases",
    "live-edges",
    "long-tail-cast-on",
    "off-the-machine",
    "picking-up",
    "picot-bind-off",
    "provisional-cast-on",
    "second-yarn-on-a-machine",
    "sewing-open-edges",
    "sewn-bind-off",
    "short-rows",
    "slip-stitch-edging",
    "slip-stitch-join",
    "slipped-colors",
    "small-buttonholes",
    "stranded-knitting",
    "three-needle-closing",
    "tubular-bind-off",
    "tubular-cast-on",
    "turkish-cast-on",
    "weaving-in-ends",
)
"""The packaged explanations, by name."""


_OF_THE_PAGE: Mapping[str, slice] = {
    "notes/reading-sizes.md": slice(None),
    "notes/text-edition.md": slice(None),
    "techniques/chart-flat.md": slice(None),
    "techniques/chart-in-the-round.md": slice(1, 2),
}
"""Which blocks of packaged texts tell how to look at a page: who listens has no use for them."""


BASICS = ("long-tail-cast-on", "leaning-decreases", "leaning-increases")
"""Explanations that only a knitter with little practice needs."""

_PRACTISED = ("intermediate", "complex", "advanced", "experienced")


def _needed(voice: Voice, stitches: Set[str]) -> Iterator[str]:
    """The notes that steps and stitches call for, without what a knitter of the stated skill
    knows."""
    practised = voice.plan.source.pattern.skill.lower().startswith(_PRACTISED)
    found = (
        *_of_stitches(voice, stitches),
        *(each.name for each in _techniques(voice)),
        *("weaving-in-ends", "blocking"),
    )
    yield from (name for name in found if not (practised and name in BASICS))


_PAIRS = {"leaning-decreases": {"k2tog", "ssk"}, "leaning-increases": {"m1l", "m1r"}}
"""Stitches that are explained where both of a pair are used, one against the other."""


def _of_stitches(voice: Voice, stitches: Set[str]) -> Iterator[str]:
    """The notes on stitches that are used."""
    yield from (name for name, pair in _PAIRS.items() if pair <= stitches)
    if any(_is_cross(voice, each) for each in stitches):
        yield "crossing-stitches"


def _is_cross(voice: Voice, id: str) -> bool:
    entry = voice.plan.book.find(id)
    return bool(entry and entry.symbol and cross_of(entry.symbol.name))


class _Called(Record):
    """A technique by its name, the number of a step that calls for it, and the id of the heading
    under which that step stands."""

    name: str
    step: int
    place: str


def _techniques(voice: Voice) -> Iterator[_Called]:
    """The notes that the steps of all pieces call for, in the order of working."""
    for piece in voice.plan.pieces:
        opened = piece.open_start is not None and piece.takes_up_start is None
        used: set[str] = set()
        for each in numbered(piece):
            names = (*(("live-edges",) if opened else ()), *_of_step(voice, piece, each.step, used))
            yield from (_Called(name, each.number, each.place) for name in names)
            used |= _yarns_of(each.step)
            opened = False


def _of_step(voice: Voice, piece: PiecePlan, step: StepPlan, used: Set[str]) -> Iterator[str]:
    """The notes that a step calls for, after steps that have ``used`` these yarns; how it is cast
    on first."""
    called = step.answers.techniques(step, step.flat)
    yield from (each for each in called if "cast-on" in each)
    if len(used | _yarns_of(step)) > 1:
        yield "joining-at-an-edge" if step.flat else "joining-a-new-yarn"
    yield from (each for each in called if "cast-on" not in each)
    if leaves_open(piece, step):
        yield "off-the-machine"
    areas = any(chart.bobbins for chart in step.charts)
    if _stranded(step) and not areas:
        by_hand = not step.tubes
        yield "stranded-knitting" if by_hand else "second-yarn-on-a-machine"


def _yarns_of(step: StepPlan) -> set[str]:
    return {yarn for size in step.worked for loops in size for yarn, _ in loops}


def _stranded(step: StepPlan) -> bool:
    """Whether a row of the step is worked in more than one yarn."""
    return any(len(loops) > 1 for size in step.worked for loops in size)


def _cranks_tubes(voice: Voice) -> bool:
    """Whether rounds over all needles of a machine are cranked."""
    pattern = voice.plan.source.pattern
    return pattern.made.by == "machine" and any(
        piece.tube is not None or (pattern.on_machine(key) and piece.worked != "flat")
        for key, piece in pattern.pieces.items()
    )


def care_section(voice: Voice, files: Files) -> Blocks:
    """The designer's care text, or the general one."""
    source = voice.plan.source
    if source.pattern.care is not None:
        words = _own(voice, source.pattern.care, "care")
        return (heading(2, "Care", "care", columns=True), *words)
    first, *rest = _template(voice, files, "notes/care.md", 2)
    assert isinstance(first, Heading)  # _template has seen to it
    return (replace(first, id="care", columns=True), *rest)


def safety_section(voice: Voice, files: Files) -> Blocks:
    """The cautions that fit the wearer, the materials and the tools, as two set-apart notes."""
    worn = _callout(
        voice, files, f"For whoever {'wears' if _is_worn(voice) else 'uses'} it", _wearing(voice)
    )
    made = _callout(voice, files, "For whoever makes it", _making(voice))
    return (heading(2, "Safety", "safety", columns=True, wide=True), worn, made)


def _callout(voice: Voice, files: Files, title: str, names: Iterator[str]) -> Callout:
    """One note of several cautions, each opening with its own title."""
    words = (block for name in names for block in _run_in(voice, files, f"safety/{name}.md"))
    return Callout("safety", text(title), tuple(words))


def _run_in(voice: Voice, files: Files, name: str) -> Blocks:
    """A template whose title opens its first paragraph."""
    title, *rest = _template(voice, files, name, 3)
    assert isinstance(title, Heading)  # _template has seen to it
    return _opened(title.children, rest)


def _opened(title: Inlines, words: Sequence[Block]) -> Blocks:
    """``words`` with a title at the start of their first paragraph."""
    lead: Inlines = (Strong(join(title, ".")),)
    match words:
        case [Paragraph() as first, *more]:
            return (replace(first, children=join(lead, " ", first.children)), *more)
        case _:
            return (paragraph(lead), *words)


def _wearing(voice: Voice) -> Iterator[str]:
    pattern = voice.plan.source.pattern
    who = _wearers(voice)
    part = _worn_on(voice)
    if Wearer.INFANT in who:
        yield from ("infant", "sleep")
    if Wearer.UNDER_THREE in who:
        yield "under-three"
    if Wearer.CHILD in who:
        yield "child"
    if who - {Wearer.ADULT} and _is_worn(voice):
        yield "nightwear"
        if part in (Worn.BODY, Worn.HEAD):
            yield "car"
        if part is Worn.NECK:
            yield "neck"
    if Wearer.ADULT in who:
        yield "adult"
    if part is Worn.FOOT:
        yield "slippery"
    for hazard in pattern.hazards:
        if who - {Wearer.ADULT} or hazard not in _FOR_THE_YOUNG:
            yield hazard.replace(" ", "-")
    if Wearer.INFANT in who and _of_fibre(voice, _SHEDDING):
        yield "shedding"
    if _of_fibre(voice, _HAIRS):
        yield "wool"
    if any(_melts(yarn.fibre) for yarn in pattern.yarns.values()):
        yield "synthetic"


def _is_worn(voice: Voice) -> bool:
    """Whether it goes on a body; a bag is used."""
    pattern = voice.plan.source.pattern
    titles = " ".join([pattern.title, *(piece.title for piece in pattern.pieces.values())])
    return pattern.worn and (_worn_on(voice) is not None or not _USED.search(titles))


_USED = re.compile(
    r"\b(?:bags?|totes?|pouch(?:es)?|purses?|baskets?|cushions?|pillows?|blankets?|throws?|afghans?|bolsters?"
    r"|(?:dish|wash|face)?cloths?|towels?|mats?|coasters?|pot ?holders?|cos(?:y|ies)|cozy"
    r"|bookmarks?|rugs?"
    r"|toys?|garlands?|curtains?|covers?|runners?)\b",
    re.IGNORECASE,
)


def _wearers(voice: Voice) -> frozenset[Wearer]:
    """Who may wear one of the sizes that are printed."""
    sizes = [Fitting(size.name, size.body) for size in voice.plan.measures.sizes]
    return wearers(sizes, voice.plan.source.pattern.wearer)


def _worn_on(voice: Voice) -> Worn | None:
    pattern = voice.plan.source.pattern
    if not pattern.worn:
        return None
    return worn_on([name for name, _ in body_rows(voice.plan)], pattern.titles)


def _of_fibre(voice: Voice, words: Iterable[str]) -> bool:
    """Whether any yarn of the pattern is said to hold one of these fibres."""
    fibres = " ".join(yarn.fibre.lower() for yarn in voice.plan.source.pattern.yarns.values())
    return any(word in fibres for word in words)


def _melts(fibre: str) -> bool:
    """Whether half of a yarn or more is synthetic; a fibre without its percentage is all of it."""
    parts = [part for part in fibre.lower().split(",") if any(word in part for word in _SYNTHETICS)]
    percents = [re.search(r"(\d+(?:\.\d+)?) ?%", part) for part in parts]
    return sum(float(found[1]) if found else 100.0 for found in percents) >= 50


_FOR_THE_YOUNG = ("small parts", "cords")
"""Hazards whose cautions speak of nobody but children."""

_SHEDDING = ("mohair", "angora", "brushed")
"""Hairs that come loose."""

_HAIRS = ("wool", "merino", "alpaca", "mohair", "cashmere", "angora", "yak", "camel")
"""Fibres from animals' coats, which can prickle."""

_SYNTHETICS = (
    "acrylic", "nylon", "polyamide", "polyester", "polypropylene", "olefin",
    "microfib", "elastane", "spandex", "synthetic",
)  # fmt: skip
"""Fibres that heat flattens and melts."""


def _making(voice: Voice) -> Iterator[str]:
    if voice.plan.source.pattern.made.by == "machine":
        yield "machine"
    yield from ("tools", "hands")


def closing_section(voice: Voice, files: Files, since: Blocks = ()) -> Blocks:
    """Notes on yarn, the text edition, changes of earlier versions, corrections and rights.

    ``since`` tells what differs from a version that the reader may have.
    """
    source = voice.plan.source
    found: list[Block] = [heading(2, "About this pattern", "about", columns=True, wide=True)]
    for name in ("yarn-amounts", "yarn-weight", "text-edition"):
        found += _run_in(voice, files, f"notes/{name}.md")
    if source.pattern.changes:
        items = tuple(
            ListItem(
                (
                    paragraph(
                        (Strong(text(change.version)),), f", {change.date}: {ended(change.note)}"
                    ),
                )
            )
            for change in source.pattern.changes
        )
        found += [paragraph((Strong(text("Changes.")),)), ItemList(items)]
    found += since
    found += _run_in(voice, files, "notes/corrections.md")
    if source.pattern.licence is not None:
        words = _own(voice, source.pattern.licence, "licence")
        found += _opened(text(capital(voice.term["license"])), words)
    else:
        found += _run_in(voice, files, "notes/licence.md")
    return tuple(found)


# ---------------------------------------------------------------- templates


def _template(
    voice: Voice, files: Files, name: str, level: int, named_at: Span | None = None
) -> Blocks:
    """A template's heading and text; a pattern's own must have its heading too."""
    template = files.template(name, named_at=named_at)
    place = Span(template.file, 1, 1, template.text.count("\n") + 1, 1)
    language = "" if template.packaged else voice.prose_language
    found = blocks(template.text, _values(voice), place, level, language)
    if template.packaged and name in _OF_THE_PAGE:
        seen = range(len(found))[_OF_THE_PAGE[name]]
        found = tuple(
            replace(block, print_only=True)
            if at in seen and isinstance(block, Heading | Paragraph)
            else block
            for at, block in enumerate(found)
        )
    if not found or not isinstance(found[0], Heading) or found[0].level != level:
        raise fail(
            "prose.heading",
            f"`{template.file}` does not begin with a heading",
            "Begin it with a line such as `# Care`",
            place,
        )
    return found


def _joins_to_start(piece: PiecePlan) -> bool:
    """Whether the last round of a tube is joined to its first."""
    return any(closed.to == "" for closed in piece.closings)


@once_each
def _values(voice: Voice) -> Mapping[str, object]:
    """What templates may print besides the pattern's own measures."""
    source = voice.plan.source
    pattern = source.pattern
    about = circumstances(voice.plan)
    uncertainty = max(need.uncertainty for total in voice.plan.yarn for need in total.needs)
    doubts = [*_of_one_design(voice)]
    return {
        **voice.values,
        "sizes": list(voice.sizes),
        "designer": name_in_one(pattern.designer),
        "version": pattern.version,
        "date": pattern.date,
        "year": pattern.date[:4],
        "contact": pattern.contact,
        "machine": pattern.made.by == "machine",
        "tube": any(step.tubes for piece in voice.plan.pieces for step in piece.steps),
        "ring": any(_joins_to_start(piece) for piece in voice.plan.pieces),
        "several_sizes": len(voice.sizes) > 1,
        "fitted": bool(body_rows(voice.plan)),
        "eased": has_ease(voice.plan),
        "several_machines": len({pattern.needles(size) for size in voice.sizes}) > 1,
        "several_yarns": len(voice.plan.yarn) > 1,
        "synthetic": _of_fibre(voice, _SYNTHETICS),
        "stranded": any(map(_stranded, (s for p in voice.plan.pieces for s in p.steps))),
        "for_babies": Wearer.INFANT in _wearers(voice),
        "for_children": bool(_wearers(voice) - {Wearer.ADULT}),
        "for_youngest_alone": Wearer.CHILD not in _wearers(voice),
        "for_adults_alone": _wearers(voice) == {Wearer.ADULT},
        "hat": _worn_on(voice) is Worn.HEAD,
        "garment": _worn_on(voice) is Worn.BODY,
        "mitten": _worn_on(voice) is Worn.HAND,
        "catches": _catches(voice),
        "worn": _is_worn(voice),
        "in_rows": all(piece.worked == "flat" for piece in pattern.pieces.values()),
        "flat": about.flat,
        "ribbed": about.ribbed,
        "flat_rib": about.flat_rib,
        "row_ends": about.row_ends,
        "skipped": about.skipped,
        "edge_stitches": about.edge_stitches,
        "opening": about.opening,
        "at_gap": about.at_gap,
        "past_turn": about.past_turn,
        "slipped_turn": about.slipped_turn,
        "double_turn": about.double_turn,
        "wrapped_turn": about.wrapped_turn,
        "into_rib": about.into_rib,
        "gathers_off": _leaves_machine(voice, gathered=True),
        "keeps_open": _leaves_machine(voice, gathered=False),
        "washed": pattern.gauge.state in ("washed", "washed and blocked"),
        "blocked": pattern.gauge.state in ("blocked", "washed and blocked"),
        "needles": voice.values.get("needles", ""),
        "reserves": _reserves(voice),
        "unsure": listed(voice.yarn_names[yarn] for yarn in _unsure(voice)),
        "one_design": listed(dict.fromkeys(each.fabric for each in doubts)),
        "one_ball_over": listed(
            dict.fromkeys(voice.yarn_names[each.yarn] for each in doubts if each.short)
        ),
        "yarn_uncertainty": f"{uncertainty:.0%}".replace("%", " %"),
        "text_file": f"{source.name}.txt",
        "carried": _carried(voice),
        "lengths": {name: round_length(mm, voice.units) for name, mm in _lengths(voice).items()},
    }


def _leaves_machine(voice: Voice, *, gathered: bool) -> bool:
    """Whether open stitches leave a machine gathered on a thread, or in waste yarn."""
    return any(
        leaves_open(piece, step) and isinstance(step.detail, Gather) is gathered
        for piece in voice.plan.pieces
        for step in piece.steps
    ) or (not gathered and any(s.tubes for piece in voice.plan.pieces for s in piece.steps))


def _catches(voice: Voice) -> str:
    """What catches in floats inside the piece; empty where nothing small goes in."""
    if Wearer.INFANT in _wearers(voice):
        return "small fingers"
    caught = {Worn.HAND: "fingers", Worn.BODY: "fingers", Worn.FOOT: "toes"}
    part = _worn_on(voice)
    return caught.get(part, "") if part is not None else ""


def _reserves(voice: Voice) -> str:
    """The reserve of each yarn in all sizes: ``12 % in reserve``, and where they differ ``12 to 14
    % in reserve for Slate and 8 % for Foam``. An edition of one size has its own share of it."""
    percents = {total.yarn: _percents(total) for total in voice.plan.yarn}
    if len(set(percents.values())) == 1:
        return f"{next(iter(percents.values()))} in reserve"
    by_percent: dict[str, list[str]] = {}
    for yarn, percent in percents.items():
        by_percent.setdefault(percent, []).append(voice.yarn_names[yarn])
    told = [f"{percent} for {listed(names)}" for percent, names in by_percent.items()]
    return listed([told[0].replace(" for ", " in reserve for ", 1), *told[1:]])


def _percents(total: YarnTotal) -> str:
    """``12 %``, or ``12 to 14 %`` where it differs from size to size."""
    found = [round(100 * need.uncertainty) for need in total.needs if need.metres]
    least, most = min(found), max(found)
    return f"{least} %" if least == most else f"{least} to {most} %"


def _unsure(voice: Voice) -> Iterator[str]:
    """The yarns with stitches, or a gauge, of whose fabric nothing is known, neither published nor
    weighed."""
    for total in voice.plan.yarn:
        loops = [each.loop for need in total.needs for each in need.knitted]
        if any(
            FABRIC_YARN[fabric].evidence is Evidence.NONE and loop.origin is LoopOrigin.DENSITY
            for loop in loops
            for fabric in (loop.fabric, loop.doubted)
        ):
            yield total.yarn


class _Doubt(Record):
    """A fabric known from one published design alone, in words, that a yarn knits; ``short``: in
    some size its balls hold little more than what is reckoned."""

    fabric: str
    yarn: str
    short: bool


def _of_one_design(voice: Voice) -> Iterator[_Doubt]:
    """The fabrics known from one published design alone that make up much of what a yarn knits."""
    for total in voice.plan.yarn:
        short = any(
            need.balls * total.ball.metres < (1 + _MUCH) * need.metres for need in total.needs
        )
        for need in total.needs:
            every = sum(each.stitches for each in need.knitted)
            for each in need.knitted:
                much = each.stitches >= _MUCH * every
                fabric, origin = each.loop.fabric, each.loop.origin
                if much and FABRIC_YARN[fabric].designs == 1 and origin is LoopOrigin.DENSITY:
                    yield _Doubt(_IN_WORDS.get(fabric, fabric.value), total.yarn, short)


_MUCH = 0.25
"""The share of a yarn's stitches from which on a doubt about their fabric is told, and how much
more than its amount its balls must hold to make up for that: two deviations of published amounts
(tests/bench/yarn_reserve.py)."""

_IN_WORDS = {
    Fabric.RIB_1: "single rib",
    Fabric.RIB_2: "double rib",
    Fabric.TEXTURE: "a pattern of knit and purl stitches",
}
"""Fabrics that are called otherwise amid a sentence."""


def _carried(voice: Voice) -> int:
    """For how many rounds a yarn is carried up in every piece."""
    source = voice.plan.source
    return min(carried_rounds(source, piece.key) for piece in voice.plan.pieces)


def _lengths(voice: Voice) -> Mapping[str, float]:
    """The lengths that technique texts name, in mm; strands as the colour plans have them."""
    pieces = voice.plan.source.pattern.pieces.values()
    plans = [each.colour_plan for each in pieces if each.tube]
    if not plans:
        return CRAFT_LENGTHS
    return {
        **CRAFT_LENGTHS,
        "tail": max(parse_length(each.colour_plan.tail) for each in pieces),
        "strand": max(parse_length(plan.strand) for plan in plans),
        "strand_tail": max(parse_length(plan.tail) for plan in plans),
    }
