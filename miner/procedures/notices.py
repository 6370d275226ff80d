"""Warnings, cautions, remarks and notes: their level, their words, and the step they guard."""

from __future__ import annotations

import re
from dataclasses import dataclass

from miner.language.annotations import Annotations, Sentence
from miner.language.roles import RolePatterns, sentence_text
from miner.lexicon import Lexicon
from miner.lexicon.lookup import lookup
from miner.model.draft import NoticeKind, Step
from miner.model.naming import head_word
from miner.procedures.step_found import StepFound
from miner.procedures.wording import edited, plain_text

SOON = 45.0
"""Seconds within which the next step is the one that a notice guards, if nothing else tells."""

_GOES_ON = re.compile(
    r"(?:(?:so|and|or|because|but|otherwise|these|they|it|this|that|if|wear|let|keep|never|do not|don't|always|"
    r"then|also|use|avoid|make sure|work|check|have|stop|wait|hold)\b)"
)
_SAFETY = re.compile(
    r"\b(?:wear|gloves?|goggles|glasses|protection|cool|wait|discharge|never|not|don't|careful|licen[sc]ed|"
    r"electrician|qualified|keep (?:your|the|fingers|hands|a)|local|regulations?|ventilat\w+|short|hurt|burn|"
    r"spill|damage|break|dry|lose|lost|catch|tear|polarity)\b"
)


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


def read_notice(known: Annotations, sentence: Sentence, patterns: RolePatterns, late: re.Pattern[str]) -> Told:
    """The notice of one sentence."""
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
        kind = "important" if sentence.role == "important" else _level(text, patterns)
    words = edited(plain_text(known, body, sentence.end), imperative=False)
    return Told(
        kind, start, sentence.end, words, _nouns(known, body, sentence.end), bool(late.search(text)), match is not None
    )


def late_pattern(lexicon: Lexicon) -> re.Pattern[str]:
    """Words by which a speaker owns up that a warning came late."""
    return re.compile("|".join(lookup(lexicon).phrases("late")) or "(?!)")


def goes_on(known: Annotations, sentence: Sentence, told: Told) -> bool:
    """Whether a sentence carries on the notice before it."""
    text = sentence_text(known, sentence)
    if sentence.role == "notice" or not told.text.strip(" .!"):
        return True
    if sentence.role not in ("aside", "step", "important", "groups"):
        return False
    acts = [c for c in known.clauses_of(sentence) if c.deed and c.mood in ("imperative", "planned")]
    if any(c.deed and c.deed.effect in ("undo", "detach", "disconnect", "attach", "fasten") for c in acts):
        return False
    return bool(_SAFETY.search(text)) and bool(_GOES_ON.match(text)) and len(text.split()) < 25


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
    return frozenset(head_word(phrase.name) for phrase in known.phrases_between(start, end, places=False))


_BEFORE_YOU = re.compile(
    r"\bbefore (?:you|anyone|it|they|touching|handling|undoing|removing|opening|lifting|pulling)\b"
)


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
    late); else the next step. What is said before the first step and names nothing but the job's own part guards none.
    """
    own = {head_word(subject)} if subject else set()
    before = [(s, n) for s, n in zip(steps, nouns, strict=True) if s.start < start]
    after = [(s, n) for s, n in zip(steps, nouns, strict=True) if s.start >= start and s.phase != "after"]
    if before and _BEFORE_YOU.search(told.text.lower()):
        late = next((s.id for s, n in reversed(before[-3:]) if n & told.words), None)
        if late is not None and not any(n & told.words and _named(told, s) for s, n in after[:1]):
            return late
    if told.late and before:
        return next((s.id for s, n in reversed(before) if n & told.words), before[-1][0].id)
    if not before and told.kind in ("danger", "warning"):
        return None
    if not before:
        return next((s.id for s, n in after if n & (told.words - own)), None)
    following = next((s.id for s, n in after[:2] if n & told.words), None)
    if following is None and before[-1][0].phase == "remove":
        following = next((s.id for s, n in reversed(before[-2:]) if n & told.words), None)
    if following is not None:
        return following
    if after and after[0][0].start - start < SOON:
        return after[0][0].id
    return next((s.id for s, n in reversed(before) if n & told.words), None)
