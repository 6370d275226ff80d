"""Draft -> Teardown: what holds what, what is out when, and what must come off before what."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING

from miner.model.draft import Draft, Prerequisite
from miner.model.graph import Graph
from miner.model.naming import PartNames
from miner.teardown.effects import Effects, effects
from miner.teardown.joints import Joint, Use, find_uses, join
from miner.teardown.precedence import build_graph
from miner.teardown.states import Play, close, link, play

if TYPE_CHECKING:
    from miner.lexicon.loading import Lexicon


@dataclass(frozen=True, slots=True)
class Teardown:
    """What the steps of a draft tell about the product.

    `links` are the prerequisites of each procedure with the procedure that removes them, `closure` the ids of all
    procedures done before it (in order, as the keys of a dict), `plays` the states at each of its steps, `uses`
    every mention of a joint.
    """

    names: PartNames
    effects: Effects
    uses: tuple[Use, ...]
    joints: tuple[Joint, ...]
    links: dict[str, tuple[tuple[Prerequisite, str | None], ...]]
    closure: dict[str, dict[str, None]]
    plays: dict[str, Play]
    graph: Graph

    def mutual(self, one: str, other: str) -> bool:
        """Whether two procedures require each other."""
        return one in self.closure[other] and other in self.closure[one]

    def before(self, one: str, other: str) -> bool:
        """Whether one procedure must be done before the other, and not also after it."""
        return one in self.closure[other] and other not in self.closure[one]


def build(draft: Draft, lexicon: Lexicon) -> Teardown:
    """Takes the draft apart: names, joints, closure of the prerequisites, states, graph."""
    names = PartNames(_names(draft))
    by_effect = effects(lexicon)
    links = link(draft, names)
    closure = close(links)
    procedures = {procedure.id: procedure for procedure in draft.procedures}
    uses = find_uses(draft, names, by_effect)
    return Teardown(
        names=names,
        effects=by_effect,
        uses=uses,
        joints=join(uses),
        links=links,
        closure=closure,
        plays={key: play(one, closure[key], procedures, by_effect) for key, one in procedures.items()},
        graph=build_graph(draft, names, links, by_effect),
    )


def _names(draft: Draft) -> Iterator[str | None]:
    for procedure in draft.procedures:
        yield procedure.subject
        yield from (one.part for one in procedure.prerequisites)
        for step in procedure.steps:
            yield step.part
            yield step.from_
            for group in step.fasteners:
                yield group.secures
                yield group.to
