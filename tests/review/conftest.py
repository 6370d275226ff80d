"""A draft in a folder, and a client that was let in."""

import pytest
from clients import make_client
from desks import busy_draft, put

from miner.review.library import Library


@pytest.fixture
def folder(tmp_path):
    return put(tmp_path / "out", busy_draft())


@pytest.fixture
def client(folder):
    made = make_client(folder)
    assert made.get("/start?token=once").status_code == 200
    return made


@pytest.fixture
def key(folder):
    return next(iter(Library.at(folder).entries()))
