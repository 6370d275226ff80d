"""The formats in which decided drafts are published: the two publications, and those of drafts beside them."""

from __future__ import annotations

from miner.errors import SettingsError
from miner.publish.registry import FORMATS, Format

PUBLICATIONS: tuple[Format, ...] = (
    Format(
        "markdown", "published.md", "text/markdown", "the procedures as decided", "miner.publish.publication_markdown"
    ),
    Format(
        "html", "published.html", "text/html", "the same as one page, to read or print", "miner.publish.publication"
    ),
)


def find_publication(name: str) -> Format:
    """The publication of that name, else the format of drafts.

    Raises:
        SettingsError: there is none; the message lists those there are.
    """
    known = {
        one.name: one for one in (*PUBLICATIONS, *(one for one in FORMATS if one.name not in ("markdown", "html")))
    }
    if name not in known:
        raise SettingsError(f"no format {name!r}", remedy=f"Choose one of {', '.join(known)}.")
    return known[name]
