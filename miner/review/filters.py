"""What of a recording the editor wants to see: a part of the page's address, never trusted further than this."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from urllib.parse import parse_qsl, urlencode

from miner.decisions.decision import Decision
from miner.model.finding import Finding

STATES = {"": "Open and decided", "open": "Open", "decided": "Decided"}


@dataclass(frozen=True, slots=True)
class Filters:
    """Empty fields filter nothing; `only` hides the steps that no shown finding cites."""

    check: str = ""
    severity: str = ""
    state: str = ""
    only: bool = False

    @classmethod
    def of(cls, query: Mapping[str, str]) -> Filters:
        """From the parameters of an address; what is unknown is passed over."""
        state, severity = query.get("state", ""), query.get("severity", "")
        return cls(
            query.get("check", "")[:80],
            severity if severity in ("error", "warning", "remark") else "",
            state if state in STATES else "",
            query.get("only") == "1",
        )

    @classmethod
    def parse(cls, text: str) -> Filters:
        """From the query part of an address as a form carries it."""
        return cls.of(dict(parse_qsl(text[:500])))

    @property
    def query(self) -> str:
        """As the query part of an address."""
        named = {"check": self.check, "severity": self.severity, "state": self.state, "only": "1" if self.only else ""}
        return urlencode({name: value for name, value in named.items() if value})

    @property
    def active(self) -> bool:
        """Whether anything is hidden."""
        return bool(self.query)

    def shown(self, findings: Iterable[Finding], decided: Mapping[str, Decision]) -> tuple[Finding, ...]:
        """The findings that pass."""
        return tuple(one for one in findings if self._passes(one, f"finding:{one.id}" in decided))

    def _passes(self, finding: Finding, decided: bool) -> bool:
        if self.check not in ("", finding.check) or self.severity not in ("", finding.severity):
            return False
        return not self.state or (self.state == "decided") == decided
