"""Cuts the words into sentences, with the speaker's punctuation or without any, and sentences into clauses.

Without punctuation the cuts come from the words of discourse ("okay so", "next", "and then"), from a subject with its
verb after a finished phrase, from a bare imperative, and from silence.
"""

from __future__ import annotations

import re

from spacy.tokens import Doc

from miner.language.annotations import Annotations, annotations_of

WORDS_A_STOP = 45
"""A text with fewer full stops than one in so many words counts as unpunctuated."""

_STARTERS = frozenset(
    "ow wow ugh oops yikes geez so okay ok now then next right alright also anyway yeah oh finally lastly well yep".split()
)
_SOFT = frozenset("then now also right well".split())
_SUBJECT = re.compile(
    r"(?:I|e|O)[RJ]*[XSVEI]|I[RT]*[VXE]|e[DNQnHFAO]|O[RJT]*[XI]|D?[QNAZnHFGE]*[nHF]R*(?:S(?![nHF])|XR*[Er])"
)
_CONTRACTED = frozenset(
    "it's that's there's they're these're those're here's i'm we're you're i'll we'll you'll it'll that'll i've we've you've let's he's she's this'll".split()
)
_ITEMS = frozenset("thing one job item part task bit".split())
_PUT_BACK = re.compile(r"when (?:it|that|this|they|you|the \w+) (?:goes|go|put|fit|refit|install|come)")
_LISTING = re.compile(r"(?:D[AN]*[nH]+){2,}$")
_ANNOUNCED = re.compile(r"T+D?[AQ]*[nH]{1,4}$")
_FINISHED = frozenset("nHFrRONZASEQ")
_CLAUSE = re.compile(
    r"V|J[V]?|X?JX*V|[IeO][RJTX]*[XVSE]|I[RTfX]*[VXEG]|e[DNQnHFAR]"
    r"|(?:D|Q|N|A|Z|n|H|F|o|G(?=[nHF]))*[nHFON][RJXN]*(?:S|V(?=r)|X[RJr]*[VEGXArp])|G[DONQnH]|(?:D|Q|N|A|Z|n|H|F|o)*[nHF]R*r+(?=[.,CWp]|$)"
)
_SKIP = re.compile(r"[TCRfx,\-]*")


def find_sentences(doc: Doc) -> list[tuple[int, int]]:
    """Token ranges of the sentences, in order, without gaps; tags must have been set."""
    return sentences_in(annotations_of(doc))


def sentences_in(known: Annotations) -> list[tuple[int, int]]:
    """As find_sentences, from annotations."""
    tags = known.tags
    starts = {0}
    stops = tags.count(".")
    if known.breaks:
        starts |= known.breaks
        starts |= {i + 1 for i in _stops(known)}
    elif stops * WORDS_A_STOP >= len(tags):
        starts |= {i + 1 for i in _stops(known)}
    else:
        starts |= {i + 1 for i in _stops(known)}
        starts.update(_unpunctuated(known))
    ordered = sorted(i for i in starts if i < len(tags))
    return [(a, b) for a, b in zip(ordered, [*ordered[1:], len(tags)], strict=True) if a < b]


def _stops(known: Annotations) -> list[int]:
    """Full stops that end a sentence; a colon after a label and a stop inside dots do not."""
    tags, lower = known.tags, known.lower
    found: list[int] = []
    last = -1
    for match in re.finditer(r"\.+", tags):
        at = match.end() - 1
        begin = max(
            last + 1,
            max((b for b in known.breaks if b <= match.start()), default=0) if len(known.breaks) < 64 else last + 1,
        )
        worded = any(t not in "x-,." for t in tags[begin : match.start()])
        if known.breaks and (lower[at] == ":" or match.start() in known.breaks):
            continue
        if worded:
            found.append(at)
            last = at
    return found


def _unpunctuated(known: Annotations) -> list[int]:
    tags, lower = known.tags, known.lower
    found: list[int] = []
    last = 0
    for i in range(1, len(tags) - 1):
        if i - last < 2:
            continue
        before, tag, word = tags[i - 1], tags[i], lower[i]
        if before == "f" and i >= 2:
            before = tags[i - 2]
        cut = False
        if i in known.pauses and before in _FINISHED:
            cut = True
        elif word in _STARTERS and tag in "TRA":
            opens = word == "so" and (
                tags[i + 1] == "e" or lower[i + 1] in _CONTRACTED or before == "W" or lower[i + 1] == "first"
            )
            cut = (
                (opens or before not in "TDXpotWI") and not (before == "C" and i - 1 == last) and _opens(tags, lower, i)
            )
            if cut and before == "C":
                i -= 1
        elif tag in "IeO" and before in _FINISHED:
            cut = (word in _CONTRACTED or _SUBJECT.match(tags, i) is not None) and not _relative(tags, lower, i)
        elif (
            tag == "C"
            and word == "and"
            and tags[i + 1] == "V"
            and tags[i + 2 : i + 3] in ("D", "O", "Q", "N")
            and _told(tags, last, i)
        ) or (
            tag == "V"
            and before in "nHFrRNZOAE"
            and not (before == "R" and tags[i - 2] in "CTIXt")
            and (
                tags[i + 1] in "DOQNd"
                or (before == "r" and tags[i + 1] == "p")
                or (tags[i + 1 : i + 2] == "r" and tags[i + 2 : i + 3] in ("D", "O", "Q", "N"))
            )
            and not _governed(tags, i)
        ):
            cut = True
        elif tag == "C" and lower[i] in ("and", "but") and tags[i + 1] in "DIeOTR" and before in _FINISHED:
            first = _SKIP.match(tags, i).end()  # type: ignore[union-attr]
            cut = not _LISTING.search(tags[max(i - 12, 0) : i]) and (
                _SUBJECT.match(tags, first) is not None or lower[min(first, len(lower) - 1)] in _CONTRACTED
            )
        elif tag == "D" and before in "rRnHF" and word not in ("a", "an", "no", "some", "any"):
            match = re.compile(r"D[QNAZnHF]*[nHF]R*S").match(tags, i)
            cut = match is not None and not _governed(tags, i) and before in "rR"
        elif (
            word == "next" and lower[i + 1] in ("up", "is", "thing", "one", "job", "comes") and before not in "DTC"
        ) or (word == "same" and lower[i + 1] in ("story", "deal", "again", "drill") and before in _FINISHED):
            cut = True
        elif tag == "J" and word in ("don't", "never", "dont") and (before in _FINISHED or before == "C"):
            cut = True
            if before == "C":
                i -= 1
        elif (
            (
                tag == "D"
                and before not in "otDA"
                and lower[i + 1] in ("next", "last", "final", "first")
                and lower[min(i + 2, len(lower) - 1)] in _ITEMS
            )
            or (
                word == "if"
                and before in _FINISHED
                and lower[i + 1] in ("it", "you", "yours", "there's", "they", "you've", "the")
            )
            or (tag in "IOe" and before == "T" and lower[i - 1] in ("again", "too") and word in _CONTRACTED)
            or (word == "for" and lower[i + 1] in ("this", "that", "these") and before in _FINISHED)
            or (word == "when" and before in _FINISHED and _PUT_BACK.match(" ".join(lower[i : i + 4])))
            or (tag in "AD" and before in "nH" and _ANNOUNCED.search(tags[max(i - 8, 0) : i]))
        ):
            cut = True
        if cut and i > last:
            found.append(i)
            last = i
    return found


def _told(tags: str, last: int, i: int) -> bool:
    """Whether the utterance so far has a subject or forbids something, so that an instruction after "and" is a new one."""
    core = _SKIP.match(tags, last).end()  # type: ignore[union-attr]
    return core < i and (tags[core] in "IeOJ" or (tags[core] in "DnHAQN" and "X" in tags[core:i]))


def _opens(tags: str, lower: list[str], i: int) -> bool:
    """A word like "right" or "now" opens an utterance only where something follows that can stand first."""
    if lower[i] not in _SOFT:
        return True
    rest = tags[_SKIP.match(tags, i).end() :][:1]  # type: ignore[union-attr]
    return rest in ("V", "I", "O", "e", "D", "G", "W", "J", "Q", "N", "X", "p", "t") and not (
        lower[i] == "right" and tags[i + 1] in "nHF"
    )


def _relative(tags: str, lower: list[str], i: int) -> bool:
    """A subject inside a relative or reported clause: "the one you took out", "see where it goes"."""
    if (
        tags[i - 1] in "WV"
        or (tags[i - 1] == "X" and lower[i] not in _CONTRACTED)
        or lower[i - 1]
        in (
            "sure",
            "check",
            "see",
            "means",
            "think",
            "know",
            "hope",
            "until",
            "like",
            "that",
            "what",
            "which",
            "where",
            "how",
            "way",
            "time",
            "however",
            "whatever",
        )
    ):
        return True
    if (
        tags[i] == "I"
        and lower[i] in ("you", "we", "i", "they", "you've", "we've")
        and tags[max(i - 4, 0) : i].count("W")
    ):
        return True
    return tags[i] == "O" and tags[i - 1] in "VpotGE"


def _governed(tags: str, i: int) -> bool:
    """A verb that hangs on "to", an auxiliary or a subject just before it."""
    j = i - 1
    while j > 0 and tags[j] in "RJ":
        if tags[j] == "J":
            return True
        j -= 1
    return tags[j] in "tXIWJ" or (tags[j] in "C" and tags[max(j - 4, 0) : j].count("t") > 0)


def clause_starts(known: Annotations, start: int, end: int) -> list[int]:
    """Where the clauses of a sentence begin; the first is the sentence's own start."""
    tags = known.tags
    found = [start]
    for i in range(start + 1, end - 1):
        tag = tags[i]
        if tag not in ",CT-" or i <= found[-1]:
            continue
        if tag == "T" and tags[i - 1] in ",C-T":
            continue
        if i - found[-1] < 2 and tags[found[-1] : i].strip("TCRfx,-") == "":
            continue
        core = _SKIP.match(tags, i).end()  # type: ignore[union-attr]
        if core >= end:
            continue
        if tag in ",C-" or known.lower[i] in _STARTERS:
            match = _CLAUSE.match(tags, core, end)
            if match and not _list_goes_on(tags[start:i], tags, i, core):
                found.append(i)
    return found


def _list_goes_on(before: str, tags: str, i: int, core: int) -> bool:
    """An enumeration of parts is no clause: in "the lid, the tray and the pump must be out" only the whole has a verb."""
    if tags[core] in "VJG" or tags[core] in "IeO":
        return tags[core] == "G" and tags[i] == ","
    return not set(before) & set("VSX")
