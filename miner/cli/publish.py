"""`miner publish`: what the editor decided, written out."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from miner.cli import options as shared

if TYPE_CHECKING:
    from miner.decisions.opening import Decided


def publish(
    source: Annotated[Path, typer.Argument(metavar="DRAFT", help="A draft.json or the folder that holds it.")],
    to: Annotated[
        str, typer.Option("--to", metavar="FORMAT", help="markdown or html; or json, csv, svg.")
    ] = "markdown",
    output: shared.Output = None,
    strict: Annotated[bool, typer.Option("--strict", help="Refuse, and end with 1, if an error is open.")] = False,
    decisions: Annotated[
        Path | None,
        typer.Option(metavar="FILE", help="Decisions exported from the page (JSON), on top of those stored."),
    ] = None,
) -> None:
    """Publish a draft with the editor's decisions applied, to stdout or to the place given with -o.

    Corrections are made, dismissed findings are gone. Errors on which nobody decided are listed in front and marked in
    place; --strict refuses to publish them.

    Example: miner publish out --to html -o talk.html --strict
    """
    from miner.cli import console
    from miner.publish.publications import find_publication
    from miner.publish.writing import write_file

    chosen = find_publication(to)
    decided = _decided(source, decisions)
    again = len(decided.matched.again)
    if again:
        console.say(f"miner: {again} decisions are not applied, since their evidence changed; see `miner review`.")
    errors = decided.open_errors
    if errors and strict:
        for one in errors:
            console.say(console.printable(f"open: {one.check}: {one.message}"))
        console.say(f"miner: not published, {_errors(len(errors))} to decide on. Decide with `miner review {source}`.")
        raise typer.Exit(1)
    data = chosen.write(decided.draft)
    if output is None:
        console.show(data)
    else:
        write_file(output / chosen.file if output.is_dir() else output, data)
    if errors:
        console.say(f"miner: published with {_errors(len(errors))}.")


def _decided(source: Path, decisions: Path | None) -> Decided:
    from miner.decisions import exchange
    from miner.decisions.opening import open_decided
    from miner.errors import InputError
    from miner.model.serialise import read_draft

    if decisions is None:
        return open_decided(source)
    try:
        text = decisions.read_text(encoding="utf-8")
    except (OSError, UnicodeDecodeError) as error:
        reason = getattr(error, "strerror", None) or "not UTF-8"
        raise InputError(f"cannot be read ({reason})", where=str(decisions), remedy="Check --decisions.") from None
    draft = read_draft(source)
    more = exchange.read(text, draft.recording.id, where=str(decisions))
    return open_decided(source, exchange.completed(more, draft))


def _errors(number: int) -> str:
    return "1 open error" if number == 1 else f"{number} open errors"
