"""Counts told in the talk that the draft does not hold: left open ("six or seven"), or at odds with a noun."""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import lru_cache

from miner.findings.case import Case
from miner.findings.said import NUMBER, value
from miner.findings.talk import Talk
from miner.lexicon.loading import Lexicon
from miner.model.finding import Evidence

_WORDY = r"(?:two|three|four|five|six|seven|eight|nine|ten|eleven|twelve)"
_NOT_COUNTED = (
    r"(?:turns?|mm|mil|mils|millimet|minute|hour|second|time|drop|day|week|month|year|volt|degree|inch|o'clock)"
)


@lru_cache(maxsize=4)
def _open(lexicon: Lexicon) -> re.Pattern[str]:
    """Two counts of something that fastens, or of "them"."""
    nouns = "|".join(_fasteners(lexicon))
    return re.compile(
        rf"\b(?P<a>{NUMBER}) or (?P<b>{NUMBER})(?: ?x\b)?(?! ?{_NOT_COUNTED})"
        rf"(?: of (?:them|these|those)\b|(?: (?!and\b|then\b|or\b)[\w'-]+){{0,6}}? (?:{nouns})s\b|x? [tp][hz]?\d)"
    )


@lru_cache(maxsize=4)
def _singular(lexicon: Lexicon) -> re.Pattern[str]:
    """A count in words, with or without an article, and a fastener in the singular that ends its phrase."""
    nouns = "|".join(_fasteners(lexicon))
    ends = r"(?= (?:of|that|which|holding|securing|fixing|from|in|on|at|down|out|off)\b|[,.]|$)"
    return re.compile(rf"\b(?P<article>(?:the|these|those) )?(?P<count>{_WORDY}) (?P<noun>{nouns}){ends}")


def _fasteners(lexicon: Lexicon) -> list[str]:
    """Single words for fasteners; a pin is left out, since connectors are named by theirs ("a white two pin")."""
    names = {name for kind in lexicon.fasteners for name in (kind.kind, *kind.terms)}
    return sorted(name for name in names if name.isalpha() and len(name) > 2 and name != "pin" and name[-1] != "s")


def open_counts(case: Case) -> Iterator[tuple[tuple[int, int], Evidence]]:
    """Counts that are left open, as (6, 7), and where."""
    talk = Talk.of(case)
    for match in _open(case.lexicon).finditer(talk.text):
        one, other = value(match["a"]), value(match["b"])
        if one and other and one != other and other > 1:
            yield (one, other), talk.cue(match.start())


def singular_after_count(case: Case) -> Iterator[tuple[str, str, Evidence]]:
    """Counts in whole words before a noun in the singular; in notes, which leave plurals out, only after an article."""
    talk, short = Talk.of(case), case.draft.recording.register == "notes"
    for match in _singular(case.lexicon).finditer(talk.text):
        if not short or match["article"]:
            yield match["count"], match["noun"], talk.cue(match.start())
