"""A contradiction or doubt, with evidence from every side of it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated, Literal

from pydantic import Field

Severity = Literal["error", "warning", "remark"]


@dataclass(frozen=True, slots=True)
class Evidence:
    """A place in the recording (seconds), the words said there, and the step id if it lies in a step."""

    start: float
    end: float
    quote: str
    step: str | None = None


@dataclass(frozen=True, slots=True)
class Suggestion:
    """A correction that can be applied mechanically: in `target` (an id), set `field` from one value to another."""

    target: str
    field: str
    from_: Annotated[str | None, Field(alias="from")]
    to: str | None


@dataclass(frozen=True, slots=True)
class Finding:
    """What a check found. `id` is a fingerprint of check and evidence that survives edits elsewhere.

    `branch` says in which variant of the product the finding holds; empty means in all of them.
    """

    id: str
    check: str
    severity: Severity
    message: str
    procedures: tuple[str, ...]
    evidence: tuple[Evidence, ...]
    suggestion: Suggestion | None = None
    branch: str | None = None
