"""How a part goes back: the mode, and the steps of removal reversed with inverse verbs."""

from __future__ import annotations

from miner.lexicon import Lexicon
from miner.lexicon.inflection import plural
from miner.lexicon.lookup import lookup
from miner.model.draft import Fastener, InstallMode, InstallStep, Step
from miner.procedures.wording import count_word

_INVERSE_OF_EFFECT = {
    "undo": "fit",
    "detach": "fit",
    "disconnect": "connect",
    "open": "close",
    "loosen": "tighten",
    "move": "turn back",
}
_SAYS_BACK = frozenset(
    ("fit", "insert", "attach", "connect", "join", "close", "tighten", "fasten", "secure", "turn back", "solder")
)
_BACK = {"plug": " in again", "screw": " back in", "stand": " upright again"}
_BACK_OF_EFFECT = {"detach": " back into place", "undo": " again", "move": " again", "open": " again"}
"""By what the removal did: "push the hose back into place", "hook the spring again", "raise the arm again"."""


def reversed_steps(steps: tuple[Step, ...], lexicon: Lexicon, mode: InstallMode) -> tuple[InstallStep, ...]:
    """The reassembly that undoes the removal steps, last first; empty where nothing goes back or it was told."""
    if mode == "none":
        return ()
    index = lookup(lexicon)
    made = []
    for step in reversed(steps):
        if step.phase != "remove" or not step.action or (step.supplies and not step.fasteners):
            continue  # what is spread on stays on
        action = index.action(step.action)
        if action is None or action.effect in ("clean", "inspect", "handle", "isolate", "energise", "adjust"):
            continue
        inverse = action.inverse or _INVERSE_OF_EFFECT.get(action.effect)
        if inverse is None:
            continue
        text = _sentence(inverse, step.part, step.fasteners, _home(step.action, action.effect, inverse))
        made.append(InstallStep(text, inverse, step.part, step.fasteners, step.id))
    return tuple(made)


def _home(verb: str, effect: str, inverse: str) -> str:
    """The words that make an inverse verb a movement back: "slide the tray back", "push the hose back into place"."""
    if inverse in _SAYS_BACK:
        return ""
    if inverse == verb:
        return " back"
    return _BACK.get(inverse) or _BACK_OF_EFFECT.get(effect, "")


def _sentence(verb: str, part: str | None, groups: tuple[Fastener, ...], home: str) -> str:
    what = f"the {part}" if part else "it"
    if groups:
        first = groups[0]
        count = f"{count_word(first.count)} " if first.count and first.count > 1 else ""
        noun = first.kind if first.count == 1 else plural(first.kind)
        held = f" of the {part}" if part and part not in (noun, first.kind, plural(first.kind)) else ""
        what, home = f"the {count}{noun}{held}", _BACK.get(verb, "") if held == "" else ""
    return f"{verb.capitalize()} {what}{home}."
