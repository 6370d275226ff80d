"""Warnings, cautions, remarks and notes: their level, their words, and the step they guard."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass, replace

from miner.language.annotations import Annotations, Clause, Sentence
from miner.language.roles import RolePatterns, sentence_text
from miner.model.draft import NoticeKind, Step
from miner.model.naming import head_word
from miner.procedures.step_found import StepFound
from miner.procedures.wording import edited, plain_text

SOON = 45.0
"""Seconds within which the next step is the one that a notice guards, if nothing else tells."""

FIRST_THIS = re.compile(r"\bbefore (?:you|anyone|anybody|it|they)\b.*\b(?:because|'cause|cause|since|or)\b")
"""A warning that tells what to do first and why: "let it out before you touch that nut, because ..."."""

_GOES_ON = re.compile(
    r"(?:(?:so|and|or|because|but|otherwise|these|they|it|this|that|if|wear|let|keep|never|do not|don't|always|"
    r"then|also|use|avoid|make sure|work|check|have|stop|wait|hold)\b)"
)
_SAFETY = re.compile(
    r"\b(?:wear|gloves?|goggles|glasses|protection|cool|wait|discharge|never|not|don't|careful|licen[sc]ed|"
    r"electrician|qualified|keep (?:your|the|fingers|hands|a)|local|regulations?|ventilat\w+|short|hurt|burn|"
    r"spill|damage|break|dry|lose|lost|catch|tear|polarity|away from|clear of)\b"
)


_END = re.compile(r"[.!?](?=\s|$)")
_WAITS = re.compile(
    r"\b(?:wait|allow|let (?:it|them|the)|leave (?:it|them|the|this))\b.*"
    r"\b(?:until|till|for|minutes?|hours?|cool|to)\b"
)
"""What a signalled warning says to do: "open the valve and wait until no more steam escapes"."""
_OBLIGES = re.compile(r"(?:it|they|these|those|this) (?:is|are|has|have|must|shall|should) (?:\w+ ){0,2}?be\b")
_LONG = 25
"""Words from which a sentence is no mere addition to a notice."""
_STRESSED = re.compile(r"(?:and |so |now |but )*it(?:'s| is) (?:very |really )?important\b")
_TURNS = frozenset(("now", "then", "right", "okay", "so", "next"))
_WORKS = ("undo", "detach", "disconnect", "attach", "fasten", "connect", "open", "close")
_CARE = re.compile(
    r"(?:mind (?:the|your|that|it|out|you don't)|(?:be )?(?:very |really )?careful\b|watch (?:your|out|for|the)|beware|"
    r"take care (?:not|with|of))\b"
)
_REASON = re.compile(r"\b(?:because|'cause|cause|or (?:it|you|they|else)|otherwise|it'll|they'll|you'll)\b")
_WORK = ("undo", "detach", "disconnect")


@dataclass(slots=True)
class Told:
    """A notice as told: level, tokens, words that name parts, and whether the speaker owned up to telling it late."""

    kind: NoticeKind
    start: int
    end: int
    text: str
    words: frozenset[str]
    late: bool
    signalled: bool


def read_notice(known: Annotations, sentence: Sentence, patterns: RolePatterns) -> Told:
    """The notice of one sentence; "it is important that" makes any alert an important remark."""
    text = sentence_text(known, sentence)
    match = patterns.signals.match(text)
    start = sentence.start
    kind: NoticeKind
    if match:
        spoken = next((k for k in patterns.signal_kinds if match[k]), None)
        skipped = (
            known.token_at(known.offsets[sentence.start] + match.end()) if match.end() < len(text) else sentence.end
        )
        kind = spoken or _level(text, patterns)  # type: ignore[assignment]
        body = skipped
    else:
        body = sentence.start
        stressed = sentence.role == "important" or _STRESSED.match(text) is not None
        kind = "important" if stressed else _level(text, patterns)
    words = edited(plain_text(known, body, sentence.end), imperative=False)
    return Told(
        kind,
        start,
        sentence.end,
        words,
        _nouns(known, body, sentence.end),
        bool(patterns.late.search(text)),
        match is not None,
    )


def without_work_after(
    known: Annotations, sentence: Sentence, clauses: list[Clause], patterns: RolePatterns
) -> tuple[Sentence, list[Clause]]:
    """A sentence that warns cut before the work that follows in it, and the clauses of that work.

    Only an instruction to take something off or apart that opens with a word like "now" or "then" is such work.
    """
    warned = False
    for i, clause in enumerate(clauses):
        opens = clause.link in ("then", "so") or known.lower[clause.start] in _TURNS
        opens = opens or (clause.link == "comma" and clause.object is not None and clause.manner is None and i > 2)
        works = clause.deed is not None and clause.mood == "imperative" and clause.deed.effect in _WORK
        if warned and opens and works and clause.start > sentence.start:
            return replace(sentence, end=clause.start), clauses[i:]
        warned = warned or patterns.alert.search(known.words(clause.start, clause.end)) is not None
    return sentence, []


def hung_on(known: Annotations, sentence: Sentence, clauses: list[Clause]) -> int | None:
    """The clause from which a sentence of work ends in a warning: "pull the pump off, mind the oil, there's plenty".

    None if there is no such clause, or if work follows it.
    """
    for i, clause in enumerate(clauses):
        text = known.words(clause.core, sentence.end)
        reasoned = clause.core < clause.end and known.tags[clause.core] == "J" and _REASON.search(text)
        if i and (_CARE.match(text) or reasoned):
            works = any(c.deed and c.mood == "imperative" and c.deed.effect in _WORKS for c in clauses[i:])
            return None if works else i
    return None


def goes_on(known: Annotations, sentence: Sentence, told: Told, patterns: RolePatterns) -> bool:
    """Whether a sentence carries on the notice before it."""
    text = sentence_text(known, sentence)
    if sentence.role == "notice" or not told.text.strip(" .!"):
        return True
    if sentence.role not in ("aside", "step", "important", "groups"):
        return False
    acts = [c for c in known.clauses_of(sentence) if c.deed and c.mood in ("imperative", "planned")]
    if any(c.deed and c.deed.effect in ("undo", "detach", "disconnect", "attach", "fasten") for c in acts):
        return False
    if len(text.split()) >= _LONG:
        return False
    first = told.signalled and sentence.role != "groups" and len(_END.findall(told.text)) < 2
    if first and (_WAITS.search(text) or (sentence.role == "aside" and patterns.injury.search(text))):
        return True
    if _OBLIGES.match(text):
        return True
    return bool(_SAFETY.search(text)) and bool(_GOES_ON.match(text))


def extend(known: Annotations, told: Told, sentence: Sentence, patterns: RolePatterns) -> None:
    """Adds a sentence to a notice."""
    more = edited(plain_text(known, sentence.start, sentence.end), imperative=False)
    told.text = f"{told.text} {more}".strip(" !")
    told.end = sentence.end
    told.words |= _nouns(known, sentence.start, sentence.end)
    if not told.signalled and told.kind in ("caution", "note", "important"):
        level = _level(sentence_text(known, sentence), patterns)
        if level == "warning":
            told.kind = level


def _level(text: str, patterns: RolePatterns) -> NoticeKind:
    """Injury makes a warning, damage a caution."""
    return "warning" if patterns.injury.search(text) else "caution"


def _nouns(known: Annotations, start: int, end: int) -> frozenset[str]:
    phrases = known.phrases_between(start, end, places=False)
    return frozenset(head_word(piece) for phrase in phrases for piece in re.split(" of (?:the )?", phrase.name))


_BEFORE_YOU = re.compile(
    r"\bbefore (?:you|anyone|it|they|touching|handling|undoing|removing|opening|lifting|pulling)\b"
)


_GENERAL = frozenset("plug lead mains cord power battery hand finger minute hour time".split())
"""Nouns of warnings about a job as a whole."""
_HEAVY = re.compile(r"\b(?:heavy|weighs?|weight|kg|kilos?|kilograms?|pounds?)\b")
_SUDDEN = re.compile(
    r"\b(?:springs?|springy|brittle|fragile|delicate|thin|glass|tears?|snaps?|chips?|needle|jumps?|fly|flies|nick)\b"
)
"""A harm done in one movement, unlike heat or mains, which last for the whole job."""
_COMES = re.compile(r"\b(?:next|new|going back|goes back|refit\w*|put\w* back)\b")
_LIFTS = ("lift", "raise", "lower", "haul", "carry")
_REFITS = re.compile(r"\b(?:refit\w*|reinstall\w*|reassembl\w*|goes back|go back|putting|back (?:in|on|together))\b")


def _named(told: Told, step: Step) -> bool:
    """Whether a notice names the very action of a step: "before you lift it"."""
    return bool(step.action) and bool(
        re.search(rf"\bbefore (?:you )?{re.escape((step.action or '').split()[0])}", told.text.lower())
    )


def step_nouns(known: Annotations, step: StepFound) -> frozenset[str]:
    """The last words of all parts named in a step."""
    found = {word for a, b in step.ranges for word in _nouns(known, a, b)}
    return frozenset(found | {head_word(name) for name in (step.part, *(g.secures for g in step.groups)) if name})


def guarded(told: Told, start: float, steps: tuple[Step, ...], nouns: list[frozenset[str]], subject: str) -> str | None:
    """The id of the step that a notice guards; None for one about the job as a whole.

    That is the next step that works on a part the notice names; else one just before it that does (the notice came
    late); else the next step. What is said before the first step and names nothing but the job's own part guards none,
    unless the harm is done in one movement; a note explains what was done; a weight matters where the part is lifted.
    """
    own = {head_word(subject)} if subject else set()
    named = [n & told.words for n in nouns]
    before = [(s, n) for s, n in zip(steps, named, strict=True) if s.start < start]
    after = [(s, n) for s, n in zip(steps, named, strict=True) if s.start >= start and s.phase != "after"]
    if not before:
        return _first_guarded(told, after, own | _GENERAL)
    last = before[-1][0]
    if _BEFORE_YOU.search(told.text.lower()):
        late = _naming(reversed(before[-3:]))
        if late is not None and not any(n and _named(told, s) for s, n in after[:1]):
            return late
    if told.late:
        return _naming(reversed(before)) or last.id
    if told.kind == "note" and not _COMES.search(told.text.lower()):
        return _naming([before[-1], *after[:1]]) or last.id
    lifted = _naming((s, n) for s, n in after if s.phase == "remove" and s.action in _LIFTS)
    if lifted is not None and _HEAVY.search(told.text.lower()):
        return lifted
    following = _naming(after[:2]) or (_naming(reversed(before[-2:])) if last.phase == "remove" else None)
    if following is not None:
        return following
    if after and after[0][0].start - start < SOON:
        return after[0][0].id
    return _naming(reversed(before)) or (last.id if not after and _hangs_on(told, last, start) else None)


def _first_guarded(told: Told, after: list[tuple[Step, frozenset[str]]], general: set[str]) -> str | None:
    """The step that a notice before all steps guards; `general` words name nothing in particular."""
    if told.kind == "danger" or not after:
        return None
    if _SUDDEN.search(told.text.lower()):
        return after[0][0].id
    return _naming((s, n - general) for s, n in (after[:1] if told.kind == "warning" else after))


def _naming(steps: Iterable[tuple[Step, frozenset[str]]]) -> str | None:
    """The first step with words of the notice."""
    return next((step.id for step, shared in steps if shared), None)


def _hangs_on(told: Told, last: Step, start: float) -> bool:
    """Whether a warning at the end of a job is about the step just told, and not about refitting."""
    hurts = told.kind in ("warning", "caution") and start - last.start < SOON
    return hurts and not _REFITS.search(told.text.lower())
