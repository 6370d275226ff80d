"""What the steps of a job are about, when none of them speaks of the part that the heading announces."""

from __future__ import annotations

from collections import Counter

from miner.findings.case import Case
from miner.model.draft import Procedure, Step
from miner.model.naming import part_words
from miner.teardown.effects import MAKING, PARTING

_LEAST = 2  # steps that name a part before the job can be about it
_PLAINLY = 3  # the same where no other job bears this heading


def foreign_part(case: Case, procedure: Procedure, announced: tuple[str, ...], *, repeated: bool) -> str | None:
    """The part that the steps take off or fit although another one is announced; None where that is not plain.

    No step may name the announced part. Under a heading that another job bears too (`repeated`) two steps that name a
    part are enough; under a heading of its own there must be three, and the part must be fitted anew.
    """
    texts = [part_words(step.text) for step in procedure.steps]
    if any(_stands_in(announced, words) for words in texts):
        return None
    spelled = {part_words(name): name for step in procedure.steps for name in _names(case, step)}
    named = Counter({key: sum(_stands_in(key, words) for words in texts) for key in spelled if key})
    least = _LEAST if repeated else _PLAINLY
    required = {part_words(one.part) for one in procedure.prerequisites}
    for key, count in named.most_common():
        if count < least or key in required or len(key) < 2 or set(announced) <= set(key):
            continue
        if not any(_speaks_of(step, announced, key) for step in procedure.steps) and (
            _renewed(case, procedure, key) if not repeated else _taken(case, procedure, key)
        ):
            return spelled[key]
    return None


def _names(case: Case, step: Step) -> tuple[str, ...]:
    found = (step.part, step.from_, *(group.secures for group in step.fasteners))
    return tuple(dict.fromkeys(name for name in found if name and not case.teardown.effects.is_fastener(name)))


def _stands_in(name: tuple[str, ...], words: tuple[str, ...]) -> bool:
    return any(words[at : at + len(name)] == name for at in range(len(words) - len(name) + 1))


def _speaks_of(step: Step, announced: tuple[str, ...], other: tuple[str, ...]) -> bool:
    """Whether a step names the announced part, or only its last word, outside the name of the other part."""
    text = f" {' '.join(part_words(step.text))} ".replace(f" {' '.join(other)} ", " ")
    return f" {announced[-1]} " in text or set(announced) <= set(text.split())


def _taken(case: Case, procedure: Procedure, key: tuple[str, ...]) -> bool:
    """Whether a step takes something off the part, or the part off."""
    return any(
        case.teardown.effects.of(step) in PARTING and key in map(part_words, _names(case, step))
        for step in procedure.steps
    )


def _renewed(case: Case, procedure: Procedure, key: tuple[str, ...]) -> bool:
    """Whether a step moves the part out and a later one fits a new one."""
    on_it = [step for step in procedure.steps if step.part and part_words(step.part) == key]
    fitted = [step for step in on_it if step.phase == "install" or case.teardown.effects.of(step) in MAKING]
    return bool(fitted) and len(on_it) > len(fitted) and any(" new " in f" {step.text.casefold()} " for step in fitted)
