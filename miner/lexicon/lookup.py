"""Questions to a lexicon, answered from dictionaries that are built once for each lexicon."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import lru_cache
from typing import TypeVar

from miner.lexicon.entries import Action, Drive, FastenerKind, Hazard, HeadNoun, ScrewHead, Supply, Synonym, Tool
from miner.lexicon.inflection import IRREGULAR_VERBS, noun_forms, phrase_forms, singular, verb_forms
from miner.lexicon.loading import Lexicon

T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class VerbForm:
    """A form of an action's verb: `form` is `base`, `third`, `past` or `progressive`."""

    action: Action
    form: str


@dataclass(frozen=True, slots=True)
class Idiom:
    """A wording that means an action, inflected: its `first` word, the words after it, and the form of the first.

    "took out" of `remove` is `Idiom("took", ("out",), remove, "past")`; the object may stand before the particle.
    """

    first: str
    rest: tuple[str, ...]
    action: Action
    form: str


@dataclass(frozen=True, slots=True)
class Lookup:
    """The indexes of one lexicon; all keys are lower case."""

    actions: Mapping[str, Action]
    verb_forms: Mapping[str, VerbForm]
    idioms: Mapping[str, tuple[Idiom, ...]]
    heads: Mapping[str, HeadNoun]
    fasteners: Mapping[str, FastenerKind]
    drives: Mapping[str, Drive]
    sizes: Mapping[str, tuple[Drive, ...]]
    screw_heads: Mapping[str, ScrewHead]
    threads: Mapping[str, tuple[str, ...]]
    tools: Mapping[str, Tool]
    supplies: Mapping[str, Supply]
    synonyms: Mapping[str, tuple[Synonym, ...]]
    hazards: Mapping[str, tuple[Hazard, ...]]
    abbreviations: Mapping[str, str]
    classes: Mapping[str, frozenset[str]]
    patterns: Mapping[str, tuple[str, ...]]

    def action(self, verb: str) -> Action | None:
        """The action by the verb of a draft ("remove")."""
        return self.actions.get(verb.lower())

    def action_of_form(self, word: str) -> VerbForm | None:
        """The action by any form of its verb ("unclipped", "plugged in")."""
        return self.verb_forms.get(word.lower())

    def idioms_from(self, first: str) -> tuple[Idiom, ...]:
        """The idioms that start with this word, the longest first ("took": took out, took off ...)."""
        return self.idioms.get(first.lower(), ())

    def inverse(self, verb: str) -> Action | None:
        """The action that undoes this one, where the lexicon gives one."""
        action = self.action(verb)
        return self.action(action.inverse) if action and action.inverse else None

    def head(self, term: str) -> HeadNoun | None:
        """The head noun, from its singular or plural."""
        return self.heads.get(term.lower())

    def head_of(self, words: Iterable[str]) -> HeadNoun | None:
        """The head noun that a part's name ends in, the longest that fits ("rear control board": control board)."""
        parts = [word.lower() for word in words]
        found = (self.heads.get(" ".join(parts[start:])) for start in range(len(parts)))
        return next((head for head in found if head), None)

    def fastener(self, term: str) -> FastenerKind | None:
        """The kind of fastener, by its own or a spoken name, in either number ("zip ties")."""
        return self.fasteners.get(term.lower())

    def drive(self, term: str) -> Drive | None:
        """The drive, by its name in a draft or as spoken ("cross head")."""
        return self.drives.get(term.lower())

    def drives_of_size(self, size: str) -> tuple[Drive, ...]:
        """The drives that come in this size; a size in mm may be a socket or an outside hexagon."""
        return self.sizes.get(size_key(size), ())

    def drive_of_size(self, size: str) -> Drive | None:
        """The drive that a size alone tells ("T8"); a bare size in mm is taken for a hexagon key."""
        return next(iter(self.drives_of_size(size)), None)

    def sizes_of_thread(self, thread: str) -> tuple[str, ...]:
        """The drive sizes that published tables give for a thread ("M3"); empty if they do not cover it."""
        return self.threads.get(thread.upper(), ())

    def screw_head(self, term: str) -> ScrewHead | None:
        """The shape of a screw's head, as spoken or written."""
        return self.screw_heads.get(term.lower())

    def tool(self, term: str) -> Tool | None:
        """The tool, by any of its names in either number."""
        return self.tools.get(term.lower())

    def supply(self, term: str) -> Supply | None:
        """The supply, by any of its names."""
        return self.supplies.get(term.lower())

    def synonyms_of(self, term: str) -> tuple[str, ...]:
        """Other names of a part, sorted; empty if none is known."""
        own = singular(term.lower())
        return tuple(sorted({other for entry in self.synonyms.get(own, ()) for other in entry.terms} - {own}))

    def hazards_of(self, term: str) -> tuple[Hazard, ...]:
        """The hazards that a part of exactly this name carries."""
        return self.hazards.get(term.lower(), ())

    def abbreviation(self, short: str) -> str | None:
        """What shorthand stands for ("scr": screw); a final dot is nothing."""
        return self.abbreviations.get(short.lower()) or self.abbreviations.get(short.lower().rstrip("."))

    def words(self, name: str) -> frozenset[str]:
        """The words of a class ("determiner"); empty if the lexicon has no such class."""
        return self.classes.get(name, frozenset())

    def phrases(self, role: str) -> tuple[str, ...]:
        """The patterns of a role ("heading")."""
        return self.patterns.get(role, ())

    def either(self, role: str) -> str:
        """The patterns of a role as one pattern with alternatives, not grouped; matches nothing without any."""
        return "|".join(self.phrases(role)) or "(?!)"

    def unknown_terms(self, terms: Iterable[str]) -> tuple[str, ...]:
        """Those part names whose head is not in the lexicon, each once, sorted: terms to add."""
        return tuple(sorted({term for term in terms if not self.head_of(term.split()) and not self.fastener(term)}))


def size_key(size: str) -> str:
    """A drive size as it is looked up: no blanks, lower case, decimal point, no empty decimals."""
    key = re.sub(r"[\s-]+", "", size.lower()).replace(",", ".")
    return re.sub(r"\.0(?=mm|$)", "", key)


@lru_cache(maxsize=8)
def lookup(lexicon: Lexicon) -> Lookup:
    """The indexes of a lexicon, built at the first call for it."""
    actions = {action.verb: action for action in lexicon.actions}
    return Lookup(
        actions=actions,
        verb_forms=_verb_index(lexicon.actions),
        idioms=_idiom_index(lexicon.actions),
        heads=_by_form((head.term, head.plural, head) for head in lexicon.heads),
        fasteners=_by_form((term, None, kind) for kind in lexicon.fasteners for term in (kind.kind, *kind.terms)),
        drives=_first((term, drive) for drive in lexicon.drives for term in (drive.drive, *drive.terms)),
        sizes=_all(
            (size_key(size), drive)
            for drive in sorted(lexicon.drives, key=lambda drive: drive.external)
            for size in drive.sizes
        ),
        screw_heads=_first((term, head) for head in lexicon.screw_heads for term in (head.head, *head.terms)),
        threads={entry.thread.upper(): entry.sizes for entry in lexicon.thread_drives},
        tools=_by_form((term, None, tool) for tool in lexicon.tools for term in (tool.term, *tool.synonyms)),
        supplies=_by_form((term, None, item) for item in lexicon.supplies for term in (item.term, *item.synonyms)),
        synonyms=_all((term, entry) for entry in lexicon.synonyms for term in entry.terms),
        hazards=_all(
            (form, hazard) for hazard in lexicon.hazards for term in hazard.terms for form in noun_forms(term)
        ),
        abbreviations=_first((entry.short.lower(), entry.long) for entry in lexicon.abbreviations),
        classes={entry.name: frozenset(entry.words) for entry in lexicon.word_classes},
        patterns={entry.role: entry.patterns for entry in lexicon.phrases},
    )


def _verb_index(actions: Iterable[Action]) -> dict[str, VerbForm]:
    """Every form; where two verbs share one ("found"), a base form wins, then the earlier action.

    Idioms of one word ("prize") are spellings of the verb and stand here too, after the verbs.
    """
    actions = tuple(actions)
    pairs = [(form, VerbForm(action, kind)) for action in actions for form, kind in verb_forms(action).items()]
    for action in actions:
        for word in (idiom for idiom in action.idioms if " " not in idiom):
            pairs.extend((form, VerbForm(action, kind)) for form, kind in phrase_forms(word).items())
    return _first(sorted(pairs, key=lambda pair: pair[1].form != "base"))


def _idiom_index(actions: tuple[Action, ...]) -> dict[str, tuple[Idiom, ...]]:
    irregular = {**IRREGULAR_VERBS, **{action.verb: action.forms for action in actions if action.forms}}
    found: list[Idiom] = []
    for action in actions:
        for phrase in action.idioms:
            forms = irregular.get(phrase.split()[0], ())
            for form, kind in phrase_forms(phrase, forms).items():
                first, *rest = form.split()
                found.append(Idiom(first, tuple(rest), action, kind))
    found.sort(key=lambda idiom: -len(idiom.rest))
    return _all((idiom.first, idiom) for idiom in found)


def _by_form(entries: Iterable[tuple[str, str | None, T]]) -> dict[str, T]:
    return _first((form, entry) for term, irregular, entry in entries for form in noun_forms(term, irregular))


def _first(pairs: Iterable[tuple[str, T]]) -> dict[str, T]:
    found: dict[str, T] = {}
    for key, entry in pairs:
        found.setdefault(key, entry)
    return found


def _all(pairs: Iterable[tuple[str, T]]) -> dict[str, tuple[T, ...]]:
    found: dict[str, tuple[T, ...]] = {}
    for key, entry in pairs:
        found[key] = (*found.get(key, ()), entry)
    return found
