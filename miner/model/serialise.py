"""`draft/1` as JSON, in and out: byte-stable, checked on the way in, described by a JSON Schema."""

from __future__ import annotations

import json
from functools import cache
from pathlib import Path
from typing import Any

from pydantic import TypeAdapter, ValidationError

from miner.errors import InputError
from miner.model.draft import Draft


@cache
def _adapter() -> TypeAdapter[Draft]:
    return TypeAdapter(Draft)


def to_dict(draft: Draft) -> dict[str, Any]:
    """The draft as JSON values, with the contract's key names and `schema` first."""
    values: dict[str, Any] = _adapter().dump_python(draft, mode="json", by_alias=True)
    return {"schema": values.pop("schema"), **values}


def to_json(draft: Draft) -> str:
    """The draft as JSON text, ending in a line end; equal drafts give equal bytes."""
    return json.dumps(to_dict(draft), ensure_ascii=False, indent=1) + "\n"


def from_json(text: str, *, where: str = "") -> Draft:
    """The draft that a JSON text holds.

    Raises:
        InputError: the text is no JSON, or no `draft/1`.
    """
    try:
        return _adapter().validate_json(text, by_alias=True)
    except ValidationError as error:
        raise InputError(
            f"not a draft/1 document ({first_fault(error)})",
            where=where,
            remedy="Make the draft anew with `miner draft RECORDING -o OUT`.",
        ) from None


def first_fault(error: ValidationError) -> str:
    """Where a document first breaks its contract, and how: "procedures.0.start: Field required"."""
    first = error.errors()[0]
    return f"{'.'.join(str(part) for part in first['loc']) or 'document'}: {first['msg']}"


def read_draft(path: Path) -> Draft:
    """The draft in a file, or in the `draft.json` of a folder.

    Raises:
        InputError: there is no such file, or it holds no `draft/1`.
    """
    place = path / "draft.json" if path.is_dir() else path
    try:
        return from_json(place.read_text(encoding="utf-8"), where=str(place))
    except (OSError, UnicodeDecodeError) as error:
        reason = getattr(error, "strerror", None) or "not UTF-8"
        raise InputError(
            f"cannot read the draft ({reason})",
            where=str(place),
            remedy=_remedy(path),
        ) from None


def _remedy(path: Path) -> str:
    """What to name instead; a folder of several drafts is not one draft."""
    below = [place.parent.name for place in sorted(path.glob("*/draft.json"))] if path.is_dir() else []
    if below:
        return f"The folder holds several drafts; name one of them: {', '.join(below)}."
    return "Name a draft.json or a folder that holds one."


def json_schema() -> dict[str, Any]:
    """The JSON Schema of `draft/1`, generated from the classes."""
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "draft/1",
        **_adapter().json_schema(by_alias=True, mode="serialization"),
    }
