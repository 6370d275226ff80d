"""The mood of a clause, and the trade verb that carries it."""

from __future__ import annotations

import re

from miner.language.annotations import Annotations, Deed, Mood
from miner.language.discourse import Discourse
from miner.lexicon.inflection import singular

_PLANNED = re.compile(r"I[IRTfXJt]*(?:[VG]C)?[RTft]*[VXG]*[RTf]*t?R*([VG])")
_NARRATED = re.compile(r"I[RTfX]*E")
_EARLIER = re.compile(
    r"\b(?:yesterday|last (?:night|week|month|time|year)|this morning|earlier|the other day|years ago|if i were you)\b"
)
_NEGATIVE = re.compile(r"X?JX?R*|(?:I[RTf]*X*)J")
_PARTICLE_FIRST = re.compile(r"r(?:O|D?[AQN]*[nHF]+)[SV]")
_RESULT = re.compile(r"(?:D|Q|N|A|Z|n|H|F|o|[GE](?=[nHF])|C(?=[DnH]))*[nHFON][QRJN]*(?:S|V(?=r)|X[RrX]*t?[VG])")
_SEVERAL_DO = re.compile(r"(?:D|Q|N|A|n|H|o)*[nHO]V(?=[rp])")
_PASSIVE = re.compile(r"(?:D|Q|N|A|Z|n|H|F|o|,|C|[GE](?=[nHF]))*[nHFO]?(?:p[DAQNZnHF]+)*[QRJ]*X[RJrXQTt]*[EAr]")

_NOTED_DONE = re.compile(r"[DQNAZnHF]*[nHF]E(?=[.,Cprt]|$)")
_IS_DONE = re.compile(r"[nHF]X[RTrX]*E")
_BEGINS_WITH_VERB = re.compile(r"(?:^|[.])[TRC,f]*V")
_AGENT = 7
"""Tokens after "held" in which fasteners are what holds."""
_FEWEST = 5
"""Passives that a text must have before its imperatives are counted."""

_OBJECTS = tuple("DONQnHAFdZrR")
"""Tags that may follow a progressive that does something; "starting at the corner" only leads in."""

_Found = tuple[Mood, Deed | None]


def mood_of(known: Annotations, core: int, end: int, deeds: list[Deed], words: Discourse) -> _Found:
    """The mood of a clause whose main part begins at `core`, and its verb among the deeds of the clause."""
    tags = known.tags
    if core >= end:
        return "fragment", None
    after = [deed for deed in deeds if deed.start >= core]
    tag = tags[core]
    if tag in "JXI" and "J" in tags[core : min(core + 4, end)] and _NEGATIVE.match(tags, core, end):
        return "negative", _first(after)
    if tag == "V":
        return "imperative", _at(after, core)
    if tag == "G":
        return ("narrated", _at(after, core)) if tags[core + 1 : core + 2] in _OBJECTS else ("fragment", None)
    if tag == "I":
        if known.lower[core] == "they" and known.lower[core + 1 : core + 2] and known.lower[core + 1] in words.holding:
            return "descriptive", None  # "they hold the gong to the frame"
        earlier = _EARLIER.search(known.words(core, end)) is not None
        return _of_subject(tags, core, end, after, earlier=earlier)
    if tag in "eO" and not _RESULT.match(tags, core, end):
        return _of_pronoun(tags, core, end, after)
    if tag == "r" and _PARTICLE_FIRST.match(tags, core, end):  # "out it comes"
        return "result", Deed(core, core + 1, "remove", "detach", "third", core)
    return _of_noun(known, core, end, after, words)


def _first(deeds: list[Deed]) -> Deed | None:
    return deeds[0] if deeds else None


def _at(deeds: list[Deed], token: int) -> Deed | None:
    return next((deed for deed in deeds if deed.start == token), None)


def _from(deeds: list[Deed], token: int) -> Deed | None:
    return next((deed for deed in deeds if deed.start >= token), None)


def _of_subject(tags: str, core: int, end: int, deeds: list[Deed], *, earlier: bool) -> _Found:
    """After a subject: "we take it off" is planned, "I took it off" narrated; not what was done another day."""
    planned = _PLANNED.match(tags, core, end)
    if planned:
        return "planned", _from(deeds, planned.end() - 1)
    if _NARRATED.match(tags, core, end) and not earlier:
        return "narrated", _first(deeds)
    return "descriptive", None


def _of_pronoun(tags: str, core: int, end: int, deeds: list[Deed]) -> _Found:
    """After a pronoun: "it's held by ..." is passive, "there are ..." tells only what is there."""
    passive = _PASSIVE.match(tags, core, end)
    found = _from(deeds, passive.end() - 1) if passive else None
    return ("passive", found) if found and found.form == "past" else ("descriptive", None)


def _of_noun(known: Annotations, core: int, end: int, deeds: list[Deed], words: Discourse) -> _Found:
    """After a noun: "the cover lifts off" is a result, "it is glued" passive, "the seal needs grease" descriptive."""
    tags = known.tags
    result = _RESULT.match(tags, core, end) or _several_do(known, core, end)
    if result:
        verb = result.end() - 1
        found = _at(deeds, verb)
        if found and found.particle is None and known.lower[verb] in words.stative:
            return "descriptive", None
        if found and (found.form == "third" or tags[verb] == "V"):
            return "result", found
        if found and found.form == "progressive":
            return "descriptive", None
    passive = _PASSIVE.match(tags, core, end)
    if passive:
        found = _at(deeds, passive.end() - 1)
        return ("result" if found and _is_told_passive(known, core, found, words) else "passive"), found
    if known.breaks:
        done = _NOTED_DONE.match(tags, core, end)
        found = _at(deeds, done.end() - 1) if done else None
        if found and found.effect != "handle":
            return "result", found  # "lead unplugged"
    return ("descriptive", None) if tags[core] in "eO" else ("fragment", _first(deeds))


def tells_in_passive(tags: str) -> bool:
    """Whether a text gives its instructions in the passive, as formal manuals do: more of these than imperatives."""
    passives = len(_IS_DONE.findall(tags))
    return passives > _FEWEST and passives > len(_BEGINS_WITH_VERB.findall(tags))


def _several_do(known: Annotations, core: int, end: int) -> re.Match[str] | None:
    """What several parts do, with the base form of a verb: "new ones slide in the tray"."""
    result = _SEVERAL_DO.match(known.tags, core, end)
    if not result:
        return None
    subject = known.lower[result.end() - 2]
    return result if subject in ("ones", "both", "these", "those") or singular(subject) != subject else None


def _is_told_passive(known: Annotations, core: int, deed: Deed, words: Discourse) -> bool:
    """Whether a passive tells work: "the new leg is pushed home", not "the leg is held by a bolt"."""
    said, verb = known.lower[core : deed.start], known.lower[deed.start]
    if "already" in said or not {"is", "are", "be"} & set(said):
        return False
    if known.passive:
        by = known.lower[deed.end : deed.end + 1] == ["by"] and "F" in known.tags[deed.end : deed.end + _AGENT]
        return (verb not in words.held or (verb in words.worked and not by)) and said[-1] not in ("been", "was", "were")
    if verb in words.held or deed.effect in ("handle", "energise", "isolate", "inspect"):
        return False
    return said[-1] in ("is", "are", "then", "now") and "be" not in said
