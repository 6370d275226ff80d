"""In which phase of a job a step lies: preparing, removing, installing, or checking afterwards."""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from typing import Literal

from miner.language.annotations import Annotations, Clause, Group
from miner.language.elliptic import PLACED
from miner.lexicon.inflection import singular
from miner.model.draft import Phase
from miner.model.naming import head_word

INSTALLS = frozenset(("attach", "fasten", "connect", "close", "apply", "transfer"))
REMOVES = frozenset(("undo", "loosen", "detach", "disconnect", "open"))
BACK = re.compile(
    r"\bback (?:in|on|into|onto|together|over|under|through|where|to its|again)\b"
    r"|\b(?:goes?|going|put|puts|putting|fit|fits|push|slide|slides|clip|clips|snap|snaps|screw|bolt|pop|plug|"
    r"drop|drops|wind|lower|set|lay)"
    r"\b[^.,]{0,40}\bback\b(?! (?:off|out|from|down|a|until|by|of|and|toward\w*))|\brefit\w*|\b(?:in|on) again\b"
)
LEADS_BACK = re.compile(
    r"\b(?:when (?:it|that|this|they|you|the [a-z ]{1,30}?) (?:goes?|go|puts?|fits?|comes?)(?: it|"
    r" them)? back(?: on| in| together)?"
    r"|going back(?: on| in| together)?|to put (?:it|them|that) back(?: on| in| together)?)\W*$|^\W*(?:so |now |"
    r"and |then |right |okay )*(?:a |the |your )?new "
    r"(?:[a-z-]+ ?){1,3}\W*$"
)
FITS = INSTALLS | {"move"}
"""What is done with a new part ("push the new valve in")."""
_SIDES = ("side", "end", "edge", "face", "way")
"""Last words of what only tells how a part lies: "dished side in"."""
_MOVABLE = frozenset(("attach", "fasten", "connect", "handle", "move", "detach", "close"))
_OUTWARD = re.compile(r"\b(?:out|off|away|from|free)\b")
_INWARD = re.compile(r"\b(?:in|on|into|onto|home|over|against|up)\b")
_FITS = frozenset(("install", "refit", "reinstall", "fit", "mount", "reassemble", "replace", "tighten", "torque"))
_MAINS = re.compile(
    r"\b(?:mains|wall|outlet|socket outlet|power (?:cord|lead|cable|plug|supply)|electricity|breaker|isolator|"
    r"unplug the (?:machine|unit|tool|appliance))\b"
)
_PREPARES = frozenset(
    (
        "isolate",
        "energise",
        "inspect",
        "adjust",
        "move",
        "handle",
        "connect",
        "apply",
        "attach",
        "close",
        "fasten",
        "clean",
    )
)
NEW = re.compile(r"\b(?:new|replacement)\b")

State = Literal["start", "remove", "install", "after"]


@dataclass(slots=True)
class Course:
    """How far a job has come.

    `releasing` are the last words of parts that let another go when they are pressed or turned; `reversed` is true
    once it was said that it goes back in reverse; `out` is what has come off so far (last words of names).
    """

    releasing: frozenset[str] = frozenset()
    state: State = "start"
    reversed: bool = False
    out: set[str] = field(default_factory=set)

    @property
    def removing(self) -> bool:
        """Whether parts still come off."""
        return self.state in ("start", "remove") and not self.reversed

    def phase(self, known: Annotations, clause: Clause, effect: str, groups: list[Group]) -> Phase:
        """The phase of a step that begins with a clause; the course moves on with it."""
        words = known.words(clause.start, clause.end)
        named = known.words(clause.object.start, clause.object.end) if clause.object else ""
        back = BACK.search(words) is not None
        new = NEW.search(named) is not None
        if self.state == "after" and effect not in REMOVES:
            return "after"
        if self.state == "install" and effect == "inspect":
            return "after"
        if self.reversed and effect in ("inspect", "energise", "adjust"):
            self.state = "after"
            return "after"
        if self.state == "start" and effect in ("isolate", "disconnect", "detach", "move") and _MAINS.search(words):
            return "prepare"
        inward = _INWARD.search(words) is not None and _OUTWARD.search(words) is None
        taken = clause.object is None or head_word(clause.object.name) in self.out
        fits = (
            new
            or (back and effect in _MOVABLE)
            or (
                effect in INSTALLS
                and (taken or effect in ("connect", "close") or (clause.deed and clause.deed.verb in _FITS))
            )
        )
        fits = fits or (inward and taken and effect in _MOVABLE)
        if (self.state != "start" or new) and fits and (back or inward or effect not in REMOVES):
            self.state = "install"
            return "install"
        if self.state == "install":
            if effect in ("undo", "disconnect") and not back:
                self.state = "remove"
                return "remove"
            return "install"
        if self.reversed:
            return "install"
        moves = effect in ("move", "handle")
        if effect in REMOVES or groups or (moves and (_OUTWARD.search(words) or self._releases(clause))):
            self.state = "remove"
            self.out |= {head_word(p.name) for p in clause.objects} | {head_word(g.name or g.kind) for g in groups}
            return "remove"
        return "prepare" if self.state == "start" and effect in _PREPARES else "remove"

    def takes(self, known: Annotations, clause: Clause) -> bool:
        """Whether "strap over" or "the strap goes over the rail" tells how it goes back, not only where it sits."""
        deed = clause.deed
        goes = deed is not None and known.lower[deed.start] in ("goes", "go")
        if deed is None or deed.effect != "attach" or not (goes or deed.verb == PLACED):
            return True
        if clause.object is None or clause.object.place or head_word(clause.object.name) in _SIDES:
            return False
        words = known.words(clause.start, clause.end)
        return self.state == "install" or bool(NEW.search(words) or BACK.search(words))

    def _releases(self, clause: Clause) -> bool:
        """Whether what is pressed or turned lets a part go; a power button does not."""
        words = clause.object.name.split() if clause.object else []
        return bool(words) and singular(words[-1]) in self.releasing and "power" not in words
