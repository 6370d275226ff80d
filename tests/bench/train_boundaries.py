"""Trains `miner.language.boundary_model` and measures it: where sentences begin in words without punctuation.

    pip install -e '.[bench]'
    python tests/bench/train_boundaries.py            # writes lexicon/boundaries.json; about a minute
    python tests/bench/train_boundaries.py --measure  # also boundary F1 and P_k of rules and model

It learns from the punctuated `scripted` and `spoken` recordings of `unpunctuated.py` but those of `fixtures/held_out`,
and with a tenth of their weight from the made-up ones of `boundary_texts.py`. A sentence begins where the miner
begins one in the punctuated text, a clause where it begins one at a comma or dash; then punctuation and capitals are
taken away. Each recording comes twice, with its times and at an even pace, so that the model does without silences.
What is inside instructions, conditions and notices counts twice as much as asides. `TILT` favours sentences: one cut
too few costs a draft more than one too many. The figures compared are those of the held-out recordings, which are
never learned from, and of the others, each by a model that has not seen it; the rules were written with the others
at hand, so that only the first comparison is fair to the model.
"""

from __future__ import annotations

import argparse
import base64
import json
import zlib
from collections import Counter
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace

import numpy as np
import numpy.typing as npt
from boundary_texts import recordings
from recordings import ROOT, samples
from scipy.sparse import csr_matrix
from sklearn.linear_model import LogisticRegression
from unpunctuated import _bare, agreement, even_pace, punctuated, stripped, together

from miner.captions import repair
from miner.language.alignment import to_doc
from miner.language.annotations import Annotations, annotations_of
from miner.language.boundary_features import FEATURES, features, since_verb
from miner.language.boundary_model import LENGTHS, BoundaryModel, learned_cuts, length_class
from miner.language.discourse import Discourse, discourse
from miner.language.pipeline import annotate, language
from miner.language.tagging import tags_in
from miner.language.talk import Cuts
from miner.language.unpunctuated import unpunctuated_cuts
from miner.language.utterances import sentences_in
from miner.lexicon import Lexicon, load_lexicon
from miner.model.recording import Recording

OUT = ROOT / "lexicon" / "boundaries.json"
HELD_OUT = ROOT / "fixtures" / "held_out"
MADE, MADE_WEIGHT = 200, 0.1
"""Made-up recordings, and what a token of theirs weighs."""
IN_TEXTS = 8
"""Recordings that a word must stand in to be a feature of its own."""
STRENGTH = 0.1
"""Inverse of the regularisation, chosen on recordings left out of the training."""
TILT = 0.45
"""Added to the weight of every sentence, in nats; chosen likewise."""
SCALE, MOST = 50, 127
"""Steps a nat of the whole numbers that weights are rounded to, and the largest of them."""
FOLDS = 6


@dataclass(frozen=True, slots=True)
class Text:
    """A text without punctuation: its tokens, what the rules find, and for each token 0, 1 (clause), 2 (sentence)
    and its weight; `firsts` are the tokens that words begin with."""

    name: str
    register: str
    known: Annotations
    rules: Cuts
    labels: npt.NDArray[np.int8]
    weights: npt.NDArray[np.float64]
    firsts: list[int]


def text_of(name: str, register: str, whole: Recording, bare: Recording, lexicon: Lexicon, weight: float) -> Text:
    """The tokens of a recording without punctuation with what the punctuated one tells of them."""
    sentences, clauses, roles = _told(whole, lexicon)
    nlp = language(lexicon)
    doc = to_doc(replace(bare, register="captions"), nlp)
    known = annotations_of(doc)
    for part in ("miner_numbers", "miner_measures"):
        nlp.get_pipe(part)(doc)
    known.tags = tags_in(known, lexicon)
    ends = [bool(token.whitespace_) for token in doc]
    firsts = [at for at in range(len(doc)) if at == 0 or ends[at - 1]]
    labels, weights = np.zeros(len(doc), np.int8), np.full(len(doc), weight)
    labels[[firsts[word] for word in clauses]] = 1
    labels[[firsts[word] for word in sentences]] = 2
    for word, (begin, end) in enumerate(zip(firsts, [*firsts[1:], len(doc)], strict=True)):
        before = roles[word - 1] if word and labels[begin] == 2 else ""
        if {roles[word], before} - {"aside", ""}:
            weights[begin:end] *= 2
    return Text(name, register, known, unpunctuated_cuts(known, discourse(lexicon)), labels, weights, firsts)


def real_texts(lexicon: Lexicon) -> tuple[list[Text], list[Text]]:
    """The recordings to learn from and those held out, each with its times and at an even pace."""
    held = {path.name.removesuffix(".gold.json") for path in HELD_OUT.glob("*.gold.json")}
    found: tuple[list[Text], list[Text]] = [], []
    for sample in samples():
        if punctuated(sample):
            whole = repair(sample.recording, lexicon)
            bare = stripped(whole)
            for timed in (bare, even_pace(bare)):
                text = text_of(sample.name, sample.register, whole, timed, lexicon, 1.0)
                found[sample.name in held].append(text)
    return found


def made_texts(lexicon: Lexicon) -> list[Text]:
    """The made-up recordings."""
    return [text_of(r.id, r.register or "", r, stripped(r), lexicon, MADE_WEIGHT) for r in recordings(lexicon, MADE)]


def vocabulary_of(texts: Iterable[Text]) -> dict[str, int]:
    """The words that stand in enough recordings, numbered from one."""
    pairs = {(word, text.name) for text in texts for word in text.known.lower}
    counts = Counter(word for word, _ in pairs)
    return {word: n for n, word in enumerate(sorted(w for w, count in counts.items() if count >= IN_TEXTS), 1)}


def trained(texts: Sequence[Text], vocabulary: dict[str, int], words: Discourse) -> BoundaryModel:
    """The model that fits the texts, its weights as whole numbers."""
    rows = np.concatenate([_rows(text, vocabulary, words) for text in texts])
    number, width = rows.shape
    table = csr_matrix(
        (np.ones(rows.size, np.float32), rows.ravel(), np.arange(0, rows.size + 1, width)),
        shape=(number, FEATURES + LENGTHS),
    )
    fitted = LogisticRegression(C=STRENGTH, max_iter=200, tol=1e-3)
    fitted.fit(table, np.concatenate([t.labels for t in texts]), np.concatenate([t.weights for t in texts]))
    weights = (fitted.coef_ - fitted.coef_[0])[1:]
    bias = (fitted.intercept_ - fitted.intercept_[0])[1:] + np.array((0.0, TILT))
    whole = np.rint(weights * SCALE).astype(np.int32)
    return BoundaryModel(
        vocabulary,
        np.rint(bias * SCALE).astype(np.int32),
        whole[:, FEATURES:],
        np.clip(whole[:, :FEATURES], -MOST, MOST),
    )


def written(model: BoundaryModel) -> str:
    """The model as a file: words, bias and lengths in clear, weights packed in lines of text."""
    packed = base64.b64encode(zlib.compress(model.weights.astype(np.int8).tobytes(), 9)).decode()
    data = {
        "made_by": "tests/bench/train_boundaries.py",
        "steps_a_nat": SCALE,
        "bias": model.bias.tolist(),
        "lengths": model.lengths.tolist(),
        "words": list(model.vocabulary),
        "weights": [packed[at : at + 20_000] for at in range(0, len(packed), 20_000)],
    }
    return json.dumps(data, ensure_ascii=False, indent=0) + "\n"


def measured(title: str, texts: Sequence[Text], cuts: Callable[[Text], Cuts]) -> None:
    """Prints precision, recall, F1, P_k and WindowDiff of sentences, by register, with times and without."""
    scores = []
    for text in texts:
        number = {token: word for word, token in enumerate(text.firsts)}
        wanted = [number[at] for at in np.flatnonzero(text.labels == 2).tolist()]
        found = [number[at] for at in cuts(text).sentences if at in number]
        scores.append(agreement(wanted, found, len(text.firsts)))
    for register in ("scripted", "spoken", ""):
        columns = []
        for pace in (0, 1):
            chosen = [s for t, s in zip(texts[pace::2], scores[pace::2], strict=True) if register in ("", t.register)]
            columns.append(together(chosen).row() if chosen else "")
        print(f"{title:<18} {register or 'all':<9} {'   '.join(columns)}")


def _told(whole: Recording, lexicon: Lexicon) -> tuple[set[int], set[int], list[str]]:
    """The words that sentences and clauses begin with in a punctuated recording, and the role at each word."""
    doc = annotate(whole, lexicon)
    known = annotations_of(doc)
    worded = [_bare(word) is not None for word in whole.words()]
    word_at, size, at = [], 0, 0
    for token in doc:
        word_at.append(size)
        if token.whitespace_:
            size += worded[at]
            at += 1
    sentences = {word_at[start] for start, _ in sentences_in(known)} - {0, size}
    clauses = set()
    for clause in known.clauses:
        begin = clause.start
        while begin < len(doc) and known.tags[begin] in ",-x":
            begin += 1
        if known.tags[clause.start] in ",-" and begin < len(doc):
            clauses.add(word_at[begin])
    roles = [""] * size
    for sentence in known.sentences:
        first = word_at[sentence.start]
        roles[first:] = [sentence.role] * (size - first)
    return sentences, {word for word in clauses - sentences if 0 < word < size}, roles


def _rows(text: Text, vocabulary: dict[str, int], words: Discourse) -> npt.NDArray[np.int64]:
    """The numbers of the features of every token; the sentence began where it truly did."""
    since, begin, lengths = since_verb(text.known.tags), 0, []
    for at, label in enumerate(text.labels.tolist()):
        lengths.append(FEATURES + length_class(at - begin, int(since[at])))
        begin = at if label == 2 else begin
    found = [*features(text.known, words, text.rules, vocabulary), np.array(lengths)]
    return np.stack(found, 1).astype(np.int64)


def _by_model(model: BoundaryModel, words: Discourse) -> Callable[[Text], Cuts]:
    return lambda text: learned_cuts(text.known, words, text.rules, model)


def main() -> None:
    """Train, write, and measure if asked to."""
    options = argparse.ArgumentParser(description="Trains the model of sentence beginnings.")
    options.add_argument("--measure", action="store_true", help="print how well rules and model find sentences")
    chosen = options.parse_args()
    lexicon = load_lexicon([])
    words = discourse(lexicon)
    learned, held = real_texts(lexicon)
    made = made_texts(lexicon)
    vocabulary = vocabulary_of([*learned, *made])
    model = trained([*learned, *made], vocabulary, words)
    OUT.write_text(written(model), encoding="utf-8")
    print(f"{OUT.name}: {OUT.stat().st_size} bytes, {len(vocabulary)} words, largest {abs(model.weights).max()}")
    if not chosen.measure:
        return
    measured("rules, held out", held, lambda text: text.rules)
    measured("model, held out", held, _by_model(model, words))
    names = sorted({text.name for text in learned})
    fold = {name: number % FOLDS for number, name in enumerate(names)}
    models = [
        trained([*(t for t in learned if fold[t.name] != number), *made], vocabulary, words) for number in range(FOLDS)
    ]
    measured("rules, the others", learned, lambda text: text.rules)
    measured("model, the others", learned, lambda text: _by_model(models[fold[text.name]], words)(text))


if __name__ == "__main__":
    main()
