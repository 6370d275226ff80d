"""What a heading, or a sentence of work, says in passing is out already: "with the hood off, tip the press"."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from miner.language.absences import Absence, absences
from miner.language.annotations import Annotations, Clause, Sentence
from miner.model.draft import Prerequisite
from miner.model.naming import part_key, same_part
from miner.procedures.prerequisites import absent_names
from miner.procedures.wording import edited, part_name, plain_text

_NEAR = 2
"""Tokens between "with the hood off" and the heading that it leads to."""


@dataclass(frozen=True, slots=True)
class Known:
    """What a job's prerequisites are read with.

    `removed` are keys of the parts that other jobs remove, `named` of all that are removed or required anywhere;
    `jobs` are words like "removal", `own` is the part of the job itself.
    """

    removed: frozenset[str]
    named: frozenset[str]
    jobs: frozenset[str]
    own: str


def told_out(known: Annotations, told: Sequence[Absence], of: Known, *, sure: bool) -> list[Prerequisite]:
    """The parts of other jobs in statements that parts are out.

    Args:
        known: the annotated recording.
        told: the statements.
        of: what is known of the job.
        sure: whether a part counts that no job of the recording removes.
    """
    found: list[Prerequisite] = []
    for absence in told:
        names = absent_names(absence, of.jobs, of.named)
        if not sure or (absence.stated == "bare" and not absence.marked):
            names = [name for name in names if part_key(name) in of.named]
        text = edited(plain_text(known, absence.start, absence.end), imperative=False)
        times = known.span(absence.start, absence.end)
        found += [Prerequisite(part_name(n), text, *times) for n in names if not same_part(n, of.own)]
    return found


def without_told(clauses: list[Clause], told: Sequence[Absence]) -> list[Clause]:
    """The clauses behind statements of what is out; one that begins with such a statement is cut."""
    cut = told[-1].end
    rest = [c if c.start >= cut else replace(c, start=cut, core=max(c.core, cut)) for c in clauses if c.end > cut]
    while rest and rest[0].core >= rest[0].end:
        rest.pop(0)  # "so,"
    return rest


def work_after(known: Annotations, sentence: Sentence, clauses: list[Clause]) -> list[Clause]:
    """The work behind the last statement of what is out: "you need the hood off for this so unplug the fan"."""
    told = absences(known, sentence.start, sentence.end)
    rest = without_told(clauses, told) if told else []
    if not rest or rest[0].subordinate:
        return []
    deed = rest[0].deed
    instructs = deed is not None and deed.start >= rest[0].start and rest[0].mood == "imperative"
    return rest if instructs or rest[0].groups else []


def heading_absences(known: Annotations, first: Sentence, last: Sentence, start: int, end: int) -> list[Absence]:
    """The statements of what is out in the sentences of a heading, which are the tokens `start:end` of them."""
    told = absences(known, first.start, last.end)
    return [a for a in told if a.start >= start or (a.stated == "lead" and 0 <= start - a.end <= _NEAR)]
