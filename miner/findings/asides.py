"""Remarks that show a hazard without warning of it: "that can is the capacitor, 400 volts", "it's a lithium pack"."""

from __future__ import annotations

import re

from miner.findings.case import Case
from miner.model.draft import Procedure
from miner.model.finding import Evidence

# From 60 V direct voltage on a touch is no longer taken for harmless (IEC 61140, limits of extra-low voltage).
_HARMLESS_VOLTS = 60
_VOLTS = re.compile(r"\b(\d{2,4})[ -]?v(?:olts?)?\b", re.IGNORECASE)
_CAPACITOR = re.compile(r"\b(?:capacitors?|caps?)\b", re.IGNORECASE)
_LITHIUM = re.compile(r"\b(?:lithium|li-?ion|li-?po)\b", re.IGNORECASE)
_GLUED = re.compile(r"\b(?:stuck|glued|adhesive|double[ -]sided|sticky)\b", re.IGNORECASE)
_FIGURE = re.compile(
    r"(?:and |so )?(?:it'?s|it is|that'?s|that is|this is)? ?(?:about |at )?\d+[ -]?v(?:olts?)?[.!]?", re.IGNORECASE
)

# A report of what the senses notice warns of nothing: "that's the smell of a burnt winding".
_NOTICED = re.compile(
    r"(?:that's|that is|there's|it's) (?:the|that|a) (?:smell|noise|sound|look|mark)\b", re.IGNORECASE
)
_NAMES = re.compile(
    r"(?:(?:yeah|yes|so|and|now|right|okay|well),? )*(?:this|that|it|here)(?:'s| is) (?:the|your|our)\b", re.IGNORECASE
)
_HARM = re.compile(
    r"\b(?:live|dead|hot|sharp|hurt\w*|kill\w*|shock\w*|burn\w*|bite\w*|never|not|\w+n't|careful|mind|watch|wait|keep|"
    r"wear|gloves|off|charged|will|\w+'ll|can|could|may|danger\w*|under)\b",
    re.IGNORECASE,
)


def warns_of_nothing(text: str) -> bool:
    """Whether a notice only states a voltage, reports what the senses notice, or says where a thing is."""
    said = text.strip()
    return bool(_FIGURE.fullmatch(said) or _NOTICED.match(said) or (_NAMES.match(said) and not _HARM.search(said)))


def glued(case: Case, procedure: Procedure) -> tuple[Evidence, ...]:
    """Where it is said that something is stuck down: why a cell has to be forced out."""
    return tuple(one for one in case.said(procedure.start, procedure.end) if _GLUED.search(one.quote))[:1]


def asides_by_hazard(case: Case, procedure: Procedure) -> dict[str, tuple[Evidence, ...]]:
    """What is said within a procedure of a dangerous voltage or a lithium cell, by the id of the hazard."""
    found: dict[str, list[Evidence]] = {}
    said = case.said(procedure.start, procedure.end)
    for before, one in zip([None, *said], said, strict=False):
        near = f"{before.quote if before else ''} {one.quote}"
        if any(int(volts) >= _HARMLESS_VOLTS for volts in _VOLTS.findall(one.quote)):
            found.setdefault("stored-charge" if _CAPACITOR.search(near) else "mains", []).append(one)
        if _LITHIUM.search(one.quote):
            found.setdefault("lithium-cell", []).append(one)
    return {key: tuple(places) for key, places in found.items()}
