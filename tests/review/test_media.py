"""The recording itself: where it is looked for, and how it is sent."""

from dataclasses import replace

import pytest
from clients import make_client
from desks import busy_draft, put

from miner.review.library import Library
from miner.review.media import media_of

BYTES = bytes(range(256)) * 40


@pytest.fixture
def sounding(tmp_path):
    draft = busy_draft()
    draft = replace(draft, recording=replace(draft.recording, media="talk.mp3"))
    put(tmp_path / "out", draft)
    (tmp_path / "out" / "talk.mp3").write_bytes(BYTES)
    client = make_client(tmp_path / "out")
    client.get("/start?token=once")
    return client, f"/r/{next(iter(Library.at(tmp_path / 'out').entries()))}"


def test_the_page_has_a_player(sounding):
    client, path = sounding
    assert "<audio" in client.get(path).text


@pytest.mark.parametrize(
    ("wanted", "start", "end"), [("bytes=0-99", 0, 100), ("bytes=500-", 500, None), ("bytes=-10", -10, None)]
)
def test_ranges(sounding, wanted, start, end):
    client, path = sounding
    answer = client.get(f"{path}/media", headers={"range": wanted})
    assert answer.status_code == 206
    assert answer.content == BYTES[start:end]
    assert answer.headers["content-type"] == "audio/mpeg"
    assert answer.headers["content-range"].endswith(f"/{len(BYTES)}")


def test_the_whole_and_what_cannot_be_sent(sounding):
    client, path = sounding
    whole = client.get(f"{path}/media")
    assert (whole.status_code, whole.content, whole.headers["accept-ranges"]) == (200, BYTES, "bytes")
    assert client.get(f"{path}/media", headers={"range": "bytes=999999-"}).status_code == 416
    assert client.get(f"{path}/media", headers={"range": "lines=1-2"}).status_code == 400


@pytest.mark.parametrize("name", ["../secret.mp3", "/etc/passwd", "secret.txt", "..", "a\x00.mp3", "sub/talk.mp3"])
def test_a_draft_cannot_name_a_file_elsewhere(tmp_path, name):
    (tmp_path / "secret.mp3").write_bytes(b"x")
    (tmp_path / "out" / "sub").mkdir(parents=True)
    (tmp_path / "out" / "secret.txt").write_bytes(b"x")
    (tmp_path / "out" / "sub" / "talk.mp3").write_bytes(b"x")
    draft = busy_draft()
    draft = replace(draft, recording=replace(draft.recording, media=name))
    assert media_of(draft, tmp_path / "out", None) is None


def test_a_link_out_is_no_media(tmp_path):
    (tmp_path / "secret.mp3").write_bytes(b"x")
    (tmp_path / "out").mkdir()
    (tmp_path / "out" / "talk.mp3").symlink_to(tmp_path / "secret.mp3")
    draft = busy_draft()
    draft = replace(draft, recording=replace(draft.recording, media="talk.mp3"))
    assert media_of(draft, tmp_path / "out", None) is None


def test_media_that_the_editor_names(tmp_path):
    draft = busy_draft()
    given = tmp_path / "elsewhere" / "e2-service-script.webm"
    given.parent.mkdir()
    given.write_bytes(b"x")
    named = replace(draft, recording=replace(draft.recording, source="e2-service-script.srt"))
    assert media_of(named, tmp_path, given) == given
    assert media_of(named, tmp_path, given.parent) == given
    assert media_of(named, tmp_path, None) is None
