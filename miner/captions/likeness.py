"""Words that are probably misheard, because a word that sounds like them belongs in their place.

Looked at are only words that the lexicon does not know at all, beside a part's head noun or a known first word of
one. What counts is what the same recording says elsewhere (a compound said at least twice, and more often than the
one heard); the lexicon alone decides only if the two words sound the same.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Container, Iterable, Sequence
from dataclasses import dataclass, fields, is_dataclass
from functools import lru_cache

from miner.captions.changes import Change
from miner.captions.sounds import consonants, first_vowel, sounds_alike
from miner.captions.words import SENTENCE_END
from miner.lexicon import Lexicon
from miner.lexicon.inflection import plural, singular
from miner.lexicon.lookup import lookup
from miner.model.recording import Word

SHORTEST = 4
"""Letters that both words must have: shorter ones are alike by chance."""

RARE = 2
"""How often the compound heard may stand in the recording if only the lexicon speaks against it."""


TELLING = 3
"""Consonants that a head must have to be known again behind an article alone ("the platinum": the platen)."""


@dataclass(frozen=True, slots=True)
class _Speech:
    """Two-word compounds of a recording (first word, head in the singular) and how often each word stands in it."""

    pairs: Counter[tuple[str, str]]
    words: Counter[str]
    firsts: dict[str, tuple[str, ...]]
    heads: dict[str, tuple[str, ...]]


def likely_mishearings(
    words: Sequence[Word], keys: list[str], breaks: frozenset[int], lexicon: Lexicon
) -> Iterable[Change]:
    """Probable mishearings, in order; the lexicon's known ones are not looked at here."""
    vocabulary, heads = known_words(lexicon), lookup(lexicon).heads
    articles = lookup(lexicon).words("determiner")
    strange = [at for at, word in enumerate(keys) if word not in vocabulary and _is_plain(word)]
    if not strange:
        return
    speech = _speech(words, keys, breaks, heads)
    judged: dict[tuple[str, str], tuple[tuple[str, str], str] | None] = {}
    done = -1
    for at in strange:
        for first in (at, at - 1):
            if not done < first < len(keys) - 1 or not _joined(words, first, breaks):
                continue
            pair = (keys[first], singular(keys[first + 1]))
            if first == at and pair[1] not in heads:
                continue
            if pair not in judged:
                judged[pair] = (
                    _first_meant(pair, speech, lexicon) if first == at else _head_meant(pair, speech, articles)
                )
            meant = judged[pair]
            if meant:
                (modifier, head), reason = meant
                yield Change(first, first + 2, (modifier, _in_number(head, keys[first + 1])), reason)
                done = first + 1
                break


def _is_plain(word: str) -> bool:
    return len(word) >= SHORTEST and word.isalpha()


def _in_number(head: str, heard: str) -> str:
    """The head meant, plural if the word heard is one and does not sound like the singular ("views": fuse)."""
    if singular(heard) == heard or (singular(heard) != head and consonants(heard) == consonants(head)):
        return head
    return plural(head)


def _joined(words: Sequence[Word], first: int, breaks: frozenset[int]) -> bool:
    return not words[first].text.endswith((",", *SENTENCE_END)) and first + 1 not in breaks


def _speech(words: Sequence[Word], keys: list[str], breaks: frozenset[int], heads: Container[str]) -> _Speech:
    pairs = Counter(
        (keys[at - 1], singular(word))
        for at, word in enumerate(keys)
        if word in heads and at and _joined(words, at - 1, breaks)
    )
    firsts: dict[str, list[str]] = {}
    seconds: dict[str, list[str]] = {}
    for (first, head), count in sorted(pairs.items()):
        if count > 1:
            firsts.setdefault(head, []).append(first)
            seconds.setdefault(first, []).append(head)
    return _Speech(pairs, Counter(keys), _frozen(firsts), _frozen(seconds))


def _frozen(groups: dict[str, list[str]]) -> dict[str, tuple[str, ...]]:
    return {name: tuple(group) for name, group in groups.items()}


def _first_meant(pair: tuple[str, str], speech: _Speech, lexicon: Lexicon) -> tuple[tuple[str, str], str] | None:
    """The compound meant where its first word was misheard ("bobbing case": bobbin case)."""
    heard, head = pair
    said = [
        (first, head)
        for first in speech.firsts.get(head, ())
        if first != heard and _supported(pair, (first, head), speech) and _alike(heard, first)
    ]
    if said:
        return _best(pair, said, speech)
    if speech.pairs[pair] > RARE or speech.words[heard] > RARE:
        return None
    known = [first for first in known_firsts(lexicon).get(head, ()) if _is_plain(first) and sounds_alike(heard, first)]
    if len(known) != 1:
        return None
    return (known[0], head), f"{' '.join(pair)!r} sounds like {known[0]} {head}, a known part"


def _head_meant(pair: tuple[str, str], speech: _Speech, articles: Container[str]) -> tuple[tuple[str, str], str] | None:
    """The compound meant where its head was misheard ("thermal views": thermal fuse)."""
    first, heard = pair
    bare = first in articles  # no compound: only a long likeness tells anything
    said = [
        (first, head)
        for head in speech.heads.get(first, ())
        if head != heard and _supported(pair, (first, head), speech) and _alike_head(heard, head)
        if not bare or len(consonants(head)) >= TELLING
    ]
    return _best(pair, said, speech) if said else None


def _supported(pair: tuple[str, str], other: tuple[str, str], speech: _Speech) -> bool:
    """Whether the recording says the other compound more often, and the strange word in this compound only."""
    strange = pair[0] if pair[1] == other[1] else pair[1]
    heard = max(speech.pairs[pair], speech.words[strange])
    return speech.pairs[other] > heard and heard <= RARE


def _best(pair: tuple[str, str], said: list[tuple[str, str]], speech: _Speech) -> tuple[tuple[str, str], str]:
    meant = max(said, key=lambda other: speech.pairs[other])
    reason = f"{' '.join(pair)!r} sounds like {' '.join(meant)!r}, said {speech.pairs[meant]} times in this recording"
    return meant, reason


def _alike(heard: str, meant: str) -> bool:
    """Spelling nearly equal and at most one consonant apart, or equal in sound."""
    if not _is_plain(meant):
        return False
    if sounds_alike(heard, meant):
        return True
    from rapidfuzz.distance import JaroWinkler, Levenshtein

    return (
        JaroWinkler.similarity(heard, meant) >= 0.82
        and first_vowel(heard) == first_vowel(meant)
        and Levenshtein.distance(consonants(heard), consonants(meant)) <= 1
        and Levenshtein.distance(heard, meant) <= max(len(heard), len(meant)) // 3 + 1
    )


def _alike_head(heard: str, meant: str) -> bool:
    """For a head, which carries the meaning: equal in sound, or one final consonant more or less."""
    if consonants(heard) == consonants(meant) and first_vowel(heard) == first_vowel(meant):
        return True
    short, long = sorted((consonants(heard), consonants(meant)), key=len)
    return len(long) == len(short) + 1 and long.startswith(short) and first_vowel(heard) == first_vowel(meant)


@lru_cache(maxsize=8)
def known_firsts(lexicon: Lexicon) -> dict[str, tuple[str, ...]]:
    """The first words with which each head noun is known, from its modifiers and from compounds listed whole."""
    found: dict[str, dict[str, None]] = {}
    for entry in lexicon.heads:
        first, _, head = entry.term.rpartition(" ")
        found.setdefault(entry.term, {}).update(dict.fromkeys(entry.modifiers))
        if first and " " not in first:
            found.setdefault(head, {})[first] = None
    return {head: tuple(firsts) for head, firsts in found.items()}


@lru_cache(maxsize=8)
def known_words(lexicon: Lexicon) -> frozenset[str]:
    """Every single word that stands anywhere in the lexicon, except those listed as heard by mistake."""
    terms = lookup(lexicon)
    found: set[str] = set()
    for field in fields(lexicon):
        entries = getattr(lexicon, field.name)
        for entry in entries if isinstance(entries, tuple) else ():
            if is_dataclass(entry):
                for part in fields(entry):
                    if part.name != "heard":
                        found.update(_words_of(getattr(entry, part.name)))
    found.update(terms.heads, terms.verb_forms, terms.fasteners, terms.tools, terms.supplies)
    words = {word for text in found for word in text.casefold().replace("-", " ").split()}
    return frozenset(words | {plural(word) for word in words})


def _words_of(value: object) -> Iterable[str]:
    if isinstance(value, str):
        return value.split()
    if isinstance(value, tuple):
        return [word for item in value if isinstance(item, str) for word in item.split()]
    return ()
