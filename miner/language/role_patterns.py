"""The phrases of a lexicon by which the role of a sentence is told, compiled; word classes are put into them."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache

from miner.lexicon import Lexicon
from miner.lexicon.lookup import Lookup, lookup

PART = r"(?:[^.,;]{1,60}?)"
"""What `{part}` stands for in a phrase of the lexicon."""

_CLASS = re.compile(r"\{([a-z]+)\}")
_SIGNALS = ("danger", "warning", "caution", "important", "note")
_OPENER = "so|and|then|now|okay|ok|right|alright|but"


@dataclass(frozen=True, slots=True)
class RolePatterns:
    """The lexicon's phrases, compiled, one pattern a role."""

    signals: re.Pattern[str]
    signal_kinds: tuple[str, ...]
    alert: re.Pattern[str]
    important: re.Pattern[str]
    injury: re.Pattern[str]
    reverse: re.Pattern[str]
    install: re.Pattern[str]
    after: re.Pattern[str]
    closing: re.Pattern[str]
    late: re.Pattern[str]
    prerequisite: re.Pattern[str]
    no_prerequisite: re.Pattern[str]


@lru_cache(maxsize=8)
def role_patterns(lexicon: Lexicon) -> RolePatterns:
    """The patterns of a lexicon."""
    index = lookup(lexicon)

    def compiled(role: str, before: str = "", after: str = "") -> re.Pattern[str]:
        return re.compile(f"{before}(?:{'|'.join(_pattern(phrase, index) for phrase in index.phrases(role))}){after}")

    signals = "|".join(f"(?P<{kind}>{'|'.join(index.phrases('signal-' + kind))})" for kind in _SIGNALS)
    opener = _openers(
        "so|and|okay|ok|now|oh|also|but|a|another|one|quick|big|little|general|please|safety|right|well|first|just"
    )
    return RolePatterns(
        signals=re.compile(rf"{opener}(?:(?P<bang>!+|/!\\|⚠)|(?:{signals})(?=[\s,:.!\-–]|$))[\s,:.!\-–]*"),
        signal_kinds=_SIGNALS,
        alert=compiled("alert", r"(?<![\w'])", r"(?![\w'])"),
        important=compiled("important", r"(?<!\w)"),
        injury=compiled("injury", r"(?<!\w)", r"(?!\w)"),
        reverse=compiled("reverse", r"(?<!\w)"),
        install=compiled("install-start", _openers(f"{_OPENER}|well"), r"(?!\w)"),
        after=compiled("after-start", _openers(_OPENER), r"(?!\w)"),
        closing=compiled("closing", _openers(f"{_OPENER}|well|yep|yeah|there"), r"[\s.,!]*$"),
        late=compiled("late"),
        prerequisite=compiled("prerequisite", r"(?<!\w)"),
        no_prerequisite=compiled("no-prerequisite", r"(?<!\w)"),
    )


def _pattern(text: str, index: Lookup) -> str:
    """A phrase as a regular expression; `{body}` is any word of the phrases with the role `class-body`."""
    plain = text.replace("{part}", PART).replace("{number}", r"(?:\d+|[a-z]+)")
    return _CLASS.sub(lambda match: f"(?:{'|'.join(index.phrases('class-' + match[1]))})", plain)


def _openers(words: str) -> str:
    """Any number of words with which an utterance begins."""
    return rf"(?:(?:{words})\b[ ,]*)*"
