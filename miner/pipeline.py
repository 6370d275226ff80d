"""The road in one screen: read, repair, annotate, draft, tear down, check."""

from __future__ import annotations

import gc
from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager
from dataclasses import replace

from miner.captions import repair
from miner.findings import check, with_listed_parts
from miner.language.annotations import annotations_of
from miner.language.pipeline import annotate
from miner.lexicon import Lexicon
from miner.model.draft import Draft
from miner.model.recording import Recording
from miner.procedures.drafting import draft_recording
from miner.readers.parts_list import PartsList
from miner.teardown import build

Progress = Callable[[str], None]


@contextmanager
def _collector_paused() -> Iterator[None]:
    """No search for reference cycles: the road makes none, and its many objects would start it again and again."""
    was_on = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if was_on:
            gc.enable()


def mine(
    recording: Recording,
    lexicon: Lexicon,
    *,
    ignore: Iterable[str] = (),
    parts_list: PartsList | None = None,
    progress: Progress | None = None,
) -> Draft:
    """The draft of a recording, with its graph and findings.

    Args:
        recording: as a reader gives it.
        lexicon: the trade's words.
        ignore: ids of checks that are not run.
        parts_list: names, quantities and sizes to check against, if there is one.
        progress: told the name of each stage as it starts.
    """
    with _collector_paused():
        return _mined(recording, lexicon, ignore, parts_list, progress or (lambda _stage: None))


def _mined(
    recording: Recording, lexicon: Lexicon, ignore: Iterable[str], parts_list: PartsList | None, say: Progress
) -> Draft:
    say("captions")
    recording = repair(recording, lexicon)
    say("language")
    known = annotations_of(annotate(recording, lexicon))
    say("procedures")
    drafted = draft_recording(recording, known, lexicon)
    say("teardown")
    teardown = build(drafted.draft, lexicon)
    draft = replace(drafted.draft, graph_=teardown.graph)
    say("findings")
    found = check(
        draft,
        teardown,
        drafted.observations,
        lexicon,
        ignore=tuple(ignore),
        parts_list=parts_list,
        recording=recording,
    )
    draft = replace(draft, findings=found)
    return draft if parts_list is None else with_listed_parts(draft, parts_list, lexicon)
