"""Timed teardown recordings in, structured and checked service procedure drafts out.

    >>> import miner                                        # doctest: +SKIP
    >>> draft = miner.draft("fixtures/quellwood/e2-service-script.srt")   # doctest: +SKIP
    >>> draft.to_frame("fasteners")                         # doctest: +SKIP

Public names are resolved on first use, so that `import miner` costs nothing.
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from miner.drafting import draft as draft
    from miner.errors import MinerError as MinerError
    from miner.lexicon import Lexicon as Lexicon
    from miner.lexicon import load_lexicon as load_lexicon
    from miner.model.draft import Draft as Draft
    from miner.model.recording import Recording as Recording
    from miner.pipeline import mine as mine
    from miner.readers import read_recording as read_recording

    __version__: str

_HOMES = {
    "Draft": "miner.model.draft",
    "Lexicon": "miner.lexicon",
    "MinerError": "miner.errors",
    "Recording": "miner.model.recording",
    "draft": "miner.drafting",
    "load_lexicon": "miner.lexicon",
    "mine": "miner.pipeline",
    "read_recording": "miner.readers",
}

__all__ = ["__version__", *_HOMES]  # noqa: PLE0604  # the table holds names only


def __getattr__(name: str) -> Any:
    if name == "__version__":
        from importlib.metadata import version

        value: Any = version("procedure-miner")
    elif name in _HOMES:
        value = getattr(import_module(_HOMES[name]), name)
    else:
        raise AttributeError(f"module 'miner' has no attribute {name!r}")
    globals()[name] = value
    return value


def __dir__() -> list[str]:
    return sorted({*globals(), *__all__})
