"""The annotated sentences of quantulum3 (MIT): `_lang/en_US/tests/quantities.json`, 101 sentences, 148 quantities.

They are about physics, money and storage; lengths in millimetres, centimetres or inches are few. What is in scope here
is found with the same value; everything else must raise no length, thread or torque. The share of all quantities whose
bare number is found, and the kinds that are out of scope, are stated below and tested to stay as stated.
"""

import json
import re
from importlib.metadata import distribution

import pytest
import spacy

from miner.language.measures import INCH_MM, find_measures
from miner.language.numbers import find_numbers

NLP = spacy.blank("en")
SENTENCES = json.loads(
    distribution("quantulum3").locate_file("quantulum3/_lang/en_US/tests/quantities.json").read_text(encoding="utf-8")
)
MM = {"millimetre": 1.0, "centimetre": 10.0, "inch": INCH_MM}
LENGTHS = [(s["req"], q["surface"], q["value"] * MM[q["unit"]]) for s in SENTENCES for q in s["res"] if q["unit"] in MM]
IN_AS_UNIT = re.compile(r"\d ?in\.?$")  # "2 in": told from the preposition by nothing but the sense
RANGE = re.compile(r"\bto\b")  # a range is annotated with its mean

OUT_OF_SCOPE = {  # kinds of number, by their surface; none is said of a fastener
    "money": r"[$£€]|\bpenny\b|\bcents?\b",
    "range with its mean": r"\bto\b|–|\d-\d|\bbetween\b",
    "thousands set off by comma or blank, or a million and more": r"\d[, ]\d{3}|million|billion",
    "exponent or power": r"\de-?\d|×10|\^",
    "fraction in signs or words": r"\d/\d|[½⅓]|sixth|thirds|halves|one-half",
    "one meant by an article or a collective noun": r"^(?:an?|A)\b",
    "a letter straight after the digits": r"\d[a-z]",
    "a decade": r"^1960$",
}


def _lengths(text: str) -> list[float]:
    return [m.length_mm for m in find_measures(NLP.make_doc(text)) if m.length_mm is not None]


def test_the_file_is_the_one_described():
    assert len(SENTENCES) == 101
    assert sum(len(s["res"]) for s in SENTENCES) == 148
    assert len(LENGTHS) == 5


def test_lengths_in_scope_are_found():
    scope = [item for item in LENGTHS if not IN_AS_UNIT.search(item[1]) and not RANGE.search(item[1])]
    assert [surface for _, surface, _ in scope] == ["1/4 inch"]  # one of five; four are "2 in", "2 1/2 in", a range
    for text, _, millimetres in scope:
        assert _lengths(text) == [pytest.approx(millimetres)]


QUOTED = [s["req"] for s in SENTENCES if re.search(r"(?:101|two)\"", s["req"])]


@pytest.mark.parametrize(
    "text",
    [
        pytest.param(
            s["req"], marks=pytest.mark.xfail(strict=True, reason="a closing quotation mark is taken for inches")
        )
        if s["req"] in QUOTED
        else s["req"]
        for s in SENTENCES
        if not any(q["unit"] in MM for q in s["res"])
    ],
)
def test_no_size_where_none_is_annotated(text):
    assert find_measures(NLP.make_doc(text)) == []


def test_share_of_numbers():
    """Of 148 quantities the bare number of 88 is found; every other one is of a kind that is out of scope."""
    missed = []
    found = 0
    for sentence in SENTENCES:
        values = [number.value for number in find_numbers(NLP.make_doc(sentence["req"]))]
        for quantity in sentence["res"]:
            if quantity["value"] in values:
                found += 1
            elif not any(re.search(kind, quantity["surface"]) for kind in OUT_OF_SCOPE.values()):
                missed.append(quantity["surface"])
    assert missed == []
    assert found >= 88
