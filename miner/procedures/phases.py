"""In which phase of a job a step lies: preparing, removing, installing, or checking afterwards."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Literal

from miner.language.annotations import Annotations, Clause, Group
from miner.model.draft import Phase

INSTALLS = frozenset(("attach", "fasten", "connect", "close", "apply", "transfer"))
REMOVES = frozenset(("undo", "loosen", "detach", "disconnect", "open"))
BACK = re.compile(
    r"\b(?:back (?:in|on|into|onto|down|up|together|over|through|under)?|goes back|go back|put back|in again|refit\w*|new)\b"
)
_MOVABLE = frozenset(("attach", "fasten", "connect", "handle", "move", "detach", "close"))
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
_NEW = re.compile(r"\b(?:new|replacement)\b")

State = Literal["start", "remove", "install", "after"]


@dataclass(slots=True)
class Course:
    """How far a job has come; `reversed` once it was said that it goes back in reverse."""

    state: State = "start"
    reversed: bool = False

    @property
    def removing(self) -> bool:
        """Whether parts still come off."""
        return self.state in ("start", "remove") and not self.reversed

    def phase(self, known: Annotations, clause: Clause, effect: str, groups: list[Group]) -> Phase:
        """The phase of a step that begins with a clause; the course moves on with it."""
        words = known.words(clause.start, clause.end)
        named = known.words(clause.object.start, clause.object.end) if clause.object else ""
        back = BACK.search(words) is not None
        new = _NEW.search(named) is not None
        if self.state == "after" and effect not in REMOVES:
            return "after"
        if self.state == "install" and effect == "inspect":
            return "after"
        if self.reversed and effect in ("inspect", "energise", "adjust"):
            self.state = "after"
            return "after"
        fits = effect in INSTALLS or new or (back and effect in _MOVABLE)
        if (self.state != "start" or new) and fits and (back or effect not in REMOVES):
            self.state = "install"
            return "install"
        if self.state == "install":
            if effect in ("undo", "disconnect") and not back:
                self.state = "remove"
                return "remove"
            return "install"
        if self.reversed:
            return "install"
        if effect in REMOVES or groups:
            self.state = "remove"
            return "remove"
        return "prepare" if self.state == "start" and effect in _PREPARES else "remove"
