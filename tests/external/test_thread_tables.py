"""Our drive sizes and lengths by thread against the tables of `bd-warehouse` (Apache-2.0), typed from ISO standards.

Its button head and countersunk files give the greatest width of the hexagon, so a width is rounded down to the next
key. Known defects of the package are left out by name.
"""

import csv
import re
from importlib.resources import files

import pytest

from miner.lexicon import load_lexicon
from miner.lexicon.lookup import lookup

LEXICON = load_lexicon()
FOUND = lookup(LEXICON)
KEYS_MM = [0.7, 0.9, 1.3, 1.5, 2, 2.5, 3, 4, 5, 6, 8, 10, 12, 14, 17, 19, 22, 27]


@pytest.fixture(scope="session")
def folder():
    from importlib.metadata import distribution  # read as files: importing the package loads a geometry kernel

    return distribution("bd-warehouse").locate_file("bd_warehouse/data")


def _column(folder, name, column):
    """Coarse metric threads and their cells; headers carry stray blanks, one file has no name for its first column."""
    with (folder / name).open(encoding="utf-8-sig", newline="") as stream:
        rows = csv.reader(stream)
        header = [cell.strip() for cell in next(rows)]
        place = header.index(column)
        found = {}
        for row in rows:
            size = re.match(r"(M[\d.]+)-", row[0])
            if size and FOUND.sizes_of_thread(size[1]) and row[place].strip():
                found.setdefault(size[1], row[place].strip())
    assert found, (name, column)
    return found


@pytest.mark.parametrize(
    ("file", "column"),
    [
        ("raised_cheese_head_parameters.csv", "iso7045:recess"),  # ISO 7045
        ("countersunk_head_parameters.csv", "iso7046:recess"),  # ISO 7046
        ("raised_countersunk_oval_head_parameters.csv", "iso7047:recess"),  # ISO 7047
        ("cheese_head_parameters.csv", "iso7048:recess"),  # ISO 7048
        ("pan_head_with_collar_parameters.csv", "din967:recess"),  # DIN 967
        ("pan_head_parameters.csv", "iso14583:recess"),  # ISO 14583
        ("cheese_head_parameters.csv", "iso14580:recess"),  # ISO 14580
        ("countersunk_head_parameters.csv", "iso14581:recess"),  # ISO 14581
        ("countersunk_head_parameters.csv", "iso14582:recess"),  # ISO 14582
        ("raised_countersunk_oval_head_parameters.csv", "iso14584:recess"),  # ISO 14584
    ],
)
def test_recesses(folder, file, column):
    cells = _column(folder, file, column)
    assert {t: size for t, size in cells.items() if size not in FOUND.sizes_of_thread(t)} == {}


@pytest.mark.parametrize(
    ("file", "column"),
    [
        ("socket_head_cap_parameters.csv", "iso4762:s"),  # ISO 4762, nominal
        ("button_head_parameters.csv", "iso7380_1:s"),  # ISO 7380-1, greatest width
        ("button_head_with_collar_parameters.csv", "iso7380_2:s"),  # ISO 7380-2, greatest width
        ("countersunk_head_parameters.csv", "iso10642:s"),  # ISO 10642, greatest width
        ("setscrew_parameters.csv", "iso4026:s"),  # ISO 4026
    ],
)
def test_hexagon_keys(folder, file, column):
    cells = _column(folder, file, column)
    keys = {t: max(key for key in KEYS_MM if key <= float(width) + 0.005) for t, width in cells.items()}
    assert {t: key for t, key in keys.items() if f"{key:g} mm" not in FOUND.sizes_of_thread(t)} == {}


@pytest.mark.parametrize("column", ["iso4014:s", "iso4017:s"])  # outside hexagon
def test_widths_across_flats(folder, column):
    cells = _column(folder, "hex_head_parameters.csv", column)
    listed = {
        t: w for t, w in cells.items() if t in {"M3", "M4", "M5", "M6", "M8", "M10", "M12", "M14", "M16", "M20", "M24"}
    }
    assert {t: w for t, w in listed.items() if f"{float(w):g} mm" not in FOUND.sizes_of_thread(t)} == {}


def test_hexalobular_sizes(folder):
    with (folder / "iso10664def.csv").open(encoding="utf-8-sig", newline="") as stream:
        sizes = [row["Size"] for row in csv.DictReader(stream)]  # ISO 10664
    assert len(sizes) == 16
    assert [size for size in sizes if size not in FOUND.drive("hexalobular").sizes] == []


@pytest.mark.parametrize(
    "standard",
    [
        "ISO 7045",
        "ISO 7046",
        "ISO 7047",
        "ISO 14581",
        "ISO 14583",
        "ISO 14584",
        "ISO 7048",
        "ISO 4762",
        "ISO 14579",
        "ISO 4017",
        "ISO 4014",
        "ISO 4026",
        "ISO 14580",
    ],
)
def test_lengths(folder, standard):
    with (folder / "nominal_screw_lengths.csv").open(encoding="utf-8-sig", newline="") as stream:
        listed = {row["Screw_Type"].strip(): row["Nominal_Sizes"] for row in csv.DictReader(stream)}
    theirs = [float(length) for length in listed[standard.lower().replace(" ", "")].split(",")]
    ours = next(entry.lengths_mm for entry in LEXICON.lengths if re.search(rf"{standard}\b", entry.source))
    assert [length for length in theirs if length <= max(ours) and length not in ours] == []
    assert [length for length in ours if min(theirs) <= length <= max(theirs) and length not in theirs] == []


def test_shortest_lengths_exceed_the_coarse_pitch(folder):
    """So "M3 x n" is a pitch if n is at most the coarse pitch and a length otherwise (every `:short` column)."""
    cells = _column(folder, "raised_cheese_head_parameters.csv", "iso7045:short")
    assert cells
    assert all(float(short) > 1.5 for short in cells.values())


def test_the_tables_ship_with_the_package():
    assert (files("miner.resources.lexicon") / "threads.toml").is_file()
