"""Counts that do not agree with their noun ("five bolt"), and remarks that split a group ("five of these are silver")."""

from __future__ import annotations

import re

from miner.language.annotations import Annotations
from miner.language.numbers import ANY, value_of
from miner.lexicon import Lexicon
from miner.lexicon.inflection import plural, singular
from miner.lexicon.lookup import lookup
from miner.model.finding import Evidence
from miner.model.observation import Observation

_UNITS = frozenset(
    "mm millimetre millimeter mil minute hour second turn degree volt amp watt way piece pair quarter half dozen hundred "
    "thousand stage speed side part hand kind time step pin core wire pole inch newton metre meter litre gram bar litres "
    "finger lot bit set row couple click".split()
)
_SUBSET = re.compile(
    rf"\b(?P<a>{ANY}) (?:of (?:these|those|them|the)\b(?: \w+)?|are|have)\b[^.]*?(?:,|\band\b|\bwhile\b|\bbut\b)[^.]*?(?:the )?(?:other|remaining|rest)?\s*(?P<b>{ANY}) (?:of (?:them|these|those) )?(?:are|have|is|has|being|in|go|from)\b"
)
_TOTAL = re.compile(
    rf"\b(?:that's|that is|that makes|makes|so that's|which makes|there should be|you should have|giving) (?P<n>{ANY}) (?P<kind>[a-z]+) (?:in total|in all|altogether|all told|total)\b"
)


def observe_agreement(known: Annotations, lexicon: Lexicon) -> None:
    """Adds number-disagreement, subset and announced-total observations; not in notes, which leave plurals out."""
    if known.register != "notes":
        known.observations += _disagreements(known, lexicon)
    known.observations += _subsets(known)


def _disagreements(known: Annotations, lexicon: Lexicon) -> list[Observation]:
    index = lookup(lexicon)
    tags, lower = known.tags, known.lower
    found = []
    for number in known.numbers:
        end = number.end
        if number.times or number.start in known.dropped or number.value != int(number.value) or end >= len(tags):
            continue
        before = lower[number.start - 1] if number.start else ""
        if before in (
            "number",
            "no",
            "size",
            "section",
            "step",
            "part",
            "point",
            "or",
            "to",
            "by",
            "times",
            "x",
            "of",
            "one",
            "each",
            "every",
        ) or (number.start and tags[number.start - 1] in "NZdnH"):
            continue
        head = _head(tags, end)
        if head is None or any(i in known.dropped for i in range(end, head + 1)):
            continue
        noun = lower[head]
        one = number.value == 1
        if singular(noun) in _UNITS or noun in _UNITS or not noun.isalpha() or plural(noun) == noun:
            continue
        if not (index.head(noun) or index.fastener(noun)):
            continue
        many = singular(noun) != noun
        if one == many and not (one and "or" in lower[max(number.start - 3, 0) : number.start]):
            if (
                one
                and before in ("the", "that", "this", "any", "only", "another", "which", "no")
                and tags[number.start] != "N"
            ):
                continue
            wanted = singular(noun) if one else plural(noun)
            found.append(
                Observation(
                    "number-disagreement",
                    (_place(known, number.start),),
                    {"count": known.words(number.start, number.end), "noun": noun, "wanted": wanted},
                )
            )
    return found


def _head(tags: str, start: int) -> int | None:
    """The noun that a count belongs to: the last of the run of nouns after sizes and adjectives."""
    match = re.compile(r"[ZANxQ,]*(?P<nouns>[nHF]*)[HFn](?=[.,CWpoftrDSXEITRJ-]|$)").match(tags, start)
    if not match or ("N" in tags[start : match.end()].replace("NN", "") and tags[start] == "C"):
        return None
    inner = tags[start : match.end() - 1]
    if match["nouns"] or "N" in inner or inner.count(",") > 1:
        return None  # "the four bolt flange": the count belongs to the inner noun
    return match.end() - 1


def _place(known: Annotations, token: int) -> Evidence:
    sentence = next((s for s in known.sentences if s.start <= token < s.end), None)
    start, end = (sentence.start, sentence.end) if sentence else (token, token + 1)
    return evidence(known, start, end)


def evidence(known: Annotations, start: int, end: int) -> Evidence:
    """A range of tokens as a place in the recording."""
    text = known.cased[known.places[start] : known.places[end - 1] + len(known.forms[end - 1])].strip()
    return Evidence(round(known.starts[start], 3), round(known.ends[end - 1], 3), text)


def _subsets(known: Annotations) -> list[Observation]:
    found = []
    for sentence in known.sentences:
        text = known.words(sentence.start, sentence.end)
        place = None
        match = _SUBSET.search(text)
        if match:
            place = evidence(known, sentence.start, sentence.end)
            counts = f"{value_of(match['a']):g} {value_of(match['b']):g}"
            found.append(Observation("subset", (place,), {"counts": counts}))
        total = _TOTAL.search(text)
        if total:
            place = place or evidence(known, sentence.start, sentence.end)
            found.append(
                Observation(
                    "announced-total", (place,), {"count": f"{value_of(total['n']):g}", "kind": singular(total["kind"])}
                )
            )
    return found
