"""Where the files shipped beside the code lie; nothing else in the package knows.

`lexicon/` and `shared/` stand at the top of the repository and are mapped into this package by the build
(`[tool.setuptools.package-dir]`), so the same call works in a wheel, an editable install and an sdist.
"""

from __future__ import annotations

from importlib.resources import files
from importlib.resources.abc import Traversable


def lexicon_files() -> tuple[Traversable, ...]:
    """The built-in lexicon layers (`*.toml`), sorted by name."""
    folder = files("miner.resources.lexicon")
    return tuple(sorted((f for f in folder.iterdir() if f.name.endswith(".toml")), key=lambda f: f.name))


def boundary_weights() -> Traversable:
    """The trained weights of `miner.language.boundary_model`."""
    return files("miner.resources.lexicon") / "boundaries.json"


def shared_file(*parts: str) -> Traversable:
    """A shipped schema, template or style sheet, by its path below `shared/`."""
    found = files("miner.resources.shared")
    for part in parts:
        found = found / part
    return found
