"""`miner draft`: recordings in, drafts out."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from miner.cli import options as shared

if TYPE_CHECKING:
    from miner.model.draft import Draft


def draft(
    recordings: shared.Recordings,
    output: shared.Output = None,
    format: shared.Format = None,
    lexicon: shared.LexiconLayers = None,
    media: Annotated[str | None, typer.Option(metavar="NAME", help="The video or audio the times refer to.")] = None,
    title: Annotated[str | None, typer.Option(metavar="TEXT", help="Title of the recording.")] = None,
    product: Annotated[str | None, typer.Option(metavar="TEXT", help="The product taken apart.")] = None,
    model: Annotated[str | None, typer.Option(metavar="TEXT", help="Its model.")] = None,
    register: Annotated[
        shared.RegisterName | None, typer.Option(help="How it was spoken, if it is not to be guessed.")
    ] = None,
    json: Annotated[bool, typer.Option("--json", help="Print draft.json instead of draft.md; without -o.")] = False,
    fail_on: shared.FailOnOption = None,
    ignore: shared.Ignore = None,
    parts_list: shared.PartsList = None,
) -> None:
    """Draft the procedures of recordings.

    Writes draft.json, draft.md, fasteners.csv, graph.svg and draft.html into the folder given with -o; of several
    recordings each gets a folder of its own in it. Without -o the draft of one recording is printed.

    Example: miner draft talk.srt -o out
    """
    from miner.cli import console
    from miner.errors import MinerError, SettingsError

    if output is None and len(recordings) > 1:
        raise SettingsError("several recordings and no place for their drafts", remedy="Name a folder with -o.")
    settings = shared.project_settings()
    chosen = replace(
        shared.with_settings(settings, lexicon, ignore),
        format=format,
        media=media,
        title=title,
        product=product,
        model=model,
        register=register,
        parts_list=parts_list,
    )
    workshop = shared.Workshop(chosen)
    failing = shared.failing_from(fail_on, settings, shared.FailOn.never)
    folders = _folders(recordings, output)
    code = 0
    with console.progress(len(recordings)) as progress:
        for path, folder in zip(recordings, folders, strict=True):
            progress.begin(path.name)
            try:
                made = workshop.draft(path, progress)
                _deliver(made, folder, json=json)
            except MinerError as error:
                if len(recordings) == 1:
                    raise
                progress.clear()
                console.say(f"miner: {error}")
                code = 2
            else:
                progress.clear()
                if folder is not None:
                    console.say(_summary(made, folder))
                code = max(code, shared.exit_code([made], failing))
    raise typer.Exit(code)


def _folders(recordings: list[Path], output: Path | None) -> list[Path | None]:
    """Where each draft goes: into the folder itself, or below it by name; equal names are numbered."""
    if output is None or len(recordings) == 1:
        return [output] * len(recordings)
    taken: dict[str, int] = {}
    made: list[Path | None] = []
    for path in recordings:
        taken[path.stem] = taken.get(path.stem, 0) + 1
        number = taken[path.stem]
        made.append(output / (path.stem if number == 1 else f"{path.stem}-{number}"))
    return made


def _deliver(draft: Draft, folder: Path | None, *, json: bool) -> None:
    from miner.cli.console import show
    from miner.publish.registry import find_format, write_all
    from miner.publish.writing import write_folder

    if folder is None:
        show(find_format("json" if json else "markdown").write(draft))
    else:
        write_folder(folder, write_all(draft))


def _summary(draft: Draft, folder: Path) -> str:
    steps = sum(len(one.steps) for one in draft.procedures)
    errors = sum(one.severity == "error" for one in draft.findings)
    return (
        f"{folder}: {len(draft.procedures)} procedures, {steps} steps, {len(draft.findings)} findings ({errors} errors)"
    )
