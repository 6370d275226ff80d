"""Words without punctuation, and what may begin at one of them: an instruction, a subject with its verb, a title."""

from __future__ import annotations

import re
from dataclasses import dataclass, field

from miner.language.discourse import Discourse, after_openers

_NOUNS = r"D?[AQNZGE]*[nHF]+(?:oD?[AQNZ]*[nHF]+)?"
_LIST = rf"{_NOUNS}(?:C{_NOUNS})+"
_CHAIN = r"(?:C?D[AQNZGE]*[nHF]+(?:oD?[AQNZ]*[nHF]+)?)+"
_SAYS = r"[RJQT]*(?:X|S(?![nHF]))"
_SUBJECT = re.compile(f"(?:{_CHAIN}|{_LIST}){_SAYS}")
_ONE_SUBJECT = re.compile(f"(?:{_LIST}|{_NOUNS}){_SAYS}")
_TITLE = re.compile(rf"[GV]?{_NOUNS}(?:C{_NOUNS})?")
_RUNS_UP = frozenset("nHFAQNZGEo")
_GOVERNS = frozenset("tXIWJCpTdfDG")
"""Tags after which a verb form is no instruction that opens a sentence."""

_TAKEN_FROM = frozenset("nHFrRNZOAEQSp")
_OBJECT = frozenset("DOQNdZ")
SHORT = 5
"""Tokens of a short clause."""

LET = 6
"""Tokens within which another verb belongs to "let": "let the pulley unwind a turn"."""

REACH = 14
"""Tokens that are looked at around a place."""


@dataclass(frozen=True, slots=True)
class Cuts:
    """Where sentences begin, the first left out; where clauses do inside them; and the verbs that open either."""

    sentences: list[int] = field(default_factory=list)
    clauses: list[int] = field(default_factory=list)
    verbs: list[int] = field(default_factory=list)


@dataclass(slots=True)
class Talk:
    """The words, their tags, and where the sentence that is being read began.

    `named` are pairs of words of which the second may be a verb, seen where they can only be a name ("label cover").
    """

    tags: str
    lower: list[str]
    words: Discourse
    begin: int = 0
    led: bool = False
    held: int = 0
    lead_until: int = 0
    cuts: Cuts = field(default_factory=Cuts)
    named: frozenset[tuple[str, str]] = field(init=False)

    def __post_init__(self) -> None:
        parts, lower, tags = self.words.part_verbs, self.lower, self.tags
        places = (i for i, word in enumerate(lower[1:-1], 1) if word in parts)
        self.named = frozenset(
            (lower[i - 1], lower[i]) for i in places if tags[i + 1] not in "DOQNdr" and tags[i - 1] in "nHA"
        )

    def before(self, i: int) -> str:
        """The tag before a token, or before the filler that stands before it."""
        return self.tags[i - 2] if i > 1 and self.tags[i - 1] == "f" else self.tags[i - 1]

    def instructs(self, i: int) -> bool:
        """Whether a verb that tells what to do, with what it governs, begins at a token, whatever stands before."""
        word, tags, words = self.lower[i], self.tags, self.words
        if word not in words.verbs:
            return False
        after, second = tags[i + 1], tags[i + 2 : i + 3]
        if after in _OBJECT or (tags[i + 1] == "R" and second in ("D", "O")):
            return self.lower[i + 1] != "that" or second not in ("V", "S", "X") or word in words.verifying
        if after == "r":
            known = word not in words.part_verbs or word in words.moving or (word, self.lower[i + 1]) in words.phrasal
            return known and second in tuple("DOQNApnHF")
        if self.lower[i + 1] in words.assured or (after in "WO" and word in words.verifying):
            return True
        if after == "t":
            return self.lower[i + 2] in words.fits or (word in words.instructing and second in ("D", "O"))
        if after == "p":
            shown = tags[i] == "V" or tags[i - 1] in "rO"
            return shown and word in words.certain and second in tuple("DOnHZ")
        if after not in "nHFAGE" or self.lower[i + 1] in words.numbered | words.signals:
            return False
        return word in words.bare_object or (tags[i] == "V" and word in words.certain and word not in words.instructing)

    def opens_instruction(self, i: int) -> bool:
        """Whether an instruction that hangs on nothing before it begins at a token."""
        before = self.before(i)
        if before == "X" and "W" in self.tags[max(i - SHORT, 0) : i - 1]:  # "where it is | lift the lid"
            return self.lower[i - 1] in ("is", "are", "was") and self.tags[i + 1] in "DQN" and self.instructs(i)
        if before not in _TAKEN_FROM or not self.instructs(i) or self._governed(i):
            return False
        if before == "p" and (self.tags[i + 1] not in "DQ" or self.lower[i] in self.words.places):
            return False
        if self._is_let(i):
            return False
        return not (before in "nHFA" and (self._names(i) or self._acts(i)))

    def _governed(self, i: int) -> bool:
        """A verb that hangs on "to", an auxiliary or a subject before it, or on a list of such verbs."""
        tags, at = self.tags, i - 1
        while at > self.begin and tags[at] in "RQf":
            at -= 1
        if self.lower[at] in self.words.contractions:
            return True
        return tags[at] in _GOVERNS and not (at == i - 1 and tags[at] == "p")

    def _is_let(self, i: int) -> bool:
        """Whether the verb is what something is let do: "let the pulley | unwind a turn"."""
        for at in range(i - 1, max(self.begin, i - LET) - 1, -1):
            if self.lower[at] == "let":
                return True
            if self.tags[at] in "VC":
                return False
        return False

    def _names(self, i: int) -> bool:
        """Whether the word is rather the last of a name, seen elsewhere or known as one."""
        pair = (self.lower[i - 1], self.lower[i])
        return self.lower[i] in self.words.part_verbs and (pair in self.named or " ".join(pair) in self.words.compounds)

    def _acts(self, i: int) -> bool:
        """Whether the plural noun before a verb does what the verb says: "until both latches release the lid"."""
        if self.tags[i - 1] not in "HF" or not self.lower[i - 1].endswith("s") or self.lower[i - 1].endswith("ss"):
            return False
        at = i - 1
        while at > self.begin and at > i - REACH and self.tags[at] in _RUNS_UP:
            at -= 1
        tag = self.tags[at]
        return tag == "W" or (tag == "D" and (at == self.begin or self.tags[at - 1] in "WCTR"))

    def states(self, i: int) -> int:
        """The verb's place, where a definite noun or a list of nouns begins at a token with a verb; otherwise 0."""
        if self.lower[i] in ("no", "any", "some"):
            return 0
        shape = _ONE_SUBJECT if self.before(i) == "r" else _SUBJECT
        found = shape.match(self.tags, i, i + 3 * REACH)
        if not found or self.lower[found.end() - 1] == "going":
            return 0
        verb = found.end() - 1
        return verb if self.words.refitting.isdisjoint(self.lower[i + 2 : verb]) else 0

    def cautious(self) -> bool:
        """Whether the sentence begins with a call for care."""
        core = after_openers(self.tags, self.begin)
        return not self.words.signals.isdisjoint(self.lower[core : core + 2])

    def title_end(self, i: int) -> int | None:
        """Where the title ends that begins at a token, or None where there is none: "the hose port | the drum must"."""
        title = _TITLE.match(self.tags, i, i + REACH)
        if not title:
            return None
        words, lower, tags = self.words, self.lower, self.tags
        for at in range(i + 1, title.end()):
            if lower[at] in words.signals or (lower[at - 1] in words.job_nouns and tags[at] not in "oC"):
                return at
            if at > i + 1 and self.instructs(at) and tags[at - 1] in "nHFA" and not self._names(at):
                return at
        end = title.end()
        if end >= len(tags) - 1 or tags[end] in "SoCr":
            return None
        return end if tags[end] not in "Xp" else None

    def led_in(self) -> bool:
        """Whether the sentence so far is only a lead, so that its main clause is still to come: "if it rubs ..."."""
        core = after_openers(self.tags, self.begin)
        if core >= len(self.tags) or self.led or self.lead_until > self.begin:
            return False
        tag, word = self.tags[core], self.lower[core]
        return tag in "Wt" or word in ("with", "for", "using", "to")

    def subordinate(self, i: int) -> bool:
        """A subject inside a relative or reported clause: "the one you took out", "see where it goes"."""
        tags, word, words = self.tags, self.lower[i], self.words
        before = tags[i - 1]
        if before in "WV" or (before == "X" and word not in words.contractions) or self.lower[i - 1] in words.reporting:
            return True
        if self.lower[i - 2] == "how" or word in ("one", "ones"):
            return True
        if word == "there" and before in "rp" and tags[i + 1] != "X":
            return True  # "in there"
        if tags[i] == "I" and word in ("you", "we", "i", "they", "you've", "we've") and "W" in tags[max(i - 4, 0) : i]:
            return True
        return tags[i] == "O" and before in "VpotGE"
