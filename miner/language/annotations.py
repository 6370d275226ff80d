"""What the components found in a Doc, as typed values; token positions are half-open ranges into the Doc.

The components also write span groups (`doc.spans["measures"]` and so on) for other users of spaCy; the stages of
this package read the values kept here, in `doc.user_data`.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from dataclasses import dataclass, field
from typing import Literal

from spacy.tokens import Doc

from miner.model.observation import Observation

KEY = "miner"


@dataclass(frozen=True, slots=True)
class Number:
    """A number in words or digits; `times` is true for a count written `8x`."""

    start: int
    end: int
    value: float
    times: bool = False


MeasureKind = Literal["length", "thread", "torque", "drive", "head"]


@dataclass(frozen=True, slots=True)
class Measure:
    """A size of a fastener: a length (mm), a thread with perhaps a length, a torque (Nm), a drive, a head shape.

    `long` is true for a length that was said to be one ("20 mm long"), which no size of a spanner is.
    """

    start: int
    end: int
    kind: MeasureKind
    length_mm: float | None = None
    thread: str | None = None
    torque_nm: float | None = None
    drive: str | None = None
    drive_size: str | None = None
    head: str | None = None
    long: bool = False


@dataclass(frozen=True, slots=True)
class Phrase:
    """A noun phrase: `name` without article, number and idle adjectives, `head` the position of its last noun."""

    start: int
    end: int
    head: int
    name: str
    plural: bool
    known: bool
    place: bool = False
    count: int | None = None


@dataclass(frozen=True, slots=True)
class Deed:
    """A trade verb in use: its tokens `start:end`, the action, its effect, the particle, and the verb's form."""

    start: int
    end: int
    verb: str
    effect: str
    form: str
    particle: int | None = None


@dataclass(frozen=True, slots=True)
class Group:
    """A group of fasteners as far as one clause tells it.

    `alternatives` are counts between which the speaker leaves it open ("two or three"); `definite` groups were named
    with "the" or "those", `implied` ones only by their size, in notes. Lengths are in mm, torques in Nm.
    """

    start: int
    end: int
    kind: str
    plural: bool
    count: int | None = None
    alternatives: tuple[int, ...] = ()
    length_mm: float | None = None
    thread: str | None = None
    drive: str | None = None
    drive_size: str | None = None
    head: str | None = None
    captive: bool = False
    torque_nm: float | None = None
    location: str | None = None
    secures: str | None = None
    to: str | None = None
    name: str = ""
    definite: bool = False
    implied: bool = False


Link = Literal["sentence", "comma", "and", "then", "so", "none"]
Mood = Literal["imperative", "planned", "narrated", "result", "passive", "negative", "descriptive", "fragment"]


@dataclass(slots=True)
class Clause:
    """A clause: tokens `start:end`, `core` its first token after markers, the sentence it belongs to, its mood.

    `link` tells how it hangs on to the clause before: a new sentence, a comma, "and", "then", or nothing at all;
    `unclear` is true where nobody could tell what it works on ("unplug that one" after two leads).
    """

    start: int
    end: int
    core: int
    sentence: int
    mood: Mood
    link: Link
    deed: Deed | None = None
    object: Phrase | None = None
    objects: tuple[Phrase, ...] = ()
    pronoun: str | None = None
    source: Phrase | None = None
    groups: tuple[Group, ...] = ()
    measures: tuple[Measure, ...] = ()
    tools: tuple[str, ...] = ()
    subordinate: bool = False
    condition: str | None = None
    manner: str | None = None
    unclear: bool = False


@dataclass(frozen=True, slots=True)
class Sentence:
    """An utterance, tokens `start:end`; `clauses` are positions in the list of clauses, half-open."""

    start: int
    end: int
    first_clause: int
    last_clause: int
    role: str = "aside"


@dataclass(slots=True)
class Annotations:
    """All that is known of a Doc; each field is written by one component.

    `stops` and `commas` are where sentences and clauses begin though no sign says so: of notes every line, and in
    words without punctuation what the segmentation found; `passive` is true of a text that instructs in the passive.
    """

    lower: list[str]
    text: str
    offsets: list[int]
    starts: list[float]
    ends: list[float]
    breaks: frozenset[int] = frozenset()
    pauses: frozenset[int] = frozenset()
    register: str = "scripted"
    numbers: list[Number] = field(default_factory=list)
    measures: list[Measure] = field(default_factory=list)
    tags: str = ""
    passive: bool = False
    stops: frozenset[int] = frozenset()
    commas: frozenset[int] = frozenset()
    dropped: frozenset[int] = frozenset()
    phrases: list[Phrase] = field(default_factory=list)
    deeds: list[Deed] = field(default_factory=list)
    groups: list[Group] = field(default_factory=list)
    tools: list[Phrase] = field(default_factory=list)
    sentences: list[Sentence] = field(default_factory=list)
    clauses: list[Clause] = field(default_factory=list)
    observations: list[Observation] = field(default_factory=list)
    forms: list[str] = field(default_factory=list)
    cased: str = ""
    places: list[int] = field(default_factory=list)

    def token_at(self, char: int) -> int:
        """The token that covers a character of `text`."""
        return bisect_right(self.offsets, char) - 1

    def tokens_of(self, start: int, end: int) -> tuple[int, int]:
        """The tokens that a range of characters touches, half-open."""
        return bisect_right(self.offsets, start) - 1, bisect_left(self.offsets, end)

    def phrases_between(self, start: int, end: int, *, places: bool = True) -> list[Phrase]:
        """The noun phrases that begin in a range of tokens; with `places` false those that name no mere location."""
        low = bisect_left(self.phrases, start, key=lambda phrase: phrase.start)
        high = bisect_left(self.phrases, end, key=lambda phrase: phrase.start)
        return [phrase for phrase in self.phrases[low:high] if places or not phrase.place]

    def deeds_between(self, start: int, end: int) -> list[Deed]:
        """The trade verbs that begin in a range of tokens."""
        low = bisect_left(self.deeds, start, key=lambda deed: deed.start)
        high = bisect_left(self.deeds, end, key=lambda deed: deed.start)
        return self.deeds[low:high]

    def tools_between(self, start: int, end: int) -> list[Phrase]:
        """The tools that begin in a range of tokens."""
        low = bisect_left(self.tools, start, key=lambda tool: tool.start)
        high = bisect_left(self.tools, end, key=lambda tool: tool.start)
        return self.tools[low:high]

    def sentence_of(self, token: int) -> Sentence | None:
        """The sentence in which a token stands; sentences must have been cut."""
        at = bisect_right(self.sentences, token, key=lambda sentence: sentence.start) - 1
        return self.sentences[at] if at >= 0 and token < self.sentences[at].end else None

    def clauses_of(self, sentence: Sentence) -> list[Clause]:
        """The clauses of a sentence."""
        return self.clauses[sentence.first_clause : sentence.last_clause]

    def capitals(self, start: int, end: int) -> bool:
        """Whether the first two words are written in capitals throughout."""
        words = [form for form in self.forms[start:end] if form[:1].isalpha()][:2]
        return bool(words) and all(len(word) > 1 and word.isupper() for word in words) and len("".join(words)) > 3

    def span(self, start: int, end: int) -> tuple[float, float]:
        """When a range of tokens begins and ends, in seconds, to the millisecond."""
        return round(self.starts[start], 3), round(self.ends[end - 1], 3)

    def words(self, start: int, end: int) -> str:
        """The words of a range of tokens in lower case, joined by blanks."""
        return " ".join(self.lower[start:end])


def annotations_of(doc: Doc) -> Annotations:
    """The annotations of a Doc, made at the first call; a Doc without times has times of 0."""
    found = doc.user_data.get(KEY)
    if not isinstance(found, Annotations):
        text = doc.text.lower()
        if len(text) != len(doc.text):  # a few letters grow when lowered
            text = "".join(char.lower() if len(char.lower()) == 1 else char for char in doc.text)
        offsets = [token.idx for token in doc]
        zeros = [0.0] * len(doc)
        found = Annotations(
            [token.lower_ for token in doc],
            text,
            offsets,
            zeros,
            zeros,
            forms=[t.text for t in doc],
            cased=doc.text,
            places=offsets,
        )
        doc.user_data[KEY] = found
    return found
