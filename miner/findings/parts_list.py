"""The parts list: names, quantities, lengths and drives that it and the recording give differently.

To add a check to this family: write a function from a `Case` to `Fault`s and list it at the end.
"""

from __future__ import annotations

from collections.abc import Iterator

from miner.findings.case import Case, Check, Fault, heading_evidence, step_evidence
from miner.findings.pairs import differ_in_drive, differ_in_length
from miner.model.draft import Fastener
from miner.model.finding import Suggestion
from miner.readers.parts_list import PartsRow
from miner.teardown.joints import Use

_SCREWS = frozenset({"screw", "bolt"})


def parts_list_name(case: Case) -> Iterator[Fault]:
    """A subject is not in the parts list, or has another name there."""
    if case.parts_list is None:
        return
    for procedure in case.draft.procedures:
        if procedure.kind not in ("replace", "remove") or case.parts_list.find(procedure.subject):
            continue
        near = case.parts_list.nearest(procedure.subject)
        hint = f"; the list has '{near.name}'" if near else ""
        yield Fault(
            f"The parts list has no {procedure.subject}{hint}.",
            (procedure.id,),
            (heading_evidence(procedure),),
            Suggestion(procedure.id, "subject", procedure.subject, near.name) if near else None,
        )


def _listed_screws(case: Case) -> list[tuple[PartsRow, Fastener]]:
    rows = case.parts_list.rows if case.parts_list else ()
    return [(row, row.fastener) for row in rows if row.fastener and row.fastener.kind in _SCREWS]


def _taken_out(case: Case) -> Iterator[tuple[Use, Fastener]]:
    """The screws that come out and of which at least a length, a thread or a drive size is said."""
    for use in case.teardown.uses:
        group = use.group
        if group is None or use.direction == "make" or group.kind not in _SCREWS:
            continue
        if group.length_mm is not None or group.thread or group.drive_size:
            yield use, group


def is_screw(group: Fastener) -> bool:
    """Whether a group is of the kind that lists give with thread, length and drive."""
    return group.kind in _SCREWS


def fits(told: Fastener, listed: Fastener) -> bool:
    """Whether nothing that is told of a group speaks against a listed fastener."""
    return not differ_in_length(told, listed) and not differ_in_drive(told, listed)


def told_words(group: Fastener | None) -> str:
    """Thread, length and drive of a fastener in a few words: `M4 16 mm PH2`; empty for none."""
    if group is None:
        return ""
    length = f"{group.length_mm:g} mm" if group.length_mm is not None else None
    return " ".join(filter(None, (group.thread, length, group.drive_size)))


def parts_list_fastener(case: Case) -> Iterator[Fault]:
    """No fastener of the parts list has the thread, length and drive that is told."""
    listed = _listed_screws(case)
    for use, group in _taken_out(case) if listed else ():
        if not any(fits(group, screw) for _, screw in listed):
            yield Fault(
                f"The parts list has no {use.kind} like this one ({told_words(group)}).",
                (use.procedure,),
                (step_evidence(use.step),),
            )


def parts_list_quantity(case: Case) -> Iterator[Fault]:
    """More fasteners of one sort come out than the parts list has; a joint that is told of twice counts once."""
    listed = [(row, screw) for row, screw in _listed_screws(case) if row.quantity]
    taken: dict[int, dict[tuple[str, int], tuple[int, Use]]] = {}
    for use, group in _taken_out(case):
        rows = [row for row, screw in listed if fits(group, screw)]
        if len(rows) == 1 and group.count and (group.length_mm is not None or group.thread):
            joint = (use.secured or use.step.id, group.count)
            taken.setdefault(rows[0].line, {}).setdefault(joint, (group.count, use))
    for row, _ in listed:
        found = list(taken.get(row.line, {}).values())
        total = sum(count for count, _ in found)
        if row.quantity and total > row.quantity:
            yield Fault(
                f"{total} of '{row.name}' come out, the parts list has {row.quantity:g}.",
                tuple(dict.fromkeys(use.procedure for _, use in found)),
                tuple(step_evidence(use.step) for _, use in found),
            )


CHECKS = (
    Check(
        "parts-list-name",
        "warning",
        "The part of a procedure is not in the parts list, or has another name there.",
        "The recording says brew pump, the list has vibration pump.",
        parts_list_name,
    ),
    Check(
        "parts-list-fastener",
        "warning",
        "No fastener of the parts list has the thread, length and drive that is told.",
        "A 16 mm screw comes out of the pump bracket, the list has 12 mm ones.",
        parts_list_fastener,
    ),
    Check(
        "parts-list-quantity",
        "warning",
        "More fasteners of one sort come out than the parts list has.",
        "Ten M4 x 12 screws come out, the list has eight.",
        parts_list_quantity,
    ),
)
