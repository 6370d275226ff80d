"""The lexicon's patterns of speech as one pattern that can be searched."""

from __future__ import annotations

import re
from functools import lru_cache

from miner.lexicon.loading import Lexicon
from miner.lexicon.lookup import lookup


@lru_cache(maxsize=64)
def phrasing(lexicon: Lexicon, role: str) -> re.Pattern[str]:
    """The patterns of a role ("reverse"), to be searched in lower-case text; matches nothing without any."""
    return re.compile(rf"(?<!\w)(?:{lookup(lexicon).either(role)})(?!\w)")
