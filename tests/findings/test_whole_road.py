"""Checks that no fixture seeds, each seen on an invented recording that goes the whole road from text to finding."""

import pytest

from miner.drafting import draft
from miner.lexicon import load_lexicon

ROAD = {
    "order-contradiction": """
        [00:00] Remove the pump assembly.
        [00:03] Pull the inlet hose off the valve block.
        [00:07] Lift the pump bracket out of the base.
        [00:11] Pull the pump assembly out of the frame.
        [00:15] Installation is the reverse of removal.
        [00:20] Remove the filter housing.
        [00:23] Lift the pump bracket out of the base.
        [00:27] Pull the inlet hose off the valve block.
        [00:31] Lift the filter housing off the frame.
        [00:35] Installation is the reverse of removal.
    """,
    "twin-notice": """
        [00:00] Remove the left side panel.
        [00:03] Warning, the edge of the panel is sharp, wear gloves.
        [00:07] Remove the two T10 screws that secure the left side panel to the frame.
        [00:12] Lift the left side panel off the frame.
        [00:16] Installation is the reverse of removal.
        [00:20] Remove the right side panel.
        [00:24] Remove the two T10 screws that secure the right side panel to the frame.
        [00:29] Lift the right side panel off the frame.
        [00:33] Installation is the reverse of removal.
    """,
    "late-step": """
        [00:00] Remove the top cover.
        [00:03] Lift the top cover away from the frame.
        [00:07] Pull the inlet hose off the pump.
        [00:11] Remove the two T10 screws that secure the top cover to the frame.
        [00:16] Installation is the reverse of removal.
    """,
    "incomplete-fastener": """
        [00:00] Remove the top cover.
        [00:03] Remove the two 8 mm T10 screws that secure the top cover to the frame.
        [00:08] Lift the top cover off the frame.
        [00:11] Installation is the reverse of removal.
        [00:15] Remove the rear panel.
        [00:18] Remove the three 8 mm T10 screws that secure the rear panel to the frame.
        [00:23] Remove the four 12 mm T20 screws that secure the hinge to the rear panel.
        [00:28] Lift the rear panel off the frame.
        [00:31] Installation is the reverse of removal.
        [00:35] Remove the side panel.
        [00:38] Remove the two 8 mm T10 screws that secure the side panel to the frame.
        [00:43] Take out the screws that hold the bracket to the side panel.
        [00:48] Lift the side panel off the frame.
        [00:51] Installation is the reverse of removal.
    """,
    "other-side-mismatch": """
        [00:00] Remove the drip tray.
        [00:03] Release the two clips on the left side of the drip tray.
        [00:08] Repeat with the three clips on the right side.
        [00:12] Lift the drip tray out of the frame.
        [00:16] Installation is the reverse of removal.
    """,
    "held-part-removed": """
        [00:00] Remove the drip tray.
        [00:03] Lift the drip tray out of the frame.
        [00:08] To install, slide the drip tray into the frame.
        [00:12] Tighten the two screws that secure the drip tray to the frame.
    """,
    "hidden-prerequisite": """
        [00:00] Remove the water tank.
        [00:03] Lift the water tank out of the frame.
        [00:07] Installation is the reverse of removal.
        [00:11] Remove the drip grid.
        [00:14] Lift the water tank out of the frame.
        [00:18] Pull the drip grid out of the base.
        [00:22] Installation is the reverse of removal.
    """,
    "subject-never-removed": """
        [00:00] Flow meter removal.
        [00:03] Unplug the valve lead from the control board.
        [00:07] Open the hose clamp on the inlet hose.
        [00:11] Installation is the reverse of removal.
    """,
    "advisable-caution": """
        [00:00] Remove the main board.
        [00:03] Unplug the sensor lead from the main board.
        [00:07] Remove the four T10 screws that secure the main board to the frame.
        [00:12] Lift the main board out of the frame.
        [00:16] Installation is the reverse of removal.
    """,
    "several-instructions": """
        [00:00] Remove the filler cap.
        [00:03] Turn the filler cap anticlockwise and lift it off the tank.
        [00:08] Installation is the reverse of removal.
    """,
    "long-instruction": """
        [00:00] Remove the top cover.
        [00:03] Remove the four long silver T10 screws along the rear edge, right under the label with the serial
        number and the warning sign, that secure the top cover to the frame.
        [00:12] Installation is the reverse of removal.
    """,
}


@pytest.fixture(scope="module")
def lexicon():
    return load_lexicon()


def mined(text, tmp_path, lexicon, **options):
    path = tmp_path / "talk.txt"
    path.write_text("\n".join(line.strip() for line in text.strip().splitlines()) + "\n", encoding="utf-8")
    return draft(path, lexicon, **options)


@pytest.mark.parametrize("name", ROAD)
def test_a_check_fires_on_a_recording(name, tmp_path, lexicon):
    found = [one for one in mined(ROAD[name], tmp_path, lexicon).findings if one.check == name]
    assert len(found) == 1
    assert found[0].evidence


VARIANTS = """
    [00:00] Remove the side panel.
    [00:03] If your unit has two leads, remove the four T10 screws that secure the side panel to the frame.
    [00:09] Lift the side panel off the frame.
    [00:13] To install, place the side panel on the frame.
    [00:17] If your unit has two leads, tighten the six T10 screws that secure the side panel to the frame.
"""


def test_a_finding_that_holds_in_one_variant_says_so(tmp_path, lexicon):
    found = [one for one in mined(VARIANTS, tmp_path, lexicon).findings if one.check == "count-mismatch"]
    assert [one.branch for one in found] == ["if your unit has two leads"]


ASIDES = """
    [00:00] Replace the control panel.
    [00:03] Unplug the two leads from the control panel.
    [00:08] The big blue can on there is the capacitor, 400 volts.
    [00:12] Lift the control panel off the posts.
    [00:16] Installation is the reverse of removal.
"""


@pytest.mark.parametrize(
    ("text", "fires"),
    [
        (ASIDES, True),
        (ASIDES.replace("400 volts", "12 volts"), False),
        (ASIDES.replace("[00:12]", "[00:10] Warning, wait five minutes until it is discharged.\n[00:12]"), False),
    ],
)
def test_a_dangerous_voltage_told_in_an_aside_wants_a_warning(text, fires, tmp_path, lexicon):
    found = [one for one in mined(text, tmp_path, lexicon).findings if one.check == "missing-caution"]
    assert bool(found) is fires
    if fires:
        assert "400 volts" in " ".join(place.quote for place in found[0].evidence)


GLOVES = """
    [00:00] Remove the upper burr.
    [00:03] Put gloves on for this one, the edges of a burr are sharp.
    [00:07] Lift the upper burr out of the burr carrier.
    [00:11] Installation is the reverse of removal.
"""


def test_what_a_step_says_of_protection_is_a_caution(tmp_path, lexicon):
    assert [one for one in mined(GLOVES, tmp_path, lexicon).findings if one.check == "missing-caution"] == []
