"""Which steps expose a person to a hazard of the lexicon, and what counts as having said so."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache

from miner.findings.asides import asides_by_hazard, glued, warns_of_nothing
from miner.findings.case import Case
from miner.findings.phrasing import phrasing
from miner.lexicon.entries import Hazard
from miner.lexicon.loading import Lexicon
from miner.lexicon.lookup import lookup
from miner.model.draft import Notice, Procedure, Step
from miner.model.finding import Evidence
from miner.model.naming import part_words

_HANDLED = frozenset({"undo", "detach", "disconnect", "loosen", "open", "handle"})
_ALWAYS_COVERS = frozenset({"danger", "warning"})
# First words that make any part dangerous, whatever its last word: "mains leads", "high voltage cable", "laser unit".
_TELLING = {"mains": ("mains", "high voltage"), "laser": ("laser",)}
# Hazards that also threaten who works on what is fixed to the part: leads on a capacitor, a board on a cell pack.
_NEAR = frozenset({"mains", "stored-charge", "lithium-cell"})
# Jobs done with the product opened and powered: connecting it is then the dangerous step.
_LIVE_JOBS = frozenset({"adjust", "test", "inspect"})
_LIVE_WORK = frozenset({"connect", "energise", "adjust", "inspect"})
# Pulling the plug is the safe thing to do, not the hazard.
_ISOLATING = re.compile(r"\b(?:wall|outlets?|socket outlet|mains plug|power plug|adapter plug)\b", re.IGNORECASE)
# Work on what has been taken out of the product: no pressure stands in it any more.
_ON_THE_BENCH = re.compile(
    r"\b(?:in (?:my|your|the) hands?|(?:on|at) (?:the |a |my )?(?:bench|table|counter)|out of the machine)\b",
    re.IGNORECASE,
)
# What supply leads come out of, said of the product: unplugging them there makes it safe.
_SUPPLIED = frozenset({"product", "place", "connector"})
_PROTECTING = re.compile(r"\b(?:gloves?|goggles|glasses|mask|visor|wrist ?(?:strap|band))\b", re.IGNORECASE)
_PROVED = re.compile(r"\b(?:already|is|it's|proved?(?: it)?) (?:dead|isolated|discharged)\b", re.IGNORECASE)
_COMING_OFF = frozenset({"detach", "disconnect"})  # whatever the phase: a job may begin unannounced within another
_OFF = re.compile(r"\b(?:off|out of)\b", re.IGNORECASE)
_LOADED = re.compile(r"\b(?:stretched|tension\w*|wound|loaded|compressed|tight)\b", re.IGNORECASE)
_LETTING_GO = re.compile(r"\b(?:let|unwind\w*|uncoil\w*|releas\w*|unhook\w*)\b", re.IGNORECASE)
_CELLS = frozenset({"battery", "cell", "pack"})
_FORCING = frozenset({"lever", "pry", "prise", "prize", "pry up", "cut", "peel", "heat", "scrape"})


@dataclass(frozen=True, slots=True)
class Exposure:
    """The steps that work on a hazard, in order, and the remarks that show that it is there."""

    hazard: Hazard
    steps: tuple[Step, ...]
    asides: tuple[Evidence, ...] = ()


@dataclass(frozen=True, slots=True)
class _Table:
    """Terms by their last word, as words, with the hazard; harmless terms; patterns of the words said of a hazard."""

    terms: dict[str, tuple[tuple[tuple[str, ...], Hazard], ...]]
    exempt: dict[str, tuple[tuple[str, ...], ...]]
    said: dict[str, re.Pattern[str]]
    by_id: dict[str, Hazard]


@lru_cache(maxsize=4)
def _table(lexicon: Lexicon) -> _Table:
    terms: dict[str, list[tuple[tuple[str, ...], Hazard]]] = {}
    for hazard in lexicon.hazards:
        for term in hazard.terms:
            words = part_words(term)
            if len(words) < len(term.split()) and len(words) == 1:
                continue  # "motor assembly" would make every motor one
            terms.setdefault(words[-1], []).append((words, hazard))
    return _Table(
        {last: tuple(found) for last, found in terms.items()},
        {hazard.id: tuple(map(part_words, hazard.exempt)) for hazard in lexicon.hazards},
        {hazard.id: _any_of(hazard.words) for hazard in lexicon.hazards},
        {hazard.id: hazard for hazard in lexicon.hazards},
    )


def _any_of(words: tuple[str, ...]) -> re.Pattern[str]:
    return re.compile(rf"\b(?:{'|'.join(map(re.escape, words)) or '(?!)'})", re.IGNORECASE)


def exposed(case: Case, procedure: Procedure) -> list[Exposure]:
    """The hazards that the steps of a procedure work on and that nothing in it speaks of.

    A danger or warning of the procedure covers every hazard, since it shows that safety was thought of; a caution
    or important remark covers the hazards it names, and so do preparations, isolating steps, and what a step itself
    says of protection ("put gloves on, the edges are sharp").
    """
    notices = [one for one in procedure.notices if not warns_of_nothing(one.text)]
    if any(notice.kind in _ALWAYS_COVERS for notice in notices):
        return []
    table = _table(case.lexicon)
    said = _said(case, procedure, notices)
    found: dict[str, dict[str, Step]] = {}
    for step in procedure.steps:
        for hazard in _of_work(case, table, step) if _exposes(case, procedure, step) else ():
            found.setdefault(hazard.id, {})[step.id] = step
    work = {step.id: step for step in procedure.steps if step.phase == "remove"}
    if work and procedure.kind in ("remove", "replace"):
        for hazard in _of_name(table, part_words(procedure.subject)):
            if _is_real(hazard, "detach"):
                found.setdefault(hazard.id, work)
    asides = asides_by_hazard(case, procedure) if work else {}
    if "lithium-cell" in found:
        asides.setdefault("lithium-cell", glued(case, procedure))
    for key in asides:
        if key in table.by_id:
            found.setdefault(key, work)
    if _ON_THE_BENCH.search(" ".join([procedure.heading.text, *(one.text for one in procedure.preparations)])):
        found.pop("pressure", None)
    return [
        Exposure(table.by_id[key], tuple(steps.values()), asides.get(key, ()))
        for key, steps in found.items()
        if not table.said[key].search(said)
    ]


def _of_work(case: Case, table: _Table, step: Step) -> Iterator[Hazard]:
    """The hazards that a step meets by its part and what it does to it, or by winding an unnamed spring."""
    effect = case.teardown.effects.of(step)
    yield from (hazard for hazard in _of_step(table, step) if _is_real(hazard, effect))
    if "spring" in table.by_id and phrasing(case.lexicon, "winding").search(step.text.casefold()):
        yield table.by_id["spring"]


def met(case: Case, step: Step) -> tuple[str, ...]:
    """The ids of the hazards that a step meets by its part and what it does to it."""
    return tuple(dict.fromkeys(hazard.id for hazard in _of_work(case, _table(case.lexicon), step)))


def spoken_of(case: Case, text: str) -> tuple[str, ...]:
    """The ids of the hazards of which a text speaks."""
    return tuple(key for key, said in _table(case.lexicon).said.items() if said.search(text))


def _said(case: Case, procedure: Procedure, notices: list[Notice]) -> str:
    """Everything in a procedure that may speak of a hazard as one."""
    isolating = (step.text for step in procedure.steps if case.teardown.effects.of(step) == "isolate")
    protecting = (step.text for step in procedure.steps if _PROTECTING.search(step.text))
    spoken = " ".join(one.quote for one in case.said(procedure.start, procedure.end))
    proved = (match[0] for match in _PROVED.finditer(spoken))
    warned = (notice.text for notice in notices if notice.kind != "note")
    return " ".join([*warned, *(one.text for one in procedure.preparations), *isolating, *protecting, *proved])


def _exposes(case: Case, procedure: Procedure, step: Step) -> bool:
    """Whether a step works on the opened product: no plug is pulled for safety, nothing is only put back."""
    effect = case.teardown.effects.of(step)
    if effect != "connect" and _ISOLATING.search(step.text):
        return False
    if step.phase == "prepare" and phrasing(case.lexicon, "winding").search(step.text.casefold()):
        return True
    if step.phase == "remove" or (effect in _COMING_OFF and _OFF.search(step.text)):
        return True
    live = procedure.kind in _LIVE_JOBS and effect in _LIVE_WORK and bool(procedure.prerequisites)
    return step.phase == "prepare" and (live or (effect in _HANDLED and _inside(case, step)))


def _inside(case: Case, step: Step) -> bool:
    """Whether a step told among the preparations takes something off a part of the product."""
    head = lookup(case.lexicon).head_of(part_words(step.from_)) if step.from_ else None
    return head is not None and head.kind not in _SUPPLIED


def _is_real(hazard: Hazard, effect: str | None) -> bool:
    return effect in hazard.actions if hazard.actions else effect in _HANDLED


def _of_step(table: _Table, step: Step) -> Iterator[Hazard]:
    for name in dict.fromkeys((step.part, *(group.secures for group in step.fasteners))):
        yield from _of_name(table, part_words(name) if name else ())
    near = part_words(step.from_) if step.from_ else ()
    yield from (hazard for hazard in _of_name(table, near) if hazard.id in _NEAR)
    # A cell that has to be forced out is one that is glued in.
    forced = {*near, *(part_words(step.part)[-1:] if step.part else ())}
    if _CELLS & forced and step.action in _FORCING and "lithium-cell" in table.by_id:
        yield table.by_id["lithium-cell"]
    if "spring" in table.by_id and _LETTING_GO.search(step.text):
        words = part_words(step.text)
        loaded = part_words(step.part)[-1:] == ("spring",) and _LOADED.search(step.text) if step.part else None
        if loaded or any(
            _phrase(term, words) for term, hazard in table.terms.get("spring", ()) if hazard.id == "spring"
        ):
            yield table.by_id["spring"]


def _phrase(term: tuple[str, ...], words: tuple[str, ...]) -> bool:
    """Whether the words of a term stand beside one another in a sentence."""
    return any(words[start : start + len(term)] == term for start in range(len(words) - len(term) + 1))


def _of_name(table: _Table, words: tuple[str, ...]) -> Iterator[Hazard]:
    if not words:
        return
    for term, hazard in table.terms.get(words[-1], ()):
        if _stands_in(term, words) and not _harmless(table, hazard.id, words):
            yield hazard
    for key, firsts in _TELLING.items():
        if key in table.by_id and _starts(words, firsts) and not _harmless(table, key, words):
            yield table.by_id[key]


def _harmless(table: _Table, hazard: str, words: tuple[str, ...]) -> bool:
    return any(_stands_in(one, words) for one in table.exempt[hazard])


def _starts(words: tuple[str, ...], firsts: tuple[str, ...]) -> bool:
    name = f"{' '.join(words)} "
    return any(name.startswith(f"{first} ") for first in firsts)


def _stands_in(term: tuple[str, ...], words: tuple[str, ...]) -> bool:
    """Whether a term names the part: the same last word, and its other words before it in order."""
    if not term or term[-1] != words[-1]:
        return False
    rest = iter(words[:-1])
    return all(word in rest for word in term[:-1])
