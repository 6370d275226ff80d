"""Cuts the clauses of a job into steps: one physical operation each, with its fasteners."""

from __future__ import annotations

import re
from dataclasses import dataclass, field, replace
from typing import Literal

from miner.language.annotations import Annotations, Clause, Group, Measure
from miner.language.numbers import ANY, value_of
from miner.language.fasteners import _measured, merge
from miner.language.roles import ACTIVE
from miner.model.draft import Phase
from miner.model.naming import part_words

_TOOLING = frozenset(("take", "get", "grab", "use", "hold", "need", "find", "keep", "give", "have", "reach", "press", "put", "slide", "run", "insert", "work"))
_BACK_TO_GROUP = re.compile(r"(?:,|and|so|now|again|\s)*(?:those|these|they|they're|it's|that's|those're|these're|them|all|both|it|each|five|four|three|two|one|six|that|again)\b")
_INSTALLS = frozenset(("attach", "fasten", "connect", "close", "apply", "transfer"))
_REMOVES = frozenset(("undo", "loosen", "detach", "disconnect", "open"))
_NEW = re.compile(r"\b(?:new|replacement)\b")
_BACK = re.compile(r"\b(?:back (?:in|on|into|onto|down|up|together|over|through|under)?|goes back|go back|put back|in again|refit\w*|new)\b")
_UNTIL = re.compile(r"\b(?:until|till|til|before|after|when|once|while|where|as far as|so that|because|'cause|cause|if)\b")

State = Literal["start", "remove", "install", "after"]


@dataclass(slots=True)
class StepFound:
    """A step in the making: its token ranges, what it does to what, and its fasteners."""

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
    mood: str = ""
    sentence: int = 0
    last_sentence: int = 0
    described: bool = False

    def add(self, clause: Clause) -> None:
        """One more clause."""
        self.ranges.append((clause.start, clause.end))
        self.last_sentence = clause.sentence
        self.described = clause.mood == "descriptive"

    @property
    def start(self) -> int:
        """First token."""
        return self.ranges[0][0]

    @property
    def end(self) -> int:
        """Token after the last."""
        return self.ranges[-1][1]


_REPEAT = re.compile(r"\b(?:same (?:again|thing|way|deal|story|for|with)|likewise|exactly the same|just the same|the same way|repeat|ditto|(?:then|and) the other (?:one|side|end)|do the other|identical(?:ly)?)\b")
_COUNTED = re.compile(rf"\b({ANY}) of (?:those|them|these|em)\b")
_PART_OF_GROUP = re.compile(rf"\b{ANY} of (?:these|those|them|the {ANY})\b(?=.*\b(?:is|are|has|have|also|holds?)\b)|^\W*(?:and |while |but )*(?:the )?(?:other|remaining|rest)?\s*{ANY} (?:is|are) (?:silver|black|longer|shorter|brass|gold\w*|white|red|blue|steel|copper|zinc|long|short)")
_IDENTIFIES = re.compile(r"(?:it's|it is|that's|that is|they're|they are|those are|these are|this is|those're|there's no)\b")
_WAITS = re.compile(r"\b(?:minutes?|seconds?|hours?|a while|a moment|a bit)\b")
_NO_WORK = frozenset("look see hear watch feel know remember notice say come go listen think be want like mean hope guess wait stop love hate".split())


def _is_work(known: Annotations, clause: Clause) -> bool:
    """An instruction has something to work on; "look at that" and "come on" are none."""
    deed = clause.deed
    if deed is None or deed.verb.split()[0] in _NO_WORK:
        return False
    if known.lower[deed.start] in _NO_WORK and (deed.particle is None or deed.effect not in ("detach", "undo", "disconnect")):
        return False
    if deed.verb in ("keep", "leave", "have") and clause.mood != "imperative":
        return False
    if clause.object or clause.groups or clause.source or clause.objects:
        return True
    if clause.pronoun:
        return clause.end - clause.core > 2 or deed.particle is not None or clause.link in ("and", "then", "so")
    return deed.effect in ("isolate", "energise", "undo", "inspect", "clean") or deed.particle is not None or bool(known.breaks)


class StepCutter:
    """Takes clauses in order and keeps the steps so far; one for each job."""

    def __init__(self, known: Annotations, weak: frozenset[str], parts: frozenset[str]) -> None:
        self.known, self.weak, self.parts = known, weak, parts
        self.steps: list[StepFound] = []
        self.pending: list[Clause] = []
        self.lead: Clause | None = None
        self.state: State = "start"
        self.reversed = False
        self.fresh = True
        self.antecedent: Clause | None = None

    def sentence(self, clauses: list[Clause]) -> None:
        """Takes the clauses of one sentence."""
        self.lead = None
        self.fresh = True
        for clause in clauses:
            self._clause(clause)
            self.fresh = False
        if self.lead is not None:
            self.lead = None

    def interrupt(self) -> None:
        """Something else was said: what follows starts a new step."""
        self.fresh = True

    def finish(self) -> list[StepFound]:
        """The steps; a group that nothing was done to in so many words is taken out."""
        self._flush()
        return self.steps

    # -- one clause ---------------------------------------------------------------------------------------------

    def _clause(self, clause: Clause) -> None:
        groups = [] if _PART_OF_GROUP.search(self.known.words(clause.start, clause.end)) and not clause.deed else self._groups(clause)
        if clause.mood == "negative":
            self._extend_tail(clause)
            return
        if clause.link == "and" and self.steps and clause.sentence - self.steps[-1].last_sentence <= 1:
            self.fresh = False
        repeated = not groups and _REPEAT.search(self.known.words(clause.start, clause.end))
        if repeated and self.steps and clause.end - clause.start <= 14 and not (clause.deed and clause.mood in ("imperative", "planned") and clause.object):
            self._repeat(clause)
            return
        if clause.deed and clause.mood in ("imperative", "planned", "narrated") and not clause.subordinate and _is_work(self.known, clause):
            self._act(clause, groups)
        elif clause.deed and clause.mood == "result":
            self._result(clause, groups)
        elif groups:
            self._told_groups(clause, groups)
        else:
            self._describe(clause)

    def _groups(self, clause: Clause) -> list[Group]:
        """The groups that a clause works on: no parts of that name, none mentioned in passing."""
        kept = []
        until = None
        words = self.known.words(clause.core, clause.end)
        match = _UNTIL.search(words)
        if match and match.start() > 0:
            until = clause.core + len(words[: match.start()].split())
        for group in clause.groups:
            if group.kind in self.weak:
                name = part_words(group.name)
                if " ".join(name) in self.parts and group.count in (None, 1):
                    continue
                if until is not None and group.start > until and (group.count in (None, 1)):
                    continue
                before = self.known.tags[group.start - 1] if group.start else "."
                acted = clause.object is not None and clause.object.head == group.end - 1
                if not acted and not (group.count and group.count > 1 or group.alternatives) and (before in "pto" or clause.object is not None):
                    continue
                if not acted and group.count in (None, 1) and clause.mood == "descriptive":
                    continue
            elif until is not None and group.start > until and (group.count is None or "N" not in self.known.tags[group.start : group.end]):
                continue
            kept.append(group)
        return kept

    def _act(self, clause: Clause, groups: list[Group]) -> None:
        if self._is_wait(clause) or self._names_tool(clause, groups):
            return
        if self.pending and not groups and clause.deed and clause.deed.effect == "handle" and clause.tools and clause.sentence - self.pending[-1].sentence <= 1:
            self.pending.append(clause)  # "get a screwdriver under one end", before the group is let go
            return
        current = self.steps[-1] if self.steps else None
        if current and not self.pending and self._same_operation(current, clause, groups):
            self._join(current, clause, groups)
            return
        self._new(clause, groups)

    def _is_wait(self, clause: Clause) -> bool:
        """"Give it ten minutes" belongs to the step before."""
        deed, current = clause.deed, self.steps[-1] if self.steps else None
        if deed is None or current is None or deed.verb not in ("give", "wait", "let", "leave", "allow") or clause.sentence - current.last_sentence > 1:
            return False
        if not _WAITS.search(self.known.words(clause.start, clause.end)):
            return False
        current.add(clause)
        return True

    def _names_tool(self, clause: Clause, groups: list[Group]) -> bool:
        """"I'm using the big iron": the tool of the step before."""
        deed, current = clause.deed, self.steps[-1] if self.steps else None
        if deed is None or current is None or self.pending or deed.verb != "use" or not clause.tools or groups or clause.sentence - current.last_sentence > 1:
            return False
        current.tools += [t for t in clause.tools if t not in current.tools]
        if clause.sentence == current.last_sentence:
            current.add(clause)
        self._merge_measures(current, clause)
        return True

    def _same_operation(self, current: StepFound, clause: Clause, groups: list[Group]) -> bool:
        if self.fresh or clause.sentence - current.last_sentence > 1:
            return False
        if clause.link not in ("and", "comma", "so", "then"):
            return False
        deed = clause.deed
        assert deed is not None
        if self.known.breaks and not groups and clause.sentence == current.sentence:
            other = clause.object is not None and current.part is not None and part_words(clause.object.name)[-1] != part_words(current.part)[-1]
            return not (other and deed.effect in ("undo", "detach", "disconnect"))
        tooling = current.action in _TOOLING and current.effect in ("handle", "attach", "move", "detach") and not current.groups
        if current.part is None and not current.groups and current.clause.end == clause.start and not current.clause.pronoun and clause.link == "and":
            return True  # "twist and pull the cap off"
        if groups and not all(g.definite or g.count is None for g in groups):
            return tooling and bool(current.tools)
        if groups and current.groups:
            return all(g.kind == current.groups[-1].kind and g.count in (None, current.groups[-1].count) for g in groups) and groups[0].definite
        if deed.effect in ("inspect", "clean", "energise", "isolate") and current.effect != deed.effect and clause.pronoun is None:
            return False
        if clause.pronoun in ("it", "them", "this", "that", "those", "these", "em", "'em"):
            return self._one_movement(current.effect, deed.effect)
        if clause.object is None:
            return self._one_movement(current.effect, deed.effect) or current.effect == deed.effect
        if tooling and current.tools and clause.link in ("and", "comma"):
            return True
        return bool(current.part) and part_words(clause.object.name)[-1] == part_words(current.part or "x")[-1] and current.effect not in _REMOVES - {"detach"}

    @staticmethod
    def _one_movement(first: str, second: str) -> bool:
        """Whether a second verb finishes the movement of the first ("grab it and pull", "tilt it and lift it out")."""
        return first == "handle" or first in ("move", "detach", "open", "loosen", "undo") and second in ("detach", "move", "handle", "open")

    def _join(self, current: StepFound, clause: Clause, groups: list[Group]) -> None:
        current.add(clause)
        self._merge_groups(current, groups)
        self._merge_measures(current, clause)
        deed = clause.deed
        if current.part is None and clause.object and not clause.object.place:
            current.part = clause.object.name
        if deed and current.effect == "handle" and deed.effect not in ("handle", "inspect", "move"):
            current.action, current.effect = deed.verb, deed.effect
            if clause.object and not clause.object.place:
                current.part = clause.object.name
        if clause.source and not current.source:
            current.source = clause.source.name
        current.tools += [t for t in clause.tools if t not in current.tools]

    def _new(self, clause: Clause, groups: list[Group]) -> None:
        self._absorb_or_flush(clause, groups)
        deed = clause.deed
        assert deed is not None
        start = self.lead.start if self.lead is not None else clause.start
        phase = self._phase(clause, deed.effect, groups)
        part = clause.object.name if clause.object and not clause.object.place else None
        effect = deed.effect
        if clause.tools and clause.object is not None and part_words(clause.object.name)[-1] in {t.split()[-1] for t in clause.tools}:
            part, effect = None, "handle"  # "take the plastic pick"
        step = StepFound(
            [(start, clause.end)], clause, phase, deed.verb, effect, part,
            clause.source.name if clause.source else None, [], list(clause.tools), clause.manner, clause.condition,
            mood=clause.mood, sentence=clause.sentence, last_sentence=clause.sentence,
        )  # fmt: skip
        antecedent = self.antecedent
        self.antecedent = None
        if antecedent is not None and not self.pending and clause.pronoun and 0 <= clause.sentence - antecedent.sentence <= 1:
            step.ranges.insert(0, (antecedent.start, antecedent.end))
            named = next((p for p in antecedent.objects if not p.place), None)
            if named is not None:
                step.part = named.name
        if clause.pronoun and part and clause.mood != "narrated":
            step.inferred["part"] = f"“{clause.pronoun}” was taken for the part last worked on"
        pending = self.pending
        self.pending = []
        for told in pending:
            step.ranges.insert(len(step.ranges) - 1, (told.start, told.end))
            self._merge_groups(step, self._groups(told))
            self._merge_measures(step, told)
            if not step.part and told.object and not told.object.place:
                step.part = told.object.name
        step.ranges.sort()
        self._merge_groups(step, groups)
        self._merge_measures(step, clause)
        self.lead = None
        self.steps.append(step)

    def _repeat(self, clause: Clause) -> None:
        """"The right one comes off the same way": the step before once more, on another part."""
        last = self.steps[-1]
        verb = "repeat" if "repeat" in self.known.words(clause.start, clause.end) else last.action
        part = clause.object.name if clause.object and not clause.object.place else next((p.name for p in clause.objects if not p.place), last.part)
        phase = "after" if self.state == "after" else last.phase
        step = StepFound([(clause.start, clause.end)], clause, phase, verb, last.effect, part, mood=clause.mood,
                         sentence=clause.sentence, last_sentence=clause.sentence)  # fmt: skip
        step.inferred["action"] = "said to be done as the step before"
        self.steps.append(step)

    def _absorb_or_flush(self, clause: Clause, groups: list[Group]) -> None:
        """Keeps what was told of a group for this step if the step takes it up; else the group is a step of its own."""
        if not self.pending:
            return
        told = [g for c in self.pending for g in self._groups(c)]
        near = clause.sentence - self.pending[-1].sentence <= 2
        deed = clause.deed
        takes = near and deed is not None and deed.effect in ("undo", "detach", "loosen", "handle", "attach", "fasten", "open", "move") and (
            clause.pronoun is not None
            or any(g.kind == t.kind for g in groups for t in told)
            or (clause.object is None)
            or not told
        )
        if not takes and told and near and clause.object is not None and clause.sentence == self.pending[-1].sentence:
            takes = deed is not None and deed.effect in ("undo", "detach")
        if not takes:
            self._flush()

    def _flush(self) -> None:
        for told in self.pending:
            groups = self._groups(told)
            strong = [g for g in groups if g.count or g.alternatives or g.drive]
            if self.known.breaks:
                strong = [g for g in strong if g.drive or g.thread or g.length_mm or "x" in self.known.lower[g.start : g.end]]
            if not strong or (told.mood == "descriptive" and self.known.tags[told.core] == "O" and self.steps and not self.reversed and self.state != "install"):
                continue
            removing = self.state in ("start", "remove") and not self.reversed
            phase: Phase = "remove" if removing else "install"
            self.state = "remove" if removing else self.state
            step = StepFound([(told.start, told.end)], told, phase, "remove" if removing else "install", "undo", None,
                             sentence=told.sentence, mood=told.mood, last_sentence=told.sentence)  # fmt: skip
            step.inferred["action"] = "the fasteners were told without a verb"
            self._merge_groups(step, groups)
            self._merge_measures(step, told)
            self.steps.append(step)
        self.pending = []

    def _result(self, clause: Clause, groups: list[Group]) -> None:
        """"... and the cover comes away": part of the step that lets it go, or a step of its own."""
        current = self.steps[-1] if self.steps else None
        deed = clause.deed
        assert deed is not None
        if clause.subordinate or deed.effect in ("inspect", "handle", "energise"):
            self._describe(clause)
            return
        if self.pending and any(self._groups(c) for c in self.pending) and current is None:
            self._new(clause, groups)
            return
        if self.antecedent is not None and self.antecedent.end == clause.start and clause.pronoun:
            self._new(clause, groups)
            return
        near = current is not None and not self.fresh and clause.link in ("and", "so", "comma", "none") and clause.sentence - current.last_sentence <= 1
        if near and current is not None:
            secured = {part_words(g.secures)[-1] for g in current.groups if g.secures}
            head = part_words(clause.object.name)[-1] if clause.object else None
            own = part_words(current.part)[-1] if current.part else None
            if (current.groups and not current.described) or clause.pronoun or head is None or head == own or head in secured:
                if current.groups and clause.object and not clause.object.place:
                    current.groups = [replace(g, secures=g.secures or clause.object.name) for g in current.groups]
                current.add(clause)
                self._merge_groups(current, groups)
                if clause.source and not current.source:
                    current.source = clause.source.name
                return
        if deed.effect in ("detach", "undo", "disconnect", "open", "attach", "fasten", "move", "connect", "close"):
            if self.pending and clause.object and self.pending[-1].sentence == clause.sentence:
                self._new(clause, groups)
                return
            if deed.effect == "move" and not re.search(r"\b(?:out|off|away|up|down|free|clear)\b", self.known.words(deed.start, clause.end)):
                self._describe(clause)
                return
            self._new(clause, groups)

    def _told_groups(self, clause: Clause, groups: list[Group]) -> None:
        """A group told without an action: more of the group just worked on, or the group that the next step takes."""
        current = self.steps[-1] if self.steps else None
        text = self.known.words(clause.start, clause.end)
        if self.pending and clause.sentence - self.pending[-1].sentence <= 1:
            self.pending.append(clause)
            return
        same_run = current is not None and clause.sentence - current.last_sentence <= 1
        if same_run and current is not None and current.groups and current.groups[-1].count is None and not current.groups[-1].alternatives:
            if all(g.kind == current.groups[-1].kind for g in groups) and self.state != "install":
                current.add(clause)  # "take out the screws, there's nine of them"
                self._merge_groups(current, groups)
                self._merge_measures(current, clause)
                return
        if same_run and current is not None and current.groups and self.state != "install" and _BACK_TO_GROUP.match(text) and not self.reversed:
            if all(g.kind == current.groups[-1].kind for g in groups) and (current.groups[-1].count is None or groups[0].count in (None, current.groups[-1].count)):
                current.add(clause)
                self._merge_groups(current, groups)
                self._merge_measures(current, clause)
                return
        if same_run and current is not None and not self.fresh and clause.link != "then" and current.sentence == clause.sentence and current.effect in ("undo", "detach", "loosen", "handle", "attach") and not current.groups:
            current.add(clause)
            self._merge_groups(current, groups)
            self._merge_measures(current, clause)
            return
        if _BACK.search(text) and self.steps:
            self.state = "install"
        self.pending.append(clause)

    def _describe(self, clause: Clause) -> None:
        """Sizes of the group at hand, or a few words about the part at hand in the same sentence."""
        if self.pending and clause.sentence - self.pending[-1].sentence <= 1 and (clause.measures or clause.sentence == self.pending[-1].sentence):
            self.pending.append(clause)
            return
        current = self.steps[-1] if self.steps else None
        if clause.mood == "fragment" and (self.fresh or self.lead is not None) and not clause.measures:
            if self.lead is None:
                self.lead = clause
            return
        words = self.known.words(clause.core, clause.end)
        if current is not None and current.groups and clause.sentence - current.last_sentence <= 1:
            counted = _COUNTED.search(words)
            if counted and current.groups[-1].count is None and not current.groups[-1].alternatives:
                current.add(clause)
                current.groups[-1] = replace(current.groups[-1], count=int(value_of(counted[1])))
                return
        if clause.mood == "descriptive" and not clause.deed and clause.end - clause.start <= 24:
            self.antecedent = clause
        if current is None:
            return
        near = clause.sentence - current.last_sentence <= 1
        if near and clause.measures and current.groups:
            current.add(clause)
            self._merge_measures(current, clause)
        elif near and _IDENTIFIES.match(words) and clause.end - clause.start <= 14 and self.known.tags[clause.core + (2 if words.startswith(("those are", "these are", "they are", "it is", "that is", "this is")) else 1) : clause.end][:1] in tuple("DZNp"):
            current.add(clause)
            self.antecedent = None
        elif current.sentence == clause.sentence and not self.fresh and clause.end - clause.start <= 16:
            current.ranges.append((clause.start, clause.end))

    def _extend_tail(self, clause: Clause) -> None:
        current = self.steps[-1] if self.steps else None
        if current is not None and current.sentence == clause.sentence and not self.fresh:
            current.ranges.append((clause.start, clause.end))

    # -- fasteners ----------------------------------------------------------------------------------------------

    def _merge_groups(self, step: StepFound, groups: list[Group]) -> None:
        for group in groups:
            same = [i for i, g in enumerate(step.groups) if g.kind == group.kind and self._one_group(g, group) and (group.count is None or g.count in (None, group.count))]
            same.sort(key=lambda i: (step.groups[i].count == group.count, step.groups[i].drive_size == group.drive_size, i))
            if same:
                step.groups[same[-1]] = merge(step.groups[same[-1]], group)
            else:
                step.groups.append(group)

    @staticmethod
    def _one_group(first: Group, second: Group) -> bool:
        """Two tellings of one group do not differ in size."""
        return (
            (first.drive_size is None or second.drive_size in (None, first.drive_size))
            and (first.length_mm is None or second.length_mm in (None, first.length_mm))
            and (first.thread is None or second.thread in (None, first.thread))
        )

    def _merge_measures(self, step: StepFound, clause: Clause) -> None:
        if not step.groups:
            return
        inside = [(g.start, g.end) for g in clause.groups]
        tools = [(t.start, t.end) for t in self.known.tools if clause.start <= t.start < clause.end] if clause.tools else []
        floating = [m for m in clause.measures if not any(a <= m.start < b for a, b in inside) and m.start not in self.known.dropped]
        for measure in floating:
            in_tool = any(a <= measure.start < b for a, b in tools)
            wanted: Measure = measure
            if in_tool and measure.kind != "drive":
                continue
            last = step.groups[-1]
            if measure.kind == "length" and last.kind not in ("screw", "bolt", "nut"):
                continue
            if measure.kind in ("drive", "thread") and last.kind not in ("screw", "bolt", "nut"):
                continue
            if measure.kind == "length" and not self._length_of_group(measure, clause):
                continue
            step.groups = [_measured(g, [wanted]) for g in step.groups] if len(step.groups) > 1 and not in_tool and re.search(r"\ball\b", self.known.words(clause.start, clause.end)) else [*step.groups[:-1], _measured(last, [wanted])]

    def _length_of_group(self, measure: Measure, clause: Clause) -> bool:
        """A length that a distance or gap was given by ("raise it 5 mm", "about 10 mm from the edge") is no screw's."""
        before = self.known.lower[measure.start - 1] if measure.start else ""
        after = self.known.lower[measure.end] if measure.end < len(self.known.lower) else ""
        return after not in ("from", "above", "below", "away", "gap", "up", "out", "clearance", "of", "deep") and before not in ("about", "roughly", "by", "until", "to", "than")

    # -- phases -------------------------------------------------------------------------------------------------

    def _phase(self, clause: Clause, effect: str, groups: list[Group]) -> Phase:
        words = self.known.words(clause.start, clause.end)
        object_words = self.known.words(clause.object.start, clause.object.end) if clause.object else ""
        removed = self.state != "start"
        if self.state == "after" and effect not in _REMOVES:
            return "after"
        if self.state in ("install",) and effect == "inspect":
            return "after"
        if self.reversed and effect in ("inspect", "energise", "adjust"):
            self.state = "after"
            return "after"
        if (removed or _NEW.search(object_words)) and (effect in _INSTALLS or _NEW.search(object_words) or (_BACK.search(words) and effect in ("attach", "fasten", "connect", "handle", "move", "detach", "close"))):
            if not (effect in _REMOVES and not _BACK.search(words)):
                self.state = "install"
                return "install"
        if self.state == "install":
            if effect in ("undo", "disconnect") and not _BACK.search(words):
                self.state = "remove"
                return "remove"
            return "install"
        if self.reversed:
            return "install"
        if effect in _REMOVES or groups:
            self.state = "remove"
            return "remove"
        if not removed and effect in ("isolate", "energise", "inspect", "adjust", "move", "handle", "connect", "apply", "attach", "close", "fasten", "clean"):
            return "prepare"
        return "remove"
