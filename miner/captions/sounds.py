"""How an English word sounds, roughly: enough to tell which words a recogniser takes for each other.

The idea is that of Soundex (Russell and Odell, US patents 1261167 and 1435663): vowels away, like consonants as one.
Unlike it, spellings of one sound are joined first ("ph", "kn", "ck") and the sound of the first vowel is kept, since
trade words differ in it more often than not ("collar", "cooler").
"""

from __future__ import annotations

import re
from functools import lru_cache

_SPELLINGS = (
    (re.compile(r"^(?:kn|gn)"), "n"),
    (re.compile(r"^wr"), "r"),
    (re.compile(r"^ps(?=y)"), "s"),
    (re.compile(r"mb$"), "m"),
    (re.compile(r"ph"), "f"),
    (re.compile(r"ng(?=$|s$)"), "n"),
    (re.compile(r"tch|ch|dge|sh|tion|sion|cian|j"), "c"),
    (re.compile(r"c(?=[eiy])"), "s"),
    (re.compile(r"ck|qu?|x|c(?![eiy])"), "k"),
    (re.compile(r"gh(?=t|$)"), ""),
    (re.compile(r"th"), "t"),
)
_SHIFT = str.maketrans("bdgvzj", "ptkfsc")
_FIRST_VOWELS = (
    (re.compile(r"^[^aeiouy]*[eiu]r(?:rs?$|(?![aeiouyr]))"), "3"),
    (re.compile(r"^[^aeiouy]*(?:ee|ea|ie(?!w)|ei)"), "e:"),
    (re.compile(r"^[^aeiouy]*(?:oo|ou|ew|iew|ue|ui|u[^aeiouyr]e$)"), "u:"),
    (re.compile(r"^[^aeiouy]*(?:ai|ay|ei|a[^aeiouyr]e$)"), "ei"),
    (re.compile(r"^[^aeiouy]*(?:oa|ow|o[^aeiouyr]e$)"), "ou"),
    (re.compile(r"^[^aeiouy]*(?:y|igh)"), "i"),
)


@lru_cache(maxsize=16384)
def consonants(word: str) -> str:
    """The consonants of a word as they sound, voiced and voiceless as one, none twice in a row.

    >>> consonants("bleat"), consonants("bleed"), consonants("filler"), consonants("filter")
    ('plt', 'plt', 'flr', 'fltr')
    """
    # The marks for sh and ch must not be taken for a c that is still to be judged.
    text = word
    for pattern, sound in _SPELLINGS:
        text = pattern.sub(sound.upper() if sound == "c" else sound, text)
    text = re.sub(r"[aeiouywh'-]", "", text.lower().translate(_SHIFT))
    return re.sub(r"(.)\1+", r"\1", text)


@lru_cache(maxsize=16384)
def first_vowel(word: str) -> str:
    """The sound of the first vowel, as far as the spelling tells; empty without one."""
    word = word.replace("qu", "k")
    for pattern, sound in _FIRST_VOWELS:
        if pattern.match(word):
            return sound
    match = re.search(r"[aeiou]", word)
    return match.group() if match else ""


def sounds_alike(heard: str, meant: str) -> bool:
    """Whether two words have the same consonants and first vowel, and start with the same consonant sound."""
    return (
        consonants(heard) == consonants(meant)
        and first_vowel(heard) == first_vowel(meant)
        and _onset(heard) == _onset(meant)
    )


def _onset(word: str) -> str:
    return word[:1].translate(str.maketrans("cq", "kk")) if not word.startswith("ph") else "f"
