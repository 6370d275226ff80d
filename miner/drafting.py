"""One call from a file to a draft: what `import miner` offers and the commands use."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import replace
from os import PathLike, fspath
from pathlib import Path

from miner.lexicon import Lexicon, load_lexicon
from miner.model.draft import Draft
from miner.model.recording import Register
from miner.pipeline import mine
from miner.readers import read_recording
from miner.readers.parts_list import read_parts_list


def draft(
    path: str | PathLike[str],
    lexicon: Lexicon | Iterable[str | PathLike[str]] = (),
    *,
    format: str | None = None,
    media: str | None = None,
    title: str | None = None,
    product: str | None = None,
    model: str | None = None,
    register: Register | None = None,
    ignore: Iterable[str] = (),
    parts_list: str | PathLike[str] | None = None,
    progress: Callable[[str], None] | None = None,
) -> Draft:
    """The draft of one recording.

    Args:
        path: the timed recording; its format is found by content unless `format` names it.
        lexicon: a loaded lexicon, or files that are laid over the built-in one.
        media: the video or audio that the times refer to.
        register: how it was spoken, if it should not be guessed.
        ignore: ids of checks to leave out.
        parts_list: a CSV or XLSX parts list to compare with.
        progress: told the name of each stage as it begins.

    Raises:
        MinerError: the recording, lexicon or parts list cannot be used; the message says where and what to do.
    """
    loaded = lexicon if isinstance(lexicon, Lexicon) else load_lexicon([Path(fspath(layer)) for layer in lexicon])
    recording = read_recording(
        Path(fspath(path)), format=format, media=media, title=title, product=product, model=model
    )
    if register is not None:
        recording = replace(recording, register=register)
    parts = None if parts_list is None else read_parts_list(Path(fspath(parts_list)))
    return mine(recording, loaded, ignore=tuple(ignore), parts_list=parts, progress=progress)
