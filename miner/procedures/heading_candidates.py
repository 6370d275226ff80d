"""Headings in speech: numbered, announced, told as a plan, or a bare name after a marker; each with points."""

from __future__ import annotations

import re

from miner.language.annotations import Annotations, Clause, Sentence
from miner.language.numbers import value_of
from miner.language.roles import sentence_text
from miner.model.draft import Kind
from miner.procedures.heading_forms import KINDS, OPENER, Forms, Found, without_job
from miner.procedures.note_headings import note_heading

_REFERS = re.compile(
    rf"{OPENER}(?:first(?:ly)?,? )?(?:complete|perform|carry out|follow|see|refer to|work through|do sections?)\b"
)
_COMES_NEXT = re.compile(
    rf"{OPENER}(?P<part>(?:the|this|our) (?:[a-z\-]+ ){{0,3}}[a-z\-]+) (?:comes|is|'s|goes|are|come) (?:up )?(?:next|first|last)\b"
)
_MUST_COME = re.compile(
    r"\b(?:has|have|needs?|wants?|got|gotta|going|gonna|must)\b[^,.]{0,20}\b(?:come|be|go)\b[^,.]{0,8}\b(?:out|off|away|removed)\s*$"
)

_KIND_OF_EFFECT: dict[str, Kind] = {"detach": "remove", "adjust": "adjust", "inspect": "inspect", "open": "remove"}
_JOB_VERBS: dict[str, Kind] = {"remove": "remove", "replace": "replace", "change": "replace", "swap": "replace", "renew": "replace",
              "exchange": "replace", "install": "install", "adjust": "adjust", "calibrate": "adjust", "align": "adjust"}  # fmt: skip


def heading_candidate(known: Annotations, at: int, forms: Forms) -> Found | None:
    """The heading that a sentence may be, with points from its form alone; None if it cannot be one."""
    sentence = known.sentences[at]
    if sentence.role in ("notice", "reverse", "no-prerequisite", "closing"):
        return None
    text = sentence_text(known, sentence)
    if _REFERS.match(text):
        return None
    if known.breaks:
        return note_heading(known, at, sentence, text, forms)
    if sentence.role == "prerequisite" and not re.search(
        r"\b(?:this|that|for|before|first|prereq\w*)\b", re.sub(r"^first\b", "", text)
    ):
        wanted = known.phrases_between(sentence.start, sentence.end, places=False)
        if wanted and (len(wanted) == 1 or "because" in text) and wanted[0].count is None:
            return Found(at, at + 1, sentence.start, sentence.end, wanted[0].name, "remove", 2.5, None)
    match = forms.numbered.match(text)
    if match:
        rest = text[match.end() :].strip(" .,:")
        last = at + 1
        if not rest and at + 1 < len(known.sentences):
            following = known.sentences[at + 1]
            last = at + 2
            return _make(
                known,
                at,
                last,
                following.start,
                known.sentences[at + 1].end,
                5.0,
                forms,
                int(value_of(match["n"])),
                sentence.start,
            )
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
    opener_end = re.match(OPENER, text).end()  # type: ignore[union-attr]
    start = known.token_at(known.offsets[sentence.start] + min(opener_end, len(text) - 1))
    points = 1.5 if match else 0.5
    return _make(known, at, at + 1, start, sentence.end, points, forms, None, sentence.start)


def _objective(known: Annotations, at: int, sentence: Sentence, text: str) -> Found | None:
    """A job told as a plan and nothing more: "now we're going to take the lens off", "the pan has to come out"."""
    clauses = known.clauses_of(sentence)
    comes = _COMES_NEXT.match(text)
    if comes:
        phrases = known.phrases_between(sentence.start, sentence.end, places=False)
        if phrases:
            return Found(at, at + 1, sentence.start, sentence.end, phrases[0].name, None, 3.5, None)
    if any(c.groups or c.tools or c.source or c.measures for c in clauses) or sentence.end - sentence.start > 16:
        return None
    for clause in clauses:
        if (
            clause.deed is not None
            and clause.mood == "imperative"
            and clause is clauses[-1]
            and clause.deed.verb in _JOB_VERBS
        ):
            named = (
                clause.object is not None
                and not clause.object.place
                and clause.object.count in (None, 1)
                and len(clause.objects) == 1
            )
            if named and clause.object is not None and _ends_with_object(known, clause) and sentence.role == "step":
                kind = _JOB_VERBS[clause.deed.verb]
                return Found(
                    at,
                    at + 1,
                    sentence.start,
                    sentence.end,
                    clause.object.name,
                    kind,
                    3.0 if kind == "replace" else 2.5,
                    None,
                )
        if (
            clause.deed is None
            or clause.deed.effect != "detach"
            or clause.object is None
            or clause.object.place
            or clause.pronoun
        ):
            continue
        whole = clause.end - clause.core <= 12 and clause.object.count in (None, 1)
        let_us = known.lower[clause.core] in ("let's", "lets")
        must = clause.mood in ("result", "passive", "fragment") and _MUST_COME.search(
            known.words(clause.core, clause.end).rstrip(" .,")
        )
        if whole and (
            (clause.mood == "planned" and clause is clauses[-1] and _ends_with_object(known, clause)) or must
        ):
            return Found(
                at,
                at + 1,
                sentence.start,
                sentence.end,
                clause.object.name,
                "remove",
                2.25 + (0.5 if let_us or must else 0.0),
                None,
            )
    return None


def _ends_with_object(known: Annotations, clause: Clause) -> bool:
    """Nothing follows the object but its particle."""
    assert clause.object is not None
    return all(known.tags[i] in "r.,RTf" for i in range(clause.object.end, clause.end))


def _inner(known: Annotations, at: int, sentence: Sentence, forms: Forms) -> Found | None:
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
    known: Annotations, first: int, last: int, start: int, end: int, points: float, forms: Forms,
    number: int | None, begin: int,
) -> Found | None:  # fmt: skip
    """The heading in tokens `start:end`, cut before words that say more than the job's name."""
    stop = start
    while (
        stop < end
        and known.tags[stop] not in ",.-W"
        and not (known.tags[stop] in "TI" and stop > start + 1 and known.tags[stop] != known.tags[start])
    ):
        stop += 1
    while stop > start and known.tags[stop - 1] in "CTfRe":
        stop -= 1
    text = known.words(start, stop)
    replaced = any(
        c.deed and c.deed.verb in ("replace", "change", "swap", "renew", "exchange")
        for c in known.clauses[known.sentences[first].first_clause + 1 : known.sentences[first].last_clause]
    )
    points += 1.5 if replaced and number is None and points < 3 else 0.0
    rest_words = [w for w, t in zip(known.lower[stop:end], known.tags[stop:end], strict=True) if t not in ",.-f"]
    job = forms.job_end.search(text) or forms.job_start.match(text)
    named = known.phrases_between(start, stop, places=False)
    if not named:
        return None
    phrase = named[0]
    part = without_job(phrase.name, forms.job_words)
    if not part:
        return None
    kind: Kind | None = None
    verbal = False
    if job:
        kind = next((k for k in KINDS if job[k]), None)
        brief = stop - start <= 9
        points += (
            2.5 if forms.job_end.search(text) or (brief and (kind == "replace" or known.tags[start] == "G")) else 1.5
        )
        verbal = True
    elif known.tags[start] == "G" and number is None:
        kind = next((_KIND_OF_EFFECT.get(deed.effect) for deed in known.deeds_between(start, start + 1)), None)
        if kind and stop - start <= 9:
            points += 2.5
            verbal = True
    if kind in ("inspect", "test", "adjust", "install") and known.tags[start] == "V" and number is None:
        return None
    if job and job[0].startswith(("put ", "fit ")) or (known.tags[start] == "V" and known.lower[start] in ("put", "fit")):
        return None
    if known.lower[start] == "to" and rest_words and number is None:
        return None  # "to replace the grille, hook its feet in"
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
    return Found(first, last, begin, end if end - stop <= 1 else stop, part, kind, points, number, named=start)


def _announced(
    first: int,
    last: int,
    begin: int,
    stop: int,
    part: str,
    points: float,
    number: int | None,
    known: Annotations,
    start: int,
) -> Found | None:
    """An announcement with words around the name ("next, we come to the pump")."""
    verbs = [deed.effect for deed in known.deeds_between(start, stop)] if "V" in known.tags[start:stop] else []
    if verbs and number is None and verbs[0] != "detach":
        return None
    return Found(first, last, begin, stop, part, None, points, number, named=start)
