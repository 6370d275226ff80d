"""Telegraphic notes as full sentences: "2x M4x12, lid to case" is "Remove the two M4x12 screws that secure ..."."""

from __future__ import annotations

import re
from bisect import bisect_left
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import TypeVar

from miner.language.annotations import Annotations, Clause, Group, Measure, Number
from miner.lexicon.inflection import IRREGULAR_VERBS, base_of, phrase_forms, plural, singular
from miner.lexicon.lookup import Lookup
from miner.procedures.step_found import StepFound
from miner.procedures.wording import count_word

T = TypeVar("T", Group, Number, Measure, Clause)
Piece = int | str
"""A token of the note, or a word that the note leaves out."""

_PLACED = re.compile(r"(?:[DQNAZnHFGo]|(?<=[nHFN])C(?=[DAnHN]))*[nHF]R*(?P<particle>r+)(?=[.,pW]|$)")
_BARE = frozenset("place position line edge end hand order reverse gear neutral load power tension length turn".split())
_COUNTABLE = frozenset("pad tie strip cloth rag swab bud wipe towel marker pen label string".split())
_MASS = frozenset("dust dirt fluff swarf water air power lint limescale rust debris".split())
_AWAY, _STATE = frozenset(("off", "out", "away")), frozenset(("open", "loose", "free", "clear", "apart", "upright"))
_BREAKS, _TO = frozenset((",", "-", ":", "–", ";", "=")), frozenset(("to", "onto", "into", ">"))
_THEN = re.compile(r"r+(?=[.,pW]|$)")
_SIDE = re.compile(r"(?<=[pt])A(?=[.,p]|$)")  # "at rear", "to left"
_SIZES = ("thread", "length", "drive", "head")


@dataclass(frozen=True, slots=True)
class Wording:
    """One way to say a note: its pieces, the articles before tokens, and whether verbs and counts are put anew."""

    pieces: list[Piece]
    articles: Mapping[int, str]
    reworded: bool = True


def note_wordings(line: Line) -> Iterator[Wording]:
    """The note as an instruction, from the fullest sentence to the one closest to the note."""
    step, articles = line.step, _articles(line)
    plain: list[Piece] = [i for a, b in step.ranges for i in line.tokens(a, b)]
    full = [piece for n, (a, b) in enumerate(step.ranges) for piece in _clause(line, a, b, later=n > 0)]
    yield Wording(full, articles)
    if step.clause.deed and full[0] == step.clause.deed.start != step.clause.core:
        yield Wording(["get", *plain], articles, reworded=False)  # "get the lead unplugged"
    yield Wording(full, dict(sorted(articles.items())[:1]))
    bare = [piece for piece in full if piece != "the"]
    at = bare.index("that") if "that" in bare else len(bare)
    yield Wording([*bare[:at], "of", *bare[at + 2 :]] if at < len(bare) else bare, articles)
    yield Wording(bare, {})
    yield Wording(plain, articles, reworded=False)


@dataclass(frozen=True, slots=True)
class Line:
    """A note and what its words are looked up in."""

    known: Annotations
    index: Lookup
    step: StepFound

    def tokens(self, start: int, end: int) -> list[int]:
        """The tokens of a range that the writer did not take back."""
        return [i for i in range(start, end) if i not in self.known.dropped]

    def groups(self, start: int, end: int) -> list[Group]:
        """The groups that begin in a range in shorthand: counted in digits, or told by their size alone."""
        return [g for g in within(self.known.groups, start, end) if g.implied or self._short(g)]

    def _short(self, group: Group) -> bool:
        lower, forms = self.known.lower[group.start : group.end], self.known.forms[group.start : group.end]
        jotted = any(form.lower() != word for form, word in zip(forms, lower, strict=True))
        sure = group.plural or group.count == 1 or jotted or "x" in lower  # "2 pin" counts nothing
        return sure and (lower[0].isdigit() or lower[0] == "quantity")

    def base_at(self, at: int) -> bool:
        """Whether what was read as part of a name is a verb: "lift chain off", ", push switch thru"."""
        known, form = self.known, self.index.action_of_form(self.known.lower[at])
        if form is None or form.form != "base" or self.index.fastener(known.lower[at]):
            return False
        if at in known.stops or at == self.step.start or known.lower[at - 1] == ">":
            follows = known.tags[at + 1 : at + 2] in tuple("DQNAnHF")
            return follows and (form.action.effect == "detach" or not form.action.noun)
        return known.tags[at - 1] == ","

    def base_of(self, word: str, verb: str) -> str | None:
        """The base form of an inflected verb; `verb` is how it was read ("took out" was read as "remove")."""
        form = self.index.action_of_form(word)
        for action in [form.action] if form else [idiom.action for idiom in self.index.idioms_from(word)]:
            for phrase in (action.verb, *action.idioms):
                base = phrase.split()[0]
                forms = action.forms if phrase == action.verb else IRREGULAR_VERBS.get(base, ())
                if any(inflected.split()[0] == word for inflected in phrase_forms(phrase, forms)):
                    return base
        return verb if base_of(word) == verb else None


def within(items: list[T], start: int, end: int) -> list[T]:
    """Those that begin in a range of tokens."""
    low = bisect_left(items, start, key=lambda item: item.start)
    return items[low : bisect_left(items, end, lo=low, key=lambda item: item.start)]


def _clause(line: Line, start: int, end: int, *, later: bool) -> list[Piece]:
    known, clause = line.known, next(iter(within(line.known.clauses, start, start + 1)), None)
    first = clause.core if clause else start
    lead, body = line.tokens(start, first), line.tokens(first, end)
    if not body:
        return [*lead]
    particle = None if line.base_at(first) else _particle(line, first, clause, later=later)
    told = _told(line, body) if particle is None else None
    if told:
        return [*lead, *told]
    whole, deed = _with_groups(line, body), clause.deed if clause else None
    if particle is not None:
        if later and not {known.tags[i] for i in lead} & {"C", "T"}:
            return [*lead, "with", *whole]  # "lay it down, towel under"
        joined = known.tags[particle + 1 : particle + 2] == "C"  # "motor down and out"
        words = set(known.lower[particle : particle + (3 if joined else 2)])
        return [*lead, "take" if words & _AWAY else "get" if words & _STATE else "put", *whole]
    if clause and deed and is_done(known, clause):
        kept = [p for p in whole if p != deed.start and not (isinstance(p, int) and known.tags[p] == "X")]
        return [*lead, deed.start, *kept]  # "lead unplugged"
    return [*lead, *whole]


def is_done(known: Annotations, clause: Clause) -> bool:
    """Whether a clause tells what was done to what, the object first: "lead unplugged from socket"."""
    deed = clause.deed
    if deed is None or deed.form != "past" or known.tags[deed.start] != "E" or deed.start == clause.core:
        return False
    after = known.tags[deed.start + 1 : clause.end][:1]
    return set(known.tags[clause.core : deed.start]) <= set("DQNAnHFXR") and after not in tuple("DQNAnHFO")


def _particle(line: Line, first: int, clause: Clause | None, *, later: bool) -> int | None:
    """Where a particle does the work of a verb: "cover off", "new belt on"."""
    known, deed = line.known, clause.deed if clause else None
    if deed and deed.start > first and known.tags[deed.start] in "rpt":
        return deed.start
    placed = _PLACED.match(known.tags, first, clause.end if clause else first)
    named = known.lower[first : placed.start("particle")] if placed else []
    if placed and (later or line.index.head_of(named)) and known.lower[placed.start("particle")] not in _STATE:
        return placed.start("particle")
    form = line.index.action_of_form(known.lower[first])
    noun = deed and deed.start == first and deed.particle is None and form and form.action.effect == "handle"
    after = _THEN.match(known.tags, first + 1, clause.end if clause else first)
    return first + 1 if noun and after and line.index.head(known.lower[first]) else None


def _with_groups(line: Line, body: list[int]) -> list[Piece]:
    """The tokens with the groups that they tell in shorthand written out."""
    known, made = line.known, list[Piece](body)
    for group in reversed(line.groups(body[0], body[-1] + 1)):
        words, used = _group(line, group)
        at = next((n for n, piece in enumerate(made) if piece in used), None)
        if at is None:
            continue
        piece = made[at - 1] if at else ""
        new = any(isinstance(word, int) and known.lower[word] == "new" for word in words)
        before, tag = (known.lower[piece], known.tags[piece]) if isinstance(piece, int) else ("", ".")
        if before == "," and line.step.effect in ("attach", "fasten", "connect", "close"):
            made[at - 1] = "with"
        elif before not in (",", "with", "and", "or") and tag not in "DQNZ" and not new:
            words[: words[0] == "one"] = ["the"]
        made[at:] = [*words, *(p for p in made[at:] if p not in used)]
    return made


def _group(line: Line, group: Group) -> tuple[list[Piece], set[int]]:
    """A group as a noun phrase without article ("four M4x25 T20 screws"), and the tokens that it stands for."""
    known, start = line.known, group.start
    if known.tags[max(start - 2, 0) : start] == "NC":  # "2 or 3x T10"
        start -= 2
    start -= start > 0 and known.lower[start - 1] == "quantity"
    stop = known.tags.find("p", group.start, group.end)  # "4 clips with flat blade"
    span = line.tokens(start, group.end if stop < 0 else stop)
    near = [m for m in within(known.measures, start, group.end) if m.start in span]
    sized = [i for kind in _SIZES for m in near if m.kind == kind for i in range(m.start, m.end)]
    numbers = [n for n in within(known.numbers, start, group.end) if n.start in span and n.start not in sized]
    several = len(numbers) > 1 or group.count != 1
    used = {*sized, *(i for n in numbers for i in range(n.start, n.end))}
    used |= {i for i in span if known.lower[i] in ("quantity", ",", "or")}
    nouns: list[Piece] = [i for i in span if i not in used and known.tags[i] in "FnHAEGD"]
    used.update(i for i in nouns if isinstance(i, int))
    last = max((n for n, i in enumerate(nouns) if isinstance(i, int) and known.tags[i] == "F"), default=len(nouns))
    piece = nouns[last] if last < len(nouns) else None
    noun = known.lower[piece] if isinstance(piece, int) else group.kind
    if piece is None or (several and numbers and noun == singular(noun)):
        nouns[last : last + 1] = [plural(noun) if several else noun]
    counts = [word for n in numbers for word in ("or", count_word(n.value))][1:]
    return [*counts, *sized, *nouns], used


def _told(line: Line, body: list[int]) -> list[Piece] | None:
    """A group whose note says no more than what it holds: "4x T20 M4x25, head cover to shell"."""
    known, lower, start, end = line.known, line.known.lower, body[0], body[-1] + 1
    group = next(iter(line.groups(start, end)), None)
    if group is None:
        return None
    words, used = _group(line, group)
    before = [i for i in body if i < min(used)]
    if before and {lower[i] for i in before if lower[i].isalpha()} <= {"x", "number", "quantity"}:
        before, body, start = [], [i for i in body if i >= min(used)], min(used)  # "3x - no, 2x"
    deed = next((d for d in known.deeds_between(start, end) if known.tags[d.start] in "VSE"), None)
    spoken = deed is not None and deed.start == start
    if deed and deed.start < group.start and not (spoken and len(before) == deed.end - deed.start):
        return None
    found = next((g for g in line.step.groups if g.kind == group.kind and g.count == group.count), group)
    named = [p for p in known.phrases_between(start, end) if p.end <= min(used) or p.start > max(used)]
    parted = [p for p in named if p.name == found.secures and (p.start == start or lower[p.start - 1] in _BREAKS)]
    held = parted[0] if parted else None
    if (spoken and held is None) or (before and not spoken and (held is None or held.start != start)):
        return None
    after = [p for p in named if held and p.start >= held.end]
    goal = after[0] if after and lower[after[0].start - 1] in _TO else None
    for phrase in (held, goal):
        used.update(range(phrase.start, phrase.end) if phrase else ())
    loosened = found.captive or line.step.effect == "loosen"
    meant = "loosen" if loosened else "fit" if line.step.phase in ("install", "after") else "remove"
    verb: list[Piece] = [*before] if spoken else [meant]
    one = group.count == 1 and "or" not in words
    made = [*verb, "the", *(words[1:] if one and words[0] == "one" else words)]
    if held:
        made += ["that", "secures" if one else "secure", *range(held.start, held.end)]
    if goal:
        made += ["to", *range(goal.start, goal.end)]
    return made + _rest(line, [i for i in body if i not in used and i not in verb])


def _rest(line: Line, left: list[int]) -> list[Piece]:
    """What else a note says, each piece after a comma, or right away if a preposition leads it."""
    known, made = line.known, list[Piece]()
    for i in left:
        stop = known.lower[i] in _BREAKS or known.tags[i] == "."
        if (stop and known.lower[i] != ",") or ((stop or known.lower[i] in _TO) and i + 1 not in left):
            continue
        if (not made or made[-1] != i - 1) and not stop and known.tags[i] != "p":
            made.append(",")
        made.append(i)
    return made


def _articles(line: Line) -> dict[int, str]:
    """The articles that names lack, by the token before which they belong."""
    known, made = line.known, dict[int, str]()
    held = {name for group in line.step.groups for name in (group.secures, group.to)}
    for first, last in line.step.ranges:
        groups = {i for g in line.groups(first, last) for i in range(g.start, g.end)}
        tools = [t for t in known.tools_between(first, last) if known.tags[max(t.start - 1, 0)] == "p"]
        named = {i for t in tools for i in range(t.start, t.end)}
        for phrase in known.phrases_between(first, last):
            starts = [phrase.start, *(i + 1 for i in range(phrase.start, phrase.end) if known.tags[i] == "o")]
            for start, stop in zip(starts, [*(s - 1 for s in starts[1:]), phrase.end], strict=True):
                at = start + (line.base_at(start) and phrase.name not in held)
                free = at < stop and at not in groups and at not in named
                if free and _bare(line, at, stop, listed=phrase.known, verb=at > start):
                    made[at] = "the"
        for tool in tools:
            if not known.lower[tool.end - 1].endswith("s") and _bare(line, tool.start, tool.end, listed=True):
                made[tool.start] = "an" if known.lower[tool.start][0] in "aeiou8" else "a"
        ends = (m.start() for m in _SIDE.finditer(known.tags, first, last))
        made.update({i: "the" for i in ends if known.lower[i] in line.index.words("side")})
    return made


def _bare(line: Line, start: int, end: int, *, listed: bool, verb: bool = False) -> bool:
    """Whether a name lacks an article: no determiner, count or label, no mass noun, no fixed phrase ("by hand")."""
    note, index = line.known, line.index
    lower, tags, last = note.lower, note.tags, note.lower[end - 1]
    opens = start in note.stops or not start
    before, tag = ("", ".") if opens else (lower[start - 1], "V" if verb else tags[start - 1])
    wider = "." if opens or verb or start - 1 in note.stops or start < 2 else tags[start - 2]
    after = "." if end in note.stops or end == len(tags) else tags[end]
    if tags[start] == "N" and (end - start < 3 or singular(last) != last or not lower[start].isdigit()):
        return False  # "six leads", "20 min", but "the 2 pin lead"
    if any(t in "DQ" for t in tags[start:end]) or tag in "DQNZOXIeJRnHFA" or note.forms[start].lower() == "no":
        return False
    if (tag == "V" and wider not in ".,CTRXtx-W") or (tag in "GE" and wider in "Vp") or (tag == "r" and wider in ",."):
        return False  # "bent wire", "forward hook last"
    fixed = (last in _BARE and tag in "pt") or (tag == "W" and after in ".,")
    if before in ("by", "per", "/") or (fixed and end - start == 1):
        return False
    if not opens and tag in ",.-" and ((not listed and after != "r") or last in index.words("body_part")):
        return False
    if not opens and before != "(" and note.places[start - 1] + len(note.forms[start - 1]) == note.places[start]:
        return False
    if after == "N" and tags[end + 1 : end + 2] in ("", ".", ",", "p", "C", "W"):
        return False  # "slot 3"
    head = index.head_of(lower[start:end])
    supply = any(index.supply(" ".join(lower[i:end])) for i in range(start, end)) and singular(last) == last
    mass = supply or last in _MASS or (head is not None and head.kind in ("fluid", "adhesive"))
    return last in _COUNTABLE or not mass
