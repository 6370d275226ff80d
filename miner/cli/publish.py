"""`miner publish`: a draft in one format."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from miner.cli import options as shared


def publish(
    source: Annotated[Path, typer.Argument(metavar="DRAFT", help="A draft.json or the folder that holds it.")],
    to: Annotated[str, typer.Option("--to", metavar="FORMAT", help="json, markdown, csv, svg or html.")] = "markdown",
    output: shared.Output = None,
) -> None:
    """Write a draft in another format, to stdout or to the file given with -o.

    Example: miner publish out --to html -o talk.html
    """
    from miner.cli import console
    from miner.model.serialise import read_draft
    from miner.publish.registry import find_format
    from miner.publish.writing import write_file

    chosen = find_format(to)
    data = chosen.write(read_draft(source))
    if output is None:
        console.show(data)
    else:
        write_file(output / chosen.file if output.is_dir() else output, data)
