"""Statements about one group of fasteners, side by side: taken out here, put back there.

Precision rules. Only groups of one procedure are compared if the part they secure is not said; two groups that
differ in more than one respect are two groups, not a contradiction; a count that is the sum of several groups, or
twice a group where the job is repeated on the other side, contradicts nothing.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

from miner.findings.case import Case
from miner.lexicon.lookup import lookup
from miner.model.draft import Fastener, Procedure
from miner.model.naming import part_words, shortens
from miner.teardown.joints import Use
from miner.teardown.variants import counts, exclusive

# Speakers call one and the same thing a screw when it comes out and a bolt when it goes back.
_FAMILIES = {"bolt": "screw", "machine screw": "screw", "cap screw": "screw"}
# Screws that hold by their point or by squeezing: never those that fasten a part by its holes.
_WITH_SORT = re.compile(r"\b(grub|set|pinch|clamp|clamping|idle|idling) (?:screw|bolt)")
_ALL_OF = re.compile(r"\blast of (?:the|those|these|all)\b")
_REPEATED = re.compile(
    r"\b(?:repeat\w*|same (?:again|way|thing|on)|likewise|other (?:side|one|end)|both (?:sides|ends)|"
    r"each (?:side|end|one)|"
    r"either (?:side|end)|per (?:side|end))\b"
)


@dataclass(frozen=True, slots=True)
class Pair:
    """A group as it is put back (or spoken of again), and the groups it may be, as they were taken out."""

    out: tuple[Use, ...]
    back: Use
    repeated: bool


def family(use: Use) -> str:
    """The kind of fastener, with the names that speakers mix made equal."""
    return _FAMILIES.get(use.kind, use.kind)


def is_repeated(procedure: Procedure) -> bool:
    """Whether a procedure says that something is done again on another side."""
    return any(step.action == "repeat" or _REPEATED.search(step.text.casefold()) for step in procedure.steps)


def find_pairs(case: Case) -> Iterator[Pair]:
    """Every group that is put back, with the groups it may be; none where that is open."""
    by_procedure = case.uses
    elsewhere: dict[tuple[str, str], list[Use]] = {}
    for uses in by_procedure.values():
        for use in uses:
            if use.direction != "make" and use.secured:
                elsewhere.setdefault((use.secured, family(use)), []).append(use)
    for procedure in case.draft.procedures:
        repeated = is_repeated(procedure)
        out: list[Use] = []
        back = [use for use in by_procedure[procedure.id] if use.direction == "make"]
        for use in by_procedure[procedure.id]:
            if use.direction != "make":
                out.append(use)
            elif use.step.phase in ("install", "after") or case.teardown.effects.of(use.step) == "fasten":
                same = _candidates(use, out, elsewhere, case)
                if not same and sum(family(one) == family(use) for one in back) == 1:
                    same = [one for one in _only_one(use, out) if not _is_some_of(use, one, case)]
                if same:
                    yield Pair(tuple(same), use, repeated)


def _candidates(back: Use, out: list[Use], elsewhere: dict[tuple[str, str], list[Use]], case: Case) -> list[Use]:
    alike = [
        use
        for use in out
        if family(use) == family(back)
        and (use.kind == back.kind or names_secured(back))
        and not exclusive(use.step, back.step)
        and not _is_some_of(back, use, case)
    ]
    named = case.teardown.names.key(" ".join(part_words(back.step.part)[:-1])) if back.step.part else ""
    compound = [use for use in alike if named and use.secured == named]
    if compound:
        return compound  # "tighten the lower plate bolts": the first words name the part
    if back.secured:
        same = [use for use in alike if use.secured == back.secured and _same_sort(use, back)]
        same = same or [use for use in alike if _is_short_for(back.secured, use.secured)]
        own = case.teardown.names.key(back.step.part) if back.step.part else ""
        same = same or [use for use in alike if own and use.secured == own and _same_sort(use, back)]
        if same:
            return same
        if any(use.secured == back.secured for use in alike):
            return []
        others = elsewhere.get((back.secured, family(back)), [])
        homes = {use.procedure for use in others}
        if others and back.procedure not in homes:
            return others if len(homes) == 1 else []
        open_ones = [use for use in alike if not use.secured and _same_sort(use, back)]
        return open_ones if len(open_ones) == 1 else []
    alike = [use for use in alike if _same_sort(use, back)]
    context = _part_before(back, case)
    return [use for use in alike if context and use.secured == context] or alike


def _only_one(back: Use, out: list[Use]) -> list[Use]:
    """The one group of its family that came out, for the one that goes back without a word of what it secures."""
    alike = [use for use in out if family(use) == family(back) and not exclusive(use.step, back.step)]
    if any(use.kind != back.kind for use in alike):
        return []
    unsaid = not names_secured(back) or (len(alike) == 1 and not names_secured(alike[0]))
    return alike if len(alike) == 1 and unsaid and _same_sort(alike[0], back) else []


def names_secured(use: Use) -> bool:
    """Whether the words of a step name the part that its fasteners secure; else the draft has inferred it."""
    return bool(use.secured) and use.secured.split()[-1] in part_words(use.step.text)


def _is_some_of(back: Use, use: Use, case: Case) -> bool:
    """Whether a look or place that was not told before singles out some of a group ("the two black screws")."""
    telling = lookup(case.lexicon).words("sorts_fasteners")
    found = re.search(rf"\b([a-z]+) {re.escape(back.kind)}s?\b", back.step.text.casefold())
    return found is not None and found[1] in telling and found[1] not in _words(use)


def _is_short_for(short: str, name: str) -> bool:
    """Whether a group of one job goes back to "the fan" after one came out of "the extract fan"."""
    return bool(short) and shortens(tuple(short.split()), tuple(name.split()))


def _same_sort(use: Use, back: Use) -> bool:
    """Whether no word before the noun ("grub screw", "clamping screws") tells two groups apart."""
    here, there = _WITH_SORT.findall(use.step.text.casefold()), _WITH_SORT.findall(back.step.text.casefold())
    return here == there and _sort(use) <= _words(back) and _sort(back) <= _words(use)


def _sort(use: Use) -> set[str]:
    words = part_words(use.step.part) if use.step.part else ()
    return set(words[:-1]) - {"captive"} if words and words[-1] == use.kind.rpartition(" ")[2] else set()


def _words(use: Use) -> set[str]:
    return set(part_words(use.step.text))


def _part_before(back: Use, case: Case) -> str:
    """The part that the steps before an unnamed group put in: "fit the guard; drive in the six screws"."""
    steps = case.homes[back.step.id].steps
    earlier = [step for step in steps if step.number < back.step.number]
    for step in reversed(earlier):
        if step.phase != back.step.phase:
            break
        if step.part and not case.teardown.effects.is_fastener(step.part):
            return case.teardown.names.key(step.part)
    return ""


def differences(a: Fastener, b: Fastener) -> tuple[str, ...]:
    """In which respects two groups plainly differ: "count", "drive", "length"."""
    found = []
    if counts(a) and counts(b) and not set(counts(a)) & set(counts(b)):
        found.append("count")
    if differ_in_drive(a, b):
        found.append("drive")
    if differ_in_length(a, b):
        found.append("length")
    return tuple(found)


def differ_in_drive(a: Fastener, b: Fastener) -> bool:
    """Whether both drives are said and differ, by size where both sizes are said."""
    if a.drive_size and b.drive_size:
        return _plain(a.drive_size) != _plain(b.drive_size)
    return bool(a.drive and b.drive) and a.drive != b.drive


def differ_in_length(a: Fastener, b: Fastener) -> bool:
    """Whether both lengths, or both threads, are said and differ."""
    lengths = a.length_mm is not None and b.length_mm is not None and abs(a.length_mm - b.length_mm) > 0.05
    return lengths or bool(a.thread and b.thread and _plain(a.thread) != _plain(b.thread))


def _plain(size: str) -> str:
    return size.replace(" ", "").casefold()


def possible_counts(pair: Pair) -> frozenset[int]:
    """Every count that the groups taken out can add up to, with the other side where the job is repeated."""
    sums: set[int] = {0}
    for use in pair.out[:8]:
        sums |= {total + count for total in sums for count in (counts(use.group) if use.group else ())}
    sums.discard(0)
    return frozenset(sums | {2 * total for total in sums} if pair.repeated else sums)


def earlier_sum(case: Case, use: Use) -> tuple[Use, ...]:
    """The groups that a later remark on all of them speaks of ("that's the last of the six bolts out").

    Empty where the remark agrees with them, or where their counts are open.
    """
    if use.group is None or use.group.count is None or not _ALL_OF.search(use.step.text.casefold()):
        return ()
    before = [
        one
        for one in case.uses[use.procedure]
        if one.step.number < use.step.number and one.direction == "undo" and one.kind == use.kind
    ]
    same = not any(_REPEATED.search(one.step.text.casefold()) for one in before)
    pair = Pair(tuple(before), use, repeated=not same)
    if not before or not all(one.group and counts(one.group) for one in before):
        return ()
    return () if use.group.count in possible_counts(pair) else tuple(before)


def counterpart(pair: Pair) -> Use | None:
    """The one group among those taken out that the group put back is; None where it may be several."""
    back = pair.back.group
    if len(pair.out) == 1 or back is None:
        return pair.out[0]
    for wanted in (
        [use for use in pair.out if use.group and counts(back) and set(counts(use.group)) & set(counts(back))],
        [use for use in pair.out if use.group and _shares(use.group, back)],
    ):
        if len(wanted) == 1:
            return wanted[0]
    return None


def _shares(a: Fastener, b: Fastener) -> bool:
    """Whether a drive size, length or thread is said of both groups, and it is the same."""
    same_drive = bool(a.drive_size and b.drive_size) and not differ_in_drive(a, b)
    same_length = bool((a.length_mm and b.length_mm) or (a.thread and b.thread)) and not differ_in_length(a, b)
    return (same_drive or same_length) and not differ_in_drive(a, b) and not differ_in_length(a, b)


def twins(case: Case) -> Iterator[tuple[Use, Use]]:
    """Groups of two procedures that are one: they secure one plainly named part, each the only group there to do so.

    The name must be that of a procedure's subject or have two words: "the cover" of two jobs may be two covers.
    """
    subjects = {case.teardown.names.key(procedure.subject) for procedure in case.draft.procedures}
    found: dict[tuple[str, str], dict[str, list[Use]]] = {}
    for use in case.teardown.uses:
        taken_out = use.group is not None and use.direction != "make" and use.step.phase == "remove"
        if taken_out and use.secured and (" " in use.secured or use.secured in subjects):
            found.setdefault((use.secured, family(use)), {}).setdefault(use.procedure, []).append(use)
    for homes in found.values():
        single = [uses[0] for uses in homes.values() if len(uses) == 1]
        for first, second in pairwise(single):
            if not first.to or not second.to or first.to == second.to:
                yield first, second
