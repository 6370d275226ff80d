"""Names: one part called differently, and words that the recogniser got wrong.

To add a check to this family: write a function from a `Case` to `Fault`s and list it at the end.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import lru_cache

from miner.findings.case import Case, Check, Fault
from miner.findings.mentions import Mention, Mentions, collect
from miner.findings.titles import by_class, word_classes
from miner.lexicon import Lexicon
from miner.model.draft import Fastener, Procedure
from miner.model.finding import Evidence, Suggestion
from miner.model.naming import SIDES, part_key, part_words, same_part
from miner.model.observation import Observation
from miner.teardown.joints import compatible

_OFTEN, _RARELY, _ONCE = 3, 2, 1
_SHARED_STEM = 0.55  # of the longer word, for two spellings of one modifier ("cooling", "coolant")


def name_variant(case: Case) -> Iterator[Fault]:
    """One part is called by different names: by trade synonyms, by spelling, or when it goes back."""
    mentions = collect(case)
    told: set[frozenset[str]] = set()
    for one, other in _candidates(case, mentions):
        pair = frozenset((one.key, other.key))
        if (
            pair in told
            or one.key == other.key
            or same_part(one.key, other.key)
            or _two_parts(case, mentions, one.key, other.key)
        ):
            continue
        told.add(pair)
        usual, odd = sorted((one, other), key=lambda m: (-mentions.count(m.key), m.evidence.start))
        if mentions.count(odd.key) > _RARELY:
            continue
        yield Fault(
            f"The {usual.name} seems to be called {odd.name} here; use one name.",
            tuple(dict.fromkeys(m.procedure for m in (usual, odd))),
            (usual.evidence, odd.evidence),
            Suggestion(odd.evidence.step or odd.procedure, "part", odd.name, usual.name),
        )


def _candidates(case: Case, mentions: Mentions) -> Iterator[tuple[Mention, Mention]]:
    yield from _by_synonyms(case, mentions)
    yield from _by_stem(mentions)
    yield from _by_return(case, mentions)
    yield from _by_movement(case, mentions)


def _by_synonyms(case: Case, mentions: Mentions) -> Iterator[tuple[Mention, Mention]]:
    said = mentions.words()
    for entry in _synonyms(case.lexicon):
        named = [term for term, last in entry if last in said]
        found = [first for term in named if (first := mentions.first(term))] if len(named) > 1 else []
        for odd in found[1:]:
            yield found[0], odd
    yield from _by_words(case, mentions)


@lru_cache(maxsize=8)
def _synonyms(lexicon: Lexicon) -> tuple[tuple[tuple[str, str], ...], ...]:
    """The names that stand for one another, each with its last word; "rear" and "back" are no names."""
    entries = (entry.terms for entry in lexicon.synonyms if not SIDES.issuperset(entry.terms))
    return tuple(tuple((term, part_words(term)[-1]) for term in terms if part_words(term)) for terms in entries)


def _by_words(case: Case, mentions: Mentions) -> Iterator[tuple[Mention, Mention]]:
    """Names that agree word by word, or by words that stand for one another: "filter cartridge", "filter cassette"."""
    classes = word_classes(case.lexicon)
    alike: dict[tuple[str, ...], list[Mention]] = {}
    for mention in mentions.parts():
        words = mention.key.split()
        if len(words) > 1 and any(word in classes for word in words):
            alike.setdefault(by_class(mention.key, case.lexicon), []).append(mention)
    for group in alike.values():
        yield from ((group[0], odd) for odd in group[1:])


def _by_stem(mentions: Mentions) -> Iterator[tuple[Mention, Mention]]:
    by_head: dict[str, list[Mention]] = {}
    for mention in mentions.parts():
        by_head.setdefault(mention.key.rpartition(" ")[2], []).append(mention)
    for group in by_head.values():
        usual = [one for one in group if mentions.count(one.key) >= _OFTEN]
        odd = [one for one in group if mentions.count(one.key) <= _ONCE]
        yield from ((one, other) for one in usual for other in odd if _one_stem(one.key.split(), other.key.split()))


def _one_stem(one: list[str], other: list[str]) -> bool:
    if len(one) != len(other) or len(one) < 2 or one == other:
        return False
    return all(a == b or _alike(a, b) for a, b in zip(one, other, strict=True))


def _alike(a: str, b: str) -> bool:
    same = 0
    for x, y in zip(a, b, strict=False):
        if x != y:
            break
        same += 1
    return same >= 4 and same >= _SHARED_STEM * max(len(a), len(b)) and not {a, b} & SIDES and not (a + b).isdigit()


def _by_return(case: Case, mentions: Mentions) -> Iterator[tuple[Mention, Mention]]:
    """The same fasteners let go of one part and hold another, which is named nowhere but in the reassembly."""
    for procedure in case.draft.procedures:
        uses = [use for use in case.uses[procedure.id] if use.secured and use.group]
        out = {use.secured: use for use in uses if use.direction != "make" and use.step.phase == "remove"}
        back = {use.secured: use for use in uses if use.direction == "make" and use.step.phase == "install"}
        gone = [use for key, use in out.items() if key not in back]
        come = [use for key, use in back.items() if key not in out]
        if len(gone) != 1 or len(come) != 1 or not _same_fasteners(gone[0].group, come[0].group):
            continue
        first, second = mentions.first(gone[0].secured), mentions.first(come[0].secured)
        if first and second and _may_be_one(first.key, second.key) and _only_put_back(procedure, second, mentions):
            yield first, second


def _by_movement(case: Case, mentions: Mentions) -> Iterator[tuple[Mention, Mention]]:
    """One part is moved out of the way and another, named nowhere else, is moved back by the same verb."""
    for procedure in case.draft.procedures:
        moved = [step for step in procedure.steps if step.part and step.action and not step.fasteners]
        out = {part_key(step.part): step for step in moved if step.phase == "remove"}
        back = {part_key(step.part): step for step in moved if step.phase == "install"}
        for key, step in back.items():
            gone = [other for other, one in out.items() if one.action == step.action and other not in back]
            if key in out or len(gone) != 1 or not re.search(r"\bback\b", step.text) or not _may_be_one(gone[0], key):
                continue
            first, second = mentions.first(gone[0]), mentions.first(key)
            if first and second and _only_put_back(procedure, second, mentions):
                yield first, second


def _same_fasteners(one: Fastener | None, other: Fastener | None) -> bool:
    """Whether two groups agree in all that is said, and something is said of both: a count, a length or a thread."""
    if one is None or other is None or one.kind != other.kind or not compatible(one, other):
        return False
    return any(a and a == b for a, b in ((one.thread, other.thread), (one.length_mm, other.length_mm))) or (
        bool(one.count) and one.count == other.count
    )


def _only_put_back(procedure: Procedure, mention: Mention, mentions: Mentions) -> bool:
    steps = {step.id for step in procedure.steps if step.phase == "install"}
    return all(place.evidence.step in steps for place in mentions.by_key.get(mention.key, ()))


def _may_be_one(one: str, other: str) -> bool:
    """Two names of two words each, no word in common: parts that belong together share one ("pump", "pump bracket")."""
    a, b = set(one.split()), set(other.split())
    return len(a) > 1 and len(b) > 1 and not a & b


def _two_parts(case: Case, mentions: Mentions, one: str, other: str) -> bool:
    """Whether both names are plainly used of two parts: both are subjects, or one procedure takes both off."""
    subjects = {part_key(procedure.subject) for procedure in case.draft.procedures}
    if one in subjects and other in subjects:
        return True
    for procedure in case.draft.procedures:
        taken = {part_key(step.part) for step in procedure.steps if case.teardown.effects.takes_out(step)}
        listed = {part_key(item.part) for item in procedure.prerequisites}
        if {one, other} <= taken or {one, other} <= listed:
            return True
    return mentions.together(one, other)


def probable_mishearing(case: Case) -> Iterator[Fault]:
    """A word is a transcription error for a trade word; once for each word, with all its places."""
    words: dict[str, list[Observation]] = {}
    for one in case.observed("mishearing"):
        words.setdefault(one.detail.get("heard", "").casefold(), []).append(one)
    for heard, found in words.items():
        evidence: tuple[Evidence, ...] = tuple(dict.fromkeys(place for one in found for place in one.evidence))
        homes = dict.fromkeys(home.id for place in evidence if (home := case.at(place.start)))
        meant = found[0].detail.get("meant", "")
        yield Fault(
            f"'{heard}' is probably misheard" + (f" for '{meant}'." if meant else "."),
            tuple(homes),
            evidence,
            Suggestion(case.draft.recording.id, "text", heard, meant) if heard and meant else None,
        )


CHECKS = (
    Check(
        "name-variant",
        "warning",
        "One part is called by different names.",
        "The solenoid valve is called the magnet valve once.",
        name_variant,
    ),
    Check(
        "probable-mishearing",
        "remark",
        "A word is a transcription error for a trade word.",
        "'Bobbing case' stands for 'bobbin case'.",
        probable_mishearing,
    ),
)
