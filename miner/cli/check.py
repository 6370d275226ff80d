"""`miner check`: what an editor has to decide, in the terminal or for another program."""

from __future__ import annotations

from dataclasses import replace
from enum import StrEnum
from typing import TYPE_CHECKING, Annotated

import typer

from miner.cli import options as shared

if TYPE_CHECKING:
    from collections.abc import Sequence
    from pathlib import Path

    from miner.model.draft import Draft


class ReportFormat(StrEnum):
    """How findings are written."""

    text = "text"
    json = "json"
    sarif = "sarif"


def check(
    sources: shared.Sources = None,
    output: shared.Output = None,
    format: Annotated[ReportFormat, typer.Option("--format", help="How to write the findings.")] = ReportFormat.text,
    lexicon: shared.LexiconLayers = None,
    fail_on: shared.FailOnOption = None,
    ignore: shared.Ignore = None,
    parts_list: shared.PartsList = None,
    everything: Annotated[bool, typer.Option("--all", help="Also report what an editor has decided on.")] = False,
    list_checks: Annotated[bool, typer.Option("--list", help="List all checks with their meaning and end.")] = False,
) -> None:
    """Show the contradictions and doubts of recordings or drafts.

    Findings stand by procedure, with the words from every side and their times beside one another. Of a draft, those
    that were decided on in `miner review` are left out, unless --all is given. A check is silenced with --ignore, or
    with `ignore` in miner.toml. Ends with 1 if there is an error, unless --fail-on says otherwise.

    Example: miner check talk.srt --format sarif -o talk.sarif
    """
    import sys

    from miner.cli import console
    from miner.errors import SettingsError
    from miner.publish.writing import write_file

    if list_checks:
        console.show(_checks().encode())
        raise typer.Exit
    if not sources:
        raise SettingsError("nothing to check", remedy="Name a recording, a draft.json or the folder that holds it.")
    settings = shared.project_settings()
    chosen = replace(shared.with_settings(settings, lexicon, ignore), parts_list=parts_list)
    workshop = shared.Workshop(chosen)
    drafts: list[Draft] = []
    decided = 0
    with console.progress(len(sources)) as progress:
        for path in sources:
            progress.begin(path.name)
            found = workshop.open(path, progress)
            drafts.append(found if everything or not shared.is_draft(path) else _undecided(found, path))
            decided += len(found.findings) - len(drafts[-1].findings)
    if decided:
        console.say(f"{decided} {'finding' if decided == 1 else 'findings'} decided on; --all shows them too.")
    if format is ReportFormat.text:
        from miner.cli.findings_text import report

        on_screen = output is None and console.is_colourful(sys.stdout)
        columns = console.width(sys.stdout) if output is None else 100
        data = "\n".join(report(one, columns=columns, colour=on_screen) for one in drafts).encode()
    else:
        data = _sarif(drafts) if format is ReportFormat.sarif else _json(drafts)
    if output is None:
        console.show(data)
    else:
        write_file(output, data)
    raise typer.Exit(shared.exit_code(drafts, shared.failing_from(fail_on, settings, shared.FailOn.error)))


def _undecided(draft: Draft, path: Path) -> Draft:
    """The draft without the findings that the decisions beside it settle."""
    from miner.decisions.opening import Decided
    from miner.decisions.store import DecisionStore, store_path

    settled = {one.id for one, _ in Decided.of(draft, DecisionStore(store_path(path)).current()).settled}
    return replace(draft, findings=tuple(one for one in draft.findings if one.id not in settled))


def _checks() -> str:
    """A line a check: id, severity, meaning."""
    from miner.findings.registry import CHECKS

    rows = [(one.id, one.severity, one.meaning) for one in sorted(CHECKS, key=lambda one: one.id)]
    room = max(len(name) for name, *_ in rows)
    return "".join(f"{name:<{room}}  {severity:<7}  {meaning}\n" for name, severity, meaning in rows)


def _json(drafts: Sequence[Draft]) -> bytes:
    import json

    from miner.model.serialise import to_dict

    rows = [{key: to_dict(one)[key] for key in ("recording", "findings")} for one in drafts]
    return (json.dumps({"recordings": rows}, ensure_ascii=False, indent=1) + "\n").encode()


def _sarif(drafts: Sequence[Draft]) -> bytes:
    import miner
    from miner.findings.registry import CHECKS
    from miner.publish.sarif import sarif

    return sarif(drafts, CHECKS, miner.__version__)
