"""A job named by a gerund after words that only lead up to it: "the topic now is removing the mast"."""

from __future__ import annotations

from miner.language.annotations import Annotations, Deed, Phrase, Sentence
from miner.model.draft import Kind
from miner.procedures.fronted_forms import FrontedForms
from miner.procedures.heading_forms import Found

_KINDS: dict[str, Kind] = {
    "detach": "remove",
    "attach": "install",
    "adjust": "adjust",
    "inspect": "inspect",
    "open": "remove",
}
_REPLACES = frozenset(("replace", "exchange", "change", "swap", "renew", "swap out", "change out", "substitute"))
_LONGEST_LEAD = 9
"""Tokens before the gerund at most."""
_LONGEST_REST = 8
"""Tokens after the part at most ("... on the older model")."""


def gerund_job(known: Annotations, at: int, sentence: Sentence, forms: FrontedForms) -> Found | None:
    """The heading that a sentence makes by naming a job with a gerund; None if it tells anything more."""
    tags = known.tags
    first = next((i for i in range(sentence.start, sentence.end) if tags[i] == "G"), None)
    if first is None or first - sentence.start > _LONGEST_LEAD or tags[max(first - 1, 0)] in "DAQnHF":
        return None
    lead = known.words(sentence.start, first)
    deed = next((d for d in known.deeds_between(first, first + 1) if d.form == "progressive"), None)
    if deed is None or (forms.gerund_bars.search(lead) and not forms.gerund_begins.search(lead)):
        return None
    kind = kind_of(deed) or ("remove" if forms.gerund_off.search(known.words(deed.end, sentence.end)) else None)
    part = _named_at(known, deed.end, sentence.end)
    if kind is None or part is None or sentence.end - part.end > _LONGEST_REST:
        return None
    if any(tags[i] in "VWXS" or known.lower[i] == "back" for i in range(part.end, sentence.end)) or any(
        group.start < sentence.end and group.count for c in known.clauses_of(sentence) for group in c.groups
    ):
        return None
    points = 3.5 if forms.gerund_leads.search(lead) else 2.5 if first - sentence.start <= 2 else 1.5
    return Found(at, at + 1, sentence.start, sentence.end, part.name, kind, points, None, named=first)


def kind_of(deed: Deed) -> Kind | None:
    """The kind of job that a verb names; None if it names none."""
    return "replace" if deed.verb in _REPLACES else _KINDS.get(deed.effect)


def _named_at(known: Annotations, start: int, end: int) -> Phrase | None:
    """The part named right after the gerund."""
    found = next(iter(known.phrases_between(start, end, places=False)), None)
    return found if found is not None and found.start - start <= 2 else None
