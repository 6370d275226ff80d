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


def only_a_figure(text: str) -> bool:
    """Whether a notice states a voltage and nothing else, which warns of nothing."""
    return _FIGURE.fullmatch(text.strip()) is not None


def glued(case: Case, procedure: Procedure) -> tuple[Evidence, ...]:
    """Where it is said that something is stuck down: why a cell has to be forced out."""
    said = (one for one in case.spoken if procedure.start <= one.start <= procedure.end)
    return tuple(one for one in said if _GLUED.search(one.quote))[:1]


def asides_by_hazard(case: Case, procedure: Procedure) -> dict[str, tuple[Evidence, ...]]:
    """What is said within a procedure of a dangerous voltage or a lithium cell, by the id of the hazard."""
    found: dict[str, list[Evidence]] = {}
    said = [one for one in case.spoken if procedure.start <= one.start <= procedure.end]
    for before, one in zip([None, *said], said, strict=False):
        near = f"{before.quote if before else ''} {one.quote}"
        if any(int(volts) >= _HARMLESS_VOLTS for volts in _VOLTS.findall(one.quote)):
            found.setdefault("stored-charge" if _CAPACITOR.search(near) else "mains", []).append(one)
        if _LITHIUM.search(one.quote):
            found.setdefault("lithium-cell", []).append(one)
    return {key: tuple(places) for key, places in found.items()}
