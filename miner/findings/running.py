"""Runs the checks on a draft: selects, fingerprints, sorts."""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Iterable, Iterator
from difflib import get_close_matches
from typing import TYPE_CHECKING

from miner.errors import SettingsError
from miner.findings.case import Case, Check, Fault
from miner.findings.registry import CHECKS
from miner.model.draft import Draft
from miner.model.finding import Finding
from miner.model.identity import fingerprint
from miner.model.observation import Observation
from miner.teardown.building import Teardown

if TYPE_CHECKING:
    from miner.lexicon.loading import Lexicon
    from miner.model.recording import Recording
    from miner.readers.parts_list import PartsList


def check(
    draft: Draft,
    teardown: Teardown,
    observations: Iterable[Observation],
    lexicon: Lexicon,
    *,
    ignore: Collection[str] = (),
    parts_list: PartsList | None = None,
    recording: Recording | None = None,
) -> tuple[Finding, ...]:
    """The findings of all checks but the ignored ones, in order of time.

    With the recording, what is said beside the steps counts too.

    Raises:
        SettingsError: a name in `ignore` is that of no check.
    """
    case = Case.of(draft, teardown, observations, lexicon, parts_list, recording)
    found = [(fault, one) for one in selected(ignore) for fault in one.run(case)]
    found.sort(key=lambda pair: _order(*pair))
    return tuple(_identified(found))


def selected(ignore: Collection[str]) -> tuple[Check, ...]:
    """The checks that are not ignored.

    Raises:
        SettingsError: a name is that of no check.
    """
    known = [one.id for one in CHECKS]
    for name in ignore:
        if name not in known:
            near = get_close_matches(name, known, 1)
            raise SettingsError(
                f"no check is called '{name}'",
                remedy=f"Did you mean '{near[0]}'?" if near else "`miner check --list` names all of them.",
            )
    return tuple(one for one in CHECKS if one.id not in ignore)


def _order(fault: Fault, one: Check) -> tuple[float, str, str]:
    start = min((place.start for place in fault.evidence), default=0.0)
    return start, one.id, fault.message


def _identified(found: Iterable[tuple[Fault, Check]]) -> Iterator[Finding]:
    """Ids from the words of the evidence; findings that quote the same words are numbered in order of time."""
    seen: Counter[str] = Counter()
    for fault, one in found:
        name = fingerprint(one.id, (place.quote for place in fault.evidence))
        seen[name] += 1
        yield Finding(
            id=name if seen[name] == 1 else f"{name}-{seen[name]}",
            check=one.id,
            severity=one.severity,
            message=fault.message,
            procedures=fault.procedures,
            evidence=fault.evidence,
            suggestion=fault.suggestion,
            branch=fault.branch,
        )
