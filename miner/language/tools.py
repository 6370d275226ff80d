"""Tools named by the speaker ("using a T10 driver", "with a plastic pick", "take the tweezers") and supplies."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache

from miner.language.annotations import Annotations, Measure, Phrase
from miner.lexicon import Lexicon
from miner.lexicon.lookup import lookup

_LIST_REACH = 6
"""Tokens before a tool in a list in which the word that puts the list to use may stand."""


@dataclass(frozen=True, slots=True)
class _Words:
    """Names of tools in full, the last words of those names, and the words that put a tool to use."""

    terms: frozenset[str]
    lasts: frozenset[str]
    with_tool: frozenset[str]
    before_tool: frozenset[str]


@lru_cache(maxsize=8)
def _words(lexicon: Lexicon) -> _Words:
    index = lookup(lexicon)
    with_tool = index.words("with_tool")
    return _Words(
        terms=frozenset(index.tools),
        lasts=frozenset(term.rsplit(" ", 1)[-1] for term in index.tools) - index.words("body_part"),
        with_tool=with_tool,
        before_tool=with_tool | index.words("fetch_tool"),
    )


def tools_in(known: Annotations, lexicon: Lexicon) -> list[Phrase]:
    """The tools as phrases named in full ("t10 driver"), in order: a tool's name after a word that puts it to use."""
    words = _words(lexicon)
    lower, tags = known.lower, known.tags
    found = []
    for phrase in known.phrases:
        start, end = phrase.start, phrase.end
        if lower[end - 1] not in words.lasts or not _is_tool(lower, phrase, words.terms):
            continue
        before = _word_before(known, start)
        if before in words.before_tool or _listed(lower, phrase, words.with_tool):
            name = " ".join(lower[i] for i in range(start, end) if tags[i] not in "DQ")
            found.append(Phrase(start, end, phrase.head, name, phrase.plural, known=True))
    found += _sized(known, words)
    return sorted(found, key=lambda tool: tool.start)


def _sized(known: Annotations, words: _Words) -> Iterator[Phrase]:
    """Tools named by their size, whose name was read as part of the size: "with a 13 mm spanner", "8 mil spanner"."""
    lower = known.lower
    for size in known.measures:
        if lower[size.end - 1] not in words.lasts:
            continue
        if _turns(lower, size) or _word_before(known, size.start) in words.before_tool:
            name = " ".join(lower[size.start : size.end])
            yield Phrase(size.start, size.end, size.end - 1, name, plural=False, known=True)


def _turns(lower: list[str], size: Measure) -> bool:
    """Whether a size names a tool wherever it stands: a spanner or a key in mm; a hex socket is a recess."""
    if size.drive_size is None or not size.drive_size.endswith("mm"):
        return False
    last = lower[size.end - 1]
    return last in ("spanner", "wrench", "key") or (last in ("socket", "driver") and size.drive == "hex-head")


def _word_before(known: Annotations, start: int) -> str:
    """The word before a phrase, its article, amount ("a pair of") and adjectives; empty at the very beginning."""
    while start and known.tags[start - 1] in "DQoA":
        start -= 1
    return known.lower[start - 1] if start else ""


def _is_tool(lower: list[str], phrase: Phrase, terms: frozenset[str]) -> bool:
    return any(" ".join(lower[first : phrase.end]) in terms for first in range(phrase.start, phrase.end))


def _listed(lower: list[str], phrase: Phrase, with_tool: frozenset[str]) -> bool:
    """Whether the phrase ends a list that is put to use: "with a T10 driver and a plastic pick"."""
    before = lower[max(phrase.start - _LIST_REACH, 0) : phrase.start]
    return bool(before) and before[-1] in ("and", "or", ",") and not with_tool.isdisjoint(before)


@lru_cache(maxsize=8)
def _supply_pattern(lexicon: Lexicon) -> re.Pattern[str]:
    terms = sorted(lookup(lexicon).supplies, key=lambda term: (-len(term), term))
    either = "|".join(re.escape(term).replace(r"\ ", r"[\s-]?") for term in terms) or "(?!)"
    return re.compile(rf"\b(?:{either})\b")


def supplies_of(text: str, lexicon: Lexicon) -> tuple[str, ...]:
    """The supplies named in a text, by the lexicon's terms, each once, in order."""
    index = lookup(lexicon)
    found: dict[str, None] = {}
    for match in _supply_pattern(lexicon).finditer(text.lower()):
        supply = index.supply(re.sub(r"[\s-]+", " ", match[0])) or index.supply(match[0])
        found[supply.term if supply else match[0]] = None
    return tuple(found)
