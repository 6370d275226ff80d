"""Draft and teardown -> findings, each with evidence from every side."""

from miner.findings.case import Case, Check
from miner.findings.listed_parts import with_listed_parts
from miner.findings.registry import CHECKS
from miner.findings.running import check

__all__ = ["CHECKS", "Case", "Check", "check", "with_listed_parts"]
