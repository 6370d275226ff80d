"""The contract `draft/1`: what is said of one recording. Times are seconds from its start, lengths millimetres.

The classes are plain frozen dataclasses; `serialise.py` reads, writes and describes them (JSON Schema).
A field whose JSON name is a Python keyword ends in an underscore and carries the JSON name as alias.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Annotated, Literal

from pydantic import Field

from miner.model.finding import Finding
from miner.model.graph import Graph
from miner.model.recording import Register

if TYPE_CHECKING:
    import networkx
    import pandas

Kind = Literal["replace", "remove", "install", "inspect", "adjust", "test"]
Phase = Literal["prepare", "remove", "install", "after"]
NoticeKind = Literal["danger", "warning", "caution", "important", "note"]
InstallMode = Literal["reverse", "explicit", "none"]
FrameName = Literal["procedures", "steps", "fasteners", "prerequisites", "notices", "findings", "parts"]


@dataclass(frozen=True, slots=True)
class RecordingInfo:
    """Where a draft came from."""

    id: str
    title: str
    product: str
    model: str
    source: str
    format: str
    media: str | None
    duration: float
    sha256: str
    register: Register


@dataclass(frozen=True, slots=True)
class Heading:
    """The utterance that announces a job; `spoken` is false where the title had to be inferred."""

    text: str
    start: float
    end: float
    spoken: bool


@dataclass(frozen=True, slots=True)
class Prerequisite:
    """A part said to be out already; `procedure` is the id of the procedure that removes it."""

    part: str
    text: str
    start: float
    end: float
    procedure: str | None = None


@dataclass(frozen=True, slots=True)
class Preparation:
    """Something said as a precondition that is no removal of a part."""

    text: str
    start: float
    end: float


@dataclass(frozen=True, slots=True)
class Fastener:
    """One group of fasteners that a step works on. Vocabulary: see the schema and the lexicon.

    `count` is None when none was said; `count_alternatives` holds what was left open ("two or three").
    `secures` and `to` name the parts that the group holds together, as said.
    """

    kind: str
    count: int | None = None
    count_alternatives: tuple[int, ...] = ()
    length_mm: float | None = None
    thread: str | None = None
    drive: str | None = None
    drive_size: str | None = None
    head: str | None = None
    captive: bool = False
    torque_nm: float | None = None
    location: str | None = None
    secures: str | None = None
    to: str | None = None
    start: float = 0.0
    end: float = 0.0


@dataclass(frozen=True, slots=True)
class Step:
    """One physical operation. `inferred` maps a field to the reason why its value was inferred, not said."""

    id: str
    number: int
    phase: Phase
    start: float
    end: float
    text: str
    spoken: str
    action: str | None = None
    part: str | None = None
    from_: Annotated[str | None, Field(alias="from")] = None
    tools: tuple[str, ...] = ()
    manner: str | None = None
    condition: str | None = None
    fasteners: tuple[Fastener, ...] = ()
    supplies: tuple[str, ...] = ()
    confidence: float = 1.0
    inferred: dict[str, str] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Notice:
    """A danger, warning, caution, important remark or note; `step` is the id of the step it guards or None."""

    kind: NoticeKind
    text: str
    start: float
    end: float
    step: str | None = None


@dataclass(frozen=True, slots=True)
class InstallStep:
    """A reassembly step derived by reversing `from_step` (inverse verb, same fasteners)."""

    text: str
    action: str | None
    part: str | None
    fasteners: tuple[Fastener, ...]
    from_step: str


@dataclass(frozen=True, slots=True)
class Install:
    """How the part goes back: `mode`, the words that say so, and the derived steps."""

    mode: InstallMode = "none"
    text: str = ""
    start: float | None = None
    end: float | None = None
    steps: tuple[InstallStep, ...] = ()


@dataclass(frozen=True, slots=True)
class Procedure:
    """One job. `closing` is the sentence that ends it ("that's the pump done"), where one was said."""

    id: str
    title: str
    kind: Kind
    subject: str
    heading: Heading
    start: float
    end: float
    prerequisites: tuple[Prerequisite, ...] = ()
    preparations: tuple[Preparation, ...] = ()
    tools: tuple[str, ...] = ()
    install: Install = Install()
    steps: tuple[Step, ...] = ()
    notices: tuple[Notice, ...] = ()
    inferred: dict[str, str] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class RepairRecord:
    """A change the caption stage made to the transcript."""

    kind: str
    start: float
    end: float
    from_: Annotated[str, Field(alias="from")]
    to: str
    reason: str


@dataclass(frozen=True, slots=True)
class NewTerm:
    """A part name built on no head noun of the lexicon: a term to add."""

    term: str
    count: int
    start: float


@dataclass(frozen=True, slots=True)
class ListedPart:
    """A row of the parts list that the recording speaks of: what it was called there, and first when (seconds)."""

    name: str
    number: str = ""
    quantity: float | None = None
    called: tuple[str, ...] = ()
    start: float = 0.0


@dataclass(frozen=True, slots=True)
class Draft:
    """Everything the miner says of one recording.

    `parts` is filled where a parts list was given. `repairs` and `new_terms` stand beside the contract's fields so
    that nothing the miner did stays hidden.
    """

    recording: RecordingInfo
    procedures: tuple[Procedure, ...] = ()
    findings: tuple[Finding, ...] = ()
    graph_: Annotated[Graph, Field(alias="graph")] = field(default_factory=Graph)
    repairs: tuple[RepairRecord, ...] = ()
    new_terms: tuple[NewTerm, ...] = ()
    parts: tuple[ListedPart, ...] = ()
    schema: Literal["draft/1"] = "draft/1"

    def graph(self) -> networkx.DiGraph[str]:
        """What must come off before what, as a networkx graph with the stored data on nodes and edges."""
        from miner.model.networks import to_networkx

        return to_networkx(self.graph_)

    def to_frame(self, name: FrameName = "steps") -> pandas.DataFrame:
        """One table of the draft: procedures, steps, fasteners, prerequisites, notices, findings or parts."""
        from miner.model.frames import to_frame

        return to_frame(self, name)

    def to_json(self) -> str:
        """The draft as `draft/1` JSON text."""
        from miner.model.serialise import to_json

        return to_json(self)

    @classmethod
    def from_json(cls, text: str) -> Draft:
        """The draft that a `draft/1` JSON text holds; raises InputError if it holds none."""
        from miner.model.serialise import from_json

        return from_json(text)
