"""Drives with their sizes and head shapes, in every way that people say and write them."""

import pytest
from marked import parse
from spoken import known_of

# fmt: off
CROSS = [
    "two [PH1](cross-recess=PH1) screws", "two [ph1](cross-recess=PH1) screws", "two [PH 1](cross-recess=PH1) screws",
    "two [PH-1](cross-recess=PH1) screws", "two [P H 1](cross-recess=PH1) screws", "two [P1](cross-recess=PH1) screws",
    "two [number one Phillips](cross-recess=PH1) screws", "two [number 1 Phillips](cross-recess=PH1) screws",
    "two [no. 1 Phillips](cross-recess=PH1) screws", "two [no 1 Phillips](cross-recess=PH1) screws",
    "two [#1 Phillips](cross-recess=PH1) screws", "two [size one Phillips](cross-recess=PH1) screws",
    "two [Phillips number one](cross-recess=PH1) screws", "two [Phillips size 1](cross-recess=PH1) screws",
    "two [Phillips 1](cross-recess=PH1) screws", "two [Phillips one](cross-recess=PH1) screws",
    "two [Phillips #1](cross-recess=PH1) screws", "two [Phillips](cross-recess) screws",
    "two [Phillips head](cross-recess) screws", "two [Phillips-head](cross-recess) screws",
    "two [Philips](cross-recess) screws", "two [philips head number two](cross-recess=PH2) screws",
    "two [cross-head](cross-recess) screws", "two [cross head](cross-recess) screws", "two [crosshead](cross-recess) screws",
    "two [crosspoint](cross-recess) screws", "two [cross recess](cross-recess) screws",
    "two [number two cross-head](cross-recess=PH2) screws", "two [number two cross head](cross-recess=PH2) screws",
    "two [PH00](cross-recess=PH00) screws", "two [PH000](cross-recess=PH000) screws",
    "two [double zero Phillips](cross-recess=PH00) screws", "two [Phillips double zero](cross-recess=PH00) screws",
    "two [Phillips double oh](cross-recess=PH00) screws", "two [number double zero Phillips](cross-recess=PH00) screws",
    "two [triple zero Phillips](cross-recess=PH000) screws", "two [Phillips triple zero](cross-recess=PH000) screws",
    "two [PH zero](cross-recess=PH0) screws", "two [PH two](cross-recess=PH2) screws",
    "two [PH double zero](cross-recess=PH00) screws", "two [P two](cross-recess=PH2) screws",
]
POZI = [
    "two [PZ2](pozidriv=PZ2) screws", "two [PZ 2](pozidriv=PZ2) screws", "two [PZ two](pozidriv=PZ2) screws",
    "two [Pozidriv](pozidriv) screws", "two [Pozidriv number two](pozidriv=PZ2) screws",
    "two [number two Pozidriv](pozidriv=PZ2) screws", "two [pozi](pozidriv) screws", "two [number 3 pozi](pozidriv=PZ3) screws",
    "two [posidrive](pozidriv) screws", "two [pozi drive 2](pozidriv=PZ2) screws", "two [Pozidriv 1](pozidriv=PZ1) screws",
]
LOBES = [
    "two [T8](hexalobular=T8) screws", "two [T 8](hexalobular=T8) screws", "two [T-8](hexalobular=T8) screws",
    "two [t8](hexalobular=T8) screws", "two [T eight](hexalobular=T8) screws", "two [TX8](hexalobular=T8) screws",
    "two [TX 8](hexalobular=T8) screws", "two [T10](hexalobular=T10) screws", "two [T ten](hexalobular=T10) screws",
    "two [T fifteen](hexalobular=T15) screws", "two [T twenty-five](hexalobular=T25) screws",
    "two [T twenty five](hexalobular=T25) screws", "two [Torx](hexalobular) screws", "two [Torx 8](hexalobular=T8) screws",
    "two [Torx eight](hexalobular=T8) screws", "two [Torx T8](hexalobular=T8) screws", "two [T8 Torx](hexalobular=T8) screws",
    "two [Torx-head](hexalobular) screws", "two [six-lobe](hexalobular) screws", "two [six lobe T10](hexalobular=T10) screws",
    "two [T10 six-lobe](hexalobular=T10) screws", "two [six-lobe number ten](hexalobular=T10) screws",
    "two [star](hexalobular) screws", "two [star drive](hexalobular) screws", "two [star-head](hexalobular) screws",
    "two [hexalobular](hexalobular) screws", "two [size ten Torx](hexalobular=T10) screws",
    "two [number ten Torx](hexalobular=T10) screws", "two [Torx twenty](hexalobular=T20) screws",
    "two [Torx thirty](hexalobular=T30) screws", "two [T forty-five](hexalobular=T45) screws",
]
TAMPER = [
    "two [T10H](hexalobular-tamper=T10H) screws", "two [T10 H](hexalobular-tamper=T10H) screws",
    "two [T10 security](hexalobular-tamper=T10H) screws", "two [T10 tamper](hexalobular-tamper=T10H) screws",
    "two [T10 tamper-proof](hexalobular-tamper=T10H) screws", "two [T ten security](hexalobular-tamper=T10H) screws",
    "two [security Torx](hexalobular-tamper) screws", "two [security T10](hexalobular-tamper=T10H) screws",
    "two [tamper-proof T10](hexalobular-tamper=T10H) screws", "two [T10 tamper resistant](hexalobular-tamper=T10H) screws",
    "two [security Torx T10](hexalobular-tamper=T10H) screws", "two [T10 security Torx](hexalobular-tamper=T10H) screws",
    "two [Torx security](hexalobular-tamper) screws", "two [tamper-proof Torx](hexalobular-tamper) screws",
    "two [pin Torx](hexalobular-tamper) screws", "two [TR10](hexalobular-tamper=T10H) screws",
    "two [tamper six-lobe](hexalobular-tamper) screws", "two [security Torx ten](hexalobular-tamper=T10H) screws",
]
SOCKET = [
    "two [2.5 mm hex](hex-socket=2.5 mm) screws", "two [2.5 mm Allen](hex-socket=2.5 mm) screws",
    "two [2.5mm hex](hex-socket=2.5 mm) screws", "two [two point five mil hex](hex-socket=2.5 mm) screws",
    "two [two and a half millimetre Allen](hex-socket=2.5 mm) screws", "two [four millimetre hex](hex-socket=4 mm) screws",
    "two [four mil Allen](hex-socket=4 mm) screws", "two [Allen](hex-socket) screws", "two [hex socket](hex-socket) screws",
    "two [5 mm hex socket](hex-socket=5 mm) screws", "two [hex socket 5 mm](hex-socket=5 mm) screws",
    "two [3 mm internal hex](hex-socket=3 mm) screws", "two [2 mm hex key](hex-socket=2 mm) screws",
    "two [5 mm Allen head](hex-socket=5 mm) screws", "two [socket head](hex-socket) screws",
    "two [4 mm socket head](hex-socket=4 mm) screws", "two [Allen 4 mm](hex-socket=4 mm) screws",
    "two [Allen four](hex-socket=4 mm) screws",
]
OUTSIDE = [
    "two [10 mm hex head](hex-head=10 mm) bolts", "two [10 mm hex-head](hex-head=10 mm) bolts",
    "two [ten millimetre hex head](hex-head=10 mm) bolts", "two [10 mm hex](hex-head=10 mm) bolts",
    "two [13 mm hex](hex-head=13 mm) nuts", "two [hex head](hex-head) bolts", "two [hex](hex-head) nuts",
    "two [hexagon head](hex-head) bolts", "two [10 mm external hex](hex-head=10 mm) bolts",
    "two bolts, [17 mm across flats](hex-head=17 mm)", "two bolts, [17 A/F](hex-head=17 mm)",
    "two bolts, [17 mm AF](hex-head=17 mm)", "two bolts with a [13 mm spanner](hex-head=13 mm)",
    "two bolts with a [13 millimetre wrench](hex-head=13 mm)", "two bolts with a [thirteen mil socket](hex-head=13 mm)",
    "two bolts with a [10 mm ring spanner](hex-head=10 mm)", "two bolts with a [10 mm nut driver](hex-head=10 mm)",
]
OTHER = [
    "two [slotted](slotted) screws", "two [slot-head](slotted) screws", "two [slot head](slotted) screws",
    "two [flat-blade](slotted) screws", "two [flat blade](slotted) screws", "two [straight slot](slotted) screws",
    "two [tri-wing](tri-wing) screws", "two [tri wing](tri-wing) screws", "two [triwing](tri-wing) screws",
    "two [Y-tip](tri-wing) screws", "two [TW1](tri-wing=TW1) screws",
    "two [pentalobe](pentalobular) screws", "two [five-lobe](pentalobular) screws", "two [PL2](pentalobular=PL2) screws",
    "two [Robertson](square) screws", "two [square drive](square) screws", "two [square-drive](square) screws",
    "two [R2](square=R2) screws", "two [number two Robertson](square=R2) screws", "two [Robertson number 2](square=R2) screws",
    "two [snake eye](spanner) screws", "two [snake-eye](spanner) screws", "two [pig-nose](spanner) screws",
    "two [two-hole](spanner) screws",
]  # fmt: skip

# fmt: on
ALL = [*CROSS, *POZI, *LOBES, *TAMPER, *SOCKET, *OUTSIDE, *OTHER]


def _read(example):
    marked = parse(f"Undo the {example} of the barometer.")
    known = known_of(marked.text)
    return known, marked.marks[0], [m for m in known.measures if m.kind == "drive"]


@pytest.mark.parametrize("example", ALL)
def test_drive_and_size(example):
    """Two words for one drive ("T8 Torx") may be two measures that agree; the count before them stays a count."""
    known, mark, found = _read(example)
    drive, size = next(iter(mark.facts.items()))
    assert {m.drive for m in found} <= {drive, drive.removesuffix("-tamper")}
    assert found[0].drive == drive
    assert next((m.drive_size for m in found if m.drive_size), "") == size
    assert [g.count for g in known.groups] == [2]


@pytest.mark.parametrize("example", ALL)
def test_place(example):
    """A drive is found inside what was marked; neither the count nor the fastener's own noun is taken in."""
    known, mark, found = _read(example)
    assert found[0].start >= known.token_at(mark.start)
    assert found[-1].end <= known.tokens_of(mark.start, mark.end)[1]


HEADS = [
    ("two [pan head](pan) screws", "pan"), ("two [pan-head](pan) screws", "pan"), ("two [countersunk](c) screws", "countersunk"),
    ("two [button head](b) screws", "button"), ("two [button-head](b) screws", "button"), ("two [shoulder](s) screws", "shoulder"),
    ("two [flat head](f) screws", "flat"), ("two [cap head](c) screws", "cap"), ("two [broad head](b) screws", "broad"),
    ("two [broad-headed](b) screws", "broad"), ("two [dome head](b) screws", "button"), ("two [socket cap](c) screws", "cap"),
]  # fmt: skip


@pytest.mark.parametrize(("example", "head"), HEADS)
def test_heads(example, head):
    marked = parse(f"Undo the {example} of the barometer.")
    groups = known_of(marked.text).groups
    assert [g.head for g in groups] == [head]


@pytest.mark.parametrize(
    "text",
    [
        "Take the phone off the hook.",
        "Remove the star wheel from the windlass.",  # a part
        "Open the T piece of the gas line.",
        "Pull the R clip out of the clevis.",
        "The tea is in T minus ten seconds.",
        "Lift the hexagonal planter off the plinth.",
    ],
)
def test_no_drive(text):
    assert [m for m in known_of(text).measures if m.drive_size] == []


@pytest.mark.parametrize(
    ("text", "drive", "size"),
    [
        ("The key size is two point five millimetres.", "hex-socket", "2.5 mm"),
        ("They take a three mil key.", "hex-socket", "3 mm"),
        ("That's a 1.5 alan key.", "hex-socket", "1.5 mm"),
        ("They're one point five hex.", "hex-socket", "1.5 mm"),
        ("Eight mil spanner on those.", "hex-head", "8 mm"),
        ("The spanner size is 13 mm.", "hex-head", "13 mm"),
        ("It's a Phillips number five.", "cross-recess", "PH5"),  # none such; kept for a check to find
    ],
)
def test_size_in_a_sentence_of_its_own(text, drive, size):
    assert [(m.drive, m.drive_size) for m in known_of(text).measures] == [(drive, size)]


@pytest.mark.parametrize(
    ("text", "count", "drive", "size"),
    [
        ("Take out the Phillips two and a bit turns.", None, "cross-recess", "PH2"),
        ("Undo the Torx screws, eight of them.", 8, "hexalobular", None),
        ("Undo four Phillips, eight millimetres long, from the lid.", None, "cross-recess", None),
        ("Undo six number two Phillips screws.", 6, "cross-recess", "PH2"),
        ("Undo two T8 screws.", 2, "hexalobular", "T8"),
        ("Undo eight T8 screws.", 8, "hexalobular", "T8"),
        ("Undo three 3 mm Allen screws.", 3, "hex-socket", "3 mm"),
    ],
)
def test_size_and_count_kept_apart(text, count, drive, size):
    known = known_of(text)
    assert [(m.drive, m.drive_size) for m in known.measures if m.kind == "drive"][:1] == [(drive, size)]
    if count is not None and known.groups:
        assert known.groups[0].count in (count, None)
