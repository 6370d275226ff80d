"""Headings among telegraphic notes: capitals, "NEXT:", "x - remove", "repl x"."""

from __future__ import annotations

import re

from miner.language.annotations import Annotations, Sentence
from miner.model.draft import Kind
from miner.procedures.heading_forms import KINDS, Forms, Found, without_job

_SECTION_SIGN = re.compile(r"^[\s\-=#*>]+|[\s\-=#*<:.]+$")
_RULED = re.compile(r"[=#*>]|-{2,}")
_NOTE_HEADING = re.compile(
    r"^(?:[\-=#*>~]+\s*|\d+[.)]\s+)?(?P<next>next\b[\s:\-]*|now\b[\s:\-]*|job\b[\s:\-#]*\d*[\s:\-]*|"
    r"section\b[\s:]*\d*[\s:\-]*|start(?:ing)?(?: on| with)\b[\s:\-]*|then\b[\s:\-]*)?(?P<rest>.+)$"
)


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
    announced = bool(match["next"]) and not match["next"].startswith("then")
    points = 2.5 * (announced + known.capitals(sentence.start, sentence.end) + bool(_RULED.match(text.strip())))
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
