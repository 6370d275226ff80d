"""When two names mean one part: one key for spellings, and shortened names where they are unambiguous.

`part_key` makes spellings equal ("The drip-trays" and "drip tray"); it keeps every word that tells two parts apart,
so "left hinge" and "right hinge" differ. A name may also be shortened, "fan" for "suction fan", "battery" for
"battery pack". Whether that is safe depends on the other names of the recording, so `PartNames` is built from all
of them: "cover" means "rear cover" only where no other cover is named.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from functools import lru_cache

_WORD = re.compile(r"[^\W_]+(?:\.\d+)?")
_IES = re.compile(r"(?<=[a-z]{2})ies$")
_ES = re.compile(r"(?<=ch|sh|ss)es$|(?<=x)es$")
_S = re.compile(r"(?<![siu])s$")
_KEPT = frozenset("lens chassis gas bus bias axis canvas bellows mains series species always".split())
_IRREGULAR = {"bodies": "body", "knives": "knife", "shelves": "shelf", "lenses": "lens", "buses": "bus",
              "gases": "gas", "axes": "axis", "feet": "foot", "halves": "half", "leaves": "leaf",
              "axles": "axle", "apexes": "apex", "matrices": "matrix", "vertices": "vertex"}  # fmt: skip
_NUMBERS = ("one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen "
            "seventeen eighteen nineteen twenty")  # fmt: skip
# Words that never tell two parts apart: determiners, counts, and whether the part is the old or the new one.
_IDLE = frozenset(
    f"{_NUMBERS} a an the this that these those its their your his her my our it both all each every either another "
    "other some old new replacement spare faulty worn broken same whole entire existing original single little".split()
)
# Words at the end of a name that add nothing to it ("pump unit"), and those a speaker likes to leave out.
_TRAILING = frozenset({"assembly", "assy", "unit"})
_LEFT_OUT = _TRAILING | {"pack", "module", "set", "kit"}
# Words that split a pair: a name with one never means a name with its counterpart.
SIDES = frozenset("left right front rear back upper lower top bottom inner outer first second near far".split())


@lru_cache(maxsize=16384)
def singular(word: str) -> str:
    """A noun without its plural ending: `bushings` gives `bushing`, `chassis` stays."""
    if word in _KEPT or len(word) < 4:
        return word
    if word in _IRREGULAR:
        return _IRREGULAR[word]
    for ending, instead in ((_IES, "y"), (_ES, ""), (_S, "")):
        changed = ending.sub(instead, word)
        if changed != word:
            return changed
    return word


@lru_cache(maxsize=8192)
def part_words(name: str) -> tuple[str, ...]:
    """The words of a part name that count, singular, "the lead of the motor" turned into "motor lead"."""
    plain = name.casefold().replace("\u2019s ", " ").replace("'s ", " ")
    pieces = [_WORD.findall(piece.replace("'", "")) for piece in plain.split(" of ")]
    words = [singular(word) for piece in reversed(pieces) for word in piece]
    kept = [word for word in words if word not in _IDLE and not word.isdigit()]
    while len(kept) > 1 and kept[-1] in _TRAILING:
        kept.pop()
    return tuple(kept or words)


@lru_cache(maxsize=8192)
def part_key(name: str | None) -> str:
    """One spelling for a part name: `Both drip-tray covers` gives `drip tray cover`; empty for no name."""
    return " ".join(part_words(name)) if name else ""


def head_word(name: str | None) -> str:
    """The last word of a name's key: what kind of thing it is."""
    return part_key(name).rpartition(" ")[2]


def shortens(short: tuple[str, ...], long: tuple[str, ...]) -> bool:
    """Whether `short` may be a shortened form of `long`: its last words, or without a word like "pack"."""
    if not 0 < len(short) < len(long):
        return False
    if long[-len(short) :] == short:
        return True
    return long[: len(short)] == short and all(word in _LEFT_OUT for word in long[len(short) :])


def same_part(a: str | None, b: str | None) -> bool:
    """Whether two names can mean one part, with no other names known: equal keys, or one shortens the other.

    >>> same_part("the Battery-Packs", "battery"), same_part("battery cover", "battery")
    (True, False)
    """
    if not a or not b:
        return False
    one, two = part_words(a), part_words(b)
    return one == two or "".join(one) == "".join(two) or shortens(one, two) or shortens(two, one)


class PartNames:
    """The names of one recording, so that a shortened name is resolved only where it is unambiguous.

    >>> names = PartNames(["rear cover", "pump", "water pump"])
    >>> names.key("the cover"), names.key("pump")
    ('rear cover', 'water pump')
    """

    def __init__(self, names: Iterable[str | None]) -> None:
        keys = dict.fromkeys(key for name in names if (key := part_key(name)))
        self._squeezed: dict[str, str] = {}
        for key in keys:
            self._squeezed.setdefault(key.replace(" ", ""), key)
        self._longer: dict[str, dict[str, None]] = {}
        for key in keys:
            for short in _shortened(tuple(key.split())):
                self._longer.setdefault(short, {})[key] = None

    def key(self, name: str | None) -> str:
        """The key of the part that a name means; the name's own key where it cannot be resolved."""
        own = part_key(name)
        own = self._squeezed.get(own.replace(" ", ""), own)
        longer = self._longer.get(own)
        if not longer:
            return own
        longest = max(longer, key=len)
        # Every longer name must itself shorten the longest one: "wheel", "drive wheel", "rear drive wheel".
        if all(key == longest or longest in self._longer.get(key, ()) for key in longer):
            return longest
        return own

    def same(self, a: str | None, b: str | None) -> bool:
        """Whether two names mean one part in this recording."""
        return bool(a) and bool(b) and self.key(a) == self.key(b)


def _shortened(words: tuple[str, ...]) -> Iterator[str]:
    """The shorter names that `words` may be called by."""
    for start in range(1, len(words)):
        yield " ".join(words[start:])
    end = len(words) - 1
    while end > 0 and words[end] in _LEFT_OUT:
        yield " ".join(words[:end])
        end -= 1
