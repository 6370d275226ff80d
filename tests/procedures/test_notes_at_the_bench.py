"""Notes as people jot them at the bench: a danger with an exclamation mark, plugs pulled, sizes in brackets."""

import pytest
from told import draft_of


def notes(*lines: str):
    (job,) = draft_of(*lines, register="notes").procedures
    return job


@pytest.mark.parametrize("danger", ["horn hot! let cool 10 min", "edges sharp!", "capacitors live!"])
def test_a_danger_with_an_exclamation_mark_is_a_warning(danger: str):
    job = notes("SIREN", danger, "undo 3 bolts M6", "siren out")
    assert [notice.kind for notice in job.notices] == ["warning"]


def test_an_exclamation_mark_alone_is_none():
    assert not notes("SIREN", "undo 3 bolts M6!", "siren out!").notices


def test_a_mains_plug_that_is_out_is_a_preparation():
    job = notes("SIREN", "mains plug out", "undo 3 bolts M6", "siren out")
    assert [one.text for one in job.preparations] == ["mains plug out"]
    assert not job.prerequisites


def test_a_part_off_after_its_screws_is_a_step():
    job = notes("SIREN", "horn cover: 3x PH2 screws, 12 mm", "cover off", "siren out")
    assert [(step.action, step.part) for step in job.steps][1:] == [("remove", "cover"), ("remove", "siren")]
    assert not job.prerequisites


def test_what_is_only_loosened_is_not_removed():
    job = notes("SIREN", "1x hex screw 2.5 mm, horn clamp, loosen only", "siren out")
    (group,) = job.steps[0].fasteners
    assert (group.drive, group.drive_size, group.length_mm) == ("hex-socket", "2.5 mm", None)
    assert job.steps[0].text.startswith("Loosen the ")


def test_a_count_in_brackets():
    job = notes("SIREN", "undo horn bolts (2, 8 mm spanner)", "siren out")
    (group,) = job.steps[0].fasteners
    assert (group.count, group.drive_size) == (2, "8 mm")


def test_down_and_out_comes_off():
    job = notes("SIREN", "undo 3 bolts M6", "siren + bracket down & out")
    assert (job.steps[-1].action, job.steps[-1].text) == ("remove", "Take the siren and the bracket down and out.")
