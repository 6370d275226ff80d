"""Small drafts written in a line a step, for the cases of the checks.

A procedure is a table with `title` ("Replace the pump": its kind and subject are read from it unless given),
`needs` (prerequisites), `back` (install mode) and `steps`. A step is one line:

    [phase:] verb part [< from] [{count kind size length thread @ secured > counterpart}] [? condition] [# text]

Each step lasts four seconds and starts five after the one before. A notice is `kind@step: text`, the number of the
step it guards, or `kind: text` for the whole job; `kind!step: text` is said after the step.
"""

from __future__ import annotations

import re

from miner.model.draft import (
    Draft,
    Fastener,
    Heading,
    Install,
    Notice,
    Preparation,
    Prerequisite,
    Procedure,
    RecordingInfo,
    Step,
)
from miner.model.finding import Evidence
from miner.model.identity import procedure_id, step_id
from miner.model.observation import Observation

_STEP = re.compile(
    r"(?:(?P<phase>prepare|remove|install|after):)?\s*(?P<verb>[\w-]+)(?P<part>[^<{?#]*)(?:<(?P<from>[^{?#]*))?"
    r"(?P<groups>(?:\{[^}]*\}\s*)*)(?:\?(?P<condition>[^#]*))?(?:#(?P<text>.*))?$"
)
_SIZE = re.compile(r"^(?:PH|PZ|T)\d+H?$")
_DRIVES = {"PH": "cross-recess", "PZ": "pozidriv", "T": "hexalobular"}
_KINDS = {"Remove": "remove", "Replace": "replace", "Install": "install", "Adjust": "adjust", "Test": "test"}
_NOTICE = re.compile(r"(?P<kind>\w+)(?:(?P<mark>[@!])(?P<step>\d+))?:\s*(?P<text>.*)")


def draft_of(procedures, register="spoken") -> Draft:
    """The draft that the tables describe."""
    made, clock = [], 10.0
    for number, table in enumerate(procedures, 1):
        made.append(_procedure(number, table, clock))
        clock = made[-1].end + 2.0
    info = RecordingInfo("small", "", "", "", "small.srt", "subrip", None, clock, "", register)
    return Draft(info, tuple(made))


def observations_of(tables, draft: Draft) -> tuple[Observation, ...]:
    """Observations; `at` is a time, or a step or procedure of the draft."""
    places = {step.id: (step.start, step.id) for one in draft.procedures for step in one.steps}
    places |= {one.id: (one.end - 0.5, None) for one in draft.procedures}
    found = []
    for table in tables:
        start, step = places.get(table["at"], (table["at"], None))
        evidence = (Evidence(start, start + 1.0, table["quote"], step),)
        found.append(Observation(table["kind"], evidence, dict(table.get("detail", {}))))
    return tuple(found)


def _procedure(number: int, table, start: float) -> Procedure:
    name, title = procedure_id(number), table["title"]
    first, _, rest = title.partition(" the ")
    lines = table.get("steps", ())
    steps = tuple(_step(name, n, line, start + 5.0 * n) for n, line in enumerate(lines, 1))
    spoken = table.get("spoken", True)
    return Procedure(
        name,
        title,
        table.get("kind") or _KINDS.get(first, "remove"),
        table.get("subject") or rest,
        Heading(title, start, start + 2.0, spoken),
        start,
        start + 5.0 * len(lines) + 6.0,
        tuple(Prerequisite(part, f"{part} out", start + 2.5, start + 3.5) for part in table.get("needs", ())),
        tuple(Preparation(text, start + 2.0, start + 4.0) for text in table.get("preparations", ())),
        (),
        Install(table.get("back", "reverse")),
        steps,
        tuple(_notice(line, steps, start) for line in table.get("notices", ())),
    )


def _step(procedure: str, number: int, line: str, start: float) -> Step:
    match = _STEP.match(line.strip())
    assert match, line
    said = {key: (value or "").strip() or None for key, value in match.groupdict().items()}
    text = said["text"] or f"{(said['verb'] or '').capitalize()} the {said['part']}."
    groups = re.findall(r"\{([^}]*)\}", match["groups"])
    return Step(
        step_id(procedure, number), number, said["phase"] or "remove", start, start + 4.0, text, text, said["verb"],
        said["part"], said["from"], (), None, said["condition"], tuple(_group(one, start) for one in groups),
    )  # fmt: skip


def _group(text: str, start: float) -> Fastener:
    told, _, held = text.partition("@")
    secured, _, to = held.partition(">")
    values = {}
    kinds = []
    for word in told.split():
        if re.fullmatch(r"\d+(?:/\d+)+", word):
            values["count_alternatives"] = tuple(map(int, word.split("/")))
        elif word.isdigit():
            values["count"] = int(word)
        elif re.fullmatch(r"[\d.]+mm", word):
            values["length_mm"] = float(word[:-2])
        elif re.fullmatch(r"[\d.]+hex", word):
            values |= {"drive": "hex-socket", "drive_size": f"{word[:-3]} mm"}
        elif re.fullmatch(r"M[\d.]+", word):
            values["thread"] = word
        elif _SIZE.match(word):
            values |= {"drive": _DRIVES[re.match("[A-Z]+", word)[0]], "drive_size": word}
        else:
            kinds.append(word)
    return Fastener(
        " ".join(kinds), **values, secures=secured.strip() or None, to=to.strip() or None, start=start, end=start + 4.0
    )


def _notice(line: str, steps: tuple[Step, ...], start: float) -> Notice:
    match = _NOTICE.match(line)
    assert match, line
    step = steps[int(match["step"]) - 1] if match["step"] else None
    time = start + 3.0 if step is None else step.start + 4.2 if match["mark"] == "!" else step.start - 0.9
    return Notice(match["kind"], match["text"], time, time + 0.7, step.id if step else None)
