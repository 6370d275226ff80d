"""What each clause does: its mood, its trade verb, the object, where that comes off, tools, manner and condition."""

from __future__ import annotations

import re
from bisect import bisect_left
from collections.abc import Sequence
from typing import TypeVar

from miner.language.annotations import Annotations, Clause, Deed, Group, Measure, Mood, Phrase, Sentence
from miner.language.utterances import clause_starts, sentences_in

T = TypeVar("T")

_OPENERS = re.compile(r"[TCRfx,.\-]*")
_LEAD = re.compile(r"[WpGtTC]")
_MAIN_AFTER_COMMA = re.compile(r",[TRf]*(?=[VIJ]|D?[QNAZnHF]*[nHFO][RJX]*[SX]|[Oe])")
_MAIN_NO_COMMA = re.compile(r"[nHFrRO](?=V[DONQ])")
_PLANNED = re.compile(r"I[IRTfXJt]*(?:[VG]C)?[RTft]*[VXG]*[RTf]*t?R*([VG])")
_NARRATED = re.compile(r"I[RTfX]*E")
_NEGATIVE = re.compile(r"X?JX?R*|(?:I[RTf]*X*)J")
_RESULT = re.compile(r"(?:D|Q|N|A|Z|n|H|F|o|[GE](?=[nHF])|C(?=[DnH]))*[nHFON][QRJN]*(?:S|V(?=r)|X[RrX]*t?[VG])")
_PASSIVE = re.compile(r"(?:D|Q|N|A|Z|n|H|F|o|,|C|[GE](?=[nHF]))*[nHFO]?[QRJ]*X[RJrXQ]*[EAr]")
_DESCRIPTIVE = re.compile(r"[eO]R*[XA-Za-z]|[eO]")
_PRONOUNS = frozenset("it them this that these those one both everything all each 'em em ones".split())
_FROM = frozenset(("from", "off", "out", "away", "clear", "free", "apart"))
_STATIVE = frozenset("takes take gives give wants want needs need gets get has uses use".split())
_CONDITIONS = frozenset(("if", "where", "unless", "depending"))


def build_clauses(known: Annotations) -> None:
    """Fills `sentences` and `clauses` of the annotations; everything but roles and references must be known."""
    clauses: list[Clause] = []
    sentences: list[Sentence] = []
    phrase_starts = [phrase.start for phrase in known.phrases]
    deed_starts = [deed.start for deed in known.deeds]
    group_starts = [group.start for group in known.groups]
    measure_starts = [measure.start for measure in known.measures]
    tool_starts = [tool.start for tool in known.tools]
    for number, (start, end) in enumerate(sentences_in(known)):
        first = len(clauses)
        starts = clause_starts(known, start, end)
        for a, b in zip(starts, [*starts[1:], end], strict=True):
            deeds = _slice(known.deeds, deed_starts, a, b)
            clause = _clause(known, a, b, number, deeds)
            clause.groups = tuple(_slice(known.groups, group_starts, a, b))
            clause.measures = tuple(_slice(known.measures, measure_starts, a, b))
            clause.tools = tuple(tool.name for tool in _slice(known.tools, tool_starts, a, b))
            phrases = [p for p in _slice(known.phrases, phrase_starts, a, b)]
            _fill(known, clause, phrases)
            clauses.append(clause)
        sentences.append(Sentence(start, end, first, len(clauses)))
    known.clauses, known.sentences = clauses, sentences


def _slice(items: Sequence[T], starts: Sequence[int], a: int, b: int) -> list[T]:
    return list(items[bisect_left(starts, a) : bisect_left(starts, b)])


def _clause(known: Annotations, start: int, end: int, sentence: int, deeds: list[Deed]) -> Clause:
    tags = known.tags
    core = _OPENERS.match(tags, start, end).end()  # type: ignore[union-attr]
    while core < end and core in known.dropped:
        core += 1
    link = _link(known, start, core)
    condition = None
    lead_end = _after_lead(known, core, end, deeds)
    if lead_end is not None:
        if known.lower[core] in _CONDITIONS:
            condition = known.words(core, lead_end).strip(" ,")
        core = _OPENERS.match(tags, lead_end, end).end()  # type: ignore[union-attr]
    mood, deed = _mood(known, core, end, deeds)
    if deed is None and mood == "fragment":
        mood, deed = _elliptic(known, core, end)
    subordinate = core < end and tags[core] == "W"
    return Clause(start, end, core, sentence, mood, link, deed, subordinate=subordinate, condition=condition)


def _link(known: Annotations, start: int, core: int) -> str:  # type: ignore[return]
    words, tags = known.lower[start:core], known.tags[start : start + 1]
    if "then" in words:
        return "then"
    if "so" in words:
        return "so"
    if tags == "C":
        return "and"
    if tags in (",", "-"):
        return "and" if "and" in words else "comma"
    return "sentence"


def _after_lead(known: Annotations, core: int, end: int, deeds: list[Deed]) -> int | None:
    """Where the main clause begins after a leading phrase: "while holding the lid, lift ...", "with a pick, ease ..."."""
    tags = known.tags
    if core >= end or tags[core] not in "WpGt" or (tags[core] == "G" and "," not in tags[core:end]):
        return None
    comma = _MAIN_AFTER_COMMA.search(tags, core, end)
    if comma:
        return comma.end()
    if tags[core] in "W":
        bare = _MAIN_NO_COMMA.search(tags, core + 2, end)
        if bare:
            return bare.end()
    return None


_ELLIPTIC = re.compile(r"(?:[DQNAZnHFGo]|(?<=[nHFN])C(?=[DAnHN]))*[nHF]R*(?P<particle>r+)(?=[.,CWptDToIf\-]|[nHF]|$)")
_NEW_INTO = re.compile(r"D?A[QNAZnHFG]*[nHF]R*[pt](?=[DnHF])")
_AWAY = frozenset(("off", "out", "away"))


def _elliptic(known: Annotations, core: int, end: int) -> tuple[Mood, Deed | None]:
    """ "Cover off", "new filter in", "cap back on till it clicks": a particle that does the work of a verb."""
    match = _ELLIPTIC.match(known.tags[:end], core)
    if not match:
        new = _NEW_INTO.match(known.tags[:end], core)
        if new and "new" in known.lower[core : core + 2]:
            return "result", Deed(new.end() - 1, new.end(), "install", "attach", "third")
        return "fragment", None
    words = known.lower[match.start("particle") : match.end("particle")]
    if "new" in known.lower[core : match.start("particle")] and words[-1] not in _AWAY:
        return "result", Deed(
            match.start("particle"), match.end("particle"), "install", "attach", "third", match.start("particle")
        )
    at = match.start("particle")
    following = known.lower[match.end("particle")] if match.end("particle") < end else ""
    if words[-1] in _AWAY and "back" not in words:
        return "result", Deed(at, match.end("particle"), "remove", "detach", "third", at)
    if words[0] == "back" and (
        len(words) > 1 or following in ("in", "on", "onto", "into", "over", "under", "together", "up")
    ):
        return "result", Deed(at, match.end("particle"), "refit", "attach", "third", at)
    return "fragment", None


def _mood(known: Annotations, core: int, end: int, deeds: list[Deed]) -> tuple[Mood, Deed | None]:
    tags = known.tags
    if core >= end:
        return "fragment", None
    after = [deed for deed in deeds if deed.start >= core]
    if _NEGATIVE.match(tags, core, end) and tags[core] in "JXI" and "J" in tags[core : min(core + 4, end)]:
        return "negative", after[0] if after else None
    tag = tags[core]
    if tag == "V":
        return "imperative", next((d for d in after if d.start == core), None)
    if tag == "G":
        return "narrated", next((d for d in after if d.start == core), None)
    if tag == "I":
        planned = _PLANNED.match(tags, core, end)
        if planned:
            verb = planned.end() - 1
            return "planned", next((d for d in after if d.start >= verb), None)
        if _NARRATED.match(tags, core, end):
            return "narrated", after[0] if after else None
        return "descriptive", None
    if tag in "eO" and not _RESULT.match(tags, core, end):
        passive = _PASSIVE.match(tags, core, end)
        found = next((d for d in after if passive and d.start >= passive.end() - 1), None)
        return ("passive", found) if found and found.form == "past" else ("descriptive", None)
    if tag == "r" and re.match(r"r(?:O|D?[AQN]*[nHF]+)[SV]", tags[core:end]):  # "out it comes"
        return "result", Deed(core, core + 1, "remove", "detach", "third", core)
    result = _RESULT.match(tags, core, end)
    if result:
        verb = result.end() - 1
        found = next((d for d in after if d.start == verb), None)
        if found and found.particle is None and known.lower[verb] in _STATIVE:
            return "descriptive", None
        if found and (found.form == "third" or tags[verb] == "V"):
            return "result", found
        if found and found.form == "progressive":
            return "descriptive", None
    passive = _PASSIVE.match(tags, core, end)
    if passive:
        found = next((d for d in after if d.start == passive.end() - 1), None)
        return "passive", found
    if tag in "eO":
        return "descriptive", None
    return "fragment", after[0] if after else None


def _fill(known: Annotations, clause: Clause, phrases: list[Phrase]) -> None:
    """Object, pronoun, source, manner."""
    deed, tags, lower = clause.deed, known.tags, known.lower
    if deed is None:
        clause.objects = tuple(phrases)
        return
    if clause.mood in ("result", "passive"):
        before = [p for p in phrases if clause.core <= p.start and p.end <= deed.start]
        clause.objects = tuple(before)
        clause.object = before[0] if before else None
        if not before and lower[clause.core] in _PRONOUNS:
            clause.pronoun = lower[clause.core]
    else:
        at = deed.end
        while at < clause.end and (tags[at] in "rRQfT" or at in known.dropped) and lower[at] not in _PRONOUNS:
            at += 1
        if at < clause.end and lower[at] in _PRONOUNS and tags[at] in "OQd":
            clause.pronoun = lower[at]
        objects = []
        for phrase in phrases:
            if phrase.start < at:
                continue
            if not objects and phrase.start > at + 1:
                break
            if objects and not re.fullmatch(r"[,CQ]+", tags[objects[-1].end : phrase.start] or "x"):
                break
            objects.append(phrase)
        if not clause.pronoun or (objects and objects[0].start <= at):
            clause.objects = tuple(objects)
            clause.object = objects[0] if objects else None
            if objects and objects[0].start <= at and clause.pronoun:
                clause.pronoun = None
    clause.source = _source(known, clause, phrases, deed)
    adverbs = [
        lower[i]
        for i in range(clause.core, clause.end)
        if tags[i] == "R" and lower[i].endswith("ly") and lower[i] not in ("really", "fully")
    ]
    clause.manner = adverbs[0] if adverbs else None


def _source(known: Annotations, clause: Clause, phrases: list[Phrase], deed: Deed) -> Phrase | None:
    lower = known.lower
    for phrase in phrases:
        if phrase.start <= deed.start:
            continue
        before = lower[phrase.start - 1]
        prior = lower[phrase.start - 2] if phrase.start >= 2 else ""
        if (
            before == "from"
            or (before == "off" and known.tags[phrase.start - 1] in "rp")
            or (before == "of" and prior in _FROM)
        ):
            return None if phrase.place else phrase
    return None


def group_of(clause: Clause) -> Group | None:
    """The first fastener group of a clause."""
    return clause.groups[0] if clause.groups else None


def lengths_of(measures: Sequence[Measure]) -> list[Measure]:
    """The measures that tell a size."""
    return [m for m in measures if m.kind != "torque"]
