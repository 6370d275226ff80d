"""Selecting, ordering and identifying findings; the speed of the checks."""

import time
from dataclasses import replace

import pytest
from findings.mini_drafts import draft_of

from miner.errors import SettingsError
from miner.findings import check
from miner.lexicon import load_lexicon
from miner.model.observation import Observation
from miner.teardown import build

TWICE = [
    {"title": "Replace the drive gear", "back": "none", "needs": ["cap", "cap"], "steps": ["pull drive gear < shaft"]},
    {"title": "Replace the worm gear", "back": "none", "steps": ["pull worm gear < shaft"]},
]


def found(draft, ignore=()):
    lexicon = load_lexicon()
    return check(draft, build(draft, lexicon), (), lexicon, ignore=ignore)


def test_findings_stand_in_order_of_time():
    starts = [min(place.start for place in one.evidence) for one in found(draft_of(TWICE))]
    assert starts == sorted(starts)


def test_ids_survive_a_shift_in_time():
    draft = draft_of(TWICE)
    later = draft_of([{"title": "Remove the lid", "steps": ["lift lid < pan"]}, *TWICE])
    assert {one.id for one in found(draft)} <= {one.id for one in found(later)}


def test_findings_with_the_same_words_have_ids_of_their_own():
    draft = draft_of([{"title": "Replace the gear", "back": "none", "steps": ["pull gear"]}] * 2)
    ids = [one.id for one in found(draft) if one.check == "missing-install"]
    assert len(set(ids)) == 2


def test_a_check_can_be_ignored():
    kinds = {one.check for one in found(draft_of(TWICE))}
    assert "missing-install" in kinds
    assert {one.check for one in found(draft_of(TWICE), ["missing-install"])} == kinds - {"missing-install"}


def test_an_unknown_name_is_an_error_with_the_nearest_one():
    with pytest.raises(SettingsError, match="count-mismatch"):
        found(draft_of(TWICE), ["count-mismatsh"])


def test_observations_without_evidence_do_no_harm():
    draft = draft_of(TWICE)
    lexicon = load_lexicon()
    seen = [Observation(kind, ()) for kind in ("stutter", "mishearing", "closing", "subset", "announced-total")]
    assert check(draft, build(draft, lexicon), seen, lexicon) == found(draft)


def test_a_draft_with_nothing_said_in_its_fields():
    draft = draft_of(TWICE)
    bare = tuple(
        replace(one, subject="", title="", steps=tuple(replace(step, part=None, action=None) for step in one.steps))
        for one in draft.procedures
    )
    found(replace(draft, procedures=bare))


def test_the_cost_grows_with_the_recording_and_not_with_its_square():
    """500 steps and 100 procedures in well under a second, on any machine; twice as many in about twice the time."""

    def seconds(count):
        tables = [
            {
                "title": f"Replace the part {chr(97 + n % 26)}{n} cover",
                "needs": [f"part {chr(97 + (n - 1) % 26)}{n - 1} cover"] if n % 5 else [],
                "steps": [f"remove part {chr(97 + n % 26)}{n} cover {{4 screw M3 8mm T10 @ part {chr(97 + n % 26)}{n} cover}}"]
                + [f"lift part {chr(97 + n % 26)}{n} plate{k} < frame" for k in range(4)],
            }
            for n in range(count)
        ]  # fmt: skip
        draft = draft_of(tables)
        best = float("inf")
        for _ in range(3):
            start = time.perf_counter()
            found(draft)
            best = min(best, time.perf_counter() - start)
        return best

    found(draft_of(TWICE))
    small, large = seconds(100), seconds(400)
    assert small < 0.5
    assert large < 12 * small
