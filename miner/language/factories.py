"""Every registration of a spaCy component of this package; the only module that registers.

Any spaCy user can add one to a pipeline of theirs: `nlp.add_pipe("miner_measures")`. What a component found stands in
`doc.spans` under the name of its field and, with all values, in `miner.language.annotations.annotations(doc)`.
`lexicon` in a component's configuration lists paths of lexicon layers.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
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
from miner.language.parts import phrases_in
from miner.language.references import resolve_references
from miner.language.roles import assign_roles
from miner.language.tagging import tags_in
from miner.language.tools import tools_in
from miner.lexicon import Lexicon, load_lexicon

Annotate = Callable[[Annotations, Lexicon], None]


def _numbers(known: Annotations, lexicon: Lexicon) -> None:
    known.numbers = numbers_in(known)


def _measures(known: Annotations, lexicon: Lexicon) -> None:
    found = measures_in(known) + drives_in(known, lexicon)
    found.sort(key=lambda m: (m.start, -m.end))
    kept, last = [], -1
    for measure in found:
        if measure.start >= last:
            kept.append(measure)
            last = measure.end
    known.measures = kept
    inside = {i for m in kept for i in range(m.start, m.end)}
    known.numbers = [n for n in known.numbers if n.start not in inside]


def _tags(known: Annotations, lexicon: Lexicon) -> None:
    known.tags = tags_in(known, lexicon)


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


_STAGES: dict[str, tuple[Annotate, str, tuple[str, ...]]] = {  # name: function, field it writes, fields it needs
    "miner_numbers": (_numbers, "numbers", ()),
    "miner_measures": (_measures, "measures", ("numbers",)),
    "miner_tags": (_tags, "tags", ("numbers", "measures")),
    "miner_disfluencies": (_disfluencies, "dropped", ("tags",)),
    "miner_actions": (_actions, "deeds", ("tags",)),
    "miner_parts": (_parts, "phrases", ("tags", "measures")),
    "miner_tools": (_tools, "tools", ("phrases",)),
    "miner_fasteners": (_fasteners, "groups", ("phrases", "measures", "dropped")),
    "miner_utterances": (_utterances, "clauses", ("deeds", "groups", "tools")),
    "miner_references": (_references, "references", ("clauses",)),
    "miner_roles": (_roles, "roles", ("clauses",)),
    "miner_agreement": (_agreement, "observations", ("clauses",)),
}
COMPONENTS = tuple(_STAGES)
"""The components in the order of the road."""

_WITH_SPANS = frozenset(("numbers", "measures", "deeds", "phrases", "tools", "groups", "clauses"))


class Component:
    """One stage of the language road as a spaCy component."""

    def __init__(self, name: str, lexicon: Lexicon, *, spans: bool = True) -> None:
        self.name, self.lexicon, self.spans = name, lexicon, spans
        self._run, self._field, _ = _STAGES[name]

    def __call__(self, doc: Doc) -> Doc:
        """Annotates the Doc; writes a span group where the field has positions."""
        known = annotations_of(doc)
        self._run(known, self.lexicon)
        if self.spans and self._field in _WITH_SPANS:
            doc.spans[f"miner_{self._field}"] = [
                Span(doc, item.start, item.end) for item in getattr(known, self._field)
            ]
        return doc


def _factory(name: str) -> Callable[..., Component]:
    def make(nlp: Language, name: str = name, lexicon: Sequence[str] = ()) -> Component:
        return Component(name, load_lexicon([Path(path) for path in lexicon]))

    return make


def register() -> None:
    """Registers every component that is not registered yet."""
    for name, (_, writes, needs) in _STAGES.items():
        if not Language.has_factory(name):
            _extension(writes)
            Language.factory(
                name,
                assigns=[f"doc._.miner_{writes}"],
                requires=[f"doc._.miner_{need}" for need in needs],
                default_config={"lexicon": ()},
                func=_factory(name),
            )


def _extension(field: str) -> None:
    """A read-only Doc extension that shows a field of the annotations."""
    name = f"miner_{field}"
    if not Doc.has_extension(name):

        def getter(doc: Doc, field: str = field) -> Any:
            return getattr(annotations_of(doc), field, None)

        Doc.set_extension(name, getter=getter)


register()
