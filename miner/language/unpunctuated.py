"""Where sentences begin in words without punctuation.

The cuts come from the words of discourse ("okay so", "next", "and then"), from a subject with its verb after a
finished phrase, from a bare imperative, and from silence.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass

from miner.language.annotations import Annotations
from miner.language.discourse import Discourse, after_openers

_SUBJECT = re.compile(
    r"(?:I|e|O)[RJ]*[XSVEI]|I[RT]*[VXEJ]|e[DNQnHFAO]|O[RJT]*[XI]|D?[QNAZnHFGE]*[nHF]R*(?:S(?![nHF])|XR*[Er])"
)
_NOUN_AND_VERB = re.compile(r"D[QNAZnHF]*[nHF]R*S")
_PUT_BACK = re.compile(r"when (?:it|that|this|they|you|the \w+) (?:goes|go|put|fit|refit|install|come)")
_LISTING = re.compile(r"(?:D[AN]*[nH]+){2,}$")
_ANNOUNCED = re.compile(r"T+D?[AQ]*[nH]{1,4}$")
_FINISHED = frozenset("nHFrRONZASEQ")
"""Tags after which a phrase may be finished."""

_OPENED_BY = {  # word: what follows it where it opens a sentence after a finished phrase
    "same": ("story", "deal", "again", "drill"),
    "if": ("it", "you", "yours", "there's", "they", "you've", "the"),
    "for": ("this", "that", "these"),
}
_AFTER_NEXT = ("up", "is", "thing", "one", "job", "comes")
_CAN_STAND_FIRST = frozenset("VIOeDGWJQNXpt")
_NO_CUT = 0


@dataclass(slots=True)
class _Talk:
    """The words, their tags, and where the sentence that is being read began."""

    tags: str
    lower: list[str]
    words: Discourse
    begin: int = 0


def unpunctuated_cuts(known: Annotations, words: Discourse) -> list[int]:
    """The tokens at which sentences begin, without the first; tags must have been set."""
    tags, pauses = known.tags, known.pauses
    talk = _Talk(tags, known.lower, words)
    found: list[int] = []
    for i in range(1, len(tags) - 1):
        if i - talk.begin < 2:
            continue
        before = tags[i - 2] if tags[i - 1] == "f" else tags[i - 1]
        silent = i in pauses and before in _FINISHED
        cut = i if silent or _after_section(talk, i) else _cut(talk, i, before)
        if cut:
            found.append(cut)
            talk.begin = cut
    return found


def _after_section(talk: _Talk, i: int) -> bool:
    """The end of "section four hinge replacement"."""
    words = talk.words
    if talk.lower[i - 1] not in words.job_nouns or talk.tags[i] == "o":
        return False
    return not words.numbered.isdisjoint(talk.lower[talk.begin : min(talk.begin + 3, i)])


def _cut(talk: _Talk, i: int, before: str) -> int:
    """Where a sentence begins at or just before a token, as the first rule tells that has an opinion."""
    for rule in _RULES.get(talk.tags[i], _ANYWHERE):
        verdict = rule(talk, i, before)
        if verdict is not None:
            return verdict
    return _NO_CUT


def _starter(talk: _Talk, i: int, before: str) -> int | None:
    """A word that opens ("okay", "so", "next"), with the "and" before them."""
    word, words = talk.lower[i], talk.words
    if word not in words.starters:
        return None
    if before in "TDXpotWI" and not (word == "so" and _so_opens(talk, i, before)):
        return _NO_CUT
    if (before == "C" and i - 1 == talk.begin) or not _soft_opens(talk, i):
        return _NO_CUT
    return i - 1 if before == "C" else i


def _so_opens(talk: _Talk, i: int, before: str) -> bool:
    following = talk.lower[i + 1]
    return talk.tags[i + 1] == "e" or following in talk.words.contractions or before == "W" or following == "first"


def _soft_opens(talk: _Talk, i: int) -> bool:
    """A word like "right" or "now" opens an utterance only where something follows that can stand first."""
    if talk.lower[i] not in talk.words.soft_starters:
        return True
    first = after_openers(talk.tags, i)
    if talk.lower[i] == "right" and talk.tags[i + 1] in "nHF":
        return False
    return first < len(talk.tags) and talk.tags[first] in _CAN_STAND_FIRST


def _subject(talk: _Talk, i: int, before: str) -> int | None:
    """A subject with its verb after a finished phrase."""
    if before not in _FINISHED:
        return None
    opens = talk.lower[i] in talk.words.contractions or _SUBJECT.match(talk.tags, i)
    return i if opens and not _relative(talk, i) else _NO_CUT


def _relative(talk: _Talk, i: int) -> bool:
    """A subject inside a relative or reported clause: "the one you took out", "see where it goes"."""
    tags, word, words = talk.tags, talk.lower[i], talk.words
    before = tags[i - 1]
    if before in "WV" or (before == "X" and word not in words.contractions) or talk.lower[i - 1] in words.reporting:
        return True
    if tags[i] == "I" and word in ("you", "we", "i", "they", "you've", "we've") and "W" in tags[max(i - 4, 0) : i]:
        return True
    return tags[i] == "O" and before in "VpotGE"


def _instruction_after_and(talk: _Talk, i: int, before: str) -> int | None:
    """The word "and" with an instruction, after an utterance that has a subject or forbids something."""
    tags = talk.tags
    if talk.lower[i] != "and" or tags[i + 1] != "V" or tags[i + 2 : i + 3] not in ("D", "O", "Q", "N"):
        return None
    core = after_openers(tags, talk.begin)
    told = core < i and (tags[core] in "IeOJ" or (tags[core] in "DnHAQN" and "X" in tags[core:i]))
    return i if told else None


def _subject_after_and(talk: _Talk, i: int, before: str) -> int | None:
    """The word "and" or "but" with a subject and its verb, unless they go on with a list."""
    tags = talk.tags
    if talk.lower[i] not in ("and", "but") or tags[i + 1] not in "DIeOTR" or before not in _FINISHED:
        return None
    if _LISTING.search(tags[max(i - 12, 0) : i]):
        return _NO_CUT
    first = after_openers(tags, i)
    subject = _SUBJECT.match(tags, first) or talk.lower[min(first, len(tags) - 1)] in talk.words.contractions
    return i if subject else _NO_CUT


def _imperative(talk: _Talk, i: int, before: str) -> int | None:
    """A verb with its object after a finished phrase, unless it hangs on something before it."""
    tags = talk.tags
    if before not in "nHFrRNZOAE" or (before == "R" and tags[i - 2] in "CTIXt"):
        return None
    after, second = tags[i + 1], tags[i + 2 : i + 3]
    governs = after in "DOQNd" or (before == "r" and after == "p") or (after == "r" and second in ("D", "O", "Q", "N"))
    return i if governs and not _governed(tags, i) else None


def _governed(tags: str, i: int) -> bool:
    """A verb that hangs on "to", an auxiliary or a subject just before it."""
    at = i - 1
    while at > 0 and tags[at] in "RJ":
        if tags[at] == "J":
            return True
        at -= 1
    return tags[at] in "tXIWJ" or (tags[at] == "C" and "t" in tags[max(at - 4, 0) : at])


def _noun_with_verb(talk: _Talk, i: int, before: str) -> int | None:
    """A definite noun with its verb after a particle or adverb."""
    if before not in "rRnHF" or talk.lower[i] in ("a", "an", "no", "some", "any"):
        return None
    opens = before in "rR" and _NOUN_AND_VERB.match(talk.tags, i) and not _governed(talk.tags, i)
    return i if opens else _NO_CUT


def _next_or_same(talk: _Talk, i: int, before: str) -> int | None:
    """Set beginnings: "next up", "same again", "if yours ...", "for this", "when it goes back"."""
    word, following = talk.lower[i], talk.lower[i + 1]
    if word == "for" and following in _OPENED_BY["for"] and before == "C":
        return i - 1
    if word == "heads" and following == "up":
        return i - 1 if before == "C" else i
    if word == "next":
        return i if following in _AFTER_NEXT and before not in "DTC" else None
    if before in _FINISHED:
        if word in _OPENED_BY:
            return i if following in _OPENED_BY[word] else None
        if word == "when":
            return i if _PUT_BACK.match(" ".join(talk.lower[i : i + 4])) else None
    return None


def _label(talk: _Talk, i: int, before: str) -> int | None:
    """A word that announces: "section four", "warning the edge ...", "to install the pump ..."."""
    word, words = talk.lower[i], talk.words
    if before in "DAdpoW":
        return None
    if word in words.numbered and talk.tags[i + 1] == "N" and talk.lower[i + 1] not in ("of", "off"):
        return i
    if word in words.signals and talk.tags[i + 1] not in "orX":
        return i
    if word == "to" and before in _FINISHED and talk.lower[i + 1] in words.fits:
        return i
    return None


def _forbidding(talk: _Talk, i: int, before: str) -> int | None:
    """A word that forbids ("don't", "never"), with the "and" before them."""
    if talk.lower[i] not in ("don't", "never", "dont"):
        return None
    return i - 1 if before == "C" else i if before in _FINISHED else None


def _next_item(talk: _Talk, i: int, before: str) -> int | None:
    """The announcement of an item: "the next thing", "our last job"."""
    lower, words = talk.lower, talk.words
    item = lower[i + 1] in words.item_order and lower[min(i + 2, len(lower) - 1)] in words.items
    return i if item and before not in "otDA" else None


def _contraction_after_again(talk: _Talk, i: int, before: str) -> int | None:
    again = before == "T" and talk.lower[i - 1] in ("again", "too")
    return i if again and talk.lower[i] in talk.words.contractions else None


def _after_announcement(talk: _Talk, i: int, before: str) -> int | None:
    """What follows a bare heading: "okay front cover | the two screws ..."."""
    return i if before in "nH" and _ANNOUNCED.search(talk.tags[max(i - 8, 0) : i]) else None


_Rule = Callable[[_Talk, int, str], int | None]
_ANYWHERE: tuple[_Rule, ...] = (_next_or_same, _label)
_RULES: dict[str, tuple[_Rule, ...]] = {
    "T": (_starter, _next_or_same, _label),
    "R": (_starter, _next_or_same),
    "A": (_starter, _next_or_same, _after_announcement),
    "I": (_subject, _next_or_same, _contraction_after_again),
    "e": (_subject, _next_or_same, _contraction_after_again),
    "O": (_subject, _next_or_same, _contraction_after_again),
    "C": (_instruction_after_and, _subject_after_and, _next_or_same),
    "V": (_label, _imperative, _next_or_same),
    "D": (_noun_with_verb, _next_or_same, _next_item, _after_announcement),
    "J": (_next_or_same, _forbidding),
}
"""The rules for a token of each tag: where a sentence begins, 0 for nowhere, None for no opinion."""
