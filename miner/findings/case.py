"""What a check is given, what it gives back, and how it cites the recording."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from miner.model.draft import Draft, Notice, Prerequisite, Procedure, Step
from miner.model.finding import Evidence, Severity, Suggestion
from miner.model.observation import Observation, ObservationKind
from miner.teardown.building import Teardown
from miner.teardown.joints import Use

if TYPE_CHECKING:
    from miner.lexicon.loading import Lexicon
    from miner.model.recording import Recording
    from miner.readers.parts_list import PartsList


@dataclass(frozen=True, slots=True)
class Fault:
    """What a check found, before it has an id: evidence from every side, the most telling procedure first."""

    message: str
    procedures: tuple[str, ...]
    evidence: tuple[Evidence, ...]
    suggestion: Suggestion | None = None
    branch: str | None = None


@dataclass(frozen=True, slots=True)
class Case:
    """One draft with all that is known of it.

    `spoken` are the cues of the recording, repaired, as evidence.
    Indexes by id: `procedures`, `homes` (the procedure of a step), `uses` (the fastener groups of a procedure).
    """

    draft: Draft
    teardown: Teardown
    observations: tuple[Observation, ...]
    lexicon: Lexicon
    parts_list: PartsList | None = None
    spoken: tuple[Evidence, ...] = ()
    procedures: dict[str, Procedure] = field(default_factory=dict)
    homes: dict[str, Procedure] = field(default_factory=dict)
    uses: dict[str, list[Use]] = field(default_factory=dict)

    @classmethod
    def of(
        cls,
        draft: Draft,
        teardown: Teardown,
        observations: Iterable[Observation],
        lexicon: Lexicon,
        parts_list: PartsList | None = None,
        recording: Recording | None = None,
    ) -> Case:
        """The case with its indexes."""
        uses: dict[str, list[Use]] = {procedure.id: [] for procedure in draft.procedures}
        for use in teardown.uses:
            if use.group is not None:
                uses[use.procedure].append(use)
        return cls(
            draft,
            teardown,
            tuple(observations),
            lexicon,
            parts_list,
            tuple(Evidence(cue.start, cue.end, cue.text) for cue in (recording.cues if recording else ())),
            {procedure.id: procedure for procedure in draft.procedures},
            {step.id: procedure for procedure in draft.procedures for step in procedure.steps},
            uses,
        )

    def observed(self, kind: ObservationKind) -> Iterator[Observation]:
        """The observations of one kind that have evidence, in order of time."""
        found = [one for one in self.observations if one.kind == kind and one.evidence]
        yield from sorted(found, key=lambda one: one.evidence[0].start)

    def said(self, start: float, end: float) -> tuple[Evidence, ...]:
        """The cues that begin from one moment to another, seconds, both included."""
        first = bisect_left(self.spoken, start, key=_start)
        return self.spoken[first : bisect_right(self.spoken, end, lo=first, key=_start)]

    def at(self, time: float) -> Procedure | None:
        """The procedure in which a moment of the recording lies."""
        return next((one for one in self.draft.procedures if one.start - 0.01 <= time <= one.end + 0.01), None)


@dataclass(frozen=True, slots=True)
class Check:
    """One check. `run` finds; the id, the severity and the fingerprint are added by `running`.

    `meaning` says in a sentence what is wrong, `example` shows it in the demo's words.
    """

    id: str
    severity: Severity
    meaning: str
    example: str
    run: Callable[[Case], Iterable[Fault]]

    @property
    def silence(self) -> str:
        """How to silence it: in one run, in a project, or for the words of one finding."""
        return (
            f'Leave the check out with `--ignore {self.id}` or, for a project, `ignore = ["{self.id}"]` in miner.toml '
            "or under [tool.miner] in pyproject.toml. A single finding stays silent once it is decided on in "
            "`miner review` or on the page."
        )


def _start(one: Evidence) -> float:
    return one.start


def step_evidence(step: Step) -> Evidence:
    """The step as evidence, in the words as spoken."""
    return Evidence(step.start, step.end, (step.spoken or step.text).lstrip(" ,;"), step.id)


def heading_evidence(procedure: Procedure) -> Evidence:
    """The heading as evidence; where none was spoken, the place where the job starts."""
    heading = procedure.heading
    if not heading.spoken or not heading.text:
        words = procedure.steps[0].spoken or procedure.steps[0].text if procedure.steps else procedure.title
        return Evidence(procedure.start, max(heading.end, procedure.start), words)
    return Evidence(heading.start, heading.end, heading.text)


def prerequisite_evidence(one: Prerequisite) -> Evidence:
    """The prerequisite as evidence."""
    return Evidence(one.start, one.end, one.text or one.part)


def notice_evidence(notice: Notice) -> Evidence:
    """The notice as evidence."""
    return Evidence(notice.start, notice.end, notice.text)


def last_evidence(procedure: Procedure) -> Evidence:
    """The last utterance of a procedure that the draft holds."""
    said = [step_evidence(step) for step in procedure.steps] + [notice_evidence(one) for one in procedure.notices]
    return max(said, key=lambda one: one.start, default=heading_evidence(procedure))


def clock(seconds: float) -> str:
    """A time as an editor reads it: `75.4` gives `1:15`."""
    minutes, rest = divmod(int(seconds), 60)
    hours, minutes = divmod(minutes, 60)
    return f"{hours}:{minutes:02d}:{rest:02d}" if hours else f"{minutes}:{rest:02d}"
