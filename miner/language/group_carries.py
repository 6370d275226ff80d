"""What a group of fasteners secures where the words before it say so: "the tank sits on the frame with two bolts"."""

from __future__ import annotations

import re
from dataclasses import replace

from miner.language.annotations import Annotations, Group
from miner.language.nearby import Nearby

_REACH = 20
"""Tokens before the group that are looked at."""

_BEGINS = re.compile(
    r"(?:(?:and|so|now|then|right|okay|next|again|but|,) )*(?:(?:there's|there is|you've got|we've got|you have))?\W*"
)
_HELD = (
    r"(?:held|fixed|secured|fastened|bolted|screwed|clamped|mounted|retained|attached|pinned|tied|riveted|kept|seated)"
)
_IS = r"(?:'s|is|are|'re|sits?|hangs?|goes|stands?|mounts?|was|were)"
_IDLE = r"(?: (?:just|only|all|now|\w+ly))*"
_CARRIED = re.compile(
    rf"{_IS}{_IDLE}(?: {_HELD})?(?: (?:down|in|up|back|together))*"
    r"(?P<to> (?:on|onto|to|in|into|against) (?:(?!with\b|by\b)[\w-]+ ?){1,4}?)? ?(?:with|by|on|using)"
    r"|(?:has|have|'s got|has got|have got|'s|takes)(?: (?:got|just|only))*(?<!'s)"
    rf"|(?:[\w-]+ ){{0,5}}, (?:and )?(?:that's|it's|which is|that is|it is){_IDLE}"
    rf"(?: {_HELD})?(?: (?:down|in))? (?:with|by|on)"
)


def carried(group: Group, known: Annotations, nearby: Nearby) -> Group:
    """The group with the part that is on it by the words before it in its sentence."""
    begin = _sentence_start(known, group.start)
    phrases = [phrase for phrase in nearby.phrases(begin, group.start) if not phrase.place]
    if not phrases or not _BEGINS.fullmatch(known.words(begin, phrases[0].start)):
        return group
    first = phrases[0]
    said = _CARRIED.fullmatch(known.words(first.end, group.start))
    if not said:
        return group
    to = phrases[1].name if said["to"] and len(phrases) > 1 else None
    return replace(group, secures=first.name, to=to)


def _sentence_start(known: Annotations, end: int) -> int:
    low = max(end - _REACH, 0)
    begin = max(known.tags.rfind(".", low, end) + 1, low)
    return max((at for at in range(begin, end) if at in known.stops), default=begin)
