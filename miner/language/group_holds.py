"""What a group of fasteners secures, and to what, in the words that follow it in the same sentence."""

from __future__ import annotations

import re
from dataclasses import replace

from miner.language.annotations import Annotations, Group
from miner.language.group_carries import carried
from miner.language.nearby import Nearby

_REACH = 28
"""Tokens after the noun that are looked at."""

_VERB_WITHIN = 12
"""Words before the verb at most."""

_VERBS = (
    r"secur(?:e|es|ing|ed)|hold(?:s|ing)?|held|fasten(?:s|ing)?|attach(?:es|ing)?|fix(?:es|ing)?|retain(?:s|ing)?"
    r"|keep(?:s|ing)?|clamp(?:s|ing)?|mount(?:s|ing)?|connect(?:s|ing)?|join(?:s|ing)?|bolt(?:s|ing)?|lock(?:s|ing)?"
    r"|pin(?:s|ning)?|tie(?:s)?|tying"
)
_HOLDS = re.compile(rf"\b(?:(?:that|which|all of which|and) )?(?:are |is )?(?:\w+ly )?(?:{_VERBS})\b")
_TO = frozenset(("to", "onto", "into", "against", "in", "on"))


def held(group: Group, noun_end: int, known: Annotations, nearby: Nearby) -> Group:
    """The group with what it secures; `noun_end` is where its noun ends."""
    stop = _sentence_end(known, noun_end)
    text = known.words(noun_end, stop)
    verb = _HOLDS.search(text)
    if not verb or len(text[: verb.start()].split()) > _VERB_WITHIN:
        owned = _belonging(group, noun_end, known, nearby)
        return owned if owned.secures else carried(group, known, nearby)
    at = noun_end + len(text[: verb.end()].split())
    phrases = nearby.phrases(at, stop)
    if not phrases or phrases[0].start - at > 1:
        return group
    secures, last = phrases[0].name, phrases[0]
    for phrase in phrases[1:]:
        between = known.lower[last.end : phrase.start]
        if between and between[-1] in _TO and len(between) <= 3:
            return replace(group, secures=secures, to=phrase.name)
        if between not in (["and"], [","]):
            break
        secures, last = f"{secures} and {phrase.name}", phrase
    return replace(group, secures=secures, to=None)


def _belonging(group: Group, noun_end: int, known: Annotations, nearby: Nearby) -> Group:
    """What the owner is: "the screws of the hopper" hold the hopper."""
    if known.tags[noun_end : noun_end + 2] != "oD":
        return group
    owners = nearby.phrases(noun_end + 1, noun_end + 2)
    return replace(group, secures=owners[0].name) if owners and not owners[0].place else group


def _sentence_end(known: Annotations, start: int) -> int:
    """The end of the sentence or note, or of the reach."""
    stop = known.tags.find(".", start, start + _REACH)
    if stop < 0:
        stop = min(start + _REACH, len(known.tags))
    return next((at for at in range(start, stop) if at in known.stops), stop) if known.stops else stop
