"""A parts list whose names and numbers come into the draft, on the whole road."""

import json

import jsonschema
import pytest

from miner.drafting import draft
from miner.findings import with_listed_parts
from miner.lexicon import load_lexicon
from miner.model.serialise import from_json, json_schema, to_json
from miner.publish import markdown, page
from miner.readers.parts_list import PartsList, PartsRow

TALK = """\
[00:00] Remove the tank.
[00:03] Lift the tank out of the frame.
[00:07] Installation is the reverse of removal.
[00:11] Replace the pump.
[00:14] The tank must be removed.
[00:17] Remove the two M4 by 16 PH2 screws that secure the pump to the left side panel.
[00:23] Lift the pump off the left side panel.
[00:27] Installation is the reverse of removal.
"""
LIST = """\
Spare parts,,,
Article no,Designation,Pcs,Also called
17-001,Water Reservoir,1,water tank; tank
17-002,Vibration pump,1,
17-003,Side panel,2,
17-004,M4 x 16 mm screw PH2,2,
17-005,Boiler,1,
"""


@pytest.fixture(scope="module")
def made(tmp_path_factory):
    folder = tmp_path_factory.mktemp("listed")
    (folder / "talk.txt").write_text(TALK, encoding="utf-8")
    (folder / "parts.csv").write_text(LIST, encoding="utf-8")
    return draft(folder / "talk.txt", parts_list=folder / "parts.csv")


def test_names_of_the_list_stand_in_every_field(made):
    first, second = made.procedures
    assert (first.subject, second.subject) == ("water reservoir", "vibration pump")
    assert [one.part for one in second.prerequisites] == ["water reservoir"]
    assert first.steps[0].part == "water reservoir"
    group = second.steps[0].fasteners[0]
    assert group.secures == "vibration pump"


def test_the_spoken_name_stays_visible(made):
    first, second = made.procedures
    assert first.steps[0].text == "Lift the tank out of the frame."
    assert first.steps[0].inferred["part"] == '"water reservoir" in the parts list, called "tank" in the recording'
    assert 'called "pump" in the recording' in second.inferred["subject"]
    assert 'called "tank" in the recording' in second.inferred["prerequisites"]


def test_what_tells_sides_apart_is_kept(made):
    assert made.procedures[1].steps[0].fasteners[0].to == "left side panel"


def test_the_draft_lists_what_the_recording_speaks_of(made):
    rows = {one.number: one for one in made.parts}
    assert list(rows) == ["17-001", "17-002", "17-003", "17-004"]
    assert (rows["17-001"].called, rows["17-001"].quantity, rows["17-001"].start) == (("tank",), 1, 0.0)
    assert rows["17-003"].called == ("left side panel",)
    assert rows["17-004"].called == ("M4 16 mm PH2",)


def test_it_is_shown_and_kept(made):
    assert "| 17-002 | Vibration pump | 1 | pump | 0:11 |" in markdown.render(made)
    assert "<td>17-002</td><td>Vibration pump</td>" in page.render(made)
    assert list(made.to_frame("parts").columns) == ["name", "number", "quantity", "called", "start"]
    assert from_json(to_json(made)) == made
    jsonschema.validate(json.loads(to_json(made)), json_schema())


def test_no_name_is_taken_that_may_mean_two_parts(made):
    two = PartsList.of([PartsRow("brew pump", line=2), PartsRow("drain pump", line=3)])
    again = with_listed_parts(made, two, load_lexicon())
    assert again.procedures[1].subject == "vibration pump"


def test_nothing_changes_without_a_list(tmp_path):
    (tmp_path / "talk.txt").write_text(TALK, encoding="utf-8")
    plain = draft(tmp_path / "talk.txt")
    assert plain.parts == ()
    assert plain.procedures[0].subject == "tank"
    assert "parts list" not in markdown.render(plain)
