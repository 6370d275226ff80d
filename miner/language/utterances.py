"""Cuts the words into sentences, at the speaker's full stops, or where there are none as `unpunctuated` tells."""

from __future__ import annotations

import re
from bisect import bisect_right
from itertools import pairwise

from miner.language.annotations import Annotations
from miner.language.boundary_model import learned_cuts
from miner.language.discourse import Discourse, discourse
from miner.language.unpunctuated import unpunctuated_cuts
from miner.lexicon import Lexicon

WORDS_A_STOP = 45
"""A text with fewer full stops than one in so many words counts as unpunctuated."""

_JOBS = frozenset(("job", "section", "task", "part", "procedure", "#"))
_NAMED = 5
"""Tokens of a note that numbers and names a job and says more."""
_CONDITION = re.compile(r"\b(?:off|out|removed|away|first|before|after|done|needs?|needed|req\w*|prereq\w*|already)\b")
_TRAILING = re.compile(r"(?<=[nHFrRONZASEQ])(?P<marker>T)[Tf]*D?[AnH]{0,2}[nH]")
_TRAIL = 8
"""Tokens at the end of a sentence in which the name of the next job may have been left."""
_SAID = 4
"""Tokens that a sentence has at least before it."""
_STOPS = re.compile(r"\.+")
_SAYING_NOTHING = "x-,."


def punctuate(known: Annotations, lexicon: Lexicon) -> None:
    """Sets where stops and commas would be in notes and in words without punctuation, and verbs after them as verbs."""
    tags = known.tags
    if known.breaks:
        known.stops = known.breaks | _after_headings(known)
        return
    if tags.count(".") * WORDS_A_STOP >= len(tags):
        return
    words = discourse(lexicon)
    cuts = learned_cuts(known, words, unpunctuated_cuts(known, words))
    cuts.sentences[:] = sorted({*cuts.sentences, *_trailing_names(known, words, cuts.sentences)})
    settled = list(tags)
    for verb in cuts.verbs:
        settled[verb] = "V"
    known.tags = "".join(settled)
    known.stops, known.commas = frozenset(cuts.sentences), frozenset(cuts.clauses)


def _trailing_names(known: Annotations, words: Discourse, starts: list[int]) -> list[int]:
    """Where an announced name was left at the end of the sentence before: "... strip easily | okay drive belt"."""
    found = []
    for begin, end in pairwise([0, *starts, len(known.tags)]):
        match = _TRAILING.search(known.tags, max(begin + _SAID, end - _TRAIL), end)
        told = match is not None and known.lower[match.start("marker") + 1] in words.bare_object
        if match and not told and match.end() == end and known.lower[match.start("marker")] in words.starters:
            found.append(match.start("marker"))
        found += [at for at in range(begin + _SAID, end - 1) if _announces(known, at)]
    return found


def _announces(known: Annotations, at: int) -> bool:
    """Whether the last job is announced: "lastly a new seal", "last one the relay", "next one's the lamp"."""
    word, following = known.lower[at], known.lower[at + 1]
    if word == "moving" and known.tags[at - 1] not in "DAXnH":
        return following in ("on", "along", "right", "swiftly")
    if known.tags[at - 1] in "DApXo":
        return False
    if word in ("lastly", "finally"):
        return known.tags[at + 1] == "D"
    return word in ("last", "next") and following in ("one", "one's", "job", "up") and known.lower[at - 1] != "the"


def _after_headings(known: Annotations) -> frozenset[int]:
    """Where a note goes on after the number and the name of a job: "job 3, safety valve, | cover is off"."""
    edges, found = sorted({*known.breaks, len(known.tags)}), set()
    for first, end in pairwise(edges):
        if end - first < _NAMED or known.lower[first] not in _JOBS or known.tags[first + 1] != "N":
            continue
        name = next((i for i in range(first + 2, end) if known.tags[i] not in ",.-x"), end)
        comma = next((i for i in range(name, end - 1) if known.tags[i] in ",-"), None)
        if comma is not None and _CONDITION.search(known.words(comma + 1, end)):
            found.add(comma + 1)
    return frozenset(found)


def sentences_in(known: Annotations) -> list[tuple[int, int]]:
    """Token ranges of the sentences, in order, without gaps; tags must have been set."""
    size = len(known.tags)
    starts = {0, *known.stops, *(stop + 1 for stop in _stops(known))}
    ordered = sorted(start for start in starts if start < size)
    return list(zip(ordered, [*ordered[1:], size], strict=True))


def _stops(known: Annotations) -> list[int]:
    """Full stops that end a sentence; a colon after a label in notes and a stop without words before it do not."""
    tags, breaks = known.tags, sorted(known.breaks)
    found: list[int] = []
    for match in _STOPS.finditer(tags):
        first, last = match.start(), match.end() - 1
        if breaks and (known.lower[last] == ":" or first in known.breaks):
            continue
        note = bisect_right(breaks, first) - 1
        begin = max(found[-1] + 1 if found else 0, breaks[note] if note >= 0 else 0)
        if tags[begin:first].strip(_SAYING_NOTHING):
            found.append(last)
    return found
