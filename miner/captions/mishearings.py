"""Trade words that the recogniser took for others: known ones of the lexicon, and likely ones by context.

A wrong repair is worse than a missed one: known mishearings are repaired only beside their words of context, and a
likeness only where `miner.captions.likeness` finds that the recording or the lexicon supports it.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import lru_cache

from miner.captions.changes import Change
from miner.captions.joins import joined_mishearings
from miner.captions.likeness import likely_mishearings
from miner.captions.words import EDGE, SENTENCE_END, breaks_of, keys_of, replaced
from miner.lexicon import Lexicon
from miner.lexicon.entries import Mishearing
from miner.lexicon.inflection import plural, singular
from miner.lexicon.lookup import lookup
from miner.model.recording import Recording, Repair, Word
from miner.readers.word_times import spread

_TAIL = re.compile(rf"(?:['’]s)?[{re.escape(EDGE)}]*$")
_SIZE = re.compile(r"[a-z]{0,3}\d[\w./]*")


@dataclass(frozen=True, slots=True)
class _Known:
    """A known mishearing in one of its numbers: the words heard, the words meant, the context."""

    heard: tuple[str, ...]
    meant: tuple[str, ...]
    entry: Mishearing


def repair_mishearings(recording: Recording, lexicon: Lexicon) -> Recording:
    """The recording with misheard trade words put right; the same object if there are none."""
    words = [word for cue in recording.cues for word in cue.words]
    keys = [word[:-2] if word.endswith(("'s", "’s")) else word for word in keys_of(words)]
    breaks = breaks_of(recording)
    changes: list[Change] = []
    taken: set[int] = set()
    for find in (known_mishearings, joined_mishearings, likely_mishearings):
        for change in find(words, keys, breaks, lexicon):
            if taken.isdisjoint(range(change.start, change.end)):
                changes.append(change)
                taken.update(range(change.start, change.end))
    if not changes:
        return recording
    placed: dict[int, Sequence[Word]] = {}
    repairs: list[Repair] = []
    for change in sorted(changes, key=lambda change: change.start):
        spoken = words[change.start : change.end]
        written = _rewritten(spoken, change.meant)
        placed[change.start] = written
        placed.update(dict.fromkeys(range(change.start + 1, change.end), ()))
        repairs.append(
            Repair("mishearing", spoken[0].start, spoken[-1].end, _bare(spoken), _bare(written), change.reason)
        )
    return replace(recording, cues=replaced(recording, placed), repairs=(*recording.repairs, *repairs))


def known_mishearings(words: Sequence[Word], keys: list[str], breaks: frozenset[int], lexicon: Lexicon) -> list[Change]:
    """The lexicon's mishearings, each beside one of its words of context."""
    index = _index(lexicon)
    hits = [at for at, word in enumerate(keys) if word in index]
    if not hits:
        return []
    numbers = lookup(lexicon).words("number")
    found: list[Change] = []
    for at in hits:
        if found and at < found[-1].end:
            continue
        for known in index[keys[at]]:
            end = at + len(known.heard)
            said = tuple(keys[at:end]) == known.heard and _unbroken(words, at, end, breaks)
            if said and _in_context(keys, at, end, known.entry, numbers):
                reason = f"{' '.join(known.heard)!r} is a known mishearing of {' '.join(known.meant)!r}"
                found.append(Change(at, end, known.meant, reason))
                break
    return found


def _unbroken(words: Sequence[Word], start: int, end: int, breaks: frozenset[int]) -> bool:
    """Whether no sentence ends and no pause lies inside a span."""
    return not any(words[at].text.endswith((",", *SENTENCE_END)) or at + 1 in breaks for at in range(start, end - 1))


def _in_context(keys: list[str], start: int, end: int, entry: Mishearing, numbers: frozenset[str]) -> bool:
    if not entry.before and not entry.after:
        return True
    before = any(_ends(keys[max(0, start - 4) : start], phrase, numbers) for phrase in entry.before)
    return before or any(_begins(keys[end : end + 4], phrase, numbers) for phrase in entry.after)


def _begins(keys: list[str], phrase: str, numbers: frozenset[str]) -> bool:
    wanted = phrase.split()
    return len(keys) >= len(wanted) and all(map(_fits, keys, wanted, [numbers] * len(wanted)))


def _ends(keys: list[str], phrase: str, numbers: frozenset[str]) -> bool:
    wanted = phrase.split()
    return len(keys) >= len(wanted) and _begins(keys[len(keys) - len(wanted) :], phrase, numbers)


def _fits(word: str, wanted: str, numbers: frozenset[str]) -> bool:
    if wanted == "#":
        return word in numbers or bool(_SIZE.fullmatch(word))
    return word == wanted or singular(word) == wanted


@lru_cache(maxsize=8)
def _index(lexicon: Lexicon) -> dict[str, tuple[_Known, ...]]:
    """Known mishearings by the first word heard, in both numbers, the longest first."""
    found: dict[str, list[_Known]] = {}
    for entry in lexicon.mishearings:
        for form in (str, plural):
            heard, meant = form(entry.heard.casefold()), form(entry.meant)
            known = _Known(tuple(heard.split()), tuple(meant.split()), entry)
            found.setdefault(known.heard[0], []).append(known)
    return {first: tuple(sorted(group, key=lambda known: -len(known.heard))) for first, group in found.items()}


def _rewritten(spoken: Sequence[Word], meant: Sequence[str]) -> list[Word]:
    """The words meant with the times, the marks and the capital of the words heard."""
    first, last = spoken[0].text, spoken[-1].text
    lead = first[: len(first) - len(first.lstrip(EDGE))]
    tail = _TAIL.search(last).group()  # type: ignore[union-attr]
    texts = list(meant)
    if first.strip(EDGE)[:1].isupper():
        texts[0] = texts[0][:1].upper() + texts[0][1:]
    texts[0], texts[-1] = lead + texts[0], texts[-1] + tail
    if len(texts) == len(spoken):
        return [replace(word, text=text) for word, text in zip(spoken, texts, strict=True)]
    return list(spread(texts, spoken[0].start, spoken[-1].end))


def _bare(words: Sequence[Word]) -> str:
    return _TAIL.sub("", " ".join(word.text for word in words)).strip(EDGE)
