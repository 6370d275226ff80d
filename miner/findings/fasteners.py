"""Drives, sizes, lengths and threads: at odds with each other, impossible, or left out."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator

from miner.findings.case import Case, Check, Fault, notice_evidence, step_evidence
from miner.findings.pairs import counterpart, differ_in_drive, differ_in_length, differences, family, find_pairs, twins
from miner.findings.plausibility import Plausibility
from miner.findings.said import count_of, length_of
from miner.model.draft import Fastener
from miner.teardown.joints import Use
from miner.teardown.variants import branch, condition

_LEAST_SISTERS = 4  # groups needed before a missing value stands out
_MOST_HAVE = 0.75


def drive_mismatch(case: Case) -> Iterator[Fault]:
    """Two statements about one group give different drives or drive sizes."""
    yield from _mismatch(case, "drive", differ_in_drive, _drive)


def length_mismatch(case: Case) -> Iterator[Fault]:
    """Two statements about one group give different lengths or threads."""
    yield from _mismatch(case, "length", differ_in_length, _size)
    yield from _told_in_a_remark(case)


def _told_in_a_remark(case: Case) -> Iterator[Fault]:
    """A remark on a step that gives its screws another length."""
    for procedure in case.draft.procedures:
        steps = {step.id: step for step in procedure.steps if len(step.fasteners) == 1}
        for notice in procedure.notices:
            step, said = steps.get(notice.step or ""), length_of(notice.text)
            if step is None or said is None or not _is_about(notice.text, step.fasteners[0]):
                continue
            group = step.fasteners[0]
            if group.length_mm is not None and group.length_mm != said:
                yield Fault(
                    f"The {group.kind}s are {group.length_mm:g} mm long in the step, {said:g} mm in the {notice.kind}.",
                    (procedure.id,),
                    (step_evidence(step), notice_evidence(notice)),
                    branch=condition(step),
                )


def _is_about(text: str, group: Fastener) -> bool:
    """Whether a remark speaks of all screws of a group and of their length."""
    count = count_of(group.kind, text)
    return "long" in text.casefold() and count is not None and (group.count is None or count == group.count)


def _mismatch(
    case: Case, respect: str, differ: Callable[[Fastener, Fastener], bool], say: Callable[[Fastener], str]
) -> Iterator[Fault]:
    seen: set[tuple[str, str]] = set()
    for first, second in (*_out_and_in(case), *twins(case)):
        if first.group is None or second.group is None or not differ(first.group, second.group):
            continue
        key = (first.step.id, second.step.id)
        if differences(first.group, second.group) != (respect,) or key in seen:
            continue
        seen.add(key)
        yield Fault(
            f"The {first.named} are {say(first.group)} in one place and {say(second.group)} in the other.",
            tuple(dict.fromkeys([second.procedure, first.procedure])),
            (step_evidence(first.step), step_evidence(second.step)),
            branch=branch(first.step, second.step),
        )


def _out_and_in(case: Case) -> Iterator[tuple[Use, Use]]:
    for pair in find_pairs(case):
        single = counterpart(pair)
        if single is not None:
            yield single, pair.back


def _drive(group: Fastener) -> str:
    return group.drive_size or group.drive or "without a drive"


def _size(group: Fastener) -> str:
    length = "" if group.length_mm is None else f"{group.length_mm:g} mm"
    return " x ".join(filter(None, (group.thread, length))) or "without a length"


def implausible_fastener(case: Case) -> Iterator[Fault]:
    """A drive size, length or thread that no published table knows, or that cannot belong together."""
    tables = Plausibility.of(case.lexicon)
    for procedure in case.draft.procedures:
        for step in procedure.steps:
            for group in step.fasteners:
                reason = tables.objection(group)
                if reason:
                    yield Fault(reason, (procedure.id,), (step_evidence(step),), branch=condition(step))


def incomplete_fastener(case: Case) -> Iterator[Fault]:
    """A group without a count, drive or length although nearly all of its sisters in the recording have one."""
    uses = [
        use
        for use in case.teardown.uses
        if use.group and use.direction == "undo" and use.step.phase == "remove" and family(use) == "screw"
    ]
    had: Counter[str] = Counter()
    for use in uses:
        had.update(_present(use.group))
    usual = [key for key in ("count", "drive", "length") if had[key] >= _MOST_HAVE * len(uses)]
    if len(uses) < _LEAST_SISTERS:
        return
    for use in uses:
        missing = [key for key in usual if key not in _present(use.group)]
        if missing and use.step.action != "repeat":
            yield Fault(
                f"No {' or '.join(missing)} is said for the {use.named}, unlike the other groups of this recording.",
                (use.procedure,),
                (step_evidence(use.step),),
                branch=condition(use.step),
            )


def _present(group: Fastener | None) -> list[str]:
    if group is None:
        return []
    said = {"count": group.count or group.count_alternatives, "drive": group.drive or group.drive_size}
    return [key for key, value in {**said, "length": group.length_mm}.items() if value]


CHECKS = (
    Check(
        "drive-mismatch",
        "error",
        "Two statements about one group of fasteners give different drives or sizes.",
        "Four T20 screws come out of the top cover, four T25 screws are tightened.",
        drive_mismatch,
    ),
    Check(
        "length-mismatch",
        "error",
        "Two statements about one group of fasteners give different lengths or threads.",
        "The pump bracket screws are 16 mm long coming out and 20 mm going in.",
        length_mismatch,
    ),
    Check(
        "implausible-fastener",
        "error",
        "A drive size, length or thread does not exist, or cannot belong together.",
        "A T8 recess in an M4 screw on the solenoid valve.",
        implausible_fastener,
    ),
    Check(
        "incomplete-fastener",
        "remark",
        "A group lacks a count, drive or length that nearly all other groups of the recording have.",
        "Take the screws out of the side panel.",
        incomplete_fastener,
    ),
)
