"""The built-in trade lexicon: data only (TOML), read through `miner.resources`."""
