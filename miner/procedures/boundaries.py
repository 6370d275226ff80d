"""Where each job starts and ends, also jobs that start with no heading."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from itertools import pairwise

from miner.language.annotations import Annotations, Clause
from miner.language.roles import ACTIVE
from miner.model.naming import head_word
from miner.procedures.heading_forms import Found
from miner.procedures.phases import FITS, INSTALLS, NEW

_OUTRO = (
    "for watching",
    "thank you for watching",
    "see you",
    "end of recording",
    "bye",
    "that's the whole",
    "thanks for",
    "end of the recording",
    "end of training",
    "that concludes",
)


@dataclass(frozen=True, slots=True)
class Span:
    """A job: its heading, and the sentences of its body (positions, half-open).

    `resumed` are the stretches in which it goes on after another job came between, each after words that say so.
    """

    heading: Found
    first: int
    last: int
    resumed: tuple[tuple[int, int], ...] = ()

    @property
    def stretches(self) -> tuple[tuple[int, int], ...]:
        """All stretches of the body, in order."""
        return ((self.first, self.last), *self.resumed)

    @property
    def end(self) -> int:
        """The sentence after the last."""
        return self.stretches[-1][1]


def cut_procedures(known: Annotations, headings: list[Found]) -> list[Span]:
    """The jobs of a recording in order; what stands before the first heading belongs to none.

    Inside the stretch of one heading a new job starts unannounced where its prerequisites are said after the stretch
    was closed or reversed, or where parts come off again after a closing sentence.
    """
    spans: list[Span] = []
    for i, heading in enumerate(headings):
        last = headings[i + 1].first if i + 1 < len(headings) else len(known.sentences)
        cuts = _unannounced(known, heading.last, last, heading.part)
        edges = [heading.last, *cuts, last]
        left = next((at for at in range(len(spans) - 1, -1, -1) if _is_left(spans[at], heading)), None)
        if left is not None:
            again = (heading.first if known.breaks else heading.last, edges[1])
            spans[left] = replace(spans[left], resumed=(*spans[left].resumed, again))
        else:
            spans.append(Span(heading, heading.last, edges[1]))
        for a, b in pairwise(edges[1:]):
            sentence = known.sentences[a]
            spans.append(Span(Found(a, a, sentence.start, sentence.start, "", None, 0.0, spoken=False), a, b))
    if not headings:
        first = next((i for i, s in enumerate(known.sentences) if s.role in ("step", "prerequisite")), None)
        if first is not None:
            start = known.sentences[first].start
            spans.append(
                Span(Found(first, first, start, start, "", None, 0.0, spoken=False), first, len(known.sentences))
            )
    return [_trimmed(known, span) for span in spans]


def _is_left(span: Span, heading: Found) -> bool:
    """Whether a heading goes back to a job that was left."""
    return heading.resumes and head_word(span.heading.part) == head_word(heading.part)


def _trimmed(known: Annotations, span: Span) -> Span:
    """A job without the chatter at the end of its stretches."""
    ends = [(first, _end(known, first, last)) for first, last in span.stretches]
    return replace(span, last=ends[0][1], resumed=tuple(ends[1:]))


def _unannounced(known: Annotations, first: int, last: int, part: str) -> list[int]:
    """Where jobs start without a heading in the stretch `first:last` of sentences; `part` is what its heading names."""
    cuts: list[int] = []
    settled = False  # the job so far was closed, or told how it goes back
    closed = False
    fitted = False  # it was spelled out how the part at hand goes back
    returned = False  # something was put back
    worked = False
    for at in range(first, last):
        role = known.sentences[at].role
        if worked and (settled or returned) and _states_absence(known, at, part):
            cuts.append(at)
            settled = closed = fitted = returned = worked = False
            part = ""
        elif role == "closing":
            settled = closed = worked
        elif role == "reverse":
            settled = worked
        elif role == "prerequisite" and settled:
            cuts.append(at)
            settled = closed = worked = False
        elif role in ("step", "groups"):
            if closed and (_removes(known, at) or (known.breaks and _begins(known, at))):
                start = at
                while start > first and known.sentences[start - 1].role == "notice":
                    start -= 1
                cuts.append(start)
                settled = closed = False
            elif (settled or fitted) and not closed and worked and _restarts(known, first, at, said=at - settled):
                cuts.append(at)
                settled = False
            fitted = worked and (_fits_back(known, at) or (fitted and not _removes(known, at)))
            returned = worked and (returned or _puts_back(known, at))
            worked = True
    return cuts


_ABSENT = re.compile(
    r"\W*(?:(?:and|so|now|then|okay|right|well) ?,? ?)*"
    r"(?:with (?:the |your |both |all |that )[^.]{2,110}?\b(?:off|out|removed|away)\b(?! (?:the|of|a)\b)"
    r"|(?:the |your |both )?[^.,]{2,60}(?:, [^.,]{2,40}){0,3} ?(?:'s|is|are|'re) (?:(?:still|already|both|all) )+"
    r"(?:off|out|away)\b"
    r"|[^.]{2,110} (?:is|are) (?:off|out)(?: at this (?:stage|point))\b)"
)
_GOES_BACK = re.compile(r"\b(?:back|again|reverse|refit\w*)\b")
_AGAIN = re.compile(
    r"\b(?:forgot|forget|should have|should've|also|too|before (?:that|this|you)|again|back|new|reverse|refit\w*)\b"
)


def _restarts(known: Annotations, first: int, at: int, said: int) -> bool:
    """Whether parts come off after "goes back in reverse" or "fit the new one" that were not spoken of before.

    Not if that was forgotten, which is told in the sentences from `said` on.
    """
    sentence = known.sentences[at]
    if not _removes(known, at) or _AGAIN.search(known.words(known.sentences[max(said, first)].start, sentence.end)):
        return False
    spoken = set(known.lower[known.sentences[first].start : sentence.start])
    named = [p for c in known.clauses[sentence.first_clause : sentence.last_clause] for p in c.objects] + [
        c.object for c in known.clauses[sentence.first_clause : sentence.last_clause] if c.object
    ]
    named += [c.source for c in known.clauses[sentence.first_clause : sentence.last_clause] if c.source]
    heads = {known.lower[p.head] for p in named if not p.place}
    heads |= {
        g.secures.rsplit(" ", 1)[-1]
        for c in known.clauses[sentence.first_clause : sentence.last_clause]
        for g in c.groups
        if g.secures
    }
    return 2 * len(heads - spoken) > len(heads)


def _states_absence(known: Annotations, at: int, part: str) -> bool:
    """Whether a sentence opens by saying which parts of other jobs are out: "with the hood and the drum still off"."""
    sentence = known.sentences[at]
    words = known.words(sentence.start, sentence.end)
    said = _ABSENT.match(words)
    if not said or _GOES_BACK.search(said[0]):
        return False
    end = sentence.start + len(said[0].split())
    heads = {head_word(one.name) for one in known.phrases_between(sentence.start, end, places=False)}
    return len(heads) > 1 or bool(heads - {head_word(part)})


def _fits_back(known: Annotations, at: int) -> bool:
    """Whether a sentence spells out how it goes back: "to fit, ...", "put the new valve in"."""
    clauses = known.clauses_of(known.sentences[at])
    first = clauses[0]
    if first.deed and first.deed.effect in INSTALLS and known.tags[first.core : first.deed.start] == "t":
        return True
    fitted = [c.object for c in clauses if c.deed and c.deed.effect in FITS and c.object]
    return any(NEW.search(known.words(part.start, part.end)) for part in fitted)


def _puts_back(known: Annotations, at: int) -> bool:
    """Whether anything is attached, fastened or connected in a sentence."""
    clauses = known.clauses_of(known.sentences[at])
    return any(clause.deed and clause.mood in ACTIVE and clause.deed.effect in INSTALLS for clause in clauses)


def _removes(known: Annotations, at: int) -> bool:
    sentence = known.sentences[at]
    return any(_is_removal(c) for c in known.clauses[sentence.first_clause : sentence.last_clause])


def _begins(known: Annotations, at: int) -> bool:
    """Whether a note can be the first of a job: it works on something, and does not only look or switch."""
    clauses = known.clauses_of(known.sentences[at])
    deed = clauses[0].deed
    if deed is None:
        return any(clause.groups for clause in clauses)
    return clauses[0].object is not None and deed.effect not in ("inspect", "energise", "adjust")


def _is_removal(clause: Clause) -> bool:
    return bool(
        clause.deed and clause.mood in ACTIVE and clause.deed.effect in ("detach", "undo", "disconnect", "open")
    )


def _end(known: Annotations, first: int, stop: int) -> int:
    """The last sentence of a stretch that still belongs to the job: chatter after the last useful one is left out."""
    last = first
    for at in range(first, stop):
        sentence = known.sentences[at]
        text = known.words(sentence.start, sentence.end)
        if any(mark in text for mark in _OUTRO):
            break
        if sentence.role not in ("aside", "remark") or (at == last and _tells_sizes(known, at)):
            last = at + 1
    return max(last, first)


def _tells_sizes(known: Annotations, at: int) -> bool:
    """Whether a sentence tells sizes of what was worked on: "they are 8 mm T10"."""
    return any(clause.measures and known.tags[clause.core] in "OIe" for clause in known.clauses_of(known.sentences[at]))
