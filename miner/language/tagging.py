"""A word-class tag of one letter for every token; the other components find phrases as patterns over the tag string.

D article, possessive, demonstrative before a noun      Q quantifier           N number
Z size, length or drive       F fastener noun           H head noun of a part  n other noun
A adjective, ordinal, colour  V verb of the trade       S its third person     G its progressive
E its past or participle      p preposition             o "of"                 t "to"
r particle or direction       C "and", "or"             , comma                . end of a sentence
I subject pronoun             O object pronoun          X auxiliary            e "there"
W subordinator                T marker ("so", "next")   f filler               R adverb
J negation                    x other sign
"""

from __future__ import annotations

import re
from collections import Counter
from dataclasses import dataclass
from functools import lru_cache

from spacy.tokens import Doc

from miner.language.annotations import Annotations, annotations_of
from miner.lexicon import Lexicon
from miner.lexicon.lookup import lookup

_CLASSES = (  # later ones win
    ("noun", "n"), ("adverb", "R"), ("adjective", "A"), ("marker", "T"), ("preposition", "p"), ("particle", "r"),
    ("subordinator", "W"), ("auxiliary", "X"), ("quantifier", "Q"), ("determiner", "D"), ("demonstrative", "d"),
    ("subject", "I"), ("object", "O"), ("existential", "e"), ("conjunction", "C"), ("negation", "J"), ("filler", "f"),
)  # fmt: skip
_SIGNS = {",": ",", ".": ".", "?": ".", "!": ".", ";": ".", ":": ".", "-": "-", "–": "-", "—": "-", "(": "x", ")": "x",
          "/": "C", "&": "C", "+": "C", "…": ".", "!!": ".", "->": "-"}  # fmt: skip
_VERB_BEFORE = frozenset(".CTtXIRfJ-")
_NOUN_BEFORE = frozenset("DAHnZFNQGo")
_OBJECT_AFTER = frozenset("DONdQAZ")


@dataclass(frozen=True, slots=True)
class TagTable:
    """Tags by word; lower-case letters of the second alphabet are still to be decided from the context:
    `v` verb or noun, `s` third person or plural, `d` demonstrative, `g` progressive, `m` marker or adjective.
    """

    tags: dict[str, str]
    compounds: frozenset[str]


@lru_cache(maxsize=8)
def tag_table(lexicon: Lexicon) -> TagTable:
    """The tag of every word that a lexicon knows."""
    index = lookup(lexicon)
    tags: dict[str, str] = {}
    for term in index.heads:
        tags[term.rsplit(" ", 1)[-1]] = "H"
    for term in index.tools:
        tags.setdefault(term.rsplit(" ", 1)[-1], "n")
    for name, tag in _CLASSES:
        for word in index.words(name):
            if " " not in word:
                tags[word] = tag
    for both in index.words("adjective") & index.words("marker"):
        tags[both] = "m"
    tags.update({"of": "o", "to": "t", "onto": "p", "into": "p"})
    nouns = {w for w, t in tags.items() if t in ("H", "n")}
    for word, form in index.verb_forms.items():
        if " " in word or tags.get(word, "n") not in ("n", "H"):
            continue
        ambiguous = form.action.noun or word in nouns
        tags[word] = {"base": "v" if ambiguous else "V", "third": "s" if ambiguous else "S", "past": "E"}.get(
            form.form, "g"
        )
    for phrase, form in index.verb_forms.items():  # "switch off": its first word is a verb as well
        first = phrase.split()[0]
        if " " in phrase and tags.get(first, "n") in ("n", "H"):
            tags[first] = (
                {"base": "v", "third": "s", "past": "E"}.get(form.form, "g")
                if first in tags
                else {"base": "V", "third": "S", "past": "E"}.get(form.form, "g")
            )
    for word, found in index.idioms.items():
        form_name = found[0].form
        if word not in tags:
            tags[word] = {"base": "V", "third": "S", "past": "E"}.get(form_name, "g")
        elif tags[word] == "n":
            tags[word] = {"base": "v", "third": "s", "past": "E"}.get(form_name, "g")
    for word in index.words("adjective") | index.words("particle"):
        form = index.verb_forms.get(word)
        if form is not None and form.form == "base" and tags.get(word) in ("A", "r"):
            tags[word] = "a" if tags[word] == "A" else "b"
    for term in index.fasteners:
        last = term.rsplit(" ", 1)[-1]
        tags[last] = "K" if tags.get(last) in ("v", "s", "V", "S", "K") else "F"
    return TagTable(tags, frozenset(term for term in index.heads if " " in term))


def find_tags(doc: Doc, lexicon: Lexicon) -> str:
    """The tag string of a Doc, one letter a token; numbers and measures must have been found before."""
    return tags_in(annotations_of(doc), lexicon)


def tags_in(known: Annotations, lexicon: Lexicon) -> str:
    """As find_tags, from annotations."""
    table = tag_table(lexicon).tags
    tags = [table.get(word) or _by_shape(word) for word in known.lower]
    for number in known.numbers:
        tags[number.start : number.end] = "N" * (number.end - number.start)
    for measure in known.measures:
        tags[measure.start : measure.end] = "Z" * (measure.end - measure.start)
    _decide(tags, known, tag_table(lexicon).compounds)
    return "".join(tags)


def _by_shape(word: str) -> str:
    first = word[0]
    if first.isdigit():
        return "N"
    if not first.isalnum():
        return _SIGNS.get(word, "x")
    if word.endswith("ly") and len(word) > 4:
        return "R"
    return "n"


_OPEN = re.compile("[vsdgmKEOrWAnNI]")
_DEMONSTRATIVES = frozenset(("this", "that", "these", "those"))
_ADVERBIAL = frozenset(
    ("in", "on", "over", "through", "around", "round", "across", "along", "under", "inside", "behind")
)
_SIDES = frozenset(("back", "open", "clear", "loose", "straight", "upright", "free", "forward"))


def _compounds(tags: list[str], lower: list[str]) -> Counter[tuple[str, str]]:
    """How often a word that may be a verb follows a noun in places where it must be the head of a name."""
    last = len(tags) - 1
    return Counter(
        (lower[i - 1], lower[i])
        for i, tag in enumerate(tags)
        if i
        and i < last
        and (
            (tag in "vK" and tags[i - 1] in "nHA" and tags[i + 1] not in "DOd") or (tag in "nHv" and tags[i - 1] == "V")
        )
    )


def _decide(tags: list[str], known: Annotations, compounds: frozenset[str]) -> None:
    """Settles the tags that depend on the neighbours, from left to right."""
    size, lower, notes = len(tags), known.lower, bool(known.breaks)
    breaks = known.breaks
    paired = _compounds(tags, lower)
    named = (
        Counter(lower[i] for i, t in enumerate(tags) if t == "V" and i and tags[i - 1] in "VAHnpbro")
        if notes
        else Counter()
    )
    for i, tag in enumerate(tags):
        if tag not in "abprIVvsdgmKEON" and lower[i] != "'s":
            continue
        before = "." if i == 0 or i in breaks else tags[i - 1]
        after = "." if i + 1 >= size or i + 1 in breaks else tags[i + 1]
        if lower[i] == "'s":
            following = tags[i + 1] if i + 1 < size else "."
            tags[i] = (
                "D"
                if following in "nHFvA" and not (following == "A" and i + 2 < size and tags[i + 2] in ".,CTW")
                else "X"
            )
            continue
        if tag == "r":
            if lower[i] == "back" and i + 1 < size and tags[i + 1] in "ODdN" and (i == 0 or tags[i - 1] in ".,CTtIX"):
                tags[i] = "V"  # "back that out a turn"
            elif i + 1 < size and tags[i + 1] in "nHFvKs" and i and tags[i - 1] in "DAQNZ" and lower[i] in _SIDES:
                tags[i] = "A"  # "the back cover"
            continue
        if tag in "ab":  # "clean the cups", "the clean cups"; "open up the jaws", "slide it open"
            verb = (before in ".,CTfXtIR" or (before in "nHFrO" and not notes)) and (
                after in "DdOQN" or (after in "r" and tag == "b")
            )
            tags[i] = "V" if verb else "A" if tag == "a" or (after in "nHFvKs" and before in "DAQNZ") else "r"
            continue
        if tag == "p":
            if lower[i] in _ADVERBIAL and after in ".,CTWXIeSfrp" and before not in "XI":
                tags[i] = "r"  # "going back in"
            continue
        if tag == "I" and before in "pt" and lower[i] in ("you", "mine", "yours"):
            tags[i] = "O"
            continue
        if tag == "V":
            if notes and after in ",r.C" and named[lower[i]] > 1:
                tags[i] = "H"  # "prop off"
            elif lower[i] in ("get", "gets", "got") and after == "E":
                tags[i] = "X"
            elif before == "D" and lower[i - 1] not in ("'s", "all"):
                tags[i] = "n"
            elif (
                not notes
                and before in "C,"
                and after in "nHFvsK"
                and (
                    f"{lower[i]} {lower[i + 1]}" in compounds
                    or paired[lower[i], lower[i + 1]] > 1
                    or tags[i + 2 : i + 3] == ["X"]
                )
            ):
                tags[i] = "n"  # "and drive belt"
            continue
        if tag not in "vsdgmKEON":
            continue
        if (
            tag in "vK"
            and i
            and before in "nHA"
            and (f"{lower[i - 1]} {lower[i]}" in compounds or paired[lower[i - 1], lower[i]])
        ):
            tags[i] = "H" if tag == "v" else "F"
        elif tag == "v":
            tags[i] = _verb_or_noun(before, after, notes)
        elif tag == "s" and before in "nHF" and i >= 2 and tags[i - 2] == "N" and lower[i - 2] not in ("one", "1"):
            tags[i] = "H"  # "four screw caps"
        elif tag == "s":
            verb = before in "W" or (
                before in "nHFO"
                and after in "DrRptO,.CTNd"
                and after not in "n"
                and not (before in "nH" and after in ",.C")
            )
            tags[i] = "S" if verb else "H"
        elif tag == "K":
            tags[i] = _verb_or_noun(before, after, notes)
            if (
                tags[i] == "H"
                or lower[i].endswith("s")
                or (after not in "DdOrQ" and not (notes and before == "." and after in "nHA"))
            ):
                tags[i] = "F"
        elif tag == "d":
            relative = lower[i] == "that" and before in "nHFKvsZOA" and after in "vsVSXREKJ"
            tags[i] = "W" if relative else "D" if after in "HnFvsKAZNQGEg" and after not in "gE" else "O"
        elif tag == "g":
            tags[i] = "G"
        elif tag == "m":
            tags[i] = (
                "A" if (before in "DAdQpo" and after not in ".,") or (after in "HnFN" and before not in ".,TC") else "T"
            )
        elif tag == "E":
            tags[i] = "V" if lower[i] in ("cut", "set", "put", "shut") and before not in "Xn" else "E"
        elif tag == "N" and lower[i] == "one" and (before in "DAd" or (after in "XSWOTI.,C" and before not in "VE")):
            tags[i] = "O" if before in "DAd" else "N"


def _verb_or_noun(before: str, after: str, notes: bool) -> str:
    """Notes leave articles out ("lift board off"); elsewhere a verb is followed by one, or by a particle."""
    if before in "nHFZ" and after in "DO":
        return "V"
    if before in _NOUN_BEFORE or before in "vV":
        return "H"
    if before in "po" and after not in "D":
        return "H"
    if before in "tXIJ":
        return "V"
    if after in "DdONQ" or (after in "r" and before in _VERB_BEFORE) or (after in "AZ" and before in _VERB_BEFORE):
        return "V"
    if before in ".,CTRf-" and after in "HnFgv":
        return "V"
    if before in ".,CTRf-" and after in "p":
        return "V"
    return "H" if before not in ".TC" else "V"
