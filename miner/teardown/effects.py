"""What a step does to the product: the effect of its verb, and whether a name is that of a fastener."""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import lru_cache
from typing import TYPE_CHECKING

from miner.lexicon.entries import Effect
from miner.model.draft import Step
from miner.model.naming import part_words

if TYPE_CHECKING:
    from miner.lexicon.loading import Lexicon

# Effects by which a part comes away from the product or lets go of its neighbour.
TAKING: frozenset[str] = frozenset({"detach", "undo"})
PARTING: frozenset[str] = frozenset({"detach", "undo", "disconnect", "loosen", "open"})
MAKING: frozenset[str] = frozenset({"attach", "fasten", "connect", "close", "transfer"})


@dataclass(frozen=True, slots=True)
class Effects:
    """Effects by verb, and the last words of fastener names."""

    verbs: dict[str, Effect] = field(default_factory=dict)
    fasteners: frozenset[str] = frozenset()

    def of(self, step: Step) -> Effect | None:
        """The effect of a step's verb, with or without its particle; None for a verb the lexicon does not know."""
        if not step.action:
            return None
        verb = step.action.casefold()
        return self.verbs.get(verb) or self.verbs.get(verb.partition(" ")[0])

    def is_fastener(self, name: str | None) -> bool:
        """Whether a part name is only that of a fastener: "the two screws", "captive bolts"."""
        words = part_words(name) if name else ()
        return bool(words) and words[-1] in self.fasteners

    def takes_out(self, step: Step) -> bool:
        """Whether the step takes its part out of the product; one that only undoes fasteners lets it go."""
        if step.phase != "remove" or not step.part or step.fasteners or self.is_fastener(step.part):
            return False
        return self.of(step) in TAKING


@lru_cache(maxsize=4)
def effects(lexicon: Lexicon) -> Effects:
    """The effects that a lexicon gives."""
    verbs: dict[str, Effect] = {}
    for action in lexicon.actions:
        verbs[action.verb] = action.effect
        for idiom in action.idioms:
            verbs.setdefault(idiom, action.effect)
    names = (name for kind in lexicon.fasteners for name in (kind.kind, *kind.terms))
    return Effects(verbs, frozenset(part_words(name)[-1] for name in names))
