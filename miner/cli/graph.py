"""`miner graph`: what must come off before what, as a picture or for another program."""

from __future__ import annotations

from enum import StrEnum
from pathlib import Path
from typing import Annotated

import typer

from miner.cli import options as shared


class GraphFormat(StrEnum):
    """How the graph is written."""

    svg = "svg"
    graphml = "graphml"
    dot = "dot"
    json = "json"


def graph(
    source: Annotated[Path, typer.Argument(metavar="RECORDING|DRAFT", help="A recording, a draft.json or its folder.")],
    output: shared.Output = None,
    format: Annotated[GraphFormat, typer.Option("--format", help="How to write the graph.")] = GraphFormat.svg,
    lexicon: shared.LexiconLayers = None,
) -> None:
    """Write the graph of what must come off before what.

    The picture leaves out edges that follow from others; the other formats hold every edge with its evidence.

    Example: miner graph talk.srt --format graphml -o talk.graphml
    """
    from miner.cli import console
    from miner.publish import graph_files, graph_picture
    from miner.publish.writing import write_file

    workshop = shared.Workshop(shared.with_settings(shared.project_settings(), lexicon, None))
    with console.progress(1) as progress:
        progress.begin(source.name)
        draft = workshop.open(source, progress)
    write = graph_picture.write if format is GraphFormat.svg else graph_files.GRAPH_FORMATS[format.value]
    data = write(draft)
    if output is None:
        console.show(data)
    else:
        write_file(output, data)
