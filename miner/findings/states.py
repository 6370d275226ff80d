"""States: parts and fasteners that are already out, or not yet free, when a step works on them.

To add a check to this family: write a function from a `Case` to `Fault`s and list it at the end.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from miner.findings.case import Case, Check, Fault, heading_evidence, prerequisite_evidence, step_evidence
from miner.findings.pairs import differences, family
from miner.model.draft import Procedure, Step
from miner.model.finding import Evidence
from miner.model.naming import part_key, part_words
from miner.teardown.joints import Use, compatible
from miner.teardown.states import Removal
from miner.teardown.variants import branch, exclusive

_PLACES = frozenset("bottom top side rear back front left right edge edges corner corners underside".split())
_AGAIN = frozenset({"undo", "detach", "disconnect", "loosen", "open"})
_BENCH_WORK = frozenset({"open", "move", "handle"})  # what people also do with a part on the bench
_LINES = frozenset((word,) for word in "pipe hose tube lead cable wire loom harness duct linkage rope".split())
_ON_THE_BENCH = re.compile(r"\b(?:bench|table|towel|aside|over|upside|away|off|apart|tray|clean\w*)\b")
# A removed part that carries others is worked on at the bench; a cover is not, so a claim on it is safe.
_CARRIERS = frozenset(
    "chassis frame engine motor gearbox module assembly board block carrier carriage head drawer door lid wheel hub "
    "housing case body base pump boiler valve cylinder unit cartridge drum sled tub tank rail arm".split()
)


def fastener_removed_twice(case: Case) -> Iterator[Fault]:
    """The same fasteners come out in a procedure and in one of its prerequisites."""
    for again, first in _twice(case):
        yield Fault(
            f"The {again.kind}s of the {first.secured} are already out: they come out with the "
            f"{case.procedures[first.procedure].subject}.",
            (again.procedure, first.procedure),
            (step_evidence(again.step), step_evidence(first.step)),
            branch=branch(again.step, first.step),
        )


def _twice(case: Case) -> Iterator[tuple[Use, Use]]:
    index = _undone_by_part(case)
    for procedure in case.draft.procedures:
        told: set[tuple[str, str]] = set()
        for use in case.uses[procedure.id]:
            if use.direction == "make" or use.step.phase != "remove" or (use.secured, use.kind) in told:
                continue
            for first in _may_be(use, index):
                if (
                    case.teardown.before(first.procedure, procedure.id)
                    and _same_group(case, use, first)
                    and not exclusive(use.step, first.step)
                ):
                    told.add((use.secured, use.kind))
                    yield use, first
                    break


def _may_be(use: Use, index: dict[str, list[Use]]) -> Iterator[Use]:
    """The groups that a group may be: of the part it secures, or of the part at which its words place it."""
    if use.secured:
        yield from index.get(use.secured, ())
    text = use.step.text.casefold()
    for part, found in index.items():
        if part != use.secured and f" of the {part}" in text:
            yield from (first for first in found if first.secured == part)


def _undone_by_part(case: Case) -> dict[str, list[Use]]:
    """The groups that are taken out, by the part they secure and by the part they are told to be fastened to."""
    index: dict[str, list[Use]] = {}
    for use in case.teardown.uses:
        if use.group is None or use.direction != "undo" or use.step.phase != "remove" or not use.secured:
            continue
        words = use.to.split()
        for key in dict.fromkeys([use.secured, *(" ".join(words[:end]) for end in range(1, len(words) + 1))]):
            index.setdefault(key, []).append(use)
    return index


def _same_group(case: Case, use: Use, first: Use) -> bool:
    if family(use) != family(first) or use.group is None or first.group is None:
        return False
    subject = part_key(case.procedures[first.procedure].subject)
    own = part_key(case.procedures[use.procedure].subject)
    if use.secured and use.secured == first.secured:
        if use.secured == own:
            return False
        # What its own procedure has taken out cannot be held any more, whatever the count.
        return use.secured == subject or (compatible(use.group, first.group) and (not use.to or use.to == first.to))
    one, two = use.group, first.group
    if f" of the {first.secured}" in use.step.text.casefold():
        return bool(one.count and one.count == two.count and one.drive_size) and not differences(one, two)
    # The same screws, told to hold one part here and another there: all that is said of them must agree.
    told = [(one.count, two.count), (one.drive_size, two.drive_size), (one.length_mm, two.length_mm)]
    return (
        all(a is not None and a == b for a, b in told)
        and bool(use.secured)
        and (first.to == use.secured or first.to.startswith(f"{use.secured} "))
        and bool(_places(use.step) & _places(first.step))
    )


def _places(step: Step) -> frozenset[str]:
    words = f"{step.text} {' '.join(group.location or '' for group in step.fasteners)}".casefold()
    return _PLACES & frozenset(words.replace(",", " ").replace(".", " ").split())


def removed_part_used(case: Case) -> Iterator[Fault]:
    """A step works on, or fastens to, a part that is already out."""
    twice = {(use.procedure, use.secured) for use, _ in _twice(case)}
    for procedure in case.draft.procedures:
        told = {secured for owner, secured in twice if owner == procedure.id}
        uses = [
            (part, removal, step)
            for position, step in enumerate(procedure.steps)
            for part, removal in _used(case, procedure, step, position)
        ]
        for part, removal, step in (*uses, *_still_used(case, procedure)):
            key = part_key(part)
            if key not in told and not (removal.step and exclusive(step, removal.step)):
                told.add(key)
                yield Fault(
                    f"The {part} is already out here, but the step still needs it in place.",
                    tuple(dict.fromkeys([procedure.id, removal.procedure])),
                    (_why(case, procedure, removal), step_evidence(step)),
                    branch=branch(step),
                )


def _used(case: Case, procedure: Procedure, step: Step, position: int) -> Iterator[tuple[str, Removal]]:
    """The parts that a step needs in place and that are out: what it fastens to, unplugs from, or takes out again."""
    play = case.teardown.plays[procedure.id]
    effect = case.teardown.effects.of(step)
    needed: list[str | None] = []
    if step.phase in ("prepare", "remove"):
        needed += [group.to for group in step.fasteners]
        if step.fasteners or effect in ("undo", "disconnect") or (effect == "detach" and _leads_away(step)):
            needed.append(step.from_)
        if effect in _AGAIN:
            held = [group.secures for group in step.fasteners if group.secures]
            named = set(part_words(step.part or "")) <= set(part_words(step.text))
            needed += [*([step.part] if named else []), *held]
    for part in needed:
        removal = play.out(part, position)
        if part and removal and _accusable(case, procedure, part, step, removal):
            yield part, removal


def _leads_away(step: Step) -> bool:
    """Whether a step takes off a line that ties a part to the rest of the product: a hose, a pipe, a cable."""
    return bool(step.part) and part_words(step.part)[-1:] in _LINES


def _accusable(case: Case, procedure: Procedure, part: str, step: Step, removal: Removal) -> bool:
    """No claim where the work is on the removed part itself, at the bench, or where procedures go in a circle."""
    words = part_words(part)
    if part_key(part) == part_key(procedure.subject) or set(words) <= set(part_words(procedure.subject)):
        return False
    if removal.step is not None:
        return False  # taken out within this procedure: `_still_used` and `late_step` look at that
    works_on_it = part_key(step.part) == part_key(part) or any(group.secures == part for group in step.fasteners)
    if words[-1] in _CARRIERS and not works_on_it:
        return False
    home = next((to for one, to in case.teardown.links[procedure.id] if one is removal.prerequisite), None)
    if works_on_it and removal.procedure == procedure.id and home is None:
        return False  # "remove the cover" may announce this very work, where no other job removes it
    circle = removal.procedure if removal.procedure != procedure.id else home
    return not (circle and case.teardown.mutual(circle, procedure.id))


def _still_used(case: Case, procedure: Procedure) -> Iterator[tuple[str, Removal, Step]]:
    """Parts that a step takes off and a later one, with other work in between, moves as if they were in place."""
    play = case.teardown.plays[procedure.id]
    for position, step in enumerate(procedure.steps):
        if (
            step.phase != "remove"
            or not step.part
            or step.fasteners
            or case.teardown.effects.of(step) not in _BENCH_WORK
        ):
            continue
        removal = play.out(step.part, position)
        if removal is None or removal.step is None or case.teardown.effects.of(removal.step) != "detach":
            continue  # what is only unlocked or let go is still in place
        if _ON_THE_BENCH.search(step.text.casefold()):
            continue
        between = [one for one in procedure.steps[:position] if one.start > removal.step.start]
        if any(one.part and part_key(one.part) != part_key(step.part) for one in between):
            yield step.part, removal, step


def _why(case: Case, procedure: Procedure, removal: Removal) -> Evidence:
    if removal.step:
        return step_evidence(removal.step)
    if removal.prerequisite:
        return prerequisite_evidence(removal.prerequisite)
    return heading_evidence(case.procedures.get(removal.procedure, procedure))


CHECKS = (
    Check(
        "fastener-removed-twice",
        "error",
        "The same fasteners are taken out in a procedure and in one of its prerequisites.",
        "The pump job takes out the top cover screws although the top cover is a prerequisite.",
        fastener_removed_twice,
    ),
    Check(
        "removed-part-used",
        "error",
        "A step works on, or fastens to, a part that is already out.",
        "The pump bracket is screwed to the rear panel, which is a prerequisite and lies on the bench.",
        removed_part_used,
    ),
)
