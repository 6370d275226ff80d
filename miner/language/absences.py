"""Words that say that parts are out: "the hood off", "hood and drum must be out", "with the rear panel removed".

Such a statement is a list of names and a word for being out. What stands between the two and around them tells how it
is meant: as something required, as a state in which the work begins, or as the work itself, which is none.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from typing import Literal

from miner.language.annotations import Annotations, Phrase
from miner.model.naming import SIDES

Stated = Literal["required", "lead", "state", "bare"]

_AWAY = frozenset("off out away removed gone absent detached dismounted demounted aside down".split())
_VAGUE = frozenset(("down",))
"""Words for being out that also tell where a thing stands: "the lens cover is down", "the forks are down"."""
_DONE = frozenset("removed detached dismounted demounted".split())
_TAKEN = frozenset("taken lifted pulled put set moved stripped laid slid come came got left brought".split())
_ASSUMED = frozenset("presumed assumed supposed understood".split())
_AMONG = _TAKEN | _ASSUMED | {"having"}
_MUST = frozenset("must shall should need needs needed want wants ought has have had got gotta".split())
_MUST |= {"needing", "wanting", "require", "requires"}
_WITH = frozenset(("with", "w/", "having"))
_SINCE = frozenset("once while after when since whilst".split())
_IS = frozenset(("is", "are", "'s", "was", "were", "'re", "be", "been"))
_AGAIN = frozenset("they they're these those it's that's".split())
"""Pronouns that take up a list: "hood, drum and lid, they're all out"."""
_ALL = frozenset(("all", "both", "already"))
_SURE = frozenset("sure ensure check confirm verify".split())
_PARTLY = frozenset("half partly partway halfway nearly almost".split())
_LEFT = frozenset(("left", "kept"))
_CARRIES = frozenset("so as likewise ditto same plus neither".split())
_CARRIED = frozenset("is are does do has have must shall should will for goes with 's".split())
_MEANS = frozenset("means mean assuming assume assumes presuming presume presumes supposing".split())
_MARKS = frozenset("already still obviously again beforehand this that these before advance same usual".split())
_TAIL_NOUNS = frozenset("advance stage point job time section procedure".split())
_TAILS = frozenset(
    "for at by already still obviously again beforehand first now too before as in anyway remember same".split()
)
_OPENING = re.compile(r"[TCfRrxOXWpdeID,.\-]{0,9}")
"""Tags of the words with which a sentence opens before it says anything: "so that's with"."""
_OPENED = re.compile("[Tf,]*")
"""Tags of words like "so" and "right", which tell nothing."""
_BETWEEN = "RTXQftE"
"""Tags of the words between the names and the word for being out: "have both already been taken out"."""


@dataclass(frozen=True, slots=True)
class Absence:
    """A statement that parts are out: its tokens `start:end`, the names in order, and how it is meant.

    `required` parts must be out or are needed out; a `lead` opens the work ("with the hood off, ..."); a `state` is
    told with "is" or a word like "already"; `bare` ones may as well be work ("hood off"). `marked` statements have
    words that only fit a state: "still", "for this". A `vague` one may only tell where a part stands ("down").
    """

    start: int
    end: int
    names: tuple[str, ...]
    stated: Stated
    marked: bool
    vague: bool = False


def absences(known: Annotations, start: int, end: int) -> list[Absence]:
    """All statements of parts that are out in a range of tokens, in order."""
    away = [at for at in range(start + 1, end) if known.lower[at] in _AWAY]
    if not away:
        return []
    phrases = {phrase.end: phrase for phrase in known.phrases_between(start, end)}
    found: list[Absence] = []
    refused = start - 1  # the end of the last such word that told of work
    for at in away:
        begin = found[-1].end if found else start
        absence = _absence(known, phrases, begin, at, end)
        if absence and absence.stated == "bare":
            if refused >= begin and _listed(known, refused, absence.start):
                absence = None  # "pull the strap off and the lid off"
            elif found and _listed(known, found[-1].end, absence.start):
                absence = replace(absence, stated=found[-1].stated, marked=absence.marked or found[-1].marked)
        if absence:
            found.append(absence)
            echo = _echo(known, phrases, absence, end)
            found += [echo] if echo else []
        else:
            refused = at + 1
    return found


def leading(known: Annotations, start: int, end: int) -> list[Absence]:
    """The statements with which a range of tokens opens: "with the hood off, and the drum out, tip the unit"."""
    found: list[Absence] = []
    at = start
    for absence in absences(known, start, end):
        if not _OPENING.fullmatch(known.tags, at, absence.start):
            break
        found.append(absence)
        at = absence.end
    return found


def _echo(known: Annotations, phrases: dict[int, Phrase], told: Absence, end: int) -> Absence | None:
    """The names to which the words of a statement are carried over: "hood off, and the drum too", "so is the drum"."""
    lower, at = known.lower, told.end
    while at < end and known.tags[at] in ",.CR" and lower[at] not in _CARRIES:
        at += 1
    carried = at < end and lower[at] in _CARRIES
    if carried:
        at += 1
        while at < end and (known.tags[at] in "Xeo" or lower[at] in _CARRIED):
            at += 1
    last = next((to for to in range(at + 1, min(at + 6, end + 1)) if to in phrases and phrases[to].start == at), None)
    if last is None or phrases[last].place:
        return None
    too = lower[last : last + 1][:1] in (["too"], ["also"], ["likewise"]) or lower[last : last + 2] == ["as", "well"]
    closed = last >= end or known.tags[last] in ",.TRf" or too
    if not (carried or too) or not closed:
        return None
    return replace(told, start=at, end=last + too, names=(phrases[last].name,))


def _listed(known: Annotations, start: int, end: int) -> bool:
    """Whether nothing but commas and "and" stands in a range of tokens."""
    return end - start < 4 and all(tag in ",CfT" for tag in known.tags[start:end])


def _absence(known: Annotations, phrases: dict[int, Phrase], start: int, at: int, end: int) -> Absence | None:
    """The statement whose word for being out is a token; None if the word tells of work, or of nothing."""
    lower, tags = known.lower, known.tags
    verb = at
    while verb > start and verb not in phrases and (tags[verb - 1] in _BETWEEN or lower[verb - 1] in _AMONG):
        verb -= 1
    verb = _list_end(known, phrases, start, verb)
    between = lower[verb:at]
    names, first = _names(known, phrases, start, verb)
    if not names or any(_is_other(lower[i], tags[i]) for i in range(verb, at)):
        return None
    stated = _stated(known, between, first, start)
    done = lower[at] in _DONE or not _TAKEN.isdisjoint(between)
    listed = len(names) > 1 and not between
    if stated is None or (done and not listed and not _is_over(between, stated)):
        return None
    after, tail = _after(known, at, end)
    if lower[at] in _VAGUE and (stated == "bare" or between[:1] == ["pulled"]):
        return None  # "lever down"
    if lower[at] == "gone" and _turns(known, after, end):
        return None
    kept = not _MARKS.isdisjoint(between)
    if stated == "bare" and not kept and after < end and _goes_on(known, after, tail):
        return None
    around = [*lower[max(start, first - 3) : first], *between, *lower[after : tail + 1]]
    marked = not _MARKS.isdisjoint(around)
    return Absence(first, tail, names, stated, marked, vague=lower[at] in _VAGUE and _TAKEN.isdisjoint(between))


def _turns(known: Annotations, after: int, end: int) -> bool:
    """Whether "gone" tells how a thing has become: "the holder's gone brown", "gone a bit stiff"."""
    return after < end and known.tags[after] not in ",.CTXWIe" and known.lower[after] not in _TAILS


def _list_end(known: Annotations, phrases: dict[int, Phrase], start: int, verb: int) -> int:
    """Where a list of names ends that is taken up: "hood, drum: out", "hood, drum, they're out" or "..., all out"."""
    at, before = verb, known.lower[verb - 1]
    if verb - 1 > start and (before == ":" or before in _AGAIN or (before == "," and known.lower[verb] in _ALL)):
        at -= 1
        while at > start and known.tags[at - 1] == ",":
            at -= 1
    return at if at in phrases else verb


def _is_other(word: str, tag: str) -> bool:
    """Whether a word between names and word for being out tells of something else: "isn't off", "switched off"."""
    return word.endswith("n't") or word in _PARTLY or (tag == "E" and word not in _AMONG and word not in _DONE)


def _goes_on(known: Annotations, after: int, tail: int) -> bool:
    """Whether what follows makes "the lever off" a piece of work: "the shaft"; but "hood off drum off" is a list."""
    tag = known.tags[after]
    if tail > after:
        return False
    if tag in "DdHnFAN":
        return _AWAY.isdisjoint(known.lower[after : after + 4])
    return tag in "op"


def _is_over(between: list[str], stated: Stated) -> bool:
    """Whether "removed" is a state here and not what is done now: "has been removed", "with the hood removed"."""
    return stated in ("required", "lead") or "been" in between or bool(_MARKS.intersection(between))


def _stated(known: Annotations, between: list[str], first: int, start: int) -> Stated | None:
    """How a statement is meant, by the words before the word for being out, and the word before the names."""
    before = known.lower[first - 1] if first > start else ""
    if before in _WITH or "having" in between:
        return None if first - 2 >= start and known.tags[first - 2] == "E" else "lead"  # "wetted with oil"
    if before in _MEANS:
        return "required"
    if _MUST.intersection(between) or _ASSUMED.intersection(between) or ("be" in between and "to" in between):
        return "required"
    copula = any(word in _IS or word.endswith(("'re", "'s")) for word in between)
    if copula and not _SURE.isdisjoint(known.lower[max(start, first - 3) : first]):
        return "required"
    if before in _SINCE and copula:
        return "lead"
    if copula:
        return "state"
    at = first - 1
    while at > start and known.tags[at] in "RfQ":
        at -= 1
    tag = known.tags[at] if at >= start else "."
    if tag in "Vpot" or tag in "SGEJ":
        return None
    if at > start and known.lower[at] in _LEFT and known.lower[at - 1].endswith(("'ve", "have", "has", "had", "'d")):
        return "required"  # "i've left the hood off"
    if at >= start and (known.lower[at] in _MUST or known.lower[at].endswith(("'ve", "'d"))):
        return None if at > start and known.tags[at - 1] == "J" else "required"
    return "bare" if tag in ".,CTRWfOX-" or known.lower[at] in _AWAY else None


def _names(known: Annotations, phrases: dict[int, Phrase], start: int, end: int) -> tuple[tuple[str, ...], int]:
    """The names of the list that ends before a token, in order, and the token where it begins."""
    names: list[str] = []
    first = at = end
    lone = False  # the name told first is a fastener's and nothing more
    while at > start:
        phrase = phrases.get(at)
        if names and at < first and (shared := _shared(known.lower[at - 1], names[-1])):
            names.append(shared)
            first = at = at - 1
            joined = False
        elif (
            phrase is not None
            and phrase.start >= start
            and phrase.name not in _SURE
            and not (names and _governed(known, phrase.start - 1))
        ):
            first = at = _start(known, phrase, start)
            fastener = known.tags[phrase.head] == "F"
            told = phrase.name
            if known.lower[at] in _LEFT and known.tags[at + 1] == "D":
                first = at = at + 1
                told = told.removeprefix("left ")
            if not phrase.place and not (fastener and phrase.plural):
                names.append(told if at >= phrase.start else f"{known.lower[at]} {told}")
                lone = fastener and " " not in phrase.name
            joined = known.tags[first] in "DQ" or first in known.commas
        elif names and at < first and known.tags[at - 1] == "V" and _OPENED.fullmatch(known.tags, start, at - 1):
            names.append(known.lower[at - 1])  # "seat and shroud must be off": no verb
            first = at = at - 1
            break
        else:
            break
        while at > start and (known.tags[at - 1] in ",CfR" or known.lower[at - 1] in ("plus", "also", ":")):
            at -= 1
        if at == first and not joined:
            break
    return () if lone and len(names) == 1 else tuple(reversed(names)), first


def _start(known: Annotations, phrase: Phrase, start: int) -> int:
    """Where a name begins; after a comma "back" belongs to it: "lid off, back panel off"."""
    at = phrase.start - 1
    sided = at >= start and known.tags[at] == "r" and known.lower[at] in SIDES and known.tags[phrase.start] != "D"
    return at if sided and (at == start or known.tags[at - 1] in ",.CT") else phrase.start


def _shared(word: str, name: str) -> str:
    """The name that a lone side shares with the next one: "top" of "top and front panel" is the top panel."""
    side, _, rest = name.partition(" ")
    return f"{word} {rest}" if word in SIDES and side in SIDES and rest else ""


def _governed(known: Annotations, at: int) -> bool:
    """Whether the token before a name makes it no part of a list: "on its nose and the hood off"."""
    lower = known.lower[at]
    return (known.tags[at] in "po" and lower not in _WITH) or lower in _IS or lower == "as"


def _after(known: Annotations, at: int, end: int) -> tuple[int, int]:
    """Where the statement ends after its word for being out, and where a tail like "for this one too" ends."""
    after = at + 1
    if known.lower[after : after + 3] in (["of", "the", "way"], ["of", "the", "road"]):
        after += 3
    elif known.lower[after : after + 1] == ["of"] and known.lower[after + 1 : after + 2][:1] in (["there"], ["here"]):
        after += 2
    obviously = after + 1 < end and known.tags[after] == "," and known.lower[after + 1] in _MARKS
    tail = after + obviously  # "hood off, obviously"
    while tail < end and tail - after < 6 and _in_tail(known, after, tail):
        tail += 1
    return after, tail


def _in_tail(known: Annotations, after: int, at: int) -> bool:
    """Whether a token still belongs to the words after "off": "for this one too", "in advance"."""
    word, tag = known.lower[at], known.tags[at]
    return word in _TAILS or (at > after and (tag in "RTpdDOfXWA" or word in _TAIL_NOUNS))
