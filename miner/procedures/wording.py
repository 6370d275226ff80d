"""Spoken words to an edited sentence: fillers and false starts out, first person to the imperative."""

from __future__ import annotations

import re

from miner.language.annotations import Annotations
from miner.lexicon.inflection import singular

COUNTS = "zero one two three four five six seven eight nine ten eleven twelve".split()
"""Numbers that a sentence gives in words."""
_LEAD = re.compile(
    r"^(?:(?:so|and|then|okay|ok|now|right|well|alright|next|also|but|anyway|again|yeah|oh|first|finally|just|"
    r"please|um|uh)\b[\s,]*)+",
    re.IGNORECASE,
)
_FIRST_PERSON = re.compile(
    r"^(?:(?:and|so|then|now)\s+)*(?:i|we|you)(?:'m|'re|'ll|'ve|'d| am| are| will| have| would| can| could| just|"
    r" need| want| got| should| must)*"
    r"(?:\s+(?:just|now|then|also|simply|to|going|gonna|need|want|have|got|be|like|able|go|ahead|and|wanna|gotta|"
    r"carefully))*\s+(?=[a-z])",
    re.IGNORECASE,
)
_LETS = re.compile(
    r"^(?:let's|let us|go ahead and|gonna|going to|you need to|want to|be sure to|make sure (?:you|"
    r"to))\s+(?:just\s+|go ahead and\s+)?",
    re.IGNORECASE,
)
_SPACE_BEFORE = re.compile(r"\s+([,.;:!?])")
_DOUBLE = re.compile(r"([,;])(?:\s*[,;.])+")
_INNER_AND = re.compile(r",\s*(?:and|so)?\s*$")
_ING = re.compile(r"^(\w+)ing\b")


def plain_text(known: Annotations, start: int, end: int) -> str:
    """The words of a range of tokens as transcribed, without what the speaker did not mean to say."""
    dropped, text = known.dropped, known.cased
    if not any(i in dropped for i in range(start, end)):
        if end <= start:
            return ""
        last = end - 1
        return text[known.places[start] : known.places[last] + len(known.forms[last])].strip()
    pieces = []
    for i in range(start, end):
        if i not in dropped:
            gap = (
                " " if i + 1 >= len(known.places) or known.places[i] + len(known.forms[i]) < known.places[i + 1] else ""
            )
            pieces.append(known.forms[i] + gap)
    return "".join(pieces).strip()


def spoken_text(known: Annotations, start: int, end: int) -> str:
    """The words of a range of tokens as transcribed."""
    if end <= start:
        return ""
    last = end - 1
    return known.cased[known.places[start] : known.places[last] + len(known.forms[last])].strip()


def edited(text: str, *, imperative: bool = True) -> str:
    """A sentence fit for a draft from a piece of speech.

    Markers at the start go, "I'm going to take" becomes "take", the first letter is a capital, one full stop ends it.
    """
    text = _SPACE_BEFORE.sub(r"\1", text).strip(" ,;:-–—.")
    text = _LEAD.sub("", text)
    if imperative:
        stripped = _FIRST_PERSON.sub("", text)
        if stripped and stripped != text:
            text = stripped
        text = _LETS.sub("", text)
        text = _LEAD.sub("", text)
    text = _DOUBLE.sub(r"\1", text).strip(" ,;:-–—")
    if not text:
        return ""
    text = text[0].upper() + text[1:]
    return text if text[-1] in ".!?" else f"{text}."


def imperative_of(text: str, verb: str | None) -> str:
    """A progressive at the start turned into the base verb: "Removing the fan." gives "Remove the fan."."""
    match = _ING.match(text)
    if not match or not verb:
        return text
    base = verb.split()[0]
    stem = match[1].lower()
    same = base.startswith(stem[:-1]) if len(stem) > 3 else base.startswith(stem)
    if not same:
        return text
    return base.capitalize() + text[match.end() :]


def title_of(kind: str, subject: str) -> str:
    """The title of a job that was announced by a bare name, or by nothing: "Replace the drive belt"."""
    return f"{kind.capitalize()} the {subject}" if subject else kind.capitalize()


def part_name(name: str) -> str:
    """A part's name as it stands in a draft: lower case, no article."""
    return re.sub(r"^(?:the|a|an|its|your|my|this|that)\s+", "", name.strip().lower())


def is_plural(name: str) -> bool:
    """Whether a part's name is a plural."""
    last = name.rsplit(" ", 1)[-1]
    return singular(last) != last


def count_word(value: float) -> str:
    """A count in words up to twelve, in digits above."""
    return COUNTS[int(value)] if value in range(1, len(COUNTS)) else f"{value:g}"
