"""The score of one recording, or of several pooled: counts by metric, and the figures made of them."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, fields
from typing import Any, Literal

from miner.scoring.items import FASTENER_FULL, Item, figure, read_contents
from miner.scoring.pairing import RULES, Pairs, agreement, distance, pair
from miner.scoring.words import term_key

MAIN = ("procedures", "boundaries", "prerequisites", "steps", "fasteners", "fasteners_core", "notices", "findings")
HEADLINE = ("procedures", "prerequisites", "steps", "fasteners", "notices", "findings")
COMPARED = ("procedures", "steps", "fasteners", "notices")
STEP_START_TOLERANCE = 2.0  # seconds

Verdict = Literal["miss", "false", "wrong"]
Side = Literal["hit", "gold", "draft"]


@dataclass(frozen=True, slots=True)
class Remark:
    """One thing that went wrong: not found, found and not there, or a field that differs."""

    time: float | None
    verdict: Verdict
    metric: str
    text: str


@dataclass(slots=True)
class Card:
    """Counts by metric and side, for recordings of one register with `hours` in total."""

    register: str
    hours: float
    counts: Counter[tuple[str, Side]] = field(default_factory=Counter)
    remarks: list[Remark] = field(default_factory=list)

    def add(self, metric: str, hit: int, gold: int, draft: int) -> None:
        """Count items found by both, in the gold, in the draft."""
        self.counts.update({(metric, "hit"): hit, (metric, "gold"): gold, (metric, "draft"): draft})

    def metrics(self) -> list[str]:
        """All metrics that were counted, and the main ones."""
        return sorted({*MAIN, *(metric for metric, _ in self.counts)})

    def figures(self, metric: str) -> dict[str, float | int | None]:
        """Precision, recall and F1 of a metric, or the accuracy of a field."""
        hit, gold, draft = (self.counts[metric, side] for side in ("hit", "gold", "draft"))
        if is_accuracy(metric):
            return {"accuracy": _ratio(hit, gold), "right": hit, "of": gold}
        rates = {"precision": _ratio(hit, draft), "recall": _ratio(hit, gold), "f1": _ratio(2 * hit, gold + draft)}
        return {**rates, "hit": hit, "gold": gold, "draft": draft}

    def headline(self) -> float | None:
        """The mean of six F1; a metric with nothing to find and nothing drafted is left out."""
        scores = [f1 for metric in HEADLINE if (f1 := self.figures(metric)["f1"]) is not None]
        return _ratio(sum(scores), len(scores))

    def false_alarms_per_hour(self) -> float | None:
        """Findings of the draft that the gold does not have, by hour of recording."""
        return _ratio(self.counts["findings", "draft"] - self.counts["findings", "hit"], self.hours)

    def report(self) -> dict[str, Any]:
        """All figures as JSON values."""
        return {
            "register": self.register,
            "headline": self.headline(),
            "hours": self.hours,
            "false_alarms_per_hour": self.false_alarms_per_hour(),
            "metrics": {metric: self.figures(metric) for metric in self.metrics()},
        }


def is_accuracy(metric: str) -> bool:
    """Whether a metric is the accuracy of a field (`steps.part`), not an F1 (`steps`, `findings.stutter`)."""
    return "." in metric and not metric.startswith("findings.")


def pooled(cards: Iterable[Card], register: str) -> Card:
    """Several cards counted together."""
    total = Card(register, 0.0)
    for card in cards:
        total.hours += card.hours
        total.counts.update(card.counts)
    return total


def score(gold: Mapping[str, Any], draft: Mapping[str, Any]) -> Card:
    """The card of one recording, from the parsed JSON of both sides."""
    wanted, got = read_contents(gold), read_contents(draft)
    card = Card(term_key(gold.get("register")) or "unknown", _seconds(draft, gold) / 3600)
    pairs: dict[str, Pairs] = {}
    for metric, (name, likeness, least) in RULES.items():
        golds, drafts = getattr(wanted, name), getattr(got, name)
        pairs[metric] = pair(golds, drafts, likeness, least)
        _count(card, metric, golds, drafts, pairs[metric])
    # Fields of fasteners are compared in unequal groups too, the most alike of one step with one another.
    pairs["fasteners"] = pair(wanted.fasteners, got.fasteners, agreement(*FASTENER_FULL), 0)
    for metric in COMPARED:
        for one, other in pairs[metric]:
            _compare(card, metric, one, other)
    _count_kinds(card, [one for one, _ in pairs["findings"]], wanted.findings, got.findings)
    return card


def _seconds(draft: Mapping[str, Any], gold: Mapping[str, Any]) -> float:
    recording = draft.get("recording")
    stated = figure(recording.get("duration")) if isinstance(recording, dict) else None
    if stated and stated > 0:
        return stated
    sides = (read_contents(gold), read_contents(draft))
    lists = (getattr(side, one.name) for side in sides for one in fields(side))
    return max((time for items in lists for item in items for time in (item.start, item.end) if time), default=0.0)


def _count(card: Card, metric: str, golds: list[Item], drafts: list[Item], pairs: Pairs) -> None:
    card.add(metric, len(pairs), len(golds), len(drafts))
    matched = {id(item) for both in pairs for item in both}
    for verdict, side in (("miss", golds), ("false", drafts)):
        card.remarks += [
            Remark(item.start, verdict, metric, item.text)  # type: ignore[arg-type]  # a Verdict, typed as str
            for item in side
            if id(item) not in matched
        ]


def _compare(card: Card, metric: str, gold: Item, draft: Item) -> None:
    """Count the fields of a pair; one that both leave empty is not counted."""
    for key, said in gold.fields.items():
        got = draft.fields[key]
        right = _agree(key, said, got)
        if said not in ("", None, ()) or not right:
            card.add(f"{metric}.{key}", right, 1, 1)
        if not right:
            shown = (value.text if isinstance(value, Item) else value for value in (said, got))
            text = " | ".join((*map(str, shown), gold.text))
            card.remarks.append(Remark(gold.start, "wrong", f"{metric}.{key}", text))


def _agree(key: str, said: Any, got: Any) -> bool:
    if isinstance(got, Item):
        return said is got.partner
    return distance(said, got) <= STEP_START_TOLERANCE if key == "start" else bool(said == got)


def _count_kinds(card: Card, hits: list[Item], golds: list[Item], drafts: list[Item]) -> None:
    sides: dict[Side, list[Item]] = {"hit": hits, "gold": golds, "draft": drafts}
    for side, items in sides.items():
        card.counts.update((f"findings.{item.fields['kind']}", side) for item in items)


def _ratio(part: float, whole: float) -> float | None:
    return part / whole if whole else None
