"""Words and phrases doubled by mistake: found, reported, the first copy taken out.

What is doubled on purpose stays: what the lexicon lists (`doubling`), numbers, words with a sentence end or a comma
of emphasis between them, a particle before a preposition ("turn it on on the side"), an object before a subject
("when you lift it it clicks").
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import lru_cache

from miner.captions.words import SENTENCE_END, breaks_of, keys_of, replaced
from miner.lexicon import Lexicon
from miner.lexicon.lookup import Lookup, lookup
from miner.model.recording import Recording, Repair, Word

LONGEST = 4
"""Words of the longest phrase that is looked for."""


@dataclass(frozen=True, slots=True)
class _Classes:
    """The word classes that decide on a doubling, from the lexicon."""

    allowed: frozenset[str]
    numbers: frozenset[str]
    linking: frozenset[str]
    particles: frozenset[str]
    pronouns: frozenset[str]
    openers: frozenset[str]
    copulas: frozenset[str]
    copula_cues: frozenset[str]
    cells: frozenset[str]
    empty: frozenset[str]
    phrase_openers: frozenset[str]
    is_verb: Callable[[str], object]


@dataclass(slots=True)
class _Text:
    """The words at hand: those not yet dropped, with their keys and their positions in the recording."""

    words: list[Word]
    keys: list[str]
    places: list[int]
    breaks: frozenset[int]


def remove_stutters(recording: Recording, lexicon: Lexicon) -> Recording:
    """The recording with each stutter said once; the same object if there is none."""
    words = [word for cue in recording.cues for word in cue.words]
    keys = keys_of(words)
    if not any(_candidates(keys, size) for size in range(1, LONGEST + 1)):
        return recording
    classes = _classes(lexicon)
    text = _Text(words, keys, list(range(len(words))), breaks_of(recording))
    changes: dict[int, list[Word]] = {}
    repairs: list[Repair] = []
    for size in range(1, LONGEST + 1):
        found = [at for at in _candidates(text.keys, size) if _is_stutter(text, at, size, classes)]
        if found:
            repairs += _take_out(text, found, size, changes)
    if not repairs:
        return recording
    repairs.sort(key=lambda repair: repair.start)
    return replace(recording, cues=replaced(recording, changes), repairs=(*recording.repairs, *repairs))


def _candidates(keys: list[str], size: int) -> list[int]:
    """Positions at which a phrase of this size stands twice in a row."""
    pairs = enumerate(zip(keys, keys[size:], strict=False))
    hits = [at for at, (one, other) in pairs if one == other]
    if size == 1:
        return [at for at in hits if keys[at]]
    return [at for at in hits if keys[at : at + size] == keys[at + size : at + 2 * size] and all(keys[at : at + size])]


def _is_stutter(text: _Text, at: int, size: int, classes: _Classes) -> bool:
    unit = text.keys[at : at + size]
    if " ".join(unit) in classes.allowed or _is_repeat_of_one(unit):
        return False
    if any(place in text.breaks for place in text.places[at + 1 : at + 2 * size]):
        return False
    inner = [word.text for word in text.words[at : at + 2 * size - 1]]
    if any(word.endswith(SENTENCE_END) for word in inner):
        return False
    if any(word in classes.numbers or any(map(str.isdigit, word)) for word in unit):
        return False
    last = inner[size - 1]
    if last.endswith(",") and (unit[-1] not in classes.empty or unit[-1] in classes.particles):
        return False
    return _is_word_stutter(text, at, classes) if size == 1 else _is_phrase_stutter(text, at, size, classes)


def _is_repeat_of_one(unit: list[str]) -> bool:
    """A phrase made of one word only ("no no"): the word alone was judged before."""
    return len(unit) > 1 and len(set(unit)) == 1


def _is_word_stutter(text: _Text, at: int, classes: _Classes) -> bool:
    word = text.keys[at]
    before = [] if text.places[at] in text.breaks else text.keys[max(0, at - 5) : at]
    after = text.keys[at + 2 : at + 3]
    first, second = text.words[at].text, text.words[at + 1].text
    if len(word) == 1 and word not in "ai":
        return False  # spelled letters
    if word == "a" and after and after[0] in classes.cells:
        return False
    if first[:1].isupper() and second[:1].isupper() and word != "i" and not first.isupper():
        return False  # a name
    if word in classes.particles:
        return not any(classes.is_verb(other) for other in before[-3:])
    if word in classes.pronouns:
        return not before or before[-1] in classes.openers or text.words[at - 1].text.endswith((",", *SENTENCE_END))
    if word in classes.copulas:
        return not any(other in classes.copula_cues for other in before)
    return True


def _is_phrase_stutter(text: _Text, at: int, size: int, classes: _Classes) -> bool:
    unit = text.keys[at : at + size]
    if size == 2 and unit[1] in classes.linking and unit[0] not in classes.empty:
        return False  # round and round and (down)
    if size == 2 and unit[0] in classes.linking and at and text.keys[at - 1] == unit[1]:
        return False  # (round) and round and round
    # "on the left the left one": two words that end in a content word may be two phrases.
    return size > 2 or unit[-1] in classes.empty or unit[0] not in classes.phrase_openers


def _take_out(text: _Text, found: list[int], size: int, changes: dict[int, list[Word]]) -> list[Repair]:
    """Drop the first copies; copies that overlap ("the the the") are one repair."""
    runs: list[tuple[int, int]] = []  # first position, position after the last first copy
    for at in found:
        if runs and at < runs[-1][1] + size and (at - runs[-1][0]) % size == 0:
            runs[-1] = (runs[-1][0], at + size)
        elif not runs or at >= runs[-1][1] + size:
            runs.append((at, at + size))
    repairs = [_repair(text, first, end, size, changes) for first, end in runs]
    dropped = {at for first, end in runs for at in range(first, end)}
    kept = [at for at in range(len(text.words)) if at not in dropped]
    text.words, text.keys = [text.words[at] for at in kept], [text.keys[at] for at in kept]
    text.places = [text.places[at] for at in kept]
    return repairs


def _repair(text: _Text, first: int, end: int, size: int, changes: dict[int, list[Word]]) -> Repair:
    spoken = text.words[first : end + size]
    for at in range(first, end):
        changes[text.places[at]] = []
    before = " ".join(word.text for word in spoken)
    head = text.words[end]
    if spoken[0].text[:1].isupper() and not head.text[:1].isupper():
        head = replace(head, text=head.text[:1].upper() + head.text[1:])
        text.words[end] = head
        changes[text.places[end]] = [head]
    after = " ".join(word.text for word in text.words[end : end + size])
    what = "a word" if size == 1 else f"{size} words"
    return Repair("stutter", spoken[0].start, spoken[-1].end, before, after, f"{what} said twice in a row")


@lru_cache(maxsize=8)
def _classes(lexicon: Lexicon) -> _Classes:
    terms: Lookup = lookup(lexicon)

    def union(*names: str) -> frozenset[str]:
        return frozenset().union(*(terms.words(name) for name in names))

    keep = union("doubling", "filler")
    open_ended = union(
        "determiner", "preposition", "conjunction", "subject", "auxiliary", "subordinator", "doubling_empty"
    )
    return _Classes(
        allowed=keep,
        numbers=union("number"),
        linking=union("doubling_link"),
        particles=union("doubling_particle"),
        pronouns=union("doubling_pronoun"),
        openers=union("conjunction", "subordinator", "marker", "filler"),
        copulas=union("doubling_copula"),
        copula_cues=union("doubling_copula_cue"),
        cells=union("doubling_cell"),
        empty=open_ended - keep,
        phrase_openers=union("determiner", "demonstrative", "preposition"),
        is_verb=terms.action_of_form,
    )
