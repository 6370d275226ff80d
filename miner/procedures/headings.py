"""Headings: utterances that announce a job, found by their form and by what stands around them."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from functools import lru_cache

from miner.language.annotations import Annotations, Clause, Phrase, Sentence
from miner.language.numbers import ANY, value_of
from miner.language.roles import sentence_text
from miner.lexicon import Lexicon
from miner.lexicon.lookup import lookup
from miner.model.draft import Kind
from miner.model.naming import part_words

ENOUGH = 4.0
"""Points that make a candidate a heading."""
ENOUGH_UNPUNCTUATED = 3.25
"""The same for raw captions, where a name never stands alone in its sentence."""

TWICE_WITHIN = 2
"""Sentences between two halves of one heading ("Okay, the pump. ... So we're replacing the pump.")."""

_KINDS: tuple[Kind, ...] = ("replace", "remove", "install", "inspect", "adjust", "test")
_OPENER = r"(?:(?:so|okay|ok|right|alright|now|then|and|well|um|uh|erm|yeah|yep|anyway|good|great|cool|lovely|hm+|mm|oh)\b[\s,.]*)*"
_SECTION_SIGN = re.compile(r"^[\s\-=#*>]+|[\s\-=#*<:.]+$")


@dataclass(frozen=True, slots=True)
class Found:
    """A heading: its sentences (positions, half-open), its tokens, the part it names, what kind of job it announces.

    `kind` is None where the words leave it open ("okay, the pump"); `number` is the section number, if one was said.
    `points` tells how sure it is; `body` is the token at which words that already belong to the body begin.
    """

    first: int
    last: int
    start: int
    end: int
    part: str
    kind: Kind | None
    points: float
    number: int | None = None
    spoken: bool = True


@dataclass(frozen=True, slots=True)
class _Forms:
    numbered: re.Pattern[str]
    announced: re.Pattern[str]
    next: re.Pattern[str]
    weak: re.Pattern[str]
    job_end: re.Pattern[str]
    job_start: re.Pattern[str]
    job_note: re.Pattern[str]
    job_words: frozenset[str]


@lru_cache(maxsize=8)
def _forms(lexicon: Lexicon) -> _Forms:
    index = lookup(lexicon)
    jobs = [f"(?P<{kind}>{index.phrases('job')[i]})" for i, kind in enumerate(_KINDS)]
    either = "|".join(jobs)
    subject = r"(?:(?:we|i|you)(?:'re|'m|'ll| are| am| will)?\s+|let's\s+|let us\s+|(?:going to|gonna|to|be|now|just|how|is|the)\s+)*"
    return _Forms(
        numbered=re.compile(rf"{_OPENER}(?:{'|'.join(index.phrases('numbered'))})\s+(?:number\s+)?(?P<n>{ANY})\b[\s,.:\-]*"),
        announced=re.compile(rf"{_OPENER}(?:(?:{'|'.join(index.phrases('announce'))})\b[\s,.:\-]*{_OPENER})+"),
        next=re.compile(rf"{_OPENER}(?:{'|'.join(index.phrases('announce-next'))})\b[\s,.:\-]*{_OPENER}"),
        weak=re.compile(rf"(?:{'|'.join(index.phrases('announce-weak'))})\b[\s,.:\-]+"),
        job_end=re.compile(rf"[\s,:\-]+(?:{either})$"),
        job_start=re.compile(rf"{subject}(?:{either})\b[\s:\-]+"),
        job_note=re.compile(rf"[\s,:\-]+(?:{'|'.join(index.phrases('job-note'))})$"),
        job_words=frozenset(re.findall(r"[a-z]+", " ".join(index.phrases("job")))),
    )


def find_headings(known: Annotations, lexicon: Lexicon) -> list[Found]:
    """The spoken headings of a recording, in order."""
    forms = _forms(lexicon)
    worked_on = _work(known)
    candidates = []
    for at, sentence in enumerate(known.sentences):
        candidate = _candidate(known, at, sentence, forms)
        if candidate is not None:
            candidates.append(replace(candidate, points=candidate.points + _context(known, candidate, worked_on)))
    return _chosen(known, candidates)


def _chosen(known: Annotations, candidates: list[Found]) -> list[Found]:
    """The candidates with enough points; one that says the same part again within a few words strengthens the first."""
    found: list[Found] = []
    enough = ENOUGH_UNPUNCTUATED if known.register == "captions" else ENOUGH
    for i, candidate in enumerate(candidates):
        if found and candidate.first < found[-1].last:
            continue
        merged = replace(candidate, points=candidate.points + _settled(known, found[-1].last if found else None, candidate.first))
        for other in candidates[i + 1 : i + 4]:
            if other.first - merged.last > TWICE_WITHIN or any(
                s.role in ("step", "notice", "reverse") and not _job_of(known, other, at)
                for at, s in enumerate(known.sentences[merged.last : other.first], merged.last)
            ):
                break
            same = part_words(other.part)[-1] == part_words(merged.part)[-1]
            bare = merged.end - merged.start <= 5 and other.first == merged.last and other.points >= ENOUGH and merged.points >= 2.0
            if same and min(other.points, merged.points) >= 1.5 and (other.kind or merged.kind or other.points >= 2.5) or (bare and not known.breaks):
                part = other.part if other.kind or len(other.part) > len(merged.part) else merged.part
                merged = replace(merged, last=other.last, end=other.end, part=part, kind=merged.kind or other.kind,
                                 points=max(merged.points, other.points) + 1.0)  # fmt: skip
        if merged.points >= enough:
            found.append(merged)
    return found


def _settled(known: Annotations, since: int | None, at: int) -> float:
    """Points for the job before: told to its end, still open, or hardly begun."""
    if since is None:
        return 0.75
    roles = {s.role for s in known.sentences[since:at]}
    clauses = known.clauses[known.sentences[since].first_clause : known.sentences[at].first_clause] if since < at else []
    effects = {c.deed.effect for c in clauses if c.deed and c.mood in ("imperative", "planned", "narrated", "result")}
    if roles & {"reverse", "closing"} or effects & {"attach", "fasten", "connect"} and effects & {"detach", "undo"}:
        return 1.0
    return 0.0 if effects & {"detach", "undo", "disconnect", "adjust", "inspect", "open"} else -1.0


def _job_of(known: Annotations, other: Found, at: int) -> bool:
    return other.first <= at < other.last


def _work(known: Annotations) -> dict[str, list[int]]:
    """For the last word of every part spoken of, the sentences where it is."""
    made: dict[str, list[int]] = {}
    for at, sentence in enumerate(known.sentences):
        for phrase in _phrases(known, sentence.start, sentence.end):
            if phrase.count is None and not phrase.place:
                made.setdefault(part_words(phrase.name)[-1], []).append(at)
    for clause in known.clauses:
        names = [clause.object.name] if clause.deed and clause.object else []
        names += [group.secures for group in clause.groups if group.secures]
        for name in names:
            made.setdefault(part_words(name)[-1], []).append(clause.sentence)
    return made


def _candidate(known: Annotations, at: int, sentence: Sentence, forms: _Forms) -> Found | None:
    if sentence.role in ("notice", "reverse", "no-prerequisite", "closing"):
        return None
    text = sentence_text(known, sentence)
    if known.breaks:
        return _note_heading(known, at, sentence, text, forms)
    if sentence.role == "prerequisite" and not re.search(r"\b(?:this|that|for|before|first|prereq\w*)\b", re.sub(r"^first\b", "", text)):
        wanted = [p for p in _phrases(known, sentence.start, sentence.end) if not p.place]
        if wanted and (len(wanted) == 1 or "because" in text) and wanted[0].count is None:
            return Found(at, at + 1, sentence.start, sentence.end, wanted[0].name, "remove", 2.5, None)
    match = forms.numbered.match(text)
    if match:
        rest = text[match.end() :].strip(" .,:")
        last = at + 1
        if not rest and at + 1 < len(known.sentences):
            following = known.sentences[at + 1]
            last = at + 2
            return _make(known, at, last, following.start, known.sentences[at + 1].end, 5.0, forms, int(value_of(match["n"])), sentence.start)
        start = known.token_at(known.offsets[sentence.start] + match.end())
        return _make(known, at, last, start, sentence.end, 5.0, forms, int(value_of(match["n"])), sentence.start)
    objective = _objective(known, at, sentence, text)
    if objective is not None:
        return objective
    match = forms.announced.match(text)
    if match and match.end() < len(text):
        start = known.token_at(known.offsets[sentence.start] + match.end())
        points = 3.75 if sentence.role not in ("groups",) else 1.0
        return _make(known, at, at + 1, start, sentence.end, points, forms, None, sentence.start)
    match = forms.next.match(text)
    if match and match.end() < len(text):
        start = known.token_at(known.offsets[sentence.start] + match.end())
        return _make(known, at, at + 1, start, sentence.end, 2.5, forms, None, sentence.start)
    inner = _inner(known, at, sentence, forms)
    if inner is not None:
        return inner
    match = forms.weak.match(text)
    opener_end = re.match(_OPENER, text).end()  # type: ignore[union-attr]
    start = known.token_at(known.offsets[sentence.start] + min(opener_end, len(text) - 1))
    points = 1.5 if match else 0.5
    return _make(known, at, at + 1, start, sentence.end, points, forms, None, sentence.start)


_COMES_NEXT = re.compile(rf"{_OPENER}(?P<part>(?:the|this|our) (?:[a-z\-]+ ){{0,3}}[a-z\-]+) (?:comes|is|'s|goes|are|come) (?:up )?(?:next|first|last)\b")
_MUST_COME = re.compile(r"\b(?:has|have|needs?|wants?|got|gotta|going|gonna|must)\b[^,.]{0,20}\b(?:come|be|go)\b[^,.]{0,8}\b(?:out|off|away|removed)\s*$")


_JOB_VERBS: dict[str, Kind] = {"remove": "remove", "replace": "replace", "change": "replace", "swap": "replace", "renew": "replace",
              "exchange": "replace", "install": "install", "adjust": "adjust", "calibrate": "adjust", "align": "adjust"}  # fmt: skip


def _objective(known: Annotations, at: int, sentence: Sentence, text: str) -> Found | None:
    """A job told as a plan and nothing more: "now we're going to take the lens off", "the pan has to come out"."""
    clauses = known.clauses[sentence.first_clause : sentence.last_clause]
    comes = _COMES_NEXT.match(text)
    if comes:
        phrases = [p for p in _phrases(known, sentence.start, sentence.end) if not p.place]
        if phrases:
            return Found(at, at + 1, sentence.start, sentence.end, phrases[0].name, None, 3.5, None)
    if any(c.groups or c.tools or c.source or c.measures for c in clauses) or sentence.end - sentence.start > 16:
        return None
    for clause in clauses:
        if clause.deed is not None and clause.mood == "imperative" and clause is clauses[-1] and clause.deed.verb in _JOB_VERBS:
            named = clause.object is not None and not clause.object.place and clause.object.count in (None, 1) and len(clause.objects) == 1
            if named and clause.object is not None and _ends_with_object(known, clause) and sentence.role == "step":
                kind = _JOB_VERBS[clause.deed.verb]
                return Found(at, at + 1, sentence.start, sentence.end, clause.object.name, kind, 3.0 if kind == "replace" else 2.5, None)
        if clause.deed is None or clause.deed.effect != "detach" or clause.object is None or clause.object.place or clause.pronoun:
            continue
        whole = clause.end - clause.core <= 12 and clause.object.count in (None, 1)
        let_us = known.lower[clause.core] in ("let's", "lets")
        must = clause.mood in ("result", "passive", "fragment") and _MUST_COME.search(known.words(clause.core, clause.end).rstrip(" .,"))
        if whole and (clause.mood == "planned" and clause is clauses[-1] and _ends_with_object(known, clause) or must):
            return Found(at, at + 1, sentence.start, sentence.end, clause.object.name, "remove", 2.25 + (0.5 if let_us or must else 0.0), None)
    return None


def _ends_with_object(known: Annotations, clause: Clause) -> bool:
    """Nothing follows the object but its particle."""
    assert clause.object is not None
    return all(known.tags[i] in "r.,RTf" for i in range(clause.object.end, clause.end))


def _inner(known: Annotations, at: int, sentence: Sentence, forms: _Forms) -> Found | None:
    """An announcement in a later clause: "the cord's frayed, so next we're putting a new cord in"."""
    for clause in known.clauses[sentence.first_clause + 1 : sentence.last_clause]:
        text = known.words(clause.start, clause.end)
        match = forms.announced.match(text.lstrip(" ,")) or forms.next.match(text.lstrip(" ,"))
        if match and match.end() < len(text) - 2:
            start = clause.start + len(text[: match.end() + len(text) - len(text.lstrip(" ,"))].split())
            if start < clause.end:
                return _make(known, at, at + 1, start, clause.end, 2.5, forms, None, sentence.start)
    return None


def _make(
    known: Annotations, first: int, last: int, start: int, end: int, points: float, forms: _Forms,
    number: int | None, begin: int,
) -> Found | None:  # fmt: skip
    """The heading in tokens `start:end`, cut before words that say more than the job's name."""
    stop = start
    while stop < end and known.tags[stop] not in ",.-W" and not (known.tags[stop] in "TI" and stop > start + 1 and known.tags[stop] != known.tags[start]):
        stop += 1
    while stop > start and known.tags[stop - 1] in "CTfRe":
        stop -= 1
    text = known.words(start, stop)
    replaced = any(c.deed and c.deed.verb in ("replace", "change", "swap", "renew", "exchange") for c in known.clauses[known.sentences[first].first_clause + 1 : known.sentences[first].last_clause])
    points += 1.5 if replaced and number is None and points < 3 else 0.0
    rest_words = [w for w, t in zip(known.lower[stop:end], known.tags[stop:end], strict=True) if t not in ",.-f"]
    job = forms.job_end.search(text) or forms.job_start.match(text)
    phrases = _phrases(known, start, stop)
    named = [p for p in phrases if not p.place]
    if not named:
        return None
    phrase = named[0]
    part = _strip_job(phrase.name, forms.job_words)
    if not part:
        return None
    kind: Kind | None = None
    verbal = False
    if job:
        kind = next((k for k in _KINDS if job[k]), None)
        brief = stop - start <= 9
        points += 2.5 if forms.job_end.search(text) or (brief and (kind == "replace" or known.tags[start] == "G")) else 1.5
        verbal = True
    elif known.tags[start] == "G" and number is None:
        deed = next((d for d in known.deeds[_deed_at(known, start) :][:1] if d.start == start), None)
        kind = _KIND_OF_EFFECT.get(deed.effect) if deed else None
        if kind and stop - start <= 9:
            points += 2.5
            verbal = True
    clause = known.clauses[known.sentences[first].first_clause]
    bare = stop - phrase.end <= (3 if verbal else 0) and phrase.start - start <= (6 if verbal else 1)
    if not verbal and (not bare or any(t in "VSXE" for t in known.tags[start:stop])):
        return None if points < 3 else _announced(first, last, begin, stop, part, points - 1.0, number, known, start)
    if verbal and not bare:
        points -= 1.5
    if known.tags[start : start + 1] == "V" and points < 4 and clause.mood == "imperative":
        points -= 3.0
    if rest_words and not known.breaks:
        points -= 0.25 if len(rest_words) > 8 else 0.0
    if not verbal and points <= 2.5 and number is None and end - begin <= 6 and end - stop <= 1:
        points += 1.0  # a name and nothing else
    if not verbal and phrase.count and phrase.count > 1:
        points -= 1.0
    return Found(first, last, begin, end if end - stop <= 1 else stop, part, kind, points, number)


_KIND_OF_EFFECT: dict[str, Kind] = {"detach": "remove", "adjust": "adjust", "inspect": "inspect", "open": "remove"}


def _deed_at(known: Annotations, start: int) -> int:
    from bisect import bisect_left

    return bisect_left(known.deeds, start, key=lambda d: d.start)


def _announced(
    first: int, last: int, begin: int, stop: int, part: str, points: float, number: int | None, known: Annotations, start: int
) -> Found | None:
    """An announcement with words around the name ("next, we come to the pump")."""
    verbs = [d.effect for d in known.deeds if start <= d.start < stop] if "V" in known.tags[start:stop] else []
    if verbs and number is None and verbs[0] != "detach":
        return None
    return Found(first, last, begin, stop, part, None, points, number)


def _phrases(known: Annotations, start: int, stop: int) -> list[Phrase]:
    from bisect import bisect_left

    low = bisect_left(known.phrases, start, key=lambda p: p.start)
    high = bisect_left(known.phrases, stop, key=lambda p: p.start)
    return known.phrases[low:high]


def _strip_job(name: str, jobs: frozenset[str]) -> str:
    words = name.split()
    while words and words[-1] in jobs:
        words.pop()
    while words and words[0] in jobs and len(words) > 1:
        words.pop(0)
    return " ".join(words)


_NOTE_HEADING = re.compile(
    r"^(?:[\-=#*>~]+\s*|\d+[.)]\s+)?(?P<next>next\b[\s:\-]*|now\b[\s:\-]*|job\b[\s:\-#]*\d*[\s:\-]*|section\b[\s:]*\d*[\s:\-]*|start(?:ing)?(?: on| with)\b[\s:\-]*|then\b[\s:\-]*)?(?P<rest>.+)$"
)


def _note_heading(known: Annotations, at: int, sentence: Sentence, text: str, forms: _Forms) -> Found | None:
    """A heading among notes: capitals, "NEXT:", "x - remove", "repl x", a name alone."""
    if any(c.groups and any(g.count or g.drive for g in c.groups) for c in known.clauses[sentence.first_clause : sentence.last_clause]):
        return None
    match = _NOTE_HEADING.match(text.strip())
    if not match:
        return None
    rest = _SECTION_SIGN.sub("", match["rest"])
    words = rest.split()
    if not words or len(words) > 7:
        return None
    job = forms.job_end.search(rest) or forms.job_start.match(rest)
    points = 0.0
    if match["next"] and not match["next"].startswith("then"):
        points += 2.5
    if known.capitals(sentence.start, sentence.end):
        points += 2.5
    if text.strip()[:1] in "=#*>" or re.match(r"^-{2,}", text.strip()):
        points += 2.5
    kind: Kind | None = None
    if job:
        kind = next((k for k in _KINDS if job[k]), None)
        points += 2.0
    if not job and forms.job_note.search(rest) and len(words) <= 4:
        kind = "remove"
        points += 1.0
    if sentence.role == "prerequisite" and not points or sentence.role == "step" and not job and points < 2.5:
        return None
    phrases = [p for p in _phrases(known, sentence.start, sentence.end) if not p.place]
    named = [p for p in phrases if _strip_job(p.name, forms.job_words)]
    if not named:
        return None
    part = _strip_job(named[0].name, forms.job_words)
    return Found(at, at + 1, sentence.start, sentence.end, part, kind, points, None)


def _context(known: Annotations, found: Found, worked_on: dict[str, list[int]]) -> float:
    """Points from what stands before and after, and from work on the part that follows."""
    points = 0.0
    before = known.sentences[found.first - 1].role if found.first else "start"
    if before in ("closing", "reverse", "start"):
        points += 0.5
    for following in known.sentences[found.last : found.last + 4]:
        if following.role in ("prerequisite", "no-prerequisite"):
            points += 1.5
            break
        if following.role in ("step", "groups", "closing"):
            break
    if found.first:
        gap = known.starts[found.start] - known.ends[found.start - 1]
        points += 0.75 if gap >= 1.2 else 0.25 if gap >= 0.6 else 0.0
    head = part_words(found.part)[-1]
    later = [s for s in worked_on.get(head, ()) if found.last <= s <= found.last + 25]
    points += 1.0 if len(later) > 1 else 0.5 if later else -0.5
    return points
