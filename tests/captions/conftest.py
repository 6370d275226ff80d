"""Makes `recordings` importable, and the built-in lexicon at hand."""

import sys
from pathlib import Path

import pytest

from miner.lexicon import Lexicon, load_lexicon

sys.path.insert(0, str(Path(__file__).parent))


@pytest.fixture(scope="session")
def lexicon() -> Lexicon:
    return load_lexicon()
