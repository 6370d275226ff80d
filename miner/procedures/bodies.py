"""The sentences of one job sorted: prerequisites, notices, steps, how it goes back, how it was closed."""

from __future__ import annotations

import re
from dataclasses import dataclass, field, replace

from miner.language.absences import absences, leading
from miner.language.annotations import Annotations, Clause, Sentence
from miner.language.roles import RolePatterns, role_patterns, sentence_text
from miner.lexicon import Lexicon
from miner.lexicon.lookup import lookup
from miner.model.draft import Preparation, Prerequisite
from miner.model.naming import part_key
from miner.procedures.body_clauses import (
    NEEDS,
    alert_part,
    says_heading_again,
    takes_off_known,
    takes_own_off,
    without_lead,
    work_before,
)
from miner.procedures.boundaries import Span
from miner.procedures.late_steps import as_told, owning_up, placed, told_late
from miner.procedures.notices import (
    FIRST_THIS,
    Told,
    extend,
    goes_on,
    hung_on,
    read_notice,
    without_work_after,
)
from miner.procedures.phases import LEADS_BACK
from miner.procedures.prerequisites import names_removed, read_list, read_prerequisites, supplies_off
from miner.procedures.said_out import Known, heading_absences, told_out, without_told, work_after
from miner.procedures.step_found import StepFound
from miner.procedures.steps import StepCutter

_LABEL = re.compile(
    r"(?:so |okay |and )*(?:(?:out|off) already|already (?:out|off)|pre-?requisites?|required(?: beforehand)?|"
    r"(?:already )?(?:out|off)(?: already)? (?:at this (?:point|stage)|by now|so far)|"
    r"(?:necessary |required )?(?:preceding|previous|prior|preliminary|preparatory) (?:work|steps?)|"
    r"(?:you|we|i|it)(?:'ll| will)? (?:need|want|have|requires?) (?:all )?(?:of )?(?:these|this lot|the following)"
    r"(?: \w+)? (?:off|out|removed)(?: of the way)?(?: first| already)?|"
    r"requirements?|requires?|needs?|needed|strip first|remove the following(?: parts)?(?: first)?|"
    r"(?:have|take) (?:these|the following) (?:out|off)(?: first)?|needed (?:first|out)|need out|"
    r"what has to be (?:off|out))\W*$"
)
_ALL_OUT = re.compile(
    r"(?:(?:they|these|those|which|that|and|so)(?:'re|'s)? )?(?:(?:are|is|must be|should be|have (?:all )?been|all|"
    r"both|already|now|of them) )*(?:out|off|removed|gone|away)(?: already| first| by now| um| uh)*\W*$"
)
_OFF = re.compile(r"\b(?:off|out)\b")
_OWNING_UP = 9
"""Words of a sentence that only owns up to a forgotten step."""
_NOT_NAMES = frozenset(("out", "off", "new", "set"))


@dataclass(frozen=True, slots=True)
class Reading:
    """What a body is read with: the lexicon's patterns, and keys of parts of the recording.

    `removed` are the parts that its jobs are about, `named` these and all that it requires.
    """

    patterns: RolePatterns
    weak: frozenset[str]
    releasing: frozenset[str]
    told_late: re.Pattern[str]
    jobs: frozenset[str]
    named: frozenset[str] = frozenset()
    removed: frozenset[str] = frozenset()


def reading_of(lexicon: Lexicon) -> Reading:
    """What a lexicon gives to read bodies with."""
    index = lookup(lexicon)
    jobs = frozenset(re.findall(r"[a-z]+", " ".join(index.phrases("job")))) - _NOT_NAMES
    return Reading(
        role_patterns(lexicon),
        index.words("weak_fastener"),
        index.words("releasing_part"),
        told_late(lexicon),
        jobs,
    )


@dataclass(slots=True)
class Body:
    """What was found in the sentences of one job."""

    span: Span
    steps: list[StepFound] = field(default_factory=list)
    notices: list[Told] = field(default_factory=list)
    prerequisites: list[Prerequisite] = field(default_factory=list)
    preparations: list[Preparation] = field(default_factory=list)
    reverse: Sentence | None = None
    closing: Sentence | None = None


def read_body(known: Annotations, span: Span, reading: Reading) -> Body:
    """The body of one job."""
    reader = _BodyReader(known, span, reading)
    reader.heading()
    for first, last in span.stretches:
        for at in range(first, last):
            reader.take(at)
        reader.cutter.interrupt()
    reader.body.steps = placed(reader.cutter.finish())
    return reader.body


class _BodyReader:
    """Takes the sentences of a job in order."""

    def __init__(self, known: Annotations, span: Span, reading: Reading) -> None:
        self.known, self.span, self.reading = known, span, reading
        self.body = Body(span)
        self.cutter = StepCutter(known, reading.weak, reading.named, reading.releasing)
        self.told: Told | None = None
        self.worked = False
        self.list_follows = False
        self.late = ""

    def heading(self) -> None:
        """What the sentences of the heading say is out: "now the pump, so that's with the hood off"."""
        found = self.span.heading
        if found.spoken:
            first, last = self.known.sentences[found.first], self.known.sentences[found.last - 1]
            told = heading_absences(self.known, first, last, found.start, found.end)
            self.body.prerequisites += told_out(self.known, told, self._parts(), sure=True)

    def take(self, at: int) -> None:
        """One sentence, by its position."""
        sentence = self.known.sentences[at]
        clauses = self.known.clauses_of(sentence)
        text = sentence_text(self.known, sentence)
        if self.told is not None and self._carries_on(self.told, at, sentence, text):
            extend(self.known, self.told, sentence, self.reading.patterns)
            return
        self.told = None
        if sentence.role in ("no-prerequisite", "remark") or self._requires(sentence, clauses, text):
            pass
        elif sentence.role in ("notice", "important"):
            self._notice(sentence, clauses, text)
        elif (
            not self.cutter.steps and at <= self.span.first + 1 and says_heading_again(clauses, self.span.heading.part)
        ):
            pass
        elif sentence.role == "reverse":
            self._reverse(sentence, clauses)
        elif sentence.role == "closing":
            self.body.closing = sentence
        elif (care := hung_on(self.known, sentence, clauses)) is not None:
            self._work(clauses[:care], text)
            self._notice(replace(sentence, start=clauses[care].start, role="notice"), clauses[care:], text)
        else:
            self._work(clauses, text)

    def _carries_on(self, told: Told, at: int, sentence: Sentence, text: str) -> bool:
        """Whether a sentence belongs to the notice before it, or gives the reason between two halves of one."""
        signalled = sentence.role == "notice" and self.reading.patterns.signals.match(text)
        if goes_on(self.known, sentence, told, self.reading.patterns) and not signalled:
            return True
        between = sentence.role == "aside" and not told.signalled and at + 1 < self.span.last
        return between and self.known.sentences[at + 1].role == "notice"

    def _notice(self, sentence: Sentence, clauses: list[Clause], text: str) -> None:
        patterns = self.reading.patterns
        after: list[Clause] = []
        if sentence.role == "notice" and not patterns.signals.match(text):
            if not FIRST_THIS.search(text):
                sentence, before = alert_part(self.known, sentence, clauses, patterns)
                if before:
                    self.cutter.sentence(before)
            sentence, after = without_work_after(self.known, sentence, clauses, patterns)
        if self.cutter.steps and patterns.install.match(sentence_text(self.known, sentence)):
            self.cutter.course.state = "install"  # "going back on, don't overtighten"
        self.told = read_notice(self.known, sentence, patterns)
        self.body.notices.append(self.told)
        self.cutter.interrupt()
        if after:
            self.cutter.sentence(after)

    def _requires(self, sentence: Sentence, clauses: list[Clause], text: str) -> bool:
        """Takes a sentence of prerequisites, which stands before the work."""
        if sentence.role == "notice" and self.reading.patterns.signals.match(text):
            return False
        if self.worked:
            return self._requires_after_all(sentence)
        freed = self.cutter.told_of(clauses[0].object.name) if clauses[0].object else None
        if self.known.breaks and takes_own_off(clauses, freed or self.span.heading.part) and not NEEDS.search(text):
            return False  # "motor out", under the heading "motor" or after the screws of the motor
        follows, self.list_follows = self.list_follows, bool(_LABEL.match(text))
        if self.list_follows:
            return True
        if _ALL_OUT.match(text) and self._requires_listed(sentence):
            return True
        told_as_closing = sentence.role == "closing" and not self.cutter.steps and _OFF.search(text)
        said = sentence.role == "prerequisite" or told_as_closing
        own = self.span.heading.part
        said = said or follows
        if not said and sentence.role != "reverse":
            said = names_removed(self.known, sentence, self.reading.removed, own) and not self.cutter.steps
        if not said and not takes_off_known(clauses, self.reading.named, own):
            self._lead(sentence, clauses)
            return not clauses
        required = read_prerequisites(self.known, sentence, jobs=self.reading.jobs, names=self.reading.named)
        self.body.prerequisites += [
            part for part in required.parts if sentence.role == "prerequisite" or part_key(part.part) != part_key(own)
        ]
        self.body.preparations += required.preparations
        if not required.parts and not required.preparations:
            return False
        clauses[:] = work_after(self.known, sentence, clauses)
        return not clauses

    def _requires_listed(self, sentence: Sentence) -> bool:
        """Takes the names of the sentence before "all out": "Hood, drum, rear panel: all out."."""
        at = self.known.clauses[sentence.first_clause].sentence - 1
        before = self.known.sentences[at]
        if at < self.span.first or before.role != "aside":
            return False
        listed = read_list(self.known, before, self.reading.jobs, self.reading.named)
        self.body.prerequisites += listed.parts
        return bool(listed.parts)

    def _requires_after_all(self, sentence: Sentence) -> bool:
        """Prerequisites that come to the speaker's mind when the work is told; only parts that other jobs remove."""
        own = self.span.heading.part
        if sentence.role != "prerequisite" or not names_removed(self.known, sentence, self.reading.removed, own):
            return False
        required = read_prerequisites(self.known, sentence, jobs=self.reading.jobs, names=self.reading.named)
        self.body.prerequisites += [
            p for p in required.parts if part_key(p.part) in self.reading.removed - {part_key(own)}
        ]
        self.cutter.interrupt()
        return True

    def _lead(self, sentence: Sentence, clauses: list[Clause]) -> None:
        """Takes the parts of a lead before the first instruction, and its clauses off the list.

        "With the hood off, and the drum still out, tip the unit" is left with "tip the unit".
        """
        told = leading(self.known, sentence.start, sentence.end)
        states = absences(self.known, sentence.start, sentence.end) if sentence.role == "aside" else told
        self.body.preparations += supplies_off(self.known, states)
        found = told_out(self.known, told, self._parts(), sure=not self.cutter.steps)
        if found:
            self.body.prerequisites += found
            clauses[:] = without_told(clauses, told)

    def _parts(self) -> Known:
        """What prerequisites are read with."""
        return Known(self.reading.removed, self.reading.named, self.reading.jobs, self.span.heading.part)

    def _reverse(self, sentence: Sentence, clauses: list[Clause]) -> None:
        before = work_before(self.known, clauses, self.reading.patterns.reverse)
        if before:
            self.cutter.sentence(before)
        self.body.reverse = self.body.reverse or sentence
        self.cutter.course.reversed = True
        self.cutter.interrupt()

    def _told(self, clauses: list[Clause], text: str) -> None:
        """Takes the clauses of a sentence; the steps of one that was forgotten are marked."""
        cutter, count = self.cutter, len(self.cutter.steps)
        late = self.reading.told_late.search(text) if self.worked else None
        said = owning_up(text[late.start() :], late.end() - late.start()) if late else self.late
        self.late = ""
        if not said:
            cutter.sentence(clauses)
            return
        cutter.interrupt()
        cutter.sentence(as_told(clauses))
        for step in cutter.steps[count:]:
            step.late = said
        if len(cutter.steps) == count and len(text.split()) <= _OWNING_UP:
            self.late = said  # "Oh, hang on, before that." and then the step

    def _work(self, clauses: list[Clause], text: str) -> None:
        patterns, cutter = self.reading.patterns, self.cutter
        if cutter.steps and patterns.install.match(text):
            cutter.course.state = "install"
            clauses = without_lead(self.known, clauses, patterns.install)
        elif (cutter.steps or self.body.reverse) and patterns.after.match(text):
            cutter.course.state = "after"
            clauses = without_lead(self.known, clauses, patterns.after)
        self._told(clauses, text)
        if cutter.steps and LEADS_BACK.search(text.rstrip(" .,")):
            cutter.course.state = "install"
        self.worked = self.worked or any(step.phase == "remove" for step in cutter.steps)
