"""Where sentences and clauses begin in words without punctuation.

The cuts come from the words of discourse ("okay so", "next", "and then"), from a subject with its verb after a
finished phrase, from a bare imperative, from titles, and from silence. What a writer would set off by a comma, an
explanation or a consequence ("it's a short one", "so take that out"), begins a clause only.
"""

from __future__ import annotations

import re
from collections.abc import Callable

from miner.language.annotations import Annotations
from miner.language.discourse import Discourse, after_openers
from miner.language.talk import Cuts, Talk

_SUBJECT = re.compile(
    r"(?:I|e|O)[RJ]*[XSVEI]|I[RT]*[VXEJ]|e[DNQnHFAO]|O[RJT]*[XI]|D?[QNAZnHFGE]*[nHF]R*(?:S(?![nHF])|X[RQ]*[Er])"
)
_PUT_BACK = re.compile(r"when (?:it|that|this|they|you|the \w+) (?:goes|go|put|fit|refit|install|come)")
_JOB_DONE = re.compile(r"O(?:[pOQ]|D[AQ]*[nHFGE]+[Er]|D?[AQ]*n?[oO])")
_STATE = re.compile(r"O(?:C?D?[AQ]*[nHF]+)+r")
_TO_FIT = re.compile(r"t[VSnH][rR]*(?:O|D?[AQNZ]*[nHF]+)?[rR]*")
_LISTING = re.compile(r"(?:D[AN]*[nH]+){2,}$")
_ANNOUNCED = re.compile(r"T+D?[AQ]*[nH]{1,4}")
_GOING_BACK = re.compile(r"G(?:O|D[AQNZ]*[nHF]+)?[rpR]+(?:X|O[RDn])")
_FINISHED = frozenset("nHFrRONZASEQ")
"""Tags after which a phrase may be finished."""

LONG = 10
"""Words after which a sentence rather ends than goes on with another clause."""

SHORT = 6
"""Words with which something has been said."""

_PAUSED = _FINISHED | frozenset("T")
_AFTER_NEXT = ("up", "is", "thing", "one", "job", "comes")
_SAME = ("story", "deal", "again", "drill")
_POINTING = ("this", "that", "these")
_IF = ("it", "you", "yours", "there's", "they", "you've", "the")
_PRONOUNS = ("i", "you", "we", "they", "he", "she")
_ONWARD = ("first", "next", "now", "second", "third")
_CAN_STAND_FIRST = frozenset("VIOeDGWJQNpt")
_NO_CUT = 0


def unpunctuated_cuts(known: Annotations, words: Discourse) -> Cuts:
    """The cuts of a text; tags must have been set."""
    tags, pauses = known.tags, known.pauses
    talk = Talk(tags, known.lower, words)
    cuts = talk.cuts
    title = _opened(talk, 0, cuts) if len(tags) > 3 else None
    for i in range(1, len(tags) - 2):
        if i - talk.begin < 2 or i <= talk.lead_until or (title is not None and i < title):
            continue
        before = talk.before(i)
        if i == title or (i in pauses and before in _PAUSED):
            cut = i
        elif talk.lower[i - 1] in words.job_nouns and tags[i - 2] in "nHAGF" and tags[i] not in "oCXSrp":
            _cut_before_title(talk, i, cuts)
            cut = i
        else:
            cut = _cut(talk, i, before)
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
    if not _numbered(talk, core):
        return None
    title = talk.title_end(core + 2)
    if title and talk.tags[core + 2] != "V":
        cuts.sentences.append(core + 2)
    return title


def _numbered(talk: Talk, i: int) -> bool:
    """Whether "section four" or "job b" stands at a token."""
    if talk.lower[i] not in talk.words.numbered:
        return False
    after, tag = talk.lower[i + 1], talk.tags[i + 1]
    if tag == "N":
        return after not in ("of", "off")
    return len(after) == 1 and talk.tags[i + 2] in ("G" if after == "a" else "GnHAV")


def _cut_before_title(talk: Talk, end: int, cuts: Cuts) -> None:
    """Cuts before a title that has no article, "rear cover replacement", where an adjective or a phrase tells where."""
    tags, at = talk.tags, end - 2
    while at > talk.begin + 2 and tags[at - 1] in "nHFG" and tags[at] != "A":
        at -= 1
    if at > talk.begin + 2 and tags[at - 1] in "A":
        at -= 1
    if at > talk.begin + 2 and tags[at - 1] in "rORSEnHF" and (tags[at] == "A" or tags[at - 1] not in "nHF"):
        cuts.sentences.append(at)


def _cut(talk: Talk, i: int, before: str) -> int:
    """Where a sentence, or with a minus a clause, begins at or just before a token, as the first rule that tells."""
    for rule in _RULES.get(talk.tags[i], _ANYWHERE):
        verdict = rule(talk, i, before)
        if verdict is not None:
            return verdict
    return _NO_CUT


def _main(talk: Talk, i: int) -> int:
    """The beginning of what may be the main clause after a lead ("if it rubs, loosen ...") or a call for care."""
    if talk.led_in() or (i - talk.begin < SHORT and talk.cautious()):
        talk.led = True
        return -i
    return i


def _starter(talk: Talk, i: int, before: str) -> int | None:
    """A word that opens ("okay", "so", "next"), with the "and" before them."""
    word, words, following = talk.lower[i], talk.words, talk.lower[i + 1]
    if word not in words.starters:
        return i if word in _ONWARD and before in _FINISHED and talk.instructs(i + 1) else None
    if word == "so":
        return _so(talk, i, before)
    announced = before == "p" and following in words.contractions and talk.tags[i + 1] == "I"
    goes_on = (before in "DXpotWI" and not announced) or (before == "T" and talk.lower[i - 1] in words.starters)
    if goes_on or (before == "C" and i - 1 == talk.begin) or following == "to":
        return _NO_CUT
    if word in words.soft_starters and not _soft_opens(talk, i):
        return _NO_CUT
    return i - 1 if before == "C" else i


def _so(talk: Talk, i: int, before: str) -> int:
    """A new turn of the talk ("so the job now is ..."), a consequence ("so take that out"), or neither ("so that")."""
    after, following = talk.tags[i + 1], talk.lower[i + 1]
    if following in ("that", "far", "much", "long") and after != "O":
        return _NO_CUT
    if after == "t" and talk.lower[i + 2] in ("begin", "start"):
        return i
    if after == "e" or (after == "I" and following in talk.words.contractions) or following in _ONWARD or before == "W":
        return i if before not in "TC" or following == "first" else _NO_CUT
    if before in "DXpotWIC" or (before == "T" and talk.lower[i - 1] not in ("first", "again", "too")):
        return _NO_CUT
    if after in "GpT" or (after == "D" and talk.lower[i + 2] in talk.words.items):
        return i
    return -i if after in "VJDOQNIW" or talk.instructs(i + 1) else _NO_CUT


def _soft_opens(talk: Talk, i: int) -> bool:
    """A word like "right" or "now" opens an utterance only where something follows that can stand first."""
    first = after_openers(talk.tags, i)
    if talk.tags[i + 1] == "C" or first >= len(talk.tags):
        return False
    if talk.instructs(first):
        return True
    return talk.tags[first] in _CAN_STAND_FIRST and not (talk.lower[i] == "right" and talk.tags[first] in "Wpt")


def _closing(talk: Talk, i: int, before: str) -> int | None:
    """The end of a job: "that completes the pump"."""
    return i if talk.lower[i] in ("that", "this") and talk.lower[i + 1] in talk.words.closing else None


def _subject(talk: Talk, i: int, before: str) -> int | None:
    """A subject with its verb after a finished phrase."""
    word, words = talk.lower[i], talk.words
    if before == "T" and talk.lower[i - 1] in ("again", "too"):
        return i if word in words.contractions else None
    if before not in _FINISHED:
        return None
    opens = word in words.contractions or word in _PRONOUNS or _SUBJECT.match(talk.tags, i)
    if not opens or _relative(talk, i):
        return _NO_CUT
    return _main(talk, i) if _tells_anew(talk, i) else -i


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


def _relative(talk: Talk, i: int) -> bool:
    """A subject inside a relative or reported clause: "the one you took out", "see where it goes"."""
    tags, word, words = talk.tags, talk.lower[i], talk.words
    before = tags[i - 1]
    if before in "WV" or (before == "X" and word not in words.contractions) or talk.lower[i - 1] in words.reporting:
        return True
    if talk.lower[i - 2] == "how" or word in ("one", "ones"):
        return True
    if word == "there" and before in "rp" and tags[i + 1] != "X":
        return True  # "in there"
    if tags[i] == "I" and word in ("you", "we", "i", "they", "you've", "we've") and "W" in tags[max(i - 4, 0) : i]:
        return True
    return tags[i] == "O" and before in "VpotGE"


def _after_and(talk: Talk, i: int, before: str) -> int | None:
    """The word "and" before what closes a job or asks for one: "and that's the pump done", "and you want ..."."""
    tags, lower, words = talk.tags, talk.lower, talk.words
    if lower[i] not in ("and", "but") or before not in _FINISHED or tags[i + 1] not in "IOeT":
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
    if talk.lower[i] not in ("and", "but") or before not in _FINISHED:
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
    return _main(talk, begin)


def _open(talk: Talk, i: int, before: str) -> int | None:
    """A particle that is a verb here: "the tank | open the flap", "the cap | back off the three screws"."""
    back = talk.lower[i] == "back"
    if before not in "nHF" or (talk.tags[i + 1] != "D" if not back else talk.tags[i + 1] not in "r"):
        return None
    return _instruction(talk, i, before) if not back or talk.tags[i + 3] == "N" else None


def _statement(talk: Talk, i: int, before: str) -> int | None:
    """A definite noun with its verb after a finished phrase."""
    if before not in _FINISHED or talk.lower[i - 1] in talk.words.reporting | talk.words.signals:
        return None
    if i < talk.held or talk.lower[i - 1] == "that" or talk.lower[i - 1] in talk.words.contractions:
        return None
    talk.held = talk.states(i)
    return _main(talk, i) if talk.held else None


def _refitting(talk: Talk, i: int, before: str) -> int | None:
    """The way back, told without an article: "installation is the reverse of removal", "putting it back is ..."."""
    if before not in _FINISHED and before != "C":
        return None
    told = talk.lower[i] in talk.words.refitting and talk.tags[i + 1] in "XS"
    if talk.lower[i] == "going":
        told = talk.lower[i + 1] == "back"
    if told or (talk.tags[i] == "G" and _GOING_BACK.match(talk.tags, i) and "back" in talk.lower[i + 1 : i + 6]):
        return i - 1 if before == "C" else i
    return None


def _job(talk: Talk, i: int, before: str) -> int | None:
    """The job after a word that announces it: "next one is the saddle | getting the saddle off"."""
    brief = i - talk.begin <= SHORT and talk.tags[talk.begin] == "T" and before in "nHA"
    return i if brief and talk.tags[i + 1] == "D" and "e" not in talk.tags[talk.begin : i] else None


def _lead(talk: Talk, i: int, before: str) -> int | None:
    """A lead with its main clause after it: "if it rubs loosen ...", "before starting the lid must be off"."""
    lower, words, tags = talk.lower, talk.words, talk.tags
    word, following = lower[i], lower[i + 1]
    if before not in _FINISHED | {"C"} or talk.led_in() or lower[i - 1] in words.reporting:
        return None
    if word == "when" and _PUT_BACK.match(" ".join(lower[i : i + 4])):
        return i - 1 if before == "C" else i
    if before == "C":
        return None
    if word == "if" and following in _IF:
        return i
    if not (
        word in words.leading
        or (word == "before" and following in words.before_work)
        or (word == "after" and following in words.refitting | words.job_nouns)
    ):
        return None
    for at in range(i + 2, min(i + 11, len(tags) - 2)):
        if tags[at] in "CWT":
            break
        if (at > i + 2 or word == "after") and (talk.opens_instruction(at) or (tags[at] == "D" and talk.states(at))):
            return i
    return i if word == "before" else None


def _set_opening(talk: Talk, i: int, before: str) -> int | None:
    """Set beginnings: "next up", "same again", "for this you need ..."."""
    word, following = talk.lower[i], talk.lower[i + 1]
    if word == "for" and following in _POINTING and (before in _FINISHED or before == "C"):
        core = after_openers(talk.tags, talk.begin)
        if (
            before == "r"
            and talk.tags[core] == "I"
            and not talk.words.demands.isdisjoint(talk.lower[core + 1 : core + 3])
        ):
            return None  # "you want the lid off for this"
        at = i + 3 if talk.lower[i + 2] in talk.words.items else i + 2
        told = talk.tags[at : at + 1] in ("I", "O", "e") or (talk.tags[at : at + 1] == "D" and talk.states(at))
        return (i - 1 if before == "C" else i) if told else None
    if word == "next":
        return i if following in _AFTER_NEXT and before not in "DTC" else None
    return i if word == "same" and following in _SAME and before in _FINISHED else None


def _label(talk: Talk, i: int, before: str) -> int | None:
    """A word that announces: "section four", "warning the edge ...", "be careful", "to install the pump push ..."."""
    word, words = talk.lower[i], talk.words
    if word in words.signals and talk.lower[i - 1] == "be":
        return _main(talk, i - 1) if i - 2 > talk.begin else _NO_CUT
    if word == "heads" and talk.lower[i + 1] == "up":
        return i - 1 if before == "C" else i
    if before in "DAdpoW" and talk.lower[i - 1] not in ("first", "last", "only"):
        return None
    if word in words.numbered and _numbered(talk, i):
        return i
    if word in words.signals and talk.tags[i + 1] not in "orX":
        return i
    if word in ("required", "needed") and talk.lower[i + 1] in ("beforehand", "first"):
        return i
    return None


def _to_fit(talk: Talk, i: int, before: str) -> int | None:
    """The way back as a purpose, with what is to be done after it: "to refit the lid push it on"."""
    if before not in _FINISHED | {"C"} or talk.lower[i + 1] not in talk.words.fits | {"put", "get"}:
        return None
    purpose = _TO_FIT.match(talk.tags, i, len(talk.tags) - 2)
    if not purpose:
        return None
    ends = range(i + 2, purpose.end() + 1)
    then = next((at for at in ends if talk.instructs(at)), purpose.end())
    leads = then < purpose.end() or talk.instructs(then)
    if leads:
        talk.cuts.clauses.append(then)
        talk.cuts.verbs.append(then)
        talk.lead_until = then
    leads = leads or (before == "C" and talk.tags[then] in "IO") or talk.lower[then] == "it's"
    return (i - 1 if before == "C" else i) if leads else None


def _forbidding(talk: Talk, i: int, before: str) -> int | None:
    """A word that forbids ("don't", "never")."""
    return _main(talk, i) if talk.lower[i] in ("don't", "never", "dont") and before in _FINISHED else None


def _next_item(talk: Talk, i: int, before: str) -> int | None:
    """The announcement of an item: "the next thing", "our last job"."""
    lower, words = talk.lower, talk.words
    item = lower[i + 1] in words.item_order and lower[min(i + 2, len(lower) - 1)] in words.items
    return i if item and before not in "otDA" else None


def _after_announcement(talk: Talk, i: int, before: str) -> int | None:
    """What follows a bare heading: "okay front cover | the two screws ..."."""
    return i if before in "nH" and _ANNOUNCED.fullmatch(talk.tags, talk.begin, i) else None


_Rule = Callable[[Talk, int, str], int | None]
_ANYWHERE: tuple[_Rule, ...] = (_set_opening, _label)
_WORD: tuple[_Rule, ...] = (_label, _instruction, _refitting)
_RULES: dict[str, tuple[_Rule, ...]] = {
    "T": (_starter, _set_opening, _label),
    "R": (_starter, _set_opening),
    "A": (_starter, _set_opening, _label, _instruction, _after_announcement),
    "I": (_subject, _set_opening),
    "e": (_subject, _set_opening),
    "O": (_closing, _subject, _set_opening),
    "C": (_after_and, _told_and),
    "V": _WORD,
    "n": _WORD,
    "H": _WORD,
    "F": _WORD,
    "X": (_refitting, _instruction),
    "G": (_label, _refitting, _job),
    "W": (_closing, _lead),
    "t": (_to_fit,),
    "D": (_next_item, _after_announcement, _statement),
    "r": (_open,),
    "J": (_forbidding,),
}
"""The rules for a token of each tag: where a sentence begins, 0 for nowhere, None for no opinion."""
