"""Every registration of a spaCy component of this package; the only module that registers.

Any spaCy user can add one to a pipeline of theirs: `nlp.add_pipe("miner_measures")`. What a component found stands in
`doc.spans` under the name of its field and, with all values, in `miner.language.annotations.annotations_of(doc)`.
`lexicon` in a component's configuration lists paths of lexicon layers.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from spacy.language import Language
from spacy.tokens import Doc, Span

from miner.language.actions import deeds_in
from miner.language.agreement import observe_agreement
from miner.language.annotations import Annotations, annotations_of
from miner.language.clauses import build_clauses
from miner.language.disfluencies import dropped_in
from miner.language.drives import drives_in
from miner.language.fasteners import groups_in
from miner.language.measures import measures_in
from miner.language.numbers import numbers_in
from miner.language.overlaps import without_overlaps
from miner.language.parts import phrases_in
from miner.language.references import resolve_references
from miner.language.roles import assign_roles
from miner.language.tagging import tags_in
from miner.language.tools import tools_in
from miner.language.utterances import punctuate
from miner.lexicon import Lexicon, load_lexicon

Annotate = Callable[[Annotations, Lexicon], None]


def _numbers(known: Annotations, lexicon: Lexicon) -> None:
    known.numbers = numbers_in(known)


def _measures(known: Annotations, lexicon: Lexicon) -> None:
    """Lengths and drives; the numbers inside them count nothing and are taken out."""
    found = measures_in(known) + drives_in(known, lexicon)
    known.measures = without_overlaps((measure.start, measure.end, measure) for measure in found)
    inside = {token for measure in known.measures for token in range(measure.start, measure.end)}
    known.numbers = [number for number in known.numbers if number.start not in inside]


def _tags(known: Annotations, lexicon: Lexicon) -> None:
    known.tags = tags_in(known, lexicon)
    punctuate(known, lexicon)


def _disfluencies(known: Annotations, lexicon: Lexicon) -> None:
    known.dropped = dropped_in(known, lexicon)


def _actions(known: Annotations, lexicon: Lexicon) -> None:
    known.deeds = deeds_in(known, lexicon)


def _parts(known: Annotations, lexicon: Lexicon) -> None:
    known.phrases = phrases_in(known, lexicon)


def _tools(known: Annotations, lexicon: Lexicon) -> None:
    known.tools = tools_in(known, lexicon)


def _fasteners(known: Annotations, lexicon: Lexicon) -> None:
    known.groups = groups_in(known, lexicon)


def _utterances(known: Annotations, lexicon: Lexicon) -> None:
    build_clauses(known, lexicon)


def _roles(known: Annotations, lexicon: Lexicon) -> None:
    assign_roles(known, lexicon)


def _references(known: Annotations, lexicon: Lexicon) -> None:
    resolve_references(known, lexicon)


def _agreement(known: Annotations, lexicon: Lexicon) -> None:
    observe_agreement(known, lexicon)


@dataclass(frozen=True, slots=True)
class _Stage:
    """What a component does, and which fields of the annotations it writes and reads."""

    run: Annotate
    writes: tuple[str, ...]
    reads: tuple[str, ...] = ()


_STAGES = {
    "miner_numbers": _Stage(_numbers, ("numbers",)),
    "miner_measures": _Stage(_measures, ("measures", "numbers"), ("numbers",)),
    "miner_tags": _Stage(_tags, ("tags",), ("numbers", "measures")),
    "miner_disfluencies": _Stage(_disfluencies, ("dropped",), ("numbers", "tags")),
    "miner_actions": _Stage(_actions, ("deeds",), ("tags",)),
    "miner_parts": _Stage(_parts, ("phrases",), ("numbers", "tags")),
    "miner_tools": _Stage(_tools, ("tools",), ("tags", "phrases")),
    "miner_fasteners": _Stage(_fasteners, ("groups",), ("numbers", "measures", "tags", "dropped", "phrases")),
    "miner_utterances": _Stage(
        _utterances, ("sentences", "clauses"), ("tags", "dropped", "measures", "deeds", "phrases", "tools", "groups")
    ),
    "miner_references": _Stage(_references, ("clauses", "observations"), ("clauses",)),
    "miner_roles": _Stage(_roles, ("sentences",), ("tags", "sentences", "clauses")),
    "miner_agreement": _Stage(_agreement, ("observations",), ("numbers", "tags", "dropped", "sentences")),
}
COMPONENTS = tuple(_STAGES)
"""The components in the order of the road."""

_WITH_SPANS = frozenset(("numbers", "measures", "deeds", "phrases", "tools", "groups", "clauses"))


class Component:
    """One stage of the language road as a spaCy component; `spans` tells whether it writes span groups."""

    def __init__(self, name: str, lexicon: Lexicon, *, spans: bool = True) -> None:
        self.name, self.lexicon, self.spans = name, lexicon, spans
        self._stage = _STAGES[name]

    def __call__(self, doc: Doc) -> Doc:
        """Annotates the Doc; writes a span group for each field that has positions."""
        known = annotations_of(doc)
        self._stage.run(known, self.lexicon)
        for field in self._stage.writes if self.spans else ():
            if field in _WITH_SPANS:
                doc.spans[f"miner_{field}"] = [Span(doc, item.start, item.end) for item in getattr(known, field)]
        return doc


def _factory(name: str) -> Callable[..., Component]:
    def make(nlp: Language, name: str = name, lexicon: Sequence[str] = ()) -> Component:
        return Component(name, load_lexicon([Path(path) for path in lexicon]))

    return make


def register() -> None:
    """Registers every component that is not registered yet."""
    for name, stage in _STAGES.items():
        if not Language.has_factory(name):
            for written in stage.writes:
                _extension(written)
            Language.factory(
                name,
                assigns=[f"doc._.miner_{written}" for written in stage.writes],
                requires=[f"doc._.miner_{read}" for read in stage.reads],
                default_config={"lexicon": ()},
                func=_factory(name),
            )


def _extension(field: str) -> None:
    """A read-only Doc extension that shows a field of the annotations."""
    name = f"miner_{field}"
    if not Doc.has_extension(name):

        def getter(doc: Doc, field: str = field) -> Any:
            return getattr(annotations_of(doc), field)

        Doc.set_extension(name, getter=getter)


register()
