"""A helper that writes a file and reads it."""

from collections.abc import Callable
from pathlib import Path

import pytest

from miner.model.recording import Recording
from miner.readers import read_recording

Read = Callable[..., Recording]


@pytest.fixture
def read(tmp_path: Path) -> Read:
    def write_and_read(content: str | bytes, name: str = "talk.srt", **options) -> Recording:
        path = tmp_path / name
        path.write_bytes(content if isinstance(content, bytes) else content.encode("utf-8"))
        return read_recording(path, **options)

    return write_and_read
