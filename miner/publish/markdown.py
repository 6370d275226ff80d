"""The draft as an editor reads it: Markdown, a section a procedure."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping

from miner.model.draft import Draft, InstallMode, InstallStep, Notice, Procedure, Step
from miner.model.finding import Finding
from miner.publish.outline import PhaseEntry, Section, StepEntry, general_findings, sections, severity_totals
from miner.publish.wording import (
    SAFETY,
    SEVERITY_WORDS,
    SIGNAL_WORDS,
    amount,
    clock,
    fastener_words,
    joint_words,
    same_words,
    span,
    suggestion_words,
)

_NO_STEPS: dict[InstallMode, str] = {
    "reverse": "In reverse order of the removal.",
    "explicit": "As told in the recording.",
    "none": "Nothing was said about putting it back.",
}
_SPECIAL = re.compile(r"([\\`*_\[\]<>|#~])")


def write(draft: Draft) -> bytes:
    """The draft as UTF-8 Markdown."""
    return render(draft).encode()


def render(draft: Draft) -> str:
    """The draft as Markdown text."""
    lines = [*_head(draft)]
    for section in sections(draft):
        lines += _procedure(section)
    if general := general_findings(draft):
        lines += ["## Findings about the whole recording", "", *_findings(general)]
    lines += _parts(draft)
    lines += _repairs(draft)
    return "\n".join(lines).rstrip() + "\n"


def plain(text: str) -> str:
    """Words of the recording, safe inside a line of Markdown."""
    return _SPECIAL.sub(r"\\\1", " ".join(text.split()))


def _head(draft: Draft) -> Iterator[str]:
    recording = draft.recording
    product = " ".join(word for word in (recording.product, recording.model) if word)
    yield from (f"# {plain(recording.title or recording.id)}", "")
    if product:
        yield f"- Product: {plain(product)}"
    yield f"- Recording: {plain(recording.source)} ({recording.format}, {clock(recording.duration)})"
    yield f"- Procedures: {len(draft.procedures)}"
    yield f"- Findings: {severity_totals(draft.findings) or 'none'}"
    yield from ("", f"_{SAFETY}_", "")


def _procedure(section: Section) -> Iterator[str]:
    procedure = section.procedure
    yield from (f"## {plain(procedure.title)}", "")
    yield from _facts(section)
    yield from _notices(section.notices)
    for phase in section.work:
        yield from _phase(phase)
    yield from _reassembly(section)
    if section.checks:
        yield from ("### Checks afterwards", "", *_entries(section.checks))
    if section.findings or section.elsewhere:
        yield from ("### Findings", "", *_findings(section.findings))
        for one in section.elsewhere:
            yield f"- {SEVERITY_WORDS[one.severity]} `{one.check}`: see procedure {one.procedures[0]}."
        yield ""


def _facts(section: Section) -> Iterator[str]:
    procedure = section.procedure
    yield f"- Procedure {procedure.id}, {span(procedure.start, procedure.end)}"
    yield f"- Subject: {plain(procedure.subject)} ({procedure.kind}){_inferred(procedure.inferred, 'subject', 'kind')}"
    if not procedure.heading.spoken:
        yield f"- Title inferred: {plain(procedure.inferred.get('title', 'no heading was spoken'))}"
    elif not same_words(procedure.heading.text, procedure.title):
        yield f'- Heading as said ({clock(procedure.heading.start)}): "{plain(procedure.heading.text)}"'
    yield from _list("Must be out already", _prerequisites(procedure))
    yield from _list("Preparations", (f"{plain(one.text)} ({clock(one.start)})" for one in procedure.preparations))
    yield from _list("Tools", map(plain, procedure.tools))
    yield from _list("Fasteners", (f"{plain(name)}: {number}" for name, number in section.totals))
    yield ""


def _prerequisites(procedure: Procedure) -> Iterator[str]:
    for one in procedure.prerequisites:
        where = f"procedure {one.procedure}" if one.procedure else "no procedure removes it"
        yield f"{plain(one.part)} ({where}, {clock(one.start)})"


def _list(title: str, items: Iterable[str]) -> Iterator[str]:
    found = list(items)
    if found:
        yield f"- {title}:"
        yield from (f"  - {item}" for item in found)


def _phase(phase: PhaseEntry) -> Iterator[str]:
    yield from (f"### {phase.title}", "", *_entries(phase.steps))


def _entries(entries: Iterable[StepEntry]) -> Iterator[str]:
    for entry in entries:
        yield from _notices(entry.notices)
        yield from _step(entry.step)
        for one in entry.findings:
            yield f"   - {SEVERITY_WORDS[one.severity]} here: `{one.check}` (see Findings)"
        yield ""


def _notices(notices: Iterable[Notice]) -> Iterator[str]:
    for notice in notices:
        yield from (f"> **{SIGNAL_WORDS[notice.kind]}** {plain(notice.text)} ({clock(notice.start)})", "")


def _step(step: Step) -> Iterator[str]:
    condition = f"_{plain(step.condition)}:_ " if step.condition else ""
    yield f"{step.number}. **{clock(step.start)}** {condition}{plain(step.text)}"
    for group in step.fasteners:
        joint = joint_words(group)
        where = f", {plain(group.location)}" if group.location else ""
        yield f"   - {plain(fastener_words(group))}{where}{f' ({plain(joint)})' if joint else ''}"
    if step.tools:
        yield f"   - Tools: {plain(', '.join(step.tools))}"
    if step.supplies:
        yield f"   - Supplies: {plain(', '.join(step.supplies))}"
    if not same_words(step.text, step.spoken):
        yield f'   - As said: "{plain(step.spoken)}"'
    for name, reason in step.inferred.items():
        yield f"   - Inferred, not said: {plain(name)} ({plain(reason)})"


def _reassembly(section: Section) -> Iterator[str]:
    install = section.procedure.install
    yield from ("### Reassembly", "")
    if install.text and install.start is not None:
        yield from (f'Said at {clock(install.start)}: "{plain(install.text)}"', "")
    if section.reassembly:
        yield from _entries(section.reassembly)
    if install.steps and install.mode != "explicit":
        yield from ("Inferred by reversing the removal:", "", *_reversed(install.steps), "")
    if not section.reassembly and not install.steps:
        yield from (_NO_STEPS[install.mode], "")


def _reversed(steps: Iterable[InstallStep]) -> Iterator[str]:
    for number, step in enumerate(steps, 1):
        yield f"{number}. {plain(step.text)} (undoes {step.from_step})"
        yield from (f"   - {plain(fastener_words(group))}" for group in step.fasteners)


def _findings(findings: Iterable[Finding]) -> Iterator[str]:
    for one in findings:
        branch = f" Only in one variant: {plain(one.branch)}." if one.branch else ""
        yield f"- **{SEVERITY_WORDS[one.severity]}** `{one.check}`: {plain(one.message)}{branch}"
        for evidence in one.evidence:
            step = f", {evidence.step}" if evidence.step else ""
            yield f'  - {clock(evidence.start)}{step}: "{plain(evidence.quote)}"'
        if one.suggestion is not None:
            yield f"  - Suggested: {plain(suggestion_words(one.suggestion))}"
    yield ""


def _inferred(reasons: Mapping[str, str], *names: str) -> str:
    found = "; ".join(f"{name}: {plain(reasons[name])}" for name in names if name in reasons)
    return f" (inferred, {found})" if found else ""


def _parts(draft: Draft) -> Iterator[str]:
    """The rows of the parts list that the recording speaks of; nothing without a parts list."""
    if not draft.parts:
        return
    yield from ("## Parts of the parts list", "")
    yield "| Number | Part | Quantity | Called in the recording | First at |"
    yield "| --- | --- | ---: | --- | ---: |"
    for one in draft.parts:
        quantity = "" if one.quantity is None else amount(one.quantity)
        cells = (plain(one.number), plain(one.name), quantity, plain(", ".join(one.called)), clock(one.start))
        yield f"| {' | '.join(cells)} |"
    yield ""


def _repairs(draft: Draft) -> Iterator[str]:
    if draft.repairs:
        yield from ("## Changes to the transcript", "")
        for one in draft.repairs:
            yield f'- {clock(one.start)} {one.kind}: "{plain(one.from_)}" to "{plain(one.to)}" ({plain(one.reason)})'
        yield ""
    if draft.new_terms:
        yield from ("## Terms that the lexicon does not know", "")
        for term in draft.new_terms:
            yield f"- {plain(term.term)} ({term.count} x, first at {clock(term.start)})"
        yield ""
