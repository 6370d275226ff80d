"""What announces the next thing in words without punctuation: labels, titles, leads, and the way back."""

from __future__ import annotations

import re

from miner.language.discourse import after_openers
from miner.language.talk import Cuts, Talk

_PUT_BACK = re.compile(r"when (?:it|that|this|they|you|the \w+) (?:goes|go|put|fit|refit|install|come)")
_TO_FIT = re.compile(r"t[VSnH][rR]*(?:O|D?[AQNZ]*[nHF]+)?[rR]*")
_ANNOUNCED = re.compile(r"T+D?[AQ]*[nH]{1,4}")
_GOING_BACK = re.compile(r"G(?:O|D[AQNZ]*[nHF]+)?[rpR]+(?:X|O[RDn])")
_AFTER_NEXT = ("up", "is", "thing", "one", "job", "comes")
_SAME = ("story", "deal", "again", "drill")
_POINTING = ("this", "that", "these")
_IF = ("it", "you", "yours", "there's", "they", "you've", "the")
FINISHED = frozenset("nHFrRONZASEQ")
"""Tags after which a phrase may be finished."""

NO_CUT = 0

SHORT = 6
"""Words with which something has been said."""


def numbered(talk: Talk, i: int) -> bool:
    """Whether "section four" or "job b" stands at a token."""
    if talk.lower[i] not in talk.words.numbered:
        return False
    after, tag = talk.lower[i + 1], talk.tags[i + 1]
    if tag == "N":
        return after not in ("of", "off")
    return len(after) == 1 and talk.tags[i + 2] in ("G" if after == "a" else "GnHAV")


def main(talk: Talk, i: int) -> int:
    """The beginning of what may be the main clause after a lead: "if it rubs, loosen ..."."""
    if talk.led_in():
        talk.led = True
        return -i
    return i


def refitting(talk: Talk, i: int, before: str) -> int | None:
    """The way back, told without an article: "installation is the reverse of removal", "putting it back is ..."."""
    if before not in FINISHED and before != "C":
        return None
    told = talk.lower[i] in talk.words.refitting and talk.tags[i + 1] in "XS"
    if talk.lower[i] == "going":
        told = talk.lower[i + 1] == "back"
    if told or (talk.tags[i] == "G" and _GOING_BACK.match(talk.tags, i) and "back" in talk.lower[i + 1 : i + 6]):
        return i - 1 if before == "C" else i
    return None


def job(talk: Talk, i: int, before: str) -> int | None:
    """The job after a word that announces it: "next one is the saddle | getting the saddle off"."""
    brief = i - talk.begin <= SHORT and talk.tags[talk.begin] == "T" and before in "nHA"
    return i if brief and talk.tags[i + 1] == "D" and "e" not in talk.tags[talk.begin : i] else None


def lead(talk: Talk, i: int, before: str) -> int | None:
    """A lead with its main clause after it: "if it rubs loosen ...", "before starting the lid must be off"."""
    lower, words, tags = talk.lower, talk.words, talk.tags
    word, following = lower[i], lower[i + 1]
    if before not in FINISHED | {"C"} or talk.led_in() or lower[i - 1] in words.reporting:
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


def set_opening(talk: Talk, i: int, before: str) -> int | None:
    """Set beginnings: "next up", "same again", "for this you need ..."."""
    word, following = talk.lower[i], talk.lower[i + 1]
    if word == "for" and following in _POINTING and (before in FINISHED or before == "C"):
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
    return i if word == "same" and following in _SAME and before in FINISHED else None


def label(talk: Talk, i: int, before: str) -> int | None:
    """A word that announces: "section four", "warning the edge ...", "be careful", "to install the pump push ..."."""
    word, words = talk.lower[i], talk.words
    if word in words.signals and talk.lower[i - 1] == "be":
        return main(talk, i - 1) if i - 2 > talk.begin else NO_CUT
    if word == "heads" and talk.lower[i + 1] == "up":
        return i - 1 if before == "C" else i
    if before in "DAdpoW" and talk.lower[i - 1] not in ("first", "last", "only"):
        return None
    if word in words.numbered and numbered(talk, i):
        return i
    if word in words.signals and talk.tags[i + 1] not in "orX":
        return i
    if word in ("required", "needed") and talk.lower[i + 1] in ("beforehand", "first"):
        return i
    return None


def to_fit(talk: Talk, i: int, before: str) -> int | None:
    """The way back as a purpose, with what is to be done after it: "to refit the lid push it on"."""
    if before not in FINISHED | {"C"} or talk.lower[i + 1] not in talk.words.fits | {"put", "get"}:
        return None
    purpose = _TO_FIT.match(talk.tags, i, len(talk.tags) - 2)
    if not purpose or not talk.words.reversal.isdisjoint(talk.lower[talk.begin : i]):
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


def closing(talk: Talk, i: int, before: str) -> int | None:
    """The end of a job: "that completes the pump"."""
    return i if talk.lower[i] in ("that", "this") and talk.lower[i + 1] in talk.words.closing else None


def next_item(talk: Talk, i: int, before: str) -> int | None:
    """The announcement of an item: "the next thing", "our last job"."""
    lower, words = talk.lower, talk.words
    item = lower[i + 1] in words.item_order and lower[min(i + 2, len(lower) - 1)] in words.items
    return i if item and before not in "otDA" else None


def after_announcement(talk: Talk, i: int, before: str) -> int | None:
    """What follows a bare heading: "okay front cover | the two screws ..."."""
    return i if before in "nH" and _ANNOUNCED.fullmatch(talk.tags, talk.begin, i) else None


def forbidding(talk: Talk, i: int, before: str) -> int | None:
    """A word that forbids ("don't", "never")."""
    return main(talk, i) if talk.lower[i] in ("don't", "never", "dont") and before in FINISHED else None


def cut_before_title(talk: Talk, end: int, cuts: Cuts) -> None:
    """Cuts before a title that has no article, "rear cover replacement", where an adjective or a phrase tells where."""
    tags, at = talk.tags, end - 2
    while at > talk.begin + 2 and tags[at - 1] in "nHFG" and tags[at] != "A":
        at -= 1
    if at > talk.begin + 2 and tags[at - 1] == "A":
        at -= 1
    if at > talk.begin + 2 and tags[at - 1] in "rORSEnHF" and (tags[at] == "A" or tags[at - 1] not in "nHF"):
        cuts.sentences.append(at)
