"""What an editor typed, as values: lists, numbers, fastener groups."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import replace

from miner.decisions.changes import fastener_values
from miner.errors import DecisionError
from miner.model.draft import Fastener, Step

DRIVES = (
    "cross-recess", "pozidriv", "hexalobular", "hexalobular-tamper", "hex-socket", "hex-head", "slotted", "tri-wing",
    "pentalobular", "square", "spanner",
)  # fmt: skip
"""Drives of the contract's vocabulary."""

STEP_FIELDS = ("text", "action", "part", "from", "phase", "manner", "condition", "tools", "supplies")
FASTENER_WORDS = ("kind", "thread", "drive", "drive_size", "head", "location", "secures", "to")
LABELS = {
    "text": "Wording",
    "action": "Action",
    "part": "Part",
    "from": "Comes off",
    "phase": "Phase",
    "manner": "Manner",
    "condition": "Only if",
    "tools": "Tools",
    "supplies": "Supplies",
    "fasteners": "Fasteners",
    "title": "Title",
    "subject": "Part it is about",
    "kind": "Kind",
    "install": "How it goes back",
    "prerequisites": "Must be out already",
    "step": "Stands before",
    "procedure": "Procedure",
    "removed": "Taken out",
    "split": "Split",
    "join": "Joined with",
    "after": "Placed after",
    "verdict": "Order",
    "items": "Settled by the correction of",
}
"""What the fields of a decision are called on the page."""

_LISTS = ("tools", "supplies", "prerequisites")
_BETWEEN = re.compile(r"[;\n]")
_RANGE = re.compile(r"\s*(?:or|/|,|-|to)\s*")


def words(text: str) -> str | None:
    """Text without blanks at its ends and doubled ones inside; None if there is none."""
    return " ".join(text.split()) or None


def several(text: str) -> list[str]:
    """A list, one entry a line or parted by semicolons."""
    return [entry for part in _BETWEEN.split(text) if (entry := words(part))]


def shown(value: object) -> str:
    """A value as it stands in a form field."""
    if value is None:
        return ""
    if isinstance(value, tuple | list):
        return "\n".join(str(one) for one in value)
    return f"{value:g}" if isinstance(value, float) else str(value)


def value_of(field: str, text: str) -> object:
    """What was typed into the field of an item, as its JSON value."""
    return several(text) if field in _LISTS else words(text)


def step_value(step: Step, field: str) -> object:
    """A field of a step as its JSON value."""
    value = getattr(step, "from_" if field == "from" else field)
    return list(value) if isinstance(value, tuple) else value


def count_of(text: str) -> tuple[int | None, tuple[int, ...]]:
    """A count, or what was left open: `2` and `2 or 3`."""
    numbers = [part for part in _RANGE.split(text.strip()) if part]
    if not all(part.isdigit() and len(part) < 5 for part in numbers):
        raise DecisionError(f"number: {text.strip()[:40]!r} is no count", remedy="Enter 4, or 2 or 3, or nothing.")
    counts = tuple(int(part) for part in numbers)
    if len(counts) == 1:
        return counts[0], ()
    return None, counts


def measure_of(text: str, what: str) -> float | None:
    """A length in millimetres or a torque in newton metres."""
    plain = text.strip().casefold().removesuffix("mm").removesuffix("n m").removesuffix("nm").strip().replace(",", ".")
    if not plain:
        return None
    try:
        value = float(plain)
    except ValueError:
        value = -1.0
    if not 0 < value < 10_000:
        raise DecisionError(f"{what}: {text.strip()[:40]!r} is no measure", remedy="Enter a number such as 8 or 2.5.")
    return value


def count_shown(group: Fastener) -> str:
    """The count of a group as it stands in its field."""
    return str(group.count) if group.count is not None else " or ".join(map(str, group.count_alternatives))


def fasteners_from(form: Mapping[str, str], prefix: str, step: Step) -> list[dict[str, object]]:
    """The groups of a form (`g0-kind`, `g0-count`, ...): the old ones changed, and new ones; no kind, no group.

    Raises:
        DecisionError: a number cannot be read.
    """
    return fastener_values(tuple(_groups(form, prefix, step)))


def _groups(form: Mapping[str, str], prefix: str, step: Step) -> Iterator[Fastener]:
    number = 0
    while f"{prefix}{number}-kind" in form:
        name = f"{prefix}{number}-"
        number += 1
        said = {field: words(form.get(name + field, "")) for field in FASTENER_WORDS}
        if not said["kind"] or form.get(f"{name}remove"):
            continue
        old = (
            step.fasteners[number - 1]
            if number <= len(step.fasteners)
            else Fastener(said["kind"], start=step.start, end=step.end)
        )
        count, alternatives = count_of(form.get(f"{name}count", ""))
        yield replace(
            old,
            **said,  # type: ignore[arg-type]  # kind is a string: those without were passed over
            count=count,
            count_alternatives=alternatives,
            length_mm=measure_of(form.get(f"{name}length_mm", ""), "length"),
            torque_nm=measure_of(form.get(f"{name}torque_nm", ""), "torque"),
            captive=bool(form.get(f"{name}captive")),
        )
