"""Drives with their sizes, and head shapes, as spoken, written and abbreviated."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache

from spacy.tokens import Doc

from miner.language.annotations import Annotations, Measure, annotations_of
from miner.language.measures import MM
from miner.language.numbers import ANY, WORDS, value_of
from miner.lexicon import Lexicon

_NUMBERED = r"(?:number|no\.?|num|size|#)\s*"
_SIZE = (
    r"(?:\d{1,3}(?:[.,]\d)?|double (?:zero|oh)|triple zero|oh\b|zero|one|two|three|four|five|six|seven|eight|nine|ten|fifteen|"
    r"twenty[ -]five|twenty[ -]seven|twenty|thirty|forty[ -]five|forty|fifty[ -]five|fifty|sixty)"
)
_NOT_LENGTH = rf"(?![\s-]*{MM}|\w|\.\d)"
_TAMPER = r"(?P<tamper>[\s-]*(?:security|tamper(?:[\s-]?(?:proof|resistant))?|pin(?:ned)?[\s-]in)\b)?"
_HEX = r"(?:hex(?:agon(?:al)?)?|allen)"
_WRENCH = r"(?:spanners?|wrench(?:es)?|sockets?|open[\s-]end(?:ed)?|ring spanners?|box end|across(?: the)? flats|a/?f|bolt heads?|heads?)"


@dataclass(frozen=True, slots=True)
class _Patterns:
    compact: re.Pattern[str]
    named: re.Pattern[str]
    hexes: re.Pattern[str]
    heads: re.Pattern[str]
    drive_of: dict[str, str]
    prefix_of: dict[str, str]
    drive_of_prefix: dict[str, str]
    head_of: dict[str, str]


def _either(terms: list[str]) -> str:
    return "|".join(re.escape(term).replace(r"\ ", r"[\s-]") for term in sorted(terms, key=lambda t: (-len(t), t)))


def _folded(term: str) -> str:
    return re.sub(r"[\s-]+", " ", term)


@lru_cache(maxsize=8)
def _patterns(lexicon: Lexicon) -> _Patterns:
    entries = [drive for drive in lexicon.drives if drive.unit != "mm"]
    prefixes = {drive.prefix.lower(): drive.drive for drive in entries if drive.prefix and "tamper" not in drive.drive}
    terms = {_folded(t.lower()): d.drive for d in reversed(entries) for t in (d.drive, *d.terms) if len(t) > 2}
    head_of = {_folded(term.lower()): head.head for head in lexicon.screw_heads for term in (head.head, *head.terms)}
    short = _either(list(prefixes)) or "(?!)"
    return _Patterns(
        compact=re.compile(
            rf"\b(?:(?P<p>{short}|tx|t)[\s-]?(?P<n>\d{{1,3}})(?P<h>[\s-]?h\b|[\s-]?tr\b)?s?\b"
            rf"|(?P<pw>{short}|t)[\s-](?P<nw>double zero|double oh|zero|{WORDS})s?\b){_TAMPER}"
        ),
        named=re.compile(
            rf"\b(?:{_NUMBERED}(?P<before>{_SIZE})\s+)?(?P<sec>security\s+|tamper(?:[\s-]?proof)?\s+)?"
            rf"(?P<term>{_either(list(terms))})(?:s|es)?(?!\w)(?:[\s-]*(?:heads?|drives?|bits?|recess|type|screwdriver|driver)\b)?"
            rf"(?:[\s,-]*(?:{_NUMBERED}|(?:t|ph|pz|tx)[\s-]?)?(?P<after>{_SIZE})s?{_NOT_LENGTH})?{_TAMPER}"
        ),
        hexes=re.compile(
            rf"(?<![\w.])(?P<n>{ANY})[\s-]*(?:{MM})?[\s-]*(?P<kind>{_HEX})(?:(?P<head>[\s-]heads?)\b|(?=(?P<outside>[\s-](?:nuts?|bolts?)\b))|\b)"
            rf"|\b(?P<kind2>{_HEX})(?:(?P<head2>[\s-]heads?)\b|(?=(?P<outside2>[\s-](?:nuts?|bolts?)\b))|\b)(?:[\s-](?:keys?|sockets?|drive|size|wrench)\b)*"
            rf"(?:[\s,]+(?P<n2>{ANY})(?:[\s-]*{MM}(?!\s+long))?(?![\w.]))?"
            rf"|(?<![\w.])(?P<n3>{ANY})[\s-]*(?:{MM}[\s-]*(?:[a-z]+ )?(?P<wrench>{_WRENCH})|(?:mm\s?)?(?P<flats>a/?f|across(?: the)? flats))(?!\w)"
        ),
        heads=re.compile(
            rf"\b(?P<head>{_either([t for t in head_of if len(t) > 2]) or '(?!)'})(?:[\s-]heads?\b|[\s-]headed\b|(?=[\s-](?:screws?|bolts?|scr)\b)|(?<=sunk)\b|(?<=sunk))"
        ),
        drive_of=terms,
        prefix_of={drive.drive: drive.prefix for drive in entries},
        drive_of_prefix=prefixes | {"t": "hexalobular", "tx": "hexalobular"},
        head_of=head_of,
    )


def find_drives(doc: Doc, lexicon: Lexicon) -> list[Measure]:
    """Drives and head shapes of a Doc, in order, none inside another."""
    return drives_in(annotations_of(doc), lexicon)


def drives_in(known: Annotations, lexicon: Lexicon) -> list[Measure]:
    """As find_drives, from annotations."""
    patterns, text = _patterns(lexicon), known.text
    found: list[tuple[int, int, str | None, str | None, str | None]] = []
    for match in patterns.compact.finditer(text):
        prefix = (match["p"] or match["pw"]).strip()
        number = match["n"] or _plain(match["nw"])
        drive = patterns.drive_of_prefix[prefix]
        size = _sized(drive, "T" if prefix == "tx" else prefix.upper(), number, bool(match["h"] or match["tamper"]))
        if (drive != "hexalobular" or int(number) >= 1) and size:
            found.append((match.start(), match.end(), *size, None))
    for match in patterns.named.finditer(text):
        drive = patterns.drive_of[_folded(match["term"])]
        said = match["before"] or match["after"]
        tamper = bool(match["sec"] or match["tamper"] or drive.endswith("tamper"))
        prefix = patterns.prefix_of.get(drive, "")
        number = _plain(said) if said and prefix else ""
        size = _sized(drive, prefix, number, tamper) if number else None
        if said and not size:  # the number belongs to something else
            end = match.start("after") if match["after"] else match.end()
            found.append((match.start("term"), end, _tampered(drive, tamper), None, None))
        else:
            found.append((match.start(), match.end(), *(size or (_tampered(drive, tamper), None)), None))
    for match in patterns.hexes.finditer(text):
        found.append((match.start(), match.end(), *_hex(match), None))
    for match in patterns.heads.finditer(text):
        found.append((match.start(), match.end(), None, None, patterns.head_of[_folded(match["head"])]))
    found.sort(key=lambda item: (item[0], -item[1]))
    kept: list[Measure] = []
    last = -1
    for start, end, drive_name, size_name, head in found:
        if start < last:
            continue
        last = end
        first, stop = known.tokens_of(start, len(text[:end].rstrip(" ,-")))
        kind = "head" if head else "drive"
        kept.append(Measure(first, stop, kind, drive=drive_name, drive_size=size_name, head=head))  # type: ignore[arg-type]
    return kept


def _plain(said: str) -> str:
    said = said.strip()
    if said in ("double zero", "double oh"):
        return "00"
    if said in ("triple zero", "oh", "000", "00", "0"):
        return {"triple zero": "000", "oh": "0"}.get(said, said)
    return f"{value_of(said):g}"


def _tampered(drive: str, tamper: bool) -> str:
    return "hexalobular-tamper" if tamper and drive.startswith("hexalobular") else drive


def _sized(drive: str, prefix: str, number: str, tamper: bool) -> tuple[str, str] | None:
    """Drive and size; None where the number cannot be a size of that drive (a count, a length)."""
    if drive in ("cross-recess", "pozidriv") and (len(number) > 3 or int(float(number)) > 4):
        return None
    if drive.startswith("hexalobular"):
        tamper = tamper or drive.endswith("tamper")
        return _tampered("hexalobular", tamper), f"T{number}{'H' if tamper else ''}"
    if not prefix or "." in number:
        return None
    return drive, f"{prefix.upper()}{number}"


def _hex(match: re.Match[str]) -> tuple[str | None, str | None]:
    if match["wrench"] or match["flats"]:
        return "hex-head", f"{value_of(match['n3']):g} mm"
    external = match["head"] or match["head2"] or match["outside"] or match["outside2"]
    number = match["n"] or match["n2"]
    return "hex-head" if external else "hex-socket", f"{value_of(number):g} mm" if number else None
