"""Long trade words that the recogniser cut in two: "solo noid valve", "alter nater bracket".

Two neighbours count as one word if together they sound exactly like a long word that the lexicon has, one of them is
unknown to it, and the word either belongs before the head noun that follows or is a part or fastener by itself.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from functools import lru_cache

from miner.captions.changes import Change
from miner.captions.likeness import known_firsts, known_words
from miner.captions.sounds import consonants, first_vowel
from miner.captions.words import SENTENCE_END
from miner.lexicon import Lexicon
from miner.lexicon.inflection import singular
from miner.lexicon.lookup import lookup
from miner.model.recording import Word

LONG = 7
"""Letters from which a word is likely to be cut in two."""

BEFORE_HEAD, ALONE = 4, 5
"""Consonants that must agree if a head noun supports the word, and if nothing does."""


def joined_mishearings(
    words: Sequence[Word], keys: list[str], breaks: frozenset[int], lexicon: Lexicon
) -> Iterable[Change]:
    """Words cut in two, in order of time."""
    vocabulary, firsts, alone = known_words(lexicon), known_firsts(lexicon), _long_words(lexicon)
    done = -1
    for at, word in enumerate(keys):
        if word in vocabulary or len(word) < 3 or not word.isalpha():
            continue
        for first in (at - 1, at):
            if not done < first < len(keys) - 1 or not _unbroken(words, first, breaks):
                continue
            one, two = keys[first], keys[first + 1]
            if not (one.isalpha() and two.isalpha()):
                continue
            follows = first + 2 < len(keys) and _unbroken(words, first + 1, breaks)
            before_head = firsts.get(singular(keys[first + 2]), ()) if follows else ()
            beside = [known for known in before_head if _sounds_as(one + two, known, BEFORE_HEAD)]
            meant = beside or [own for own in alone.get(consonants(one + two), ()) if _sounds_as(one + two, own, ALONE)]
            if len(meant) == 1 and meant[0] != one + two:
                yield Change(first, first + 2, (meant[0],), f"{one + ' ' + two!r} sounds like {meant[0]}, a trade word")
                done = first + 1
                break


def _unbroken(words: Sequence[Word], first: int, breaks: frozenset[int]) -> bool:
    return not words[first].text.endswith((",", *SENTENCE_END)) and first + 1 not in breaks


def _sounds_as(joined: str, word: str, least: int) -> bool:
    sound = consonants(word)
    return (
        len(word) >= LONG
        and len(sound) >= least
        and sound == consonants(joined)
        and first_vowel(word) == first_vowel(joined)
        and abs(len(word) - len(joined)) <= 4
    )


@lru_cache(maxsize=8)
def _long_words(lexicon: Lexicon) -> dict[str, tuple[str, ...]]:
    """Long single words for parts and fasteners, in both numbers, by their consonants."""
    terms = lookup(lexicon)
    found: dict[str, list[str]] = {}
    for word in sorted({*terms.heads, *terms.fasteners}):
        if word.isalpha() and len(singular(word)) >= LONG:
            found.setdefault(consonants(word), []).append(word)
    return {sound: tuple(group) for sound, group in found.items()}
