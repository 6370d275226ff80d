"""What is published after the editor's decisions, as Markdown: the same content as `publication.py`."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator

from miner.model.draft import Draft, Fastener, InstallStep, Notice, Procedure
from miner.model.finding import Finding
from miner.publish.marks import marked_in_front, open_errors
from miner.publish.outline import Section, StepEntry, sections
from miner.publish.wording import SAFETY, SIGNAL_WORDS, clock, fastener_words, joint_words

_SPECIAL = re.compile(r"([\\`*_\[\]<>|#~&])")


def write(draft: Draft) -> bytes:
    """The publication as UTF-8 Markdown."""
    return render(draft).encode()


def render(draft: Draft) -> str:
    """The publication as Markdown text; the draft's findings are those on which nobody decided."""
    errors = open_errors(draft)
    lines = [*_head(draft, errors)]
    for section in sections(draft):
        lines += _procedure(section)
    return "\n".join(lines).rstrip() + "\n"


def _plain(text: str) -> str:
    return _SPECIAL.sub(r"\\\1", " ".join(text.split()))


def _head(draft: Draft, errors: tuple[Finding, ...]) -> Iterator[str]:
    recording = draft.recording
    yield from (f"# {_plain(recording.title or recording.id)}", "")
    product = " ".join(word for word in (recording.product, recording.model) if word)
    yield from ((f"Product: {_plain(product)}", "") if product else ())
    yield from (f"_{SAFETY}_", "")
    if errors:
        number = "1 open error" if len(errors) == 1 else f"{len(errors)} open errors"
        yield from (
            f"## Not released: {number}",
            "",
            "Nobody has decided on these yet. Each is marked in its place.",
            "",
        )
        for one in errors:
            sides = "; ".join(f'{clock(side.start)} "{_plain(side.quote)}"' for side in one.evidence)
            where = f" ({', '.join(one.procedures)})" if one.procedures else ""
            yield f"- **{_plain(one.message)}**{where}: {sides}"
        yield ""


def _procedure(section: Section) -> Iterator[str]:
    procedure = section.procedure
    yield from (f"## {_plain(procedure.title)}", "")
    yield from _marks(marked_in_front(section))
    yield from _facts(procedure, section)
    yield from _notices(section.notices)
    for phase in section.work:
        yield from (f"### {phase.title}", "")
        yield from _entries(phase.steps)
    install = procedure.install
    if section.reassembly or install.steps or install.text:
        yield from ("### Reassembly", "")
        if section.reassembly:
            yield from _entries(section.reassembly)
        elif install.steps:
            yield from (*_reversed(install.steps), "")
        else:
            yield from (f"{_plain(install.text)} ({clock(install.start or 0)})", "")
    if section.checks:
        yield from ("### Checks afterwards", "")
        yield from _entries(section.checks)


def _facts(procedure: Procedure, section: Section) -> Iterator[str]:
    rows = (
        ("Must be out already", ", ".join(_plain(one.part) for one in procedure.prerequisites)),
        ("Preparations", "; ".join(_plain(one.text) for one in procedure.preparations)),
        ("Tools", ", ".join(map(_plain, procedure.tools))),
        ("Fasteners", "; ".join(f"{_plain(name)}: {number}" for name, number in section.totals)),
    )
    yield from (f"- {name}: {words}" for name, words in rows if words)
    yield ""


def _entries(entries: Iterable[StepEntry]) -> Iterator[str]:
    for entry in entries:
        yield from _notices(entry.notices)
        yield from _marks(entry.findings)
        step = entry.step
        condition = f"_{_plain(step.condition)}:_ " if step.condition else ""
        yield f"{step.number}. {condition}{_plain(step.text)} ({clock(step.start)})"
        yield from _groups(step.fasteners)
        if step.tools:
            yield f"   - Tools: {_plain(', '.join(step.tools))}"
        if step.supplies:
            yield f"   - Supplies: {_plain(', '.join(step.supplies))}"
        yield ""


def _groups(groups: Iterable[Fastener]) -> Iterator[str]:
    for group in groups:
        joint = joint_words(group)
        yield f"   - {_plain(fastener_words(group))}{f' ({_plain(joint)})' if joint else ''}"


def _reversed(steps: Iterable[InstallStep]) -> Iterator[str]:
    for number, step in enumerate(steps, 1):
        yield f"{number}. {_plain(step.text)}"
        yield from _groups(step.fasteners)


def _notices(notices: Iterable[Notice]) -> Iterator[str]:
    for notice in notices:
        yield from (f"> **{SIGNAL_WORDS[notice.kind]}** {_plain(notice.text)}", "")


def _marks(findings: Iterable[Finding]) -> Iterator[str]:
    for one in findings:
        if one.severity == "error":
            yield from (f"> **Open error:** {_plain(one.message)}", "")
