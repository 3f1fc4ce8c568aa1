"""The facts of a text: each line before the instructions is one, or is prose at its place."""

from collections.abc import Iterable, Iterator
from string import capwords

from bindoff import regex as re
from bindoff.draft.facts import (
    TOOL,
    GaugeSaid,
    SizesSaid,
    bodies_said,
    finished_said,
    gauge_said,
    listed,
    sizes_said,
)
from bindoff.draft.lines import SHORT_FORMS, Leaving, Origin
from bindoff.draft.sentences import sentences
from bindoff.draft.topics import HeadLine
from bindoff.draft.yarns import YarnSaid, further_yarns, goes_on_with_yarn, weight_said, yarn_said
from bindoff.records import Record, replace


class Facts(Record):
    """All that stands before and after the instructions, sorted.

    ``origins``: the block of the source that words of the text became, and these words.
    """

    title: str = ""
    designer: str = ""
    summary: tuple[str, ...] = ()
    sizes: SizesSaid = SizesSaid(("One size",))
    sizes_line: int | None = None
    gauge: GaugeSaid | None = None
    yarns: tuple[YarnSaid, ...] = ()
    tools: tuple[str, ...] = ()
    notions: tuple[str, ...] = ()
    finished: tuple[tuple[str, tuple[str, ...]], ...] = ()
    notes: tuple[str, ...] = ()
    finishing: tuple[str, ...] = ()
    care: tuple[str, ...] = ()
    origins: tuple[tuple[str, Origin], ...] = ()
    leavings: tuple[Leaving, ...] = ()


def facts_of(head: Iterable[HeadLine]) -> Facts:
    """What the lines that are no instructions say."""
    lines = tuple(head)
    facts = _with_sizes(lines, _with_gauge(lines, Facts()))
    used = {origin for _, origin in facts.origins}
    for line in lines:
        facts = _with_line(line, facts, used)
    return facts


def _origin(line: HeadLine, start: int = 0, text: str | None = None) -> Origin:
    words = line.passage.written or line.passage.text
    return Origin(line.passage.line_at(start), words if text is None else text)


def _at(facts: Facts, block: str, origin: Origin) -> Facts:
    return replace(facts, origins=(*facts.origins, (block, origin)))


def _sentences(line: HeadLine) -> Iterator[tuple[str, Origin]]:
    """The sentences of a line, without the topic it begins with, and each with its origin."""
    if line.passage.heading:
        yield line.text, _origin(line)
        return
    cut = len(line.passage.text) - len(line.text)
    for start, text in sentences(line.passage.text):
        bare = line.text[: max(0, start + len(text) - cut)] if start == 0 and cut else text
        yield bare or text, _origin(line, start, text)


# ---------------------------------------------------------------- gauge and sizes


def _with_gauge(lines: tuple[HeadLine, ...], facts: Facts) -> Facts:
    """The gauge: of one sentence, else of all under its heading; else wherever one is said."""
    told = [each for line in lines if line.topic == "gauge" for each in _sentences(line)]
    whole = " ".join(text for text, _ in told)
    others = [each for line in lines if line.topic != "gauge" for each in _sentences(line)]
    for text, origin in told:
        said = gauge_said(text)
        if said and (said.rounds or not (more := gauge_said(whole)) or not more.rounds):
            return _at(replace(facts, gauge=said), "gauge", origin)
    if said := gauge_said(whole):
        facts = replace(facts, gauge=said)
        figured = [origin for text, origin in told if re.search(r"\d", text)]
        return replace(facts, origins=(*facts.origins, *(("gauge", each) for each in figured)))
    for text, origin in others:
        if (said := gauge_said(text)) and (said.rounds or _OF_GAUGE.search(text)):
            return _at(replace(facts, gauge=said), "gauge", origin)
    return facts


_ONE_SIZE = (
    r"(?:\d?X{0,3}[SML]\b|small|medium|newborn|child|adult|\d[\d–-]* ?(?:mths?|months|yrs?|years))"
)
_SIZE_LIST = re.compile(
    rf"\b{_ONE_SIZE}(?:/\d?X{{0,2}}[SML])? ?[(\[] ?{_ONE_SIZE}?[^()\[\]]{{1,80}}[)\]](?: ?(?:yrs|"
    rf"years|mths|months))?"
)
_OF_GAUGE = re.compile(r"\b(?:gauge|tension)\b", re.IGNORECASE)
_SIZED = re.compile(r"(?:sizes?|to fit|for|one size)\b", re.IGNORECASE)


def _with_sizes(lines: tuple[HeadLine, ...], facts: Facts) -> Facts:
    """The names of the sizes: from lines about them, else from one that says whom it fits."""
    about = [line for line in lines if line.topic == "sizes"]
    loose = [line for line in lines if line.topic in ("", "finished") and _SIZED.match(line.text)]
    for line in (*about, *loose, *(line for line in lines if line.topic in ("", "notes"))):
        listed_in = _SIZE_LIST.search(line.text)
        tried = (listed_in[0],) if listed_in else () if line not in (*about, *loose) else None
        for text in tried or dict.fromkeys((line.text, *(each for each, _ in _sentences(line)))):
            if tried == ():
                break
            said = sizes_said(text) if text else None
            if said and (line.topic == "sizes" or len(said.names) > 1 or "size" in text.lower()):
                return replace(facts, sizes=said, sizes_line=line.passage.line)
    return facts


# ---------------------------------------------------------------- line by line


def _with_line(line: HeadLine, facts: Facts, used: set[Origin]) -> Facts:
    """The facts with those of one more line."""
    if not line.text:
        return _headed(line, facts)
    match line.topic:
        case "abbreviations":
            return _left(line, facts)
        case "designer":
            return _designed(line, facts)
        case "yarn" | "materials" | "tools":
            return _material(line, facts)
        case "finishing" | "care" as block:
            words = line.passage.written or line.text
            facts = replace(facts, **{block: (*getattr(facts, block), words)})
            return _at(facts, block, _origin(line))
        case _:
            pass
    if not facts.title and line.opening:
        return _titled(line, facts)
    if line.opening and not facts.designer and (by := _BY.search(line.text)):
        facts = replace(facts, designer=by["name"].strip())
        return _at(facts, "head", _origin(line))
    if line.opening and not facts.designer and _is_name(bare := _YEAR.sub("", line.text)):
        return _at(replace(facts, designer=bare), "head", _origin(line))
    return _told(line, facts, used)


def _headed(line: HeadLine, facts: Facts) -> Facts:
    """A heading that says its topic alone."""
    if line.topic == "abbreviations":
        return _left(line, facts)
    block = {"materials": "yarns", "yarn": "yarns", "designer": "head"}.get(line.topic, line.topic)
    return _at(facts, block, _origin(line))


def _left(line: HeadLine, facts: Facts) -> Facts:
    words = line.passage.written or line.passage.text
    leaving = Leaving(SHORT_FORMS, line.passage.line, words)
    return replace(facts, leavings=(*facts.leavings, leaving))


_TITLE_AND_MORE = re.compile(r"(?P<title>.{3,60}?)(?: [-–—] |: )(?P<more>.{8,})")
_BY = re.compile(
    r"\b(?:by:?|designer:?)\s+(?P<name>[A-Z][\w.’'-]{0,20}(?: (?:[A-Z]|de |van |von |"
    r"la )[\w.’'-]{0,20}){0,3})"
)


_YEAR = re.compile(r",? \(?(?:19|20)\d\d\)?\.?$")
_PAGE_AFTER = re.compile(r"(?<!\s)\s*+(?:[|–-]\s*+)?page \d.*$", re.IGNORECASE)


def _titled(line: HeadLine, facts: Facts) -> Facts:
    text = _PAGE_AFTER.sub("", (line.passage.written or line.text).strip(" *#"))
    facts = _at(facts, "head", _origin(line))
    more = _TITLE_AND_MORE.fullmatch(text)
    if by := re.match(
        r"(?P<title>.{3,60}?),? (?:designed )?by (?P<name>[A-Z][\w.’' -]{2,40})$", text
    ):
        return replace(facts, title=_title(by["title"]), designer=by["name"])
    if more and re.fullmatch(r"(?i)(?:free |knitting )*pattern", more["title"]):
        return replace(facts, title=_title(re.sub("^the ", "", more["more"])))
    if more:
        summary = (*facts.summary, more["more"])
        return replace(facts, title=_title(more["title"]), summary=summary)
    return replace(facts, title=_title(text))


def _title(text: str) -> str:
    return capwords(text) if text.isupper() or text == text.capitalize() else text


def _is_name(text: str) -> bool:
    """Whether a line is the name of a person: two or three words with capitals, nothing else."""
    words = text.split()
    return (
        2 <= len(words) <= 3
        and all(re.fullmatch(r"[A-Z][a-z’'-]+(?:[A-Z][a-z]+)?|[A-Z]\.", word) for word in words)
        and words[0] not in ("A", "The", "An", "One")
        and not yarn_said(text)
    )


def _designed(line: HeadLine, facts: Facts) -> Facts:
    found = re.match(_BY_NAME, line.text)
    name = found[0].strip() if found else line.text
    facts = replace(facts, designer=facts.designer or name)
    return _at(facts, "head", _origin(line))


_BY_NAME = r"[A-Z][\w.’'-]*(?: (?:&|and|de|van|von|[A-Z][\w.’'-]*))*"


def _told(line: HeadLine, facts: Facts, used: set[Origin]) -> Facts:
    """A line of sizes, measures or words: sentence by sentence a fact, or prose."""
    sizes = len(facts.sizes.names)
    said_sizes = line.passage.line == facts.sizes_line
    prose: list[str] = []
    for text, origin in _sentences(line):
        if origin in used:
            continue
        about = (line.topic == "sizes" or _FITS.search(text)) and not _GARMENT.search(text)
        bodies = tuple(bodies_said(listed(text), sizes)) if about else ()
        measured = line.topic in ("finished", "sizes", "") and len(text) < _LONGEST_MEASURE
        finished = (
            ()
            if bodies or not measured
            else tuple(finished_said(listed(text), sizes, line.topic == "finished"))
        )
        if bodies:
            both = dict((*bodies, *facts.sizes.bodies))
            facts = replace(facts, sizes=SizesSaid(facts.sizes.names, tuple(both.items())))
            facts = _at(facts, "sizes", origin)
        elif finished and (line.topic != "" or _is_measure(text)):
            facts = replace(facts, finished=tuple(dict((*facts.finished, *finished)).items()))
            facts = _at(facts, "finished", origin)
        elif said_sizes:
            facts = _at(facts, "sizes", origin)
            said_sizes = False
        else:
            prose.append(origin.text)
    if not prose:
        return facts
    words = " ".join(prose)
    if line.opening and line.topic == "":
        return replace(facts, summary=(*facts.summary, words))
    return replace(facts, notes=(*facts.notes, words))


_FITS = re.compile(r"\b(?:to fit|fits?|for an? |suits?)\b", re.IGNORECASE)
_GARMENT = re.compile(r"\b(?:actual|finished|knitted|garment)\b", re.IGNORECASE)
_LONGEST_MEASURE = 160


_MEASURED = re.compile(
    r"length|width|circumference|around|round|wingspan|depth|height|diameter|chest|bust|waist|hip|"
    r"foot|leg|hand|head|sleeve|long|wide|across|span|finished|body",
    re.IGNORECASE,
)


def _is_measure(text: str) -> bool:
    """Whether a line names a measure and says it, and is no sentence about other things."""
    name = re.split(r"[\d½¼¾]", text, maxsplit=1)[0]
    short = len(name.split()) < 7
    return short and (name.rstrip().endswith(":") or bool(_MEASURED.search(name)))


# ---------------------------------------------------------------- materials


_PARTS = re.compile(
    r"(?:; ?|(?<=[a-z)])\. (?=[A-Z\d])|,? and (?=[^,]{0,30}\b(?:needles?|hook|dpns)\b)|"
    r", (?=\d[\d.]* ?mm\b))(?![^(]*\))"
)


def _material(line: HeadLine, facts: Facts) -> Facts:
    """A line of what is needed: yarns, tools, other things; or words."""
    among = line.topic in ("yarn", "materials")
    if line.text.endswith(":"):
        return _at(facts, "yarns" if among else "tools", _origin(line))
    parts = _PARTS.split(line.text)
    yarns = [yarn for part in parts if (yarn := yarn_said(part, among))]
    if len(parts) == 1 or not yarns:
        return _one_material(line, facts, among)
    keyed = [yarn for yarn in yarns if yarn.key != "main"]
    for part in parts:
        yarn = yarn_said(part, among)
        if keyed and yarn and yarn.key == "main":
            continue  # what all of them are
        if facts.gauge and facts.gauge == gauge_said(part):
            continue
        facts = _one_material(replace(line, text=part), facts, among)
    weights = [yarn.weight for yarn in yarns if yarn.weight]
    return replace(
        facts,
        yarns=tuple(
            replace(each, weight=each.weight or (weights[0] if weights else ""))
            for each in facts.yarns
        ),
    )


def _one_material(line: HeadLine, facts: Facts, among: bool) -> Facts:
    text = line.text.strip()
    yarn = None if _only_tools(text) else yarn_said(text, among)
    if yarn is None and line.topic == "yarn" and not facts.yarns and not _only_tools(text):
        yarn = yarn_said(f"yarn {text}") and YarnSaid("main", _shorter(text))
    if yarn:
        weight = yarn.weight or _weight_above(facts)
        keys = {each.key for each in facts.yarns}
        key = yarn.key if yarn.key not in keys else f"yarn {len(facts.yarns) + 1}"
        first = replace(yarn, weight=weight, key=key)
        more = tuple(
            replace(each, weight=weight)
            for each in further_yarns(text, key)
            if each.key not in keys
        )
        facts = replace(facts, yarns=(*facts.yarns, first, *more))
        return _at(facts, "yarns", _origin(line))
    if among and facts.yarns and goes_on_with_yarn(text):
        return _at(facts, "yarns", _origin(line))
    if len(text.split()) > _MOST_WORDS_OF_A_THING and not TOOL.search(text):
        return replace(facts, notes=(*facts.notes, line.passage.text))
    tools = bool(TOOL.match(line.passage.text))
    for item in _items(text):
        if tools or TOOL.search(item):
            facts = replace(facts, tools=(*facts.tools, item))
        else:
            facts = replace(facts, notions=(*facts.notions, item))
    return _at(facts, "tools", _origin(line))


_MOST_WORDS_OF_A_THING = 16


def _only_tools(text: str) -> bool:
    return bool(TOOL.search(text)) and not re.search(r"\bneedles? (?:and|&) yarn|\d ?% ", text)


def _shorter(text: str) -> str:
    return re.split(r"[,;(]", text)[0].strip(" .")


def _weight_above(facts: Facts) -> str:
    """The weight that a line before the yarns says for all of them: Yarn, all DK:"""
    said = [origin.text for block, origin in facts.origins if block == "yarns"]
    return next(
        (weight for text in said if text.endswith(":") and (weight := weight_said(text))), ""
    )


def _items(text: str) -> Iterator[str]:
    """The things that a line lists, each without its bullet."""
    text = re.sub(r"^(?:[-*•–] |[^:]{3,20}: ?(?=[a-z]))", "", text).strip().rstrip(".")
    parts = [part for part in re.split(r"; ?(?![^(]*\))", text) if part.strip()]
    if len(parts) == 1:
        commas = re.split(r", (?![^(]*\))", text)
        alone = all(_THING.fullmatch(part) for part in commas)
        parts = commas if len(commas) > 1 and alone else parts
    yield from (re.sub(r"^(?:and|or) ", "", part.strip()) for part in parts)


_THING = re.compile(
    r"(?!for\b|in\b|at\b|or\b|size|long|with\b|each\b|about\b|\d{1,40} ?(?:cm|mm|in|"
    r"\"))(?:\d )?[\w’'/ ()-]{3,40}",
    re.IGNORECASE,
)
