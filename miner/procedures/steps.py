"""Cuts the clauses of a job into steps: one physical operation each, with its fasteners."""

from __future__ import annotations

import re
from dataclasses import replace

from miner.language.annotations import Annotations, Clause, Deed, Group
from miner.model.draft import Phase
from miner.model.naming import head_word
from miner.procedures.operations import fetches, lets_go, near, notes_apart, same_operation
from miner.procedures.phases import BACK, INSTALLS, Course
from miner.procedures.step_found import StepFound, merge_groups, merge_measures, part_of, step_from
from miner.procedures.told_groups import identifies, take_count, takes_up, tells_enough, tells_more
from miner.procedures.work import accompanies, is_wait, is_work, splits_group, worked_groups

_REPEAT = re.compile(
    r"\b(?:same (?:again|thing|way|deal|story|for|with)|likewise|exactly the same|just the same|the same way|"
    r"repeat|ditto|(?:then|and) the other (?:one|side|end)|do the other|identical(?:ly)?)\b"
)
_APART = re.compile(r"\b(?:out|off|away|up|down|free|clear)\b")


class StepCutter:
    """Takes clauses in order and keeps the steps so far; one for each job.

    `pending` are clauses that told of a group before anything was done to it; `antecedent` is a clause that only
    described and that a pronoun in the next one may mean; `lead` is a phrase that opens the next instruction.
    """

    def __init__(
        self, known: Annotations, weak: frozenset[str], parts: frozenset[str], releasing: frozenset[str] = frozenset()
    ) -> None:
        self.known, self.weak, self.parts = known, weak, parts
        self.course = Course(releasing)
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
        for clause, following in zip(clauses, [*clauses[1:], None], strict=True):
            if self.lead is None and following is not None and accompanies(self.known, clause, following):
                self.lead = clause
                continue
            self._clause(clause)
            self.fresh = False
        self.lead = None

    def interrupt(self) -> None:
        """What follows starts a new step."""
        self.fresh = True

    def finish(self) -> list[StepFound]:
        """The steps; a group that waits is taken out."""
        self._flush()
        return self.steps

    def _words(self, clause: Clause) -> str:
        return self.known.words(clause.start, clause.end)

    def _groups(self, clause: Clause) -> list[Group]:
        return worked_groups(self.known, clause, self.weak, self.parts)

    def told_of(self, name: str) -> str | None:
        """The name, if fasteners of that part have just been told and wait for their instruction."""
        return name if any(head_word(name) in self._words(clause).split() for clause in self.pending) else None

    def _waiting(self, clause: Clause) -> bool:
        """Whether a group told just before still waits for its instruction."""
        return bool(self.pending) and clause.sentence - self.pending[-1].sentence <= 1

    def _clause(self, clause: Clause) -> None:
        if clause.mood == "negative" or clause.unclear:
            self._tail(clause)
            return
        groups = [] if splits_group(self.known, clause) else self._groups(clause)
        if clause.link == "and" and near(self.current, clause):
            self.fresh = False
        deed = clause.deed
        instructs = deed is not None and clause.mood in ("imperative", "planned", "narrated")
        repeats = not groups and self.steps and clause.end - clause.start <= 14 and _REPEAT.search(self._words(clause))
        if repeats and not (instructs and clause.object):
            self._repeat(clause)
        elif deed is not None and instructs and not clause.subordinate and is_work(self.known, clause):
            self._act(clause, deed, groups)
        elif deed is not None and clause.mood == "result":
            self._result(clause, deed, groups)
        elif groups:
            self._told_groups(clause, groups)
        else:
            self._describe(clause)

    def _act(self, clause: Clause, deed: Deed, groups: list[Group]) -> None:
        current = self.current
        if current and near(current, clause):
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
        elif current and not (self.fresh or self.pending) and same_operation(self.known, current, clause, groups):
            self._join(current, clause, groups)
        else:
            self._new(clause, deed, groups)

    def _join(self, current: StepFound, clause: Clause, groups: list[Group]) -> None:
        current.add(clause)
        merge_groups(current, groups)
        merge_measures(self.known, current, clause)
        if current.tools and groups:
            merge_measures(self.known, current, current.clause)  # "take a 4 mm key and undo the bolts"
        deed = clause.deed
        works = deed is not None and (deed.effect not in ("handle", "inspect", "move") or clause.source is not None)
        stronger = works and current.effect == "handle"
        if stronger and deed is not None:
            current.action, current.effect = deed.verb, deed.effect
            if current.phase == "prepare":
                current.phase = self.course.phase(self.known, clause, deed.effect, groups)
        if stronger or current.part is None:
            current.part = part_of(clause) or current.part
        if clause.source and not current.source:
            current.source = clause.source.name
        current.add_tools(clause)

    def _new(self, clause: Clause, deed: Deed, groups: list[Group]) -> None:
        self._keep_or_flush(clause, groups)
        part, effect = part_of(clause), deed.effect
        if clause.tools and not groups and (part is None or fetches(clause, part)):
            part, effect = None, "handle"  # "take the plastic pick", "put a spanner on the sensor"
        phase = self.course.phase(self.known, clause, effect, groups)
        step = step_from(clause, phase, deed.verb, effect, part)
        step.source = clause.source.name if clause.source else None
        step.manner, step.condition = clause.manner, clause.condition
        step.add_tools(clause)
        lead = self.lead
        if lead is not None:
            step.ranges[0] = (lead.start, clause.end)
            step.add_tools(lead)
        told, self.antecedent = self.antecedent, None
        if told is not None and not self.pending:
            step.take_up(told, clause)
        if clause.pronoun and part and clause.mood != "narrated":
            step.inferred["part"] = f"“{clause.pronoun}” was taken for the part last worked on"
        if phase == "remove":
            self.course.out |= {head_word(group.kind) for group in groups}
        for waiting in self.pending:
            step.ranges.append((waiting.start, waiting.end))
            merge_groups(step, self._groups(waiting))
            merge_measures(self.known, step, waiting)
            step.part = step.part or part_of(waiting)
        step.ranges.sort()
        self.pending, self.lead = [], None
        merge_groups(step, groups)
        merge_measures(self.known, step, clause)
        if lead is not None:
            merge_measures(self.known, step, lead)
        self.steps.append(step)

    def _repeat(self, clause: Clause) -> None:
        """The step before once more, on another part: "the right one comes off the same way"."""
        last = self.steps[-1]
        verb = "repeat" if "repeat" in self._words(clause) else last.action
        part = part_of(clause) or next((p.name for p in clause.objects if not p.place), last.part)
        step = step_from(clause, "after" if self.course.state == "after" else last.phase, verb, last.effect, part)
        step.inferred["action"] = "said to be done as the step before"
        self.steps.append(step)

    def _result(self, clause: Clause, deed: Deed, groups: list[Group]) -> None:
        """A result ("... and the cover comes away"): part of the step that lets it go, or a step of its own."""
        current = self.current
        goes_in = self.course.takes(self.known, clause)
        if groups and (not goes_in or (deed.effect == "handle" and not clause.subordinate)):
            self._told_groups(clause, groups)  # "two bands on the flue, slacken them", "the lid sits on three bolts"
        elif clause.subordinate or deed.effect in ("inspect", "handle", "energise") or not goes_in:
            self._describe(clause)
        elif (self.pending and current is None and any(map(self._groups, self.pending))) or (
            self.antecedent is not None and self.antecedent.end == clause.start and clause.pronoun
        ):
            self._new(clause, deed, groups)
        elif current is not None and not self.fresh and deed.effect not in INSTALLS and lets_go(current, clause):
            part = part_of(clause)
            if part:
                current.groups = [replace(g, secures=g.secures or part) for g in current.groups]
            current.add(clause)
            merge_groups(current, groups)
            if clause.source and not current.source:
                current.source = clause.source.name
        elif self.pending and clause.object and self.pending[-1].sentence == clause.sentence:
            self._new(clause, deed, groups)
        elif deed.effect == "move" and not _APART.search(self.known.words(deed.start, clause.end)):
            self._describe(clause)
        elif deed.effect in ("detach", "undo", "disconnect", "open", "attach", "fasten", "move", "connect", "close"):
            self._new(clause, deed, groups)

    # -- what is only told --------------------------------------------------------------------------------------

    def _keep_or_flush(self, clause: Clause, groups: list[Group]) -> None:
        """Keeps what was told of a group for this step if the step takes it up; else the group is a step of its own."""
        told = [group for waiting in self.pending for group in self._groups(waiting)]
        last = self.pending[-1] if self.pending else None
        if last is not None and (notes_apart(self.known, last, clause) or not takes_up(last, told, clause, groups)):
            self._flush()

    def _flush(self) -> None:
        """Makes a step of each group that waits; one only pointed at ("it's four screws") is none."""
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
        pointed = told.mood == "descriptive" and self.known.tags[told.core] == "O" and bool(self.steps)
        if not tells_enough(self.known, told, groups) or (pointed and self.course.removing):
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
        elif (
            current is not None
            and near(current, clause)
            and tells_more(self.known, current, clause, groups, self.course, fresh=self.fresh)
        ):
            current.add(clause)
            merge_groups(current, groups)
            merge_measures(self.known, current, clause)
        else:
            if self.steps and BACK.search(self._words(clause)):
                self.course.state = "install"
            self.pending.append(clause)

    def _describe(self, clause: Clause) -> None:
        """Sizes of the group at hand, or a few words about the part at hand in the same sentence."""
        if self._waiting(clause) and (clause.measures or clause.sentence == self.pending[-1].sentence):
            self.pending.append(clause)
            return
        if clause.mood == "fragment" and (self.fresh or self.lead is not None) and not clause.measures:
            self.lead = self.lead or clause
            return
        current = self.current
        follows = near(current, clause)
        words = self.known.words(clause.core, clause.end)
        if current is not None and follows and take_count(current, clause, words):
            return
        if clause.mood == "descriptive" and not clause.deed and clause.end - clause.start <= 24:
            self.antecedent = clause
        if current is None:
            return
        if follows and clause.measures and current.groups:
            current.add(clause)
            merge_measures(self.known, current, clause)
        elif follows and identifies(self.known, clause, words):
            current.add(clause)
            self.antecedent = None
        else:
            self._tail(clause, limit=16)

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
