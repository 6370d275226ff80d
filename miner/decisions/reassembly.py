"""The derived reassembly follows what the editor changed in the removal."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from miner.lexicon import load_lexicon
from miner.model.draft import Install, InstallMode, InstallStep, Step
from miner.procedures.reassembly import reversed_steps


def following(install: Install, before: Sequence[Step], after: Sequence[Step]) -> Install:
    """The reassembly in the new order of the steps; those that the editor changed are reversed anew.

    What was derived from an untouched step stays to the letter, also if a lexicon of one's own had a part in it.
    """
    if not install.steps or tuple(before) == tuple(after):
        return install
    return replace(install, steps=tuple(_reversed(install, before, after)))


def derived(steps: tuple[Step, ...], mode: InstallMode) -> tuple[InstallStep, ...]:
    """The reassembly of a procedure whose mode the editor set."""
    return reversed_steps(steps, load_lexicon(), mode)


def _reversed(install: Install, before: Sequence[Step], after: Sequence[Step]) -> Iterator[InstallStep]:
    mined = {step.id: _without_place(step) for step in before}
    known = {one.from_step: one for one in install.steps}
    for step in reversed(after):
        if mined.get(step.id) != _without_place(step):
            yield from derived((step,), install.mode)
        elif step.id in known:
            yield known[step.id]


def _without_place(step: Step) -> Step:
    """The step without its number and marks, which say nothing of how it is undone."""
    return replace(step, number=0, inferred={})
