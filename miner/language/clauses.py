"""What each clause does: its mood, its trade verb, the object, where that comes off, tools, manner and condition."""

from __future__ import annotations

import re
from bisect import bisect_left
from collections.abc import Callable, Sequence
from dataclasses import replace
from typing import Protocol, TypeVar

from miner.language.annotations import Annotations, Clause, Deed, Link, Phrase, Sentence
from miner.language.clause_cuts import clause_starts
from miner.language.conditions import set_conditions
from miner.language.discourse import Discourse, discourse
from miner.language.elliptic import elliptic
from miner.language.moods import mood_of, tells_in_passive
from miner.language.utterances import sentences_in
from miner.lexicon import Lexicon

_OPENERS = re.compile(r"[TCRfx,.\-]*")
_MAIN_AFTER_COMMA = re.compile(r",[TRf]*(?=[VIJ]|D?[QNAZnHF]*[nHFO][RJX]*[SX]|[Oe])")
_MAIN_NO_COMMA = re.compile(r"[nHFrRO](?=V[DONQ])")
_GOES_ON = re.compile(r"[,CQ]+")
_TO_DETACH = ("fasten", "attach", "connect", "close")
"""Effects that a source turns around: "snap the plug off the board"."""
_NO_MANNER = ("really", "fully")


class _Placed(Protocol):
    @property
    def start(self) -> int: ...


T = TypeVar("T", bound=_Placed)


def _between(items: Sequence[T]) -> Callable[[int, int], Sequence[T]]:
    """Gives the items that begin in a range of tokens."""
    starts = [item.start for item in items]
    return lambda start, end: items[bisect_left(starts, start) : bisect_left(starts, end)]


def build_clauses(known: Annotations, lexicon: Lexicon) -> None:
    """Fills `sentences` and `clauses` of the annotations; everything but roles and references must be known."""
    words = discourse(lexicon)
    known.passive = tells_in_passive(known.tags)
    deeds, phrases, tools = _between(known.deeds), _between(known.phrases), _between(known.tools)
    groups, measures = _between(known.groups), _between(known.measures)
    clauses: list[Clause] = []
    sentences: list[Sentence] = []
    for number, (begin, stop) in enumerate(sentences_in(known)):
        first = len(clauses)
        starts = clause_starts(known, begin, stop, words)
        for start, end in zip(starts, [*starts[1:], stop], strict=True):
            clause = _clause(known, start, end, number, list(deeds(start, end)), words)
            clause.groups = tuple(groups(start, end))
            clause.measures = tuple(measures(start, end))
            clause.tools = tuple(tool.name for tool in tools(start, end))
            _fill(known, clause, phrases(start, end), words)
            clauses.append(clause)
        sentences.append(Sentence(begin, stop, first, len(clauses)))
    known.clauses, known.sentences = clauses, sentences
    set_conditions(known, words.conditional)


def _clause(known: Annotations, start: int, end: int, sentence: int, deeds: list[Deed], words: Discourse) -> Clause:
    core = _after_openers(known.tags, start, end)
    while core < end and core in known.dropped:
        core += 1
    link = _link(known, start, core)
    lead_end = _after_lead(known.tags, core, end)
    if lead_end is not None:
        core = _after_openers(known.tags, lead_end, end)
    mood, deed = mood_of(known, core, end, deeds, words)
    if deed is None and mood == "fragment":
        mood, deed = elliptic(known, core, end, words)
    subordinate = core < end and known.tags[core] == "W"
    return Clause(start, end, core, sentence, mood, link, deed, subordinate=subordinate)


def _after_openers(tags: str, start: int, end: int) -> int:
    match = _OPENERS.match(tags, start, end)
    return match.end() if match else start


def _link(known: Annotations, start: int, core: int) -> Link:
    """How a clause hangs on to the one before, by the words between `start` and its main part."""
    words, tag = known.lower[start:core], known.tags[start : start + 1]
    if "then" in words:
        return "then"
    if "so" in words:
        return "so"
    if tag == "C":
        return "and"
    if tag in (",", "-"):
        return "and" if "and" in words else "comma"
    return "sentence"


def _after_lead(tags: str, core: int, end: int) -> int | None:
    """Where the main clause begins after a lead: "while holding the lid, lift ...", "with a pick, ease ..."."""
    if core >= end or tags[core] not in "WpGt" or (tags[core] == "G" and tags.find(",", core, end) < 0):
        return None
    main = _MAIN_AFTER_COMMA.search(tags, core, end)
    if not main and tags[core] == "W":
        main = _MAIN_NO_COMMA.search(tags, core + 2, end)
    return main.end() if main else None


def _fill(known: Annotations, clause: Clause, phrases: Sequence[Phrase], words: Discourse) -> None:
    """Sets object, pronoun, source and manner."""
    deed = clause.deed
    if deed is None:
        clause.objects = tuple(phrases)
        return
    if clause.mood in ("result", "passive"):
        _take_before(known, clause, phrases, deed, words)
    else:
        _take_after(known, clause, phrases, deed, words)
    clause.source = _source(known, phrases, clause.object, deed, words)
    clause.manner = _manner(known, clause)
    if clause.mood == "result" and deed.form == "past":
        clause.mood = "narrated"  # told in the passive: "the leg is pushed home"
    if deed.effect in _TO_DETACH and clause.source is not None:
        clause.deed = replace(deed, effect="detach")


def _take_before(known: Annotations, clause: Clause, phrases: Sequence[Phrase], deed: Deed, words: Discourse) -> None:
    """What comes off is the subject: "the cover lifts off"."""
    before = tuple(phrase for phrase in phrases if clause.core <= phrase.start and phrase.end <= deed.start)
    clause.objects = before
    clause.object = before[0] if before else None
    if not before and known.lower[clause.core] in words.pronouns:
        clause.pronoun = known.lower[clause.core]


def _take_after(known: Annotations, clause: Clause, phrases: Sequence[Phrase], deed: Deed, words: Discourse) -> None:
    """The object follows the verb: "lift the cover and the tray off", "lift it off"."""
    tags, lower, pronouns = known.tags, known.lower, words.pronouns
    at = deed.end
    while at < clause.end and (tags[at] in "rRQfT" or at in known.dropped) and lower[at] not in pronouns:
        at += 1
    if lower[at : at + 1] == ["that"] and tags[at + 1 : at + 2] in ("D", "I"):
        at += 1  # "check that the lid is shut"
    pronoun = lower[at] if at < clause.end and lower[at] in pronouns and tags[at] in "OQd" else None
    objects = _objects(tags, [phrase for phrase in phrases if phrase.start >= at], at)
    at_once = bool(objects) and objects[0].start <= at
    if pronoun and not at_once:
        clause.pronoun = pronoun
    else:
        clause.objects = tuple(objects)
        clause.object = objects[0] if objects else None


def _objects(tags: str, phrases: list[Phrase], at: int) -> list[Phrase]:
    """The phrases of a list that begins at a token."""
    objects: list[Phrase] = []
    for phrase in phrases:
        if not objects and phrase.start > at + 1:
            break
        if objects and not _GOES_ON.fullmatch(tags, objects[-1].end, phrase.start):
            break
        objects.append(phrase)
    return objects


def _manner(known: Annotations, clause: Clause) -> str | None:
    """The first adverb that tells how ("gently")."""
    lower, tags = known.lower, known.tags
    adverbs = (lower[i] for i in range(clause.start, clause.end) if tags[i] == "R" and lower[i].endswith("ly"))
    return next((adverb for adverb in adverbs if adverb not in _NO_MANNER), None)


def _source(
    known: Annotations, phrases: Sequence[Phrase], done_to: Phrase | None, deed: Deed, words: Discourse
) -> Phrase | None:
    """What the object, `done_to`, comes off: "from the tray", "off the shaft", "out of the case"."""
    lower = known.lower
    for phrase in phrases:
        if phrase.start <= deed.start:
            continue
        before = lower[phrase.start - 1]
        prior = lower[phrase.start - 2] if phrase.start >= 2 else ""
        if phrase == done_to:
            continue  # "pry off the ring"
        off = before == "off" and known.tags[phrase.start - 1] in "rp"
        if off or before == "from" or (before == "of" and prior in words.separation):
            return None if phrase.place else phrase
    return None
