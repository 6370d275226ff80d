"""Warnings and cautions: too late, missing on a plain hazard, or absent from a twin procedure.

To add a check to this family: write a function from a `Case` to `Fault`s and list it at the end.
"""

from __future__ import annotations

from collections.abc import Iterator

from miner.findings.case import Case, Check, Fault, heading_evidence, notice_evidence, step_evidence
from miner.findings.hazards import exposed
from miner.findings.lateness import late_notices, late_words
from miner.model.draft import Notice, Procedure
from miner.model.finding import Suggestion
from miner.model.naming import SIDES, part_words

_SAFETY = frozenset({"danger", "warning", "caution"})
# Hazards that may injure in an instant: work on them without a word is an error, on the others a remark.
_PLAIN = frozenset(
    {
        "mains",
        "stored-charge",
        "pressure",
        "hot-surface",
        "sharp-edge",
        "spring",
        "lithium-cell",
        "laser",
        "live-adjustment",
    }
)
_MOST_STEPS = 4
_ONE_PLACE = 6.0  # seconds within which two remarks are one warning


def late_caution(case: Case) -> Iterator[Fault]:
    """A warning or caution comes after the step that it guards."""
    told: list[float] = []
    for procedure in case.draft.procedures:
        for step, notice in late_notices(case, procedure):
            told.append(notice.start)
            yield Fault(
                f"The {notice.kind} comes after the step that it guards; it must stand before it.",
                (procedure.id,),
                (step_evidence(step), notice_evidence(notice)),
            )
    for procedure, step, said in late_words(case):
        if all(abs(said.start - time) > _ONE_PLACE for time in told):
            yield Fault(
                "What must be done before this step is told after it; it must stand before it.",
                (procedure.id,),
                (step_evidence(step), said),
            )


def missing_caution(case: Case) -> Iterator[Fault]:
    """Work on a plain hazard without a warning or caution; once for each procedure."""
    yield from _unspoken(case, plain=True)


def advisable_caution(case: Case) -> Iterator[Fault]:
    """Work that usually carries a caution (weight, static, fuel, chemicals) and has none here."""
    yield from _unspoken(case, plain=False)


def _unspoken(case: Case, *, plain: bool) -> Iterator[Fault]:
    warned = {procedure.id for procedure, _, _ in late_words(case)}  # too late, which is a finding of its own
    for procedure in case.draft.procedures:
        if procedure.id in warned:
            continue
        found = [one for one in exposed(case, procedure) if (one.hazard.id in _PLAIN) is plain]
        if not found:
            continue
        hazards = [one.hazard.id.replace("-", " ") for one in found]
        by_id = {step.id: step for one in found for step in one.steps}
        steps = sorted(by_id.values(), key=lambda step: (step.start, step.id))
        asides = dict.fromkeys(place for one in found for place in one.asides[:1])
        caution = found[0].hazard.caution
        yield Fault(
            f"Nothing is said of the hazard here: {', '.join(hazards)}.",
            (procedure.id,),
            (heading_evidence(procedure), *asides, *map(step_evidence, steps[:_MOST_STEPS])),
            Suggestion(found[0].steps[0].id, f"notices.{found[0].hazard.kind}", None, caution),
        )


def twin_notice(case: Case) -> Iterator[Fault]:
    """A notice stands in one of two twin procedures (left and right, front and rear) and is absent from the other."""
    twins: dict[tuple[str, tuple[str, ...]], list[Procedure]] = {}
    for procedure in case.draft.procedures:
        words = part_words(procedure.subject)
        plain = tuple(word for word in words if word not in SIDES)
        if plain and plain != words:
            twins.setdefault((procedure.kind, plain), []).append(procedure)
    for group in twins.values():
        warned = [one for one in group if _safety(one)]
        bare = [one for one in group if not _safety(one) and one.steps]
        if warned:
            notice = _safety(warned[0])[0]
            for procedure in bare:
                yield Fault(
                    f"The {warned[0].subject} has a {notice.kind} that the {procedure.subject} lacks.",
                    (procedure.id, warned[0].id),
                    (notice_evidence(notice), heading_evidence(procedure)),
                )


def _safety(procedure: Procedure) -> list[Notice]:
    return [notice for notice in procedure.notices if notice.kind in _SAFETY]


CHECKS = (
    Check(
        "late-caution",
        "error",
        "A warning or caution comes after the step that it guards.",
        "The steam wand nut is undone, and then the narrator says to let the steam out first.",
        late_caution,
    ),
    Check(
        "missing-caution",
        "error",
        "Work on a plain hazard (mains, stored charge, pressure, heat, sharp edge, spring load, lithium cell, laser) "
        "with no warning or caution.",
        "Two mains leads are pulled off the boiler thermostat and nothing is said about isolating the machine.",
        missing_caution,
    ),
    Check(
        "advisable-caution",
        "remark",
        "Work that usually carries a caution (weight, static, fuel, chemicals, moving parts) and has none here.",
        "The control board is lifted out and nothing is said about static discharge.",
        advisable_caution,
    ),
    Check(
        "twin-notice",
        "remark",
        "A notice stands in one of two twin procedures and is absent from the other.",
        "The left side panel warns of its sharp edge, the right side panel does not.",
        twin_notice,
    ),
)
