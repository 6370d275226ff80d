"""Wording: doubled words, references that nobody could resolve, and instructions that are hard to follow.

The last two follow published rules of simplified technical English: at most 20 words in an instruction, one
instruction a sentence. They are remarks, since a draft quotes speech.

To add a check to this family: write a function from a `Case` to `Fault`s and list it at the end.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from miner.findings.case import Case, Check, Fault, step_evidence
from miner.lexicon.lookup import lookup

_MOST_WORDS = 20
_SENTENCE = re.compile(r"(?<=[.!?])\s+")
_WORD = re.compile(r"[^\s]*[^\W_][^\s]*")
_JOINED = re.compile(r"(?<=\w)[,;]?\s+(?:and\s+then|and|then)\s+([a-z]+)\b(?:\s+([a-z]+))?")
_OBJECT = frozenset("the a an it them this that these those both all each its your".split())


def stutter(case: Case) -> Iterator[Fault]:
    """A word or phrase is doubled by mistake."""
    for one in case.observed("stutter"):
        home = case.at(one.evidence[0].start)
        word = one.detail.get("word", "")
        yield Fault(f"'{word}' is said twice in a row.", (home.id,) if home else (), one.evidence)


def unclear_reference(case: Case) -> Iterator[Fault]:
    """'It', 'this' or 'that one' could mean several things, or none."""
    for one in case.observed("unclear-reference"):
        home = case.at(one.evidence[0].start)
        if home is None:
            continue  # what is said before and after the jobs is no instruction
        pronoun, candidates = one.detail.get("pronoun", "it"), one.detail.get("candidates", "")
        may = f" It may be: {candidates}." if candidates else ""
        yield Fault(f"It is not clear what '{pronoun}' refers to.{may}", (home.id,), one.evidence)


def long_instruction(case: Case) -> Iterator[Fault]:
    """An instruction of more than 20 words."""
    for procedure in case.draft.procedures:
        for step in procedure.steps:
            longest = max((len(_WORD.findall(sentence)) for sentence in _SENTENCE.split(step.text)), default=0)
            if longest > _MOST_WORDS:
                yield Fault(
                    f"The instruction has {longest} words; {_MOST_WORDS} are enough.",
                    (procedure.id,),
                    (step_evidence(step),),
                )


def several_instructions(case: Case) -> Iterator[Fault]:
    """A sentence that gives more than one instruction."""
    verbs = lookup(case.lexicon).actions
    for procedure in case.draft.procedures:
        for step in procedure.steps:
            if not step.action:
                continue
            for sentence in _SENTENCE.split(step.text):
                more = [
                    word
                    for word, after in _JOINED.findall(sentence.casefold())
                    if word in verbs and (after in _OBJECT or not verbs[word].noun)
                ]
                if more:
                    yield Fault(
                        f"The sentence gives {len(more) + 1} instructions; make each a sentence of its own.",
                        (procedure.id,),
                        (step_evidence(step),),
                    )
                    break


CHECKS = (
    Check(
        "stutter",
        "remark",
        "A word or phrase is doubled by mistake.",
        "Open the the hose clamp.",
        stutter,
    ),
    Check(
        "unclear-reference",
        "error",
        "'It', 'this' or 'that one' that an editor could not resolve.",
        "Unplug the pump lead and the valve lead, then tuck that one behind the frame.",
        unclear_reference,
    ),
    Check(
        "long-instruction",
        "remark",
        "An instruction has more than 20 words, the limit of simplified technical English.",
        "Remove the four screws of the top cover, of which two are long and two are short, and put them in two trays.",
        long_instruction,
    ),
    Check(
        "several-instructions",
        "remark",
        "A sentence gives more than one instruction.",
        "Open the hose clamp and pull the hose off.",
        several_instructions,
    ),
)
