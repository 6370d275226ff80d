"""Findings as an editor reads them in a terminal: by procedure, the sides of a contradiction beside one another."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator, Sequence
from itertools import zip_longest

from miner.cli.console import painted, printable
from miner.model.draft import Draft
from miner.model.finding import Evidence, Finding
from miner.publish.outline import general_findings, sections, severity_totals
from miner.publish.wording import SEVERITY_WORDS, clock, span, suggestion_words

_NARROW = 70  # columns below which the sides stand one below the other


def report(draft: Draft, *, columns: int, colour: bool) -> str:
    """All findings of a draft as text, ending in a line end."""
    return "\n".join(_lines(draft, columns, colour)) + "\n"


def _lines(draft: Draft, columns: int, colour: bool) -> Iterator[str]:
    yield from _strong(f"{draft.recording.source} ({clock(draft.recording.duration)})", columns, colour)
    for section in sections(draft):
        if section.findings:
            procedure = section.procedure
            place = f"{procedure.id} {procedure.title} ({span(procedure.start, procedure.end)})"
            yield from ("", *_strong(place, columns, colour))
            for finding in section.findings:
                yield from _finding(finding, columns, colour)
    if general := general_findings(draft):
        yield from ("", painted("The whole recording", "strong", colour=colour))
        for finding in general:
            yield from _finding(finding, columns, colour)
    yield from ("", totals(draft.findings))


def _strong(text: str, columns: int, colour: bool) -> list[str]:
    return [painted(line, "strong", colour=colour) for line in textwrap.wrap(printable(text), columns)]


def totals(findings: Sequence[Finding]) -> str:
    """`2 errors, 1 warning`, or that there is nothing to decide."""
    return severity_totals(findings) or "No findings."


def _finding(finding: Finding, columns: int, colour: bool) -> Iterator[str]:
    yield ""
    name = painted(SEVERITY_WORDS[finding.severity].upper(), finding.severity, colour=colour)
    others = f" (also {', '.join(finding.procedures[1:])})" if len(finding.procedures) > 1 else ""
    yield f"  {name} {finding.check}{others}"
    branch = f" Only in one variant: {finding.branch}." if finding.branch else ""
    yield from textwrap.wrap(
        printable(finding.message + branch), columns, initial_indent="    ", subsequent_indent="    "
    )
    abreast = 2 if len(finding.evidence) > 1 and columns >= _NARROW else 1
    for first in range(0, len(finding.evidence), abreast):
        yield from _sides(finding.evidence[first : first + abreast], columns, abreast)
    if finding.suggestion is not None:
        change = f"Suggested: {suggestion_words(finding.suggestion)}"
        yield from textwrap.wrap(printable(change), columns, initial_indent="    ", subsequent_indent="      ")
    yield painted(f"    {finding.id}", "quiet", colour=colour)


def _sides(evidence: Sequence[Evidence], columns: int, abreast: int) -> Iterator[str]:
    room = (columns - 6 - 3 * (abreast - 1)) // abreast
    blocks = [_block(one, room) for one in evidence]
    for row in zip_longest(*blocks, fillvalue=""):
        yield "      " + " | ".join(cell.ljust(room) for cell in row).rstrip()


def _block(evidence: Evidence, room: int) -> list[str]:
    place = f"{span(evidence.start, evidence.end)}  {evidence.step or ''}".rstrip()
    return [place, *textwrap.wrap(f'"{printable(evidence.quote)}"', room)]
