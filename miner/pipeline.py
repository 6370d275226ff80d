"""The road in one screen: read, repair, annotate, draft, tear down, check."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import replace

from miner.captions import repair
from miner.findings import check
from miner.language.annotations import annotations_of
from miner.language.pipeline import annotate
from miner.lexicon import Lexicon
from miner.model.draft import Draft
from miner.model.recording import Recording
from miner.procedures.drafting import draft_recording
from miner.readers.parts_list import PartsList
from miner.teardown import build

Progress = Callable[[str], None]


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
    say = progress or (lambda stage: None)
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
    found = check(draft, teardown, drafted.observations, lexicon, ignore=tuple(ignore), parts_list=parts_list)
    return replace(draft, findings=found)
