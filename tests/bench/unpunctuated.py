"""How much is lost without punctuation: recordings that have it, with and without.

    pip install -e '.[bench]'
    python tests/bench/unpunctuated.py [--short] [NAME ...]

Takes every scripted and spoken recording that has a gold file and whose text is punctuated, takes punctuation and
capitals away as a plain speech recogniser would (apostrophes and decimal points stay), and compares

- the boundaries of utterances: precision, recall and F1 of those inside the text, P_k (Beeferman, Berger, Lafferty
  1999) and WindowDiff (Pevzner, Hearst 2002) as NLTK computes them, with half the mean length of an utterance as
  window. The reference is the segmentation that the miner makes of the punctuated text, which follows its stops.
  Three are compared with it: the miner's without punctuation, the miner's with silence taken away as well (words at
  an even pace), and cuts at even distances, as many as the reference has. For P_k and WindowDiff less is better.
- the draft: the headline score against the gold file, from the punctuated text and from the stripped one, where the
  gold file has steps (those of `fixtures/seeded/` hold findings only).

Pooled boundary counts are added; P_k and WindowDiff are means weighted by words. NAME restricts the recordings to
those whose name contains it; `--short` leaves out the lines of single recordings.
"""

from __future__ import annotations

import argparse
import json
from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import accumulate

from nltk.metrics.segmentation import pk, windowdiff
from recordings import Sample, samples

from miner.captions import repair
from miner.captions.register import register_of
from miner.language.annotations import annotations_of
from miner.language.pipeline import annotate
from miner.language.utterances import WORDS_A_STOP, sentences_in
from miner.lexicon import Lexicon, load_lexicon
from miner.model.recording import Cue, Recording, Word
from miner.pipeline import mine
from miner.scoring import Card, score
from miner.scoring.cards import pooled

MARKS = '.,;:!?…"“”„«»()[]{}<>*_♪–—-/\\'
"""What is taken off both ends of a word; inside a word it stays ("2.5", "cross-head")."""
STOPS = ".?!"
PACE = 0.4
"""Seconds a word, where silence is taken away."""
CASES = ("stripped", "no pauses", "even cuts")


@dataclass(frozen=True, slots=True)
class Agreement:
    """Boundaries found by both sides, in the reference, in the segmentation that is judged; and two window measures."""

    hit: int
    reference: int
    found: int
    pk: float
    windowdiff: float
    words: int

    def row(self) -> str:
        """Precision, recall, F1, P_k, WindowDiff."""
        precision, recall = self.hit / max(self.found, 1), self.hit / max(self.reference, 1)
        f1 = 2 * self.hit / max(self.found + self.reference, 1)
        return f"{precision:5.2f} {recall:5.2f} {f1:5.2f} {self.pk:5.2f} {self.windowdiff:5.2f}"


def stripped(recording: Recording) -> Recording:
    """The recording without punctuation and capitals; its register is to be found anew."""
    cues = [replace(cue, words=tuple(bare for word in cue.words if (bare := _bare(word)))) for cue in recording.cues]
    return replace(recording, cues=tuple(cue for cue in cues if cue.words), register=None)


def even_pace(recording: Recording) -> Recording:
    """The recording as if spoken without a pause."""
    ends = list(accumulate(len(cue.words) for cue in recording.cues))
    return replace(
        recording, cues=tuple(_paced(cue, end - len(cue.words)) for cue, end in zip(recording.cues, ends, strict=True))
    )


def boundaries(recording: Recording, lexicon: Lexicon) -> list[int]:
    """The words before which an utterance begins, counting words that are more than punctuation; the first left out."""
    doc = annotate(recording, lexicon)
    known = annotations_of(doc)
    word_at, number = [], 0
    worded = [_bare(word) is not None for word in recording.words()]
    at = 0
    for token in doc:
        word_at.append(number)
        if token.whitespace_:
            number += worded[at]
            at += 1
    return sorted({word_at[start] for start, _ in sentences_in(known)} - {0, number})


def agreement(reference: Sequence[int], found: Sequence[int], words: int) -> Agreement:
    """How well a segmentation agrees with a reference, both as positions of first words."""
    wanted, got = _flags(reference, words), _flags(found, words)
    window = max(2, round(words / (2 * (len(reference) + 1))))
    return Agreement(
        len({*reference} & {*found}),
        len(reference),
        len(found),
        pk(wanted, got, k=window),
        windowdiff(wanted, got, k=window),
        words,
    )


def together(parts: Sequence[Agreement]) -> Agreement:
    """Several recordings as one."""
    words = sum(part.words for part in parts)
    return Agreement(
        sum(part.hit for part in parts),
        sum(part.reference for part in parts),
        sum(part.found for part in parts),
        sum(part.pk * part.words for part in parts) / words,
        sum(part.windowdiff * part.words for part in parts) / words,
        words,
    )


def segmentations(sample: Sample, lexicon: Lexicon) -> list[Agreement]:
    """The three segmentations of a recording against the punctuated one, in the order of CASES."""
    whole = repair(sample.recording, lexicon)  # once, so that both sides have the same words
    bare = stripped(whole)
    bare = replace(bare, register=register_of(bare, lexicon))
    words = sum(1 for _ in bare.words())
    reference = boundaries(whole, lexicon)
    size = words / (len(reference) + 1)
    even = [round(size * number) for number in range(1, len(reference) + 1)]
    found = [boundaries(bare, lexicon), boundaries(even_pace(bare), lexicon), even]
    return [agreement(reference, one, words) for one in found]


def drafted(sample: Sample, recording: Recording, lexicon: Lexicon) -> Card:
    """The score of the draft that a recording gives."""
    return score(sample.gold, json.loads(mine(recording, lexicon).to_json()))


def punctuated(sample: Sample) -> bool:
    """Whether there are enough stops for the miner to follow them, in speech and not in notes."""
    stops = sum(word.text.rstrip("\"')”").endswith(tuple(STOPS)) for word in sample.recording.words())
    return sample.register in ("scripted", "spoken") and stops * WORDS_A_STOP >= sample.words


def _bare(word: Word) -> Word | None:
    text = word.text.strip(MARKS).lower()
    return replace(word, text=text) if text else None


def _paced(cue: Cue, first: int) -> Cue:
    words = tuple(replace(w, start=(first + n) * PACE, end=(first + n + 1) * PACE) for n, w in enumerate(cue.words))
    return replace(cue, words=words, start=words[0].start, end=words[-1].end)


def _flags(starts: Sequence[int], words: int) -> str:
    """NLTK's form: a 1 for each word after which there is a boundary."""
    last = {start - 1 for start in starts}
    return "".join("1" if at in last else "0" for at in range(words))


def _print_boundaries(found: Sequence[Sample], lexicon: Lexicon, *, short: bool) -> None:
    measured = [(sample, segmentations(sample, lexicon)) for sample in found]
    heads = "   ".join(f"{case:<29}" for case in CASES)
    print(f"{'utterances':<34} {'words':>6}   {heads}")
    print(f"{'':<34} {'':>6}   {'   '.join(['    P     R    F1    Pk    WD'] * len(CASES))}")
    for sample, parts in [] if short else measured:
        print(f"{sample.name[:34]:<34} {sample.words:>6}   {'   '.join(part.row() for part in parts)}")
    for register in ("scripted", "spoken", ""):
        chosen = [parts for sample, parts in measured if register in ("", sample.register)]
        if chosen:
            pooled_parts = [together(column) for column in zip(*chosen, strict=True)]
            name = f"= {register or 'all'} ({len(chosen)})"
            print(f"{name:<34} {pooled_parts[0].words:>6}   {'   '.join(part.row() for part in pooled_parts)}")


def _print_scores(found: Sequence[Sample], lexicon: Lexicon, *, short: bool) -> None:
    cards = [
        (sample, drafted(sample, sample.recording, lexicon), drafted(sample, stripped(sample.recording), lexicon))
        for sample in found
        if any(procedure.get("steps") for procedure in sample.gold["procedures"])
    ]
    print(f"\n{'headline of the draft':<34} {'punctuated':>10} {'stripped':>9} {'loss':>6}")
    for sample, whole, bare in [] if short else cards:
        _print_score(sample.name, whole, bare)
    for register in ("scripted", "spoken", ""):
        chosen = [(whole, bare) for sample, whole, bare in cards if register in ("", sample.register)]
        if chosen:
            whole, bare = (pooled(column, register) for column in zip(*chosen, strict=True))
            _print_score(f"= {register or 'all'} ({len(chosen)})", whole, bare)
            if not register:
                for metric in whole.metrics():
                    if "." not in metric:
                        _print_pair(f"  {metric}, F1", whole.figures(metric)["f1"], bare.figures(metric)["f1"])


def _print_score(name: str, whole: Card, bare: Card) -> None:
    _print_pair(name, whole.headline(), bare.headline())


def _print_pair(name: str, whole: float | None, bare: float | None) -> None:
    one, other = whole or 0.0, bare or 0.0
    print(f"{name[:34]:<34} {one:>10.3f} {other:>9.3f} {one - other:>6.3f}")


def main() -> None:
    """Measure the recordings that are asked for."""
    options = argparse.ArgumentParser(description="What the miner loses without punctuation.")
    options.add_argument("names", nargs="*", metavar="NAME", help="only recordings whose name contains this")
    options.add_argument("--short", action="store_true", help="only the pooled lines")
    chosen = options.parse_args()
    wanted = [s for s in samples() if not chosen.names or any(name in s.name for name in chosen.names)]
    found = [sample for sample in wanted if punctuated(sample)]
    if not found:
        options.error("no punctuated recording of that name")
    lexicon = load_lexicon([])
    _print_boundaries(found, lexicon, short=chosen.short)
    _print_scores(found, lexicon, short=chosen.short)


if __name__ == "__main__":
    main()
