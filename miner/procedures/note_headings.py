"""Headings among telegraphic notes: capitals, "NEXT:", "x - remove", "repl x"."""

from __future__ import annotations

import re

from miner.language.annotations import Annotations, Sentence
from miner.model.draft import Kind
from miner.procedures.heading_forms import KINDS, Forms, Found, without_job

_SECTION_SIGN = re.compile(r"^[\s\-=#*>]+|[\s\-=#*<:.]+$")
_RULED_AFTER = re.compile(r"[^\s\-=#*][\s]*(?:[=#*]|-{2,}|={2,})\s*$")
_NUMBERED = re.compile(r"(?:(?:job|section|task|part)\b[\s:#]*|#\s*)\d+\b")
_RULED = re.compile(r"[=#*>]|-{2,}")
_NOTE_HEADING = re.compile(
    r"^(?:#\s*\d+[.):]?\s+|[\-=#*>~]+\s*|\d+[.)]\s+)?(?P<next>next\b[\s:\-]*|now\b[\s:\-]*|job\b[\s:\-#]*\d*[\s:,\-]*|"
    r"section\b[\s:]*\d*[\s:,\-]*|(?P<begin>(?:start(?:ing)?|begin(?:ning)?)(?P<on> on| with)?)\b[\s:\-]*|"
    r"then\b[\s:\-]*)?(?P<rest>.+)$"
)
_OFTEN = 2
"""Notes that must begin with "start" before a bare "start pump" is a heading and no switching on."""


def note_heading(known: Annotations, at: int, sentence: Sentence, text: str, forms: Forms) -> Found | None:
    """A heading among notes: capitals, "NEXT:", "x - remove", "repl x", a name alone."""
    if any(c.groups and any(g.count or g.drive for g in c.groups) for c in known.clauses_of(sentence)):
        return None
    match = _NOTE_HEADING.match(text.strip())
    if not match:
        return None
    rest = _SECTION_SIGN.sub("", match["rest"])
    words = rest.split()
    if not words or len(words) > 7:
        return None
    job = forms.job_end.search(rest) or forms.job_start.match(rest)
    if known.lower[sentence.start] == "end":
        return None  # "end of top panel"
    announced = bool(match["next"]) and not match["next"].startswith("then")
    if match["begin"] and not match["on"] and not _is_habit(known, sentence):
        return None
    ruled = bool(_RULED.match(text.strip()) or _RULED_AFTER.search(text))
    points = 2.5 * (announced + known.capitals(sentence.start, sentence.end) + ruled)
    points += 1.0 if ruled or _NUMBERED.match(text.strip()) else 0.0
    kind: Kind | None = None
    if job and rest.startswith(("put ", "fit ")):
        return None
    if job and points < 2.5 and any(job[kind] for kind in ("install", "inspect", "adjust", "test")):
        return None
    if job:
        kind = next((k for k in KINDS if job[k]), None)
        points += 2.0
    if not job and forms.job_note.search(rest) and len(words) <= 4:
        kind = "remove"
        points += 1.0
    if (sentence.role == "prerequisite" and not points) or (sentence.role == "step" and not job and points < 2.5):
        return None
    phrases = known.phrases_between(sentence.start, sentence.end, places=False)
    named = [p for p in phrases if without_job(p.name, forms.job_words)]
    if not named:
        return None
    part = without_job(named[0].name, forms.job_words)
    return Found(at, at + 1, sentence.start, sentence.end, part, kind, points, None)


def _is_habit(known: Annotations, sentence: Sentence) -> bool:
    """Whether several notes begin with the word of this one."""
    word = known.lower[sentence.start]
    return sum(known.lower[at] == word for at in known.breaks if at < len(known.lower)) > _OFTEN
