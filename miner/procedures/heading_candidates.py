"""Headings in speech: numbered, announced, told as a plan, or a bare name after a marker; each with points."""

from __future__ import annotations

import re

from miner.language.annotations import Annotations, Sentence
from miner.language.numbers import value_of
from miner.language.roles import sentence_text
from miner.model.naming import head_word
from miner.procedures.fronted_jobs import fronted_job
from miner.procedures.gerund_jobs import gerund_job
from miner.procedures.heading_forms import OPENER, Forms, Found
from miner.procedures.named_jobs import Announcement, named_job
from miner.procedures.note_headings import note_heading
from miner.procedures.planned_jobs import planned_job

_REFERS = re.compile(
    rf"{OPENER}(?:first(?:ly)?,? )?(?:complete|perform|carry out|follow|see|refer to|work through|do sections?)\b"
)
_THIS_JOB = re.compile(r"\b(?:this|that|for|before|first|with|already|been|once|after|prereq\w*)\b")
_OPENER = re.compile(OPENER)
_BACK_TO = re.compile(
    rf"{OPENER}(?:(?:let's|we|i|we're|i'm|we'll|i'll|we can|i can) )?(?:now |just )?"
    r"(?:(?:get|go|come|getting|going|coming|am|are|return|returning|pick up) )?(?:back (?:on )?to|return(?:ing)? to) "
    r"(?:the |that |our |my |this )?"
)
_ANSWER = re.compile(r"(?:yes|yep|yeah|no|nope)\b(?! (?:so|right|okay|now|next))")
_WHERE = re.compile(r"\b(?:where (?:was i|were we)|as i was saying|what was i doing|where did (?:i|we) get to)\b")
_BACK_ON = re.compile(r"[\s=\-#*>~]*back (?:on|at|with) (?=[^:]+(?:-{2,}|={2,})\s*$)")
_AGAIN = re.compile(r"(?:the )?(?:[a-z\-]+ ){1,4}?(?:again|cont(?:inued|'d|d)?|resumed)\b(?= ?[:\-])")


def heading_candidate(known: Annotations, at: int, forms: Forms) -> Found | None:
    """The heading that a sentence may be, with points from its form alone; None if it cannot be one."""
    sentence = known.sentences[at]
    text = sentence_text(known, sentence)
    resumed = _resumed(known, at, sentence, text)
    if resumed is not None:
        return resumed
    announced = sentence.role == "notice" and forms.announced.match(text)
    if sentence.role == "notice" and not announced and not known.breaks:
        return fronted_job(
            known, at, sentence, forms.fronted
        )  # "side panel first, then there's eight bar in this thing"
    if sentence.role in ("notice", "reverse", "no-prerequisite", "closing") and not announced:
        return None
    if _REFERS.match(text):
        return None
    if known.breaks:
        return note_heading(known, at, sentence, text, forms)
    if forms.numbered.match(text):
        return _required(known, at, sentence, text) or _numbered(known, at, sentence, text, forms)
    if _ANSWER.match(text):
        return None  # "yes, the return pipe"
    told = _required(known, at, sentence, text) or planned_job(known, at, sentence, text)
    named = _surer(gerund_job(known, at, sentence, forms.fronted), fronted_job(known, at, sentence, forms.fronted))
    found = told or _surer(_spoken(known, at, sentence, text, forms), named)
    return None if found is not None and _undoes(known, sentence, found) else found


def _undoes(known: Annotations, sentence: Sentence, found: Found) -> bool:
    """Whether the part of a heading is but fasteners that are counted or sized: "next remove the two T22 screws"."""
    groups = [group for clause in known.clauses_of(sentence) for group in clause.groups]
    return any((g.count or g.drive) and g.name and head_word(g.name) == head_word(found.part) for g in groups)


def _resumed(known: Annotations, at: int, sentence: Sentence, text: str) -> Found | None:
    """A sentence that goes back to a part: "right, back to the pump", in notes "pump again: ..."."""
    match = _BACK_TO.match(text) or (_BACK_ON.match(text) if known.breaks else None)
    start = known.token_at(known.offsets[sentence.start] + match.end()) if match and match.end() < len(text) else None
    if start is None and known.breaks and _AGAIN.match(text) and known.tags[sentence.start] in "DnHAF":
        start = sentence.start
    start = _where_left(known, at, sentence, text) if start is None else start
    part = None
    if start is not None:
        part = next(
            iter(known.phrases_between(max(start - 1, sentence.start), min(start + 3, sentence.end), places=False)),
            None,
        )
    if part is None or part.count:
        return None
    end = next((i for i in range(part.end, sentence.end) if known.tags[i] in ",.-" or i in known.commas), sentence.end)
    return Found(at, at + 1, sentence.start, end, part.name, None, 2.5, resumes=True)


def _where_left(known: Annotations, at: int, sentence: Sentence, text: str) -> int | None:
    """The token after "where were we?", in the same sentence or alone in the next: "Where was I? The pump."."""
    asked = _WHERE.search(text)
    if asked and asked.end() < len(text.rstrip(" .?")):
        return known.token_at(known.offsets[sentence.start] + asked.end() + 1)
    before = sentence_text(known, known.sentences[at - 1]).rstrip(" .?,") if at else ""
    names = "V" not in known.tags[sentence.start : sentence.end]
    return sentence.start if names and _WHERE.search(before[-20:]) else None


def _surer(one: Found | None, other: Found | None) -> Found | None:
    """The candidate with more points."""
    if one is None or other is None:
        return one or other
    return one if one.points >= other.points else other


def _required(known: Annotations, at: int, sentence: Sentence, text: str) -> Found | None:
    """A part that must be out and of which more is told than that: the job that takes it out begins."""
    if sentence.role != "prerequisite" or _THIS_JOB.search(re.sub(r"^first\b", "", text)):
        return None
    wanted = known.phrases_between(sentence.start, sentence.end, places=False)
    if wanted and (len(wanted) == 1 or "because" in text) and wanted[0].count is None:
        return Found(at, at + 1, sentence.start, sentence.end, wanted[0].name, "remove", 2.5, None)
    return None


def _numbered(known: Annotations, at: int, sentence: Sentence, text: str, forms: Forms) -> Found | None:
    """A section with its number; the name may be the next sentence."""
    match = forms.numbered.match(text)
    if match is None:
        return None
    number = int(value_of(match["n"]))
    if not text[match.end() :].strip(" .,:") and at + 1 < len(known.sentences):
        name = known.sentences[at + 1]
        return named_job(known, Announcement(at, at + 2, sentence.start, name.start, name.end, 5.0, number), forms)
    start = _token_after(known, sentence, match.end())
    return named_job(known, Announcement(at, at + 1, sentence.start, start, sentence.end, 5.0, number), forms)


def _spoken(known: Annotations, at: int, sentence: Sentence, text: str, forms: Forms) -> Found | None:
    """A name after words that announce it, at the start or in a later clause; else the sentence taken as a name."""

    def announced(after: int, points: float) -> Found | None:
        start = _token_after(known, sentence, after)
        return named_job(known, Announcement(at, at + 1, sentence.start, start, sentence.end, points), forms)

    match = forms.announced.match(text)
    if match and match.end() < len(text):
        return announced(match.end(), 3.75 if sentence.role != "groups" else 1.0)
    match = forms.next.match(text)
    if match and match.end() < len(text):
        return announced(match.end(), 2.5)
    opener = _OPENER.match(text)
    after = min(opener.end() if opener else 0, len(text) - 1)
    return _inner(known, at, sentence, forms) or announced(after, 1.5 if forms.weak.match(text) else 0.5)


def _token_after(known: Annotations, sentence: Sentence, offset: int) -> int:
    """The token at an offset (characters) into a sentence's text."""
    return known.token_at(known.offsets[sentence.start] + offset)


def _inner(known: Annotations, at: int, sentence: Sentence, forms: Forms) -> Found | None:
    """An announcement in a later clause: "the cord's frayed, so next we're putting a new cord in"."""
    for clause in known.clauses[sentence.first_clause + 1 : sentence.last_clause]:
        text = known.words(clause.start, clause.end)
        match = forms.announced.match(text.lstrip(" ,")) or forms.next.match(text.lstrip(" ,"))
        if match and match.end() < len(text) - 2:
            start = clause.start + len(text[: match.end() + len(text) - len(text.lstrip(" ,"))].split())
            if start < clause.end:
                return named_job(known, Announcement(at, at + 1, sentence.start, start, clause.end, 2.5), forms)
    return None
