"""Timed notes as a table (CSV, TSV): its columns are found by their headers, or else by what they hold."""

from __future__ import annotations

import csv
import io
from collections.abc import Sequence
from dataclasses import dataclass

from miner.errors import InputError
from miner.readers.clock import any_time
from miner.readers.reading import checked_span

_HEADERS: dict[str, tuple[str, ...]] = {
    "start": ("start", "time", "timestamp", "timecode", "tc", "begin", "from", "in", "t", "at", "start time", "tc in",
              "time in", "begin time", "time code", "seconds", "sec", "clock", "when", "offset"),
    "end": ("end", "to", "stop", "out", "finish", "until", "end time", "tc out", "time out", "stop time"),
    "duration": ("duration", "dur", "length"),
    "text": ("text", "note", "notes", "comment", "comments", "remark", "remarks", "observation", "observations",
             "description", "transcript", "event", "what", "action", "utterance", "caption", "content", "entry"),
    "voice": ("speaker", "voice", "who", "observer", "by", "author", "name"),
}  # fmt: skip
_MILLISECONDS = ("ms", "msec", "millis", "milliseconds")
_DELIMITERS = "\t;,|"


@dataclass(frozen=True, slots=True)
class Row:
    """One timed note as it stands in a file; seconds."""

    start: float
    end: float | None
    text: str
    voice: str | None = None


@dataclass(frozen=True, slots=True)
class _Layout:
    """How a table is laid out: its delimiter, whether it has a header, and the column of each meaning."""

    delimiter: str
    header: bool
    columns: dict[str, int]
    scale: float
    why: str


def looks_like_table(text: str) -> str:
    """Why a text looks like a table of timed notes; empty if it does not."""
    layout = _layout(text)
    return layout.why if layout else ""


def read_table(text: str, source: str) -> list[Row]:
    """The notes of a table in its order; rows without any cell are skipped.

    Raises:
        InputError: at a row whose time cannot be read.
    """
    layout = _layout(text)
    if layout is None:
        raise InputError("no column of times found", where=source, remedy="Head the columns with time and note.")
    rows: list[Row] = []
    lines = csv.reader(io.StringIO(text), delimiter=layout.delimiter)
    try:
        for number, cells in enumerate(lines):
            if (number or not layout.header) and any(cell.strip() for cell in cells):
                rows.append(_row(cells, layout, f"{source}:{lines.line_num}"))
    except csv.Error as error:
        raise InputError(
            f"the table is broken: {error}", where=f"{source}:{lines.line_num}", remedy="Export it again as CSV."
        ) from None
    return rows


def _row(cells: Sequence[str], layout: _Layout, where: str) -> Row:
    def cell(meaning: str) -> str:
        column = layout.columns.get(meaning, -1)
        return cells[column].strip() if 0 <= column < len(cells) else ""

    start = _time(cell("start"), layout, where)
    end = _time(cell("end"), layout, where) if cell("end") else None
    if end is None and cell("duration"):
        end = start + _time(cell("duration"), layout, where)
    if end is not None:
        checked_span(start, end, where)
    return Row(start, end, cell("text"), cell("voice") or None)


def _time(text: str, layout: _Layout, where: str) -> float:
    seconds = any_time(text)
    if seconds is None:
        raise InputError(
            f"{text!r} is no time" if text else "the time is missing",
            where=where,
            remedy="Write the time as 0:42, 1:02:07 or a number of seconds.",
        )
    return seconds if ":" in text else seconds * layout.scale


def _layout(text: str) -> _Layout | None:
    """The layout of a table, from its first rows; None if it is none."""
    start = text.lstrip("\n ")[:1]
    if not start or start in "{<":
        return None
    opening = "\n".join(text.split("\n", 60)[:60])
    tables = [(delimiter, _rows(opening, delimiter)) for delimiter in _DELIMITERS if delimiter in opening]
    for delimiter, rows in tables:
        found = _by_header(delimiter, rows)
        if found:
            return found
    return next((found for delimiter, rows in tables if (found := _by_content(delimiter, rows))), None)


def _rows(text: str, delimiter: str) -> list[list[str]]:
    try:
        return [row for row in csv.reader(io.StringIO(text), delimiter=delimiter) if any(cell.strip() for cell in row)]
    except csv.Error:
        return []


def _by_header(delimiter: str, rows: list[list[str]]) -> _Layout | None:
    if len(rows) < 2:
        return None
    columns: dict[str, int] = {}
    scale = 1.0
    for index, cell in enumerate(rows[0]):
        heading, unit = _heading(cell)
        for meaning, names in _HEADERS.items():
            if heading in names and meaning not in columns:
                columns[meaning] = index
                if unit in _MILLISECONDS and meaning == "start":
                    scale = 0.001
                break
    if "start" not in columns or len(columns) < 2:
        return None
    if "text" not in columns:
        left = [index for index in range(len(rows[0])) if index not in columns.values()]
        if not left:
            return None
        columns["text"] = _wordiest(rows[1:], left)
    return _Layout(
        delimiter, header=True, columns=columns, scale=scale, why=f"it has the columns {', '.join(rows[0])}"[:120]
    )


def _heading(cell: str) -> tuple[str, str]:
    """A column's heading in small letters, and its unit: "Start (ms)" -> start, ms."""
    heading = cell.strip().strip('"').lower().replace("_", " ")
    heading, _, unit = heading.replace("[", "(").partition("(")
    heading, unit = heading.strip(), unit.strip(" )]")
    first, _, last = heading.rpartition(" ")
    if not unit and last in (*_MILLISECONDS, "s", "sec", "seconds"):
        heading, unit = first or last, last
    return heading, unit


def _by_content(delimiter: str, rows: list[list[str]]) -> _Layout | None:
    """Columns by what they hold: times that do not run backwards, and the column with most words."""
    width = min((len(row) for row in rows), default=0)
    if len(rows) < 2 or width < 2:
        return None
    header = all(any_time(cell) is None for cell in rows[0])
    body = rows[1:] if header else rows
    timed = [index for index in range(width) if _is_time_column([row[index] for row in body])]
    left = [index for index in range(width) if index not in timed]
    if not body or not timed or not left:
        return None
    columns = {"start": timed[0], "text": _wordiest(body, left)}
    second = next((index for index in timed[1:] if _is_end_column(body, timed[0], index)), None)
    if second is not None:
        columns["end"] = second
    return _Layout(delimiter, header, columns, 1.0, f"column {timed[0] + 1} of {width} holds times")


def _is_time_column(cells: list[str]) -> bool:
    times = [any_time(cell) for cell in cells]
    known = [time for time in times if time is not None]
    # Bare numbers may count anything: only a column with colons or units may run backwards or lack a value.
    if any(cell.strip().isdigit() for cell in cells):
        return len(known) == len(cells) and known == sorted(known) and len(set(known)) > len(known) // 2
    return len(known) >= 0.8 * len(cells)


def _is_end_column(rows: list[list[str]], start: int, end: int) -> bool:
    pairs = [(any_time(row[start]), any_time(row[end])) for row in rows]
    return all(a is not None and b is not None and b >= a for a, b in pairs)


def _wordiest(rows: list[list[str]], columns: list[int]) -> int:
    return max(columns, key=lambda index: sum(len(row[index].split()) for row in rows if index < len(row)))
