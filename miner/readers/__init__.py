"""A timed file -> Recording."""

from __future__ import annotations

from hashlib import sha256
from pathlib import Path
from typing import TYPE_CHECKING

from miner.errors import InputError

if TYPE_CHECKING:
    from miner.model.recording import Cue, Recording

__all__ = ["read_recording"]


def read_recording(
    path: Path,
    *,
    format: str | None = None,
    media: str | None = None,
    title: str | None = None,
    product: str | None = None,
    model: str | None = None,
) -> Recording:
    """Read a transcript, captions or timed notes; the format is found by content unless it is named.

    The id is the file's name without its ending. Cues are in order of time; overlaps and gaps stay.

    Args:
        path: the file.
        format: a name from `registry.reader_names()`, for a file that speaks for none or several.
        media: the video or audio that the times belong to.
        title, product, model: what the recording is about; the file's own title is used if none is given.

    Raises:
        InputError: if the file is missing, empty, no text, without cues or broken, with file and line where known.
        FormatError: if no reader, or several, claim the content.
    """
    from miner.model.recording import Recording
    from miner.readers.detection import choose_reader, decode, reader_named
    from miner.readers.registry import READERS

    path = Path(path)
    data = _bytes_of(path)
    digest = sha256(data).hexdigest()
    text = decode(data, path.name)
    del data  # a day of speech with word times is some 20 MB, held twice otherwise
    if not text.strip():
        raise InputError("the file is empty", where=path.name, remedy="Give a transcript, captions or timed notes.")
    reader = reader_named(format, READERS, path.name) if format else choose_reader(text, path, READERS)
    reading = reader.read(text, path.name)
    return Recording(
        id=path.stem,
        source=path.name,
        format=reader.name,
        sha256=digest,
        cues=_in_order(reading.cues),
        title=title if title is not None else reading.title,
        product=product or "",
        model=model or "",
        media=media if media is not None else reading.media,
    )


def _bytes_of(path: Path) -> bytes:
    remedy = "Check the path."
    try:
        return path.read_bytes()
    except FileNotFoundError:
        what = "there is no such file"
    except IsADirectoryError:
        what, remedy = "this is a folder", "Give a file, or use `miner corpus` for a folder."
    except OSError as error:
        what = f"the file cannot be read: {(error.strerror or str(error)).lower()}"
    raise InputError(what, where=str(path), remedy=remedy)


def _in_order(cues: tuple[Cue, ...]) -> tuple[Cue, ...]:
    """Cues by start, those of one start as in the file."""
    return tuple(sorted(cues, key=lambda cue: cue.start))
