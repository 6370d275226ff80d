"""The name of a job read out of the words that announce it, and how sure these words make a heading."""

from __future__ import annotations

import re
from dataclasses import dataclass

from miner.language.annotations import Annotations, Phrase
from miner.model.draft import Kind
from miner.procedures.heading_forms import KINDS, Forms, Found, without_job

_KIND_OF_EFFECT: dict[str, Kind] = {"detach": "remove", "adjust": "adjust", "inspect": "inspect", "open": "remove"}
_REPLACES = ("replace", "change", "swap", "renew", "exchange")
_ASKS = ("what", "what's", "who", "which", "how", "why", "where")
_PUTS = ("put", "fit")
_BRIEF = 9
"""Tokens of a job's name that is said without more."""


@dataclass(frozen=True, slots=True)
class Announcement:
    """Words that may announce a job: sentences `first:last`, tokens `start:end` after the words that announce.

    `begin` is the token where the heading begins, `points` are those for its form, `number` is the section number.
    """

    first: int
    last: int
    begin: int
    start: int
    end: int
    points: float
    number: int | None = None


def named_job(known: Annotations, said: Announcement, forms: Forms) -> Found | None:
    """The heading that an announcement makes, cut before words that say more than the job's name; None if none."""
    start, number = said.start, said.number
    stop = _name_end(known, start, said.end)
    text = known.words(start, stop)
    job = forms.job_end.search(text) or forms.job_start.match(text)
    phrase = next(iter(known.phrases_between(start, stop, places=False)), None)
    if phrase is not None and forms.job_noun.fullmatch(phrase.name):
        return None  # "service recording, eight tasks"
    if phrase is not None and (phrase.name in _ASKS or (known.lower[start] == "with" and number is None)):
        return None  # "is that what it's for?", "so with the new ribbon you ..."
    if phrase is not None and known.tags[start] == "G" and "X" in known.tags[phrase.end : phrase.end + 2]:
        return None  # "removing the lid is easy"
    part = without_job(phrase.name, forms.job_words) if phrase else ""
    if phrase is None or not part:
        return None
    points = said.points + _for_replacing(known, said)
    kind, for_kind = _kind_said(known, start, stop, job, forms, number)
    points += for_kind
    verbal = job is not None or for_kind > 0
    after = [
        w for w, t in zip(known.lower[stop : said.end], known.tags[stop : said.end], strict=True) if t not in ",.-f"
    ]
    if _instructs(known, start, job, kind, number) or (known.lower[start] == "to" and after and number is None):
        return None  # "to replace the grille, hook its feet in"
    bare = stop - phrase.end <= (3 if verbal else 0) and phrase.start - start <= (6 if verbal else 1)
    if not verbal and (not bare or any(t in "VSXE" for t in known.tags[start:stop])):
        return None if points < 3 else _with_words_around(known, said, stop, part, points - 1.0)
    points = _for_verb(known, said, points - 1.5 if verbal and not bare else points)
    points -= 0.25 if len(after) > 8 and not known.breaks else 0.0
    if not verbal:
        points += _for_bare_name(said, stop, points, phrase)
    end = said.end if said.end - stop <= 1 else stop
    return Found(said.first, said.last, said.begin, end, part, kind, points, number, named=start)


def _name_end(known: Annotations, start: int, end: int) -> int:
    """The token after a job's name: before punctuation, another clause, or words that only link."""
    tags = known.tags
    stop = start
    while (
        stop < end
        and tags[stop] not in ",.-W"
        and not (tags[stop] in "TI" and stop > start + 1 and tags[stop] != tags[start])
    ):
        stop += 1
    while stop > start and tags[stop - 1] in "CTfRe":
        stop -= 1
    return stop


def _for_replacing(known: Annotations, said: Announcement) -> float:
    """Points where a later clause of the sentence tells to replace something."""
    sentence = known.sentences[said.first]
    later = known.clauses[sentence.first_clause + 1 : sentence.last_clause]
    replaces = any(c.deed and c.deed.verb in _REPLACES for c in later)
    return 1.5 if replaces and said.number is None and said.points < 3 else 0.0


def _kind_said(
    known: Annotations, start: int, stop: int, job: re.Match[str] | None, forms: Forms, number: int | None
) -> tuple[Kind | None, float]:
    """What kind of job the words say, and the points for it."""
    brief = stop - start <= _BRIEF
    opens = known.tags[start] == "G"
    if job:
        kind = next((k for k in KINDS if job[k]), None)
        at_end = forms.job_end.search(known.words(start, stop)) is not None
        return kind, 2.5 if at_end or (brief and (kind == "replace" or opens)) else 1.5
    if opens and number is None:
        kind = next((_KIND_OF_EFFECT.get(deed.effect) for deed in known.deeds_between(start, start + 1)), None)
        return kind, 2.5 if kind and brief else 0.0
    return None, 0.0


def _instructs(
    known: Annotations, start: int, job: re.Match[str] | None, kind: Kind | None, number: int | None
) -> bool:
    """Whether the words are an instruction of a job, not its name: "fit the cover", "check the belt"."""
    verb = known.tags[start] == "V"
    if kind in ("inspect", "test", "adjust", "install") and verb and number is None:
        return True
    return bool(job and job[0].startswith(("put ", "fit "))) or (verb and known.lower[start] in _PUTS)


def _for_verb(known: Annotations, said: Announcement, points: float) -> float:
    """The points, fewer where the words are a plain instruction."""
    clause = known.clauses[known.sentences[said.first].first_clause]
    plain = known.tags[said.start : said.start + 1] == "V" and clause.mood == "imperative"
    return points - 3.0 if plain and points < 4 else points


def _for_bare_name(said: Announcement, stop: int, points: float, phrase: Phrase) -> float:
    """More points for a name and nothing else, fewer for several parts."""
    alone = points <= 2.5 and said.number is None and said.end - said.begin <= 6 and said.end - stop <= 1
    return (1.0 if alone else 0.0) - (1.0 if phrase.count and phrase.count > 1 else 0.0)


def _with_words_around(known: Annotations, said: Announcement, stop: int, part: str, points: float) -> Found | None:
    """An announcement with words around the name ("next, we come to the pump")."""
    verbs = (
        [deed.effect for deed in known.deeds_between(said.start, stop)] if "V" in known.tags[said.start : stop] else []
    )
    if verbs and said.number is None and verbs[0] != "detach":
        return None
    return Found(said.first, said.last, said.begin, stop, part, None, points, said.number, named=said.start)
