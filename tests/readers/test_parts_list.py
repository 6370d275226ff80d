"""Parts lists: columns by header, fasteners by description."""

import openpyxl
import pytest

from miner.errors import InputError
from miner.readers.parts_list import read_parts_list


def written(tmp_path, text, name="parts.csv", encoding="utf-8"):
    path = tmp_path / name
    path.write_bytes(text.encode(encoding))
    return path


@pytest.mark.parametrize(
    "text",
    [
        "Part number,Part name,Qty\nQ-1,top cover,1\nQ-2,Screw M4 x 12 T20,8\n",
        "Quellwood E2 parts;;\nP/N;Designation;Quantity\nQ-1;top cover;1\nQ-2;Screw M4 x 12 T20;8\n",
        "description\tpcs\tno.\ntop cover\t1\tQ-1\nScrew M4 x 12 T20\t8\tQ-2\n",
    ],
)
def test_columns_are_found_by_their_header(tmp_path, text):
    first, second = read_parts_list(written(tmp_path, text)).rows
    assert (first.name, first.number, first.quantity) == ("top cover", "Q-1", 1)
    assert first.fastener is None
    assert (second.fastener.thread, second.fastener.length_mm, second.fastener.drive_size) == ("M4", 12, "T20")
    assert second.quantity == 8


def test_size_columns(tmp_path):
    text = "name,thread,length mm,drive,qty\ncap screw,M5,16,hex 4,2\ncable tie,,,,6\n"
    screw, tie = read_parts_list(written(tmp_path, text)).rows
    assert (screw.fastener.thread, screw.fastener.length_mm, screw.fastener.drive_size) == ("M5", 16, "4 mm")
    assert tie.fastener.kind == "cable tie"


def test_other_names(tmp_path):
    parts = read_parts_list(written(tmp_path, "name,other names\nvibration pump,brew pump; pump\n"))
    assert parts.find("the brew pump") is parts.rows[0]
    assert parts.nearest("vibrating pump") is parts.rows[0]


def test_a_workbook(tmp_path):
    book = openpyxl.Workbook()
    for row in (["Parts of the E2", None], ["Name", "Qty"], ["top cover", 1], [None, None]):
        book.active.append(row)
    book.save(tmp_path / "parts.xlsx")
    (row,) = read_parts_list(tmp_path / "parts.xlsx").rows
    assert (row.name, row.quantity, row.line) == ("top cover", 1, 3)


def test_a_legacy_encoding(tmp_path):
    text = "name,qty\nd\u00fcse,1\n"
    assert read_parts_list(written(tmp_path, text, encoding="cp1252")).rows[0].name == "d\u00fcse"


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("colour,weight\nred,2\n", "no column for the part name"),
        ("", "no column for the part name"),
        ("name,qty\npump,many\n", "'many' is no quantity"),
    ],
)
def test_what_cannot_be_read_is_told_in_a_line(tmp_path, text, words):
    with pytest.raises(InputError) as caught:
        read_parts_list(written(tmp_path, text))
    assert words in str(caught.value)
    assert "parts.csv" in str(caught.value)
    assert "\n" not in str(caught.value)


def test_a_missing_file_and_a_false_workbook(tmp_path):
    with pytest.raises(InputError):
        read_parts_list(tmp_path / "none.csv")
    with pytest.raises(InputError):
        read_parts_list(written(tmp_path, "no workbook", name="parts.xlsx"))
