"""When two texts count as equal: without case, punctuation, fillers, number spelling, articles and plurals."""

from __future__ import annotations

import re
from collections import Counter

_ONES = (
    "zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen seventeen "
    "eighteen nineteen"
).split()
_TENS = "twenty thirty forty fifty sixty seventy eighty ninety".split()
_VALUES = {word: value for value, word in enumerate(_ONES)} | {word: 10 * n for n, word in enumerate(_TENS, 2)}

_APOSTROPHES = re.compile("['\u2019]")
_TENS_AND_ONES = re.compile(rf"\b({'|'.join(_TENS)})[\s-]+({'|'.join(_ONES[1:10])})\b")
_NUMBER_OR_WORD = re.compile(r"\d+(?:\.\d+)?|[^\W\d_]+")
_POINT = re.compile(r"\b(\d+) point (\d+)\b")
_FILLER = re.compile(r"\b(?:u+[hm]+|a+h+|e+r+m*|hm+|ok(?:ay)?|actually|basically|just|you know|i mean|sort of)\b")
_IES = re.compile(r"(?<=[a-z]{2})ies$")
_PLURAL = re.compile(r"(?:(?<=ch|sh|ss)|(?<=lens)|(?<=x))es$|(?<![siu])(?<!len)s$")


def term_key(value: object) -> str:
    """A word of a fixed vocabulary, in one spelling; empty for anything but text."""
    return value.strip().casefold() if isinstance(value, str) else ""


def tokens(value: object) -> list[str]:
    """Words and numbers: `Twenty-two T10s` gives `22`, `t`, `10`, `s`; `two point five` gives `2.5`."""
    text = _TENS_AND_ONES.sub(
        lambda found: str(_VALUES[found[1]] + _VALUES[found[2]]), _APOSTROPHES.sub("", term_key(value))
    )
    words = (str(_VALUES.get(word, word)) for word in _NUMBER_OR_WORD.findall(text))
    return _POINT.sub(r"\1.\2", " ".join(words)).split()


def name_key(value: object) -> str:
    """The name of a part or size without articles, plurals and gaps: `The O-rings` gives `oring`."""
    words = (word for word in tokens(value) if word not in ("a", "an", "the"))
    return "".join(_PLURAL.sub("", _IES.sub("y", word)) for word in words)


def word_counts(text: object) -> Counter[str]:
    """How often each word stands in a text, fillers left out."""
    return Counter(tokens(_FILLER.sub(" ", term_key(text))))
