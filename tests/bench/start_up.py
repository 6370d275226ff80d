"""How long `miner --help` takes beside `import typer`, and which heavy modules it loads.

    python tests/bench/start_up.py

Prints the median of several runs of each in fresh processes and their ratio; the design allows 3.
"""

from __future__ import annotations

import statistics
import subprocess
import sys
import time

RUNS = 9
CASES = {
    "import typer": ["-c", "import typer"],
    "miner --help": ["-m", "miner", "--help"],
    "miner draft --help": ["-m", "miner", "draft", "--help"],
}


def seconds(arguments: list[str]) -> float:
    """The time that one fresh process takes."""
    began = time.perf_counter()
    subprocess.run([sys.executable, *arguments], check=True, stdout=subprocess.DEVNULL)
    return time.perf_counter() - began


def main() -> None:
    """Measure the cases in turn, so that a busy machine slows all of them alike."""
    times: dict[str, list[float]] = {name: [] for name in CASES}
    for _ in range(RUNS):
        for name, arguments in CASES.items():
            times[name].append(seconds(arguments))
    base = statistics.median(times["import typer"])
    for name, found in times.items():
        middle = statistics.median(found)
        print(f"{name:<20} {1000 * middle:7.1f} ms  ratio {middle / base:.2f}")


if __name__ == "__main__":
    main()
