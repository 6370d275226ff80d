"""Jobs that free speech announces in passing: a part named up front, or said to be the one that is done next.

"The drive belt, because this one squeals." - "Then the shroud, I'll have that off as well." - "Controller next." -
"I reckon it's the relay, so that's the next one." - "While we wait, I'll do the lamp."
"""

from __future__ import annotations

import re

from miner.language.annotations import Annotations, Clause, Phrase, Sentence
from miner.model.draft import Kind
from miner.procedures.fronted_forms import FrontedForms
from miner.procedures.gerund_jobs import kind_of
from miner.procedures.heading_forms import Found

_NO_PART = ("what", "what's", "who", "which", "how", "why", "where", "that", "thing", "things", "safety")
_REPLACEMENT = ("new", "fresh", "replacement", "old", "spare")
_TESTS: dict[str, Kind] = {"check": "test", "test": "test", "adjustment": "adjust", "inspection": "inspect"}
_ALONE = 1.5
_BARE_LEAD = frozenset("TfRC,.x")


def fronted_job(known: Annotations, at: int, sentence: Sentence, forms: FrontedForms) -> Found | None:
    """The heading that a sentence makes by naming a part up front; None if it names none, or tells details of work."""
    clauses = known.clauses_of(sentence)
    if any(c.tools or c.measures or any(g.count or g.drive for g in c.groups) for c in clauses):
        return None
    shown = _shown(known, sentence, forms)
    if shown is not None:
        return Found(at, at + 1, sentence.start, sentence.end, shown[0].name, shown[1], 3.5)
    coming = _coming_off(known, sentence, forms)
    if coming is not None:
        return Found(at, at + 1, sentence.start, sentence.end, coming.name, "remove", 3.0)
    replaced = _replaced(known, clauses, forms)
    if replaced is not None:
        return Found(at, at + 1, sentence.start, sentence.end, replaced.name, "replace", 4.0)
    found = (
        _next_item(known, sentence, forms) or _item_first(known, sentence, forms) or _apposed(known, sentence, forms)
    )
    if found is None and not any(c.groups for c in clauses):
        found = _done_now(known, sentence, forms) or _fronted(known, at, clauses, forms)
    if found is None:
        return None
    part, points = found
    kind = _TESTS.get(part.name.split()[-1])
    name = part.name.rsplit(" ", 1)[0] if kind else part.name
    return Found(at, at + 1, sentence.start, sentence.end, name, kind, points)


def _shown(known: Annotations, sentence: Sentence, forms: FrontedForms) -> tuple[Phrase, Kind] | None:
    """The part and the job of "here's how you take the seat off"."""
    words = known.words(sentence.start, sentence.end)
    said = forms.shown.search(words)
    if not said:
        return None
    start = sentence.start + len(words[: said.end()].split())
    deed = next(iter(known.deeds_between(start, sentence.end)), None)
    part = next(iter(known.phrases_between(start, sentence.end, places=False)), None)
    kind = kind_of(deed) if deed is not None else None
    return (part, kind) if part is not None and kind is not None and _whole(part) else None


def _whole(part: Phrase) -> bool:
    words = part.name.split()
    return part.count in (None, 1) and not part.place and words[0] not in _REPLACEMENT and words[-1] not in _NO_PART


def _next_item(known: Annotations, sentence: Sentence, forms: FrontedForms) -> tuple[Phrase, float] | None:
    """The part that is said to be the next one."""
    said = forms.next.search(known.words(sentence.start, sentence.end))
    if not said:
        return None
    end = sentence.start + len(known.words(sentence.start, sentence.end)[: said.start()].split())
    parts = [p for p in known.phrases_between(sentence.start, end, places=False) if _whole(p)]
    return (parts[-1], 5.0) if parts else None


def _item_first(known: Annotations, sentence: Sentence, forms: FrontedForms) -> tuple[Phrase, float] | None:
    """The part of "the big one, the belt", "last of the lot is the relay", "now the bit you came for the knife"."""
    words = known.words(sentence.start, sentence.end)
    said = forms.first.match(words)
    if not said:
        return None
    at = sentence.start + len(words[: said.end()].split())
    part = next(iter(known.phrases_between(at, at + 2, places=False)), None)
    if part is None or not _whole(part) or any(known.tags[i] == "V" for i in range(sentence.start, at)):
        return None
    return part, 3.25


def _apposed(known: Annotations, sentence: Sentence, forms: FrontedForms) -> tuple[Phrase, float] | None:
    """The part at the end of "this is the job everyone waits for, the cutter block"."""
    tags = known.tags
    comma = max((i for i in range(sentence.start, sentence.end) if tags[i] == ","), default=None)
    if comma is None or tags[comma + 1 : comma + 2] != "D":
        return None
    lead = known.words(sentence.start, comma)
    part = next(iter(known.phrases_between(comma + 1, comma + 3, places=False)), None)
    if part is None or not _whole(part) or known.words(part.end, sentence.end).strip(" .!"):
        return None
    generic = forms.generic.search(lead)
    if generic and not any(tags[i] in "VXS" for i in range(sentence.start, comma)):
        return part, 3.25  # "now the proper work, the packings"
    says = forms.turn.search(lead) and re.search(r"\b(?:this is|that's|it's|is|comes|for|to)\b", lead)
    verbs = any(tags[i] == "V" for i in range(sentence.start, comma))
    return (part, 3.0) if says and not verbs else None


def _coming_off(known: Annotations, sentence: Sentence, forms: FrontedForms) -> Phrase | None:
    """The part of "so now the back panel's coming off"."""
    said = forms.coming.search(known.words(sentence.start, sentence.end))
    if not said:
        return None
    end = sentence.start + len(known.words(sentence.start, sentence.end)[: said.start()].split())
    parts = known.phrases_between(sentence.start, end, places=False)
    if len(parts) != 1 or not _whole(parts[0]):
        return None
    return parts[0] if _is_definite(known, parts[0]) or parts[0].start - sentence.start <= 1 else None


def _replaced(known: Annotations, clauses: list[Clause], forms: FrontedForms) -> Phrase | None:
    """The part of "that cord's frayed, so I'll replace it now"; what follows an instruction is one more."""
    if clauses[0].mood == "imperative":
        return None
    for at, clause in enumerate(clauses[1:], 1):
        if clause.mood in ("planned", "imperative") and forms.replacing.search(known.words(clause.start, clause.end)):
            told = clauses[at - 1]
            parts = known.phrases_between(clauses[0].start, told.end, places=False)
            named = [part for part in parts if _whole(part)]
            return next((part for part in named if _is_definite(known, part)), named[-1] if named else None)
    return None


def _done_now(known: Annotations, sentence: Sentence, forms: FrontedForms) -> tuple[Phrase, float] | None:
    """The part that "I'll do" next; more may be said only of where it is."""
    for part in known.phrases_between(sentence.start, sentence.end, places=False):
        lead = known.words(sentence.start, part.start)
        article = known.tags[part.start] == "D" or known.lower[part.start - 1 : part.start] in (["the"], ["this"])
        lead = re.sub(r"\s*\b(?:the|this|that|our|your)$", "", lead)
        if article and _whole(part) and forms.there.fullmatch(f"{lead} "):
            return part, 2.75
        if (
            article
            and _whole(part)
            and forms.doing.search(lead)
            and not forms.not_doing.search(lead.rsplit(",", 1)[-1])
        ):
            return part, 3.0
    return None


def _fronted(known: Annotations, at: int, clauses: list[Clause], forms: FrontedForms) -> tuple[Phrase, float] | None:
    """The part that a sentence begins with, without any verb for it."""
    first = next((c for c in clauses if _leads(known, c) or not c.subordinate), None)
    if first is None or first.mood != "fragment" or first.groups:
        return None
    begin = _after_lead(known, first)
    part = next((p for p in known.phrases_between(begin, first.end, places=False)), None)
    if part is None or not _whole(part) or part.start - begin > 1 or _is_told(first, begin):
        return None
    rest = known.words(part.end, first.end).strip(" .,!?")
    later = [c for c in clauses if c.start >= first.end]
    takes_it = any(
        c.deed and c.mood in ("planned", "narrated") and c.pronoun and c.deed.effect in ("detach", "open")
        for c in later
    )
    definite = known.tags[part.start] == "D" or (part.start > begin and known.tags[part.start - 1] == "D")
    takes_it = takes_it or bool(forms.how.search(known.words(part.end, clauses[-1].end)))
    if takes_it and (not rest or known.tags[part.end] == "," or part.end in known.commas):
        return part, 3.0
    if forms.order.fullmatch(rest.split(" ,")[0]) or forms.itself.fullmatch(rest):
        return part, 3.75
    if not definite or (rest and not forms.reason.match(rest)):
        return None
    after = known.words(first.end, later[-1].end) if later else rest
    if later and not forms.reason.match(after):
        return None
    explained = bool(later) or bool(rest)
    alone = at > 0 and _only_marks(known, known.sentences[at - 1])
    marked = begin > first.start or alone
    return part, _ALONE + (0.75 if explained else 0.0) + (0.5 if marked else 0.0)


def _is_definite(known: Annotations, part: Phrase) -> bool:
    """Whether a part is spoken of with an article or "that"."""
    return known.tags[part.start] == "D" or (part.start > 0 and known.tags[part.start - 1] == "D")


def _leads(known: Annotations, clause: Clause) -> bool:
    """Whether a clause only leads in: "so while I've got it in my hands"."""
    words = known.words(clause.start, clause.end)
    return bool(re.match(r"^\W*(?:so |and |okay |right |now |then )*(?:while|since|seeing|now that|as)\b", words))


def _is_told(clause: Clause, begin: int) -> bool:
    """Whether a clause has a verb for the part it begins with; "getting that down" is none."""
    return clause.deed is not None and begin == clause.core and clause.deed.form != "progressive"


def _after_lead(known: Annotations, clause: Clause) -> int:
    """The token where what is said after a lead begins."""
    if not _leads(known, clause):
        return clause.core
    commas = (i + 1 for i in range(clause.start + 1, clause.end - 1) if known.tags[i] == ",")
    return next((at for at in commas if known.tags[at] == "D"), clause.core)


def _only_marks(known: Annotations, sentence: Sentence) -> bool:
    """Whether a sentence says nothing but "okay" or "right then"."""
    return set(known.tags[sentence.start : sentence.end]) <= _BARE_LEAD
