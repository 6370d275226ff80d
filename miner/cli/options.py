"""Options that several commands share, and what they mean together with the settings of the project."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from enum import StrEnum
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

if TYPE_CHECKING:
    from collections.abc import Callable

    from miner.lexicon import Lexicon
    from miner.model.draft import Draft
    from miner.settings import Settings


class FailOn(StrEnum):
    """From which severity on findings make the command end with 1."""

    error = "error"
    warning = "warning"
    remark = "remark"
    never = "never"


class RegisterName(StrEnum):
    """How a recording was spoken or written."""

    scripted = "scripted"
    spoken = "spoken"
    captions = "captions"
    notes = "notes"


Recordings = Annotated[list[Path], typer.Argument(metavar="RECORDING", help="Timed recordings, in any format.")]
Sources = Annotated[
    list[Path] | None, typer.Argument(metavar="RECORDING|DRAFT", help="Recordings, draft.json files or their folders.")
]
Output = Annotated[Path | None, typer.Option("-o", "--output", metavar="PATH", help="Where to write.")]
Format = Annotated[
    str | None, typer.Option("--format", metavar="NAME", help="Format of the recording, if it is not to be guessed.")
]
LexiconLayers = Annotated[
    list[Path] | None, typer.Option("--lexicon", metavar="FILE", help="Terms laid over the built-in lexicon (TOML).")
]
Ignore = Annotated[list[str] | None, typer.Option("--ignore", metavar="CHECK", help="Leave a check out; repeatable.")]
PartsList = Annotated[
    Path | None, typer.Option("--parts-list", metavar="FILE", help="Compare with a parts list (CSV or XLSX).")
]
FailOnOption = Annotated[
    FailOn | None, typer.Option("--fail-on", help="End with 1 for findings from this severity on.")
]


@dataclass(frozen=True, slots=True)
class Mining:
    """Everything that decides what a draft will say, beside the recording."""

    format: str | None = None
    lexicon: tuple[Path, ...] = ()
    media: str | None = None
    title: str | None = None
    product: str | None = None
    model: str | None = None
    register: RegisterName | None = None
    ignore: tuple[str, ...] = ()
    parts_list: Path | None = None


def with_settings(settings: Settings, lexicon: list[Path] | None, ignore: list[str] | None) -> Mining:
    """Layers and silenced checks: those of the project first, then those of the command line.

    Raises:
        SettingsError: a silenced check does not exist.
    """
    silenced = (*settings.ignore, *(ignore or ()))
    check_names(silenced)
    return Mining(lexicon=(*settings.lexicon, *(lexicon or ())), ignore=silenced)


def project_settings() -> Settings:
    """The settings that hold in the working folder."""
    from miner.settings import load_settings

    return load_settings(Path.cwd())


def check_names(names: Iterable[str]) -> None:
    """Nothing, if all are ids of checks.

    Raises:
        SettingsError: one is not; names the nearest that is.
    """
    if wanted := tuple(names):
        from miner.findings.running import selected

        selected(wanted)


class Workshop:
    """Makes drafts with one set of options; the lexicon is loaded once, when the first recording needs it."""

    def __init__(self, options: Mining) -> None:
        self._options = options
        self._lexicon: Lexicon | None = None

    def draft(self, path: Path, progress: Callable[[str], None] | None = None) -> Draft:
        """The draft of a recording."""
        from miner.drafting import draft
        from miner.lexicon import load_lexicon

        if self._lexicon is None:
            self._lexicon = load_lexicon(self._options.lexicon)
        chosen = self._options
        return draft(
            path,
            self._lexicon,
            format=chosen.format,
            media=chosen.media,
            title=chosen.title,
            product=chosen.product,
            model=chosen.model,
            register=chosen.register.value if chosen.register else None,
            ignore=chosen.ignore,
            parts_list=chosen.parts_list,
            progress=progress,
        )

    def open(self, path: Path, progress: Callable[[str], None] | None = None) -> Draft:
        """The draft that a file or folder holds, or the draft of a recording.

        Raises:
            SettingsError: a parts list is to be compared with a finished draft.
        """
        if not is_draft(path):
            return self.draft(path, progress)
        from dataclasses import replace

        from miner.errors import SettingsError
        from miner.model.serialise import read_draft

        if self._options.parts_list is not None:
            raise SettingsError(
                "a finished draft is not compared with a parts list",
                where=str(path),
                remedy="Give --parts-list together with the recording.",
            )
        found = read_draft(path)
        kept = tuple(one for one in found.findings if one.check not in self._options.ignore)
        return replace(found, findings=kept)


def is_draft(path: Path) -> bool:
    """Whether a path is a folder or a file that starts like a draft."""
    if path.is_dir():
        return True
    try:
        with path.open("rb") as file:
            return b'"draft/1"' in file.read(200)
    except OSError:
        return False


def exit_code(drafts: Sequence[Draft], fail_on: FailOn) -> int:
    """1 if a finding is at least as grave as `fail_on`, else 0."""
    order = [one.value for one in FailOn]
    if fail_on is FailOn.never:
        return 0
    return int(any(order.index(one.severity) <= order.index(fail_on) for draft in drafts for one in draft.findings))


def failing_from(given: FailOn | None, settings: Settings, otherwise: FailOn) -> FailOn:
    """The command line's choice, else the project's, else the command's own."""
    return given or (FailOn(settings.fail_on) if settings.fail_on else otherwise)
