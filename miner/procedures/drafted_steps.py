"""Found steps -> the steps of the contract: edited wording, the words as transcribed, fasteners, confidence."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator, Mapping

from miner.language.annotations import Annotations, Group
from miner.language.tools import supplies_of
from miner.lexicon import Lexicon
from miner.lexicon.lookup import lookup
from miner.model.draft import Fastener, Step
from miner.model.identity import step_id
from miner.model.naming import head_word
from miner.model.recording import Recording
from miner.procedures.note_wording import Line, Wording, is_done, note_wordings, within
from miner.procedures.step_found import StepFound
from miner.procedures.wording import COUNTS, count_word, edited, imperative_of, part_name, plain_text, spoken_text

ROUND = 3
"""Decimals of times in a draft: milliseconds."""
CLOSE = 0.6
"""Least likeness (0 to 1) of an edited note to the note: an editor must find the words of the note in it."""

_NUMBERS = {word: str(n) for n, word in enumerate(COUNTS)}
_SIGNS = {"&": "and", "+": "and", "@": "at", ">": "to"}
_EDGES = frozenset(("edge", "edges", "corner", "corners", "end", "ends", "side", "sides", "underside", "middle"))
_TAIL = re.compile(r",(?P<name>[NAnHFZGE]+)(?=[.,t]|$)")
_WORD = re.compile(r"\d+(?:\.\d+)?|[^\W\d_]+")


def drafted_steps(
    recording: Recording, known: Annotations, found: list[StepFound], procedure: str, lexicon: Lexicon
) -> tuple[Step, ...]:
    """The steps of a job as they stand in a draft."""
    made = []
    for number, step in enumerate(found, 1):
        start, end = known.starts[step.start], known.ends[step.end - 1]
        pieces = [plain_text(known, a, b) for a, b in _joined(step.ranges)]
        text = edited(" ".join(pieces))
        text = imperative_of(text, step.action)
        if known.breaks:
            text = written_out(known, step, text, lexicon)
        spoken = as_transcribed(recording, spoken_text(known, step.start, step.end), start, end).lstrip(" ,;-–")
        groups = tuple(_fastener(known, g) for g in step.groups)
        part = part_name(step.part) if step.part else next((g.secures for g in groups if g.secures), None)
        if step.groups and part and any(head_word(part) == head_word(g.kind) for g in step.groups):
            said = "secures" not in step.inferred  # the part is the one that they secure only when that was said
            part = (next((g.secures for g in groups if g.secures), None) if said else None) or part
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
            )
        )
    return tuple(made)


def written_out(known: Annotations, step: StepFound, jotted: str, lexicon: Lexicon) -> str:
    """The fullest wording of a note that is still close to it; `jotted` is its own.

    Several notes that came together in one step are left as they are: an editor has to part them first.
    """
    if any(start in known.breaks for start, _ in step.ranges[1:]):
        return jotted
    line = Line(known, lookup(lexicon), step)
    spelled, anew = _spelled(line), _anew(line)
    for wording in note_wordings(line):
        text = edited(_text(known, wording, {**spelled, **anew} if wording.reworded else spelled))
        if closeness(text, jotted) >= CLOSE:
            return text
    return jotted


def closeness(first: str, second: str) -> float:
    """The share of words that two texts have in common, 0 to 1; `two` equals `2`, `M4x12` is four words."""
    one, two = (Counter(_NUMBERS.get(w, w) for w in _WORD.findall(text.lower())) for text in (first, second))
    total = one.total() + two.total()
    return 2 * (one & two).total() / total if total else 1.0


def _text(known: Annotations, wording: Wording, said: Mapping[int, str]) -> str:
    """The pieces of a wording as text, without blanks where the note has none."""
    text, last = "", -2
    for place, piece in enumerate(wording.pieces):
        if isinstance(piece, str):
            word, glued = piece, piece == ","
        else:
            form, before = known.forms[piece], wording.pieces[place - 1] if place else ""
            word = form.lower() if place and piece in known.stops and form[1:].islower() else form
            word = said.get(piece, word)
            glued = last == piece - 1 and known.places[last] + len(known.forms[last]) == known.places[piece]
            if (
                piece in wording.articles
                and place
                and not (isinstance(before, int) and " with" in said.get(before, ""))
            ):
                word = f"{wording.articles[piece]} {word}"
        text += word if glued or word[:1] in ("", " ") else f" {word}"
        last = piece if isinstance(piece, int) and word else -2
    return text.strip()


def _spelled(line: Line) -> dict[int, str]:
    """Shorthand and signs as words, by token."""
    known, made = line.known, dict[int, str]()
    kept = line.index.words("determiner")
    for at in (i for a, b in line.step.ranges for i in range(a, b)):
        form = known.forms[at].lower().replace("’", "'")
        if form == "-" and known.forms[at + 1 : at + 2] == [">"]:
            made[at] = ""
        elif form in _SIGNS:
            made[at] = "then" if form == ">" and line.base_at(at + 1) else _SIGNS[form]
        elif form == "." and at and known.forms[at - 1].lower() != known.lower[at - 1]:
            made[at] = ""
        elif form != known.lower[at] and form not in kept:
            made[at] = known.lower[at]
    return made


def _anew(line: Line) -> dict[int, str]:
    """Tokens that a sentence says in other words: verbs in their base form, counts before names as words."""
    known, made = line.known, dict[int, str]()
    for start, end in line.step.ranges:
        clause = next(iter(within(known.clauses, start, start + 1)), None)
        core = clause.core if clause else start
        for deed in known.deeds_between(start, end):
            word = known.lower[deed.start]
            leads = set(known.tags[core : deed.start]) <= {"R"} or known.tags[deed.start - 1] in "C,"
            leads |= clause is not None and clause.deed == deed and is_done(known, clause)
            told = leads if deed.form == "past" else deed.form == "third" and deed.start == core
            if told and known.tags[deed.start] in "VSE":
                base = line.base_of(word, deed.verb.split()[0])
                made.update({deed.start: base} if base else {})
        grouped = {i for g in within(known.groups, start, end) for i in range(g.start, g.end)}
        names = known.phrases_between(start, end)
        for number in (n for n in within(known.numbers, start, end) if known.lower[n.start].isdigit()):
            after = "." if number.end >= end else known.tags[number.end]
            if number.times and number.value > 1 and number.start not in grouped and after in ".,WprC":
                made.update(dict.fromkeys(range(number.start, number.end), ""))
                made[number.start] = f"{count_word(number.value)} times"
            elif any(p.start <= number.start < p.end and p.plural for p in names):
                made[number.start] = count_word(number.value)
        for measure in within(known.measures, start + 1, end):
            if measure.kind == "torque" and known.lower[measure.start - 1] not in ("to", "at", "of"):
                made[measure.start] = f"to {known.forms[measure.start]}"
        for phrase in names:  # "undo 2 clips, rear edge of lid"
            listed = phrase.start > start and known.lower[phrase.start - 1] == ","
            lies = known.tags[phrase.end : phrase.end + 1] == "r"  # "push wheels on, dished side in"
            if listed and not lies and known.lower[phrase.head] in _EDGES:
                made[phrase.start - 1] = " at"
        for tail in _TAIL.finditer(known.tags, start, end):
            made.update({tail.start(): word for word in _put_to_use(line, tail.start() + 1, tail.end("name"))})
    return made


def _put_to_use(line: Line, start: int, end: int) -> Iterator[str]:
    """What stands for the comma before a tool, a supply or a direction: "tap it out, rubber mallet"."""
    known, index, names = line.known, line.index, line.known.lower[start:end]
    ends = [" ".join(names[n:]) for n in range(len(names))]
    if known.tags[end : end + 1] == "t" and end not in known.stops:
        plain = names[-1] not in index.words("adjective") and known.tags[end - 1] in "nHF"
        if plain and not line.step.groups and not line.base_at(start):
            yield " with the"  # "fit it, curve to shaft"
    elif any(e in index.words("body_part") or index.supply(e) for e in ends):
        yield " with"
    elif any(index.tool(e) for e in ends):
        one = not names[-1].endswith("s") and not names[0].isdigit()
        yield f" with {'an' if names[0][0] in 'aeiou' else 'a'}" if one else " with"


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


def _fastener(known: Annotations, group: Group) -> Fastener:
    return Fastener(
        group.kind, group.count, group.alternatives, group.length_mm, group.thread, group.drive, group.drive_size,
        group.head, group.captive, group.torque_nm, group.location, part_name(group.secures) if group.secures else None,
        part_name(group.to) if group.to else None,
        round(known.starts[group.start], ROUND), round(known.ends[min(group.end, len(known.ends)) - 1], ROUND),
    )  # fmt: skip
