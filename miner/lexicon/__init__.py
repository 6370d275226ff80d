"""The trade lexicon in memory: loaded from TOML layers, looked up, turned into patterns."""

from miner.lexicon.loading import Lexicon, load_lexicon

__all__ = ["Lexicon", "load_lexicon"]
