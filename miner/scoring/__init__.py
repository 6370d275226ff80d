"""Drafts measured against gold files."""

from miner.scoring.gold import draft_from_gold

__all__ = ["draft_from_gold"]
