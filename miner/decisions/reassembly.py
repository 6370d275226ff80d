"""The derived reassembly follows what the editor changed in the removal."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from miner.model.draft import Install, InstallStep, Step


def following(
    install: Install, before: Sequence[Step], after: Sequence[Step], gone: Mapping[str, str | None]
) -> Install:
    """The reassembly with the fasteners and the order of the steps it undoes.

    Only steps that the editor touched change. A derived step of a step that was taken out goes with it, and where two
    steps were joined, the sentences that undo them are joined too.
    """
    if not install.steps or tuple(before) == tuple(after):
        return install
    were, now = {step.id: step for step in before}, {step.id: step for step in after}
    made: dict[str, InstallStep] = {}
    for one in install.steps:
        origin = gone.get(one.from_step, one.from_step)
        if origin is None:
            continue
        step = now.get(origin)
        renewed = replace(one, from_step=origin)
        if step is not None and origin == one.from_step and step.fasteners != were[origin].fasteners:
            renewed = replace(renewed, fasteners=step.fasteners)
        if origin in made:
            earlier = made[origin]
            renewed = replace(
                earlier, text=f"{earlier.text} {one.text}", fasteners=(*earlier.fasteners, *one.fasteners)
            )
        made[origin] = renewed
    if [step.id for step in before if step.id in now] == [step.id for step in after if step.id in were]:
        return replace(install, steps=tuple(made.values()))
    places = {step.id: place for place, step in enumerate(after)}
    ordered = sorted(made.values(), key=lambda one: -places.get(one.from_step, -1))
    return replace(install, steps=tuple(ordered))
