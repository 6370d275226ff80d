"""Groups of fasteners: how many, of what kind and size, and what they hold to what."""

import pytest
from marked import with_gaps
from spoken import known_of

CASES = [
    # text, kind, wanted fields
    ("Undo the two 8 mm T10 screws that secure the guard to the housing.", "screw",
     {"count": 2, "length_mm": 8, "drive": "hexalobular", "drive_size": "T10", "secures": "guard", "to": "housing"}),
    ("Take out the 12, 5 mm Phillips screws.", "screw", {"count": 12, "length_mm": 5, "drive": "cross-recess"}),
    ("Take out the 12 5 mm Phillips screws.", "screw", {"count": 12, "length_mm": 5, "drive": "cross-recess"}),
    ("Take out the four 2.5 mm hex screws on the handlebar stem.", "screw", {"count": 4, "drive_size": "2.5 mm"}),
    ("There are either three or four screws.", "screw", {"count": None, "alternatives": (3, 4)}),
    ("There are two or three screws, depending on the year.", "screw", {"count": None, "alternatives": (2, 3)}),
    ("Undo the 2 or 3 nuts below the sump.", "nut", {"count": None, "alternatives": (2, 3)}),
    ("Undo two, maybe three bolts.", "bolt", {"count": None, "alternatives": (2, 3)}),
    ("Undo five to six rivets along the spar.", "rivet", {"count": None, "alternatives": (5, 6)}),
    ("Undo both screws of the nameplate.", "screw", {"count": 2}),
    ("Undo a pair of bolts below the saddle.", "bolt", {"count": 2}),
    ("Undo two pairs of bolts below the saddle.", "bolt", {"count": 4}),
    ("Undo a couple of screws below the saddle.", "screw", {"count": 2}),
    ("Undo the screw on the anvil.", "screw", {"count": 1}),
    ("Undo a single bolt on the anvil.", "bolt", {"count": 1}),
    ("Undo the screws on the anvil.", "screw", {"count": None}),
    ("Undo all four of the screws on the anvil.", "screw", {"count": 4}),
    ("Undo all the screws on the anvil.", "screw", {"count": None}),
    ("Undo half a dozen screws on the anvil.", "screw", {"count": 6}),
    ("Undo a dozen screws around the porthole.", "screw", {"count": 12}),
    ("Undo the first three screws around the porthole.", "screw", {"count": 3}),
    ("Undo the three long silver screws around the porthole.", "screw", {"count": 3}),
    ("Undo the remaining two screws around the porthole.", "screw", {"count": 2}),
    ("Undo the other five screws around the porthole.", "screw", {"count": 5}),
    ("Undo six captive screws around the porthole.", "screw", {"count": 6, "captive": True}),
    ("Undo the captive screws around the porthole.", "screw", {"count": None, "captive": True}),
    ("Undo the four screws, they're captive.", "screw", {"count": 4, "captive": True}),
    ("Undo the four screws, which stay in the lid.", "screw", {"count": 4, "captive": True}),
    ("Undo the three M8x1 nuts.", "nut", {"count": 3, "thread": "M8x1", "length_mm": None}),
    ("Undo the two bolts, M6 by twenty.", "bolt", {"count": 2, "thread": "M6", "length_mm": 20}),
    ("Undo the two M10 x 1.25 x 30 bolts.", "bolt", {"count": 2, "thread": "M10x1.25", "length_mm": 30}),
    ("Undo the four 13 mm nuts.", "nut", {"count": 4, "drive": "hex-head", "drive_size": "13 mm", "length_mm": None}),
    ("Undo the ten millimetre bolt.", "bolt", {"count": 1, "drive": "hex-head", "drive_size": "10 mm"}),
    ("Undo the two 10 mm hex head bolts.", "bolt", {"count": 2, "drive": "hex-head", "drive_size": "10 mm"}),
    ("Undo the two 40 mm long bolts.", "bolt", {"count": 2, "length_mm": 40, "drive": None}),
    ("Undo three screws, PH2, 20 mil.", "screw", {"count": 3, "drive_size": "PH2", "length_mm": 20}),
    ("Undo the screws, there are six, T15, sixteen millimetres.", "screw", {"drive_size": None}),
    ("Undo the two countersunk screws.", "screw", {"count": 2, "head": "countersunk"}),
    ("Undo the hose clamp on the bilge pump.", "hose clamp", {"count": 1}),
    ("Cut the three zip ties.", "cable tie", {"count": 3}),
    ("Prise out the e-clip.", "e-clip", {"count": 1}),
    ("Drill out the eight pop rivets.", "rivet", {"count": 8}),
    ("Undo the wing nut.", "nut", {"count": 1}),
    ("Undo the 4 grub screws in the pulley.", "screw", {"count": 4}),
    ("Undo the five thumbscrews.", "screw", {"count": 5}),
    ("Undo four screws holding the lectern to the plinth.", "screw", {"count": 4, "secures": "lectern", "to": "plinth"}),
    ("Undo the bolt that fastens the tiller onto the stock.", "bolt", {"count": 1, "secures": "tiller", "to": "stock"}),
    ("Undo the two screws which attach the bracket to the mast.", "screw", {"count": 2, "secures": "bracket", "to": "mast"}),
    ("Undo two screws keeping the dial and the bezel on the case.", "screw", {"count": 2, "secures": "dial and bezel"}),
    ("Refit the four bolts and tighten them to 25 Nm.", "bolt", {"count": 4}),
    ("Fit the four bolts at 25 Nm.", "bolt", {"count": 4}),
    # one, and open counts before "of the"
    ("Snip the one cable tie that bundles the tram's bell wires.", "cable tie", {"count": 1}),
    ("You've got either three or four of the rivets to drill.", "rivet", {"count": None, "alternatives": (3, 4)}),
    ("Pull two or three of the push in plastic rivets out of the loom.", "rivet", {"alternatives": (2, 3)}),
    ("Loosen two of the four bolts on the press.", "bolt", {"count": 2}),
    # told by their heads or drives alone
    ("Undo a pair of M6 button heads on the harp.", "screw", {"count": 2, "thread": "M6", "head": "button"}),
    ("Undo the four T15s round the loom.", "screw", {"count": 4, "drive": "hexalobular", "drive_size": "T15"}),
    ("Six pozis go back in the press.", "screw", {"count": 6, "drive": "pozidriv"}),
    ("Undo both cap heads on the kiln.", "screw", {"count": 2, "head": "cap"}),
    ("Undo the two T20s, they won't fall out.", "screw", {"count": 2, "drive_size": "T20"}),
    ("Undo the two self tappers in the kiln lid.", "screw", {"count": 2}),
    ("There's five number 2 Phillips round the kiln door.", "screw", {"count": 5, "drive_size": "PH2"}),
    ("It's got four of those hex heads.", "bolt", {"count": 4, "drive": "hex-head", "drive_size": None}),
    ("Run the three M6 by 20s into the loom.", "screw", {"count": 3, "thread": "M6", "length_mm": 20}),
    ("Undo the six self drillers.", "screw", {"count": 6}),
    ("Wing nut on.", "nut", {"count": 1}),
    # sizes
    ("Undo the four M6 x 20 hexagon socket head cap screws.", "screw",
     {"count": 4, "drive": "hex-socket", "head": "cap", "length_mm": 20, "name": "screws"}),
    ("Fit the four cap screws.", "screw", {"count": 4, "head": "cap", "drive": None}),
    ("Loosen the two end cap screws.", "screw", {"count": 2, "head": None}),
    ("Four Allen bolts, six mil, hold the yoke.", "bolt", {"drive": "hex-socket", "drive_size": "6 mm", "length_mm": None}),
    ("Run the five nuts down in a star pattern.", "nut", {"count": 5, "drive": None}),
    ("Undo the two screws on the square plate.", "screw", {"count": 2, "drive": None}),
    ("Undo four T8 screws of twelve millimetres.", "screw", {"count": 4, "length_mm": 12}),
    ("Undo four M6 bolts, thirty long, and lift the yoke.", "bolt", {"count": 4, "thread": "M6", "length_mm": 30}),
    ("Undo seven screws, PZ2, 5 by 16 millimetres.", "screw", {"drive_size": "PZ2", "length_mm": 16}),
    ("Undo the six long screws on the loom.", "screw", {"count": 6, "length_mm": None}),
    ("Undo two cap screws fixing the reed to the loom.", "screw", {"count": 2, "secures": "reed", "to": "loom"}),
    ("Release the four clips with a flat blade.", "clip", {"count": 4, "drive": None}),
    # what they hold, told before them
    ("The bell cover's on the tram with two screws.", "screw", {"secures": "bell cover", "to": "tram"}),
    ("The gong is held to the frame by two bolts.", "bolt", {"secures": "gong", "to": "frame"}),
    ("There's a bridge plate across the loom, and that's on three screws.", "screw", {"secures": "bridge plate"}),
    ("The base plate has five screws.", "screw", {"secures": "base plate", "to": None}),
    ("Lift the gong off and undo the two screws.", "screw", {"secures": None}),
    # captive, in other words
    ("Undo the four screws, they don't come right out.", "screw", {"captive": True}),
    ("Undo the four screws, you can't lose them.", "screw", {"captive": True}),
    ("Undo the four screws, they aren't captive.", "screw", {"captive": False}),
    ("Undo the four screws, the lid stays in place.", "screw", {"captive": False}),
    ("Undo the four screws, those all stay in the lid.", "screw", {"captive": True}),
]  # fmt: skip


_RANGE = "an open count with maybe or to"
OPEN = {
    "Undo two, maybe three bolts.": _RANGE,
    "Undo five to six rivets along the spar.": _RANGE,
    "Undo two pairs of bolts below the saddle.": "pairs of before a plural",
}


@pytest.mark.parametrize(("text", "kind", "wanted"), with_gaps(CASES, OPEN))
def test_group(text, kind, wanted):
    groups = known_of(text).groups
    assert [g.kind for g in groups] == [kind]
    assert {field: getattr(groups[0], field) for field in wanted} == wanted


@pytest.mark.parametrize(
    ("text", "counts"),
    [
        ("Undo the two long screws and the three short screws.", [2, 3]),
        ("Undo two screws and one nut.", [2, 1]),
        ("Undo one M5 x 10 and two M5 x 16 screws.", [1, 2]),
        ("Undo four bolts, two nuts and a circlip.", [4, 2, 1]),
        ("Undo the upper bolt and the lower bolt.", [1, 1]),
    ],
)
def test_several_groups(text, counts):
    assert [g.count for g in known_of(text).groups] == counts


@pytest.mark.parametrize(
    "text",
    [
        "Take the screw cap off the flask.",
        "Lift the bolt carrier out.",
        "Unplug the clip lead.",
        "Remove the nut cracker arm.",
        "Check the screwdriver tray.",
        "Give the kiln damper a quarter turn.",
        "They're T25s.",
        "Take two Torx twenty bits.",
        "There are six, T15.",
    ],
)
def test_first_part_of_a_compound_is_no_group(text):
    assert known_of(text).groups == []


@pytest.mark.parametrize(
    ("lines", "wanted"),
    [
        (["hatch off", "4x T15 M4x12"], [("screw", 4, "T15", "M4", 12)]),
        (["6x PH2 scr 16mm"], [("screw", 6, "PH2", None, 16)]),
        (["2 bolts M8x40, 13mm"], [("bolt", 2, "13 mm", "M8", 40)]),
        (["scr x4 PH1"], [("screw", 4, "PH1", None, None)]),
        (["4 off M5x16 hex skt"], [("screw", 4, None, "M5", 16)]),
        (["3 nuts 10 A/F"], [("nut", 3, "10 mm", None, None)]),
        (["2 captive T15, kiln lid"], [("screw", 2, "T15", None, None)]),
        (["tighten both M8x20 to 40 Nm"], [("screw", 2, None, "M8", 20)]),
        (["3 screws T20, 10 mm, lid to loom"], [("screw", 3, "T20", None, 10)]),
        (["3/8 bolt x2, kiln foot"], [("bolt", 2, None, None, None)]),
        (["undo 3 M10x30 bolts, 17 spnr"], [("bolt", 3, "17 mm", "M10", 30)]),
        (["slackened 2 clamp bolts, 8 mm AK"], [("bolt", 2, "8 mm", None, None)]),
        (["M5 btn hd x 3"], [("screw", 3, None, "M5", None)]),
        (["jubilee clips x2 7mm, slacken"], [("hose clamp", 2, "7 mm", None, None)]),
    ],
)  # fmt: skip
def test_notes(lines, wanted):
    groups = known_of(*lines, register="notes").groups
    assert [(g.kind, g.count, g.drive_size, g.thread, g.length_mm) for g in groups] == wanted


def test_an_open_count_of_sizes_alone():
    (group,) = known_of("lid off", "2 or 3x T10 on kiln lid", register="notes").groups
    assert (group.count, group.alternatives, group.drive_size) == (None, (2, 3), "T10")
