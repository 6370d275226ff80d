"""Telegraphic notes to full sentences: "2x PH2 M4x12, lid to case" is "Remove the two M4x12 PH2 screws that ..."."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache

from miner.language.annotations import Annotations, Clause, Group, Phrase
from miner.lexicon import Lexicon
from miner.lexicon.inflection import base_of_past, phrase_forms, plural, singular, verb_forms
from miner.lexicon.lookup import Lookup, lookup
from miner.procedures.note_words import NUMBERS, NoteWords, closeness
"""
