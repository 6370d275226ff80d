"""How a part goes back: the mode, and the steps of removal reversed with inverse verbs."""

from __future__ import annotations

from miner.lexicon import Lexicon
from miner.lexicon.inflection import plural
from miner.lexicon.lookup import lookup
from miner.model.draft import Fastener, InstallMode, InstallStep, Step

_INVERSE_OF_EFFECT = {
    "undo": "fit",
    "detach": "fit",
    "disconnect": "connect",
    "open": "close",
    "loosen": "tighten",
    "move": "turn back",
}


def reversed_steps(steps: tuple[Step, ...], lexicon: Lexicon, mode: InstallMode) -> tuple[InstallStep, ...]:
    """The reassembly that undoes the removal steps, last first; empty where nothing goes back or it was told."""
    if mode == "none":
        return ()
    index = lookup(lexicon)
    made = []
    for step in reversed(steps):
        if step.phase != "remove" or not step.action:
            continue
        action = index.action(step.action)
        if action is None or action.effect in ("clean", "inspect", "handle", "isolate", "energise", "adjust"):
            continue
        inverse = action.inverse or _INVERSE_OF_EFFECT.get(action.effect)
        if inverse is None:
            continue
        text = _sentence(inverse, step.part, step.fasteners)
        made.append(InstallStep(text, inverse, step.part, step.fasteners, step.id))
    return tuple(made)


def _sentence(verb: str, part: str | None, groups: tuple[Fastener, ...]) -> str:
    what = f"the {part}" if part else "it"
    if groups:
        first = groups[0]
        count = f"{first.count} " if first.count else ""
        noun = first.kind if first.count == 1 else plural(first.kind)
        held = f" of the {part}" if part and part != noun else ""
        return f"{verb.capitalize()} the {count}{noun}{held}."
    return f"{verb.capitalize()} {what}."
