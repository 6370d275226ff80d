"""Tools named by the speaker ("using a T10 driver", "with a plastic pick", "take the tweezers") and supplies."""

from __future__ import annotations

import re
from functools import lru_cache

from spacy.tokens import Doc

from miner.language.annotations import Annotations, Phrase, annotations_of
from miner.lexicon import Lexicon
from miner.lexicon.lookup import lookup

_BEFORE = frozenset(
    "with using use w/ take get grab via needs need want by of and or my a the your put run slide work insert push wants".split()
)
_BODY = frozenset("hand hands finger fingers thumb thumbs fingernail fingernails nail eye eyes".split())


@lru_cache(maxsize=8)
def _tool_terms(lexicon: Lexicon) -> tuple[frozenset[str], frozenset[str]]:
    index = lookup(lexicon)
    lasts = frozenset(term.rsplit(" ", 1)[-1] for term in index.tools)
    return frozenset(index.tools), lasts


def find_tools(doc: Doc, lexicon: Lexicon) -> list[Phrase]:
    """The tools of a Doc as phrases named in full ("t10 driver"), in order."""
    return tools_in(annotations_of(doc), lexicon)


def tools_in(known: Annotations, lexicon: Lexicon) -> list[Phrase]:
    """As find_tools, from annotations: a tool's name after a word that puts it to use."""
    terms, lasts = _tool_terms(lexicon)
    lower, tags = known.lower, known.tags
    found = []
    for phrase in known.phrases:
        last = lower[phrase.end - 1]
        if last not in lasts or last in _BODY:
            continue
        if not _is_tool(lower, phrase, terms):
            continue
        before = lower[phrase.start - 1] if phrase.start else ""
        if before not in ("with", "using", "use", "w/", "take", "get", "grab", "via") and not _put_to_use(
            known, phrase
        ):
            continue
        words = [
            w
            for w, t in zip(lower[phrase.start : phrase.end], tags[phrase.start : phrase.end], strict=True)
            if t not in "DQ"
        ]
        found.append(Phrase(phrase.start, phrase.end, phrase.head, " ".join(words), phrase.plural, True))
    return found


def _is_tool(lower: list[str], phrase: Phrase, terms: frozenset[str]) -> bool:
    return any(" ".join(lower[first : phrase.end]) in terms for first in range(phrase.start, phrase.end))


def _put_to_use(known: Annotations, phrase: Phrase) -> bool:
    """ "A T10 and a plastic pick" after "with"; a tool at the end of such a list."""
    words = known.lower[max(phrase.start - 6, 0) : phrase.start]
    return bool(words) and words[-1] in ("and", "or", ",") and any(w in ("with", "using", "use", "w/") for w in words)


_SUPPLY = re.compile(r"\b(?:with|some|of|use|using|apply|a (?:drop|dab|smear|bit|little|thin layer|film|bead) of)\b")


@lru_cache(maxsize=8)
def _supply_pattern(lexicon: Lexicon) -> re.Pattern[str]:
    terms = sorted(lookup(lexicon).supplies, key=lambda t: (-len(t), t))
    return (
        re.compile(r"\b(?:" + "|".join(re.escape(t).replace(r"\ ", r"[\s-]?") for t in terms) + r")\b")
        if terms
        else re.compile("(?!)")
    )


def supplies_of(text: str, lexicon: Lexicon) -> tuple[str, ...]:
    """The supplies named in a text, by the lexicon's terms, each once, in order."""
    index = lookup(lexicon)
    found: dict[str, None] = {}
    for match in _supply_pattern(lexicon).finditer(text.lower()):
        supply = index.supply(re.sub(r"[\s-]+", " ", match[0])) or index.supply(match[0])
        found[supply.term if supply else match[0]] = None
    return tuple(found)
