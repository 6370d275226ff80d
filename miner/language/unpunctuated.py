"""Where sentences and clauses begin in words without punctuation.

The cuts come from the words of discourse ("okay so", "next", "and then"), from a subject with its verb after a
finished phrase, from a bare imperative, from titles, and from silence. What a writer would set off by a comma, an
explanation or a consequence ("it's a short one", "so take that out"), begins a clause only.
"""

from __future__ import annotations

import re
from collections.abc import Callable

from miner.language.annotations import Annotations
from miner.language.announcements import (
    FINISHED,
    NO_CUT,
    SHORT,
    after_announcement,
    closing,
    cut_before_title,
    forbidding,
    job,
    label,
    lead,
    main,
    next_item,
    numbered,
    refitting,
    set_opening,
    to_fit,
)
from miner.language.discourse import Discourse, after_openers
from miner.language.talk import Cuts, Talk

_SUBJECT = re.compile(
    r"(?:I|e|O)[RJ]*[XSVEI]|I[RT]*[VXEJ]|e[DNQnHFAO]|O[RJT]*[XI]|D?[QNAZnHFGE]*[nHF]R*(?:S(?![nHF])|X[RQ]*[Er])"
)
_JOB_DONE = re.compile(r"O(?:[pOQ]|D[AQ]*[nHFGE]+[Er]|D?[AQ]*n?[oO])")
_STATE = re.compile(r"O(?:C?D?[AQ]*[nHF]+)+r")
_LISTING = re.compile(r"(?:D[AN]*[nH]+){2,}$")

LONG = 10
"""Words after which a sentence rather ends than goes on with another clause."""

_PAUSED = FINISHED | frozenset("T")
_TELLING = frozenset("TRAIeOCGWtDrJ")
"""Tags at which a sentence may begin whatever the word; at other tags only some words begin one."""

_WITHIN = frozenset(("Dn", "DH", "DF", "DA", "DZ", "DN", "VD", "pD", "oD", "tD"))
"""Two tags between which no sentence begins."""

_PRONOUNS = ("i", "you", "we", "they", "he", "she")
_ONWARD = ("first", "next", "now", "second", "third")
_CAN_STAND_FIRST = frozenset("VIOeDGWJQNpt")


def unpunctuated_cuts(known: Annotations, words: Discourse) -> Cuts:
    """The cuts of a text; tags must have been set."""
    tags, pauses, lower = known.tags, known.pauses, known.lower
    openers, job_nouns = words.openers, words.job_nouns
    talk = Talk(tags, lower, words)
    cuts = talk.cuts
    title = _opened(talk, 0, cuts) if len(tags) > 3 else None
    for i in range(1, len(tags) - 2):
        if i - talk.begin < 2 or i <= talk.lead_until or (title is not None and i < title):
            continue
        if i == title or (i in pauses and talk.before(i) in _PAUSED):
            cut = i
        elif lower[i - 1] in job_nouns and tags[i - 2] in "nHAGF" and tags[i] not in "oCXSrp":
            cut_before_title(talk, i, cuts)
            cut = i
        elif (tags[i] not in _TELLING and lower[i] not in openers) or tags[i - 1 : i + 1] in _WITHIN:
            continue
        else:
            cut = _cut(talk, i, talk.before(i))
            if cut < 0 and _ends_before(talk, i):
                cut = -cut
        if cut > 0:
            cuts.sentences.append(cut)
            talk.begin, talk.led = cut, False
            title = _opened(talk, cut, cuts)
        elif cut < 0:
            cuts.clauses.append(-cut)
            _opened(talk, -cut, cuts)
    return cuts


def _ends_before(talk: Talk, i: int) -> bool:
    """Whether a sentence rather ends than goes on with another clause: a long one, or an announcement."""
    if talk.led_in():
        return False
    words, lower = talk.words, talk.lower
    if lower[i] == "so":
        if lower[i + 1] in words.guarding or talk.tags[i + 1] == "J" or lower[i + 2] == "your":
            return False
        if talk.tags[talk.begin] == "T" and not words.item_order.isdisjoint(lower[talk.begin : i]):
            return True
    return i - talk.begin >= LONG and not (talk.tags[i] in "OI" and "Z" in talk.tags[i : i + 4])


def _opened(talk: Talk, at: int, cuts: Cuts) -> int | None:
    """Notes the verb that opens a sentence or clause; after "section four" tells where the title ends."""
    core = after_openers(talk.tags, at)
    if core >= len(talk.tags) - 3:
        return None
    if talk.instructs(core):
        cuts.verbs.append(core)
    if not numbered(talk, core):
        return None
    title = talk.title_end(core + 2)
    if title and talk.tags[core + 2] != "V":
        cuts.sentences.append(core + 2)
    return title


def _cut(talk: Talk, i: int, before: str) -> int:
    """Where a sentence, or with a minus a clause, begins at or just before a token, as the first rule that tells."""
    for rule in _RULES.get(talk.tags[i], _ANYWHERE):
        verdict = rule(talk, i, before)
        if verdict is not None:
            return verdict
    return NO_CUT


def _starter(talk: Talk, i: int, before: str) -> int | None:
    """A word that opens ("okay", "so", "next"), with the "and" before them."""
    word, words, following = talk.lower[i], talk.words, talk.lower[i + 1]
    if word not in words.starters:
        return i if word in _ONWARD and before in FINISHED and talk.instructs(i + 1) else None
    if word == "so":
        return _so(talk, i, before)
    announced = before == "p" and following in words.contractions and talk.tags[i + 1] == "I"
    goes_on = (before in "DXpotWI" and not announced) or (before == "T" and talk.lower[i - 1] in words.starters)
    if goes_on or (before == "C" and i - 1 == talk.begin) or following == "to":
        return NO_CUT
    if word in words.soft_starters and not _soft_opens(talk, i):
        return NO_CUT
    return i - 1 if before == "C" else i


def _so(talk: Talk, i: int, before: str) -> int:
    """A new turn of the talk ("so the job now is ..."), a consequence ("so take that out"), or neither ("so that")."""
    after, following = talk.tags[i + 1], talk.lower[i + 1]
    if following in ("that", "far", "much", "long") and after != "O":
        return NO_CUT
    if after == "t" and talk.lower[i + 2] in ("begin", "start"):
        return i
    if after == "e" or (after == "I" and following in talk.words.contractions) or following in _ONWARD or before == "W":
        return i if before not in "TC" or following == "first" else NO_CUT
    if before in "DXpotWIC" or (before == "T" and talk.lower[i - 1] not in ("first", "again", "too")):
        return NO_CUT
    if after in "GpT" or (after == "D" and talk.lower[i + 2] in talk.words.items):
        return i
    return -i if after in "VJDOQNIW" or talk.instructs(i + 1) else NO_CUT


def _soft_opens(talk: Talk, i: int) -> bool:
    """A word like "right" or "now" opens an utterance only where something follows that can stand first."""
    first = after_openers(talk.tags, i)
    if talk.tags[i + 1] == "C" or first >= len(talk.tags):
        return False
    if talk.instructs(first):
        return True
    return talk.tags[first] in _CAN_STAND_FIRST and not (talk.lower[i] == "right" and talk.tags[first] in "Wpt")


def _subject(talk: Talk, i: int, before: str) -> int | None:
    """A subject with its verb after a finished phrase."""
    word, words = talk.lower[i], talk.words
    if before == "T" and talk.lower[i - 1] in ("again", "too"):
        return i if word in words.contractions else None
    if before not in FINISHED:
        return None
    opens = word in words.contractions or word in _PRONOUNS or _SUBJECT.match(talk.tags, i)
    if not opens or talk.subordinate(i):
        return NO_CUT
    if not _tells_anew(talk, i) or (i - talk.begin < SHORT and talk.cautious()):
        return -i
    return main(talk, i)


def _tells_anew(talk: Talk, i: int) -> bool:
    """Whether a subject begins more than an explanation of what was said before."""
    word, tag, words = talk.lower[i], talk.tags[i], talk.words
    if word.endswith("'ve"):
        return True
    if word.startswith(("you", "they")):
        return not words.demands.isdisjoint(talk.lower[i + 1 : i + 3])
    if tag == "I":
        return word in words.contractions or not words.demands.isdisjoint(talk.lower[i + 1 : i + 3])
    if word == "that's":
        return bool(_JOB_DONE.match(talk.tags, i))
    if word == "it's":
        return bool(_STATE.match(talk.tags, i))
    return tag == "e" or word in ("it", "this", "nothing", "everything", "here's")


def _after_and(talk: Talk, i: int, before: str) -> int | None:
    """The word "and" before what closes a job or asks for one: "and that's the pump done", "and you want ..."."""
    tags, lower, words = talk.tags, talk.lower, talk.words
    if lower[i] not in ("and", "but") or before not in FINISHED or tags[i + 1] not in "IOeT":
        return None
    first = after_openers(tags, i)
    if first >= len(tags) - 2:
        return None
    if tags[first] == "e" and i - talk.begin >= SHORT:
        return i
    if lower[first].startswith("you") and not words.demands.isdisjoint(lower[first + 1 : first + 3]):
        return i
    done = (lower[first] == "that's" and _JOB_DONE.match(tags, first)) or lower[first : first + 2] == ["there", "you"]
    return i if done else None


def _told_and(talk: Talk, i: int, before: str) -> int | None:
    """The word "and" with a sentence of its own, after one that tells how things are or forbids something."""
    tags = talk.tags
    if talk.lower[i] not in ("and", "but") or before not in FINISHED:
        return None
    first = after_openers(tags, i)
    if talk.instructs(first):
        if not talk.words.chances.isdisjoint(talk.lower[max(talk.begin, i - SHORT) : i]):
            return None
        core = after_openers(tags, talk.begin)
        told = core < i and (tags[core] in "IeOJ" or (tags[core] in "DnHAQN" and "X" in tags[core:i]))
        return (i if i - talk.begin > SHORT and tags[core] in "IeOJ" else -i) if told else None
    if tags[i + 1] not in "DIeOTR" or _LISTING.search(tags, max(i - 12, 0), i):
        return None
    opens = _SUBJECT.match(tags, first)
    if opens and tags[first] == "D" and not talk.words.chances.isdisjoint(talk.lower[first + 1 : opens.end() + 1]):
        return i
    return -i if opens or talk.lower[first] in talk.words.contractions else None


def _instruction(talk: Talk, i: int, before: str) -> int | None:
    """A verb with its object after a finished phrase, unless it hangs on something before it."""
    if not talk.opens_instruction(i):
        return None
    begin = i - 1 if before == "R" and talk.lower[i - 1] in ("just", "simply") and i - 1 > talk.begin + 1 else i
    return main(talk, begin)


def _open(talk: Talk, i: int, before: str) -> int | None:
    """A particle that is a verb here: "the tank | open the flap", "the cap | back off the three screws"."""
    back = talk.lower[i] == "back"
    if before not in "nHF" or (talk.tags[i + 1] != "D" if not back else talk.tags[i + 1] != "r"):
        return None
    return _instruction(talk, i, before) if not back or talk.tags[i + 3] == "N" else None


def _statement(talk: Talk, i: int, before: str) -> int | None:
    """A definite noun with its verb after a finished phrase, or after "before starting"."""
    last, words = talk.lower[i - 1], talk.words
    if before not in FINISHED and last not in words.before_work:
        return None
    if i < talk.held or last == "that" or last in words.signals:
        return None
    if last in words.reporting or last in words.contractions:
        return None
    talk.held = talk.states(i)
    if not talk.held:
        return None
    return -i if i - talk.begin < SHORT and talk.cautious() else main(talk, i)


_Rule = Callable[[Talk, int, str], int | None]
_ANYWHERE: tuple[_Rule, ...] = (set_opening, label)
_WORD: tuple[_Rule, ...] = (label, _instruction, refitting)
_RULES: dict[str, tuple[_Rule, ...]] = {
    "T": (_starter, set_opening, label),
    "R": (_starter, set_opening),
    "A": (_starter, set_opening, label, _instruction, after_announcement),
    "I": (_subject, set_opening),
    "e": (_subject, set_opening),
    "O": (closing, _subject, set_opening),
    "C": (_after_and, _told_and),
    "V": _WORD,
    "n": _WORD,
    "H": _WORD,
    "F": _WORD,
    "X": (refitting, _instruction),
    "G": (label, refitting, job),
    "W": (closing, lead),
    "t": (to_fit,),
    "D": (next_item, after_announcement, _statement),
    "r": (_open,),
    "J": (forbidding,),
}
"""The rules for a token of each tag: where a sentence begins, 0 for nowhere, None for no opinion."""
