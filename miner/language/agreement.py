"""Counts that do not agree with their noun ("five bolt"), remarks that split a group ("five of these are silver")."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache

from miner.language.annotations import Annotations, Number
from miner.language.numbers import ANY, value_of
from miner.lexicon import Lexicon
from miner.lexicon.inflection import plural, singular
from miner.lexicon.lookup import Lookup, lookup
from miner.model.finding import Evidence
from miner.model.observation import Observation

_COUNTED = re.compile(r"[ZANxQ,]*(?P<nouns>[nHF]*)[HFn](?=[.,CWpoftrDSXEITRJ-]|$)")
"""What follows a count: sizes and adjectives, nouns, the last of them before the end of the phrase."""

_FIRST_PART = rf"\b(?P<a>{ANY}) (?:of (?:these|those|them|the)\b(?: \w+)?|are|have)\b"
_BETWEEN = r"[^.]*?(?:,|\band\b|\bwhile\b|\bbut\b)[^.]*?(?:the )?(?:other|remaining|rest)?\s*"
_SECOND_PART = rf"(?P<b>{ANY}) (?:of (?:them|these|those) )?(?:are|have|is|has|being|in|go|from)\b"
_SUBSET = re.compile(_FIRST_PART + _BETWEEN + _SECOND_PART)

_ANNOUNCES = r"\b(?:that's|that is|that makes|makes|so that's|which makes|there should be|you should have|giving) "
_TOTAL = re.compile(rf"{_ANNOUNCES}(?P<n>{ANY}) (?P<kind>[a-z]+) (?:in total|in all|altogether|all told|total)\b")


@dataclass(frozen=True, slots=True)
class _Words:
    units: frozenset[str]
    labels: frozenset[str]
    single_out: frozenset[str]
    attributes: frozenset[str]
    index: Lookup


@lru_cache(maxsize=8)
def _words(lexicon: Lexicon) -> _Words:
    index = lookup(lexicon)
    return _Words(
        index.words("measure_noun"),
        index.words("before_label"),
        index.words("single_out"),
        index.words("counted_attribute"),
        index,
    )


def observe_agreement(known: Annotations, lexicon: Lexicon) -> None:
    """Adds number-disagreement, subset and announced-total observations; not in notes, which leave plurals out."""
    if known.register != "notes":
        known.observations += _disagreements(known, _words(lexicon))
    known.observations += _subsets(known)


def _disagreements(known: Annotations, words: _Words) -> Iterator[Observation]:
    for number in known.numbers:
        if not _counts(known, number, words):
            continue
        head = _head(known, number.end, words)
        if head is None or not known.dropped.isdisjoint(range(number.end, head + 1)):
            continue
        noun = known.lower[head]
        if _agrees_freely(noun, words) or not _disagrees(known, number, noun, words):
            continue
        wanted = singular(noun) if number.value == 1 else plural(noun)
        said = {"count": known.words(number.start, number.end), "noun": noun, "wanted": wanted}
        yield Observation("number-disagreement", (_place(known, number.start),), said)


def _counts(known: Annotations, number: Number, words: _Words) -> bool:
    """Whether a number may count the noun after it: a whole one, meant, that names and divides nothing."""
    start = number.start
    if number.times or start in known.dropped or number.value != int(number.value) or number.end >= len(known.tags):
        return False
    if known.tags[number.end] == "-":  # "the two-wire lead"
        return False
    return not start or (known.lower[start - 1] not in words.labels and known.tags[start - 1] not in "NZdnH")


def _head(known: Annotations, start: int, words: _Words) -> int | None:
    """The noun that a count belongs to: the last of the run of nouns after sizes and adjectives."""
    tags = known.tags
    match = _COUNTED.match(tags, start)
    if not match:
        return None
    name = known.words(match.start("nouns"), match.end())
    if match["nouns"] and not (words.index.head(name) or words.index.fastener(name)):
        return None  # "the four bolt flange": the count belongs to the inner noun
    if match["nouns"] and tags[match.end() - 1] != "F" and known.lower[start] in words.attributes:
        return None  # "the two wire lead"
    inner = tags[start : match.end() - 1]
    return None if "N" in inner or inner.count(",") > 1 else match.end() - 1


def _agrees_freely(noun: str, words: _Words) -> bool:
    """Whether nothing can be told from the noun: a unit, a noun without a plural, no part and no fastener."""
    if singular(noun) in words.units or noun in words.units or not noun.isalpha() or plural(noun) == noun:
        return True
    return not (words.index.head(noun) or words.index.fastener(noun))


def _disagrees(known: Annotations, number: Number, noun: str, words: _Words) -> bool:
    one, many = number.value == 1, singular(noun) != noun
    if one != many:
        return False
    if not one:
        return True
    start = number.start
    before = known.lower[start - 1] if start else ""
    if "or" in known.lower[max(start - 3, 0) : start]:  # "two or one screws"
        return False
    return before not in words.single_out or known.tags[start] == "N"


def evidence(known: Annotations, start: int, end: int) -> Evidence:
    """A range of tokens as a place in the recording, with the words as transcribed."""
    text = known.cased[known.places[start] : known.places[end - 1] + len(known.forms[end - 1])].strip()
    return Evidence(round(known.starts[start], 3), round(known.ends[end - 1], 3), text)


def _place(known: Annotations, token: int) -> Evidence:
    sentence = known.sentence_of(token)
    return evidence(known, sentence.start, sentence.end) if sentence else evidence(known, token, token + 1)


def _subsets(known: Annotations) -> Iterator[Observation]:
    for sentence in known.sentences:
        text = known.words(sentence.start, sentence.end)
        subset, total = _SUBSET.search(text), _TOTAL.search(text)
        if not subset and not total:
            continue
        place = evidence(known, sentence.start, sentence.end)
        if subset:
            counts = f"{value_of(subset['a']):g} {value_of(subset['b']):g}"
            yield Observation("subset", (place,), {"counts": counts})
        if total:
            said = {"count": f"{value_of(total['n']):g}", "kind": singular(total["kind"])}
            yield Observation("announced-total", (place,), said)
