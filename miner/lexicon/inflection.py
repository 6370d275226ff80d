"""Plural and singular of nouns and the forms of verbs, by rule; what no rule covers is listed here or in the lexicon.

Only the regular spelling of English is known: sibilants take -es, a final -y after a consonant becomes -ie-, a silent
-e goes before -ed and -ing, a single consonant after a single stressed vowel doubles. Stress is not looked up: a word
counts as stressed on its last syllable if it has one syllable once a prefix is off (unclip, refit, degas).
"""

from __future__ import annotations

import re
from functools import lru_cache

from miner.lexicon.entries import Action

VOWELS = "aeiou"
ADVERBS = frozenset("double finger hand spot test".split())
"""First words of compound verbs whose second word inflects: hand tighten, double check."""

IRREGULAR_PLURALS = {
    "half": "halves",
    "shelf": "shelves",
    "knife": "knives",
    "leaf": "leaves",
    "foot": "feet",
    "tooth": "teeth",
    "axis": "axes",
    "axe": "axes",
    "index": "indices",
    "matrix": "matrices",
    "vertex": "vertices",
    "radius": "radii",
    "stylus": "styli",
    "man": "men",
}
UNCHANGED = frozenset(
    "apparatus bellows binoculars brass chassis clevis contents electronics forceps goggles headphones headquarters "
    "means optics pliers scissors series shears snips species tongs tweezers works".split()
)
"""Nouns with one form for both numbers, or used in the plural only."""

_SIBILANT = re.compile(r"(?:s|x|z|ch|sh)$")
_SIBILANT_PLURAL = re.compile(r"(?:ss|x|zz|ch|sh)es$")
_IN_SINGULAR_S = re.compile(r"(?:ss|is|lens|^gas|bias|canvas|[^aeiou][aeiou]\w*us|^bus)$")
_PREFIX = re.compile(r"^(?:un|re|de|dis|pre|over)-?(?=[^aeiou]*[aeiouy])(?=.{3})")
IRREGULAR_VERBS = {
    "be": ("is", "was", "were", "been"),
    "have": ("has", "had"),
    "throw": ("threw", "thrown"),
    "write": ("wrote", "written"),
    "tell": ("told",),
    "fall": ("fell", "fallen"),
    "lose": ("lost",),
    "let": ("let", "letting"),
}
"""Verbs that idioms start with and that are no actions themselves."""

_S_STEMS = {"lenses": "lens", "gases": "gas", "buses": "bus", "biases": "bias", "canvases": "canvas", "irises": "iris"}
_SINGULARS = {plural: singular for singular, plural in reversed(IRREGULAR_PLURALS.items())}
_NEEDS_E = re.compile(r"(?:[cuv]|[^s]s|[^z]z|[^n]g|[aiou]t|[iu]r|[^aeioulr]l|dg)$")
"""Ends of a stem after which -ed has swallowed an -e: "measur(e)", "rotat(e)"."""
_IE_NOUNS = frozenset(("ties", "dies", "pies", "lies"))


@lru_cache(maxsize=8192)
def plural(noun: str) -> str:
    """The plural of a noun or noun phrase; its last word changes ("control board" -> "control boards")."""
    rest, word = _split_last(noun)
    if word in UNCHANGED:
        return noun
    if word in IRREGULAR_PLURALS:
        return rest + IRREGULAR_PLURALS[word]
    return rest + _with_s(word)


@lru_cache(maxsize=8192)
def singular(noun: str) -> str:
    """The singular of a noun or noun phrase; one that is no plural comes back as it is."""
    rest, word = _split_last(noun)
    if (
        word in UNCHANGED
        or word in IRREGULAR_PLURALS
        or len(word) < 3
        or not word.endswith(("s", "feet", "teeth", "men", "ices", "ii", "li"))
    ):
        return noun
    if word in _SINGULARS:
        return rest + _SINGULARS[word]
    if word in _S_STEMS:
        return rest + _S_STEMS[word]
    if not word.endswith("s") or _IN_SINGULAR_S.search(word):
        return noun
    if word.endswith("ies") and word not in _IE_NOUNS:
        return rest + word[:-3] + "y"
    if _SIBILANT_PLURAL.search(word) or (word.endswith("uses") and not word.endswith(("fuses", "ouses"))):
        return rest + word[:-2]
    return rest + word[:-1]


def noun_forms(term: str, irregular: str | None = None) -> tuple[str, ...]:
    """Singular and plural, without doubles; `irregular` is the plural where the rules do not give it."""
    return tuple(dict.fromkeys((term, irregular or plural(term))))


def verb_forms(action: Action) -> dict[str, str]:
    """Each form of an action's verb, and what it is: `base`, `third`, `past` (also participle) or `progressive`.

    Where two are spelt alike ("cut"), the first in that order is given.
    """
    return phrase_forms(action.verb, action.forms)


def phrase_forms(phrase: str, irregular: tuple[str, ...] = ()) -> dict[str, str]:
    """The forms of a verb or verb with particle ("take out": "took out" -> "past"); see `verb_forms`.

    `irregular` are forms of the verb alone: those in -ing and -s replace the regular ones of that kind, the others
    the regular past.
    """
    before, verb, after = _verb_of(phrase)
    given = [("progressive" if f.endswith("ing") else "third" if f.endswith("s") else "past", f) for f in irregular]
    forms: dict[str, str] = {phrase: "base"}
    for kind, regular in (("third", (_with_s(verb),)), ("past", _past(verb)), ("progressive", _progressive(verb))):
        own = tuple(form for its_kind, form in given if its_kind == kind)
        for form in own or regular:
            forms.setdefault(before + form + after, kind)
    return forms


def _verb_of(phrase: str) -> tuple[str, str, str]:
    """A phrase cut into what stands before its verb, the verb and what follows ("hand tighten", "take out")."""
    words = phrase.split()
    if len(words) == 1:
        return "", phrase, ""
    if words[0] in ADVERBS:
        return words[0] + " ", words[1], "".join(" " + word for word in words[2:])
    return "", words[0], " " + " ".join(words[1:])


def _with_s(word: str) -> str:
    if _SIBILANT.search(word) or word.endswith(("do", "go")):
        return word + "es"
    if word.endswith("y") and word[-2:-1] not in tuple(VOWELS):
        return word[:-1] + "ies"
    return word + "s"


def _past(verb: str) -> tuple[str, ...]:
    if verb.endswith("e"):
        return (verb + "d",)
    if verb.endswith("y") and verb[-2:-1] not in tuple(VOWELS):
        return (verb[:-1] + "ied",)
    return tuple(stem + "ed" for stem in _stems(verb))


def base_of(word: str) -> str:
    """The base form of a past or third person that no lexicon lists ("wetted" -> "wet", "siphons" -> "siphon")."""
    if word.endswith("s"):
        return singular(word)
    return _base_of_past(word)


def _base_of_past(word: str) -> str:
    if not word.endswith("ed") or len(word) < 5:
        return word
    plain, undoubled = word[:-2], word[:-3]
    if word.endswith("ied"):
        return word[:-3] + "y"
    if word in _past(undoubled):
        return undoubled
    return plain if word in _past(plain) and not _NEEDS_E.search(plain) else word[:-1]


def _progressive(verb: str) -> tuple[str, ...]:
    if verb.endswith("ie"):
        return (verb[:-2] + "ying",)
    if verb.endswith("e") and not verb.endswith(("ee", "oe", "ye")):
        return (verb[:-1] + "ing",)
    return tuple(stem + "ing" for stem in _stems(verb))


def _stems(verb: str) -> tuple[str, ...]:
    """The verb as it stands before -ed and -ing: doubled, plain, or both where the two Englishes differ (level)."""
    bare = _PREFIX.sub("", verb.replace("qu", "q"))
    closed = re.search(r"(?:^|[^aeiou])[aeiouy][bdfgklmnprstvz]$", bare)
    if not closed:
        return (verb,)
    if len(re.findall(r"[aeiouy]+", bare)) == 1:
        return (verb + verb[-1],)
    return (verb + "l", verb) if verb.endswith("l") else (verb,)


def _split_last(noun: str) -> tuple[str, str]:
    head, blank, last = noun.rpartition(" ")
    return head + blank, last
