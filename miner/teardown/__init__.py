"""Draft -> what holds what, what is out when, what must come off before what."""

from miner.teardown.building import Teardown, build

__all__ = ["Teardown", "build"]
