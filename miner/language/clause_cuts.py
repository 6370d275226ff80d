"""Cuts a sentence into clauses: at commas, dashes, conjunctions and markers before what has a verb of its own."""

from __future__ import annotations

import re

from miner.language.annotations import Annotations
from miner.language.discourse import Discourse, after_openers

_CANDIDATE = re.compile(r"[,CT\-]")
_VERB_FIRST = r"V|J[V]?|X?JX*V|G[DONQnH]"
_SUBJECT_FIRST = r"[IeO][RJTX]*[XVSE]|I[RTfX]*[VXEG]|e[DNQnHFAR]"
_NOUN_FIRST = r"(?:D|Q|N|A|Z|n|H|F|o|G(?=[nHF]))*[nHFON][RJXN]*(?:S|V(?=r)|X[RJr]*[VEGXArp])"
_WITHOUT_VERB = r"(?:D|Q|N|A|Z|n|H|F|o)*[nHF]R*r+(?=[.,CWp]|$)"
_CLAUSE = re.compile(f"{_VERB_FIRST}|{_SUBJECT_FIRST}|{_NOUN_FIRST}|{_WITHOUT_VERB}")
_PLACED = re.compile(_WITHOUT_VERB)
_HAS_VERB = re.compile("[VSX]")
_SUBORDINATE = re.compile("WIR*[VXS]")
_LATER_SUBORDINATE = re.compile(f"(?<=[,TC-]){_SUBORDINATE.pattern}")
_MAIN_SUBJECT = re.compile("(?<=[nHFNrRO])I(?=R*(?:X+R*[tVG]|t[RV]))")
"""A second subject with an auxiliary: "before you lift the pump you have to drain it" needs no comma to be two."""


def clause_starts(known: Annotations, start: int, end: int, words: Discourse) -> list[int]:
    """Where the clauses of a sentence begin; the first is the sentence's own start."""
    tags, commas = known.tags, known.commas
    found = [start]
    candidates = [match.start() for match in _CANDIDATE.finditer(tags, start + 1, end - 1)]
    if commas:
        candidates = sorted({*candidates, *(at for at in range(start + 1, end - 1) if at in commas)})
    opening = _SUBORDINATE.match(tags, start, end) or _LATER_SUBORDINATE.search(tags, start, end)
    mains = [match.start() for match in _MAIN_SUBJECT.finditer(tags, opening.end(), end)] if opening else []
    if opening and mains:
        candidates = sorted({*candidates, *mains, opening.start()} - {start})
    for at in candidates:
        tag = tags[at]
        if tag in "IW":
            found.append(at)
            continue
        if at in commas:
            found.append(at)
            continue
        if tag == "T" and (tags[at - 1] in ",C-T" or known.lower[at] not in words.starters):
            continue
        if at - found[-1] < 2 and not tags[found[-1] : at].strip("TCRfx,-"):
            continue
        core = after_openers(tags, at)
        if core < end and _CLAUSE.match(tags, core, end) and not _list_goes_on(tags, start, at, core):
            found.append(at)
    return found


def _list_goes_on(tags: str, start: int, at: int, core: int) -> bool:
    """An enumeration of parts is no clause: in "the lid, the tray and the pump are out" only the whole has a verb."""
    if tags[core] in "VJGIeO":
        return tags[core] == "G" and tags[at] == ","
    if "r" in tags[start:at] and "p" not in tags[start : start + 3] and _PLACED.match(tags, core):
        return False  # "roller down on the shaft, circlip back in its groove"
    return not _HAS_VERB.search(tags, start, at)
