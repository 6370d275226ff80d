"""Doc -> Draft without findings: headings, bodies, subjects, prerequisites, steps, notices, reassembly put together."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace

from miner.language.annotations import Annotations, Group, Sentence
from miner.language.roles import role_patterns
from miner.language.tools import supplies_of
from miner.lexicon import Lexicon
from miner.lexicon.lookup import lookup
from miner.model.draft import (
    Draft,
    Fastener,
    Heading,
    Install,
    InstallMode,
    Kind,
    NewTerm,
    Notice,
    Procedure,
    RecordingInfo,
    RepairRecord,
    Step,
)  # fmt: skip
from miner.model.finding import Evidence
from miner.model.identity import procedure_id, step_id
from miner.model.naming import part_key, part_words
from miner.model.observation import Observation
from miner.model.recording import Recording
from miner.procedures.bodies import Body, read_body
from miner.procedures.boundaries import Span, cut_procedures
from miner.procedures.headings import find_headings
from miner.procedures.notices import late_pattern
from miner.procedures.prerequisites import read_prerequisites
from miner.procedures.reassembly import reversed_steps
from miner.procedures.step_found import StepFound
from miner.procedures.subjects import decide_subject
from miner.procedures.wording import edited, imperative_of, part_name, plain_text, spoken_text, title_of

ROUND = 3


@dataclass(frozen=True, slots=True)
class Drafted:
    """A draft without findings, and what was noticed on the way."""

    draft: Draft
    observations: tuple[Observation, ...]


def draft_recording(recording: Recording, known: Annotations, lexicon: Lexicon) -> Drafted:
    """The draft of an annotated recording."""
    patterns = role_patterns(lexicon)
    late = late_pattern(lexicon)
    index = lookup(lexicon)
    spans = cut_procedures(known, find_headings(known, lexicon))
    subjects = frozenset(part_key(s.heading.part) for s in spans if s.heading.part)
    weak = index.words("weak_fastener")
    jobs = frozenset(re.findall(r"[a-z]+", " ".join(index.phrases("job")))) - {"out", "off", "new", "set"}
    named = subjects | _required_names(known, spans, jobs)
    bodies = [read_body(known, span, patterns, late, weak, named, jobs) for span in spans]
    procedures, observations = [], []
    for number, body in enumerate(bodies, 1):
        procedure, noticed = _procedure(recording, known, body, number, lexicon)
        procedures.append(procedure)
        observations += noticed
    observations += _repairs_observed(recording)
    info = RecordingInfo(
        recording.id, recording.title or recording.id, recording.product, recording.model, recording.source,
        recording.format, recording.media, round(recording.duration, ROUND), recording.sha256, recording.register or "scripted",
    )  # fmt: skip
    repairs = tuple(
        RepairRecord(r.kind, round(r.start, ROUND), round(r.end, ROUND), r.before, r.after, r.reason)
        for r in recording.repairs
    )
    draft = Draft(info, linked(tuple(procedures)), repairs=repairs, new_terms=_new_terms(procedures, index))
    return Drafted(draft, tuple(observations) + tuple(known.observations))


def _required_names(known: Annotations, spans: list[Span], jobs: frozenset[str]) -> frozenset[str]:
    names = set()
    for span in spans:
        for sentence in known.sentences[span.first : span.last]:
            if sentence.role == "prerequisite":
                names |= {part_key(p.part) for p in read_prerequisites(known, sentence, jobs=jobs).parts}
    return frozenset(names)


def _procedure(
    recording: Recording, known: Annotations, body: Body, number: int, lexicon: Lexicon
) -> tuple[Procedure, list[Observation]]:
    found = body.span.heading
    identity = procedure_id(number)
    closing_part = _named_in(known, body.closing, lexicon) if body.closing else None
    reverse_part = _named_in(known, body.reverse, lexicon) if body.reverse else None
    required = [p.part for p in body.prerequisites]
    subject, moved = decide_subject(found.part, body.steps, closing_part, reverse_part, required)
    subject = part_name(subject)
    inferred: dict[str, str] = {}
    if moved:
        inferred["subject"] = f"the heading says “{found.part}”, the steps are about the {subject}"
    kind = found.kind or _kind_of(body)
    if found.kind is None:
        inferred["kind"] = "the heading does not say it; taken from the steps"
    words = edited(plain_text(known, found.start, found.end), imperative=False).rstrip(".") if found.spoken else ""
    if found.spoken and len(words.split()) > 1 and found.kind is not None:
        title = words
    else:
        title = title_of(kind, part_name(found.part) or subject)
    if not found.spoken:
        inferred["title"] = "no heading was spoken; named after the subject"
    start = known.starts[found.start] if found.start < len(known.starts) else 0.0
    last = known.sentences[body.span.last - 1].end if body.span.last > body.span.first else found.end
    end = known.ends[max(last, found.end, 1) - 1]
    steps = _steps(recording, known, body.steps, identity, lexicon)
    notices = _notices(known, body, steps, found.part or subject)
    mode: InstallMode = (
        "reverse" if body.reverse else "explicit" if any(s.phase == "install" for s in steps) else "none"
    )
    install = Install(
        mode,
        edited(plain_text(known, body.reverse.start, body.reverse.end), imperative=False) if body.reverse else "",
        known.starts[body.reverse.start] if body.reverse else None,
        known.ends[body.reverse.end - 1] if body.reverse else None,
        reversed_steps(steps, lexicon, mode),
    )
    tools: dict[str, None] = {}
    for step in steps:
        tools.update(dict.fromkeys(step.tools))
    procedure = Procedure(
        identity, title, kind, subject, Heading(words or title, start, known.ends[max(found.end, 1) - 1] if found.spoken else start, found.spoken),
        round(start, ROUND), round(end, ROUND), tuple(body.prerequisites), tuple(body.preparations), tuple(tools), install, steps, notices, inferred,
    )  # fmt: skip
    return procedure, _observed(known, body, identity, closing_part)


def _kind_of(body: Body) -> Kind:
    """Replace where a new part goes in, else remove; adjust or test where that is all that happens."""
    effects = [s.effect for s in body.steps]
    if any(e in ("adjust",) for e in effects) and not any(e in ("detach", "undo") for e in effects):
        return "adjust"
    if any(s.phase == "install" and s.clause.object for s in body.steps):
        return "replace"
    return "remove"


def _named_in(known: Annotations, sentence: Sentence, lexicon: Lexicon) -> str | None:
    """The part that a closing or reverse sentence names."""
    skipped = {
        "reverse",
        "removal",
        "order",
        "step",
        "way",
        "installation",
        "procedure",
        "sequence",
        "above",
        "rest",
        "this",
        "that",
        "done",
        "operation",
        "end",
        "same",
        "section",
        "job",
        "everything",
        "thing",
        "one",
    }
    for phrase in known.phrases_between(sentence.start, sentence.end, places=False):
        words = [w for w in phrase.name.split() if w not in skipped]
        name = " ".join(words)
        if name and part_words(name)[-1] not in skipped and phrase.name.split()[-1] not in skipped:
            return phrase.name
    return None


def _steps(
    recording: Recording, known: Annotations, found: list[StepFound], procedure: str, lexicon: Lexicon
) -> tuple[Step, ...]:
    made = []
    for number, step in enumerate(found, 1):
        start, end = known.starts[step.start], known.ends[step.end - 1]
        pieces = [plain_text(known, a, b) for a, b in _joined(step.ranges)]
        text = edited(" ".join(pieces))
        text = imperative_of(text, step.action)
        spoken = as_transcribed(recording, spoken_text(known, step.start, step.end), start, end)
        groups = tuple(_fastener(known, g, step) for g in step.groups)
        part = part_name(step.part) if step.part else next((g.secures for g in groups if g.secures), None)
        if step.groups and part and any(part_words(part)[-1] == part_words(g.kind)[-1] for g in step.groups):
            part = next((g.secures for g in groups if g.secures), None) or part
        made.append(
            Step(
                step_id(procedure, number),
                number,
                step.phase,
                round(start, ROUND),
                round(end, ROUND),
                text,
                spoken,
                step.action,
                part,
                part_name(step.source) if step.source else None,
                tuple(step.tools),
                step.manner,
                step.condition,
                groups,
                supplies_of(text, lexicon),
                _confidence(step),
                dict(step.inferred),
            )  # fmt: skip
        )
    return tuple(made)


def _joined(ranges: list[tuple[int, int]]) -> list[tuple[int, int]]:
    joined: list[tuple[int, int]] = []
    for a, b in ranges:
        if joined and joined[-1][1] == a:
            joined[-1] = (joined[-1][0], b)
        else:
            joined.append((a, b))
    return joined


def as_transcribed(recording: Recording, text: str, start: float, end: float) -> str:
    """The words before any repair."""
    for repair in recording.repairs:
        if repair.kind != "rolling" and start - 0.01 <= repair.start <= end and repair.after and repair.after in text:
            text = text.replace(repair.after, repair.before, 1)
    return text


def _confidence(step: StepFound) -> float:
    """1 for a plain instruction, less where something had to be inferred."""
    score = {"imperative": 1.0, "planned": 0.95, "narrated": 0.85, "result": 0.8}.get(step.clause.mood, 0.6)
    return round(score - 0.1 * len(step.inferred), 2)


def _fastener(known: Annotations, group: Group, step: StepFound) -> Fastener:
    secures = group.secures
    if secures is None and step.part and part_words(step.part)[-1] != part_words(group.kind)[-1]:
        secures = part_name(step.part)
    return Fastener(
        group.kind, group.count, group.alternatives, group.length_mm, group.thread, group.drive, group.drive_size,
        group.head, group.captive, group.torque_nm, group.location, part_name(secures) if secures else None,
        part_name(group.to) if group.to else None,
        round(known.starts[group.start], ROUND), round(known.ends[min(group.end, len(known.ends)) - 1], ROUND),
    )  # fmt: skip


def _notices(known: Annotations, body: Body, steps: tuple[Step, ...], subject: str) -> tuple[Notice, ...]:
    made = []
    for told in body.notices:
        start, end = known.starts[told.start], known.ends[told.end - 1]
        made.append(
            Notice(told.kind, told.text, round(start, ROUND), round(end, ROUND), _guarded(told, start, steps, subject))
        )
    return tuple(made)


def _guarded(told: Told, start: float, steps: tuple[Step, ...], subject: str) -> str | None:
    """The step that a notice guards: one after it that works on a part it names, else the next, else one before it."""

    def names(step: Step) -> set[str]:
        found = {part_words(step.part)[-1]} if step.part else set()
        return found | {part_words(f.secures)[-1] for f in step.fasteners if f.secures}

    own = part_words(subject)[-1] if subject else ""
    before = [s for s in steps if s.start < start]
    after = [s for s in steps if s.start >= start and s.phase in ("prepare", "remove", "install")]
    if told.late and before:
        return next((s.id for s in reversed(before) if names(s) & told.words), before[-1].id)
    if not before and (not told.words - {own}):
        return None
    for step in after:
        if names(step) & (told.words - ({own} if not before else set())):
            return step.id
    if not before:
        return None
    if after and after[0].start - start < 45:
        return after[0].id
    return next((s.id for s in reversed(before) if names(s) & told.words), None if not before else None)


def linked(procedures: tuple[Procedure, ...]) -> tuple[Procedure, ...]:
    """Prerequisites with the procedure that removes their part."""
    by_key = {part_key(p.subject): p.id for p in reversed(procedures) if p.subject}
    by_head: dict[str, list[str]] = {}
    for key, identity in by_key.items():
        by_head.setdefault(key.rsplit(" ", 1)[-1], []).append(identity)

    def remover(part: str) -> str | None:
        key = part_key(part)
        if key in by_key:
            return by_key[key]
        words = set(key.split())
        near = [i for k, i in by_key.items() if set(k.split()) < words or words < set(k.split())]
        return near[0] if len(near) == 1 else None

    return tuple(
        replace(p, prerequisites=tuple(replace(q, procedure=remover(q.part)) for q in p.prerequisites))
        for p in procedures
    )


def _observed(known: Annotations, body: Body, procedure: str, closing: str | None) -> list[Observation]:
    made = []
    if body.closing and closing:
        made.append(
            Observation(
                "closing",
                (_evidence(known, body.closing.start, body.closing.end),),
                {"part": closing, "procedure": procedure},
            )
        )
    found = body.span.heading
    if found.number is not None:
        made.append(
            Observation(
                "section-number",
                (_evidence(known, found.start, found.end),),
                {"number": str(found.number), "procedure": procedure},
            )
        )
    return made


def _evidence(known: Annotations, start: int, end: int) -> Evidence:
    return Evidence(
        round(known.starts[start], ROUND), round(known.ends[end - 1], ROUND), spoken_text(known, start, end)
    )


def _repairs_observed(recording: Recording) -> list[Observation]:
    kinds = {"stutter": "stutter", "mishearing": "mishearing"}
    made = []
    for repair in recording.repairs:
        if repair.kind in kinds:
            place = Evidence(round(repair.start, ROUND), round(repair.end, ROUND), repair.before)
            made.append(
                Observation(
                    kinds[repair.kind], (place,), {"heard": repair.before, "meant": repair.after, "word": repair.before}
                )
            )  # type: ignore[arg-type]
    return made


def _new_terms(procedures: list[Procedure], index: object) -> tuple[NewTerm, ...]:
    from miner.lexicon.lookup import Lookup

    assert isinstance(index, Lookup)
    seen: dict[str, list[float]] = {}
    for procedure in procedures:
        for step in procedure.steps:
            for name in (step.part, *(f.secures for f in step.fasteners)):
                if name and index.head_of(name.split()) is None and index.fastener(name) is None:
                    seen.setdefault(name, []).append(step.start)
    return tuple(NewTerm(term, len(times), times[0]) for term, times in sorted(seen.items()))
