"""The formats that a draft can be published in.

To add one: write a module of this folder with a function `write(draft: Draft) -> bytes`; it imports neither another
format nor anything heavy at the top of the module. Then add a line to `FORMATS`, a row to the README's table of
outputs, and a test in `tests/publish/`. If it needs a library that a plain installation lacks, name the extra of
`pyproject.toml` that brings it; `Format.write` then tells the user so.
"""

from __future__ import annotations

from dataclasses import dataclass
from importlib import import_module

from miner.errors import MissingExtraError, SettingsError
from miner.model.draft import Draft


@dataclass(frozen=True, slots=True)
class Format:
    """One published format: `file` is the name it gets in an output folder, `module` holds its `write`."""

    name: str
    file: str
    media_type: str
    meaning: str
    module: str
    extra: str | None = None

    def write(self, draft: Draft) -> bytes:
        """The draft in this format; equal drafts give equal bytes.

        Raises:
            MissingExtraError: the library for this format is not installed.
        """
        try:
            module = import_module(self.module)
        except ModuleNotFoundError as error:
            if self.extra is None:
                raise
            raise MissingExtraError(
                f"the format {self.name} needs {error.name}, which is not installed",
                remedy=f"Install it with `pip install 'procedure-miner[{self.extra}]'`.",
            ) from None
        data: bytes = module.write(draft)
        return data


FORMATS: tuple[Format, ...] = (
    Format("json", "draft.json", "application/json", "the whole draft, contract draft/1", "miner.publish.document"),
    Format("markdown", "draft.md", "text/markdown", "what an editor reads", "miner.publish.markdown"),
    Format("csv", "fasteners.csv", "text/csv", "the fastener schedule", "miner.publish.csv_files"),
    Format("svg", "graph.svg", "image/svg+xml", "what must come off before what", "miner.publish.graph_picture"),
    Format("html", "draft.html", "text/html", "the same as one page, to read, print or send", "miner.publish.page"),
)
"""All formats, in the order in which `miner draft` writes them."""


def find_format(name: str) -> Format:
    """The format of that name.

    Raises:
        SettingsError: there is none; the message lists those there are.
    """
    for one in FORMATS:
        if one.name == name:
            return one
    raise SettingsError(f"no format {name!r}", remedy=f"Choose one of {', '.join(one.name for one in FORMATS)}.")


def write_all(draft: Draft) -> dict[str, bytes]:
    """Every format that needs no extra, by file name."""
    return {one.file: one.write(draft) for one in FORMATS if one.extra is None}
