"""A word-class tag of one letter for every token; the other components find phrases as patterns over the tag string.

D article, possessive, demonstrative before a noun      Q quantifier           N number
Z size, length or drive       F fastener noun           H head noun of a part  n other noun
A adjective, ordinal, colour  V verb of the trade       S its third person     G its progressive
E its past or participle      p preposition             o "of"                 t "to"
r particle or direction       C "and", "or"             , comma                . end of a sentence
I subject pronoun             O object pronoun          X auxiliary            e "there"
W subordinator                T marker ("so", "next")   f filler               R adverb
J negation                    - dash                    x other sign
"""

from __future__ import annotations

import re
from collections.abc import Callable

from miner.language.annotations import Annotations
from miner.language.settler import END, Settler
from miner.language.tag_table import tag_table
from miner.lexicon import Lexicon
from miner.lexicon.inflection import singular

_SIGNS = {",": ",", ".": ".", "?": ".", "!": ".", ";": ".", ":": ".", "-": "-", "–": "-", "—": "-", "(": "x", ")": "x",
          "/": "C", "&": "C", "+": "C", "…": ".", "!!": ".", "->": "-"}  # fmt: skip
_VERB_BEFORE = frozenset(".CTtXIRfJ-")
_NOUN_BEFORE = frozenset("DAHnZFNQGovV")
_STARTS_OBJECT = frozenset("DdONQ")
_PAIR = re.compile(r"(?:^|[.,WT])D[AHnQNZ]+CD[AHnQNZ]+$")
_PARTICIPLE = re.compile(r".{3}(?:ed|wn|ung|ought|oken|itten)$")
_WITH_PARTICLE = {"have": ("off", "out"), "do": ("up",)}
"""Auxiliaries that are verbs with a particle."""
_APART = 8
"""Tokens in which that particle follows."""
_PAIR_REACH = 14
"""Tokens in which two names that are a subject are looked for."""


def tags_in(known: Annotations, lexicon: Lexicon) -> str:
    """The tag string, one letter a token; numbers and measures must have been found before."""
    table = tag_table(lexicon)
    of_word = table.tags.get
    tags = [of_word(word) or _by_shape(word) for word in known.lower]
    for number in known.numbers:
        tags[number.start : number.end] = "N" * (number.end - number.start)
    for measure in known.measures:
        tags[measure.start : measure.end] = "Z" * (measure.end - measure.start)
    settler = Settler(known, tags, table)
    for i, tag in enumerate(tags):
        settle = _RULES.get(tag) if known.lower[i] != "'s" else _possessive
        if settle:
            tags[i] = settle(settler, i, settler.before(i), settler.after(i))
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


def _possessive(s: Settler, i: int, before: str, after: str) -> str:
    """Whose, or "is": "the pump's cover", "the cover's off"."""
    following = s.tag(i + 1) or END
    if following == "A" and s.tag(i + 2) in tuple(".,CTW"):
        return "X"
    return "D" if following in "nHFvA" else "X"


def _particle(s: Settler, i: int, before: str, after: str) -> str:
    following = s.tag(i + 1)
    if s.lower[i] == "back" and following in tuple("ODdN") and (i == 0 or s.tags[i - 1] in ".,CTtIX"):
        return "V"  # "back that out a turn"
    if following in tuple("nHFvKs") and i and s.tags[i - 1] in "DAQNZ" and s.lower[i] in s.table.attributive:
        return "A"  # "the back cover"
    return "r"


def _adjective_or_verb(s: Settler, i: int, before: str, after: str) -> str:
    """A verb in "clean the cups", an adjective in "the clean cups"."""
    return "V" if after in "DdOQN" and _verb_fits(s, before) else "A"


def _particle_or_verb(s: Settler, i: int, before: str, after: str) -> str:
    """A verb in "open up the jaws", a particle in "slide it open", an adjective in "the open end"."""
    if after in "DdOQNr" and _verb_fits(s, before):
        return "V"
    return "A" if after in "nHFvKs" and before in "DAQNZ" else "r"


def _verb_fits(s: Settler, before: str) -> bool:
    return before in ".,CTfXtIR" or (before in "nHFrO" and not s.notes)


def _preposition(s: Settler, i: int, before: str, after: str) -> str:
    ends = after in ".,CTWXIeSfrp" and before not in "XI"
    return "r" if ends and s.lower[i] in s.table.adverbial else "p"  # "going back in"


def _subject(s: Settler, i: int, before: str, after: str) -> str:
    return "O" if before in "pt" and s.lower[i] in ("you", "mine", "yours") else "I"


def _verb(s: Settler, i: int, before: str, after: str) -> str:
    word = s.lower[i]
    if s.notes and after in ",r.C" and s.named[word] > 1:
        return "H"  # "prop off"
    if after == "E" and word in ("get", "gets", "got"):
        return "X"
    if _is_named(s, i):
        return "H"
    if before == "D" and s.lower[i - 1] not in ("'s", "all"):
        return "n"
    if not s.notes and before in "C," and after in "nHFvsK":
        named = s.is_compound(i) or s.paired[word, s.lower[i + 1]] > 1 or s.tag(i + 2) == "X"
        return "n" if named else "V"  # "and drive belt"
    return "V"


def _ends_name(s: Settler, i: int, before: str) -> bool:
    """Whether a word that may be a verb is the last of a name: "control switch"."""
    return i > 0 and before in "nHA" and (s.is_compound(i - 1) or s.paired[s.lower[i - 1], s.lower[i]] > 0)


def _is_named(s: Settler, i: int) -> bool:
    """Whether only a name can stand here ("need prop off"), or the lexicon knows one in notes ("drive belt off")."""
    if s.notes and i + 1 < s.size and i + 1 not in s.breaks and s.is_compound(i):
        return True
    return i > 0 and i not in s.breaks and s.lower[i - 1] in s.table.wanting


def _comes_off(s: Settler, i: int) -> bool:
    """Whether a note says no more than that a part is off or out: "clip off", "pump out"."""
    ends = i + 2 >= s.size or i + 2 in s.breaks or s.tags[i + 2] in ".,C-"
    return s.notes and s.lower[i + 1 : i + 2] in (["off"], ["out"], ["away"]) and i + 1 not in s.breaks and ends


def _verb_or_noun(s: Settler, i: int, before: str, after: str) -> str:
    alone = after == "." or (after in "Tm" and s.tag(i + 2) in tuple(".,"))
    if _is_named(s, i) or (before in ".T" and alone) or (before == END and _comes_off(s, i)):
        return "H"  # "Pump.", "Seat first, ..."
    if before == "O" and after in "rp" and s.lower[i - 1] in ("ones", "both"):
        return "V"  # "new ones slide in"
    if not _ends_name(s, i, before) and after in "rR" and before in "nHF" and i and _is_plural(s.lower[i - 1]):
        return "V"  # "the covers slide out"
    if after in "nHprRD" and before in "nH" and not s.notes and not s.is_compound(i - 1) and _after_pair(s, i):
        return "V"  # "the cover and the tray slide together"
    return "H" if _ends_name(s, i, before) else _by_neighbours(before, after, notes=s.notes)


def _after_pair(s: Settler, i: int) -> bool:
    """Whether two names that begin a clause stand before a token: the subject of what they do together."""
    return _PAIR.search("".join(s.tags[max(0, i - _PAIR_REACH) : i])) is not None


def _verb_or_fastener(s: Settler, i: int, before: str, after: str) -> str:
    """A verb in "bolt the rail down", a fastener in "the bolt"; in notes a verb also in "clip cover on"."""
    if _ends_name(s, i, before) or s.lower[i].endswith("s") or (before == END and _comes_off(s, i)):
        return "F"
    if before in "tXI" or (after in "pr" and not s.notes and before in ".,CTR" and s.tag(i + 2) in _STARTS_OBJECT):
        return "V"  # "to fit", "screw in the new plug"
    if _by_neighbours(before, after, notes=s.notes) == "H":
        return "F"
    return "V" if after in "DdOrQ" or (s.notes and before == END and after in "nHA") else "F"


def _third(s: Settler, i: int, before: str, after: str) -> str:
    """A third person that is no noun; in notes that report what somebody does, told like an instruction."""
    return "V" if s.reports and before in ".C," and after in "DdONQnHvsKFArO" else "S"


def _third_or_plural(s: Settler, i: int, before: str, after: str) -> str:
    if before in "nHF" and i >= 2 and s.tags[i - 2] == "N" and s.lower[i - 2] not in ("one", "1"):
        return "H"  # "four screw caps"
    if before == "W":
        return "S"
    if s.reports and before in ".," and after in "DdONQnHvsKFArO" and s.lower[i].endswith("s"):
        return "V"  # "slides the lid back"
    if s.reports and before == "C" and after in "DdONO":
        return "V"  # "... and lifts it off"
    if before == "R":
        before = s.tag(i - 2) or END  # "the strap just lifts off"
    if _is_object(s, i) or (s.notes and after in "CX"):
        return "H"  # "lift both covers off"
    verb = before in "nHFO" and after in "DrRptO,.CTNdm" and not (before in "nH" and after in ",.C")
    return "S" if verb else "H"


def _is_object(s: Settler, i: int) -> bool:
    """Whether the words before a token are a name that an instruction works on."""
    at = i - 1
    while at >= 0 and at not in s.breaks and s.tags[at] in "nHFAZQND":
        at -= 1
    return 0 <= at < i - 1 and s.tags[at] == "V" and i - 1 not in s.breaks and at + 1 not in s.breaks


def _demonstrative(s: Settler, i: int, before: str, after: str) -> str:
    if s.lower[i] == "that" and before in "nHFKvsZOA" and after in "vsVSXREKJ":
        return "W"
    return "D" if after in "HnFvsKAZNQG" else "O"


def _progressive(s: Settler, i: int, before: str, after: str) -> str:
    """The name of a part in "slide the coupling back", a progressive in "coupling the hose"."""
    return "H" if s.lower[i] in s.table.heads and after not in "DdONQ" else "G"


def _marker_or_adjective(s: Settler, i: int, before: str, after: str) -> str:
    if before == "X" and _PARTICIPLE.search(s.lower[i + 1] if i + 1 < s.size else ""):
        return "T"  # "is first slackened"
    qualifies = (before in "DAdQpo" and after not in ".,") or (after in "HnFN" and before not in ".,TC")
    return "A" if qualifies else "T"


def _past(s: Settler, i: int, before: str, after: str) -> str:
    if before not in "Xn" and s.lower[i] in s.table.unchanging:
        return "V"
    return "V" if s.notes and _reports(s, i, before, after) else "E"


def _reports(s: Settler, i: int, before: str, after: str) -> bool:
    """Whether a note tells in the past what was done: "removed three bolts, lifted the lid off"."""
    if before in ".C," and after in "DdONQr":
        return True
    if before == "C" and after in "nHFAvKsZp" and s.reports and s.tag(i - 2) in "rnHFAO":
        return True
    opens = before == END or s.lower[i - 1] == ":"
    return opens and after in "nHFAvKsZp" and s.reports


def _unknown(s: Settler, i: int, before: str, after: str) -> str:
    """A word that the lexicon does not know is a verb where an instruction begins: "swaddle the gauge"."""
    if s.reports and before == END and s.lower[i].endswith(("s", "ed")) and after in "DdONQnHvsKFA":
        return "V" if s.lower[i] not in s.table.tags and singular(s.lower[i]) not in s.table.tags else "n"
    if _PARTICIPLE.search(s.lower[i]) and s.lower[i] not in s.table.tags and "X" in (before, s.tag(i - 2)):
        return "E"  # "the pins are swaged"
    if s.notes and before in "nHF" and s.lower[i].endswith("ed") and s.lower[i] not in s.table.tags:
        return "E"  # "fitter called away"
    opens = before in ".T" or (before in ",C" and s.tag(i - 2) in "nHrFR")
    return "V" if opens and after in "DdO" and s.lower[i] not in s.table.tags and s.lower[i].isalpha() else "n"


def _auxiliary(s: Settler, i: int, before: str, after: str) -> str:
    """A verb in "I'll have that off", "do the four screws up", an auxiliary elsewhere."""
    particles = _WITH_PARTICLE.get(s.lower[i], ())
    opens = before in "IT" if s.lower[i] == "have" else before in ".,TCt"
    if not particles or not opens or after not in "dODNQ":
        return "X"
    end = i + 1 if s.lower[i + 1] in particles else i + 2
    while end < min(i + _APART, s.size) and s.tags[end] in "DdONQAZnHvFKE":
        end += 1
    return "V" if s.lower[end : end + 1] and s.lower[end] in particles else "X"


def _number(s: Settler, i: int, before: str, after: str) -> str:
    return "O" if before in "DAd" and s.lower[i] == "one" else "N"


_RULES: dict[str, Callable[[Settler, int, str, str], str]] = {
    "r": _particle, "a": _adjective_or_verb, "b": _particle_or_verb, "p": _preposition, "I": _subject, "V": _verb,
    "v": _verb_or_noun, "K": _verb_or_fastener, "s": _third_or_plural, "d": _demonstrative, "g": _progressive,
    "m": _marker_or_adjective, "E": _past, "N": _number, "n": _unknown,
    "X": _auxiliary, "S": _third,
}  # fmt: skip
"""How each open tag is settled, from the tags before and after it."""


def _is_plural(word: str) -> bool:
    return singular(word) != word


def _by_neighbours(before: str, after: str, *, notes: bool) -> str:
    """Verb or noun; notes leave articles out ("lift board off"), elsewhere one or a particle follows a verb."""
    if before in "nHFZ" and after in "DO":
        return "V"
    if before in _NOUN_BEFORE or (before in "po" and after != "D"):
        return "H"
    if before in "tXIJ" or after in _STARTS_OBJECT:
        return "V"
    if before in _VERB_BEFORE and after in "rAZ":
        return "V"
    if before in _VERB_BEFORE and after == "p":
        return "V"
    if before in _VERB_BEFORE and after in "HnFgvsK":
        return "V" if notes and before != "," else "H"  # "pump replacement"
    return "V" if before in ".TC" else "H"
