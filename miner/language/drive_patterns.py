"""The patterns by which drives with their sizes, and head shapes, are found in lower-case text."""

from __future__ import annotations

import re
from collections.abc import Collection
from dataclasses import dataclass
from functools import lru_cache

from miner.language.measures import MM
from miner.language.numbers import ANY, WORDS
from miner.lexicon import Lexicon

_NEVER = "(?!)"
_NUMBERED = r"(?:number|no\.?|num|size|#)\s*"
_SIZE_WORDS = (
    r"double (?:zero|oh)|triple zero|oh\b|zero|one|two|three|four|five|six|seven|eight|nine|ten|fifteen"
    r"|twenty[ -]five|twenty[ -]seven|twenty|thirty|forty[ -]five|forty|fifty[ -]five|fifty|sixty"
)
_SIZE = rf"(?:\d{{1,3}}(?:[.,]\d)?|{_SIZE_WORDS})"
_NOT_LENGTH = rf"(?![\s-]*{MM}|\w|\.\d)"
_TAMPER = r"(?P<tamper>[\s-]*(?:security|tamper(?:[\s-]?(?:proof|resistant))?|pin(?:ned)?[\s-]in)\b)?"
_HEX = r"(?:hex(?:agon(?:al)?)?|all?[ae]n)"
_FLATS = r"a/?f|across(?: the)? flats"
_TURNER = (
    r"(?:(?:ring|open[\s-]end(?:ed)?|combination|box|deep) )?"
    r"(?:spanners?|wrench(?:es)?|socket(?![\s-](?:head|cap|set|screw|bolt|outlet))|nut[\s-](?:driver|spinner))\b"
)
_ENDS = r"(?=\s*(?:[.,;:](?!\d)|$)|\s(?:and|then|so)\b)"
_WORDS_ELSEWHERE = frozenset(("spanner", "square"))
"""Names of drives that mean a tool or a shape where nothing else tells that they are a drive."""
_NO_DRIVE = r"(?!(?:[\s-](?:patterns?|shaped?|sequence|fashion|order|washers?|knobs?|wheels?|points?|connection))\b)"
"""Nouns before which "star" or "cross" is a shape."""
_ON_SCREWS = r"(?:screws?|scr|bits?|driver|screwdriver|heads?|phillips|m\d)"
_WRENCH = (
    r"(?:spanners?|wrench(?:es)?|sockets?(?![\s-](?:head|cap))|nut[\s-]drivers?|open[\s-]end(?:ed)?"
    r"|ring spanners?|box end|across(?: the)? flats|a/?f"
    r"|bolt heads?|heads?)"
)


@dataclass(frozen=True, slots=True)
class DrivePatterns:
    """The patterns of a lexicon, and what the terms in them stand for.

    `compact` finds "T10", "PH two"; `named` a name with or without a size, "number two Phillips", "Torx 10";
    `hexes` sizes in mm of hexagons, "5 mm allen key", "10 mm socket"; `heads` the shapes of heads, "pan head".
    """

    compact: re.Pattern[str]
    named: re.Pattern[str]
    hexes: re.Pattern[str]
    heads: re.Pattern[str]
    drive_of: dict[str, str]
    prefix_of: dict[str, str]
    drive_of_prefix: dict[str, str]
    head_of: dict[str, str]


@lru_cache(maxsize=8)
def drive_patterns(lexicon: Lexicon) -> DrivePatterns:
    """The patterns of a lexicon, compiled at the first call for it."""
    entries = [drive for drive in lexicon.drives if drive.unit != "mm"]
    prefixes = {drive.prefix.lower(): drive.drive for drive in entries if drive.prefix and "tamper" not in drive.drive}
    terms = {folded(t.lower()): d.drive for d in reversed(entries) for t in (d.drive, *d.terms) if len(t) > 2}
    terms = {term: drive for term, drive in terms.items() if term not in _WORDS_ELSEWHERE}
    head_of = {folded(term.lower()): head.head for head in lexicon.screw_heads for term in (head.head, *head.terms)}
    return DrivePatterns(
        compact=_compact(prefixes),
        named=_named(terms),
        hexes=_hexes(),
        heads=_heads([term for term in head_of if len(term) > 2]),
        drive_of=terms,
        prefix_of={drive.drive: drive.prefix for drive in entries},
        drive_of_prefix=prefixes | {"t": "hexalobular", "tx": "hexalobular"},
        head_of=head_of,
    )


def folded(term: str) -> str:
    """A term as it is looked up: one blank for every gap or hyphen."""
    return re.sub(r"[\s-]+", " ", term)


def _either(terms: Collection[str]) -> str:
    """Any of the terms, the longest first, with blanks or hyphens between their words."""
    ordered = sorted(terms, key=lambda term: (-len(term), term))
    return "|".join(re.escape(term).replace(r"\ ", r"[\s-]") for term in ordered)


def _compact(prefixes: Collection[str]) -> re.Pattern[str]:
    short = _either(prefixes) or _NEVER
    digits = rf"(?P<p>{short}|tx|tr|t|p h|p z)[\s-]?(?P<n>\d{{1,3}})(?P<h>[\s-]?h\b|[\s-]?tr\b)?s?\b"
    short_form = rf"(?P<p1>p)[\s-]?(?P<n1>[0-4]|one|two|three)s?\b(?=[\s,]*(?:[\w-]+[\s,]+){{0,2}}{_ON_SCREWS})"
    words = rf"(?P<pw>{short}|t)[\s-](?P<nw>double zero|double oh|zero|{WORDS})s?\b"
    security = r"(?P<sec>(?:security|tamper(?:[\s-]?proof)?)[\s-]+)?"
    return re.compile(rf"\b{security}(?:{digits}|{words}|{short_form}){_TAMPER}")


def _named(terms: Collection[str]) -> re.Pattern[str]:
    number_first = rf"(?:(?:{_NUMBERED}(?P<before>{_SIZE})|(?P<zeros>double (?:zero|oh)|triple zero|0{{2,3}}))\s+)?"
    security = r"(?P<sec>security\s+|tamper(?:[\s-]?proof)?\s+)?"
    thing = r"(?:[\s-]*(?:heads?|drives?|bits?|recess|type|screwdriver|driver)\b)?"
    number_last = rf"(?:[\s,-]*(?:{_NUMBERED}|(?:t|ph|pz|tx)[\s-]?)?(?P<after>{_SIZE})s?{_NOT_LENGTH})?"
    name = rf"(?P<term>{_either(terms)})(?:s|es)?(?!\w){_NO_DRIVE}"
    return re.compile(rf"(?<!\w){number_first}{security}{name}{thing}{number_last}{_TAMPER}")


def _hexes() -> re.Pattern[str]:
    outside = r"(?:(?P<head{0}>[\s-]heads?)\b|(?=(?P<outside{0}>[\s-](?:nuts?|bolts?)\b))|\b)"
    sized = rf"(?:(?P<n>{ANY})[\s-]*{MM}|(?P<n0>\d+[.,]\d+|(?:(?:one|two|three|four|five) )?point \w+))"
    number_first = rf"(?<![\w.]){sized}[\s-]*(?P<side>internal|inner|external|outer)?[\s-]*{_HEX}" + outside.format("")
    key = r"(?:[\s-](?:keys?|sockets?|drive|size|wrench)\b)*"
    number = rf"(?:[\s,]+(?P<n2>{ANY})(?:[\s-]*{MM}(?!\s+long))?(?![\w.]))?"
    number_last = rf"\b{_HEX}" + outside.format("2") + key + number
    spanner = (
        rf"{MM}[\s-]*(?:(?P<keyed>(?:keys?|a/?k)\b)|(?:[a-z]+ )?(?P<wrench>{_WRENCH}))|(?:mm\s?)?(?P<flats>{_FLATS})"
    )
    across_flats = rf"(?<![\w.])(?P<n3>{ANY})[\s-]*(?:{spanner})(?!\w)"
    flats_first = rf"\b(?:{_FLATS})(?: is| are| of|:)?\s+(?P<n4>{ANY})[\s-]*{MM}"
    socket_head = (
        rf"(?:(?<![\w.])(?P<n5>{ANY})[\s-]*{MM}[\s-]*)?(?:\b{_HEX}[\s-])?"
        r"\b(?P<cap>socket[\s-](?:head(?:[\s-]cap)?|cap(?:[\s-]head)?))\b"
    )
    bare = (
        rf"(?<![\w./])(?<!\d )(?<!number )(?P<n8>{ANY})[\s-]+{_TURNER}"
        rf"|\b(?:with|using|(?:it|that)'s) an? (?P<n9>{ANY}){_ENDS}"
    )
    turned = r"\b(?P<turned>keys?|spanners?|wrench(?:es)?|sockets?)(?: size)?"
    told = rf"{turned}(?: for (?:those|these|it|them|that))?(?: is|'s|:)? "
    size_told = rf"{told}(?P<n7>{ANY})[\s-]*{MM}"
    return re.compile(f"{number_first}|{socket_head}|{number_last}|{across_flats}|{flats_first}|{size_told}|{bare}")


def _heads(terms: Collection[str]) -> re.Pattern[str]:
    known_by = r"(?:[\s-]heads?\b|[\s-]headed\b|(?=[\s-](?:screws?|bolts?|scr)\b)|(?<=sunk))"
    return re.compile(rf"(?<!\bend[\s-])\b(?P<head>{_either(terms) or _NEVER}){known_by}")
