"""How many fasteners there are in all where they are told in shares: "one each side", "two here and two there"."""

from __future__ import annotations

import re
from dataclasses import replace

from miner.language.annotations import Annotations, Group
from miner.language.numbers import ANY, value_of
from miner.procedures.step_found import counted_after

_REACH = 14
"""Tokens after a group in which its share of the whole may stand; before it half as many."""

_TWO_PLACES = r"(?:each|either|both|per) (?:of the )?(?:sides?|ends?|flanks?|edges?)"
_PLACES = re.compile(
    rf"\b(?:{_TWO_PLACES}|a (?:side|end)\b|(?:each|all|every)(?: of)?(?: the)?(?: four)? corners?"
    rf"|(?:in|on|at|through|from|to|under|for|of) each of (?:the|its) (?P<n>{ANY})\b)"
)
_SOMETHING_ELSE = re.compile(r"\b(?:there's|there is|there are|an?|with)\b")
_ALL = re.compile(rf"\b(?:all|the|makes?|making|that's|total of) (?P<n>{ANY})(?: of (?:them|those|these|em))?\b")
_OFF = re.compile(r"\b(?P<n>\d+) ?off\b")
_MORE = re.compile(
    rf"\b(?:and|then|plus|,) (?:another )?(?P<n>{ANY})(?: more| others?)? "
    r"(?:at|on|in|down|up|underneath|behind|along|more)\b"
)
_CORRECTED = re.compile(
    r"\b(?:no|nope|oops|wait|sorry|actually|hang on|hold on|scratch that|correction|rather|i mean|i tell a lie"
    r"|make (?:that|it))"
    r"(?:[\s,.-]+(?:no|wait|sorry|actually|it's|that's|there's|make that|make it|only|just))*"
    rf"[\s,]+(?P<n>{ANY})(?=\W*$|\s*[,.;]|\s(?:of|they|they're|so|it's|and|take|get|out|screws|bolts|nuts|clips)\b)"
)
_SHARES = re.compile(
    rf"\W*(?:with )?(?P<n>{ANY}) (?:(?:in|at|on|to|for|per|from) )?(?P<at>(?:each|either|every|a|per)? ?"
    r"(?:side|end|corner))\b"
)


def in_all(known: Annotations, groups: list[Group], end: int) -> list[Group]:
    """The groups of a step with their counts in all.

    Args:
        known: the annotated recording.
        groups: the groups of one step.
        end: the token after the step.
    """
    if len(groups) != 1 or groups[0].alternatives:
        return groups
    group = groups[0]
    stop = max(end, group.end)
    before = known.words(_sentence_start(known, group.start), group.start)
    after = known.words(group.end, min(group.end + _REACH, stop))
    step = known.words(group.end, stop)
    if group.count is None:
        shared = _of_shares(after) if group.plural else None
        return [replace(group, count=shared) if shared else counted_after(group, after)]
    corrected = _CORRECTED.match(after.lstrip(" ,.-"))
    if corrected:
        return [replace(group, count=int(value_of(corrected["n"])))]
    total = _told_total(group.count, before, after, step, noted=bool(known.breaks))
    return [replace(group, count=total)] if total else groups


def _sentence_start(known: Annotations, end: int) -> int:
    low = max(end - _REACH // 2, 0)
    return max(known.tags.rfind(".", low, end) + 1, low)


def _told_total(count: int, before: str, after: str, step: str, *, noted: bool) -> int | None:
    """The number in all, if the words give a share; None if they do not."""
    place = _PLACES.search(after.partition(" . ")[0])
    if place and _SOMETHING_ELSE.search(after[: place.start()]):  # "the nut, there's a washer each side"
        place = None
    place = place or _PLACES.search(before)
    places = _number_of(place) if place else 1
    totals = {int(value_of(said["n"])) for said in _ALL.finditer(step)}
    if noted:
        totals |= {int(value_of(said["n"])) for said in _OFF.finditer(step)}
    if places > 1 and (count == 1 or count * places in totals):
        return count * places
    more = _MORE.search(after)
    if more and count + int(value_of(more["n"])) in totals:
        return count + int(value_of(more["n"]))
    return None


def _number_of(place: re.Match[str]) -> int:
    """At how many places the share is found."""
    if place["n"]:
        return int(value_of(place["n"]))
    return 4 if "corner" in place[0] else 2


def _of_shares(after: str) -> int | None:
    """The number in all of "clips, one at each corner"."""
    share = _SHARES.match(after)
    if not share:
        return None
    return int(value_of(share["n"])) * (4 if "corner" in share["at"] else 2)
