"""A step in the making, and how the fasteners and sizes of several clauses come together in it."""

from __future__ import annotations

import re
from dataclasses import dataclass, field, replace

from miner.language.annotations import Annotations, Clause, Group, Measure
from miner.language.fasteners import measured, merge
from miner.language.numbers import ANY, value_of
from miner.lexicon.inflection import plural
from miner.model.draft import Phase

SIZED = ("screw", "bolt", "nut")
DRIVEN = (*SIZED, "hose clamp")
"""Kinds that a driver or spanner turns."""
_COUNT_TOLD = re.compile(
    r"\b(?:there(?:'s|'re| is| are)|you(?:'ve got| have|'ll find|'ll see)|it's|that's|we've got|got)"
    rf"(?: only| just| about)? (?:(?P<a>{ANY}) (?:or|to|maybe) )?(?P<b>{ANY}) of (?:them|those|these|em)\b"
    rf"|\ball (?P<all>{ANY}) of (?:them|those|these|em)\b"
    rf"|^\W*(?P<apart>{ANY}) of (?:them|those|these|em)(?=\W*$| ?[,.])"
    rf"|\b(?:there's|there are|there're|you've got) (?P<bare>{ANY})(?= ?[,.]|\W*$)"
)
_BOTH = re.compile(
    r"\bboth of (?:them|those|these|em)\b|\b(?:them|those|these) both\b|\bboth (?:out|off|in|on|up|loose)\b"
)
_ALL = re.compile(r"\ball\b")
_BEYOND = frozenset("from above below away gap up out clearance of deep".split())
_BEFORE = frozenset("about roughly by until to than".split())


@dataclass(slots=True)
class StepFound:
    """Token ranges, what is done to what, and the fasteners.

    `sentence` and `last_sentence` are the first and the last sentence that add to it; `described` is true while the
    last clause only described. `inferred` maps a field to the reason why it was inferred. `late` are the words by
    which the speaker owned up that the step should have come earlier.
    """

    ranges: list[tuple[int, int]]
    clause: Clause
    phase: Phase
    action: str | None = None
    effect: str = ""
    part: str | None = None
    source: str | None = None
    groups: list[Group] = field(default_factory=list)
    tools: list[str] = field(default_factory=list)
    manner: str | None = None
    condition: str | None = None
    inferred: dict[str, str] = field(default_factory=dict)
    sentence: int = 0
    last_sentence: int = 0
    described: bool = False
    late: str = ""

    @property
    def start(self) -> int:
        """First token."""
        return self.ranges[0][0]

    @property
    def end(self) -> int:
        """Token after the last."""
        return self.ranges[-1][1]

    @property
    def last_group(self) -> Group | None:
        """The group told last."""
        return self.groups[-1] if self.groups else None

    def add(self, clause: Clause) -> None:
        """One more clause."""
        self.ranges.append((clause.start, clause.end))
        self.last_sentence = clause.sentence
        self.described = clause.mood == "descriptive"

    def take_up(self, told: Clause, clause: Clause) -> None:
        """Takes the part told before a pronoun: in "there's a strap at the back, so pull that off", the strap."""
        if clause.pronoun and 0 <= clause.sentence - told.sentence <= 1:
            self.ranges.insert(0, (told.start, told.end))
            self.part = next((phrase.name for phrase in told.objects if not phrase.place), self.part)

    def add_tools(self, clause: Clause) -> None:
        """The tools of a clause, each once."""
        self.tools += [tool for tool in clause.tools if tool not in self.tools]


def part_of(clause: Clause) -> str | None:
    """The part that a clause acts on; None where its object is but a place."""
    return clause.object.name if clause.object and not clause.object.place else None


def fastener_name(group: Group) -> str:
    """What the fasteners themselves are called, where they are what a step works on."""
    return group.name or (plural(group.kind) if group.plural else group.kind)


def step_from(clause: Clause, phase: Phase, action: str | None, effect: str, part: str | None) -> StepFound:
    """A step that begins with a clause."""
    return StepFound(
        [(clause.start, clause.end)], clause, phase, action, effect, part,
        sentence=clause.sentence, last_sentence=clause.sentence,
    )  # fmt: skip


def merge_groups(step: StepFound, groups: list[Group]) -> None:
    """Adds groups to a step; one that tells more of a group that is there is merged with it."""
    for group in groups:
        same = [
            i
            for i, known in enumerate(step.groups)
            if known.kind == group.kind
            and _one_group(known, group)
            and (group.count is None or known.count in (None, group.count))
        ]
        same.sort(key=lambda i: (step.groups[i].count == group.count, step.groups[i].drive_size == group.drive_size, i))
        if same:
            step.groups[same[-1]] = merge(step.groups[same[-1]], group)
        else:
            step.groups.append(group)


def _one_group(first: Group, second: Group) -> bool:
    """Two tellings of one group do not differ in size."""
    pairs = ((first.drive_size, second.drive_size), (first.length_mm, second.length_mm), (first.thread, second.thread))
    return all(one is None or two is None or one == two for one, two in pairs)


def merge_measures(known: Annotations, step: StepFound, clause: Clause) -> None:
    """Gives sizes that stand outside a group ("they're T8, ten millimetres") to the group told last, or to all."""
    if not step.groups:
        return
    if not clause.groups or clause.groups[-1] not in step.groups:
        step.groups[-1] = counted_after(step.groups[-1], known.words(clause.start, clause.end))
    groups = [(group.start, group.end) for group in clause.groups]
    tools = [(t.start, t.end) for t in known.tools_between(clause.start, clause.end)] if clause.tools else []
    of_all = len(step.groups) > 1 and _ALL.search(known.words(clause.start, clause.end))
    for measure in clause.measures:
        if measure.start in known.dropped or _inside(measure, groups):
            continue
        in_tool = _inside(measure, tools)
        last = step.groups[-1]
        if (in_tool and measure.kind != "drive") or not _belongs(known, measure, last, clause):
            continue
        if of_all and not in_tool:
            step.groups = [measured(group, [measure]) for group in step.groups]
        else:
            step.groups[-1] = measured(last, [measure])


def counted_after(group: Group, words: str) -> Group:
    """The group with a count told after it: "there's five of them", "there are six or seven of those"."""
    if group.count == 1 and not group.plural and _BOTH.search(words):
        return replace(group, count=2)  # "a bolt on either side, so loosen both of them"
    told = _COUNT_TOLD.search(words) if group.count is None and not group.alternatives and group.plural else None
    if not told:
        return group
    last = int(value_of(next(told[way] for way in ("b", "all", "apart", "bare") if told[way])))
    if not told["a"]:
        return replace(group, count=last) if last > 1 else group
    return replace(group, alternatives=tuple(sorted({int(value_of(told["a"])), last})))


def _inside(measure: Measure, ranges: list[tuple[int, int]]) -> bool:
    return any(a <= measure.start < b for a, b in ranges)


def _belongs(known: Annotations, measure: Measure, group: Group, clause: Clause) -> bool:
    """Whether a size can be the group's: no drive on a clip, no distance ("raise it 5 mm") for a length."""
    if group.kind not in (DRIVEN if measure.kind == "drive" else SIZED):
        return measure.kind in ("torque", "head") or (group.kind == "hose clamp" and bool(known.breaks))
    if measure.kind != "length":
        return True
    before = known.lower[measure.start - 1] if measure.start else ""
    after = known.lower[measure.end] if measure.end < len(known.lower) else ""
    return after not in _BEYOND and (measure.long or clause.deed is None or before not in _BEFORE)
