"""What the language and procedure stages noticed in passing and the checks turn into findings."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

from miner.model.finding import Evidence

ObservationKind = Literal[
    "stutter",  # doubled words; detail: word
    "mishearing",  # one transcription error; detail: heard, meant
    "number-disagreement",  # count and noun disagree; detail: count, noun, wanted
    "unclear-reference",  # a pronoun that could not be resolved; detail: pronoun, candidates
    "closing",  # a closing sentence; detail: part (the part it names), procedure
    "announced-total",  # "that's seven screws altogether"; detail: count, kind, procedure
    "subset",  # "five of these are silver and the other three black"; detail: counts ("5 3"), total, step
    "section-number",  # "section nine"; detail: number, procedure
]


@dataclass(frozen=True, slots=True)
class Observation:
    """One thing noticed, with the places that show it and its facts as strings."""

    kind: ObservationKind
    evidence: tuple[Evidence, ...]
    detail: dict[str, str] = field(default_factory=dict)
