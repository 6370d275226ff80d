"""What an editor can change in each kind of item, checked before it is stored and again before it is applied."""

from __future__ import annotations

from functools import cache
from typing import Annotated, Any, Literal

from pydantic import ConfigDict, Field, TypeAdapter, ValidationError, with_config
from typing_extensions import TypedDict

from miner.decisions.decision import Changes
from miner.errors import DecisionError
from miner.model.draft import Fastener, InstallMode, Kind, NoticeKind, Phase

Words = Annotated[str, Field(min_length=1, max_length=4000)]
Name = Annotated[str, Field(min_length=1, max_length=300)]
Key = Annotated[str, Field(max_length=80)]


class Part(TypedDict):
    """One half of a split step."""

    text: Words
    fasteners: list[Fastener]


StepChanges = TypedDict(
    "StepChanges",
    {
        "text": Words,
        "action": Name | None,
        "part": Name | None,
        "from": Name | None,
        "phase": Phase,
        "manner": Name | None,
        "condition": Name | None,
        "tools": list[Name],
        "supplies": list[Name],
        "fasteners": list[Fastener],
        "split": Annotated[list[Part], Field(min_length=2, max_length=9)],
        "join": Key,  # key of the step that becomes part of this one
        "after": Key,  # key of the step of this procedure that this one now follows; empty: it comes first
        "removed": bool,
    },
    total=False,
)


class ProcedureChanges(TypedDict, total=False):
    """Fields of a procedure; `install` is the mode alone."""

    title: Name
    subject: Name
    kind: Kind
    install: InstallMode
    prerequisites: list[Name]


class NoticeChanges(TypedDict, total=False):
    """Fields of a notice: `step` is a key, or None for the whole procedure; an added notice names its `procedure`."""

    kind: NoticeKind
    text: Words
    step: Key | None
    procedure: Key
    removed: bool


class EdgeChanges(TypedDict, total=False):
    """What became of an edge."""

    verdict: Literal["confirmed", "rejected"]


class FindingChanges(TypedDict, total=False):
    """The items whose correction settles a finding."""

    items: list[Key]


_KINDS: dict[str, Any] = {
    "step": StepChanges,
    "procedure": ProcedureChanges,
    "notice": NoticeChanges,
    "edge": EdgeChanges,
    "finding": FindingChanges,
}


@cache
def _adapter(kind: str) -> TypeAdapter[Any]:
    return TypeAdapter(with_config(ConfigDict(extra="forbid"))(_KINDS[kind]))


@cache
def _fasteners() -> TypeAdapter[list[Fastener]]:
    return TypeAdapter(list[Fastener])


def checked(item: str, changes: Changes) -> Changes:
    """The changes as plain JSON values, if they are some that this kind of item can have.

    Raises:
        DecisionError: the kind of item is unknown, or a field is unknown or has a wrong value.
    """
    kind = item.partition(":")[0]
    if kind not in _KINDS:
        raise DecisionError(f"nothing to decide on is called {item!r}", remedy="Use the keys that the miner gave.")
    adapter = _adapter(kind)
    try:
        made: Changes = adapter.dump_python(adapter.validate_python(changes), mode="json")
    except ValidationError as error:
        first = error.errors()[0]
        field = ".".join(str(part) for part in first["loc"]) or "changes"
        raise DecisionError(
            f"{field}: {first['msg'][:1].lower()}{first['msg'][1:]}", remedy="Enter another value."
        ) from None
    return made


def fasteners_of(values: list[Any]) -> tuple[Fastener, ...]:
    """Fastener groups from their JSON values."""
    return tuple(_fasteners().validate_python(values))


def fastener_values(groups: tuple[Fastener, ...]) -> list[dict[str, Any]]:
    """Fastener groups as JSON values."""
    made: list[dict[str, Any]] = _fasteners().dump_python(list(groups), mode="json")
    return made
