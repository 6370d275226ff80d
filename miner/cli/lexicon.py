"""`miner lexicon`: what the lexicon holds, a term in it, a layer checked."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer

if TYPE_CHECKING:
    from miner.lexicon import Lexicon


def lexicon(
    words: Annotated[
        list[str] | None, typer.Argument(metavar="[search] TERM", help="A term to look for, in any table.")
    ] = None,
    search: Annotated[str, typer.Option(help="The same as an option.", metavar="TERM")] = "",
    show: Annotated[str, typer.Option(help="Print all entries of one table (action, head, drive ...).")] = "",
    check: Annotated[
        list[Path] | None, typer.Option(help="Check a layer without using it; may be given several times.")
    ] = None,
    layers: Annotated[
        list[Path] | None, typer.Option("--lexicon", help="Add a layer on top of the built-in lexicon.")
    ] = None,
    as_json: Annotated[bool, typer.Option("--json", help="Print JSON.")] = False,
) -> None:
    """Show, search or check the trade lexicon.

    Example: miner lexicon search "ribbon cable" --lexicon our-terms.toml
    """
    from miner.lexicon import load_lexicon

    if check:
        raise typer.Exit(_checked(check))
    found = load_lexicon(tuple(layers or ()))
    term = search or " ".join((words or [])[1 if (words or [""])[0] == "search" and len(words or []) > 1 else 0 :])
    if term:
        _print_rows(_matching(found, term), as_json)
    elif show:
        _print_rows([(show, entry) for entry in found.table(_table(show))], as_json)
    else:
        _print_counts(found, as_json)


def _checked(files: list[Path]) -> int:
    """Load each file as a layer of its own; the exit code of the worst."""
    from miner.errors import LexiconError
    from miner.lexicon import load_lexicon

    code = 0
    for file in files:
        try:
            load_lexicon((file,))
        except LexiconError as error:
            typer.echo(str(error), err=True)
            code = error.exit_code
        else:
            typer.echo(f"{file}: valid")
    return code


def _table(name: str) -> str:
    """A table's name as written in the files, or an error that names the nearest."""
    from rapidfuzz import process

    from miner.errors import LexiconError
    from miner.lexicon.entries import TABLES

    if name not in TABLES:
        nearest = process.extractOne(name, list(TABLES))
        remedy = f"Did you mean `{nearest[0]}`? Known are: {', '.join(TABLES)}."
        raise LexiconError(f"there is no table `{name}`", where="--show", remedy=remedy)
    return name


def _matching(found: Lexicon, term: str) -> list[tuple[str, Any]]:
    """Entries with the term as one of their texts, or inside one; exact ones first."""
    from miner.lexicon.entries import TABLES
    from miner.lexicon.inflection import singular

    wanted = {term.lower(), singular(term.lower())}
    rows = [(table, entry, _texts(entry)) for table in TABLES for entry in found.table(table)]
    exact = [(table, entry) for table, entry, texts in rows if wanted & set(texts)]
    inside = [
        (table, entry)
        for table, entry, texts in rows
        if not wanted & set(texts) and any(word in text for text in texts for word in wanted)
    ]
    return exact + inside


def _texts(entry: Any) -> list[str]:
    values = [getattr(entry, name) for name in entry.__dataclass_fields__]
    flat = [item for value in values for item in (value if isinstance(value, tuple) else (value,))]
    return [item.lower() for item in flat if isinstance(item, str)]


def _print_rows(rows: list[tuple[str, Any]], as_json: bool) -> None:
    import json
    from dataclasses import asdict

    objects = [{"table": table, **asdict(entry)} for table, entry in rows]
    if as_json:
        typer.echo(json.dumps(objects, ensure_ascii=False, indent=2))
        return
    if not rows:
        typer.echo("Nothing found. Add the term in a layer of your own (--lexicon).", err=True)
    for found in objects:
        table, key, *rest = found.items()
        notes = "; ".join(f"{name}: {_plain(value)}" for name, value in rest if value not in (None, "", (), False))
        typer.echo(f"{table[1]:14} {_plain(key[1]):24} {notes}".rstrip())


def _plain(value: Any) -> str:
    return (
        ", ".join(map(_plain, value))
        if isinstance(value, tuple)
        else f"{value:g}"
        if value.__class__ is float
        else str(value)
    )


def _print_counts(found: Lexicon, as_json: bool) -> None:
    import json

    from miner.lexicon.entries import TABLES

    counts = {table: len(found.table(table)) for table in TABLES}
    if as_json:
        typer.echo(json.dumps({"version": found.version, "tables": counts}, indent=2))
        return
    for table, count in counts.items():
        typer.echo(f"{table:14} {count:6}")
    typer.echo(f"{'version':14} {found.version[:16]}")
