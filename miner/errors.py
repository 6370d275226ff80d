"""The one family of errors: what is wrong, where, and what to do about it.

MinerError                 anything the user can mend; ends a command with exit code 2
├── InputError             a recording, parts list or draft that cannot be read
│   └── FormatError        no reader, or several, claim the content
├── LexiconError           a lexicon file with an unknown key or a broken entry
├── SettingsError          an option in a settings file or on the command line
├── DecisionError          a decision that cannot be stored or applied
└── MissingExtraError      an optional library is not installed
"""

from __future__ import annotations


class MinerError(Exception):
    """Something the user can mend.

    Args:
        what: what is wrong, in plain words.
        where: file with line or time (`talk.srt:12`, `talk.srt at 0:42`), or empty.
        remedy: what to do next, a sentence.
    """

    exit_code = 2

    def __init__(self, what: str, *, where: str = "", remedy: str) -> None:
        super().__init__(what, where, remedy)
        self.what, self.where, self.remedy = what, where, remedy

    def __str__(self) -> str:
        """One line for the user."""
        place = f"{self.where}: " if self.where else ""
        return f"{place}{self.what.rstrip('.')}. {self.remedy}"

    def __reduce__(self) -> tuple[object, ...]:
        """Survive pickling between worker processes, with the facts kept."""
        return (_rebuild, (type(self), self.what, self.where, self.remedy))


def _rebuild(kind: type[MinerError], what: str, where: str, remedy: str) -> MinerError:
    return kind(what, where=where, remedy=remedy)


class InputError(MinerError):
    """A file that cannot be read as what it should be."""


class FormatError(InputError):
    """No reader, or more than one, claims the content of a file."""


class LexiconError(MinerError):
    """A lexicon layer with an unknown key, a missing value or a broken entry."""


class SettingsError(MinerError):
    """An option that is unknown or out of range."""


class DecisionError(MinerError):
    """A decision that cannot be stored or applied."""


class MissingExtraError(MinerError):
    """An optional library is needed and not installed."""
