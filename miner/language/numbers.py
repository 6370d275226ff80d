"""Numbers in words and digits, counts written `8x`; values of number words come from text2num."""

from __future__ import annotations

import re
from functools import lru_cache

from spacy.tokens import Doc
from text_to_num import text2num

from miner.language.annotations import Annotations, Number, annotations_of

_ONES = "one|two|three|four|five|six|seven|eight|nine"
_TEENS = "ten|eleven|twelve|thirteen|fourteen|fifteen|sixteen|seventeen|eighteen|nineteen"
_TENS = "twenty|thirty|forty|fifty|sixty|seventy|eighty|ninety"
_BELOW_HUNDRED = rf"(?:(?:{_TENS})(?:[ -](?:{_ONES})\b)?|{_TEENS}|{_ONES})"
_WHOLE = rf"(?:(?:{_ONES}|a) (?:hundred|thousand)\b(?:(?: and)? {_BELOW_HUNDRED}\b)?|{_BELOW_HUNDRED}\b|zero\b|dozen\b)"
_POINT = rf"(?: point(?: (?:zero|oh|{_ONES}|\d))+\b)"
WORDS = rf"(?:{_WHOLE}{_POINT}?(?: and a half\b)?|half a dozen\b|point(?: (?:zero|oh|{_ONES}))+\b)"
"""One number in words, for use in larger patterns (on lower-case text)."""
DIGITS = r"(?:\d+(?:[.,]\d+)?)"
ANY = rf"(?:{DIGITS}|{WORDS})"

_NUMBER = re.compile(
    rf"(?<![\w./])(?:(?:(?P<times>\d+) ?(?:x\b|×|off\b(?= [a-z]))|(?<=[a-z] )x(?P<after>\d+| \d)\b(?! ?mm|[.,]\d))"
    rf"|(?P<words>{WORDS})|(?P<digits>{DIGITS})(?![\w/]))"
)
_FIXED = {"dozen": 12.0, "half a dozen": 6.0}


@lru_cache(maxsize=4096)
def value_of(text: str) -> float:
    """The value of one number in digits ("2,5") or words ("twenty-two", "two point five", "a hundred and five").

    Raises:
        ValueError: the text is no number.
    """
    text = text.strip().lower()
    if text[:1].isdigit():
        return float(text.replace(",", "."))
    if text in _FIXED:
        return _FIXED[text]
    if text.endswith(" and a half"):
        return value_of(text.removesuffix(" and a half")) + 0.5
    whole, point, fraction = text.partition("point ")
    value = float(text2num(re.sub(r"^a (?=hundred|thousand)", "one ", whole.strip()), "en")) if whole.strip() else 0.0
    if not point:
        return value
    digits = "".join("0" if word in ("oh", "zero") else str(int(value_of(word))) for word in fraction.split())
    return value + float(f"0.{digits}")


def find_numbers(doc: Doc) -> list[Number]:
    """All numbers of a Doc, in order."""
    return numbers_in(annotations_of(doc))


def numbers_in(known: Annotations) -> list[Number]:
    """As find_numbers, from annotations."""
    found = []
    for match in _NUMBER.finditer(known.text):
        start, end = known.tokens_of(match.start(), match.end())
        times = match["times"] or match["after"]
        found.append(Number(start, end, value_of(times or match[0]), times is not None))
    return found
