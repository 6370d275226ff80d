"""The tag of every word that a lexicon knows, by itself; what depends on the neighbours is left to `tagging`.

Besides the tags of a Doc (see `tagging`) the table has letters for what is still open:
v verb or noun                  s its third person or a plural     a adjective or verb     b particle or verb
K fastener noun or verb         d demonstrative                    m marker or adjective   g progressive
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache

from miner.lexicon import Lexicon
from miner.lexicon.lookup import Lookup, lookup

_CLASSES = (  # later ones win
    ("noun", "n"), ("telling_verb", "n"), ("adverb", "R"), ("adjective", "A"), ("marker", "T"), ("preposition", "p"),
    ("particle", "r"), ("subordinator", "W"), ("auxiliary", "X"), ("quantifier", "Q"), ("determiner", "D"),
    ("demonstrative", "d"), ("subject", "I"), ("object", "O"), ("existential", "e"), ("conjunction", "C"),
    ("negation", "J"), ("filler", "f"),
)  # fmt: skip
_OF_VERB = {"base": "V", "third": "S", "past": "E", "progressive": "g"}
_OF_VERB_OR_NOUN = {"base": "v", "third": "s", "past": "E", "progressive": "g"}


@dataclass(frozen=True, slots=True)
class TagTable:
    """Tags by word; `compounds` are part names of several words; the other words settle tags that are open."""

    tags: Mapping[str, str]
    compounds: frozenset[str]
    heads: frozenset[str]
    adverbial: frozenset[str]
    attributive: frozenset[str]
    unchanging: frozenset[str]
    wanting: frozenset[str]


@lru_cache(maxsize=8)
def tag_table(lexicon: Lexicon) -> TagTable:
    """The table of a lexicon, built at the first call for it."""
    index = lookup(lexicon)
    tags = _of_nouns_and_classes(index)
    _add_verbs(tags, index)
    _add_first_words(tags, index)
    _mark_open(tags, index)
    _add_fasteners(tags, index)
    return TagTable(
        tags=tags,
        compounds=frozenset(term for term in index.heads if " " in term),
        heads=frozenset(term for term in index.heads if " " not in term),
        adverbial=index.words("adverbial_preposition"),
        attributive=index.words("attributive_particle"),
        unchanging=index.words("unchanging_verb"),
        wanting=index.words("wanting_verb"),
    )


def _last(term: str) -> str:
    return term.rsplit(" ", 1)[-1]


def _of_nouns_and_classes(index: Lookup) -> dict[str, str]:
    tags = {_last(term): "H" for term in index.heads}
    for term in index.tools:
        tags.setdefault(_last(term), "n")
    for name, tag in _CLASSES:
        tags.update({word: tag for word in index.words(name) if " " not in word})
    tags.update(dict.fromkeys(index.words("adjective") & index.words("marker"), "m"))
    tags.update({"of": "o", "to": "t", "onto": "p", "into": "p"})
    return tags


def _add_verbs(tags: dict[str, str], index: Lookup) -> None:
    """The forms of verbs of one word; closed classes win, and a word that is a noun as well stays open."""
    nouns = {word for word, tag in tags.items() if tag in "Hn"}
    for word, form in index.verb_forms.items():
        if " " not in word and tags.get(word, "n") in "nH":
            tags[word] = (_OF_VERB_OR_NOUN if form.action.noun or word in nouns else _OF_VERB)[form.form]


def _add_first_words(tags: dict[str, str], index: Lookup) -> None:
    """The first words of "switch off" and "take out" are verbs as well."""
    for phrase, form in index.verb_forms.items():
        first = phrase.split()[0]
        if " " in phrase and tags.get(first, "n") in "nH":
            tags[first] = (_OF_VERB_OR_NOUN if first in tags else _OF_VERB)[form.form]
    for word, idioms in index.idioms.items():
        if word not in tags:
            tags[word] = _OF_VERB[idioms[0].form]
        elif tags[word] == "n":
            tags[word] = _OF_VERB_OR_NOUN[idioms[0].form]


def _mark_open(tags: dict[str, str], index: Lookup) -> None:
    """Adjectives and particles that are base forms of verbs: "clean", "open"."""
    for word in index.words("adjective") | index.words("particle"):
        form = index.verb_forms.get(word)
        if form and form.form == "base" and tags.get(word) in ("A", "r"):
            tags[word] = "a" if tags[word] == "A" else "b"


def _add_fasteners(tags: dict[str, str], index: Lookup) -> None:
    for term in index.fasteners:
        word = _last(term)
        if word == "head":
            continue  # the shape of a screw, and no fastener of its own
        tags[word] = "K" if tags.get(word) in ("v", "s", "V", "S", "K") else "F"
