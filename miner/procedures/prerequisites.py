"""What must be out first: sentences of prerequisites split into parts, and preconditions that are no parts."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

from miner.language.absences import Absence, absences
from miner.language.annotations import Annotations, Clause, Phrase, Sentence
from miner.model.draft import Preparation, Prerequisite
from miner.model.naming import part_key, part_words
from miner.procedures.wording import edited, part_name, plain_text

_NO_PART = frozenset(
    "prerequisite prerequisites section procedure step steps thing things way job one lot everything anything "
    "story repair "
    "work before time order power start task this that it video replacement removal sequence following preparation "
    "chapter part parts required necessary beforehand need needs prereq prereqs requirement minute minutes hour hours "
    "sure requires require means assuming assume access following how what which else anything nothing advance "
    "saying gained precondition preconditions condition follow come".split()
)
_FLOWS = frozenset(
    "power mains water air gas current electricity pressure fuel steam vacuum voltage hydraulics heat heating "
    "ignition petrol diesel propane electrics electric juice".split()
)
"""What is turned or switched off and is no part that comes out; the last word of a name."""
_SUPPLIES = _FLOWS | frozenset("supply plug key engine lead isolator breaker machine".split())
"""What is off before work begins where a name is this word alone, and "off" is said of it."""
_FEEDS = frozenset(("mains", "power", "line", "supply"))
_PLUGS = frozenset(("plug", "cord"))
"""A "mains plug" is out before work begins; a "power lead" may be a part with a job of its own."""
_STATE = re.compile(
    r"\b(?:empty|emptied|drained|unplugged|switched off|turned off|powered|cold|cool|cooled|disconnected from|"
    r"isolated|upside down|upright|"
    r"depressurised|discharged|clean|closed|open|dry|on its|flat|isolate|unplug|switch|stopped|drain|let|cool down|"
    r"disconnected|shut|locked|level|"
    r"(?:stood|standing|lying|lies|laid|turned|tipped|propped|set) (?:up )?on|no \w+ (?:on|in))\b"
)
_LEAVES = re.compile(r"\b(?:out|off|removed)\b")
_SAID_OUT = re.compile(
    r"\b(?:out|off|removed|taken|gone|away|detached|first|before|beforehand|complete|carry out|already|prereq\w*|"
    r"pre-req\w*|require\w*|need\w*|assum\w+|see|follow|once|after|until|without)\b"
)
_OUT = re.compile(
    r"\b(?:out|off|down|removed|away|remove|take|taken|complete|carry|first|gone|detached|dismounted|replacement|"
    r"removal|need|needs|prereq\w*|pre-req\w*|requires?|required)\b"
)
JOBS = frozenset(("removal", "replacement", "removing", "replacing", "installation"))
_BLOCKED = re.compile(
    r"\b(?:can't|cannot|can not|couldn't|won't|no (?:way|room|chance|getting|reaching)) "
    r".*?(?=\b(?:with|without|unless|until|till)\b)"
)
"""What cannot be reached, before the part that is in the way."""
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
    stop = _explained(known, sentence)
    told = absences(known, sentence.start, stop)
    blocked = _after_blocked(known, sentence)
    times = known.span(sentence.start, sentence.end)
    for piece in _pieces(known, known.clauses_of(sentence)):
        start, end = max(piece[0].start, blocked), min(piece[-1].end, stop)
        if start >= stop:
            break
        inside = [absence for absence in told if start <= absence.start < end]
        text = known.words(start, end)
        said = edited(plain_text(known, start, end), imperative=False)
        for absence in inside:
            stands = absence.vague and not absent_names(absence, jobs, names)
            if any(map(_is_supply, absence.names)) or stands:
                preparations.append(Preparation(_state_text(known, absence.start, absence.end), *times))
            found = absent_names(absence, jobs, names)
            parts += [Prerequisite(part_name(name), said, *times) for name in found]
        preparations += [
            Preparation(_state_text(known, low, high), *known.span(low, high))
            for low, high in _besides(start, end, inside)
            if _is_state(known.words(low, high))
        ]
        covered = any(absence.start < end and start < absence.end for absence in told)
        narrated = all(clause.mood == "narrated" for clause in piece)
        if covered or _is_state(text) or (told and (narrated or not _OUT.search(text))):
            continue
        for phrase in _named(known, start, end):
            found = split_names(_cut_job(phrase.name, jobs), names)
            parts += [Prerequisite(part_name(name), said, *times) for name in found]
    return Required(tuple(parts), tuple(preparations))


def read_list(known: Annotations, sentence: Sentence, jobs: frozenset[str], names: frozenset[str]) -> Required:
    """The parts of a sentence that "they're all off" follows: a mere list, or the parts of other jobs that it names."""
    listed = read_prerequisites(known, sentence, jobs=jobs, names=names)
    if listed.parts:
        return listed
    text, times = plain_text(known, sentence.start, sentence.end), known.span(sentence.start, sentence.end)
    told = [_cut_job(phrase.name, jobs) for phrase in _named(known, sentence.start, sentence.end)]
    found = [one for name in told for one in split_names(name, names) if part_key(one) in names]
    return Required(tuple(Prerequisite(part_name(one), text, *times) for one in found))


def _besides(start: int, end: int, told: Sequence[Absence]) -> list[tuple[int, int]]:
    """The ranges of tokens between the statements of what is out."""
    edges = [start, *(edge for absence in told for edge in (absence.start, absence.end)), end]
    return [(low, high) for low, high in zip(edges[::2], edges[1::2], strict=True) if high > low]


def _is_state(text: str) -> bool:
    """Whether words tell a state of the product and of no part that is out."""
    return bool(_STATE.search(text)) and not _LEAVES.search(_STATE.sub("", text))


def absent_names(absence: Absence, jobs: frozenset[str], names: frozenset[str]) -> list[str]:
    """The parts that a statement says are out, one name each."""
    found = [_cut_job(name, jobs) for name in absence.names if not (_is_no_part(name) or _is_supply(name))]
    pieces = [one for name in found for one in split_names(name, names)]
    return [one for one in pieces if not absence.vague or part_key(one) in names]


def supplies_off(known: Annotations, told: Sequence[Absence]) -> list[Preparation]:
    """What statements tell is turned off already: "the pressure's off"; "power off" alone may be an instruction."""
    off = [a for a in told if (a.stated != "bare" or a.marked) and all(map(_is_supply, a.names))]
    return [Preparation(_state_text(known, a.start, a.end), *known.span(a.start, a.end)) for a in off]


def _is_supply(name: str) -> bool:
    """Whether a name is of what is turned off; a power supply can be taken out."""
    flow = name if name == "power supply" else name.removesuffix(" supply")
    first, _, last = name.partition(" ")
    plugged = first in _FEEDS and last in _PLUGS
    return plugged or name in _SUPPLIES or flow.rpartition(" ")[2] in _FLOWS


def names_removed(known: Annotations, sentence: Sentence, names: frozenset[str], own: str) -> bool:
    """Whether a sentence says that parts which other jobs remove are out, in whatever words.

    True where nothing but such parts is spoken of, beside a word like "off", "first" or "requires", and no fastener.
    """
    stop = _explained(known, sentence)
    if not _SAID_OUT.search(known.words(sentence.start, stop)):
        return False
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


def _explained(known: Annotations, sentence: Sentence) -> int:
    """The token where a reason begins, which names other parts."""
    text = known.words(sentence.start, sentence.end)
    match = next((m for m in _EXPLAINED.finditer(text) if m.start() >= 12), None)
    if not match:
        return sentence.end
    return sentence.start + len(text[: match.start()].split())


def _after_blocked(known: Annotations, sentence: Sentence) -> int:
    """The token after what cannot be reached: "with" of "you can't reach the pawl with the cover on"."""
    text = known.words(sentence.start, sentence.end)
    match = _BLOCKED.search(text)
    return sentence.start + len(text[: match.end()].split()) if match else sentence.start


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
    return pieces or [list(clauses)][: len(clauses)]


def _named(known: Annotations, start: int, end: int) -> list[Phrase]:
    found = []
    for phrase in known.phrases_between(start, end, places=False):
        job, _, rest = phrase.name.partition(" of ")
        if _is_no_part(rest if job in JOBS else phrase.name.removesuffix(" job")):
            continue
        before = known.lower[phrase.start - 1] if phrase.start > start else ""
        if (
            before
            in ("from", "of", "on", "in", "at", "into", "by", "under", "before", "beneath", "behind", "over", "through")
            and known.tags[phrase.start - 1] == "p"
            and phrase.name.rpartition(" ")[2] not in _TITLES  # "follow on from hopper removal"
        ):
            continue
        found.append(phrase)
    return found


def _is_no_part(name: str) -> bool:
    """Whether a noun phrase names no part: "this job", "everything"."""
    words = part_words(name)
    return not words or words[-1] in _NO_PART or name in _NO_PART or not any(c.isalpha() for c in name)


def split_names(name: str, names: frozenset[str]) -> list[str]:
    """A run of names without commas ("dust bin side brush") cut into those that the recording knows.

    A name that is known itself is cut only where another part of it has two words ("battery cover" stays).
    """
    words = name.split()
    found: list[str] = []
    while words:
        sizes = range(len(words) if found else len(words) - 1, 0, -1)
        size = next((n for n in sizes if part_key(" ".join(words[:n])) in names), 0)
        if not size:
            break
        found.append(" ".join(words[:size]))
        words = words[size:]
    if not words and found and (part_key(name) not in names or any(" " in one for one in found)):
        return found
    return [name] if name else []


_IDLE = frozenset(
    "both all need requires prereq same story required needs again of the means assuming access procedure "
    "month months week weeks year years day days".split()
)


_TITLES = frozenset("removal replacement procedure section steps job".split())


def _cut_job(name: str, jobs: frozenset[str]) -> str:
    words = [w for w in name.split() if w not in ("already", "first")]
    while words and (words[-1] in jobs or words[-1] in _TITLES):
        words.pop()
    while len(words) > 1 and (words[0] in _IDLE or (words[0] in jobs | JOBS and words[1] == "of")):
        words.pop(0)
    return " ".join(words)


_STATE_LEAD = re.compile(
    r"^(?:(?:and|so|the|make sure|also|with|then|for (?:this|that)(?: one)?|(?:i|you|we)(?:'ll)? "
    r"(?:want|need|have)(?: to have)?(?: it)?)\b[\s,]*)+",
    re.IGNORECASE,
)


def _state_text(known: Annotations, start: int, end: int) -> str:
    text = _STATE_LEAD.sub("", plain_text(known, start, end).strip(" ,."))
    return re.sub(r"(?:[\s,]+(?:and|so|then))+$", "", text, flags=re.IGNORECASE)
