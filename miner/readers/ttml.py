"""TTML and IMSC captions (.ttml, .dfxp, .xml): paragraphs and spans with nested times.

Times add up along the containers as in TTML2 (timeContainer `par`, the default, and `seq`). Read here from the XML
tree and not by a library: the one at hand drops whole paragraphs when a container's own times are implied, loses the
speaker, and moves illegal seconds into range.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from pathlib import Path
from typing import TYPE_CHECKING

from miner.errors import InputError
from miner.model.recording import Cue
from miner.readers.reading import Claim, Reading, checked_span
from miner.readers.ttml_time import Rates, rates_of, time_of
from miner.readers.word_times import spread_between

if TYPE_CHECKING:
    from xml.etree.ElementTree import Element

name = "ttml"
endings = (".ttml", ".dfxp", ".xml", ".itt")

_ROOT = re.compile(r"<(?:\w+:)?tt[\s>]")
_META = "{http://www.w3.org/ns/ttml#metadata}"
_XML_ID = "{http://www.w3.org/XML/1998/namespace}id"
_FOREVER = float("inf")


def sniff(text: str, path: Path) -> Claim:
    """A root element `tt`."""
    if not text.lstrip().startswith("<"):
        return Claim(0.0, "it is no XML")
    if _ROOT.search(text):
        return Claim(1.0, "it is XML with the root element tt")
    return Claim(0.0, "it is XML of another kind")


@dataclass(frozen=True, slots=True)
class _Place:
    """Where a walk through the tree stands: the interval of the enclosing element, its voice, the file."""

    begin: float
    end: float
    voice: str | None
    rates: Rates
    agents: dict[str, str]
    source: str


def read(text: str, source: str) -> Reading:
    """One cue a paragraph; spans with their own times give times to their words."""
    root = _parse(text, source)
    body = next((element for element in root if _tag(element) == "body"), None)
    title = next((element.text or "" for element in root.iter(_META + "title")), "").strip()
    agents = {agent.get(_XML_ID, ""): _agent_name(agent) for agent in root.iter(_META + "agent")}
    cues: list[Cue] = []
    if body is not None:
        _walk(body, _Place(0.0, _FOREVER, None, rates_of(root, source), agents, source), cues)
    if not cues:
        raise InputError("no cue found", where=source, remedy="A paragraph needs a begin and an end or dur.")
    return Reading(tuple(cues), title=title)


def _parse(text: str, source: str) -> Element:
    from xml.etree import ElementTree

    # The text is decoded already; an encoding named in its first line no longer holds.
    text = re.sub(r"^\s*<\?xml[^>]*\?>", "", text)
    if "<!ENTITY" in text:
        raise InputError("the file declares entities", where=source, remedy="Captions need none: export them again.")
    try:
        return ElementTree.fromstring(text)  # noqa: S314  # without entities there is nothing to expand
    except ElementTree.ParseError as error:
        raise InputError(
            f"the XML is broken: {error}", where=f"{source}:{error.position[0]}", remedy="Export the captions again."
        ) from None


def _tag(element: Element) -> str:
    return element.tag.rpartition("}")[2]


def _agent_name(agent: Element) -> str:
    return next(("".join(child.itertext()).strip() for child in agent if _tag(child) == "name"), "")


def _walk(element: Element, place: _Place, cues: list[Cue]) -> float:
    """Read body, div or p into `cues`; gives its end, from which a sequence goes on."""
    here = _enter(element, place)
    if _tag(element) == "p":
        _read_paragraph(element, here, cues)
        return here.end
    sequence = element.get("timeContainer") == "seq"
    inner, latest = here, here.begin
    for child in element:
        if _tag(child) in ("div", "p"):
            ended = _walk(child, inner, cues)
            latest = max(latest, ended)
            if sequence and ended < _FOREVER:
                inner = replace(here, begin=ended)
    return min(here.end, latest)


def _enter(element: Element, place: _Place) -> _Place:
    """The interval of an element inside its parent's; `dur` and `end` may both be given, the earlier ends it."""
    where = f"{place.source}, {_tag(element)} {element.get(_XML_ID) or _excerpt(element)!r}"
    begin, end, duration = (
        time_of(value, place.rates, where) if (value := element.get(key)) else None for key in ("begin", "end", "dur")
    )
    start = place.begin + (begin or 0.0)
    ends = [place.end]
    if end is not None:
        ends.append(checked_span(start, place.begin + end, where)[1])
    if duration is not None:
        ends.append(start + duration)
    agent = (element.get(_META + "agent") or "").split()
    voice = (place.agents.get(agent[0]) or agent[0]) if agent else place.voice
    return replace(place, begin=start, end=max(start, min(ends)), voice=voice)


def _read_paragraph(element: Element, here: _Place, cues: list[Cue]) -> None:
    pieces: list[tuple[float, list[str]]] = [(here.begin, [])]
    ends: list[float] = []
    _read_inline(element, here, pieces, ends)
    filled = [(start, texts) for start, parts in pieces if (texts := "".join(parts).split())]
    if not filled:
        return
    end = here.end if here.end < _FOREVER else max(ends, default=_FOREVER)
    if end == _FOREVER:
        raise InputError(
            f"the paragraph {_excerpt(element)!r} never ends", where=here.source, remedy="Give it an end or a dur."
        )
    begin = min(filled[0][0], end)
    cues.append(Cue(begin, end, spread_between(filled, end), here.voice))


def _read_inline(element: Element, here: _Place, pieces: list[tuple[float, list[str]]], ends: list[float]) -> None:
    """Gather the text of a paragraph or span; a span with a begin of its own starts a new piece."""
    pieces[-1][1].append(element.text or "")
    for child in element:
        tag = _tag(child)
        if tag == "span":
            inner = _enter(child, here)
            if child.get("begin") and inner.begin >= pieces[-1][0]:
                pieces.append((inner.begin, []))
            if inner.end < _FOREVER:
                ends.append(inner.end)
            _read_inline(child, inner, pieces, ends)
        pieces[-1][1].append((" " if tag == "br" else "") + (child.tail or ""))


def _excerpt(element: Element) -> str:
    return " ".join("".join(element.itertext()).split())[:30]
