"""The package as others import and install it."""

import subprocess
import sys
import tomllib

from samples import ROOT

import miner

PROJECT = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))


def test_every_public_name_resolves():
    for name in miner.__all__:
        assert getattr(miner, name) is not None
    assert set(miner.__all__) <= set(dir(miner))
    assert miner.__version__ == PROJECT["project"]["version"]


def test_the_type_checker_sees_the_same_names():
    block = (
        (ROOT / "miner" / "__init__.py")
        .read_text(encoding="utf-8")
        .split("if TYPE_CHECKING:")[1]
        .split("\n\n_HOMES")[0]
    )
    for name in miner._HOMES:
        assert f"import {name} as {name}" in block


def test_importing_the_package_loads_nothing():
    code = "import sys, miner; print([m for m in sys.modules if m.startswith('miner.')])"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"


def test_every_folder_with_code_is_packaged():
    folders = {".".join(path.parent.relative_to(ROOT).parts) for path in (ROOT / "miner").rglob("*.py")}
    mapped = {"miner.resources.lexicon", "miner.resources.shared"}
    assert set(PROJECT["tool"]["setuptools"]["packages"]) == folders | mapped


def test_every_package_says_what_it_is():
    for name in PROJECT["tool"]["setuptools"]["packages"]:
        folder = PROJECT["tool"]["setuptools"]["package-dir"].get(name, name.replace(".", "/"))
        assert (ROOT / folder / "__init__.py").read_text(encoding="utf-8").startswith('"""'), name


def test_modules_are_short():
    for path in (ROOT / "miner").rglob("*.py"):
        assert len(path.read_text(encoding="utf-8").splitlines()) <= 300, path
