"""The words by which free speech announces a job in passing, from the lexicon's phrases."""

from __future__ import annotations

import re
from dataclasses import dataclass, fields
from functools import lru_cache

from miner.lexicon import Lexicon
from miner.lexicon.lookup import lookup


@dataclass(frozen=True, slots=True)
class FrontedForms:
    """The patterns, on lower-case text; `lexicon/headings.toml` says of each where it stands."""

    first: re.Pattern[str]
    next: re.Pattern[str]
    order: re.Pattern[str]
    itself: re.Pattern[str]
    reason: re.Pattern[str]
    doing: re.Pattern[str]
    not_doing: re.Pattern[str]
    there: re.Pattern[str]
    how: re.Pattern[str]
    shown: re.Pattern[str]
    coming: re.Pattern[str]
    replacing: re.Pattern[str]
    turn: re.Pattern[str]
    generic: re.Pattern[str]
    gerund_leads: re.Pattern[str]
    gerund_bars: re.Pattern[str]
    gerund_begins: re.Pattern[str]
    gerund_off: re.Pattern[str]


@lru_cache(maxsize=8)
def fronted_forms(lexicon: Lexicon) -> FrontedForms:
    """The forms of a lexicon."""
    index = lookup(lexicon)
    item = f"(?:{index.either('fronted-item')})"

    def form(role: str) -> re.Pattern[str]:
        patterns = (f"(?:{pattern})" for pattern in index.phrases(f"fronted-{role}"))
        return re.compile(("|".join(patterns) or "(?!)").replace("{item}", item))

    return FrontedForms(**{one.name: form(one.name.replace("_", "-")) for one in fields(FrontedForms)})
