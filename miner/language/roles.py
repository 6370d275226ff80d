"""What each sentence is for: heading, prerequisite, notice, reassembly, closing, after-check, step or aside.

A role is a first opinion from the sentence alone; the procedure stage weighs it with what stands before and after.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, replace

from miner.language.absences import Absence, absences, leading
from miner.language.annotations import Annotations, Clause, Sentence
from miner.language.role_patterns import RolePatterns, role_patterns
from miner.lexicon import Lexicon

__all__ = ("ACTIVE", "RolePatterns", "assign_roles", "role_patterns", "sentence_text")

ACTIVE = ("imperative", "planned", "narrated", "result")
"""Moods in which work is done."""

_ORDERING = re.compile(r"\b(?:first|before|beforehand|in advance|prior|pre-?req\w*|require\w*|need\w*|must|complete)\b")
_THREAT = r"\b(?:because|'cause|or|otherwise|or else)\b"
_HARM = (
    r"\b(?:explo\w+|firework|bang|burn\w*|shock|kill\w*|bites?|hurts?|injur\w+|scald\w*"
    r"|your (?:eye|hand|finger|face|thumb)s?|goes up|blow|fire)\b"
)
_OR_ELSE = re.compile(f"{_THREAT}.*{_HARM}")
_MILD = ("handle", "adjust", "inspect", "move", "attach")
"""Effects of work that is done with care, so that a threat after it is a caution."""

_ISOLATES = re.compile(r"\b(?:mains|power|plug|unplug|switch|outlet|socket|cord|wall)\b")
_DUE = frozenset("must shall should needs need has have to".split())
_EARLY = 6
"""Words within which "you don't need anything off" is what a sentence is about."""
_LONG = 14
"""Words from which a sentence closes nothing."""
_PERFORM = frozenset(("carry", "carry out", "do", "perform", "start", "begin", "work"))
"""Verbs for doing a job as a whole: "it is carried out with the hood removed"."""
_SMALL = ".,CTRfOXWpd-"
"""Tags of words that may stand beside "hood off" in a sentence that says no more."""

_CONTRAST = re.compile(r" (?:the|by|on|at|from|with|in|your)\b")
"""What follows "never" in "take hold of the shaft, never the blades, and lift"."""
_TELLING = re.compile(r"(?:\b(?:i|we|they|it|that|she|he|who|which|to|you just|just)\s+|n't\s+)$")


def assign_roles(known: Annotations, lexicon: Lexicon) -> None:
    """Sets the role of every sentence; clauses must have been built."""
    patterns = role_patterns(lexicon)
    known.sentences = [replace(sentence, role=_role(known, sentence, patterns)) for sentence in known.sentences]


def sentence_text(known: Annotations, sentence: Sentence) -> str:
    """The sentence in lower case as transcribed; commas that nobody wrote take the place of blanks."""
    last, first = sentence.end - 1, known.offsets[sentence.start]
    text = known.text[first : known.offsets[last] + len(known.lower[last])]
    for at in range(sentence.start + 1, sentence.end) if known.commas else ():
        if at in known.commas:
            gap = known.offsets[at] - first - 1
            text = f"{text[:gap]},{text[gap + 1 :]}"
    return text


_REVERSE_PART = re.compile(r"reverse (?!(?:order|sequence|steps?|procedure|manner|fashion|way|direction)\b)")


@dataclass(frozen=True, slots=True)
class _Said:
    """A sentence with its text, the text without its full stop, its clauses and those of them in which work is done."""

    tags: str
    lower: list[str]
    text: str
    body: str
    clauses: list[Clause]
    acts: list[Clause]


def _role(known: Annotations, sentence: Sentence, patterns: RolePatterns) -> str:
    text = sentence_text(known, sentence)
    if known.breaks and known.lower[sentence.start] in (">", "("):
        return "remark"  # an observer's aside
    if patterns.signals.match(text):
        return "notice"
    clauses = known.clauses_of(sentence)
    acts = [clause for clause in clauses if clause.deed and clause.mood in ACTIVE and not clause.subordinate]
    said = _Said(known.tags, known.lower, text, text.rstrip(" .,!?;:"), clauses, acts)
    spares = _spares(said, patterns)
    if spares and not patterns.injury.search(said.body):
        return "no-prerequisite"
    if _is_closing(said, patterns):
        return "closing"
    required = patterns.prerequisite.search(said.body) is not None and _is_prerequisite(said)
    required = required or _states_out(known, sentence, said)
    warns = _warns_late(said, patterns) or _warns(said, patterns, required=required) or _threatens(said)
    if warns or (known.breaks and _exclaims(said, patterns)):
        return "notice"
    if patterns.reverse.search(said.body) and not _undoes_groups(clauses) and not _names_reverse(acts):
        return "reverse"
    if spares:
        return "no-prerequisite"
    if required:
        return "prerequisite"
    if _is_important(said, patterns):
        return "important"
    if acts:
        return "step"
    return "groups" if _has_groups(clauses) else "aside"


def _spares(said: _Said, patterns: RolePatterns) -> bool:
    """Whether a sentence says early on that nothing need be out, and tells of no work."""
    match = patterns.no_prerequisite.search(said.body)
    early = match is not None and len(said.body[: match.start()].split()) <= _EARLY
    return early and not any(map(_is_strong, said.acts))


def _has_groups(clauses: list[Clause]) -> bool:
    return any(clause.groups for clause in clauses)


def _undoes_groups(clauses: list[Clause]) -> bool:
    return any(clause.groups and clause.deed and clause.deed.effect in ("undo", "detach") for clause in clauses)


def _names_reverse(acts: list[Clause]) -> bool:
    """Whether "reverse" only belongs to the name of a part that is worked on: "undo the reverse gear lever"."""
    return any(act.object is not None and _REVERSE_PART.match(act.object.name) for act in acts)


def _is_closing(said: _Said, patterns: RolePatterns) -> bool:
    """A short sentence without fasteners: "and that's the pump out"."""
    if len(said.body.split()) >= _LONG or _has_groups(said.clauses):
        return False  # the patterns of closings are dear
    return patterns.closing.match(said.body) is not None


def _alert(said: _Said, patterns: RolePatterns) -> re.Match[str] | None:
    """The first alert that is no report ("I don't know", "they do not")."""
    for match in patterns.alert.finditer(said.text):
        reported = match[0] in ("do not", "don't", "never", "avoid") and _TELLING.search(said.text[: match.start()])
        contrasts = match[0] == "never" and match.start() and _CONTRAST.match(said.text, match.end())
        if not reported and not (contrasts and any(map(_is_strong, said.acts))):
            return match
    return None


def _warns_late(said: _Said, patterns: RolePatterns) -> bool:
    """A warning that comes after the work it is about: "I should have said, that spring can hurt you"."""
    if not patterns.late.search(said.text) or not (_alert(said, patterns) or patterns.injury.search(said.text)):
        return False
    first = said.clauses[0]
    return not (first.groups and first.deed)


def _warns(said: _Said, patterns: RolePatterns, *, required: bool) -> bool:
    """An alert makes a sentence a notice unless the sentence is an instruction with a caution hung on."""
    alert = _alert(said, patterns)
    if not alert or (required and alert.start() > 20):
        return False
    first = said.clauses[0]
    words_before = len(said.text[: alert.start()].split())
    if (first.mood == "negative" and said.tags[first.core] != "I") or words_before == 0:
        return True
    strong = next((clause for clause in said.acts if _is_strong(clause)), None)
    if strong is None or (words_before <= 2 and len(set(patterns.injury.findall(said.text))) > 1):
        return True  # "coil hot, burns, let it cool"
    return words_before < strong.start - first.start or (words_before <= 3 and strong is not first)


def _exclaims(said: _Said, patterns: RolePatterns) -> bool:
    """A note of a danger with an exclamation mark and no work: "lamp hot!"."""
    return said.text.rstrip().endswith("!") and not said.acts and patterns.injury.search(said.body) is not None


def _is_strong(clause: Clause) -> bool:
    """Work that is more than care, a look, or switching off."""
    deed = clause.deed
    return (
        deed is not None and deed.effect not in ("handle", "inspect", "energise", "isolate") and clause.mood != "result"
    )


def _threatens(said: _Said) -> bool:
    """Careful work with what happens otherwise: "hold it down or it hits your hand"."""
    mild = all(clause.deed.effect in _MILD for clause in said.acts if clause.deed)
    return bool(said.acts) and mild and _OR_ELSE.search(said.body) is not None


def _is_important(said: _Said, patterns: RolePatterns) -> bool:
    """A remark on how to do it, or a plan that says so early; no plain work."""
    planned = said.clauses[0].mood == "planned" and patterns.important.search(said.text[:40])
    if not planned and not patterns.important.match(said.text):
        return False
    return not any(act.deed and act.deed.effect in ("detach", "disconnect", "undo") for act in said.acts)


def _states_out(known: Annotations, sentence: Sentence, said: _Said) -> bool:
    """Whether all that a sentence tells is that parts are out, or must be: "which means the hood is off, obviously"."""
    told = absences(known, sentence.start, sentence.end)
    if not told or _has_groups(said.clauses):
        return False
    performs = any(act.deed and act.deed.verb in _PERFORM for act in said.acts)
    leads = told if performs else leading(known, sentence.start, sentence.end)
    if not any(a.stated == "lead" for a in leads) and not any(_is_sure(a) for a in told):
        covered = {at for a in told for at in range(a.start, a.end)}
        if not all(at in covered or said.tags[at] in _SMALL for at in range(sentence.start, sentence.end)):
            return False
    return all(
        _is_due(said, act) or (act.deed and act.deed.verb in _PERFORM) or any(_overlaps(a, act) for a in told)
        for act in said.acts
    )


def _is_sure(absence: Absence) -> bool:
    """Whether a statement that something is out cannot be meant as work."""
    return absence.stated == "required" or (absence.marked and absence.stated in ("state", "bare"))


def _overlaps(absence: Absence, clause: Clause) -> bool:
    return absence.start < clause.end and clause.start < absence.end


def _is_due(said: _Said, clause: Clause) -> bool:
    """Whether a clause tells what must have been done: "the tank shall be empty"."""
    before = said.lower[clause.start : clause.deed.start] if clause.deed else []
    return "be" in before and bool(_DUE.intersection(before))


def _gives_reason(said: _Said, clause: Clause) -> bool:
    return said.lower[clause.start : clause.core + 1][:2].count("because") > 0


def _in_passive(clause: Clause) -> bool:
    """Work told in the passive: "the cover is eased off"."""
    told = clause.mood == "narrated" and clause.deed is not None and clause.deed.form == "past"
    if not told or clause.deed is None or clause.object is None:
        return False
    return clause.start <= clause.object.start < clause.deed.start


def _is_denied(said: _Said, clause: Clause) -> bool:
    """Whether a clause says what cannot be done: "you can't get near it"."""
    before = said.lower[clause.start : clause.deed.start] if clause.deed else []
    return any(word.endswith("n't") or word in ("cannot", "not") for word in before)


def _is_prerequisite(said: _Said) -> bool:
    """A prerequisite speaks of whole parts, not of fasteners, and gives no detail of how."""
    reason = next((i for i, c in enumerate(said.clauses) if i and _gives_reason(said, c)), len(said.clauses))
    clauses, planned = said.clauses[:reason], ("imperative", "planned")
    if any(group.kind not in ("clip", "latch") for clause in clauses for group in clause.groups):
        return False
    acts = any(
        clause.deed
        and (clause.mood in (*planned, "result") or _in_passive(clause))
        and clause.deed.particle != clause.deed.start
        and clause.deed.verb not in _PERFORM
        and not _is_denied(said, clause)
        for clause in clauses
    )
    if acts and _ISOLATES.search(said.body):
        return False
    effects = [c.deed.effect for c in clauses if c.deed and (c.mood in planned or _in_passive(c))]
    removing = all(effect in ("detach", "handle", "undo") for effect in effects)
    if acts and not (removing and _ORDERING.search(said.body)):
        return False
    return any(tag in "nH" for tag in said.tags[clauses[0].start : clauses[-1].end])
