"""A procedure put in the order in which it is read: notices in front of the step they guard, findings beside it."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass

from miner.model.draft import Draft, Fastener, Notice, Phase, Procedure, Step
from miner.model.finding import Finding
from miner.publish.wording import PHASE_WORDS, SEVERITY_WORDS, amount, signal_rank, type_words


@dataclass(frozen=True, slots=True)
class StepEntry:
    """A step with what stands in front of it."""

    step: Step
    notices: tuple[Notice, ...]
    findings: tuple[Finding, ...]


@dataclass(frozen=True, slots=True)
class PhaseEntry:
    """Consecutive steps of one phase under one heading."""

    phase: Phase
    title: str
    steps: tuple[StepEntry, ...]


@dataclass(frozen=True, slots=True)
class Section:
    """One procedure, laid out: `notices` concern the whole of it, `totals` are its fasteners by type.

    A finding that names several procedures stands in `findings` of the first and in `elsewhere` of the others.
    """

    procedure: Procedure
    notices: tuple[Notice, ...]
    work: tuple[PhaseEntry, ...]
    reassembly: tuple[StepEntry, ...]
    checks: tuple[StepEntry, ...]
    totals: tuple[tuple[str, str], ...]
    findings: tuple[Finding, ...]
    elsewhere: tuple[Finding, ...]


def sections(draft: Draft) -> tuple[Section, ...]:
    """All procedures of a draft, in order."""
    known = {procedure.id for procedure in draft.procedures}
    homes = {finding.id: home_of(finding, known) for finding in draft.findings}
    return tuple(_section(procedure, draft.findings, homes) for procedure in draft.procedures)


def general_findings(draft: Draft) -> tuple[Finding, ...]:
    """Findings that belong to no procedure, or to one that the draft does not hold."""
    known = {procedure.id for procedure in draft.procedures}
    return by_gravity([one for one in draft.findings if home_of(one, known) is None])


def by_gravity(findings: Sequence[Finding]) -> tuple[Finding, ...]:
    """The gravest first, then in order of the recording."""
    ranks = list(SEVERITY_WORDS)
    return tuple(sorted(findings, key=lambda one: (ranks.index(one.severity), start_of(one), one.id)))


def severity_totals(findings: Sequence[Finding]) -> str:
    """How many of each severity: `2 errors, 1 warning`; empty where there are none."""
    counts = {word: sum(one.severity == severity for one in findings) for severity, word in SEVERITY_WORDS.items()}
    return ", ".join(f"{n} {word.lower()}{'' if n == 1 else 's'}" for word, n in counts.items() if n)


def start_of(finding: Finding) -> float:
    """Seconds to the first evidence of a finding."""
    return min((one.start for one in finding.evidence), default=0.0)


def home_of(finding: Finding, known: Collection[str]) -> str | None:
    """The procedure under which a finding is listed: the first that it names and the draft holds."""
    return next((name for name in finding.procedures if name in known), None)


def fastener_totals(procedure: Procedure) -> tuple[tuple[str, str], ...]:
    """The fasteners that come out, by type, with their number: `("M4 x 16 screw, PH2", "6")`.

    A group whose number was not said, or was left open, makes the total a "6 and more" or stands as it was said.
    Where nothing comes out, the fasteners that go in are counted.
    """
    removed = [g for s in procedure.steps if s.phase in ("prepare", "remove") for g in s.fasteners]
    groups = removed or [group for step in procedure.steps for group in step.fasteners]
    types = dict.fromkeys(type_words(group) for group in groups)
    return tuple((name, _total([g for g in groups if type_words(g) == name])) for name in types)


def _total(groups: Sequence[Fastener]) -> str:
    known = sum(group.count for group in groups if group.count is not None)
    open_counts = [group.count_alternatives for group in groups if group.count is None]
    low = known + sum(min(ones) for ones in open_counts if ones)
    high = known + sum(max(ones) for ones in open_counts if ones)
    if not any(group.count is not None or group.count_alternatives for group in groups):
        return "not said"
    text = amount(low) if low == high else f"{low} to {high}"
    return text if all(open_counts) else f"{text} and more (number not said)"


def _section(procedure: Procedure, findings: Sequence[Finding], homes: Mapping[str, str | None]) -> Section:
    own = [one for one in findings if procedure.id in one.procedures]
    entries = [_entry(step, procedure, own) for step in procedure.steps]
    known = {step.id for step in procedure.steps}
    general = [notice for notice in procedure.notices if notice.step not in known]
    return Section(
        procedure=procedure,
        notices=tuple(sorted(general, key=signal_rank)),
        work=_phases([entry for entry in entries if entry.step.phase in ("prepare", "remove")]),
        reassembly=tuple(entry for entry in entries if entry.step.phase == "install"),
        checks=tuple(entry for entry in entries if entry.step.phase == "after"),
        totals=fastener_totals(procedure),
        findings=by_gravity([one for one in own if homes[one.id] == procedure.id]),
        elsewhere=by_gravity([one for one in own if homes[one.id] != procedure.id]),
    )


def _entry(step: Step, procedure: Procedure, findings: Sequence[Finding]) -> StepEntry:
    notices = sorted((notice for notice in procedure.notices if notice.step == step.id), key=signal_rank)
    cited = [one for one in findings if any(evidence.step == step.id for evidence in one.evidence)]
    return StepEntry(step, tuple(notices), by_gravity(cited))


def _phases(entries: Sequence[StepEntry]) -> tuple[PhaseEntry, ...]:
    made: list[PhaseEntry] = []
    for entry in entries:
        if made and made[-1].phase == entry.step.phase:
            made[-1] = PhaseEntry(entry.step.phase, made[-1].title, (*made[-1].steps, entry))
        else:
            made.append(PhaseEntry(entry.step.phase, PHASE_WORDS[entry.step.phase], (entry,)))
    return tuple(made)
