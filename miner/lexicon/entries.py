"""What the lexicon holds, a frozen dataclass an entry kind; field names are the keys of the TOML files.

Each TOML file is a list of tables named as in `TABLES` (`[[action]]`, `[[head]]` ...). Terms are lower case and
singular; inflected forms are generated (`miner.lexicon.inflection`) and only irregular ones listed.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Effect = Literal[
    "undo",  # takes a fastener out or lets it go: unscrew, unclip
    "loosen",  # slackens a fastener that stays
    "detach",  # takes a part off or out: remove, lift, pull, pry
    "disconnect",  # parts a connector or lead: unplug, desolder
    "open",  # opens, folds, flips a lid or lock
    "move",  # changes the position of product or part: turn, tilt, lay
    "isolate",  # switch off, drain, depressurise, discharge
    "attach",  # puts a part on or in: fit, install, slide in
    "fasten",  # makes a fastener: tighten, screw in
    "connect",  # makes a connector: plug in, solder
    "close",  # closes a lid or lock
    "clean",
    "apply",  # grease, thread lock, paste
    "inspect",  # check, measure, look
    "adjust",  # set, align, calibrate
    "energise",  # switch on, run, warm up
    "handle",  # hold, press, grab: an operation whose effect is told by its object
    "transfer",  # move a part from the old to the new one
]


@dataclass(frozen=True, slots=True)
class Action:
    """A verb of the trade.

    `verb` is the base form given in a draft. `idioms` are other wordings that mean it ("take out", "pop off"), base
    form, the particle last; the particle may stand apart ("take the screws out"). `forms` lists irregular
    inflections of the first word. `noun` is true when the same spelling is also a noun ("clip").
    """

    verb: str
    effect: Effect
    inverse: str | None = None
    idioms: tuple[str, ...] = ()
    forms: tuple[str, ...] = ()
    noun: bool = False


@dataclass(frozen=True, slots=True)
class HeadNoun:
    """The last word (or words) of part names: "cover", "control board". `trade` names the field it comes from.

    `kind` tells connectors, cables, fluids and fasteners' neighbours apart from plain parts.
    `modifiers` are first words with which the head is well known ("ribbon" for "cable"); they support the repair of
    mishearings. `plural` is given only where irregular.
    """

    term: str
    trade: str = "general"
    kind: Literal["part", "connector", "lead", "lock", "fluid", "adhesive", "seal", "product", "place"] = "part"
    modifiers: tuple[str, ...] = ()
    plural: str | None = None


@dataclass(frozen=True, slots=True)
class Synonym:
    """Different names that the trade gives to one part ("platen roller", "feed roller"): a possible name-variant."""

    terms: tuple[str, ...]
    trade: str = "general"


@dataclass(frozen=True, slots=True)
class FastenerKind:
    """A fastener: `kind` as given in a draft ("cable tie"), `terms` as spoken ("zip tie").

    Words of its compounds ("wood screw", "machine screw") are `qualifiers`, kept out of the kind.
    """

    kind: str
    terms: tuple[str, ...] = ()
    qualifiers: tuple[str, ...] = ()
    inverse_verb: str = "fit"


@dataclass(frozen=True, slots=True)
class Drive:
    """A drive: `drive` as given in a draft ("cross-recess"), `terms` as spoken, written and abbreviated.

    `prefix` starts the size ("PH"), `sizes` are those that exist ("PH0"); `unit` is "mm" for hex sizes.
    `external` is true for heads that a spanner grips.
    """

    drive: str
    terms: tuple[str, ...]
    prefix: str = ""
    sizes: tuple[str, ...] = ()
    unit: str | None = None
    external: bool = False


@dataclass(frozen=True, slots=True)
class ScrewHead:
    """The shape of a screw's head: `head` as given in a draft, `terms` as spoken ("c'sunk")."""

    head: str
    terms: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class ThreadDrives:
    """Published drive sizes by thread: for "M3" the sizes that exist on it, with the source of the table."""

    thread: str
    sizes: tuple[str, ...]
    source: str


@dataclass(frozen=True, slots=True)
class Lengths:
    """Published nominal lengths of screws, mm, with the source; others are unusual, not wrong."""

    lengths_mm: tuple[float, ...]
    source: str


@dataclass(frozen=True, slots=True)
class Tool:
    """A tool, by its head noun ("driver", "spanner") or whole name; `synonyms` are other spoken names."""

    term: str
    synonyms: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Supply:
    """Something used up: grease, thread lock, thermal paste."""

    term: str
    synonyms: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Hazard:
    """A hazard of the work.

    `terms` name parts that carry it ("mains filter", "torsion spring"), `words` show in a notice that it was
    spoken of ("shock", "spring"), `caution` is the suggested text (it defers to local codes and licensed practice),
    `kind` its level, `exempt` terms that look like it and are harmless ("spring washer"),
    `actions` the effects by which the hazard becomes real (empty: any work on the part).
    """

    id: str
    kind: Literal["danger", "warning", "caution"]
    terms: tuple[str, ...]
    words: tuple[str, ...]
    caution: str
    exempt: tuple[str, ...] = ()
    actions: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Abbreviation:
    """Shorthand of notes: `short` ("scr") for `long` ("screw")."""

    short: str
    long: str


@dataclass(frozen=True, slots=True)
class Mishearing:
    """A recogniser's known error: `heard` for `meant`.

    It holds only beside one of the words `before` or `after` (a size, a head noun; `#` stands for a number or size),
    unless both lists are empty.
    """

    heard: str
    meant: str
    before: tuple[str, ...] = ()
    after: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class WordClass:
    """Closed classes of English that the tagger needs (determiners, prepositions, fillers ...), by name."""

    name: str
    words: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Phrase:
    """Patterns of speech by role ("heading", "closing", "reverse", "prerequisite" ...).

    In a pattern `{part}`, `{number}` and `{action}` stand for what the components found, `(...)?` and `|` mean what
    they mean in regular expressions; a blank is any white space.
    """

    role: str
    patterns: tuple[str, ...]


TABLES: dict[str, type] = {
    "action": Action,
    "head": HeadNoun,
    "synonym": Synonym,
    "fastener": FastenerKind,
    "drive": Drive,
    "screw_head": ScrewHead,
    "thread_drives": ThreadDrives,
    "lengths": Lengths,
    "tool": Tool,
    "supply": Supply,
    "hazard": Hazard,
    "abbreviation": Abbreviation,
    "mishearing": Mishearing,
    "word_class": WordClass,
    "phrase": Phrase,
}
