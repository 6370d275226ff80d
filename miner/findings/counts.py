"""Counts: of fasteners taken out and put back, of totals and subsets, left open, or at odds with the noun.

To add a check to this family: write a function from a `Case` to `Fault`s and list it at the end.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from miner.findings.case import Case, Check, Fault, step_evidence
from miner.findings.open_counts import open_counts, singular_after_count
from miner.findings.pairs import (
    Pair,
    counterpart,
    differences,
    earlier_sum,
    find_pairs,
    is_repeated,
    possible_counts,
    twins,
)
from miner.findings.said import count_of
from miner.model.draft import Procedure, Step
from miner.model.finding import Evidence, Suggestion
from miner.model.naming import part_key
from miner.model.observation import Observation
from miner.teardown.joints import Use
from miner.teardown.variants import branch, condition, counts


def count_mismatch(case: Case) -> Iterator[Fault]:
    """Two statements about one group give different counts: out and in, two jobs, a total and its subsets."""
    for pair in find_pairs(case):
        fault = _out_and_in(pair)
        if fault:
            yield fault
    for use in case.teardown.uses:
        before = earlier_sum(case, use)
        if before and use.direction == "undo":
            said = " and ".join(_said(one) for one in before)
            yield _fault(before, use, f"{said} {before[0].named} come out, but all {_said(use)} are spoken of.")
    for first, second in twins(case):
        if first.group and second.group and differences(first.group, second.group) == ("count",):
            yield _fault((first,), second, f"{_said(first)} {first.named} here, {_said(second)} there.")
    for procedure in case.draft.procedures:
        yield from _parts_out_and_in(case, procedure)
    for one in case.observed("subset"):
        yield from _subset(case, one)
    for one in case.observed("announced-total"):
        yield from _total(case, one)


def _out_and_in(pair: Pair) -> Fault | None:
    back = pair.back.group
    variant = condition(pair.back.step)
    if back is None or back.count is None or pair.back.step.action == "repeat":
        return None
    if variant and any(condition(use.step) != variant for use in pair.out):
        return None
    out = [use for use in pair.out if use.group and counts(use.group)]
    if not out or back.count in possible_counts(pair):
        return None
    single = counterpart(pair)
    if single is not None and single.group:
        if single.kind != pair.back.kind and single.procedure != pair.back.procedure:
            return None  # screws in that job, a bolt in this one: two groups
        others = [d for d in differences(single.group, back) if d != "count"]
        out = [] if others or not counts(single.group) else [single]
    elif not pair.back.secured or len(out) < len(pair.out):
        return None  # it may be one of several groups, one of them without a count
    if not out:
        return None
    said = " and ".join(_said(use) for use in out)
    return _fault(
        tuple(out), pair.back, f"{said} {out[0].named} come out, but {back.count} go back in: compare the two."
    )


def _parts_out_and_in(case: Case, procedure: Procedure) -> Iterator[Fault]:
    """Parts that come off by number and go back by another: "slide the two filters out", "the three new filters"."""
    counted: dict[tuple[str, bool], list[tuple[int, Step]]] = {}
    for step in procedure.steps:
        if not step.part or step.fasteners or condition(step) or step.phase not in ("remove", "install"):
            continue
        count = count_of(step.part, step.text)
        if count and not case.teardown.effects.is_fastener(step.part):
            counted.setdefault((part_key(step.part), step.phase == "install"), []).append((count, step))
    for (key, back), found in counted.items():
        out = counted.get((key, False), [])
        if not back or len(out) != 1 or len(found) != 1 or is_repeated(procedure):
            continue
        (taken, first), (put, second) = out[0], found[0]
        if taken != put and min(taken, put) > 1:
            yield Fault(
                f"{taken} {first.part} come out, but {put} go back in: compare the two.",
                (procedure.id,),
                (step_evidence(first), step_evidence(second)),
            )


def _fault(out: tuple[Use, ...], back: Use, message: str) -> Fault:
    homes = dict.fromkeys([back.procedure, *(use.procedure for use in out)])
    evidence = (*(step_evidence(use.step) for use in out), step_evidence(back.step))
    return Fault(message, tuple(homes), evidence, branch=branch(*(use.step for use in out), back.step))


def _said(use: Use) -> str:
    return " or ".join(map(str, counts(use.group))) if use.group and counts(use.group) else "some"


def _subset(case: Case, one: Observation) -> Iterator[Fault]:
    parts = [int(count) for count in one.detail.get("counts", "").split() if count.isdigit()]
    step = _split_group(case, one)
    said = one.detail.get("total", "")
    total = int(said) if said.isdigit() else step.fasteners[-1].count if step and step.fasteners else None
    if len(parts) > 1 and total is not None and sum(parts) != total:
        home = case.homes.get(step.id) if step else case.at(one.evidence[0].start)
        cited = (step_evidence(step), *one.evidence) if step else one.evidence
        listed = " and ".join(map(str, parts))
        yield Fault(
            f"{total} are named, but {listed} make {sum(parts)}.",
            (home.id,) if home else (),
            tuple(dict.fromkeys(cited)),
        )


def _split_group(case: Case, one: Observation) -> Step | None:
    """The step whose fasteners a remark splits: the one it names, else the last of its job told before it."""
    told = one.detail.get("step")
    if told in case.homes:
        return next(step for step in case.homes[told].steps if step.id == told)
    start = one.evidence[0].start
    home = case.at(start)
    steps = [step for step in home.steps if step.start <= start] if home else []
    last = next((step for step in reversed(steps) if step.fasteners), None)
    return last if last and (last.fasteners[-1].count or 0) > 1 else None


def _total(case: Case, one: Observation) -> Iterator[Fault]:
    said, kind = one.detail.get("count", ""), one.detail.get("kind", "")
    procedure = case.procedures.get(one.detail.get("procedure", "")) or case.at(one.evidence[0].start)
    if procedure is None or not said.isdigit():
        return
    uses = [use for use in case.uses[procedure.id] if use.direction != "make" and (not kind or use.kind == kind)]
    if not uses or not all(use.group and use.group.count for use in uses):
        return
    total = sum(use.group.count or 0 for use in uses if use.group)
    allowed = {total, 2 * total} if is_repeated(procedure) else {total}
    if int(said) not in allowed and len(uses) > 1:
        yield Fault(
            f"{said} are announced in all, but the steps name {total}.",
            (procedure.id,),
            (*(step_evidence(use.step) for use in uses), *one.evidence),
        )


def count_alternatives(case: Case) -> Iterator[Fault]:
    """The narration leaves a count open; the editor has to say which holds for which variant."""
    seen: set[tuple[str, str, str]] = set()
    told: set[tuple[str, tuple[int, ...]]] = set()
    for use in case.teardown.uses:
        group = use.group
        if group is None or len(group.count_alternatives) < 2:
            continue
        key = (use.procedure, use.kind, use.secured)
        told.add((use.procedure, group.count_alternatives))
        if key not in seen:
            seen.add(key)
            choice = " or ".join(map(str, group.count_alternatives))
            yield Fault(
                f"The count is left open: {choice} {use.named}. Say which variant has how many.",
                (use.procedure,),
                (step_evidence(use.step),),
                branch=condition(use.step),
            )
    for either, place in open_counts(case):
        homes = [one for one in case.draft.procedures if one.start < place.end and place.start < one.end]
        home = case.at(place.start)
        if home and told.isdisjoint((one.id, either) for one in homes):
            told.add((home.id, either))
            choice = " or ".join(map(str, either))
            yield Fault(f"The count is left open: {choice}. Say which variant has how many.", (home.id,), (place,))


def grammatical_number(case: Case) -> Iterator[Fault]:
    """Count and noun disagree, so one of them is wrong."""
    told: list[Evidence] = []
    for one in case.observed("number-disagreement"):
        told += one.evidence
        home = case.at(one.evidence[0].start)
        count, noun, wanted = (one.detail.get(key, "") for key in ("count", "noun", "wanted"))
        if _counts_kinds(count, noun, one.evidence[0].quote):
            continue
        first = count.partition("-")[0]
        if first and re.search(rf"\b{re.escape(first)}-[a-z]", one.evidence[0].quote, re.IGNORECASE):
            continue  # "the two-wire lead": the count belongs to the name
        step = one.evidence[0].step
        suggestion = Suggestion(step, "text", noun, wanted) if step and noun and wanted else None
        message = f"Count and noun disagree: {count} {noun}.".replace("  ", " ")
        yield Fault(message, (home.id,) if home else (), one.evidence, suggestion)
    for count, noun, place in singular_after_count(case):
        home = case.at(place.start)
        if not any(one.start <= place.end and place.start <= one.end for one in told):
            yield Fault(f"Count and noun disagree: {count} {noun}.", (home.id,) if home else (), (place,))


def _counts_kinds(count: str, noun: str, quote: str) -> bool:
    """Whether a count belongs to another noun, or counts nothing: "two fan makes exist", "a figure of eight knot"."""
    if re.search(rf"\bfigure[- ]of[- ]{re.escape(count)}\b", quote.casefold()):
        return True
    kinds = rf"\b{re.escape(count)} {re.escape(noun)} \w+s (?:exist|are|were|have|come|of|with)\b"
    return re.search(kinds, quote.casefold()) is not None


def other_side_mismatch(case: Case) -> Iterator[Fault]:
    """A step repeated on the other side names another count than the step it repeats."""
    for procedure in case.draft.procedures:
        for index, step in enumerate(procedure.steps):
            if step.action != "repeat" or not step.fasteners:
                continue
            for earlier in reversed(procedure.steps[:index]):
                if earlier.fasteners:
                    one, two = earlier.fasteners[0], step.fasteners[0]
                    if one.kind == two.kind and one.count and two.count and one.count != two.count:
                        yield Fault(
                            f"{one.count} {one.kind}s on one side, {two.count} on the other.",
                            (procedure.id,),
                            (step_evidence(earlier), step_evidence(step)),
                        )
                    break


CHECKS = (
    Check(
        "count-mismatch",
        "error",
        "Two statements about one group of fasteners or parts give different counts.",
        "Three screws come out of the top cover, four are tightened when it goes back on.",
        count_mismatch,
    ),
    Check(
        "count-alternatives",
        "warning",
        "The narration leaves a count open.",
        "Two or three screws hold the side panel, depending on the age of the machine.",
        count_alternatives,
    ),
    Check(
        "grammatical-number",
        "warning",
        "Count and noun disagree, so that one of them may be wrong.",
        "Remove the four screw that hold the control board.",
        grammatical_number,
    ),
    Check(
        "other-side-mismatch",
        "warning",
        "The same job on the other side names another count.",
        "Two clips on the left of the drip tray, repeat with the three clips on the right.",
        other_side_mismatch,
    ),
)
