"""Places and drafts that many tests need."""

from __future__ import annotations

import json
from functools import cache
from pathlib import Path

from miner.model.draft import (
    Draft,
    Fastener,
    Heading,
    Install,
    InstallStep,
    Notice,
    Preparation,
    Prerequisite,
    Procedure,
    RecordingInfo,
    RepairRecord,
    Step,
)
from miner.model.finding import Evidence, Finding, Suggestion
from miner.model.graph import Edge, Graph, Node
from miner.scoring import draft_from_gold

ROOT = Path(__file__).resolve().parents[1]
FIXTURES = ROOT / "fixtures"
SCRIPT = FIXTURES / "quellwood" / "e2-service-script.srt"
HOSTILE = '<script>alert("1")</script> & *bold* [a](b) | `c`'


@cache
def gold_draft(name: str = "quellwood/e2-service-script") -> Draft:
    """The draft that says what a fixture's gold file says."""
    return draft_from_gold(json.loads((FIXTURES / f"{name}.gold.json").read_text(encoding="utf-8")))


def info(title: str = "A talk") -> RecordingInfo:
    return RecordingInfo(
        "talk", title, "espresso machine", "Quellwood E2", "a talk.srt", "subrip", None, 90.0, "ab12", "spoken"
    )


def small_draft(words: str = "take the two screws out") -> Draft:
    """A draft in which every field of the contract holds something; `words` stand wherever something was said."""
    group = Fastener("screw", 2, (), 16.0, "M4", "cross-recess", "PH2", None, True, 1.2, "top", "cover", "frame", 5, 9)
    step = Step("p01.s01", 1, "remove", 5.0, 9.0, "Take out the two screws.", words, "remove", "cover", "frame",
                ("PH2 driver",), "carefully", "if fitted", (group,), ("grease",), 0.9, {"part": "named before"})  # fmt: skip
    check = Step("p01.s02", 2, "after", 10.0, 12.0, words, words, "check")
    evidence = (Evidence(5.0, 9.0, words, "p01.s01"), Evidence(10.0, 12.0, "three screws", None))
    finding = Finding("count-mismatch-1", "count-mismatch", "error", f"Two or three: {words}", ("p01",), evidence,
                      Suggestion("p01.s01", "count", "2", "3"), "with two leads")  # fmt: skip
    general = Finding("stutter-1", "stutter", "remark", "Doubled", (), (Evidence(80.0, 81.0, words),))
    procedure = Procedure(
        "p01", words, "replace", "cover", Heading(words, 1.0, 4.0, False), 1.0, 12.0,
        (Prerequisite("tray", words, 2.0, 3.0, None),), (Preparation(words, 3.0, 4.0),), ("PH2 driver",),
        Install("reverse", words, 11.0, 12.0, (InstallStep("Refit the cover.", "fit", "cover", (group,), "p01.s01"),)),
        (step, check), (Notice("note", words, 6.0, 7.0, "p01.s01"), Notice("danger", words, 8.0, 9.0, "p01.s01"),
                        Notice("warning", words, 1.5, 2.0, None)), {"title": "no heading was spoken"},
    )  # fmt: skip
    graph = Graph(
        (Node("cover", "cover", "p01"), Node("tray", words, None)), (Edge("tray", "cover", "stated", 1.0, evidence),)
    )
    repairs = (RepairRecord("mishearing", 5.0, 5.5, words, "screws", "beside a drive"),)
    return Draft(info(words), (procedure,), (finding, general), graph, repairs)
