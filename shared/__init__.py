"""Schemas and templates shipped with the package, read through `miner.resources`."""
