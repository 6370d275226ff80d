"""The part that a heading announces, and whether two part names may mean one part."""

from __future__ import annotations

from functools import lru_cache

from miner.lexicon.loading import Lexicon
from miner.lexicon.lookup import lookup
from miner.model.draft import Procedure
from miner.model.naming import SIDES, part_key, part_words

_STOP = frozenset(
    "replace repl remove install inspect adjust test take get off out how to of the a an and new next swap change "
    "changing exchange fit fitting refit renew renewal repair service replacement removal task installation adjustment "
    "inspection testing removing replacing installing adjusting procedure section step part job now so then ok "
    "okay thing last first up concludes completes complete done finished that this is it".split()
)


@lru_cache(maxsize=4)
def _job_words(lexicon: Lexicon) -> frozenset[str]:
    """Words of a heading that name the job and not the part: verbs of the lexicon, in any form, and their nouns."""
    found = lookup(lexicon)
    nouns = {action.verb for action in lexicon.actions if action.noun}
    return _STOP | (frozenset(found.verb_forms) - nouns)


def heading_part(procedure: Procedure, lexicon: Lexicon) -> tuple[str, ...]:
    """The words of the part that the title announces, without the words that name the job.

    A title that holds the whole subject announces the subject, whatever else stands in it.
    """
    words = part_words(procedure.title)
    subject = part_words(procedure.subject)
    if set(subject) <= {*words, *part_words(procedure.heading.text or procedure.title)}:
        return subject
    return without_job(words, lexicon)


def without_job(words: tuple[str, ...], lexicon: Lexicon) -> tuple[str, ...]:
    """The words of a name or title that do not name the job."""
    job = _job_words(lexicon)
    label = 1 if len(words) > 1 and len(words[0]) == 1 else 0  # "job f: control board"
    return tuple(word for word in words[label:] if word not in job)


@lru_cache(maxsize=4)
def word_classes(lexicon: Lexicon) -> dict[str, str]:
    """Words that stand for one another within names, each with the first of its class: "cowl" and "shroud"."""
    classes: dict[str, str] = {}
    for entry in lexicon.synonyms:
        if all(" " not in term for term in entry.terms):
            classes.update((part_key(term), part_key(entry.terms[0])) for term in entry.terms)
    return classes


def by_class(key: str, lexicon: Lexicon) -> tuple[str, ...]:
    """The words of a name, each by the first word of its class."""
    classes = word_classes(lexicon)
    return tuple(classes.get(word, word) for word in key.split())


def related(a: tuple[str, ...], b: tuple[str, ...]) -> bool:
    """Whether two names may mean one part: one holds all words of the other, or they share the last word."""
    return bool(a) and bool(b) and (set(a) <= set(b) or set(b) <= set(a) or a[-1] == b[-1] or "".join(a) == "".join(b))


def opposed(a: tuple[str, ...], b: tuple[str, ...]) -> bool:
    """Whether each name has a word of its own that tells sides or sorts apart: "left hinge", "right hinge"."""
    one, other = set(a) - set(b), set(b) - set(a)
    if not one or not other:
        return False
    sides = bool(one & SIDES) and bool(other & SIDES)
    return sides or (min(len(a), len(b)) > 1 and not set(a[:-1]) & set(b[:-1]))
