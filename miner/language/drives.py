"""Drives with their sizes, and head shapes, as spoken, written and abbreviated."""

from __future__ import annotations

import re
from collections.abc import Iterator

from spacy.tokens import Doc

from miner.language.annotations import Annotations, Measure, annotations_of
from miner.language.drive_patterns import DrivePatterns, drive_patterns, folded
from miner.language.group_sizes import WIDTHS_AF
from miner.language.numbers import value_of
from miner.language.overlaps import without_overlaps
from miner.lexicon import Lexicon

_ZEROS = {"double zero": "00", "double oh": "00", "triple zero": "000", "oh": "0", "000": "000", "00": "00", "0": "0"}

_NUMBERED = re.compile(r"\b(?:number|no|size)\b|#")

_UNCOUNTED = 10
"""Nobody takes so many spanners at once: "a couple of nineteen spanners"."""
_KEYED = re.compile(r"\ball?[ae]n\b")
"""Names of hexagons that are turned from within whatever they are on: "Allen bolts"."""
_Size = tuple[str, str | None]
"""A drive and its size ("T10", "5 mm"), if it was said."""

_Found = tuple[int, int, _Size | str]
"""The characters of a find, and its drive with size, or the shape of its head."""


def find_drives(doc: Doc, lexicon: Lexicon) -> list[Measure]:
    """Drives and head shapes of a Doc, in order, none inside another."""
    return drives_in(annotations_of(doc), lexicon)


def drives_in(known: Annotations, lexicon: Lexicon) -> list[Measure]:
    """As find_drives, from annotations."""
    patterns, text = drive_patterns(lexicon), known.text
    found = [*_compact(patterns, text), *_named(patterns, text)]
    hexagons = ((match, _hexagon(match)) for match in patterns.hexes.finditer(text))
    found += [(_start(match), match.end(), size) for match, size in hexagons if size]
    found += [(m.start(), m.end(), patterns.head_of[folded(m["head"])]) for m in patterns.heads.finditer(text)]
    return without_overlaps((find[0], find[1], _measure(known, find)) for find in found)


def _measure(known: Annotations, find: _Found) -> Measure:
    start, end, what = find
    first, stop = known.tokens_of(start, len(known.text[:end].rstrip(" ,-")))
    if isinstance(what, str):
        return Measure(first, stop, "head", head=what)
    drive, size = what
    head = "cap" if drive == "hex-socket" and known.text[start:end].rstrip().endswith(("cap", "cap head")) else None
    return Measure(first, stop, "drive", drive=drive, drive_size=size, head=head)


def _compact(patterns: DrivePatterns, text: str) -> Iterator[_Found]:
    """Prefix and number: "T10", "PH two", "TX 20 security"."""
    for match in patterns.compact.finditer(text):
        prefix = (match["p"] or match["pw"] or "ph").strip().replace(" ", "")
        number = match["n"] or _digits(match["nw"] or match["n1"])
        tamper = bool(match["h"] or match["tamper"] or match["sec"] or prefix == "tr")
        prefix = "t" if prefix in ("tx", "tr") else prefix
        drive = patterns.drive_of_prefix[prefix]
        size = _sized(drive, prefix.upper(), number, tamper, said_so=match["n"] is not None and len(number) == 1)
        if (drive != "hexalobular" or int(number) >= 1) and size:
            yield match.start(), match.end(), size


def _named(patterns: DrivePatterns, text: str) -> Iterator[_Found]:
    """A name with or without its size: "a number two Phillips", "cross head"."""
    for match in patterns.named.finditer(text):
        drive = patterns.drive_of[folded(match["term"])]
        said = match["before"] or match["zeros"] or match["after"]
        numbered = bool(_NUMBERED.search(match[0]))
        tamper = bool(match["sec"] or match["tamper"] or drive.endswith("tamper"))
        prefix = patterns.prefix_of.get(drive, "")
        size = _sized(drive, prefix, _digits(said), tamper, said_so=numbered) if said and prefix else None
        if said and not size:  # the number belongs to something else
            end = match.start("after") if match["after"] else match.end()
            yield match.start("term"), end, (_tampered(drive, tamper), None)
        else:
            yield match.start(), match.end(), size or (_tampered(drive, tamper), None)


def _start(match: re.Match[str]) -> int:
    """The first character of a hexagon's size: of "with a ten" the number."""
    return match.start("n9" if match["n9"] else 0)


def _hexagon(match: re.Match[str]) -> _Size | None:
    bare = match["n8"] or match["n9"]
    if bare:  # "a seventeen spanner", "with a ten"; "two spanners" are counted
        width = value_of(bare)
        if match[0].endswith(("spanners", "wrenches")) and width < _UNCOUNTED:
            return None
        return ("hex-head", f"{width:g} mm") if width in WIDTHS_AF else None
    if match["keyed"] or match["n7"]:
        outside = match["n7"] and not match["turned"].startswith("key")
        return "hex-head" if outside else "hex-socket", f"{value_of(match['n3'] or match['n7']):g} mm"
    if match["wrench"] or match["flats"] or match["n4"]:
        return "hex-head", f"{value_of(match['n3'] or match['n4']):g} mm"
    if match["cap"]:
        return "hex-socket", f"{value_of(match['n5']):g} mm" if match["n5"] else None
    head = (match["head"] or match["head2"]) and "allen" not in match[0]
    inside = match["side"] in ("internal", "inner")
    outside = (match["outside"] or match["outside2"]) and not _KEYED.search(match[0])
    external = not inside and (head or outside or match["side"])
    number = match["n"] or match["n0"] or match["n2"]
    return "hex-head" if external else "hex-socket", f"{value_of(number):g} mm" if number else None


def _digits(said: str) -> str:
    """The number of a size as written; zeros are kept as they were said ("double zero": "00")."""
    said = said.strip()
    return _ZEROS.get(said) or f"{value_of(said):g}"


def _tampered(drive: str, tamper: bool) -> str:
    return "hexalobular-tamper" if tamper and drive.startswith("hexalobular") else drive


def _sized(drive: str, prefix: str, number: str, tamper: bool, *, said_so: bool = False) -> tuple[str, str] | None:
    """Drive and size; None where the number cannot be a size of that drive (a count, a length).

    With `said_so` a size that does not exist is kept as said ("PH7", "number five"), for a check to find.
    """
    cross = drive in ("cross-recess", "pozidriv")
    if cross and not said_so and (len(number) > 3 or int(float(number)) > 4):
        return None
    if drive.startswith("hexalobular"):
        tamper = tamper or drive.endswith("tamper")
        return _tampered("hexalobular", tamper), f"T{number}{'H' if tamper else ''}"
    if not prefix or "." in number:
        return None
    return drive, f"{prefix.upper()}{number}"
