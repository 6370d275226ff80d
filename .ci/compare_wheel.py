"""Fails unless a wheel and an sdist hold every module and every shipped file of the checkout, and the wheel no more.

compare_wheel.py WHEEL SDIST
"""

from __future__ import annotations

import sys
import tarfile
import zipfile
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]
MAPPED = {"lexicon": "miner/resources/lexicon", "shared": "miner/resources/shared"}


def expected() -> dict[str, str]:
    """Path in the checkout -> path in the wheel, of everything that must be shipped."""
    found = {}
    for top in ("miner", *MAPPED):
        for path in sorted((ROOT / top).rglob("*")):
            if path.is_file() and "__pycache__" not in path.parts and path.suffix != ".pyc":
                inner = path.relative_to(ROOT / top).as_posix()
                found[f"{top}/{inner}"] = f"{MAPPED.get(top, top)}/{inner}"
    return found


def main(wheel: str, sdist: str) -> int:
    """0 if all is there."""
    with zipfile.ZipFile(wheel) as archive:
        in_wheel = {name for name in archive.namelist() if ".dist-info/" not in name}
    with tarfile.open(sdist) as archive:
        in_sdist = {name.partition("/")[2] for name in archive.getnames()}
    wanted = expected()
    faults = [
        *(f"not in the wheel: {name}" for name in sorted(set(wanted.values()) - in_wheel)),
        *(f"in the wheel only: {name}" for name in sorted(in_wheel - set(wanted.values()))),
        *(f"not in the sdist: {name}" for name in sorted(set(wanted) - in_sdist)),
    ]
    print("\n".join(faults) or f"{len(wanted)} files in both")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
