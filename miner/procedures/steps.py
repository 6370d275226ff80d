"""Cuts the clauses of a job into steps: one physical operation each, with its fasteners."""

from __future__ import annotations

import re
from dataclasses import replace

from miner.language.annotations import Annotations, Clause, Group
from miner.language.numbers import ANY, value_of
from miner.model.draft import Phase
from miner.model.naming import part_words
from miner.procedures.phases import BACK, REMOVES, Course
from miner.procedures.step_found import StepFound, merge_groups, merge_measures, step_from
from miner.procedures.work import is_wait, is_work, splits_group, worked_groups

_TOOLING = frozenset("take get grab use hold need find keep give have reach press put slide run insert work".split())
_IT = frozenset(("it", "them", "this", "that", "those", "these", "em", "'em"))
_BACK_TO_GROUP = re.compile(
    r"(?:,|and|so|now|again|\s)*(?:those|these|they|they're|it's|that's|those're|these're|them|all|both|it|each|"
    r"five|four|three|two|one|six|that|again)\b"
)
_REPEAT = re.compile(
    r"\b(?:same (?:again|thing|way|deal|story|for|with)|likewise|exactly the same|just the same|the same way|repeat|ditto|"
    r"(?:then|and) the other (?:one|side|end)|do the other|identical(?:ly)?)\b"
)
_COUNTED = re.compile(rf"\b({ANY}) of (?:those|them|these|em)\b")
_IDENTIFIES = re.compile(
    r"(?:it's|that's|they're|those're|there's no|(?:it|that|they|those|these|this) (?:is|are)|this is)\b"
)
_APART = re.compile(r"\b(?:out|off|away|up|down|free|clear)\b")


def _head(name: str | None) -> str:
    return part_words(name)[-1] if name else ""


def _part_of(clause: Clause) -> str | None:
    return clause.object.name if clause.object and not clause.object.place else None


class StepCutter:
    """Takes clauses in order and keeps the steps so far; one for each job.

    `pending` are clauses that told of a group before anything was done to it; `antecedent` is a clause that only
    described and that a pronoun in the next one may mean; `lead` is a phrase that opens the next instruction.
    """

    def __init__(self, known: Annotations, weak: frozenset[str], parts: frozenset[str]) -> None:
        self.known, self.weak, self.parts = known, weak, parts
        self.course = Course()
        self.steps: list[StepFound] = []
        self.pending: list[Clause] = []
        self.lead: Clause | None = None
        self.antecedent: Clause | None = None
        self.fresh = True

    @property
    def current(self) -> StepFound | None:
        """The step last begun."""
        return self.steps[-1] if self.steps else None

    def sentence(self, clauses: list[Clause]) -> None:
        """Takes the clauses of one sentence."""
        self.lead = None
        self.fresh = True
        for clause in clauses:
            self._clause(clause)
            self.fresh = False
        self.lead = None

    def interrupt(self) -> None:
        """Something else was said: what follows starts a new step."""
        self.fresh = True

    def finish(self) -> list[StepFound]:
        """The steps; a group that nothing was done to in so many words is taken out."""
        self._flush()
        return self.steps

    def _words(self, clause: Clause) -> str:
        return self.known.words(clause.start, clause.end)

    def _groups(self, clause: Clause) -> list[Group]:
        return worked_groups(self.known, clause, self.weak, self.parts)

    def _near(self, step: StepFound | None, clause: Clause) -> bool:
        """Whether a clause follows on a step, in its sentence or the next."""
        return step is not None and clause.sentence - step.last_sentence <= 1

    def _waiting(self, clause: Clause) -> bool:
        """Whether a group told just before still waits for its instruction."""
        return bool(self.pending) and clause.sentence - self.pending[-1].sentence <= 1

    def _clause(self, clause: Clause) -> None:
        if clause.mood == "negative":
            self._tail(clause)
            return
        groups = [] if splits_group(self.known, clause) else self._groups(clause)
        if clause.link == "and" and self._near(self.current, clause):
            self.fresh = False
        instructs = clause.deed is not None and clause.mood in ("imperative", "planned", "narrated")
        repeats = not groups and self.steps and clause.end - clause.start <= 14 and _REPEAT.search(self._words(clause))
        if repeats and not (instructs and clause.object):
            self._repeat(clause)
        elif instructs and not clause.subordinate and is_work(self.known, clause):
            self._act(clause, groups)
        elif clause.deed and clause.mood == "result":
            self._result(clause, groups)
        elif groups:
            self._told_groups(clause, groups)
        else:
            self._describe(clause)

    # -- instructions -------------------------------------------------------------------------------------------

    def _act(self, clause: Clause, groups: list[Group]) -> None:
        current, deed = self.current, clause.deed
        assert deed is not None
        if current and self._near(current, clause):
            if is_wait(self.known, clause):
                current.add(clause)
                return
            if deed.verb == "use" and clause.tools and not groups and not self.pending:  # "I'm using the big iron"
                current.add_tools(clause)
                if clause.sentence == current.last_sentence:
                    current.add(clause)
                merge_measures(self.known, current, clause)
                return
        if self._waiting(clause) and not groups and deed.effect == "handle" and clause.tools:
            self.pending.append(clause)  # "get a screwdriver under one end", before the group is let go
        elif current and not self.pending and self._same_operation(current, clause, groups):
            self._join(current, clause, groups)
        else:
            self._new(clause, groups)

    def _same_operation(self, current: StepFound, clause: Clause, groups: list[Group]) -> bool:
        deed = clause.deed
        assert deed is not None
        if self.fresh or not self._near(current, clause) or clause.link not in ("and", "comma", "so", "then"):
            return False
        if self.known.breaks and not groups and clause.sentence == current.sentence:
            other = (
                clause.object is not None
                and current.part is not None
                and _head(clause.object.name) != _head(current.part)
            )
            return not (other and deed.effect in ("undo", "detach", "disconnect"))
        tooling = (
            current.action in _TOOLING
            and current.effect in ("handle", "attach", "move", "detach")
            and not current.groups
        )
        if (
            current.part is None
            and not current.groups
            and not current.clause.pronoun
            and clause.link == "and"
            and current.clause.end == clause.start
        ):
            return True  # "twist and pull the cap off"
        if groups and not all(g.definite or g.count is None for g in groups):
            return tooling and bool(current.tools)
        if groups and current.groups:
            last = current.groups[-1]
            return groups[0].definite and all(g.kind == last.kind and g.count in (None, last.count) for g in groups)
        if deed.verb.split()[0] in _CHECKS and clause.link == "and" and not groups:
            return True  # "turn it by hand and check that it runs free"
        if (
            deed.effect in ("inspect", "clean", "energise", "isolate")
            and current.effect != deed.effect
            and clause.pronoun is None
        ):
            return False
        if clause.pronoun in _IT and current.groups and current.effect in ("attach", "fasten") and deed.effect == "fasten":
            return True  # "fit the nuts and tighten them"
        if clause.pronoun in _IT:
            return _one_movement(current.effect, deed.effect)
        if clause.object is None:
            return _one_movement(current.effect, deed.effect) or current.effect == deed.effect
        if tooling and current.tools and clause.link in ("and", "comma"):
            return True
        return (
            current.part is not None
            and _head(clause.object.name) == _head(current.part)
            and current.effect not in REMOVES - {"detach"}
        )

    def _join(self, current: StepFound, clause: Clause, groups: list[Group]) -> None:
        current.add(clause)
        merge_groups(current, groups)
        merge_measures(self.known, current, clause)
        if current.tools and groups:
            merge_measures(self.known, current, current.clause)  # "take a 4 mm key and undo the bolts"
        deed = clause.deed
        stronger = deed is not None and current.effect == "handle" and deed.effect not in ("handle", "inspect", "move")
        if stronger and deed is not None:
            current.action, current.effect = deed.verb, deed.effect
        if stronger or current.part is None:
            current.part = _part_of(clause) or current.part
        if clause.source and not current.source:
            current.source = clause.source.name
        current.add_tools(clause)

    def _new(self, clause: Clause, groups: list[Group]) -> None:
        self._keep_or_flush(clause, groups)
        deed = clause.deed
        assert deed is not None
        part, effect = _part_of(clause), deed.effect
        phase = self.course.phase(self.known, clause, effect, groups)
        if part and clause.tools and _head(part) in {tool.split()[-1] for tool in clause.tools}:
            part, effect = None, "handle"  # "take the plastic pick"
        step = step_from(clause, phase, deed.verb, effect, part)
        step.source = clause.source.name if clause.source else None
        step.manner, step.condition = clause.manner, clause.condition
        step.add_tools(clause)
        lead = self.lead
        if lead is not None:
            step.ranges[0] = (lead.start, clause.end)
            step.add_tools(lead)
        self._take_antecedent(step, clause)
        if clause.pronoun and part and clause.mood != "narrated":
            step.inferred["part"] = f"“{clause.pronoun}” was taken for the part last worked on"
        if phase == "remove":
            self.course.out |= {_head(group.kind) for group in groups}
        for told in self.pending:
            step.ranges.append((told.start, told.end))
            merge_groups(step, self._groups(told))
            merge_measures(self.known, step, told)
            step.part = step.part or _part_of(told)
        step.ranges.sort()
        self.pending, self.lead = [], None
        merge_groups(step, groups)
        merge_measures(self.known, step, clause)
        if lead is not None:
            merge_measures(self.known, step, lead)
        self.steps.append(step)

    def _take_antecedent(self, step: StepFound, clause: Clause) -> None:
        """ "There's a strap at the back, so pull that off": the strap belongs to the step."""
        told, self.antecedent = self.antecedent, None
        if told is None or self.pending or not clause.pronoun or not 0 <= clause.sentence - told.sentence <= 1:
            return
        step.ranges.insert(0, (told.start, told.end))
        step.part = next((p.name for p in told.objects if not p.place), step.part)

    def _repeat(self, clause: Clause) -> None:
        """ "The right one comes off the same way": the step before once more, on another part."""
        last = self.steps[-1]
        verb = "repeat" if "repeat" in self._words(clause) else last.action
        part = _part_of(clause) or next((p.name for p in clause.objects if not p.place), last.part)
        step = step_from(clause, "after" if self.course.state == "after" else last.phase, verb, last.effect, part)
        step.inferred["action"] = "said to be done as the step before"
        self.steps.append(step)

    def _result(self, clause: Clause, groups: list[Group]) -> None:
        """ "... and the cover comes away": part of the step that lets it go, or a step of its own."""
        current, deed = self.current, clause.deed
        assert deed is not None
        if clause.subordinate or deed.effect in ("inspect", "handle", "energise"):
            self._describe(clause)
        elif (self.pending and current is None and any(map(self._groups, self.pending))) or (
            self.antecedent is not None and self.antecedent.end == clause.start and clause.pronoun
        ):
            self._new(clause, groups)
        elif current is not None and self._lets_go(current, clause):
            part = _part_of(clause)
            if part:
                current.groups = [replace(g, secures=g.secures or part) for g in current.groups]
            current.add(clause)
            merge_groups(current, groups)
            if clause.source and not current.source:
                current.source = clause.source.name
        elif self.pending and clause.object and self.pending[-1].sentence == clause.sentence:
            self._new(clause, groups)
        elif deed.effect == "move" and not _APART.search(self.known.words(deed.start, clause.end)):
            self._describe(clause)
        elif deed.effect in ("detach", "undo", "disconnect", "open", "attach", "fasten", "move", "connect", "close"):
            self._new(clause, groups)

    def _lets_go(self, current: StepFound, clause: Clause) -> bool:
        """Whether what comes away was let go by the current step."""
        if self.fresh or not self._near(current, clause) or clause.link not in ("and", "so", "comma", "none"):
            return False
        head = _head(clause.object.name) if clause.object else ""
        secured = {_head(group.secures) for group in current.groups if group.secures}
        return (
            bool(current.groups and not current.described)
            or bool(clause.pronoun)
            or head in secured | {"", _head(current.part)}
        )

    # -- what is only told --------------------------------------------------------------------------------------

    def _keep_or_flush(self, clause: Clause, groups: list[Group]) -> None:
        """Keeps what was told of a group for this step if the step takes it up; else the group is a step of its own."""
        if not self.pending:
            return
        deed = clause.deed
        told = [group for waiting in self.pending for group in self._groups(waiting)]
        near = clause.sentence - self.pending[-1].sentence <= 2
        works = deed is not None and deed.effect in (
            "undo",
            "detach",
            "loosen",
            "handle",
            "attach",
            "fasten",
            "open",
            "move",
        )
        meant = (
            clause.pronoun is not None
            or clause.object is None
            or not told
            or any(g.kind == t.kind for g in groups for t in told)
        )
        undoes = deed is not None and deed.effect in ("undo", "detach") and clause.sentence == self.pending[-1].sentence
        if not (near and ((works and meant) or undoes)):
            self._flush()

    def _flush(self) -> None:
        """Makes a step of each group that waits, with what was told of it; one only pointed at ("it's four screws") is none."""
        pending, self.pending = self.pending, []
        step: StepFound | None = None
        for told in pending:
            groups = self._groups(told)
            if groups:
                step = self._told_step(told, groups)
            elif step is not None:
                step.add(told)
                merge_measures(self.known, step, told)

    def _told_step(self, told: Clause, groups: list[Group]) -> StepFound | None:
        strong = [g for g in groups if g.count or g.alternatives or g.drive]
        if self.known.breaks:
            strong = [g for g in strong if g.drive or g.thread or g.length_mm or "x" in self.known.lower[g.start : g.end]]
        pointed = told.mood == "descriptive" and self.known.tags[told.core] == "O" and bool(self.steps)
        if not strong or (pointed and self.course.removing):
            return None
        phase: Phase = "remove" if self.course.removing else "install"
        if phase == "remove":
            self.course.state = "remove"
        step = step_from(told, phase, phase, "undo", None)
        step.inferred["action"] = "the fasteners were told without a verb"
        merge_groups(step, groups)
        merge_measures(self.known, step, told)
        self.steps.append(step)
        return step

    def _told_groups(self, clause: Clause, groups: list[Group]) -> None:
        """A group told without an action: more of the group just worked on, or the group that the next step takes."""
        current = self.current
        if self._waiting(clause):
            self.pending.append(clause)
        elif current is not None and self._near(current, clause) and self._tells_more(current, clause, groups):
            current.add(clause)
            merge_groups(current, groups)
            merge_measures(self.known, current, clause)
        else:
            if self.steps and BACK.search(self._words(clause)):
                self.course.state = "install"
            self.pending.append(clause)

    def _tells_more(self, current: StepFound, clause: Clause, groups: list[Group]) -> bool:
        last = current.last_group
        if last is None:
            same = not self.fresh and clause.link != "then" and current.sentence == clause.sentence
            return same and current.effect in ("undo", "detach", "loosen", "handle", "attach")
        if self.course.state == "install" or any(g.kind != last.kind for g in groups):
            return False
        if last.count is None and not last.alternatives:
            return True  # "take out the screws, there's nine of them"
        again = _BACK_TO_GROUP.match(self._words(clause)) and not self.course.reversed
        return (bool(again) and groups[0].count in (None, last.count)) or (bool(again) and last.count is None)

    def _describe(self, clause: Clause) -> None:
        """Sizes of the group at hand, or a few words about the part at hand in the same sentence."""
        if self._waiting(clause) and (clause.measures or clause.sentence == self.pending[-1].sentence):
            self.pending.append(clause)
            return
        if clause.mood == "fragment" and (self.fresh or self.lead is not None) and not clause.measures:
            self.lead = self.lead or clause
            return
        current = self.current
        near = current is not None and self._near(current, clause)
        words = self.known.words(clause.core, clause.end)
        if current is not None and near and self._counts(current, clause, words):
            return
        if clause.mood == "descriptive" and not clause.deed and clause.end - clause.start <= 24:
            self.antecedent = clause
        if current is None:
            return
        if near and clause.measures and current.groups:
            current.add(clause)
            merge_measures(self.known, current, clause)
        elif near and self._identifies(clause, words):
            current.add(clause)
            self.antecedent = None
        else:
            self._tail(clause, limit=16)

    def _counts(self, current: StepFound, clause: Clause, words: str) -> bool:
        """ "There's six of those"."""
        counted = _COUNTED.search(words)
        last = current.last_group
        if not counted or last is None or last.count is not None or last.alternatives:
            return False
        current.add(clause)
        current.groups[-1] = replace(last, count=int(value_of(counted[1])))
        return True

    def _identifies(self, clause: Clause, words: str) -> bool:
        """ "It's the white plug", "they're on the left"."""
        match = _IDENTIFIES.match(words)
        if not match or clause.end - clause.start > 14:
            return False
        after = clause.core + len(match[0].split())
        return after < clause.end and self.known.tags[after] in "DZNp"

    def _tail(self, clause: Clause, limit: int = 1000) -> None:
        """Words that hang on to the step in the same sentence."""
        current = self.current
        if (
            current is not None
            and current.sentence == clause.sentence
            and not self.fresh
            and clause.end - clause.start <= limit
        ):
            current.ranges.append((clause.start, clause.end))


_CHECKS = frozenset("check see verify confirm watch listen feel read ensure".split())


def _one_movement(first: str, second: str) -> bool:
    """Whether a second verb finishes the movement of the first ("grab it and pull", "tilt it and lift it out")."""
    if first == "handle" or (first == "attach" and second in ("move", "handle")):
        return True
    return first in ("move", "detach", "open", "loosen", "undo") and second in ("detach", "move", "handle", "open")
