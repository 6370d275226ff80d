"""Keys by which decisions find their item again in a draft that was mined anew.

A key is made of the words an item rests on, not of its number or time, so it survives edits elsewhere in the
transcript. Equal words (four times "lift it off") are told apart by the words around them; if even those are equal,
by their order. When a key is not found any more, the evidence has changed, and `matching.py` asks the editor.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

from miner.decisions.decision import Basis
from miner.model.draft import Draft, Procedure
from miner.model.graph import Edge
from miner.model.identity import fingerprint


@dataclass(frozen=True, slots=True)
class Item:
    """Something that can be decided on; `home` is the key of the procedure it stands in."""

    key: str
    id: str
    words: str
    start: float
    end: float
    home: str = ""

    @property
    def kind(self) -> str:
        """`finding`, `procedure`, `step`, `notice` or `edge`."""
        return self.key.partition(":")[0]

    @property
    def basis(self) -> Basis:
        """What a decision on this item rests on."""
        return Basis(self.words, self.start, self.end, self.id)


@dataclass(frozen=True, slots=True)
class Items:
    """All items of a draft, by key and by `kind:id`."""

    by_key: dict[str, Item] = field(default_factory=dict)
    keys: dict[str, str] = field(default_factory=dict)

    @classmethod
    def of(cls, draft: Draft) -> Items:
        """The items of a draft, in its order."""
        made = cls()
        for item in _items(draft):
            made.by_key.setdefault(item.key, item)
            made.keys.setdefault(f"{item.kind}:{item.id}", item.key)
        return made

    def key(self, kind: str, id: str) -> str:
        """The key of what has that id in this draft; raises KeyError if nothing has."""
        return self.keys[f"{kind}:{id}"]

    def get(self, key: str) -> Item | None:
        """The item with a key; a part of a split step (`step:abc/2`) is found by its whole."""
        return self.by_key.get(whole(key))


def whole(key: str) -> str:
    """The key of the mined step that a part of a split step came from; any other key as it is."""
    return key.partition("/")[0]


def step_key(items: Items, id: str) -> str:
    """The key of a step of a decided draft: `p03.s02b` is the second part of what was mined as `p03.s02`."""
    if id[-1:].isdigit():
        return items.key("step", id)
    return f"{items.key('step', id[:-1])}/{ord(id[-1]) - ord('a') + 1}"


def step_id_of(items: Items, key: str) -> str:
    """The id that a step key has in a decided draft; raises KeyError for a step that was never mined."""
    part = key.partition("/")[2]
    mined = items.by_key[whole(key)].id
    return f"{mined}{chr(ord('a') + int(part) - 1)}" if part.isdigit() and len(part) == 1 else mined


def notice_id(procedure: str, number: int) -> str:
    """`p03.n02` for the second notice of the third procedure; the contract itself gives notices no id."""
    return f"{procedure}.n{number:02d}"


def edge_id(edge: Edge) -> str:
    """`drip-tray>pump` for the edge that says that the drip tray must be off before the pump."""
    return f"{edge.from_}>{edge.to}"


def _items(draft: Draft) -> Iterator[Item]:
    procedures = draft.procedures
    names = _unique("procedure", [_heading(one) for one in procedures], [_first_words(one) for one in procedures])
    homes = dict(zip((one.id for one in procedures), names, strict=True))
    for one in procedures:
        yield Item(homes[one.id], one.id, _heading(one), one.heading.start, one.heading.end)
    steps = [(one, step) for one in procedures for step in one.steps]
    said = [step.spoken or step.text for _, step in steps]
    for (one, step), key in zip(steps, _unique("step", said, _around(said)), strict=True):
        yield Item(key, step.id, step.spoken or step.text, step.start, step.end, homes[one.id])
    notices = [(one, number, notice) for one in procedures for number, notice in enumerate(one.notices, 1)]
    texts = [notice.text for _, _, notice in notices]
    for (one, number, notice), key in zip(notices, _unique("notice", texts, _around(texts)), strict=True):
        yield Item(key, notice_id(one.id, number), notice.text, notice.start, notice.end, homes[one.id])
    for finding in draft.findings:
        start = min((side.start for side in finding.evidence), default=0.0)
        end = max((side.end for side in finding.evidence), default=0.0)
        words = " \u2026 ".join(side.quote for side in finding.evidence)
        home = next((homes[name] for name in finding.procedures if name in homes), "")
        yield Item(f"finding:{finding.id}", finding.id, words, start, end, home)
    for edge in draft.graph_.edges:
        quotes = [side.quote for side in edge.evidence]
        start, end = (edge.evidence[0].start, edge.evidence[0].end) if edge.evidence else (0.0, 0.0)
        key = _key("edge", (edge.from_, edge.to, *quotes))
        yield Item(key, edge_id(edge), " \u2026 ".join(quotes), start, end)


def _heading(procedure: Procedure) -> str:
    return procedure.heading.text if procedure.heading.spoken else procedure.title


def _first_words(procedure: Procedure) -> str:
    return " ".join(step.spoken or step.text for step in procedure.steps[:3])


def _around(words: Sequence[str]) -> list[str]:
    """For each text, what stands before and after it."""
    padded = ["", *words, ""]
    return [f"{before} \x1e {after}" for before, after in zip(padded, padded[2:], strict=False)]


def _key(kind: str, words: Sequence[str]) -> str:
    return f"{kind}:{fingerprint(kind, words).rpartition('-')[2]}"


def _unique(kind: str, words: Sequence[str], contexts: Sequence[str]) -> list[str]:
    """A key for each text: of its words alone if no other has the same, else with its context, else numbered."""
    short = [_key(kind, (text,)) for text in words]
    alone = Counter(short)
    longer = [
        key if alone[key] == 1 else _key(kind, (text, context))
        for key, text, context in zip(short, words, contexts, strict=True)
    ]
    seen: Counter[str] = Counter()
    made = []
    for key in longer:
        seen[key] += 1
        made.append(key if seen[key] == 1 else f"{key}-{seen[key]}")
    return made
