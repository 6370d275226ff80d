"""`miner score`: how well drafts agree with what careful annotators wrote."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer


def score(
    gold: Annotated[Path, typer.Argument(metavar="GOLD_DIR", help="Holds NAME.gold.json files.")],
    drafts: Annotated[
        Path, typer.Argument(metavar="DRAFT_DIR", help="Holds NAME.draft.json, NAME/draft.json or one draft.json.")
    ],
    detail: Annotated[
        str | None, typer.Option("--detail", metavar="NAME", help="List what went wrong in one recording.")
    ] = None,
    json: Annotated[bool, typer.Option("--json", help="Print all figures as JSON.")] = False,
) -> None:
    """Score drafts against gold files: F1 of each metric, and the accuracy of fields.

    A recording without a draft counts as one in which nothing was found.

    Example: miner score fixtures/quellwood out
    """
    from miner.cli import console
    from miner.scoring import report, score_folders

    cards, missing = score_folders(gold, drafts)
    for name in missing:
        console.say(f"miner: no draft of {name}, scored as an empty one")
    text = report.as_json(cards) if json else report.detail(cards, detail) if detail else report.tables(cards)
    console.show(text.encode())
