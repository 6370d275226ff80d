"""What the rules of `tagging` look at: the tags of a text while they are settled, and habits of its writer."""

from __future__ import annotations

from collections import Counter

from miner.language.annotations import Annotations
from miner.language.tag_table import TagTable

END = "."
"""The tag that stands at the edges of a text and of a note."""

_REPORTING = 5
"""One note in so many that opens with a past form shows notes in the past tense."""


class Settler:
    """What the rules look at; `tags` are settled to the left of the token in question and open to the right of it.

    `paired` counts how often a word that may be a verb follows another in places where it must be the head of a name;
    `named` counts, in notes, how often a base form stands where no verb can; `reports` is true of notes that tell
    what somebody did or does ("removed the lid", "lifts it off").
    """

    __slots__ = ("breaks", "compounds", "lower", "named", "notes", "paired", "reports", "size", "table", "tags")

    def __init__(self, known: Annotations, tags: list[str], table: TagTable) -> None:
        self.tags, self.lower, self.breaks, self.table = tags, known.lower, known.breaks, table
        self.size, self.notes = len(tags), bool(known.breaks)
        self.paired = _paired(tags, known.lower)
        self.named = _named(tags, known.lower) if self.notes else Counter()
        self.reports = self.notes and _REPORTING * sum(_reporting(tags, i) for i in self.breaks) > len(self.breaks)

    def before(self, i: int) -> str:
        """The tag before a token; a note begins like a sentence."""
        return END if i == 0 or i in self.breaks else self.tags[i - 1]

    def after(self, i: int) -> str:
        """The tag after a token; a note ends like a sentence."""
        return END if i + 1 >= self.size or i + 1 in self.breaks else self.tags[i + 1]

    def tag(self, i: int) -> str:
        """The tag at a position, without regard to the edges of notes."""
        return self.tags[i] if 0 <= i < self.size else ""

    def is_compound(self, i: int) -> bool:
        """Whether the lexicon knows the word at a position and the one after it as the name of a part."""
        return f"{self.lower[i]} {self.lower[i + 1]}" in self.table.compounds


def _paired(tags: list[str], lower: list[str]) -> Counter[tuple[str, str]]:
    found: Counter[tuple[str, str]] = Counter()
    for i in range(1, len(tags) - 1):
        tag = tags[i]
        if tag in "vKnH" and (
            (tag in "vK" and tags[i - 1] in "nHA" and tags[i + 1] not in "DOd") or (tag in "nHv" and tags[i - 1] == "V")
        ):
            found[lower[i - 1], lower[i]] += 1
    return found


def _reporting(tags: list[str], at: int) -> bool:
    """Whether a note begins with a past form, or with a third person before what it works on."""
    if at >= len(tags):
        return False
    return tags[at] == "E" or (tags[at] in "Ss" and at + 1 < len(tags) and tags[at + 1] in "DdONQnHvsKFA")


def _named(tags: list[str], lower: list[str]) -> Counter[str]:
    return Counter(lower[i] for i, tag in enumerate(tags) if tag == "V" and i and tags[i - 1] in "VAHnpbro")
