"""What is noticed while drafting and becomes findings later."""

from __future__ import annotations

import re
from collections.abc import Iterator

from miner.language.agreement import evidence
from miner.language.annotations import Annotations, Clause
from miner.model.finding import Evidence
from miner.model.observation import Observation
from miner.model.recording import Recording
from miner.procedures.bodies import Body
from miner.procedures.drafted_steps import ROUND

# What stands around the part in a sentence that closes a job, at either end of it.
_FRAME = frozenset(
    "and so right okay ok well yep yeah there then now that's thats that is are was has have been this the your our "
    "my a it end of with for all completes concludes finishes ends done finished complete completed sorted out off in "
    "on over dusted set adjusted checked tested fitted replaced removed swapped changed exchanged renewed "
    "refitted thereby thus hereby "
    "installed dealt job we're i'm".split()
)
_LONGEST_NAME = 5  # words
_DONE = (
    "done|finished|sorted|complete|completed|changed|replaced|swapped|exchanged|renewed|fitted|refitted|dealt with|"
    "all done|over with"
)
# The same within a longer utterance, as a clause of its own: "shut the door and that's your latch sorted".
_WITHIN = re.compile(
    rf"(?:(?:and|so|right|then|well) )*(?:that's|thats|that is|that was) (?:the|your|our|my) "
    rf"(?P<part>(?:[a-z-]+ ){{1,4}}?)(?:{_DONE})\b"
)


def observed(known: Annotations, body: Body, procedure: str, closing: str | None) -> list[Observation]:
    """The closing sentence and the section number of a job."""
    made = list(_closings(known, body, procedure, closing))
    found = body.span.heading
    if found.number is not None:
        made.append(
            Observation(
                "section-number",
                (evidence(known, found.start, found.end),),
                {"number": str(found.number), "procedure": procedure},
            )
        )
    return made


def _closings(known: Annotations, body: Body, procedure: str, closing: str | None) -> Iterator[Observation]:
    """The sentence that closes a job, and the clauses of other sentences that do."""
    told: list[tuple[int, int, str]] = []
    last = body.closing
    if last:
        told.append((last.start, last.end, _part_of(known.words(last.start, last.end)) or closing or ""))
    for first, end in body.span.stretches:
        for sentence in known.sentences[first:end]:
            told += () if sentence is last else _within(known, known.clauses_of(sentence))
    for start, stop, part in told:
        if part:
            yield Observation("closing", (evidence(known, start, stop),), {"part": part, "procedure": procedure})


def _within(known: Annotations, clauses: list[Clause]) -> Iterator[tuple[int, int, str]]:
    for clause in clauses:
        if clause.mood == "descriptive":
            match = _WITHIN.match(known.words(clause.start, clause.end))
            if match:
                yield clause.start, clause.start + len(match[0].split()), _part_of(match["part"])


def _part_of(words: str) -> str:
    """The part in the words of a closing, without what stands around it: "end of the lid lamp" gives "lid lamp"."""
    named = words.strip(" .,!").split()
    while named and named[0] in _FRAME:
        named.pop(0)
    while named and named[-1].strip(".,!") in _FRAME:
        named.pop()
    return " ".join(named) if len(named) <= _LONGEST_NAME and all(word[:1].isalpha() for word in named) else ""


def repairs_observed(recording: Recording) -> list[Observation]:
    """Stutters and mishearings that the caption stage repaired."""
    made = []
    for repair in recording.repairs:
        if repair.kind != "rolling":
            place = Evidence(round(repair.start, ROUND), round(repair.end, ROUND), repair.before)
            detail = {"heard": repair.before, "meant": repair.after, "word": repair.before}
            made.append(Observation(repair.kind, (place,), detail))
    return made
