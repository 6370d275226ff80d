"""Scores as text and JSON."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence

from miner.errors import SettingsError
from miner.scoring.cards import MAIN, Card, is_accuracy, pooled

Cards = Mapping[str, Card]


def pools(cards: Cards) -> dict[str, Card]:
    """The cards counted together by register, and all of them as `overall`."""
    registers = sorted({card.register for card in cards.values()})
    made = {name: pooled((card for card in cards.values() if card.register == name), name) for name in registers}
    return made | {"overall": pooled(cards.values(), "overall")}


def as_json(cards: Cards) -> str:
    """All figures of all recordings and pools."""
    parts = {"recordings": cards, "pooled": pools(cards)}
    figures = {part: {name: card.report() for name, card in group.items()} for part, group in parts.items()}
    return json.dumps(figures, indent=1) + "\n"


def tables(cards: Cards) -> str:
    """A line a recording and a line a pool with the main F1; then every metric by pool."""
    together = pools(cards)
    lines = [["F1", "headline", *MAIN, "false/h"]]
    for name, card in {**cards, **{f"= {name}": card for name, card in together.items()}}.items():
        scores = [_shown(card.figures(metric)["f1"]) for metric in MAIN]
        lines.append([name, _shown(card.headline()), *scores, _shown(card.false_alarms_per_hour(), 1)])
    return f"{_aligned(lines)}\n{_metrics(together)}"


def detail(cards: Cards, name: str) -> str:
    """Every metric of one recording and everything that went wrong in it, in order of time.

    Raises:
        SettingsError: there is no recording of that name.
    """
    if name not in cards:
        raise SettingsError(f"no recording {name!r}", remedy=f"Choose one of {', '.join(cards)}.")
    remarks = sorted(cards[name].remarks, key=lambda one: (one.time or 0.0, one.verdict, one.metric, one.text))
    lines = (f"{_shown(one.time, 1):>8}  {one.verdict:<5}  {one.metric:<28}  {one.text}\n" for one in remarks)
    return f"{_metrics({name: cards[name]})}\n{''.join(lines)}"


def _metrics(cards: Cards) -> str:
    names = sorted({metric for card in cards.values() for metric in card.metrics()})
    rows = [[name, *(_cell(card, name) for card in cards.values())] for name in names]
    return _aligned([["P R F1, or accuracy", *cards], *rows])


def _cell(card: Card, metric: str) -> str:
    figures = card.figures(metric)
    if is_accuracy(metric):
        return f"{_shown(figures['accuracy'])} of {figures['of']:>4}"
    return " ".join(f"{_shown(figures[key]):>4}" for key in ("precision", "recall", "f1"))


def _shown(value: float | None, digits: int = 2) -> str:
    return "-" if value is None else f"{value:.{digits}f}"


def _aligned(lines: Sequence[Sequence[str]]) -> str:
    widths = [max(map(len, column)) for column in zip(*lines, strict=True)]
    rows = []
    for first, *rest in lines:
        cells = (cell.rjust(width) for cell, width in zip(rest, widths[1:], strict=True))
        rows.append("  ".join((first.ljust(widths[0]), *cells)).rstrip())
    return "\n".join(rows) + "\n"
