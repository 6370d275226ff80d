"""A folder of gold files scored against a folder of drafts."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

from miner.errors import InputError
from miner.scoring.cards import Card, score

_ENDING = ".gold.json"


def score_folders(golds: Path, drafts: Path) -> tuple[dict[str, Card], tuple[str, ...]]:
    """The cards by name of recording, and the names that have no draft (they are scored as empty ones).

    The draft of `NAME.gold.json` is `NAME.draft.json` or `NAME/draft.json`, or a `draft.json` whose recording has
    that name.

    Raises:
        InputError: no gold file has a draft, or a file is no JSON object.
    """
    alone = drafts / "draft.json"
    only = _load(alone) if alone.is_file() else {}
    cards: dict[str, Card] = {}
    missing: list[str] = []
    for path in sorted(golds.glob(f"*{_ENDING}")):
        name = path.name.removesuffix(_ENDING)
        gold = _load(path)
        if not gold.get("procedures"):
            raise InputError("no procedures in this gold file", where=str(path), remedy="Add them or leave it out.")
        places = (drafts / f"{name}.draft.json", drafts / name / "draft.json")
        own = only if (only.get("recording") or {}).get("id") == name else None
        draft = next((_load(place) for place in places if place.is_file()), own)
        if draft is None:
            missing.append(name)
        cards[name] = score(gold, draft or {})
    if len(missing) == len(cards):
        raise InputError(
            f"no gold file here has a draft in {drafts}",
            where=str(golds),
            remedy="Name a folder with NAME.gold.json and one with NAME.draft.json, NAME/draft.json or one draft.json.",
        )
    return cards, tuple(missing)


def _load(path: Path) -> dict[str, Any]:
    try:
        found = json.loads(path.read_text(encoding="utf-8-sig"))
    except (OSError, ValueError) as error:
        raise InputError(f"not readable as JSON ({error})", where=str(path), remedy="Correct or remove it.") from None
    if not isinstance(found, dict):
        raise InputError("no JSON object", where=str(path), remedy="Correct or remove it.")
    return found
