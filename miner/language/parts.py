"""Noun phrases that name parts: lexicon heads with their modifiers, and unknown nouns in the places of a part."""

from __future__ import annotations

import re
from functools import lru_cache

from spacy.tokens import Doc

from miner.language.annotations import Annotations, Phrase, annotations_of
from miner.lexicon import Lexicon
from miner.lexicon.inflection import singular
from miner.lexicon.lookup import lookup

_PHRASE = re.compile(
    r"(?:D|Q|N|A|Z|(?<=[DANZQ])[GE](?=[AnHFZN]))*(?:n|H|F|(?<=[nHFA])[GE](?=[nHF])|(?<=[nH])-(?=[nH]))*[nHF]"
)
_OF = re.compile(r"o")


@lru_cache(maxsize=8)
def _classes(lexicon: Lexicon) -> tuple[frozenset[str], frozenset[str], frozenset[str]]:
    index = lookup(lexicon)
    return index.words("name_adjective"), index.words("place"), frozenset(t.rsplit(" ", 1)[-1] for t in index.heads)


def find_phrases(doc: Doc, lexicon: Lexicon) -> list[Phrase]:
    """The noun phrases of a Doc, in order; tags, numbers and measures must have been set."""
    return phrases_in(annotations_of(doc), lexicon)


def phrases_in(known: Annotations, lexicon: Lexicon) -> list[Phrase]:
    """As find_phrases, from annotations. "The lead of the motor" is one phrase named by both nouns."""
    idle, places, heads = _classes(lexicon)
    tags, lower = known.tags, known.lower
    breaks = known.breaks
    counts = {number.end: number for number in known.numbers}
    counts.update({number.start: number for number in known.numbers})
    found: list[Phrase] = []
    for match in _PHRASE.finditer(tags):
        start, end = match.span()
        for edge in range(start + 1, end) if breaks else ():
            if edge in breaks:  # two notes meet here
                _append(found, start, edge, known, idle, places, heads)
                start = edge
        _append(found, start, end, known, idle, places, heads)
    return _join_of(found, tags, lower)


def _append(
    found: list[Phrase],
    start: int,
    end: int,
    known: Annotations,
    idle: frozenset[str],
    places: frozenset[str],
    heads: frozenset[str],
) -> None:
    tags, lower = known.tags, known.lower
    while end > start and tags[end - 1] not in "nHF":
        end -= 1
    if end <= start:
        return
    kept, count, naming = [], None, False
    for i in range(start, end):
        tag, word = tags[i], lower[i]
        if tag in "DQ" or (not naming and word in idle and i < end - 1):
            continue
        if tag == "N":
            count = i if count is None else count
            continue
        if tag == "Z":
            continue
        naming = True
        kept.append(word)
    if not kept:
        return
    head = lower[end - 1]
    value = None
    if count is not None:
        value = (
            next((int(n.value) for n in known.numbers if n.start <= count < n.end), None)
            if len(known.numbers) < 50
            else _count_at(known, count)
        )
    plural = head not in ("chassis", "lens") and (singular(head) != head)
    place = head in places and (len(kept) == 1 or all(w in places or w in idle or w in ("left", "right") for w in kept))
    found.append(Phrase(start, end, end - 1, " ".join(kept), plural, head in heads, place, value))


def _count_at(known: Annotations, position: int) -> int | None:
    from bisect import bisect_right

    at = bisect_right(known.numbers, position, key=lambda n: n.start) - 1
    return int(known.numbers[at].value) if at >= 0 else None


def _join_of(phrases: list[Phrase], tags: str, lower: list[str]) -> list[Phrase]:
    """Joins "lead of the motor"; a measure of amount ("pair of pliers", "set of screws") takes the second name."""
    joined: list[Phrase] = []
    for phrase in phrases:
        before = joined[-1] if joined else None
        if before and phrase.start == before.end + 1 and tags[before.end] == "o":
            first = before.name.rsplit(" ", 1)[-1]
            if first in (
                "pair",
                "set",
                "couple",
                "bit",
                "piece",
                "lot",
                "kind",
                "sort",
                "bunch",
                "drop",
                "dab",
                "length",
            ):
                joined[-1] = Phrase(
                    before.start,
                    phrase.end,
                    phrase.head,
                    phrase.name,
                    phrase.plural,
                    phrase.known,
                    phrase.place,
                    before.count,
                )
                continue
            linker = "of the" if tags[phrase.start] == "D" else "of"
            name = f"{before.name} {linker} {phrase.name}"
            joined[-1] = Phrase(
                before.start, phrase.end, before.head, name, before.plural, before.known, before.place, before.count
            )
            continue
        joined.append(phrase)
    return joined
