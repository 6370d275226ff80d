"""Clauses in which a particle does the work of a verb: "cover off", "new filter in", "cap back on till it clicks"."""

from __future__ import annotations

import re

from miner.language.annotations import Annotations, Deed, Mood
from miner.language.discourse import Discourse

_NAME = r"(?:[DQNAZnHFGo]|(?<=[nHFN])C(?=[DAnHN]))*[nHF]"
_ELLIPTIC = re.compile(_NAME + r"R*(?P<particle>r+)(?=[.,CWptDToIf\-]|[nHF]|$)")
_NEW_INTO = re.compile(r"D?A[QNAZnHFG]*[nHF]R*[pt](?=[DnHF])")
_AWAY = frozenset(("off", "out", "away"))


def elliptic(known: Annotations, core: int, end: int, words: Discourse) -> tuple[Mood, Deed | None]:
    """The mood and deed of a clause from `core` that has no verb."""
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
    if particles[0] == "back" and (len(particles) > 1 or following in words.after_back):
        return "result", Deed(start, stop, "refit", "attach", "third", start)
    return "fragment", None


def _new_into(known: Annotations, core: int, end: int) -> tuple[Mood, Deed | None]:
    """A new part and where it goes: "new filter into the tray"."""
    match = _NEW_INTO.match(known.tags, core, end)
    if match and "new" in known.lower[core : core + 2]:
        return "result", Deed(match.end() - 1, match.end(), "install", "attach", "third")
    return "fragment", None
