"""Recording -> Recording, with the transcript repaired and the repairs recorded."""

from miner.captions.repairs import repair

__all__ = ["repair"]
