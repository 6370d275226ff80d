"""`miner review`: the local page on which an editor decides."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer


def review(
    drafts: Annotated[
        Path, typer.Argument(metavar="OUT", help="A folder with drafts in it or below, or a draft.json.")
    ],
    media: Annotated[
        Path | None, typer.Option(metavar="PATH", help="The video or audio, or the folder with media and transcripts.")
    ] = None,
    host: Annotated[
        str, typer.Option(help="Address to listen on; one that others can reach needs --password.")
    ] = "127.0.0.1",
    port: Annotated[int, typer.Option(min=0, max=65535, help="Port to listen on; 0 for any free one.")] = 0,
    password: Annotated[
        bool,
        typer.Option("--password", help="Ask every editor for a password, taken from MINER_PASSWORD or asked for."),
    ] = False,
    public: Annotated[
        str | None, typer.Option(metavar="URL", help="The https address of a proxy in front; needs --password.")
    ] = None,
    name: Annotated[str | None, typer.Option(metavar="TEXT", help="The name beside your decisions.")] = None,
    browser: Annotated[bool, typer.Option("--open", help="Open the page in the browser.")] = False,
) -> None:
    """Serve the drafts of a folder on a local page, to decide on findings and correct the draft.

    The start address works once, in one browser. Several editors come in with --password. Decisions are kept in
    decisions.sqlite beside each draft; `miner publish` applies them. Stop with Ctrl-C.

    Example: miner review out --open
    """
    import os

    from miner.cli import console
    from miner.errors import InputError, MissingExtraError
    from miner.review.library import Library

    if media is not None and not media.exists():
        raise InputError("there is no such file or folder", where=str(media), remedy="Check --media.")
    try:
        from miner.review.serving import serve
    except ModuleNotFoundError as error:
        raise MissingExtraError(
            f"the review page needs {error.name}, which is not installed",
            remedy="Install it with `pip install 'procedure-miner[review]'`.",
        ) from None
    secret = None
    if password or os.environ.get("MINER_PASSWORD"):
        secret = os.environ.get("MINER_PASSWORD") or typer.prompt("Password for editors", hide_input=True, err=True)

    def ready(address: str) -> None:
        console.say(f"Review at {address}")
        console.say("Stop with Ctrl-C.")
        if browser:
            import webbrowser

            webbrowser.open(address)

    library = Library.at(drafts, media.resolve() if media else None)
    serve(library, host=host, port=port, password=secret, who=name or _user(), public=public, ready=ready)


def _user() -> str:
    """The name of the person at this machine, as far as the system knows it."""
    import getpass

    try:
        return getpass.getuser()
    except (KeyError, OSError, ImportError):
        return "editor"
