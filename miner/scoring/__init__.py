"""Drafts measured against gold files (annotated recordings).

Scores of several recordings are pooled: counts are added, not rates. What stands in a procedure or step that has no
counterpart is a miss or a false alarm. Names with a dot are the accuracy of a field over pairs, a field that both
sides leave empty not counted; `findings.CHECK` is an F1. The headline is the mean of six F1.
"""

from miner.scoring.cards import Card, score
from miner.scoring.folders import score_folders
from miner.scoring.gold import draft_from_gold

__all__ = ["Card", "draft_from_gold", "score", "score_folders"]
