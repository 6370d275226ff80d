"""What must be out first: sentences of prerequisites split into parts, and preconditions that are no parts."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

from miner.language.annotations import Annotations, Clause, Phrase, Sentence
from miner.model.draft import Preparation, Prerequisite
from miner.model.naming import part_key, part_words
from miner.procedures.wording import edited, part_name, plain_text

_NO_PART = frozenset(
    "prerequisite prerequisites section procedure step steps thing things way job one lot everything anything "
    "story repair "
    "work before time order power start task this that it video replacement removal sequence following preparation "
    "chapter part parts required necessary beforehand need needs prereq prereqs requirement minute minutes hour hours "
    "beforehand case sure requires require means assuming assume access following how".split()
)
_STATE = re.compile(
    r"\b(?:empty|emptied|drained|unplugged|switched off|turned off|powered|cold|cool|cooled|disconnected from|"
    r"isolated|upside down|upright|"
    r"depressurised|discharged|clean|closed|open|dry|on its|flat|isolate|unplug|switch|drain|let|cool down)\b"
)
_SAID_OUT = re.compile(
    r"\b(?:out|off|removed|taken|gone|away|detached|first|before|beforehand|complete|carry out|already|prereq\w*|"
    r"pre-req\w*|require\w*|need\w*|assum\w+|see|follow|once|after|until|without)\b"
)
_OUT = re.compile(
    r"\b(?:out|off|removed|away|remove|take|taken|complete|carry|first|gone|detached|dismounted|replacement|"
    r"removal|need|needs|prereq\w*|pre-req\w*|requires?|required)\b"
)
JOBS = frozenset(("removal", "replacement", "removing", "replacing", "installation"))
_EXPLAINED = re.compile(
    r"\b(?:because|since|as described|as shown|so that|otherwise|like we|as in|it's|that's just|just because|"
    r"'cause|cause|before (?:the|you|we|i|it|this|that|working|taking)|so the|or you|or it|so you|so we|to get|"
    r"to reach|to make)\b"
)


@dataclass(frozen=True, slots=True)
class Required:
    """What the prerequisite sentences of one job say."""

    parts: tuple[Prerequisite, ...] = ()
    preparations: tuple[Preparation, ...] = ()


def read_prerequisites(
    known: Annotations, sentence: Sentence, *, jobs: frozenset[str] = frozenset(), names: frozenset[str] = frozenset()
) -> Required:
    """The parts and preconditions of one sentence; `jobs` are words like "removal" that are cut off a part's name."""
    parts: list[Prerequisite] = []
    preparations: list[Preparation] = []
    clauses = known.clauses_of(sentence)
    stop = _explained(known, sentence)
    for piece in _pieces(known, clauses):
        start, end = piece[0].start, min(piece[-1].end, stop)
        text = known.words(start, end)
        if start >= stop:
            break
        if _STATE.search(text) and not re.search(r"\b(?:out|off|removed)\b", _STATE.sub("", text)):
            preparations.append(Preparation(_state_text(known, start, end), *known.span(start, end)))
            continue
        said = edited(plain_text(known, start, end), imperative=False)
        for phrase in _named(known, start, end):
            parts += [
                Prerequisite(part_name(name), said, *known.span(sentence.start, sentence.end))
                for name in split_names(_cut_job(phrase.name, jobs), names)
            ]
    return Required(tuple(parts), tuple(preparations))


def names_removed(known: Annotations, sentence: Sentence, names: frozenset[str], own: str) -> bool:
    """Whether a sentence says that parts which other jobs remove are out, in whatever words.

    True where nothing but such parts is spoken of, beside a word like "off", "first" or "requires", and no fastener.
    """
    text = known.words(sentence.start, sentence.end)
    if not _SAID_OUT.search(text):
        return False
    stop = _explained(known, sentence)
    clauses = [c for c in known.clauses_of(sentence) if c.start < stop]
    if any(c.groups for c in clauses):
        return False
    works = any(
        c.deed
        and c.mood in ("imperative", "planned")
        and c.deed.effect not in ("detach", "inspect", "handle")
        and c.deed.verb not in ("start", "begin")
        for c in clauses
    )
    keys = [part_key(_cut_job(phrase.name, JOBS)) for phrase in _named(known, sentence.start, stop)]
    keys = [key for key in keys if key and key != part_key(own)]
    pieces = [piece for key in keys for piece in split_names(key, names)]
    return bool(pieces) and not works and all(piece in names for piece in pieces)


def leading_parts(known: Annotations, clause: Clause, names: frozenset[str], own: str) -> list[str]:
    """The parts of other jobs in a lead ("with the hood already off, tip the unit"); empty if it says no such thing."""
    if clause.core <= clause.start:
        return []
    text = known.words(clause.start, clause.core)
    if not re.search(r"\b(?:off|out|removed|gone|away)\b", text):
        return []
    found = [phrase.name for phrase in _named(known, clause.start, clause.core)]
    keys = [part_key(name) for name in found]
    return found if found and all(key in names and key != part_key(own) for key in keys) else []


def _explained(known: Annotations, sentence: Sentence) -> int:
    """The token where a reason begins, which names other parts."""
    text = known.words(sentence.start, sentence.end)
    match = next((m for m in _EXPLAINED.finditer(text) if m.start() >= 12), None)
    if not match:
        return sentence.end
    return sentence.start + len(text[: match.start()].split())


def _pieces(known: Annotations, clauses: Sequence[Clause]) -> list[list[Clause]]:
    """Clauses joined until one has a verb: a list of names waits for what is said of them."""
    pieces: list[list[Clause]] = []
    waiting: list[Clause] = []
    for clause in clauses:
        text = known.words(clause.start, clause.end)
        if (
            clause.mood == "descriptive"
            and not _OUT.search(text)
            and not _STATE.search(text)
            and known.tags[clause.core] in "eO"
        ):
            continue  # "that's the little board up there, so you need ..."
        waiting.append(clause)
        text = known.words(clause.start, clause.end)
        if _OUT.search(text) or _STATE.search(text):
            pieces.append(waiting)
            waiting = []
    if waiting:
        if pieces:
            pieces[-1].extend(waiting)
        else:
            pieces.append(waiting)
    return pieces


def _named(known: Annotations, start: int, end: int) -> list[Phrase]:
    found = []
    for phrase in known.phrases_between(start, end, places=False):
        words = part_words(phrase.name)
        if words[-1] in _NO_PART or phrase.name in _NO_PART or not any(c.isalpha() for c in phrase.name):
            continue
        before = known.lower[phrase.start - 1] if phrase.start > start else ""
        if (
            before
            in ("from", "of", "on", "in", "at", "into", "by", "under", "before", "beneath", "behind", "over", "through")
            and known.tags[phrase.start - 1] == "p"
        ):
            continue
        found.append(phrase)
    return found


def split_names(name: str, names: frozenset[str]) -> list[str]:
    """A run of names without commas ("dust bin side brush") cut into those that the recording knows."""
    if not name:
        return []
    if part_key(name) in names:
        return [name]
    words = name.split()
    found: list[str] = []
    while words:
        size = next((n for n in range(len(words), 0, -1) if part_key(" ".join(words[:n])) in names), 0)
        if not size:
            return [name]
        found.append(" ".join(words[:size]))
        words = words[size:]
    return found


_IDLE = frozenset(
    "both all need requires prereq same story required needs again of the means assuming access procedure "
    "requires".split()
)


def _cut_job(name: str, jobs: frozenset[str]) -> str:
    words = [w for w in name.split() if w not in ("already", "first")]
    while words and (words[-1] in jobs or words[-1] in ("removal", "replacement", "procedure", "section", "steps")):
        words.pop()
    while len(words) > 1 and (words[0] in _IDLE or (words[0] in jobs | JOBS and words[1] == "of")):
        words.pop(0)
    return " ".join(words)


def _state_text(known: Annotations, start: int, end: int) -> str:
    text = plain_text(known, start, end).strip(" ,.")
    return re.sub(r"^(?:(?:and|so|the|make sure|also|with)\b\s*)+", "", text, flags=re.IGNORECASE)
