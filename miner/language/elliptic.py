"""Clauses in which a particle does the work of a verb: "cover off", "new filter in", "cap back on till it clicks"."""

from __future__ import annotations

import re

from miner.language.annotations import Annotations, Deed, Mood
from miner.language.discourse import Discourse

_NAME = r"(?:[DQNAZnHFGo]|(?<=[nHFN])C(?=[DAnHN]))*[nHF]"
_ELLIPTIC = re.compile(_NAME + r"R*(?P<particle>r+(?:Cr+)?)(?=[.,CWptDToIf\-]|[nHF]|$)")
_NEW_INTO = re.compile(r"D?A[QNAZnHFG]*[nHF]R*[pt](?=[DnHF])")
_INTO_PLACE = re.compile(_NAME + r"R*(?P<into>p)[DQAN]*[nH]+[.,]?$")
PLACED = "install"
"""The verb of a clause that only says where a part goes ("strap over", "shroud into the frame")."""
_HOME = frozenset(("in", "on", "over", "down", "up", "forward", "together", "home", "through", "round", "around"))
_INTO = frozenset(("into", "onto", "on", "in", "over", "through", "round", "around", "to"))
_AWAY = frozenset(("off", "out", "away"))


def elliptic(known: Annotations, core: int, end: int, words: Discourse) -> tuple[Mood, Deed | None]:
    """The mood and deed of a clause from `core` that has no verb."""
    if core < end and known.lower[core] in words.questions:
        return "fragment", None
    match = _ELLIPTIC.match(known.tags, core, end)
    if not match:
        return _new_into(known, core, end)
    start, stop = match.span("particle")
    particles = known.lower[start:stop]
    if "new" in known.lower[core:start] and particles[-1] not in _AWAY:
        return "result", Deed(start, stop, "install", "attach", "third", start)
    if particles[-1] in _AWAY and "back" not in particles:
        return "result", Deed(start, stop, "remove", "detach", "third", start)
    following = known.lower[stop] if stop < end else ""
    noted = known.breaks and (stop >= end or known.tags[stop] in ",.")  # "2 bolts back, 25 Nm"
    if particles[0] == "back" and (len(particles) > 1 or following in words.after_back or noted):
        return "result", Deed(start, stop, "refit", "attach", "third", start)
    if particles[-1] in _HOME and (
        following in _INTO or stop >= end or known.tags[stop] in ",.C" or following == "with"
    ):
        return "result", Deed(start, stop, PLACED, "attach", "third", start)
    return "fragment", None


def _new_into(known: Annotations, core: int, end: int) -> tuple[Mood, Deed | None]:
    """A new part and where it goes: "new filter into the tray"."""
    match = _NEW_INTO.match(known.tags, core, end)
    if match and "new" in known.lower[core : core + 2]:
        return "result", Deed(match.end() - 1, match.end(), "install", "attach", "third")
    placed = _INTO_PLACE.match(known.tags, core, end)
    if placed and known.lower[placed.start("into")] in _INTO:
        at = placed.start("into")
        return "result", Deed(at, at + 1, PLACED, "attach", "third", at)
    return "fragment", None
