"""The way from a file to a recording: encodings, choice of reader, and every kind of file that is none."""

import codecs
from pathlib import Path

import pytest

from miner.errors import FormatError, InputError
from miner.readers import read_recording
from miner.readers.detection import choose_reader, decode
from miner.readers.reading import Claim
from miner.readers.registry import READERS, reader_names

SRT = "1\n00:00:01,000 --> 00:00:03,000\nDas Gehäuse – “off”\n"


@pytest.mark.parametrize(
    "data",
    [
        SRT.encode(),
        codecs.BOM_UTF8 + SRT.encode(),
        codecs.BOM_UTF16_LE + SRT.encode("utf-16-le"),
        codecs.BOM_UTF16_BE + SRT.encode("utf-16-be"),
        SRT.encode("utf-16-le"),
        SRT.encode("utf-16-be"),
        codecs.BOM_UTF32_LE + SRT.encode("utf-32-le"),
        SRT.encode("cp1252"),
        SRT.replace("\n", "\r\n").encode(),
        SRT.replace("\n", "\r").encode(),
    ],
)
def test_encodings_and_line_ends(read, data):
    assert [word.text for word in read(data).words()] == ["Das", "Gehäuse", "–", "“off”"]


def test_latin_1_where_the_windows_page_is_undefined():
    assert decode(b"caf\xe9 \x81 noir", "a.txt").startswith("café")


def test_id_title_and_digest(read):
    recording = read(SRT, "talk 2.final.srt", title="T", product="P", model="M", media="talk.mp4")
    assert (recording.id, recording.source, recording.format) == ("talk 2.final", "talk 2.final.srt", "srt")
    assert (recording.title, recording.product, recording.model, recording.media) == ("T", "P", "M", "talk.mp4")
    assert len(recording.sha256) == 64


@pytest.mark.parametrize(
    ("content", "what"),
    [
        (b"", "the file is empty"),
        (b" \r\n \n", "the file is empty"),
        (b"\xef\xbb\xbf", "the file is empty"),
        (b"\x89PNG\r\n\x1a\n" + bytes(range(256)) * 4, "not a text file"),
        (b"\xff\xfe\x00\xd8\x00", "breaks it at byte"),
        (b"only some prose.\nNo times at all.\n", "no known format"),
        (b'{"a": 1}', "no list of segments"),
        (b"WEBVTT\n\nNOTE nothing here\n", "no cue found"),
    ],
)
def test_what_is_no_recording(read, content, what):
    with pytest.raises(InputError) as caught:
        read(content, "talk.dat")
    message = str(caught.value)
    assert what in message
    assert message.startswith("talk.dat")
    assert "\n" not in message
    assert caught.value.remedy


def test_missing_file_and_folder(tmp_path: Path):
    with pytest.raises(InputError, match="no such file"):
        read_recording(tmp_path / "none.srt")
    with pytest.raises(InputError, match="a folder"):
        read_recording(tmp_path)


def test_content_counts_and_not_the_ending(read):
    assert read(SRT, "talk.vtt").format == "srt"
    assert read("WEBVTT\n\n00:01.000 --> 00:02.000\nhi", "talk.srt").format == "vtt"
    assert read("0:42 lid off\n0:50 pull fan", "talk.srt").format == "notes"


def test_named_format(read):
    assert read("[0:01] one", "a.txt", format="TEXT").format == "text"
    with pytest.raises(FormatError, match="Use one of: vtt, srt"):
        read(SRT, format="word")


class _Reader:
    def __init__(self, name, score, endings):
        self.name, self.score, self.endings = name, score, endings

    def sniff(self, text, path):
        return Claim(self.score, f"reason of {self.name}")


def test_a_tie_is_decided_by_the_ending_or_not_at_all():
    one, other = _Reader("one", 0.9, (".one",)), _Reader("other", 0.88, (".other",))
    assert choose_reader("x", Path("a.other"), [one, other]) is other
    with pytest.raises(FormatError, match="reason of one; other: reason of other"):
        choose_reader("x", Path("a.txt"), [one, other])


def test_out_of_order_overlaps_and_gaps(read):
    text = "\n\n".join(
        f"{n}\n00:00:{start:02},000 --> 00:00:{end:02},000\n{word}"
        for n, start, end, word in [(1, 5, 9, "c"), (2, 1, 6, "a"), (3, 1, 2, "b"), (4, 40, 41, "d")]
    )
    recording = read(text)
    assert [cue.text for cue in recording.cues] == ["a", "b", "c", "d"]
    assert recording.cues[0].end == 6.0
    assert recording.duration == 41.0


def test_every_reader_has_name_and_endings():
    assert len(set(reader_names())) == len(READERS)
    assert all(ending.startswith(".") for reader in READERS for ending in reader.endings)
