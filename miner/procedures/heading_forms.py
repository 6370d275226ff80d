"""The forms in which people announce a job, from the lexicon's phrases, and what a heading says."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache

from miner.language.numbers import ANY
from miner.lexicon import Lexicon
from miner.lexicon.lookup import lookup
from miner.model.draft import Kind
from miner.procedures.fronted_forms import FrontedForms, fronted_forms

KINDS: tuple[Kind, ...] = ("replace", "remove", "install", "inspect", "adjust", "test")
OPENER = (
    r"(?:(?:so|okay|ok|right|alright|now|then|and|well|um|uh|erm|yeah|yep|anyway|good|great|cool|lovely|hm+|mm|"
    r"oh)\b[\s,.]*)*"
)


@dataclass(frozen=True, slots=True)
class Found:
    """A heading: its sentences (positions, half-open), its tokens, the part it names, what kind of job it announces.

    `kind` is None where the words leave it open ("okay, the pump"); `number` is the section number, if one was said.
    `points` tells how sure it is, `named` is the token where the words that announce give way to the job's name;
    `resumes` is true where the words go back to a job that was left ("right, back to the pump").
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
    named: int | None = None
    resumes: bool = False


@dataclass(frozen=True, slots=True)
class Forms:
    """The patterns, on lower-case text."""

    numbered: re.Pattern[str]
    announced: re.Pattern[str]
    next: re.Pattern[str]
    weak: re.Pattern[str]
    job_end: re.Pattern[str]
    job_start: re.Pattern[str]
    job_note: re.Pattern[str]
    job_words: frozenset[str]
    job_noun: re.Pattern[str]
    fronted: FrontedForms


@lru_cache(maxsize=8)
def heading_forms(lexicon: Lexicon) -> Forms:
    """The forms of a lexicon."""
    index = lookup(lexicon)
    jobs = [f"(?P<{kind}>{index.phrases('job')[i]})" for i, kind in enumerate(KINDS)]
    either = "|".join(jobs)
    subject = (
        r"(?:(?:we|i|you)(?:'re|'m|'ll| are| am| will)?\s+|let's\s+|let us\s+|(?:going to|gonna|to|be|now|just|"
        r"how|is|the)\s+)*"
    )
    return Forms(
        numbered=re.compile(
            rf"{OPENER}(?:{'|'.join(index.phrases('numbered'))})\s+(?:number\s+)?(?P<n>{ANY})\b[\s,.:\-]*"
        ),
        announced=re.compile(rf"{OPENER}(?:(?:{'|'.join(index.phrases('announce'))})\b[\s,.:\-]*{OPENER})+"),
        next=re.compile(rf"{OPENER}(?:{'|'.join(index.phrases('announce-next'))})\b[\s,.:\-]*{OPENER}"),
        weak=re.compile(rf"(?:{'|'.join(index.phrases('announce-weak'))})\b[\s,.:\-]+"),
        job_end=re.compile(rf"[\s,:\-]+(?:{either})$"),
        job_start=re.compile(rf"{subject}(?:{either})\b[\s:\-]+"),
        job_note=re.compile(rf"[\s,:\-]+(?:{'|'.join(index.phrases('job-note'))})$"),
        job_noun=re.compile(rf"(?:\w+ )?(?:{'|'.join(index.phrases('numbered'))})s"),
        fronted=fronted_forms(lexicon),
        job_words=frozenset(re.findall(r"[a-z]+", " ".join(index.phrases("job")))),
    )


def without_job(name: str, jobs: frozenset[str]) -> str:
    """A part's name without words like "replacement" around it."""
    words = name.split()
    while words and words[-1] in jobs:
        words.pop()
    while len(words) > 1 and (words[0] in jobs or words[0] in ("of", "the")):
        words.pop(0)
    return " ".join(words)
