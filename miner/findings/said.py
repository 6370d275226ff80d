"""Numbers in a sentence: how many of a part, how long a screw."""

from __future__ import annotations

import re

from miner.model.naming import part_words, singular

_WORDS = ("one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen "
          "seventeen eighteen nineteen twenty")  # fmt: skip
_VALUES = {word: value for value, word in enumerate(_WORDS.split(), 1)} | {"both": 2, "pair": 2}
NUMBER = rf"(?:\d{{1,2}}|{'|'.join(_WORDS.split())})"  # a count, for patterns
_TOKEN = re.compile(r"\d+(?:[.,]\d+)?|[a-z]+", re.IGNORECASE)
_MILLIMETRES = frozenset({"mm", "mil", "mils", "millimetre", "millimeter"})
_REACH = 4  # words between a count and the noun that it counts: "the three new paper filters"


def _tokens(text: str) -> list[str]:
    return [singular(word) for word in _TOKEN.findall(text.casefold())]


def _value(word: str) -> float | None:
    if word in _VALUES:
        return float(_VALUES[word])
    return float(word.replace(",", ".")) if word[:1].isdigit() else None


def value(word: str) -> int | None:
    """The whole number that a word or digits tell; None for any other word."""
    found = _value(word)
    return int(found) if found is not None and found == int(found) else None


def count_of(part: str | None, text: str) -> int | None:
    """How many of a part a sentence names: 3 for "filters" in "the three new filters"; None if it says nothing."""
    words = part_words(part) if part else ()
    if not words:
        return None
    tokens = _tokens(text)
    for place, token in enumerate(tokens):
        if token != words[-1]:
            continue
        for back in range(place - 1, max(-1, place - 1 - _REACH), -1):
            value = _value(tokens[back])
            if value is not None:
                unit = tokens[back + 1] in _MILLIMETRES
                return None if unit or value != int(value) else int(value)
            if tokens[back] in ("of", "to", "from", "in", "on", "and", "off", "that", "with"):
                break
    return None


def length_of(text: str) -> float | None:
    """The one length in millimetres that a sentence names; None if it names none or several."""
    tokens = _tokens(text)
    found = {
        value
        for value, unit in zip(map(_value, tokens), tokens[1:], strict=False)
        if value is not None and unit in _MILLIMETRES
    }
    return next(iter(found)) if len(found) == 1 else None
