"""Groups of fasteners: how many, of what kind, which size, which drive, what they hold to what."""

from __future__ import annotations

import re
from bisect import bisect_left, bisect_right
from collections.abc import Sequence
from dataclasses import replace
from functools import lru_cache

from spacy.tokens import Doc

from miner.language.annotations import Annotations, Group, Measure, Number, Phrase, annotations_of
from miner.lexicon import Lexicon
from miner.lexicon.entries import FastenerKind
from miner.lexicon.inflection import singular
from miner.lexicon.lookup import Lookup, lookup

_LEFT = frozenset("NZAnHRQDFE,-C")
_AFTER = re.compile(r"(?:[,\-\sx]*(?:[pD]|[OIe]X?|X|o|R|W X)*Z|,?[RD]*A(?=[.,C]))*")
_SPAN_RIGHT = re.compile(r"(?:(?:,|-|x|p|D|o|X|R|O|e|W|E|Q)*Z(?:F(?=[.,CW]|$))?)+")
_HOLDS = re.compile(
    r"\b(?:(?:that|which|all of which|and) )?(?:are |is )?(?:\w+ly )?(?:secur(?:e|es|ing|ed)|hold(?:s|ing)?|held|fasten(?:s|ing)?|attach(?:es|ing)?|fix(?:es|ing)?|retain(?:s|ing)?|"
    r"keep(?:s|ing)?|clamp(?:s|ing)?|mount(?:s|ing)?|connect(?:s|ing)?|join(?:s|ing)?|bolt(?:s|ing)?|lock(?:s|ing)?|pin(?:s|ning)?|tie(?:s)?|tying)\b"
)
_ALTERNATIVE = re.compile(r"(?:either )?(?P<a>\S+(?:[ -]\S+)?) or (?P<b>\S+)")
_CAPTIVE = re.compile(r"\bcaptive\b|\bstays? (?:in|put|with)\b|\bcaptured?\b")
_ONE_OF = re.compile(r"\b(?:one|two|three|four|five|six) of (?:the|these|those|them)\b")
_SIZES_AF = frozenset((5.5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 16, 17, 18, 19, 21, 22, 24, 27, 30, 32))
"""Widths across flats of usual spanners, mm (ISO 272 series, common practice for the rest)."""


@lru_cache(maxsize=8)
def _kinds(lexicon: Lexicon) -> tuple[dict[str, FastenerKind], frozenset[str]]:
    index = lookup(lexicon)
    qualifiers = frozenset(word for kind in lexicon.fasteners for q in kind.qualifiers for word in q.split())
    return dict(index.fasteners), qualifiers


def find_groups(doc: Doc, lexicon: Lexicon) -> list[Group]:
    """The fastener groups of a Doc, in order; tags, numbers, measures and phrases must have been set."""
    return groups_in(annotations_of(doc), lexicon)


def groups_in(known: Annotations, lexicon: Lexicon) -> list[Group]:
    """As find_groups, from annotations."""
    kinds, qualifiers = _kinds(lexicon)
    index = lookup(lexicon)
    tags = known.tags
    finder = _Finder(known, kinds, qualifiers, index)
    found = [group for match in re.finditer("F+", tags) if (group := finder.at(match.start(), match.end()))]
    if known.register == "notes":
        found += finder.implied({i for group in found for i in range(group.start, group.end)})
        found.sort(key=lambda group: group.start)
    return found


class _Finder:
    """Reads one Doc; holds the indexes that every group needs."""

    def __init__(
        self, known: Annotations, kinds: dict[str, FastenerKind], qualifiers: frozenset[str], index: Lookup
    ) -> None:
        self.known, self.kinds, self.qualifiers, self.index = known, kinds, qualifiers, index
        self.number_starts = [n.start for n in known.numbers]
        self.measure_starts = [m.start for m in known.measures]
        self.phrase_starts = [p.start for p in known.phrases]

    def numbers(self, start: int, end: int) -> list[Number]:
        found = self.known.numbers[bisect_left(self.number_starts, start) : bisect_left(self.number_starts, end)]
        return [n for n in found if n.start not in self.known.dropped and self.known.tags[n.start] == "N"]

    def measures(self, start: int, end: int) -> list[Measure]:
        found = self.known.measures[bisect_left(self.measure_starts, start) : bisect_left(self.measure_starts, end)]
        return [m for m in found if m.start not in self.known.dropped]

    def at(self, start: int, end: int) -> Group | None:
        """The group whose noun stands at `start:end`, unless the noun is the first part of a compound."""
        known, tags, lower = self.known, self.known.tags, self.known.lower
        noun, first = self._noun(start, end)
        if noun is None:
            return None
        plural = lower[end - 1] != singular(lower[end - 1])
        if (
            not plural
            and end < len(tags)
            and tags[end] in "nH"
            and end not in known.breaks
            and lower[end] not in ("head", "heads")
        ):
            return None
        left = self._left(first)
        right = self._right(end)
        numbers = self.numbers(left, first)
        measures = self.measures(left, first) + self.measures(end, right)
        count, alternatives = self._count(numbers, left, first)
        if count is None and not alternatives:
            count, alternatives, left = self._shared_count(left, count)
        if count is None and not alternatives:  # "bolts (4x)"
            after = [n for n in self.numbers(end, min(end + 3, len(tags))) if n.times]
            count = int(after[0].value) if after and not set(tags[end : after[0].start]) - {"x"} else None
        words = known.words(left, end)
        if (
            count is None
            and not alternatives
            and not plural
            and re.search(r"\b(?:the|a|an|this|that|its|your|single|each|another|every|same)\b", words)
        ):
            count = 1
        if known.breaks and count is None and not alternatives and not plural:
            count = 1  # notes leave the article out
        if count is None and "both" in words.split():
            count = 2
        if re.search(r"\bpair of\b", words):
            count = 2 * (count or 1)
        name = " ".join(
            w
            for w, t in zip(lower[left:end], tags[left:end], strict=True)
            if t in "nHFAEG" and w not in self.qualifiers
        )
        group = Group(left, max(right, end), noun.kind, plural, count, alternatives, name=name,
                      captive="captive" in words or bool(_CAPTIVE.search(known.words(end, min(end + 8, len(lower))).split(".")[0])),
                      definite=bool(re.search(r"\b(?:the|those|these|same|both|all)\b", words)))  # fmt: skip
        group = measured(group, measures)
        return self._held(group, end)

    def _noun(self, start: int, end: int) -> tuple[FastenerKind | None, int]:
        """The kind of the noun that ends at `end` (the longest term), and where it starts."""
        lower = self.known.lower
        for first in range(max(end - 3, 0), end):
            kind = self.kinds.get(" ".join(lower[first:end]))
            if kind:
                return kind, first
        return None, start

    def _left(self, first: int) -> int:
        """Where the noun phrase of a group begins; commas only between sizes, "and"/"or" only between numbers."""
        tags, breaks = self.known.tags, self.known.breaks
        i = first
        while i > 0 and i not in breaks:
            tag = tags[i - 1]
            if tag in ",C-":
                if i < 2 or tags[i - 2] not in "NZ" or tags[i] not in "NZAnHE":
                    break
                if tag == "C" and not (tags[i - 2] in "NZ" and tags[i] in "NZ" and self.known.lower[i - 1] == "or"):
                    break
            elif tag == "o":
                if i < 2 or (
                    self.known.lower[i - 2] not in ("pair", "couple", "set", "number", "lot")
                    and tags[i - 2] not in "NQO"
                ):
                    break
            elif (
                (tag == "R" and self.known.lower[i - 1] not in ("very", "really", "about", "just"))
                or tag not in "NZAnHRQDFEG"
                or (tag in "EG" and i >= 2 and tags[i - 2] not in "DNAZQnH")
            ):
                break
            i -= 1
            if tag == "D":
                break
            if tag in "Q" and i > 0 and tags[i - 1] not in "DQNoA":
                break
        return i

    def _right(self, end: int) -> int:
        """Where sizes end that follow the noun: "screws, PH2, 20 mil"."""
        if end in self.known.breaks:
            return end
        match = _SPAN_RIGHT.match(self.known.tags, end)
        stop = match.end() if match else end
        inside = next((b for b in range(end, stop) if b in self.known.breaks), stop)
        words = self.known.words(end, inside)
        if re.search(r"\b(?:with|using) (?:a|an|the|your|my)\b", words) and not re.search(r"\bheads?\b", words):
            return end
        return inside

    def _count(self, numbers: list[Number], left: int, first: int) -> tuple[int | None, tuple[int, ...]]:
        values = [int(n.value) for n in numbers if n.value == int(n.value)]
        if not values:
            return None, ()
        between = self.known.words(numbers[0].end, numbers[1].start) if len(numbers) > 1 else ""
        if len(values) > 1 and re.fullmatch(r"or(?: maybe| possibly)?|to|maybe", between.strip(" ,")):
            return None, tuple(sorted(set(values[:2])))
        return values[0], ()

    def _shared_count(self, left: int, count: int | None) -> tuple[int | None, tuple[int, ...], int]:
        """A count before "of the", as in "all four of the screws", "two or three of the screws"."""
        tags = self.known.tags
        i = left
        if i >= 1 and tags[i - 1] == "o":
            numbers = self.numbers(max(i - 5, 0), i - 1)
            if numbers and numbers[-1].end == i - 1:
                return int(numbers[-1].value), (), numbers[-1].start
        return count, (), left

    def _held(self, group: Group, noun_end: int) -> Group:
        """What the group secures to what, in the words that follow it in the same sentence."""
        known, tags = self.known, self.known.tags
        stop = noun_end
        while stop < len(tags) and tags[stop] != "." and stop not in known.breaks and stop - noun_end < 28:
            stop += 1
        text = known.words(noun_end, stop)
        verb = _HOLDS.search(text)
        if verb and len(text[: verb.start()].split()) <= 12:
            at = noun_end + len(text[: verb.end()].split())
            phrases = self._phrases(at, stop)
            if phrases and phrases[0].start - at <= 1:
                held = phrases[0].name
                to, after = None, phrases[0]
                for phrase in phrases[1:]:
                    gap = known.lower[after.end : phrase.start]
                    if gap and gap[-1] in ("to", "onto", "into", "against", "in", "on") and len(gap) <= 3:
                        to = phrase.name
                        break
                    if gap == ["and"] or gap == [","]:
                        held, after = f"{held} and {phrase.name}", phrase
                        continue
                    break
                return replace(group, secures=held, to=to)
        return group

    def _phrases(self, start: int, end: int) -> list[Phrase]:
        found = self.known.phrases[bisect_left(self.phrase_starts, start) : bisect_left(self.phrase_starts, end)]
        return list(found)

    def implied(self, taken: set[int]) -> list[Group]:
        """Groups of notes that name no fastener: `2x PH2 M4x16`. A screw, unless a thread with a spanner size tells a bolt."""
        known = self.known
        found: list[Group] = []
        i = 0
        while i < len(known.measures):
            first = known.measures[i]
            run = [first]
            while (i + 1 < len(known.measures) and known.measures[i + 1].start - run[-1].end <= 1
                   and known.measures[i + 1].start not in known.breaks):  # fmt: skip
                i += 1
                run.append(known.measures[i])
            i += 1
            sized = [m for m in run if m.kind in ("thread", "drive") and (m.thread or m.drive_size)]
            if not sized or any(t in taken for m in run for t in range(m.start, m.end)):
                continue
            start = run[0].start
            numbers = self.numbers(max(start - 4, 0), start)
            count = next((n for n in reversed(numbers) if n.times or n.end == start), None)
            if count is None and not any(m.thread for m in run):
                continue
            begin = count.start if count else start
            found.append(measured(Group(begin, run[-1].end, "screw", (count.value if count else 1) != 1,
                                         int(count.value) if count else None, implied=True), run))  # fmt: skip
        return found


def measured(group: Group, measures: Sequence[Measure]) -> Group:
    """The group with its sizes; the first word on each wins. A bare length on a nut or bolt is its spanner size."""
    for m in measures:
        if m.thread and not group.thread:
            group = replace(group, thread=m.thread)
        if m.drive and (not group.drive or (group.drive == m.drive and not group.drive_size)):
            group = replace(group, drive=m.drive, drive_size=m.drive_size)
        if m.head and not group.head:
            group = replace(group, head=m.head)
        if m.torque_nm is not None and group.torque_nm is None:
            group = replace(group, torque_nm=m.torque_nm)
        if m.length_mm is None or group.length_mm is not None:
            continue
        spanner = group.kind == "nut" or (
            group.kind == "bolt" and not m.long and not m.thread and m.length_mm in _SIZES_AF and not group.thread
        )
        if spanner and not m.thread:
            if group.drive in (None, "hex-head") and not group.drive_size:
                group = replace(group, drive="hex-head", drive_size=f"{m.length_mm:g} mm")
        else:
            group = replace(group, length_mm=m.length_mm)
    if group.kind in ("nut", "bolt") and group.drive == "hex-socket" and group.kind == "nut":
        group = replace(group, drive="hex-head")
    return group


def merge(first: Group, second: Group) -> Group:
    """One group told in two places: what the first leaves open is taken from the second."""
    return replace(
        first,
        count=first.count if first.count is not None or first.alternatives else second.count,
        alternatives=first.alternatives or (second.alternatives if first.count is None else ()),
        length_mm=first.length_mm if first.length_mm is not None else second.length_mm,
        thread=first.thread or second.thread,
        drive=first.drive or second.drive,
        drive_size=first.drive_size
        or (second.drive_size if second.drive in (None, first.drive) or not first.drive else None),
        head=first.head or second.head,
        captive=first.captive or second.captive,
        torque_nm=first.torque_nm if first.torque_nm is not None else second.torque_nm,
        location=first.location or second.location,
        secures=first.secures or second.secures,
        to=first.to or second.to,
        end=max(first.end, second.end),
    )


def position(starts: Sequence[int], value: int) -> int:
    """The place of the last start at or before a value."""
    return bisect_right(starts, value) - 1
