"""Words that say that parts are out: "the hood off", "hood and drum must be out", "with the rear panel removed".

Such a statement is a list of names and a word for being out. What stands between the two and around them tells how it
is meant: as something required, as a state in which the work begins, or as the work itself, which is none.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from miner.language.annotations import Annotations, Phrase

Stated = Literal["required", "lead", "state", "bare"]

_AWAY = frozenset("off out away removed gone absent detached dismounted demounted aside".split())
_DONE = frozenset("removed detached dismounted demounted".split())
_TAKEN = frozenset("taken lifted pulled put set moved stripped laid slid come came got".split())
_MUST = frozenset(
    "must shall should need needs needed want wants ought has have had got gotta requires require".split()
)
_WITH = frozenset(("with", "w/", "having"))
_SINCE = frozenset("once while after when since now-that whilst assuming assume means mean".split())
_MARKS = frozenset("already still obviously again beforehand".split())
_TAILS = frozenset(
    "for at by already still obviously again beforehand first now too before as in anyway remember same".split()
)
_BETWEEN = "RTXQftE"
"""Tags of the words between the names and the word for being out: "have both already been taken out"."""


@dataclass(frozen=True, slots=True)
class Absence:
    """A statement that parts are out: its tokens `start:end`, the names in order, and how it is meant.

    `required` parts must be out or are needed out; a `lead` opens the work ("with the hood off, ..."); a `state` is
    told with "is" or a word like "already"; `bare` ones may as well be work ("hood off"). `marked` statements have
    words that only fit a state: "still", "for this".
    """

    start: int
    end: int
    names: tuple[str, ...]
    stated: Stated
    marked: bool


def absences(known: Annotations, start: int, end: int) -> list[Absence]:
    """All statements of parts that are out in a range of tokens, in order."""
    low = [at for at in range(start + 1, end) if known.lower[at] in _AWAY]
    if not low:
        return []
    phrases = {phrase.end: phrase for phrase in known.phrases_between(start, end)}
    found: list[Absence] = []
    for at in low:
        begin = found[-1].end if found else start
        absence = _absence(known, phrases, begin, at, end)
        if absence:
            found.append(absence)
    return found


def _absence(known: Annotations, phrases: dict[int, Phrase], start: int, at: int, end: int) -> Absence | None:
    """The statement whose word for being out is a token; None if the word tells of work, or of nothing."""
    lower, tags = known.lower, known.tags
    verb = at
    while verb > start and verb not in phrases and (tags[verb - 1] in _BETWEEN or lower[verb - 1] in _TAKEN):
        verb -= 1
    between = lower[verb:at]
    names, first = _names(known, phrases, start, verb)
    if not names or any(tags[i] == "E" and lower[i] not in _TAKEN and lower[i] not in _DONE for i in range(verb, at)):
        return None
    before = lower[first - 1] if first > start else ""
    stated = _stated(known, between, before, first, start)
    done = lower[at] in _DONE or any(word in _TAKEN for word in between)
    if stated is None or (done and not _is_over(between, stated)):
        return None
    after, tail = _after(known, at, end)
    marked = bool(_MARKS.intersection(between) or _MARKS.intersection(lower[after:tail]) or lower[after:tail])
    if after < end and stated == "bare" and tags[after] in "DdHnFAN" and lower[after] not in _TAILS:
        stated = "bare" if any(word in _AWAY for word in lower[after : after + 4]) else None  # type: ignore[assignment]
    if stated is None or (after < end and tags[after] in "op" and tail == after and stated == "bare"):
        return None
    return Absence(first, max(after, tail), names, stated, marked)


def _is_over(between: list[str], stated: Stated) -> bool:
    """Whether "removed" is a state here and not what is done now: "has been removed", "with the hood removed"."""
    return stated in ("required", "lead") or "been" in between or bool(_MARKS.intersection(between))


def _stated(known: Annotations, between: list[str], before: str, first: int, start: int) -> Stated | None:
    """How a statement is meant, by the words before the word for being out, and the word before the names."""
    if before in _WITH:
        return "lead"
    if _MUST.intersection(between) or ("be" in between and "to" in between):
        return "required"
    copula = any(word in ("is", "are", "'s", "was", "were", "'re", "be", "been") for word in between)
    if before in _SINCE and copula:
        return "lead"
    if copula:
        return "state"
    at = first - 1
    while at > start and known.tags[at] in "RfQT":
        at -= 1
    tag = known.tags[at] if at >= start else "."
    if tag in "Vpot" or tag in "SGEJ":
        return None
    if known.lower[at] in _MUST or known.lower[at].endswith(("'ve", "'d")):
        return "required"
    return "bare" if tag in ".,CTRWfOX-" or at < start or first == start else None


def _names(known: Annotations, phrases: dict[int, Phrase], start: int, end: int) -> tuple[tuple[str, ...], int]:
    """The names of the list that ends before a token, in order, and the token where it begins."""
    names: list[str] = []
    first = at = end
    while at > start:
        phrase = phrases.get(at)
        if phrase is not None and phrase.start >= start:
            if known.tags[phrase.head] != "F" and not phrase.place:
                names.append(phrase.name)
            first = at = phrase.start
            joined = known.tags[first] in "DQ" or first in known.commas
        elif names and at - 1 == start and known.tags[start] == "V":
            names.append(known.lower[start])  # "seat and shroud must be off": no verb
            first = at = start
            break
        else:
            break
        while at > start and (known.tags[at - 1] in ",CfR" or known.lower[at - 1] in ("plus", "also")):
            at -= 1
        if at == first and not joined:
            break
    return tuple(reversed(names)), first


def _after(known: Annotations, at: int, end: int) -> tuple[int, int]:
    """Where the statement ends after its word for being out, and where a tail like "for this one too" ends."""
    after = at + 1
    if known.lower[after : after + 3] == ["of", "the", "way"]:
        after += 3
    tail = after
    while (
        tail < end
        and tail - after < 6
        and known.tags[tail] in "RTpdDOfXW"
        and (tail > after or known.lower[tail] in _TAILS)
    ):
        tail += 1
    return after, tail
