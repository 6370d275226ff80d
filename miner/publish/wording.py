"""Words that every published format shares: clock times, fasteners, signal words. One place, so that all agree."""

from __future__ import annotations

import re
from html import escape

from miner.model.draft import Fastener, Notice, NoticeKind, Phase
from miner.model.finding import Severity, Suggestion

SIGNAL_WORDS: dict[NoticeKind, str] = {
    "danger": "DANGER",
    "warning": "WARNING",
    "caution": "CAUTION",
    "important": "IMPORTANT",
    "note": "NOTE",
}
"""Signal words, the strongest first."""

SEVERITY_WORDS: dict[Severity, str] = {"error": "Error", "warning": "Warning", "remark": "Remark"}
"""Severities of findings, the gravest first."""

PHASE_WORDS: dict[Phase, str] = {
    "prepare": "Preparation",
    "remove": "Removal",
    "install": "Reassembly",
    "after": "Checks afterwards",
}

SAFETY = (
    "This draft was made from what was said in a recording. It is no substitute for training: local codes and "
    "regulations, the maker's safety instructions and licensed practice go before anything written here."
)
"""Stands in every document made for people who do the work."""


def clock(seconds: float) -> str:
    """Seconds as people read them: `0:42`, `12:07`, `1:02:07`."""
    whole = max(0, int(seconds))
    hours, minutes = divmod(whole // 60, 60)
    return f"{hours}:{minutes:02d}:{whole % 60:02d}" if hours else f"{minutes}:{whole % 60:02d}"


def span(start: float, end: float) -> str:
    """A stretch of the recording: `0:42 to 0:55`, or one time where both are the same on the clock."""
    first, last = clock(start), clock(end)
    return first if first == last else f"{first} to {last}"


def amount(value: float) -> str:
    """A number without a needless `.0`: `8`, `2.5`."""
    return f"{value:g}"


def count_words(group: Fastener) -> str:
    """How many: `4 x`, `2 or 3 x`, or empty where nothing was said."""
    if group.count is not None:
        return f"{group.count} x"
    if group.count_alternatives:
        return " or ".join(str(one) for one in group.count_alternatives) + " x"
    return ""


def size_words(group: Fastener) -> str:
    """Thread and length: `M4 x 16`, `M4`, `16 mm`, or empty."""
    if group.thread and group.length_mm is not None:
        return f"{group.thread} x {amount(group.length_mm)}"
    return group.thread or (f"{amount(group.length_mm)} mm" if group.length_mm is not None else "")


def drive_words(group: Fastener) -> str:
    """The drive by its size, and by its name where the size does not tell it: `PH2`, `2.5 mm hex-socket`."""
    size, drive = group.drive_size or "", group.drive or ""
    return f"{size} {drive}".strip() if not size or size.endswith("mm") else size


def type_words(group: Fastener) -> str:
    """One kind of fastener, without its number and place: `M4 x 16 screw, PH2, countersunk head, captive`."""
    torque = f"{amount(group.torque_nm)} N m" if group.torque_nm is not None else ""
    head = f"{group.head} head" if group.head else ""
    name = f"{size_words(group)} {group.kind}".strip()
    captive = "captive" if group.captive else ""
    return ", ".join(word for word in (name, drive_words(group), head, captive, torque) if word)


def fastener_words(group: Fastener) -> str:
    """A group in one phrase: `4 x M4 x 16 screw, PH2`, `8 mm screw, T10 (number not said)`."""
    count = count_words(group)
    return f"{count} {type_words(group)}" if count else f"{type_words(group)} (number not said)"


def joint_words(group: Fastener) -> str:
    """What a group holds to what, as far as it was said: `rear cover to frame`."""
    if group.secures and group.to:
        return f"{group.secures} to {group.to}"
    return group.secures or (f"to {group.to}" if group.to else "")


def signal_rank(notice: Notice) -> tuple[int, float]:
    """Sorts notices at one place: the strongest signal word first, then in order of the recording."""
    return list(SIGNAL_WORDS).index(notice.kind), notice.start


_NO_XML = re.compile("[^\t\n\r\x20-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")


def xml_text(text: str) -> str:
    """Text as it may stand in XML or HTML, also inside quotes; characters that XML forbids become blanks."""
    return escape(_NO_XML.sub(" ", text))


def same_words(one: str, other: str) -> bool:
    """Whether two texts differ in nothing but case, punctuation and blanks."""
    first, second = (re.findall(r"\w+", text.casefold()) for text in (one, other))
    return first == second


def suggestion_words(one: Suggestion) -> str:
    """A suggested correction as a sentence that names its place, "In p01.s02, count: ..."."""
    head, _, kind = one.field.partition(".")
    if head == "notices":
        return f"Put a {kind} before {one.target}: {one.to}"
    place = f"In {one.target}, {one.field}:"
    if one.from_ is None:
        return f'{place} add "{one.to}".'
    if one.to is None:
        return f'{place} take out or reword "{one.from_}".'
    return f'{place} write "{one.to}" instead of "{one.from_}".'
