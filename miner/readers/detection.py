"""From bytes to text, and from text to its reader."""

from __future__ import annotations

import codecs
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from miner.errors import FormatError, InputError

if TYPE_CHECKING:
    from miner.readers.reading import Claim
    from miner.readers.registry import Reader

SAMPLE = 65_536
"""Characters at the beginning of a text that are looked at to find its format."""

TIE = 0.05
"""Scores closer than this are a tie."""

_MARKS = (
    (codecs.BOM_UTF8, "utf-8"),
    (codecs.BOM_UTF32_LE, "utf-32-le"),  # before UTF-16: its mark starts with that of UTF-16
    (codecs.BOM_UTF32_BE, "utf-32-be"),
    (codecs.BOM_UTF16_LE, "utf-16-le"),
    (codecs.BOM_UTF16_BE, "utf-16-be"),
)
_CONTROLS = bytes(code for code in range(32) if code not in b"\t\n\v\f\r\x1b")


def decode(data: bytes, source: str) -> str:
    """The text of a file with line ends `\\n`: UTF-8, UTF-16, UTF-32 by mark or zeros, else the Windows code page.

    Raises:
        InputError: if the bytes are no text, or break the encoding that their first bytes announce.
    """
    for mark, encoding in _MARKS:
        if data.startswith(mark):
            return _line_ends(_strict(data[len(mark) :], encoding, source))
    head = data[:SAMPLE]
    wide = _wide_encoding(head)
    if wide:
        return _line_ends(_strict(data, wide, source))
    if len(head) - len(head.translate(None, _CONTROLS)) > len(head) // 100:
        raise InputError(
            "this is not a text file", where=source, remedy="Give a transcript, captions or timed notes as text."
        )
    try:
        text = data.decode("utf-8")
    except UnicodeDecodeError:
        # Windows-1252 leaves five bytes undefined; a text that has one of them is taken for Latin-1.
        try:
            text = data.decode("cp1252")
        except UnicodeDecodeError:
            text = data.decode("latin-1")
    return _line_ends(text)


def _strict(data: bytes, encoding: str, source: str) -> str:
    try:
        return data.decode(encoding)
    except UnicodeDecodeError as error:
        raise InputError(
            f"the file announces {encoding} and breaks it at byte {error.start}",
            where=source,
            remedy="Save it again as UTF-8.",
        ) from None


def _wide_encoding(head: bytes) -> str | None:
    """UTF-16 without a mark: nearly every second byte of Latin script is zero."""
    pairs = len(head) // 2
    if pairs < 2:
        return None
    zero_even, zero_odd = head[0 : pairs * 2 : 2].count(0), head[1 : pairs * 2 : 2].count(0)
    if zero_odd > 0.6 * pairs and zero_even < 0.05 * pairs:
        return "utf-16-le"
    if zero_even > 0.6 * pairs and zero_odd < 0.05 * pairs:
        return "utf-16-be"
    return None


def _line_ends(text: str) -> str:
    if "\r" in text:
        text = text.replace("\r\n", "\n").replace("\r", "\n")
    return text.removeprefix("\ufeff")


def choose_reader(text: str, path: Path, readers: Sequence[Reader]) -> Reader:
    """The one reader that claims the text most surely; the file's ending only decides between equals.

    Raises:
        FormatError: if none claims the text, or several do and the ending helps with none; the reasons are named.
    """
    sample = text[:SAMPLE]
    claims = [(reader.sniff(sample, path), reader) for reader in readers]
    best = max(claim.score for claim, _ in claims)
    if best <= 0:
        raise FormatError(
            f"no known format: {_reasons(claims)}",
            where=path.name,
            remedy="Name the format with --format if it is one of these, or convert the file.",
        )
    equals = [(claim, reader) for claim, reader in claims if claim.score > best - TIE]
    named = [pair for pair in equals if path.suffix.lower() in pair[1].endings]
    left = named if len(named) == 1 else equals
    if len(left) > 1:
        raise FormatError(
            f"several formats fit: {_reasons(left)}", where=path.name, remedy="Name the right one with --format."
        )
    return left[0][1]


def reader_named(name: str, readers: Sequence[Reader], source: str) -> Reader:
    """The reader with this name, or an error that lists the names."""
    for reader in readers:
        if reader.name == name.lower():
            return reader
    known = ", ".join(reader.name for reader in readers)
    raise FormatError(f"there is no format {name!r}", where=source, remedy=f"Use one of: {known}.")


def _reasons(claims: Sequence[tuple[Claim, Reader]]) -> str:
    return "; ".join(f"{reader.name}: {claim.reason}" for claim, reader in claims)
