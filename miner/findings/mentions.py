"""Where each part is named: in the fields of the draft, and trade names of several words also in its sentences."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from functools import lru_cache

from miner.findings.case import Case, heading_evidence, notice_evidence, prerequisite_evidence, step_evidence
from miner.lexicon import Lexicon
from miner.model.finding import Evidence
from miner.model.naming import part_key, part_words, singular

_WORD = re.compile(r"[^\W_]+")


@dataclass(frozen=True, slots=True)
class Mention:
    """A part named in one place. `name` is as said, `key` is its spelling for comparison."""

    key: str
    name: str
    procedure: str
    evidence: Evidence


@dataclass(slots=True)
class Mentions:
    """All places where parts are named, by key, in order of the recording."""

    by_key: dict[str, list[Mention]] = field(default_factory=dict)
    sentences: list[tuple[str, str, Evidence]] = field(default_factory=list)
    where: dict[str, list[int]] = field(default_factory=dict)
    nouns: set[str] = field(default_factory=set)

    def add(self, mention: Mention) -> None:
        """Notes a place, once."""
        self.nouns.update(mention.key.split())
        places = self.by_key.setdefault(mention.key, [])
        if not places or places[-1].evidence != mention.evidence:
            places.append(mention)

    def add_sentence(self, procedure: str, evidence: Evidence) -> None:
        """Notes a sentence in which trade names may stand."""
        words = [singular(word) for word in _WORD.findall(evidence.quote.casefold())]
        for word in dict.fromkeys(words):
            self.where.setdefault(word, []).append(len(self.sentences))
        self.sentences.append((f" {' '.join(words)} ", procedure, evidence))

    def count(self, key: str) -> int:
        """In how many places a part is named."""
        return len(self.by_key.get(key, ()))

    def words(self) -> frozenset[str]:
        """All words of part names and of sentences."""
        return frozenset(self.where).union(*(key.split() for key in self.by_key))

    def parts(self) -> Iterator[Mention]:
        """The first mention of every part."""
        yield from (places[0] for places in self.by_key.values())

    def first(self, term: str) -> Mention | None:
        """The first place of a name: among the part names, or, if it has several words, in a sentence."""
        words, key = _spelled(term)
        if key in self.by_key:
            return self.by_key[key][0]
        if any(word not in self.where for word in words):
            return None
        for at in min((self.where[word] for word in words), key=len, default=[]):
            text, procedure, evidence = self.sentences[at]
            place = text.find(f" {key} ")
            if place >= 0 and (len(words) > 1 or self._stands_alone(text, place, key)):
                return Mention(key, term, procedure, evidence)
        return None

    def _stands_alone(self, text: str, place: int, word: str) -> bool:
        """Whether a single word is a whole name in a sentence: no noun of a longer name stands beside it."""
        before = text[:place].rpartition(" ")[2]
        after = text[place + len(word) + 2 :].partition(" ")[0]
        return not {before, after} & self.nouns

    def together(self, one: str, other: str) -> bool:
        """Whether two names stand in one place, so that the speaker means two parts."""
        places = {mention.evidence for mention in self.by_key.get(one, ())}
        return any(mention.evidence in places for mention in self.by_key.get(other, ()))


@lru_cache(maxsize=32768)
def _spelled(term: str) -> tuple[tuple[str, ...], str]:
    """The words of a name for comparison, and its key."""
    words = tuple(part_words(term))
    return words, " ".join(words)


@lru_cache(maxsize=8)
def _head_nouns(lexicon: Lexicon) -> frozenset[str]:
    return frozenset(word for head in lexicon.heads for word in head.term.split())


def collect(case: Case) -> Mentions:
    """The mentions of a draft."""
    found = Mentions(nouns=set(_head_nouns(case.lexicon)))
    for procedure in case.draft.procedures:

        def note(name: str | None, evidence: Evidence, home: str = procedure.id) -> None:
            if name and not case.teardown.effects.is_fastener(name):
                found.add(Mention(part_key(name), name, home, evidence))

        note(procedure.subject, heading_evidence(procedure))
        for one in procedure.prerequisites:
            note(one.part, prerequisite_evidence(one))
        for step in procedure.steps:
            evidence = step_evidence(step)
            found.add_sentence(procedure.id, evidence)
            for name in dict.fromkeys(
                (step.part, step.from_, *(g.secures for g in step.fasteners), *(g.to for g in step.fasteners))
            ):
                note(name, evidence)
        for notice in procedure.notices:
            found.add_sentence(procedure.id, notice_evidence(notice))
    return found
