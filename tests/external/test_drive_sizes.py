"""Every drive that the tables of `bd-warehouse` 0.4.0 (Apache-2.0, typed from ISO, DIN and ASME) name, said and read.

Codes are read as written (`PH2`, `T10`, `R1`) and as spoken; widths are read as a hexagon of that many millimetres.
The button head and countersunk tables give the greatest width of the socket, which nobody says: they are left out.
"""

import csv
from importlib.metadata import distribution
from pathlib import Path

import pytest
import spacy

from miner.language.drives import find_drives
from miner.lexicon import load_lexicon

NLP = spacy.blank("en")
LEXICON = load_lexicon()
WORDS = {
    "0": "zero", "1": "one", "2": "two", "3": "three", "4": "four", "6": "six", "8": "eight", "10": "ten", "15": "fifteen",
    "20": "twenty", "25": "twenty-five", "30": "thirty", "40": "forty", "45": "forty-five", "50": "fifty", "55": "fifty-five",
    "60": "sixty", "70": "seventy", "80": "eighty", "90": "ninety", "100": "one hundred",
}  # fmt: skip


def _cells(file: str, column: str) -> list[str]:
    """The different cells of a column; some headers carry stray blanks."""
    place = distribution("bd-warehouse").locate_file(f"bd_warehouse/data/{file}")
    with Path(str(place)).open(encoding="utf-8-sig", newline="") as stream:
        rows = list(csv.reader(stream))
    index = [cell.strip() for cell in rows[0]].index(column)
    found = sorted({row[index].strip() for row in rows[1:] if len(row) > index and row[index].strip()})
    assert found, (file, column)
    return found


def _read(text: str) -> list[tuple[str | None, str | None]]:
    doc = NLP.make_doc(text)
    return [(m.drive, m.drive_size) for m in find_drives(doc, LEXICON) if m.kind == "drive"]


CROSS = [
    ("raised_cheese_head_parameters.csv", "iso7045:recess"),  # ISO 7045
    ("countersunk_head_parameters.csv", "iso7046:recess"),  # ISO 7046
    ("raised_countersunk_oval_head_parameters.csv", "iso7047:recess"),  # ISO 7047
    ("cheese_head_parameters.csv", "iso7048:recess"),  # ISO 7048
    ("pan_head_with_collar_parameters.csv", "din967:recess"),  # DIN 967
]
LOBES = [
    ("pan_head_parameters.csv", "iso14583:recess"),  # ISO 14583
    ("cheese_head_parameters.csv", "iso14580:recess"),  # ISO 14580
    ("countersunk_head_parameters.csv", "iso14581:recess"),  # ISO 14581
    ("countersunk_head_parameters.csv", "iso14582:recess"),  # ISO 14582
    ("raised_countersunk_oval_head_parameters.csv", "iso14584:recess"),  # ISO 14584
    ("iso10664def.csv", "Size"),  # ISO 10664, all 16 sizes
]


@pytest.mark.parametrize(("file", "column"), CROSS)
def test_cross_recesses(file, column):
    for code in _cells(file, column):
        number = code.removeprefix("PH")
        for said in (
            code,
            f"PH {number}",
            f"PH-{number}",
            f"Phillips {number}",
            f"number {WORDS[number]} Phillips",
            f"PH {WORDS[number]}",
        ):
            assert _read(f"a {said} screw") == [("cross-recess", code)], said


@pytest.mark.parametrize(("file", "column"), LOBES)
def test_hexalobular(file, column):
    for code in _cells(file, column):
        number = code.removeprefix("T")
        for said in (code, f"T {number}", f"TX{number}", f"Torx {number}"):
            assert _read(f"a {said} screw") == [("hexalobular", code)], said
        assert _read(f"a {code}H screw") == [("hexalobular-tamper", f"{code}H")]


@pytest.mark.parametrize(("file", "column"), LOBES)
def test_hexalobular_in_words(file, column):
    for code in _cells(file, column):
        assert _read(f"a T {WORDS[code.removeprefix('T')]} screw") == [("hexalobular", code)]


def test_square():
    """ASME B18.6.3 as typed in the package: R00 to R3."""
    for code in _cells("pan_head_parameters.csv", "asme_b_18.6.3:recess"):
        assert _read(f"a {code} screw") == [("square", code)]


SOCKETS = [
    ("socket_head_cap_parameters.csv", "iso4762:s"),  # ISO 4762
    ("setscrew_parameters.csv", "iso4026:s"),  # ISO 4026
    ("metric_set_screw_parameters.csv", "Socket_Size"),  # set screws of the trade
    ("shoulder_screw.csv", "iso7379:s"),  # ISO 7379
]


@pytest.mark.parametrize(("file", "column"), SOCKETS)
def test_hexagon_sockets(file, column):
    for width in _cells(file, column):
        for said in (f"{width} mm hex", f"{width} mm Allen", f"{width}mm hex", f"{width} millimetre Allen"):
            assert _read(f"a {said} screw") == [("hex-socket", f"{float(width):g} mm")], said


OUTSIDE = [
    ("hex_head_parameters.csv", "iso4014:s"),  # ISO 4014
    ("hex_head_parameters.csv", "iso4017:s"),  # ISO 4017
    ("hex_nut_parameters.csv", "iso4032:s"),  # ISO 4032
    ("hex_head_with_flange_parameters.csv", "din1665:s"),  # DIN 1665
]


@pytest.mark.parametrize(("file", "column"), OUTSIDE)
def test_outside_hexagons(file, column):
    for width in _cells(file, column):
        wanted = [("hex-head", f"{float(width):g} mm")]
        for said in (
            f"a {width} mm hex head bolt",
            f"a {width} mm hex nut",
            f"nuts, {width} mm across flats",
            f"nuts, {width} A/F",
        ):
            assert _read(said) == wanted, said
