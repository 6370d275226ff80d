"""Parts list -> the draft with its names: a part that is listed gets the list's name, and the draft tells its number.

A name is only changed where it plainly means one row: the same words, another name of the list, a trade synonym, or a
shortened name that neither the list nor the recording gives to a second part. What tells sides apart is kept ("left
side panel" stays, though the list has one side panel). The texts of steps stay as said.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field, replace

from miner.findings.parts_list import fits, is_screw, told_words
from miner.lexicon.loading import Lexicon
from miner.model.draft import Draft, Fastener, Install, ListedPart, Prerequisite, Procedure, Step
from miner.model.finding import Finding
from miner.model.graph import Graph
from miner.model.naming import SIDES, PartNames, part_key, part_words
from miner.readers.parts_list import PartsList, PartsRow


def with_listed_parts(draft: Draft, parts_list: PartsList, lexicon: Lexicon) -> Draft:
    """The draft in the names of the parts list, with the listed parts that the recording speaks of."""
    names = _Names.of(draft, parts_list, lexicon)
    return replace(
        draft,
        procedures=tuple(_procedure(one, names) for one in draft.procedures),
        findings=tuple(_finding(one, names) for one in draft.findings),
        graph_=Graph(
            tuple(replace(node, part=names.canonical(node.part) or node.part) for node in draft.graph_.nodes),
            draft.graph_.edges,
        ),
        parts=tuple(_listed(draft, names)),
    )


@dataclass(slots=True)
class _Names:
    """What each name of the recording is called in the parts list."""

    parts_list: PartsList
    names: PartNames
    synonyms: dict[str, tuple[str, ...]] = field(default_factory=dict)

    @classmethod
    def of(cls, draft: Draft, parts_list: PartsList, lexicon: Lexicon) -> _Names:
        said = (name for name, _ in _said(draft))
        listed = (name for row in parts_list.rows for name in (row.name, *row.others))
        synonyms = {part_key(term): tuple(map(part_key, one.terms)) for one in lexicon.synonyms for term in one.terms}
        return cls(parts_list, PartNames([*said, *listed]), synonyms)

    def row(self, name: str | None) -> PartsRow | None:
        """The row that a name plainly means."""
        own, index = part_key(name), self.parts_list.index
        for key in (own, self.names.key(name), _plain(own), *self.synonyms.get(own, ())):
            if key in index:
                return index[key]
        return None

    def canonical(self, name: str | None) -> str | None:
        """The listed name where it differs from what was said; None where nothing is to change."""
        row = self.row(name)
        if row is None or part_key(row.name) == part_key(name):
            return None
        sides = SIDES & set(part_words(name or ""))
        return _running(row.name) if sides <= set(part_words(row.name)) else None


def _running(name: str) -> str:
    """A listed name as it stands in running text: "Water Tank" gives "water tank", "PCB holder" stays."""
    return " ".join(word.lower() if word.istitle() else word for word in name.split())


def _plain(key: str) -> str:
    """A name without the words that tell sides apart."""
    return " ".join(word for word in key.split() if word not in SIDES)


def _said(draft: Draft) -> Iterator[tuple[str, float]]:
    """Every name of a part with the time at which it is said, seconds."""
    for procedure in draft.procedures:
        yield procedure.subject, procedure.heading.start
        yield from ((one.part, one.start) for one in procedure.prerequisites)
        for step in procedure.steps:
            fastened = (name for group in step.fasteners for name in (group.secures, group.to))
            yield from ((name, step.start) for name in (step.part, step.from_, *fastened) if name)


def _listed(draft: Draft, names: _Names) -> Iterator[ListedPart]:
    """The rows that the recording speaks of, in order of the list, with what they were called and since when."""
    called: dict[int, dict[str, None]] = {}
    since: dict[int, float] = {}
    for name, start in (*_said(draft), *_screws(draft, names.parts_list)):
        row = names.row(name) or next((one for one in names.parts_list.rows if told_words(one.fastener) == name), None)
        if row is not None:
            called.setdefault(row.line, {})[name] = None
            since[row.line] = min(start, since.get(row.line, start))
    for row in names.parts_list.rows:
        if row.line in called:
            yield ListedPart(row.name, row.number, row.quantity, tuple(called[row.line]), since[row.line])


def _screws(draft: Draft, parts_list: PartsList) -> Iterator[tuple[str, float]]:
    """Screws of which enough is said that one row alone fits, under the words of that row."""
    rows = [row for row in parts_list.rows if row.fastener and is_screw(row.fastener)]
    for procedure in draft.procedures:
        for step in procedure.steps:
            for group in step.fasteners:
                fitting = [row for row in rows if row.fastener and fits(group, row.fastener)]
                if len(fitting) == 1 and is_screw(group) and (group.length_mm is not None or group.thread):
                    yield told_words(fitting[0].fastener), step.start


@dataclass(slots=True)
class _Renaming:
    """Fields renamed so far, with the reason to tell the editor."""

    names: _Names
    reasons: dict[str, str]

    def __call__(self, name: str | None, field_name: str) -> str | None:
        new = self.names.canonical(name)
        if new is None or name is None:
            return name
        reason = f'"{new}" in the parts list, called "{name}" in the recording'
        earlier = self.reasons.get(field_name)
        self.reasons[field_name] = f"{earlier}; {reason}" if earlier and reason not in earlier else reason
        return new


def _procedure(procedure: Procedure, names: _Names) -> Procedure:
    reasons = dict(procedure.inferred)
    rename = _Renaming(names, reasons)
    prerequisites = tuple(_prerequisite(one, rename) for one in procedure.prerequisites)
    subject = rename(procedure.subject, "subject") or procedure.subject
    return replace(
        procedure,
        subject=subject,
        prerequisites=prerequisites,
        steps=tuple(_step(one, names) for one in procedure.steps),
        install=_install(procedure.install, names),
        inferred=reasons,
    )


def _prerequisite(one: Prerequisite, rename: _Renaming) -> Prerequisite:
    return replace(one, part=rename(one.part, "prerequisites") or one.part)


def _step(step: Step, names: _Names) -> Step:
    reasons = dict(step.inferred)
    rename = _Renaming(names, reasons)
    return replace(
        step,
        part=rename(step.part, "part"),
        from_=rename(step.from_, "from"),
        fasteners=_groups(step.fasteners, rename),
        inferred=reasons,
    )


def _groups(groups: Iterable[Fastener], rename: _Renaming) -> tuple[Fastener, ...]:
    return tuple(replace(one, secures=rename(one.secures, "secures"), to=rename(one.to, "to")) for one in groups)


def _install(install: Install, names: _Names) -> Install:
    rename = _Renaming(names, {})
    steps = (
        replace(one, part=rename(one.part, "part"), fasteners=_groups(one.fasteners, rename)) for one in install.steps
    )
    return replace(install, steps=tuple(steps))


def _finding(finding: Finding, names: _Names) -> Finding:
    """The finding with its suggestion in the list's names; what the list has settled needs no suggestion any more."""
    fix = finding.suggestion
    if fix is None or fix.field not in ("part", "subject", "prerequisites"):
        return finding
    old, new = names.canonical(fix.from_) or fix.from_, names.canonical(fix.to) or fix.to
    return replace(finding, suggestion=None if old == new else replace(fix, from_=old, to=new))
