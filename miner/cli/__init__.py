"""The command `miner`: one sub-command a module, each importing the stages it needs when it runs."""

from __future__ import annotations

import sys
from typing import Annotated

import typer

from miner.cli.check import check
from miner.cli.draft import draft
from miner.cli.graph import graph
from miner.cli.lexicon import lexicon
from miner.cli.publish import publish
from miner.cli.review import review
from miner.cli.score import score
from miner.errors import MinerError

COMMANDS = (draft, check, graph, review, publish, lexicon, score)

app = typer.Typer(
    name="miner",
    no_args_is_help=True,
    add_completion=False,
    rich_markup_mode=None,
    pretty_exceptions_enable=False,
    context_settings={"help_option_names": ["-h", "--help"]},
)


def _print_version(wanted: bool) -> None:
    if wanted:
        import miner as package

        typer.echo(package.__version__)
        raise typer.Exit


@app.callback()
def miner(
    version: Annotated[  # it acts by its callback
        bool, typer.Option("--version", help="Print the version and end.", is_eager=True, callback=_print_version)
    ] = False,
) -> None:
    """Turn timed teardown recordings into structured, checked service procedure drafts.

    Exit codes: 0 done, 1 findings at or above --fail-on, 2 bad input or usage.
    """


for _command in COMMANDS:
    app.command()(_command)


def main() -> None:
    """Run the command; whatever the user can mend is told in one line on stderr and ends with 2."""
    try:
        app(prog_name="miner")
    except MinerError as error:
        print(f"miner: {error}", file=sys.stderr)
        sys.exit(error.exit_code)
    except KeyboardInterrupt:
        sys.exit(130)
