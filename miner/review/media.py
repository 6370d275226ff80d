"""The video or audio of a recording: found beside the draft or where the editor said, and sent in ranges."""

from __future__ import annotations

from pathlib import Path

from starlette.responses import FileResponse

from miner.model.draft import Draft

_TYPES = {
    ".mp4": "video/mp4", ".m4v": "video/mp4", ".webm": "video/webm", ".ogv": "video/ogg", ".mov": "video/quicktime",
    ".mp3": "audio/mpeg", ".m4a": "audio/mp4", ".ogg": "audio/ogg", ".oga": "audio/ogg", ".opus": "audio/ogg",
    ".wav": "audio/wav", ".flac": "audio/flac",
}  # fmt: skip


def media_of(draft: Draft, folder: Path, given: Path | None) -> Path | None:
    """The media file of a draft: the file that was given, else one in the given folder or beside the draft.

    A draft names its media, but only the name counts: a path in it leads nowhere.
    """
    if given is not None and given.is_file():
        return given if given.suffix.casefold() in _TYPES else None
    names = [draft.recording.media] if draft.recording.media else []
    names += [f"{Path(draft.recording.source).stem}{ending}" for ending in _TYPES] if draft.recording.source else []
    for place in (given, folder):
        for name in names if place is not None else ():
            found = _inside(place, name) if place is not None else None
            if found is not None:
                return found
    return None


def _inside(folder: Path, name: str) -> Path | None:
    if Path(name).name != name or "\x00" in name or Path(name).suffix.casefold() not in _TYPES:
        return None
    path = folder / name
    return path if path.is_file() and path.resolve().is_relative_to(folder.resolve()) else None


def is_video(path: Path) -> bool:
    """Whether there is something to see."""
    return _TYPES[path.suffix.casefold()].startswith("video/")


def response(path: Path) -> FileResponse:
    """The file, or the ranges of it that were asked for."""
    return FileResponse(path, media_type=_TYPES[path.suffix.casefold()], content_disposition_type="inline")
