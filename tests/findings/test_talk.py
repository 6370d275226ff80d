"""Findings in the ways people talk: each way in a short recording of its own, beside one in which all is well."""

import pytest

from miner.lexicon import load_lexicon
from miner.pipeline import mine
from miner.readers import read_recording


@pytest.fixture(scope="module")
def lexicon():
    return load_lexicon()


@pytest.fixture
def found(tmp_path, lexicon):
    def checks(text, name="talk.txt"):
        path = tmp_path / name
        path.write_text("\n".join(line.strip() for line in text.strip().splitlines()) + "\n", encoding="utf-8")
        return [one.check for one in mine(read_recording(path), lexicon).findings]

    return checks


KILN = """
    [00:00] Replace the door seal.
    [00:03] Lift the door seal off the kiln frame.
    [00:08] Slide the new door seal onto the kiln frame. {closing}
    [00:16] Replace the vent fan.
    [00:19] Pull the vent fan out of the kiln base.
    [00:24] Push the new vent fan into the kiln base.
"""


@pytest.mark.parametrize(
    ("closing", "fires"),
    [
        ("So that's the vent fan sorted.", True),
        ("End of vent fan.", True),
        ("The vent fan has now been replaced.", True),
        ("And that's your vent fan done.", True),
        ("So that's the door seal sorted.", False),
        ("That's the seal done.", False),
    ],
)
def test_a_closing_that_names_another_part(closing, fires, found):
    assert ("closing-mismatch" in found(KILN.format(closing=closing))) is fires


PRESS = """
    [00:00] Remove the steam valve.
    [00:03] {early}
    [00:12] Undo the brass nut of the steam valve with a 24 millimetre spanner.
    [00:18] {late}
    [00:26] Lift the steam valve off the press.
    [00:32] Installation is the reverse of removal.
"""
BEFORE = "Before you touch that nut, let the steam out at the tap, it'll scald you."


@pytest.mark.parametrize(("early", "late", "fires"), [("Right.", BEFORE, True), (BEFORE, "Good.", False)])
def test_what_must_be_done_before_is_told_after(early, late, fires, found):
    assert ("late-caution" in found(PRESS.format(early=early, late=late))) is fires


LOOM = """
    [00:00] Remove the warp knife.
    [00:03] Remove the two T15 screws that secure the warp knife to the loom.
    [00:09] Pull the warp knife out of the loom.
    [00:14] {said}
    [00:22] Installation is the reverse of removal.
"""


@pytest.mark.parametrize(
    ("said", "fires"),
    [
        ("Its edge is razor sharp, so have gloves on, it will cut you.", True),
        ("When you refit it, mind the edge, it will cut you.", False),
        ("Always oil the new one, or it will cut you.", False),
    ],
)
def test_a_warning_after_the_last_part_is_off(said, fires, found):
    assert ("late-caution" in found(LOOM.format(said=said))) is fires


TRAM = """
    [00:00] Replace the wiper motor.
    [00:03] Remove the three T20 screws that secure the wiper motor to the tram frame.
    [00:09] Lift the wiper motor out of the tram frame.
    [00:14] Put the new wiper motor into the tram frame.
    [00:19] {back}
"""


@pytest.mark.parametrize(
    ("back", "check"),
    [
        ("Then it's the three screws again, tighten them with your T25 driver.", "drive-mismatch"),
        ("Tighten the four screws.", "count-mismatch"),
        ("Tighten the three screws.", None),
    ],
)
def test_screws_that_go_back_without_their_part(back, check, found):
    raised = found(TRAM.format(back=back))
    assert [one for one in raised if one in ("drive-mismatch", "count-mismatch")] == ([check] if check else [])


HARP = """
    [00:00] Replace the pedal rod.
    [00:03] Unscrew the pedal rod from the harp base.
    [00:08] Pull the pedal rod out of the column.
    [00:13] {back}
"""


@pytest.mark.parametrize(
    ("back", "fires"),
    [
        ("New rod in, flat side up.", False),
        ("The pedal rod is bent like a banana.", True),
        ("I haven't got the new one yet.", True),
        ("And it's the same thing backwards.", False),
    ],
)
def test_a_new_part_that_goes_in_without_a_verb(back, fires, found):
    assert ("missing-install" in found(HARP.format(back=back))) is fires


@pytest.mark.parametrize(
    ("line", "check"),
    [
        ("0:10 Removed the four screw of the lid", "grammatical-number"),
        ("0:10 Removed 4 screw, lid to base", None),
        ("0:10 2 or 3 T10 screws on the lid, by batch", "count-alternatives"),
        ("0:10 Loosened the lid by 2 or 3 turns", None),
    ],
)
def test_counts_in_notes(line, check, found):
    raised = found(f"0:05 Job 1, lid\n{line}\n0:20 Lifted the lid off the base\n0:30 Refit in reverse order\n")
    assert [one for one in raised if one in ("grammatical-number", "count-alternatives")] == ([check] if check else [])


SHUTTLE = """
    [00:00] Replace the drive belt.
    [00:04] Slip the drive belt off the loom pulley.
    [00:12] {back}
    [00:22] Replace the vent fan.
    [00:26] Pull the vent fan out of the loom base.
    [00:32] Push the new vent fan into the loom base.
"""


@pytest.mark.parametrize(
    ("back", "fires"),
    [
        ("Hook the new one over the pegs until it's snug.", False),
        ("The same again backwards and that's all there is to it.", False),
        ("It had a crack right round it, as you see.", True),
        ("Order one from the stores, they keep a few.", True),
    ],
)
def test_a_new_part_that_is_spoken_of_once_the_old_one_is_out(back, fires, found):
    assert ("missing-install" in found(SHUTTLE.format(back=back))) is fires


ROD = """
    [00:00] Replace the pedal rod.
    [00:03] Undo the brass nut of the pedal rod with a 12 millimetre spanner.
    [00:09] Draw the pedal rod out of the harp column.
    [00:14] {late}
    [00:20] Slide the new pedal rod into the harp column.
    [00:26] Tighten the brass nut.
    [00:30] {after}
"""
SHARP = "Warning. The end of the pedal rod cuts you, so wear gloves when you take hold of it."
IN_USE = "Warning. It's live now, so nothing but music goes near those strings."


@pytest.mark.parametrize(
    ("late", "after", "fires"),
    [
        (SHARP, "", True),
        ("", IN_USE, False),
        ("Warning. You don't use the spanner to do it up, or the thread is gone.", "", False),
        ("Warning. It weighs a ton by the way.", "", False),
    ],
)
def test_warnings_about_what_is_over_and_what_is_to_come(late, after, fires, found):
    assert ("late-caution" in found(ROD.format(late=late, after=after))) is fires


@pytest.mark.parametrize(
    ("wound", "fires"),
    [
        ("Wind the reel up six turns against the spring.", True),
        ("Let the reel unwind.", True),
        ("Wind the cord on the reel.", False),
    ],
)
def test_a_spring_that_is_wound_without_a_warning(wound, fires, found):
    told = f"""
        [00:00] Remove the reel.
        [00:03] Lift the dial off the clock frame.
        [00:08] {wound}
        [00:12] Lift the reel off the clock frame.
        [00:14] Installation is the reverse of removal.
    """
    assert ("missing-caution" in found(told)) is fires


@pytest.mark.parametrize(
    ("said", "fires"),
    [
        ("Take out the eight bolt of the kiln lid.", True),
        ("Tie the cord to the kiln lid with a figure of eight knot.", False),
        ("The new one screws on to the kiln lid by hand.", False),
    ],
)
def test_counts_that_count_nothing(said, fires, found):
    told = f"""
        [00:00] Remove the kiln lid.
        [00:03] {said}
        [00:09] Lift the kiln lid off the kiln.
        [00:14] Installation is the reverse of removal.
    """
    assert ("grammatical-number" in found(told)) is fires
