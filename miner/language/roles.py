"""What each sentence is for: heading, prerequisite, notice, reassembly, closing, after-check, step or aside.

A role is a first opinion from the sentence alone; the procedure stage weighs it with what stands before and after.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from functools import lru_cache

from miner.language.annotations import Annotations, Clause, Sentence
from miner.lexicon import Lexicon
from miner.lexicon.lookup import lookup

PART = r"(?:[^.,;]{1,60}?)"
_ORDERING = re.compile(r"\b(?:first|before|beforehand|prior|pre-?req\w*|require\w*|need\w*|must|complete)\b")
_OR_ELSE = re.compile(
    r"\b(?:because|'cause|or|otherwise|or else)\b.*\b(?:explo\w+|firework|bang|burn\w*|shock|kill\w*|bites?|hurts?|injur\w+|scald\w*|your (?:eye|hand|finger|face|thumb)s?|goes up|blow|fire)\b"
)
_ISOLATES = re.compile(r"\b(?:mains|power|plug|unplug|switch|socket outlet|wall)\b")
ACTIVE = ("imperative", "planned", "narrated", "result")


@dataclass(frozen=True, slots=True)
class RolePatterns:
    """The lexicon's phrases, compiled, one pattern a role."""

    signals: re.Pattern[str]
    signal_kinds: tuple[str, ...]
    alert: re.Pattern[str]
    important: re.Pattern[str]
    injury: re.Pattern[str]
    reverse: re.Pattern[str]
    install: re.Pattern[str]
    after: re.Pattern[str]
    closing: re.Pattern[str]
    late: re.Pattern[str]
    prerequisite: re.Pattern[str]
    no_prerequisite: re.Pattern[str]


def _pattern(text: str) -> str:
    return text.replace("{part}", PART).replace("{number}", r"(?:\d+|[a-z]+)")


@lru_cache(maxsize=8)
def role_patterns(lexicon: Lexicon) -> RolePatterns:
    """The patterns of a lexicon."""
    index = lookup(lexicon)

    def compiled(role: str, form: str = r"(?:{})") -> re.Pattern[str]:
        return re.compile(form.format("|".join(_pattern(p) for p in index.phrases(role))))

    kinds = ("danger", "warning", "caution", "important", "note")
    signals = "|".join(f"(?P<{kind}>{'|'.join(index.phrases('signal-' + kind))})" for kind in kinds)
    opener = r"(?:(?:so|and|okay|ok|now|oh|also|but|a|another|one|quick|big|safety|right|well|first)\b[ ,]*)*"
    return RolePatterns(
        signals=re.compile(rf"{opener}(?:(?P<bang>!+|/!\\|⚠)|(?:{signals})(?=[\s,:.!\-–]|$))[\s,:.!\-–]*"),
        signal_kinds=kinds,
        alert=compiled("alert", r"(?<![\w'])(?:{})(?![\w'])"),
        important=compiled("important", r"(?<!\w)(?:{})"),
        injury=compiled("injury", r"(?<!\w)(?:{})(?!\w)"),
        reverse=compiled("reverse", r"(?<!\w)(?:{})"),
        install=compiled(
            "install-start", r"(?:(?:so|and|then|now|okay|ok|right|well|alright|but)\b[ ,]*)*(?:{})(?!\w)"
        ),
        after=compiled("after-start", r"(?:(?:so|and|then|now|okay|ok|right|alright|but)\b[ ,]*)*(?:{})(?!\w)"),
        closing=compiled(
            "closing", r"(?:(?:so|and|then|now|okay|ok|right|well|alright|yep|yeah|there)\b[ ,]*)*(?:{})[\s.,!]*$"
        ),
        late=compiled("late"),
        prerequisite=compiled("prerequisite"),
        no_prerequisite=compiled("no-prerequisite"),
    )


def assign_roles(known: Annotations, lexicon: Lexicon) -> None:
    """Sets the role of every sentence; clauses must have been built."""
    patterns = role_patterns(lexicon)
    known.sentences = [replace(s, role=_role(known, s, patterns)) for s in known.sentences]


def sentence_text(known: Annotations, sentence: Sentence) -> str:
    """The sentence in lower case as transcribed."""
    last = sentence.end - 1
    return known.text[known.offsets[sentence.start] : known.offsets[last] + len(known.lower[last])]


def _role(known: Annotations, sentence: Sentence, patterns: RolePatterns) -> str:
    text = sentence_text(known, sentence)
    if known.breaks and known.lower[sentence.start] in (">", "("):
        return "remark"  # an observer's aside
    clauses = known.clauses[sentence.first_clause : sentence.last_clause]
    body = text.rstrip(" .,!?;:")
    if patterns.signals.match(text):
        return "notice"
    if patterns.closing.match(body) and not any(c.groups for c in clauses) and len(body.split()) < 14:
        return "closing"
    first = clauses[0]
    acts = [c for c in clauses if c.deed and c.mood in ACTIVE and not c.subordinate]
    alert = _alert(patterns, text)
    if (
        patterns.late.search(text)
        and (alert or patterns.injury.search(text))
        and not any(c.groups and c.deed for c in clauses[:1])
    ):
        return "notice"
    required = patterns.prerequisite.search(body) and _is_prerequisite(known, clauses, body)
    if alert and not (required and alert.start() > 20) and _is_notice(known, clauses, text, alert, acts):
        return "notice"
    if (
        acts
        and all(c.deed.effect in ("handle", "adjust", "inspect", "move", "attach") for c in acts if c.deed)
        and _OR_ELSE.search(body)
    ):
        return "notice"
    if patterns.reverse.search(body) and _is_reverse(clauses, acts, body):
        return "reverse"
    if patterns.no_prerequisite.search(body):
        return "no-prerequisite"
    if required:
        return "prerequisite"
    if patterns.important.match(text) or (first.mood == "planned" and patterns.important.search(text[:40])):
        if not any(c.deed and c.deed.effect in ("detach", "disconnect", "undo") for c in acts):
            return "important"
    if acts:
        return "step"
    if any(c.groups for c in clauses):
        return "groups"
    return "aside"


_TELLING = re.compile(r"(?:\b(?:i|we|they|it|that|she|he|who|which|to|you just|just)\s+|n't\s+)$")


def _alert(patterns: RolePatterns, text: str) -> re.Match[str] | None:
    """The first alert that is no report ("I don't know", "they do not")."""
    for match in patterns.alert.finditer(text):
        if match[0] in ("do not", "don't", "never", "avoid") and _TELLING.search(text[: match.start()]):
            continue
        return match
    return None


def _is_notice(known: Annotations, clauses: list[Clause], text: str, alert: re.Match[str], acts: list[Clause]) -> bool:
    """An alert makes a sentence a notice unless the sentence is an instruction with a caution hung on."""
    first = clauses[0]
    words_before = len(text[: alert.start()].split())
    if (first.mood == "negative" and known.tags[first.core] != "I") or words_before == 0:
        return True
    strong = [
        c
        for c in acts
        if c.deed and c.deed.effect not in ("handle", "inspect", "energise", "isolate") and c.mood != "result"
    ]
    if not strong:
        return True
    at = strong[0].start - first.start
    return words_before < at or (words_before <= 2 and strong[0] is not first)


def _is_reverse(clauses: list[Clause], acts: list[Clause], body: str) -> bool:
    return not any(c.groups and c.deed and c.deed.effect in ("undo", "detach") for c in acts)


def _is_prerequisite(known: Annotations, clauses: list[Clause], body: str) -> bool:
    """A prerequisite speaks of whole parts, not of fasteners, and gives no detail of how."""
    if any(c.groups and not all(g.kind in ("clip", "latch") for g in c.groups) for c in clauses):
        return False
    acts = any(
        c.deed and c.mood in ("imperative", "planned", "result") and c.deed.particle != c.deed.start for c in clauses
    )
    if acts and _ISOLATES.search(body):
        return False
    removing = all(
        c.deed.effect in ("detach", "handle", "undo") for c in clauses if c.deed and c.mood in ("imperative", "planned")
    )
    if acts and not (_ORDERING.search(body) and removing):
        return False
    return any(t in "nH" for t in known.tags[clauses[0].start : clauses[-1].end])
