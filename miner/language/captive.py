"""Whether words say of fasteners that they stay in their part when they are undone."""

from __future__ import annotations

import re

_THEY = r"(?:they|it|these|those|this|that|which|one|ones)"
_NOT = r"(?:won't|can't|cannot|don't|doesn't|shouldn't|will not|can not|do not|does not|never)"
_WHOLLY = r"(?:right|all the way|completely|fully|entirely|clean|altogether)"
_CAPTIVE = re.compile(
    r"(?<!not )(?<!n't )(?<!aren't )\b(?:captive|captured?)\b"
    r"|\b(?:they|these|those|that|which|ones?|and)(?:'ll| will| all| both| just| always)* (?:stays?|remains?)"
    r" (?:put|captive|behind|(?:in|with|inside) (?:there|place|the|their|its|it|them))\b"
    r"|\bit(?:'ll| will| just| always)* (?:stays?|remains?) (?:in|with|inside) (?:there|the|its)\b"
    rf"|\b{_THEY} (?:\w+ )?{_NOT} (?:\w+ )?(?:come|pull|wind|screw|unscrew) {_WHOLLY} (?:out|off|away|free)\b"
    rf"|\b{_NOT} (?:\w+ )?(?:fall|drop) (?:out|off)\b"
    r"|\b(?:you |so )?(?:can't|cannot|won't|couldn't) (?:\w+ )?lose (?:it|them|those|these|one|any)\b"
    r"|\b(?:are|is|they're|it's) (?:retained|trapped|held captive|tethered) (?:in|to|on|by)\b"
)


def says_captive(words: str) -> bool:
    """Whether lower-case words tell that the fasteners spoken of are captive ("they won't fall out")."""
    return bool(_CAPTIVE.search(words))
