"""Whole recordings: the clean ones raise nothing, each seeded one raises its contradiction at its time and no other.

The cases that the draft does not carry yet are listed in one place, with the reason; they fail strictly, so that the
list shrinks when the road gets better.
"""

import json
from functools import cache
from pathlib import Path

import pytest

from miner.drafting import draft
from miner.lexicon import load_lexicon

FIXTURES = Path(__file__).resolve().parents[2] / "fixtures"
SECONDS = 6.0  # between the annotated time and a piece of evidence
KINDS = frozenset(
    "repeated-heading heading-body-mismatch missing-heading closing-mismatch self-prerequisite repeated-prerequisite "
    "unknown-prerequisite incomplete-prerequisites prerequisite-cycle removed-part-used fastener-removed-twice "
    "count-mismatch count-alternatives grammatical-number drive-mismatch length-mismatch implausible-fastener "
    "name-variant probable-mishearing late-caution missing-caution missing-install stutter unclear-reference".split()
)
LATER: dict[str, str] = {}  # recording: what the draft does not yet say


def recordings(folder):
    made = []
    for gold in sorted((FIXTURES / folder).glob("*.gold.json")):
        name = gold.name.removesuffix(".gold.json")
        path = next(one for one in gold.parent.iterdir() if one.stem == name and one != gold)
        reason = LATER.get(f"{folder}/{name}")
        marks = [pytest.mark.xfail(strict=True, reason=reason)] if reason else []
        made.append(pytest.param(path, gold, id=name, marks=marks))
    return made


@cache
def lexicon():
    return load_lexicon()


def alarms(path):
    """What is found of the annotated kinds: the errors and warnings, and the remarks that the annotation knows."""
    return [one for one in draft(path, lexicon()).findings if one.check in KINDS]


def hit(finding, wanted):
    near = any(abs(place.start - time) <= SECONDS for place in finding.evidence for time in wanted["at"])
    return finding.check == wanted["kind"] and near


def wanted_of(gold):
    return json.loads(gold.read_text(encoding="utf-8"))["inconsistencies"]


@pytest.mark.parametrize(("path", "gold"), recordings("clean"))
def test_a_clean_recording_raises_nothing(path, gold):
    assert wanted_of(gold) == []
    assert alarms(path) == []


@pytest.mark.parametrize(("path", "gold"), recordings("seeded"))
def test_a_seeded_recording_raises_its_contradiction_and_no_other(path, gold):
    wanted, found = wanted_of(gold), alarms(path)
    missed = [one for one in wanted if not any(hit(finding, one) for finding in found)]
    false = [finding for finding in found if not any(hit(finding, one) for one in wanted)]
    assert (missed, false) == ([], [])


def test_every_kind_is_seeded_twice():
    kinds = [one["kind"] for gold in (FIXTURES / "seeded").glob("*.gold.json") for one in wanted_of(gold)]
    assert {kind for kind in KINDS if kinds.count(kind) < 2} == set()


def test_no_case_waits_that_does_not_exist():
    known = {f"{folder}/{one.id}" for folder in ("clean", "seeded") for one in recordings(folder)}
    assert LATER.keys() <= known
