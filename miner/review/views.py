"""What the page of a recording shows, put together from the draft, its decisions and the filters."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import cached_property

from miner.decisions.applying import notice_keys
from miner.decisions.decision import Decision
from miner.decisions.items import edge_id, step_key
from miner.decisions.opening import Decided
from miner.model.draft import Draft, Notice, Step
from miner.model.finding import Evidence, Finding
from miner.model.graph import Edge
from miner.publish.outline import Section, general_findings, home_of, sections
from miner.publish.wording import SEVERITY_WORDS
from miner.review.context import Transcript
from miner.review.editing import correction_of, settled_by
from miner.review.filters import Filters
from miner.review.library import Entry
from miner.review.wording import change_rows, phrase


@dataclass(frozen=True)
class RecordingView:
    """One recording. `latest` holds the last decision on each item, also those that were taken back."""

    entry: Entry
    decided: Decided
    latest: Mapping[str, Decision]
    transcript: Transcript
    filters: Filters
    media: str = ""  # `video`, `audio` or nothing

    @cached_property
    def standing(self) -> dict[str, Decision]:
        """The decisions that hold for this draft, by item."""
        return {one.item: one for one in self.decided.matched.holding}

    @cached_property
    def findings(self) -> tuple[Finding, ...]:
        """All findings that pass the filters, the decided ones among them."""
        placed = {one.id: one for one in self.decided.draft.findings}  # evidence follows joined steps
        return self.filters.shown([placed.get(one.id, one) for one in self.decided.mined.findings], self.standing)

    @cached_property
    def draft(self) -> Draft:
        """The draft as decided, with the findings to show."""
        return replace(self.decided.draft, findings=self.findings)

    @cached_property
    def sections(self) -> tuple[Section, ...]:
        """The procedures laid out; with `only`, those without a shown finding are left out."""
        found = sections(self.draft)
        return tuple(one for one in found if one.findings or one.elsewhere) if self.filters.only else found

    @cached_property
    def general(self) -> tuple[Finding, ...]:
        """Findings about the whole recording."""
        return general_findings(self.draft)

    @cached_property
    def places(self) -> dict[str, str]:
        """Where each finding stands in full: the first step of its home procedure that it cites, else the procedure."""
        known = {procedure.id for procedure in self.draft.procedures}
        steps = {step.id: procedure.id for procedure in self.draft.procedures for step in procedure.steps}
        made = {}
        for one in self.findings:
            home = home_of(one, known)
            cited = (side.step for side in one.evidence if side.step and steps.get(side.step) == home)
            made[one.id] = next(cited, home or "")
        return made

    @cached_property
    def cited(self) -> frozenset[str]:
        """Ids of the steps that a shown finding cites."""
        return frozenset(side.step for one in self.findings for side in one.evidence if side.step)

    @cached_property
    def notices(self) -> dict[tuple[str, Notice], str]:
        """Keys of notices, by procedure and notice."""
        made: dict[tuple[str, Notice], str] = {}
        for mined, now in zip(self.decided.mined.procedures, self.draft.procedures, strict=True):
            keys = notice_keys(mined, self.decided.items, self.decided.matched.holding)
            for key, notice in zip(keys, now.notices, strict=True):
                made.setdefault((now.id, notice), key)
        return made

    @property
    def total(self) -> int:
        """How many findings there are, shown or not."""
        return len(self.decided.mined.findings)

    @property
    def done(self) -> int:
        """How many of them are decided."""
        return sum(f"finding:{one.id}" in self.standing for one in self.decided.mined.findings)

    @cached_property
    def open_counts(self) -> list[tuple[str, int]]:
        """Open findings by severity, the gravest first."""
        found = Counter(one.severity for one in self.decided.draft.findings)
        return [(word, found[severity]) for severity, word in SEVERITY_WORDS.items() if found[severity]]

    @property
    def checks(self) -> list[str]:
        """The checks that found something."""
        return sorted({one.check for one in self.decided.mined.findings})

    def last_act_by(self, who: str) -> Decision | None:
        """The last decision of an editor that is not itself an undoing."""
        acts = [one for one in self.latest.values() if one.undoes is None and one.who == who]
        return max(acts, key=lambda one: one.act, default=None)

    @property
    def last_number(self) -> int:
        """The number of the last act, 0 before the first."""
        return max((one.act for one in self.latest.values()), default=0)

    def key_of(self, step: Step) -> str:
        """The key of a step."""
        return step_key(self.decided.items, step.id)

    def procedure_key(self, name: str) -> str:
        """The key of a procedure, by its id."""
        return self.decided.items.key("procedure", name)

    def notice_key(self, procedure: str, notice: Notice) -> str:
        """The key of a notice."""
        return self.notices[procedure, notice]

    def version(self, key: str) -> int:
        """The version of an item that this page shows."""
        return self.latest[key].version if key in self.latest else 0

    def decision(self, finding: Finding) -> Decision | None:
        """What was decided on a finding."""
        return self.standing.get(f"finding:{finding.id}")

    def correction(self, finding: Finding) -> tuple[str, list[tuple[str, str]]] | None:
        """Key of the item that accepting corrects, and the new values in words."""
        made = correction_of(finding, self.decided)
        return (made[0], change_rows(made[1], self.name)) if made else None

    def target(self, finding: Finding) -> str | None:
        """Key of what an editor corrects first: what is suggested, else a step of the evidence, else the job."""
        if made := correction_of(finding, self.decided):
            return made[0]
        steps = {step.id: step for procedure in self.draft.procedures for step in procedure.steps}
        cited = next((steps[side.step] for side in finding.evidence if side.step in steps), None)
        if cited is not None and (finding.suggestion is None or finding.suggestion.target not in finding.procedures):
            return self.key_of(cited)
        home = home_of(finding, {procedure.id for procedure in self.draft.procedures})
        return self.procedure_key(home) if home else None

    @cached_property
    def order(self) -> list[str]:
        """Ids of the findings in the order in which they stand on the page."""
        by_place: dict[str, list[str]] = {}
        for section in self.sections:
            for one in section.findings:
                by_place.setdefault(self.places[one.id], []).append(one.id)
        made = []
        for section in self.sections:
            entries = [*(e for phase in section.work for e in phase.steps), *section.reassembly, *section.checks]
            for place in (section.procedure.id, *(entry.step.id for entry in entries)):
                made += by_place.get(place, [])
        return [*made, *(one.id for one in self.general)]

    def next_open(self, key: str) -> str | None:
        """The id of the next open finding after one, going round; None when all is decided."""
        waiting = [one for one in self.order if f"finding:{one}" not in self.standing]
        here = key.removeprefix("finding:")
        if here not in self.order:
            return None
        later = self.order[self.order.index(here) :]
        return next((one for one in later if one in waiting), waiting[0] if waiting else None)

    def corrected(self, key: str) -> Decision | None:
        """The correction of an item that holds, if there is one."""
        return self.standing.get(key)

    def freed(self, key: str) -> list[str]:
        """Findings that open again when the correction of an item is taken back."""
        return settled_by(key, self.latest)

    def settleable(self, step: Step) -> list[Finding]:
        """Open findings that cite a step."""
        return [one for one in self.decided.draft.findings if any(side.step == step.id for side in one.evidence)]

    def settleable_in(self, procedure: str) -> list[Finding]:
        """Open findings about a procedure."""
        return [one for one in self.decided.draft.findings if procedure in one.procedures]

    def around(self, side: Evidence) -> tuple[str, str]:
        """The words before and after a piece of evidence."""
        return self.transcript.around(side.start, side.end)

    def line(self, time: float) -> int:
        """The number of the transcript's line at a time."""
        return self.transcript.at(time)

    def edges(self) -> list[tuple[Edge, str, Decision | None]]:
        """All edges as mined, with key and decision."""
        keyed = [(edge, self.decided.items.key("edge", edge_id(edge))) for edge in self.decided.mined.graph_.edges]
        return [(edge, key, self.standing.get(key)) for edge, key in keyed]

    def part(self, node: str) -> str:
        """The name of a node's part."""
        return self.parts.get(node, node)

    @cached_property
    def parts(self) -> dict[str, str]:
        """Names of parts by node."""
        return {node.id: node.part for node in self.decided.mined.graph_.nodes}

    def name(self, key: str) -> str:
        """What an item is called on the page."""
        item = self.decided.items.get(key)
        if item is None:
            return "a new notice" if key.startswith("notice:new") else "an item that is not in this draft any more"
        if item.kind == "finding":
            return f"finding \u201c{self.messages[item.id]}\u201d"
        return f"{item.kind} {item.id}{key.partition('/')[2] and ', part ' + key.partition('/')[2]}"

    @cached_property
    def messages(self) -> dict[str, str]:
        """What each finding says, by id."""
        return {one.id: one.message for one in self.decided.mined.findings}

    def phrase(self, decision: Decision) -> str:
        """A decision in a few words."""
        return phrase(decision)

    def rows(self, decision: Decision) -> list[tuple[str, str]]:
        """What a decision changes, in words."""
        return change_rows(decision.changes, self.name)
