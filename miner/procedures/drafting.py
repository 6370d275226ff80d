"""Doc -> Draft without findings: headings, bodies, subjects, prerequisites, steps, notices, reassembly put together."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace

from miner.language.annotations import Annotations, Sentence
from miner.lexicon import Lexicon
from miner.lexicon.lookup import Lookup, lookup
from miner.model.draft import (
    Draft,
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
from miner.model.identity import procedure_id
from miner.model.naming import head_word, part_key
from miner.model.observation import Observation
from miner.model.recording import Recording
from miner.procedures.bodies import Body, read_body, reading_of
from miner.procedures.boundaries import Span, cut_procedures
from miner.procedures.drafted_steps import ROUND, drafted_steps
from miner.procedures.headings import find_headings
from miner.procedures.linking import linked
from miner.procedures.notices import guarded, step_nouns
from miner.procedures.observing import observed, repairs_observed
from miner.procedures.prerequisites import read_prerequisites
from miner.procedures.reassembly import reversed_steps
from miner.procedures.securing import secure_groups
from miner.procedures.subjects import decide_subject
from miner.procedures.wording import edited, part_name, plain_text, spoken_text, title_of


@dataclass(frozen=True, slots=True)
class Drafted:
    """A draft without findings, and what was noticed on the way."""

    draft: Draft
    observations: tuple[Observation, ...]


def draft_recording(recording: Recording, known: Annotations, lexicon: Lexicon) -> Drafted:
    """The draft of an annotated recording."""
    index = lookup(lexicon)
    spans = cut_procedures(known, find_headings(known, lexicon))
    reading = reading_of(lexicon)
    subjects = frozenset(part_key(s.heading.part) for s in spans if s.heading.part)
    reading = replace(reading, named=subjects | _required_names(known, spans, reading.jobs), removed=subjects)
    bodies = [read_body(known, span, reading) for span in spans]
    procedures, observations = [], []
    for number, body in enumerate(bodies, 1):
        procedure, noticed = _procedure(recording, known, body, number, lexicon)
        procedures.append(procedure)
        observations += noticed
    observations += repairs_observed(recording)
    info = RecordingInfo(
        recording.id, recording.title or recording.id, recording.product, recording.model, recording.source,
        recording.format, recording.media, round(recording.duration, ROUND), recording.sha256,
        recording.register or "scripted",
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
        for first, last in span.stretches:
            for sentence in known.sentences[first:last]:
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
    kind = found.kind or _kind_of(known, body)
    if found.kind is None:
        inferred["kind"] = "the heading does not say it; taken from the steps"
    words = edited(plain_text(known, found.start, found.end), imperative=False).rstrip(".") if found.spoken else ""
    title = title_of(kind, part_name(found.part) or subject)
    if found.spoken and known.breaks:
        title = _note_title(known, (found.start, found.end), kind, lexicon) or words
    elif found.named is not None and found.number is not None and found.kind is not None:
        title = edited(plain_text(known, found.named, found.end), imperative=False).rstrip(".")
    if not found.spoken:
        inferred["title"] = "no heading was spoken; named after the subject"
    start = known.starts[found.start] if found.start < len(known.starts) else 0.0
    last = known.sentences[body.span.end - 1].end if body.span.end > body.span.first else found.end
    end = known.ends[max(last, found.end, 1) - 1]
    secure_groups(known, body.steps, found.part or subject)
    if kind in ("adjust", "inspect", "test") and not body.reverse:
        for found_step in body.steps:
            found_step.phase = "after" if found_step.phase == "install" else found_step.phase
    steps = drafted_steps(recording, known, body.steps, identity, lexicon)
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
    heading = (
        Heading(
            spoken_text(known, found.start, found.end).rstrip(" .,:"),
            start,
            known.ends[max(found.end, 1) - 1],
            spoken=True,
        )
        if found.spoken
        else Heading(title, start, start, spoken=False)
    )
    procedure = Procedure(
        identity, title, kind, subject, heading, round(start, ROUND), round(end, ROUND),
        tuple(body.prerequisites), tuple(body.preparations), tuple(tools), install, steps, notices, inferred,
    )  # fmt: skip
    return procedure, observed(known, body, identity, closing_part)


_SIGNS = " -=#*<>:.,~–"
_NAME = re.compile(r"[^\W\d_]+(?:[ -][^\W\d_]+)*")
_MARK = re.compile(
    r"^[\W_]*(?:(?:(?:job|section|next|now|then|start(?:ing)?(?: on| with)?)\b[\s:#\-]*(?:\d+\b)?|[a-z\d]\))"
    r"[\s.:,\-]*)*(?:the )?"
)


def _note_title(known: Annotations, span: tuple[int, int], kind: Kind, lexicon: Lexicon) -> str:
    """A heading of notes as a title: shorthand written out, "== COVER OFF ==" is "Remove the cover"."""
    text, acronyms = "", dict[str, str]()
    shouted = not any(form.islower() for form in known.forms[span[0] : span[1]])
    for i in range(*span):
        form, glued = known.forms[i], i > span[0] and known.places[i - 1] + len(known.forms[i - 1]) == known.places[i]
        if form.isupper() and len(form) < 4 and known.lower[i] == form.lower() and not shouted:
            acronyms[form.lower()] = form
        text += known.lower[i] if glued else f" {known.lower[i]}"
    text = _MARK.sub("", text.strip()).strip(_SIGNS)
    name = _without_deeds(text.split(), lookup(lexicon))
    lasting = kind == "replace" or "new" not in text.split()
    if lasting and _NAME.fullmatch(name) and name.split()[-1] not in lookup(lexicon).words("job_noun"):
        text = title_of(kind, name)
    text = re.sub(r"[^\W_]+", lambda word: acronyms.get(word[0], word[0]), text)
    return text[:1].upper() + text[1:]


def _without_deeds(words: list[str], index: Lookup) -> str:
    """What a heading names: "cover - take off" and "replace cover" name the cover."""

    def deed(word: str) -> bool:
        plain = word.strip(_SIGNS)
        form = index.action_of_form(plain)
        verb = form is not None and form.form == "base" and not index.head(plain)
        return verb or not plain or plain in index.words("particle")

    last = len(words)
    while last and deed(words[last - 1]):
        last -= 1
    first = 0 if last < len(words) else next((n for n, word in enumerate(words) if not deed(word)), 0)
    return " ".join(word for word in words[first:last] if word not in ("new", "the")).strip(_SIGNS)


_NEW_ONE = re.compile(r"\b(?:new|replacement|fresh|spare)\b")


def _kind_of(known: Annotations, body: Body) -> Kind:
    """Replace where a new part goes in, else remove; adjust or test where that is all that happens."""
    effects = [s.effect for s in body.steps]
    if any(e == "adjust" for e in effects) and not any(e in ("detach", "undo") for e in effects):
        return "adjust"
    stretches = [known.sentences[first:last] for first, last in body.span.stretches if last > first]
    told = " ".join(known.words(stretch[0].start, stretch[-1].end) for stretch in stretches)
    return "replace" if _NEW_ONE.search(told) else "remove"


_NO_PART = frozenset(
    "reverse removal order step way installation procedure sequence above rest this that done operation end same "
    "section "
    "job everything thing one".split()
)


def _named_in(known: Annotations, sentence: Sentence, lexicon: Lexicon) -> str | None:
    """The part that a closing or reverse sentence names."""
    for phrase in known.phrases_between(sentence.start, sentence.end, places=False):
        words = [w for w in phrase.name.split() if w not in _NO_PART]
        name = " ".join(words)
        if name and head_word(name) not in _NO_PART and phrase.name.split()[-1] not in _NO_PART:
            return phrase.name
    return None


def _notices(known: Annotations, body: Body, steps: tuple[Step, ...], subject: str) -> tuple[Notice, ...]:
    made = []
    nouns = [step_nouns(known, step) for step in body.steps]
    for told in body.notices:
        start, end = known.starts[told.start], known.ends[told.end - 1]
        made.append(
            Notice(
                told.kind,
                told.text,
                round(start, ROUND),
                round(end, ROUND),
                guarded(told, start, steps, nouns, subject),
            )
        )
    return tuple(made)


def _new_terms(procedures: list[Procedure], index: Lookup) -> tuple[NewTerm, ...]:
    seen: dict[str, list[float]] = {}
    for procedure in procedures:
        for step in procedure.steps:
            for name in (step.part, *(f.secures for f in step.fasteners)):
                if name and index.head_of(name.split()) is None and index.fastener(name) is None:
                    seen.setdefault(name, []).append(step.start)
    return tuple(NewTerm(term, len(times), times[0]) for term, times in sorted(seen.items()))
