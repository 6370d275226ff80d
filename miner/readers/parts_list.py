"""A parts list (CSV or XLSX) -> rows with name, number, quantity and, for fasteners, what their description says.

Columns are found by their header, in any order and in the usual wordings; only one for the name is needed. The
header is the first row that holds a wording for the name, so that a title above it does no harm.
"""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from pathlib import Path

from rapidfuzz import fuzz, process

from miner.errors import InputError, MissingExtraError
from miner.model.draft import Fastener
from miner.model.naming import part_key, same_part

_HEADERS: dict[str, tuple[str, ...]] = {
    "name": ("name", "part name", "part", "designation", "description", "item", "item name", "title", "component",
             "denomination", "article"),
    "number": ("number", "part number", "part no", "part no.", "no", "no.", "p/n", "pn", "item number", "item no",
               "article number", "article no", "sku", "order number", "id", "position", "pos", "pos."),
    "quantity": ("quantity", "qty", "qty.", "count", "amount", "pcs", "pieces", "number off", "per unit", "used"),
    "length": ("length", "length mm", "length (mm)", "len", "l", "l mm"),
    "thread": ("thread", "thread size", "size", "diameter", "m"),
    "drive": ("drive", "recess", "drive size", "head drive", "driver", "tool"),
    "names": ("other names", "aliases", "synonyms", "also called", "alternative name"),
}  # fmt: skip
_FASTENER = re.compile(r"\b(screw|bolt|nut|washer|rivet|clip|clamp|cable tie|circlip|stud)s?\b", re.IGNORECASE)
_THREAD = re.compile(r"\bM(\d+(?:[.,]\d+)?)(?:\s*[x\u00d7*]\s*(\d+(?:[.,]\d+)?))?", re.IGNORECASE)
_LENGTH = re.compile(r"\b(\d+(?:[.,]\d+)?)\s*mm\b", re.IGNORECASE)
_SIZE = re.compile(r"\b(PH|PZ|TX|T|SW|HEX)\s?-?(\d+(?:[.,]\d+)?)(H?)\b", re.IGNORECASE)
_ALIKE = 60.0  # likeness from which on another name of the list is worth mentioning


@dataclass(frozen=True, slots=True)
class PartsRow:
    """One row. `fastener` holds thread, length and drive where the row describes a fastener."""

    name: str
    number: str = ""
    quantity: float | None = None
    others: tuple[str, ...] = ()
    fastener: Fastener | None = None
    line: int = 0


@dataclass(frozen=True, slots=True)
class PartsList:
    """The rows in order of the file, and an index by the spelling of every name."""

    rows: tuple[PartsRow, ...]
    index: dict[str, PartsRow] = field(default_factory=dict)

    @classmethod
    def of(cls, rows: Iterable[PartsRow]) -> PartsList:
        """The list with its index; the first row of a name counts."""
        kept = tuple(rows)
        index: dict[str, PartsRow] = {}
        for row in kept:
            for name in (row.name, *row.others):
                index.setdefault(part_key(name), row)
        return cls(kept, index)

    def find(self, name: str) -> PartsRow | None:
        """The row of a part, by its name, another name, or a shortened name that fits one row only."""
        key = part_key(name)
        if key in self.index:
            return self.index[key]
        fitting = {row.line: row for other, row in self.index.items() if same_part(key, other)}
        return next(iter(fitting.values())) if len(fitting) == 1 else None

    def nearest(self, name: str) -> PartsRow | None:
        """The row with the most similar name, if any is similar."""
        found = process.extractOne(part_key(name), list(self.index), scorer=fuzz.token_set_ratio, score_cutoff=_ALIKE)
        return self.index[found[0]] if found else None


def read_parts_list(path: Path) -> PartsList:
    """Reads a parts list.

    Raises:
        InputError: the file cannot be read, has no header with a name column, or a quantity is no number.
        MissingExtraError: an XLSX file, and the library that reads it is not installed.
    """
    try:
        table = _workbook(path) if path.suffix.casefold() in (".xlsx", ".xlsm") else _text(path)
    except OSError as error:
        raise InputError(
            f"cannot read the parts list ({error.strerror or error})",
            where=str(path),
            remedy="Name a CSV or XLSX file.",
        ) from None
    return PartsList.of(_rows(table, str(path)))


def _text(path: Path) -> list[list[str]]:
    data = path.read_bytes()
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError:
        text = data.decode("cp1252", errors="replace")
    first = next((line for line in text.splitlines() if line.strip()), "")
    delimiter = max(",;\t|", key=first.count)
    return [list(row) for row in csv.reader(io.StringIO(text, newline=""), delimiter=delimiter)]


def _workbook(path: Path) -> list[list[str]]:
    try:
        import openpyxl
    except ImportError:
        raise MissingExtraError(
            "reading XLSX needs the library openpyxl", where=str(path), remedy="Install it, or save the list as CSV."
        ) from None
    from zipfile import BadZipFile

    try:
        book = openpyxl.load_workbook(path, read_only=True, data_only=True)
    except (BadZipFile, KeyError, ValueError) as error:
        raise InputError(f"not an XLSX workbook ({error})", where=str(path), remedy="Save the list as CSV.") from None
    try:
        sheet = book.worksheets[0]
        return [["" if cell is None else str(cell) for cell in row] for row in sheet.iter_rows(values_only=True)]
    finally:
        book.close()


def _rows(table: Sequence[Sequence[str]], where: str) -> Iterable[PartsRow]:
    headers = ((number, columns) for number, cells in enumerate(table) if "name" in (columns := _columns(cells)))
    start, columns = next(headers, (0, {}))
    if not columns:
        raise InputError(
            "the parts list has no column for the part name",
            where=where,
            remedy=f"Head one column with one of: {', '.join(_HEADERS['name'])}.",
        )
    for line, row in enumerate(table[start + 1 :], start + 2):
        values = {key: row[place].strip() for key, place in columns.items() if place < len(row)}
        if values.get("name"):
            yield _row(values, line, where)


def _columns(cells: Sequence[str]) -> dict[str, int]:
    """Column of each known header; of two for the name the earlier wording in the list wins ("name", "description")."""
    plain = [re.sub(r"\s+", " ", cell.strip().casefold().replace("_", " ")) for cell in cells]
    found: dict[str, int] = {}
    for key, wordings in _HEADERS.items():
        place = next((plain.index(wording) for wording in wordings if wording in plain), None)
        if place is not None and place not in found.values():
            found[key] = place
    return found


def _row(values: dict[str, str], line: int, where: str) -> PartsRow:
    quantity = values.get("quantity", "")
    try:
        amount = float(quantity.replace(",", ".")) if quantity else None
    except ValueError:
        raise InputError(
            f"'{quantity}' is no quantity", where=f"{where}:{line}", remedy="Write a number, or leave the cell empty."
        ) from None
    others = tuple(filter(None, (name.strip() for name in re.split(r"[;,/|]", values.get("names", "")))))
    return PartsRow(values["name"], values.get("number", ""), amount, others, _fastener(values), line)


def _fastener(values: dict[str, str]) -> Fastener | None:
    kind = _FASTENER.search(values["name"])
    if kind is None:
        return None
    text = " ".join((values["name"], values.get("thread", ""), values.get("drive", "")))
    thread, length, size = _THREAD.search(text), _LENGTH.search(values["name"]), _SIZE.search(text)
    given = _number(values.get("length", "").casefold().removesuffix("mm"))
    told = _number(thread[2] if thread and thread[2] else length[1] if length else "")
    return Fastener(
        kind=kind[1].casefold(),
        length_mm=given if given is not None else told,
        thread=f"M{thread[1].replace(',', '.')}" if thread else None,
        drive_size=_size(*size.groups()) if size else None,
    )


def _size(prefix: str, number: str, tamper: str) -> str:
    prefix = prefix.upper()
    if prefix in ("SW", "HEX"):
        return f"{number.replace(',', '.')} mm"
    return f"{'T' if prefix == 'TX' else prefix}{number}{tamper.upper()}"


def _number(text: str) -> float | None:
    try:
        return float(text.strip().replace(",", "."))
    except ValueError:
        return None
