"""Turns the parser's tree of a row into the tree of what is worked."""

from collections.abc import Callable, Iterable
from itertools import pairwise
from typing import NoReturn

from bindoff import regex as re
from bindoff.craft.book import Craft, Stitch
from bindoff.diagnostics import Diagnostic, PatternError, Span, fail
from bindoff.records import Record, replace
from bindoff.source.rowlang.groups import group_name
from bindoff.source.rowlang.problems import (
    Place,
    no_patterns,
    unknown_pattern,
    unknown_word,
    unknown_yarn,
)
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
    Onward,
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
    Way,
    Where,
    Work,
)
from bindoff.source.rowlang.tree import Node, Word
from bindoff.source.rowlang.uses import fixed_uses
from bindoff.source.rowlang.vocabulary import NamedStitch, Vocabulary

MOST = 9999
"""The largest number a row may write out, and the most its brackets may multiply to."""
DEEPEST = 12
"""How many brackets may stand inside one another."""

_NAME_IN_BRACES = re.compile(r"[A-Za-z_][A-Za-z0-9_]*(?:[ -][A-Za-z0-9_]+)*")
_WORD = re.compile(r"[a-z][a-z0-9]*")
_LIST_IN_BRACES = re.compile(r"[0-9]{1,6}(?:\s*,\s*[0-9]{1,6})+")
_SKIPS = re.compile(r"\b(?:sk|skip|miss)", re.IGNORECASE)
_WHOLE_ROW = ("knit", "purl")
_MARKER_ACTS = {"PM": MarkerAct.PLACE, "SM": MarkerAct.SLIP, "RM": MarkerAct.REMOVE}
_CHANGES = {
    "cast_on": CountChange.CAST_ON,
    "pick_up": CountChange.PICK_UP,
    "pick_up_purl": CountChange.PICK_UP_PURL,
    "bind_off": CountChange.BIND_OFF,
    "hold": CountChange.HOLD,
}
_WAYS = {"NEW_START": Way.NEW_START, "JOIN_ROUND": Way.JOIN, "WORK_FLAT": Way.FLAT}
_BASES = {
    "STITCHES": Base.STITCH,
    "ROW_END": Base.ROW_END,
    "CHAIN": Base.CHAIN,
    "SPACE": Base.SPACE,
}
_OPPOSITES = (("purlwise", "knitwise"), ("wyib", "wyif"))
_TARGETS = frozenset(
    {
        *("to_end", "to_last", "to_marker", "to_last_marker", "to_corner"),
        *("before_gap", "past_gap", "before_double"),
    }
)
DOUBLE = "ds"
"""The id of the double stitch."""
_WHERES = frozenset({"in_each", "in_next", "in_first", "in_same", "in_corner", "in_each_corner"})


class Builder(Record):
    """Reads the nodes of one row. ``text`` is the row as written."""

    text: str
    vocabulary: Vocabulary
    place: Place

    def row(self, tree: Node) -> Row:
        """The whole row. Raises ``PatternError`` with all that is wrong with its parts."""
        nodes = tree.nodes
        yarn = None
        if nodes[0].data == "prefix":
            name = nodes.pop(0).word("NAME")
            yarn = self._yarn_called(name)
        parts = self._goals_of_patterns(_turned(self._parts(nodes, 0)))
        if not self.vocabulary.book.foreign_names.isdisjoint(_WORD.findall(self.text.lower())):
            self._one_set_of_terms(tree)
        for part in parts[:-1]:
            if isinstance(part, Turn | Onward):
                raise self._after_turn(part)
        for part in parts[1:] if _makes_double(parts[0]) else parts:
            if _has_double(part):
                raise fail(
                    "row.double",
                    "a double stitch stands in the middle of a row",
                    "Make it where the work is turned: last in the row that turns, or first in the "
                    "next row. Both its legs are worked together as one stitch, such as k1",
                    part.span,
                )
        for part in parts:
            if _times_in_all((part,)) > MOST:
                raise fail(
                    "row.large",
                    f"something in this part is worked over {MOST} times",
                    "Write smaller numbers",
                    part.span,
                )
        return Row(parts, yarn, self.place(0, len(self.text)))

    def spelled(
        self, tree: Node, written: Callable[[int, int], str]
    ) -> tuple[tuple[str, str], ...]:
        """The stitches of a row that can be read, by their ids, each with the word for it."""
        found: list[tuple[str, str]] = []
        for node in tree.find("stitch"):
            said, start, end = self._said(node), node.start, node.end
            word = written(start, end)
            if said.how or word.lower() != self._written(node).lower():
                continue  # it was put into our words
            if word.lower() == said.stitch.wording(self.vocabulary.book.terms).name:
                continue  # it is no abbreviation
            if said.number is not None:
                word = word.rstrip("0123456789")
            if not self.text[:start].strip(" *[(") and word == word.capitalize():
                continue  # the capital is the sentence's
            found.append((said.stitch.id, " ".join(word.split())))
        return tuple(found)

    # ------------------------------------------------------------ parts

    def _chains_over_skipped(self, parts: tuple[Part, ...]) -> None:
        """Raises a ``PatternError`` where as many chains stand over skipped stitches.

        Patterns count such a mesh as stitches of the row or leave it out (common practice, no
        source); other chains, as of an arch, are never stitches.
        """
        for one, other in pairwise(parts):
            match (one, other):
                case (Work("ch", chains), Work("sk", skipped)) if chains == skipped:
                    pass
                case (Work("sk", skipped), Work("ch", chains)) if chains == skipped:
                    pass
                case _:
                    continue
            raise fail(
                "row.chain-count",
                "as many chains as are skipped may count as stitches of the row or not",
                "Declare the two as a stitch of your own under `stitches:`, with what it uses and "
                "makes",
                one.span,
            )

    def _parts(
        self, nodes: Iterable[Node], depth: int, *, in_one: bool = False
    ) -> tuple[Part, ...]:
        parts: list[Part] = []
        findings: list[Diagnostic] = []
        nodes = list(nodes)
        for node in nodes:
            try:
                if node.data == "several" and not in_one:
                    self._no_place_said(node)
                if node.data == "fill":
                    parts = self._with_goal(nodes, parts, node, depth)
                else:
                    parts.append(self._part(node, depth, alone=depth == 0 and len(nodes) == 1))
            except PatternError as error:
                findings.extend(error.findings)
        if findings:
            raise PatternError(findings)
        if _SKIPS.search(self.text):
            self._chains_over_skipped(tuple(parts))
        return tuple(parts)

    def _part(self, node: Node, depth: int, *, alone: bool) -> Part:
        match node.data:
            case "work":
                return self._work(node, alone=alone)
            case "group":
                *inner, times = node.nodes
                return Group(self._inner(node, inner, depth), self._times(times), self._span(node))
            case "filled_group":
                *inner, target = node.nodes
                return Repeat(
                    self._inner(node, inner, depth), self._target(target), self._span(node)
                )
            case "star":
                return self._star(node, depth)
            case "into_one":
                return self._into_one(node, depth)
            case "hooked":
                return self._hooked(node)
            case "several":
                return self._several(node)
            case "marker":
                return Marker(_MARKER_ACTS[node.words[0].type], self._span(node))
            case "turn":
                return Turn(node.words[0].type == "WRAP_TURN", self._span(node))
            case "as_established" | "in_named" | "in_chart" as kind:
                return self._in_pattern(node, kind, depth)
            case "onward":
                return Onward(_WAYS[node.words[0].type], self._span(node))
            case name:
                return self._alter(node, _CHANGES[name])

    def _inner(
        self, node: Node, inner: list[Node], depth: int, *, in_one: bool = False
    ) -> tuple[Part, ...]:
        """What stands inside a repeat or a bracket, all ``in_one`` place or not."""
        if depth == DEEPEST:
            self._wrong(
                node, "nested", "brackets stand too deep inside one another", "Say it in two rows"
            )
        parts = self._parts(inner, depth + 1, in_one=in_one)
        for part in parts:
            if isinstance(part, Turn | Onward):
                raise self._after_turn(part)
        return parts

    def _star(self, node: Node, depth: int) -> Repeat:
        *inner, until = node.nodes
        if depth:
            self._wrong(
                node,
                "star-inside",
                "a repeat from * stands inside another repeat",
                "Write the inner one in brackets: `[k1, p1] 4 times`",
            )
        return Repeat(self._inner(node, inner, depth), self._until(until), self._span(node))

    def _until(self, node: Node) -> Target | MoreTimes:
        (goal,) = node.nodes
        if goal.data == "times":
            said = self._written(goal)
            self._wrong(
                goal,
                "times",
                f"`repeat from * {said}` can mean {said} in all or {said} more",
                "Write `more times`, counting the times after the first",
            )
        if goal.data == "more":
            return MoreTimes(self._times(goal))
        return self._target(goal)

    def _into_one(self, node: Node, depth: int) -> IntoOne:
        places = [token.value for token in node.words if token.type == "INT"]
        if places and int(places[0]) != 1:
            self._wrong(
                node,
                "into-one",
                "a bracket is worked into one stitch at a time",
                "Write `in next stitch`, and repeat it: `[(k1, yo, k1) in next stitch] 2 times`",
            )
        works: list[Work] = []
        *inner, base = node.nodes
        for part in self._inner(node, inner, depth, in_one=True):
            if not isinstance(part, Work) or self.vocabulary.book[part.stitch].consumes > 1:
                self._wrong(
                    node,
                    "into-one",
                    "only single stitches such as k1, p1 and yo can be worked into one stitch",
                    "Write them as in `(k1, yo, k1) in next stitch`",
                )
            works.append(part)
        kind = _BASES[base.words[0].type]
        return IntoOne(tuple(works), base=kind, span=self._span(node))

    def _in_pattern(self, node: Node, kind: str, depth: int) -> InPattern:
        """What a row works of a stitch pattern or chart."""
        if depth:
            self._wrong(
                node,
                "pattern-inside",
                "a stitch pattern is worked inside a repeat or bracket",
                "Write it outside, as in `k2, in pattern to last 2 stitches, k2`",
            )
        children = {child.data: child for child in node.nodes}
        to: Target | Count | None = None
        for name, child in children.items():
            if name == "over":
                to = self._count(child.nodes[0])
            elif name in _TARGETS:
                to = self._target(child)
        names = self.vocabulary.patterns
        span = self._span(node)
        if kind == "as_established":
            if not names:
                raise PatternError([no_patterns(self._written(node), span)])
            return InPattern("", to, span=span)
        called = children["pattern_name"]
        word = " ".join(token.value for token in called.words)
        word = " ".join(word.split()).removeprefix("in ")  # `in rib` is one token
        whole = self._written(node).lower()
        for name in (f"{word} stitch", word):
            if name != word and name not in " ".join(whole.split()):
                continue
            if kind == "in_named" and name in names.stitch:
                return InPattern(names.stitch[name], to, span=span)
            if name in names.chart:
                return InPattern(names.chart[name], to, chart=True, span=span)
        raise PatternError(
            [unknown_pattern(word, self.vocabulary, self._span(called), chart=kind == "in_chart")]
        )

    def _goals_of_patterns(self, parts: tuple[Part, ...]) -> tuple[Part, ...]:
        """``parts`` with a goal for each pattern that says none: what the parts behind it leave.

        A chart without one is worked once.
        """
        if not any(isinstance(part, InPattern) for part in parts):
            return parts
        found: list[Part] = []
        for place, part in enumerate(parts):
            if isinstance(part, InPattern) and part.to is None and not part.chart:
                rest = fixed_uses(parts[place + 1 :], self.vocabulary.book)
                if rest is None:
                    raise fail(
                        "row.pattern-goal",
                        "it is not said how far the pattern goes",
                        "Say where it ends, as in `in pattern to marker`",
                        part.span,
                    )
                part = replace(part, to=ToLast(rest) if rest else ToEnd())
            found.append(part)
        return tuple(found)

    def _several(self, node: Node) -> Work:
        """``2 dc`` among what is worked into one place."""
        nodes = {child.data: child for child in node.nodes}
        said = self._said(nodes["stitch"])
        if said.stitch.craft is not Craft.CROCHET or said.stitch.counted:
            self._no_place(nodes["stitch"])
        return Work(said.stitch.id, self._count(nodes["number"]), span=self._span(node))

    def _no_place_said(self, node: Node) -> NoReturn:
        """``2 dc`` by itself."""
        stitch = next(child for child in node.nodes if child.data == "stitch")
        said = self._said(stitch)
        if said.stitch.craft is not Craft.CROCHET:
            self._wrong(
                stitch,
                "unreadable",
                f"expected a place such as `in each stitch`, and `{said.stitch.id}` is knitting",
                "Put the number after a knitting stitch: `k2`",
            )
        self._wrong(
            node,
            "unreadable",
            f"expected a place such as `in each stitch` after `{self._written(node)}`",
            f"Say where they are worked, as in `{self._written(node)} in next stitch`",
        )

    def _no_place(self, node: Node) -> NoReturn:
        self._wrong(
            node,
            "not-crochet",
            f"`{self._written(node)}` can't be worked in a place",
            "Only crochet such as sc or sl st is; in knitting write `(k1, p1) in next stitch`",
        )

    def _alter(self, node: Node, change: CountChange) -> Alter:
        (amount,) = node.nodes
        if amount.data == "amount":
            (amount,) = amount.nodes
        many = self._count(amount) if amount.data == "number" else self._target(amount)
        group, how = self._group(node), self._off_how(node)
        return Alter(change, many, group=group, how=how, span=self._span(node))

    def _group(self, node: Node) -> str:
        """The name of the stitches that a ``hold`` node takes off the needle; empty for none."""
        said = [token.value for token in node.words if token.type == "FOR_GROUP"]
        return group_name(said[0].removeprefix("for")) if said else ""

    def _off_how(self, node: Node) -> str:
        """The way a ``bind_off`` node takes stitches off, in the words that are printed."""
        said = [token for token in node.words if token.type in ("OFF_HOW", "HOW")]
        if not said:
            return ""
        words = " ".join(said[0].value.split())
        act = self.vocabulary.book.act(words)
        return act.id if act else words.replace("ribbing", "rib")

    # ------------------------------------------------------------ stitches

    def _one_set_of_terms(self, tree: Node) -> None:
        """Raises a ``PatternError`` at a word that means one stitch in US and another in UK terms
        where the row also has a word of the other terms only."""
        book = self.vocabulary.book
        words = [(node, self._name(node)) for node in tree.find("stitch")]
        strange = [word for _, word in words if book.foreign(word)]
        for node, word in words if strange else ():
            known, meant = book.find(word), book.elsewhere(word)
            if known and meant and known.id != meant.id:
                other = book.elsewhere(strange[0])
                assert other is not None
                self._wrong(
                    node,
                    "mixed-terms",
                    f"`{word}` is another stitch in US than in UK terms, and `{strange[0]}` beside "
                    f"it is not of {book.terms} terms",
                    f"Write `{self._word(other).replace('{n}', '').strip()}` for `{strange[0]}`, "
                    f"and see what `{word}` is to be: `bindoff words {word}`",
                )

    def _work(self, node: Node, *, alone: bool) -> Work | Fill | Group:
        nodes = {child.data: child for child in node.nodes}
        said = self._said(nodes["stitch"])
        stitch, span, yarn = said.stitch, self._span(node), self._yarn(nodes.get("yarn"))
        how = self._how(node, said)
        number = self._number(node, said, nodes.get("number"))
        times = self._times(nodes["times"]) if "times" in nodes else None
        if not stitch.counted or number is None:
            if not stitch.counted or times is not None:
                return Work(stitch.id, times or 1, how, yarn, span)
            if alone and self._written(nodes["stitch"]).lower() in _WHOLE_ROW:
                return Fill(stitch.id, ToEnd(), how, yarn, span)
            self._no_number(nodes["stitch"], stitch)
        work = Work(stitch.id, number, how, yarn, span)
        return work if times is None else Group((work,), times, span)

    def _number(self, node: Node, said: NamedStitch, written: Node | None) -> Count | None:
        """The number of a stitch, from its name (``k2``) or after it (``k {edge}``)."""
        glued = None if said.number is None else self._in_range(said.number, node)
        if written is None:
            return glued
        if not said.stitch.counted:
            self._wrong(
                node,
                "number",
                f"`{self._word(said.stitch)}` does not take a number",
                f"Write `{self._word(said.stitch)} {self._written(written)} times`",
            )
        if glued is not None:
            self._wrong(node, "number", "the stitch has two numbers", "Keep one of them")
        return self._count(written)

    def _with_goal(
        self, nodes: list[Node], before: list[Part], node: Node, depth: int
    ) -> list[Part]:
        """``before``, then the stitch of a ``fill`` node worked as far as it says.

        A bare stitch (``p to end``) is worked over and over. One with a number, or one that changes
        the count, ends a sequence, and the trade repeats the whole of that: ``k1, p1 around``.
        Where that is not clear both readings are offered.
        """
        words = _by_name(node)
        said = self._said(words["stitch"])
        fill, last = self._fill(node, said)
        run = _run_of_stitches(before)
        single = last.times != 1
        if not run:
            if single:
                self._number_and_goal(node)
            return [*before, fill]
        stitch = said.stitch
        numbered = said.number is not None or "number" in words or "/" in stitch.id
        if not numbered and not stitch.shapes:
            return [*before, fill]
        alike = all(_same_stitch(part, last) for part in run) and not stitch.shapes
        if alike and not single:
            return [*before, fill]
        at = nodes.index(node)
        first = at - len(run)
        ahead = before[: len(before) - len(run)]
        around = any(token.type == "AROUND" for token in _goal_of(node).words)
        clear = isinstance(fill.to, ToEnd) and (around or not single)
        if clear and stitch.craft is Craft.KNIT and all(isinstance(p, Marker) for p in ahead):
            start, end = nodes[first].start, node.end
            return [*ahead, Repeat((*run, last), fill.to, self.place(start, end))]
        raise self._two_readings(nodes, first, at, depth)

    def _fill(self, node: Node, said: NamedStitch) -> tuple[Fill, Work]:
        """The stitch of a ``fill`` node worked over and over, and worked as often as written."""
        words = _by_name(node)
        number = self._number(node, said, words.get("number"))
        how, yarn, span = self._how(node, said), self._yarn(words.get("yarn")), self._span(node)
        fill = Fill(said.stitch.id, self._target(_goal_of(node)), how, yarn, span)
        return fill, Work(said.stitch.id, 1 if number is None else number, how, yarn, span)

    def _number_and_goal(self, node: Node) -> NoReturn:
        stitch = _by_name(node)["stitch"]
        word, bare, goal = self._said_of(node)
        self._wrong(
            stitch,
            "number",
            f"`{word}` has a number and a place to go to",
            f"Write `[{word}] {goal}` to repeat it, or leave out the number: `{bare}`",
        )

    def _two_readings(self, nodes: list[Node], first: int, at: int, depth: int) -> PatternError:
        """A sequence with a goal: the whole of it may be repeated, or its last stitch only.

        ``nodes[first]`` to ``nodes[at]`` are the sequence.
        """
        word, bare, goal = self._said_of(nodes[at])
        ahead = "".join(f"{self._written(each)}, " for each in nodes[:first])
        run = "".join(f"{self._written(each)}, " for each in nodes[first:at])
        rest = "".join(f", {self._written(each)}" for each in nodes[at + 1 :])
        starred = depth == 0 and not ahead
        whole = f"*{run}{word}; repeat from * {goal}" if starred else f"[{run}{word}] {goal}"
        span = self.place(nodes[first].start, nodes[at].end)
        return fail(
            "row.two-readings",
            "it is not clear what is repeated here: the last stitch or all before it too",
            f"Write `{ahead}{whole}{rest}` to repeat all, or `{ahead}{run}{bare}{rest}` to repeat "
            "the last stitch only",
            span,
        )

    def _said_of(self, node: Node) -> tuple[str, str, str]:
        """What a ``fill`` node works once (``p2 tbl``), its last stitch alone as far as it goes
        (``p tbl to end``), and its goal, ``around`` as ``to end``."""
        words, goal_node = _by_name(node), _goal_of(node)
        goal = "to end" if goal_node.data == "to_end" else self._written(goal_node)
        yarn = f" {self._written(words['yarn'])}" if "yarn" in words else ""
        once = self.text[node.start : goal_node.start].strip()
        said = self._said(words["stitch"])
        if not said.stitch.counted:
            return once + yarn, f"[{once}{yarn}] {goal}", goal
        bare = self._word(said.stitch).replace("{n}", "").strip()
        hows = "".join(f" {id}" for id in self._how(node, said))
        return once + yarn, f"{bare}{hows} {goal}{yarn}", goal

    def _hooked(self, node: Node) -> Hooked:
        nodes = {child.data: child for child in node.nodes}
        said = self._said(nodes["stitch"])
        if said.stitch.craft is not Craft.CROCHET or said.stitch.counted:
            self._no_place(nodes["stitch"])
        where = next(child for child in node.nodes if child.data in _WHERES)
        times = self._count(nodes["number"]) if "number" in nodes else 1
        return Hooked(
            said.stitch.id,
            self._where(where),
            times,
            self._yarn(nodes.get("yarn")),
            self._span(node),
        )

    def _said(self, node: Node) -> NamedStitch:
        """The stitch a ``stitch`` node names."""
        word = self._name(node)
        said = self.vocabulary.stitch(word)
        if said is None and word in self.vocabulary.yarns:
            self._wrong(
                node,
                "yarn-place",
                f"`{self._written(node)}` is a yarn and stands where a stitch should",
                "Put the yarn after the stitch, as in `k2 in slate`, or before the row: "
                "`with slate: k2, p2`",
            )
        if said is None:
            raise PatternError(
                [unknown_word(self._written(node), self.vocabulary, self._span(node))]
            )
        return said

    def _name(self, node: Node) -> str:
        """The word of a ``stitch`` node in lower case."""
        return " ".join(node.words[0].value.split())

    def _how(self, node: Node, said: NamedStitch) -> tuple[str, ...]:
        """The modifiers of the stitch in ``node``, checked, in the book's order."""
        book = self.vocabulary.book
        short = said.stitch.wording(book.terms).abbreviation
        names = [child.words[0].value for child in node.nodes if child.data == "how"]
        ids = {act.id for name in (*names, *said.how) if (act := book.act(name))}
        for id in sorted(ids):
            if id not in said.stitch.takes:
                self._wrong(
                    node,
                    "how",
                    f"`{short}` can't be worked `{id}`",
                    f"Take out `{id}`, or declare a stitch of your own",
                )
        for one, other in _OPPOSITES:
            if {one, other} <= ids:
                self._wrong(
                    node, "how", f"`{one}` and `{other}` exclude each other", "Keep one of them"
                )
        return book.modifiers(ids)

    def _yarn(self, node: Node | None) -> str | None:
        return None if node is None else self._yarn_called(node.word("NAME"))

    def _yarn_called(self, name: Word) -> str:
        yarn = self.vocabulary.yarns.get(name.value)
        if yarn is None:
            start, end = name.start, name.end
            raise PatternError(
                [unknown_yarn(self.text[start:end], self.vocabulary, self.place(start, end))]
            )
        return yarn

    # ------------------------------------------------------------ numbers and places

    def _times(self, node: Node) -> Count:
        """The number of a ``times`` or ``more`` node."""
        for child in node.nodes:
            return self._count(child)
        return 1 if node.words[0].type == "ONCE" else 2

    def _count(self, node: Node) -> Count:
        (token,) = node.words
        if token.type == "INT":
            return self._in_range(int(token.value), node)
        name = self._written(node)[1:-1].strip()
        if _LIST_IN_BRACES.fullmatch(name):
            values = tuple(int(figure) for figure in name.split(","))
            if max(values) > MOST:
                self._in_range(max(values), node)
            return NamedNumber(", ".join(map(str, values)), values, span=self._span(node))
        if not _NAME_IN_BRACES.fullmatch(name):
            self._wrong(
                node,
                "name",
                f"`{self._written(node)}` is not the name of a number",
                "Name a measure, as in `k{edge}`; work out sums under `measures:`",
            )
        return NamedNumber(name, span=self._span(node))

    def _in_range(self, number: int, node: Node) -> int:
        if number == 0:
            self._wrong(node, "nought", "the number is nought", "Leave this out of the row")
        if number > MOST:
            self._wrong(node, "large", f"the number is over {MOST}", "Write a smaller number")
        return number

    def _target(self, node: Node) -> Target:
        counts = [self._count(child) for child in node.nodes]
        match node.data:
            case "to_end":
                return ToEnd()
            case "to_last":
                return ToLast(counts[0] if counts else 1)
            case "to_corner":
                return ToCorner()
            case "to_last_marker":
                return ToMarker(counts[0] if counts else 0, last=True)
            case "before_gap":
                return ToGap(counts[0] if counts else 0)
            case "past_gap":
                return ToGap(past=counts[0])
            case "before_double":  # the last stitch before the gap
                return ToGap(self._one_more(node, counts[0] if counts else 0))
            case _:
                return ToMarker(counts[0] if counts else 0)

    def _one_more(self, node: Node, count: Count) -> int:
        if not isinstance(count, int):
            self._named_double(node)
        return count + 1

    def _named_double(self, node: Node) -> NoReturn:
        self._wrong(
            node,
            "double",
            "how far it is to a double stitch is written as a figure",
            "Write it, or count to the gap behind the double stitch: `k to {n} before gap`",
        )

    def _where(self, node: Node) -> Where:
        nodes = {child.data: child for child in node.nodes}
        base = _BASES[nodes["base"].words[0].type] if "base" in nodes else Base.STITCH
        match node.data:
            case "in_each":
                target = next((child for child in node.nodes if child.data in _TARGETS), None)
                return InEach(base, ToEnd() if target is None else self._target(target))
            case "in_next":
                return InNext(self._count(nodes["number"]) if "number" in nodes else 1, base)
            case "in_first":
                return InFirst()
            case "in_same":
                return InSame(base)
            case name:
                return InCorner(each=name == "in_each_corner")

    # ------------------------------------------------------------ places and problems

    def _span(self, node: Node) -> Span:
        return self.place(node.start, node.end)

    def _written(self, node: Node) -> str:
        return self.text[node.start : node.end]

    def _wrong(self, node: Node, id: str, message: str, help: str) -> NoReturn:
        raise fail(f"row.{id}", message, help, self._span(node))

    def _word(self, stitch: Stitch) -> str:
        """What a row says for a stitch in the pattern's terms, with ``{n}`` for its number."""
        return stitch.wording(self.vocabulary.book.terms).written

    def _no_number(self, node: Node, stitch: Stitch) -> NoReturn:
        word = self._written(node)
        one = self._word(stitch).replace("{n}", "1")
        self._wrong(
            node, "no-number", f"`{word}` has no number", f"Write `{one}`, or `{word} to end`"
        )

    def _after_turn(self, part: Turn | Onward) -> PatternError:
        return fail(
            "row.after-turn",
            "the work is turned before the row's end"
            if isinstance(part, Turn)
            else f"`{part.way}` stands before the row's end",
            "Let the turn end its row, and write what follows as the next row",
            part.span,
        )


def _turned(parts: tuple[Part, ...]) -> tuple[Part, ...]:
    """``parts``, with a double stitch at their end as the turn that it is made at."""
    if len(parts) < 2 or not _makes_double(parts[-1]):
        return parts
    before = parts[-2]
    if isinstance(before, Turn) and not before.wrap:
        return (*parts[:-2], replace(before, double=True))
    return (*parts[:-1], Turn(double=True, span=parts[-1].span))


def _makes_double(part: Part) -> bool:
    return isinstance(part, Work) and part.stitch == DOUBLE and part.times == 1


def _has_double(part: Part) -> bool:
    if isinstance(part, Group | Repeat | IntoOne):
        return any(_has_double(inner) for inner in part.parts)
    return isinstance(part, Work | Fill) and part.stitch == DOUBLE


def _run_of_stitches(parts: list[Part]) -> tuple[Part, ...]:
    """The parts at the end that work stitches in a fixed number."""
    start = len(parts)
    while start and isinstance(parts[start - 1], Work | Group | IntoOne):
        start -= 1
    return tuple(parts[start:])


def _by_name(node: Node) -> dict[str, Node]:
    """The children of a node by what they are; the last of each kind."""
    return {child.data: child for child in node.nodes}


def _goal_of(node: Node) -> Node:
    return next(child for child in node.nodes if child.data in _TARGETS)


def _same_stitch(part: Part, last: Work) -> bool:
    return isinstance(part, Work) and replace(part, times=last.times) == last


def _times_in_all(parts: tuple[Part, ...]) -> int:
    """How often the most repeated of ``parts`` is worked, as far as that is written out."""
    most = 1
    for part in parts:
        match part:
            case Group(inner, int(times)):
                most = max(most, times * _times_in_all(inner))
            case Repeat(inner, MoreTimes(int(more))):
                most = max(most, (more + 1) * _times_in_all(inner))
            case Group() | Repeat():
                most = max(most, _times_in_all(part.parts))
            case _:
                pass
    return most
