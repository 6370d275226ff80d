"""`python -m miner` is the command `miner`."""

from miner.cli import main

main()
