"""Prints one of the README's two commands: `readme_command.py demo|test`."""

from __future__ import annotations

import re
import sys
from pathlib import Path

README = Path(__file__).resolve().parents[1] / "README.md"


def commands() -> dict[str, str]:
    """The first two shell blocks of the README."""
    demo, test = re.findall(r"```sh\n(.+?)\n```", README.read_text(encoding="utf-8"), re.DOTALL)[:2]
    return {"demo": demo, "test": test}


if __name__ == "__main__":
    print(commands()[sys.argv[1]])
