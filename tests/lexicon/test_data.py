"""The shipped data agree with themselves."""

import subprocess
import sys
import time
import tomllib
from collections import Counter

import pytest

from miner.lexicon import load_lexicon
from miner.lexicon.loading import KEYS
from miner.lexicon.lookup import lookup
from miner.resources import lexicon_files

LEXICON = load_lexicon()
FOUND = lookup(LEXICON)


def _rows(table):
    return [row for file in lexicon_files() for row in tomllib.loads(file.read_text("utf-8")).get(table, [])]


@pytest.mark.parametrize("table", [table for table in KEYS if table != "synonym"])
def test_no_entry_is_given_twice(table):
    counts = Counter(row[KEYS[table]] for row in _rows(table))
    assert [key for key, count in counts.items() if count > 1] == []


def test_the_tables_are_large_enough_to_be_of_use():
    assert len(LEXICON.actions) >= 150
    assert len(LEXICON.heads) >= 600
    assert len(LEXICON.abbreviations) >= 150
    assert len(LEXICON.mishearings) >= 60
    assert len({head.trade for head in LEXICON.heads}) >= 12


def test_every_inverse_is_an_action():
    assert [a.verb for a in LEXICON.actions if a.inverse and not FOUND.action(a.inverse)] == []
    assert [f.kind for f in LEXICON.fasteners if not FOUND.action(f.inverse_verb)] == []


def test_an_idiom_means_one_action():
    counts = Counter(idiom for action in LEXICON.actions for idiom in action.idioms)
    assert [idiom for idiom, count in counts.items() if count > 1 or FOUND.action(idiom)] == []


def test_terms_are_lower_case_and_trimmed():
    terms = [head.term for head in LEXICON.heads] + [action.verb for action in LEXICON.actions]
    assert [term for term in terms if term != " ".join(term.lower().split())] == []


def test_sizes_of_threads_exist():
    sizes = [size for entry in LEXICON.thread_drives for size in entry.sizes]
    assert [size for size in sizes if not FOUND.drives_of_size(size)] == []


def test_sizes_start_with_the_prefix_of_their_drive():
    assert [s for drive in LEXICON.drives for s in drive.sizes if not s.startswith(drive.prefix)] == []


def test_hazards_name_known_effects_and_every_caution_is_a_sentence():
    effects = {action.effect for action in LEXICON.actions}
    assert [h.id for h in LEXICON.hazards if set(h.actions) - effects] == []
    assert [h.id for h in LEXICON.hazards if not h.caution.endswith(".") or not h.words] == []


def test_cautions_on_deadly_work_defer_to_local_codes():
    deadly = ("mains", "stored-charge", "lithium-cell", "pressure", "refrigerant", "live-adjustment", "fuel")
    assert [h.id for h in LEXICON.hazards if h.id in deadly and "local codes" not in h.caution] == []


def test_harmless_terms_are_no_hazard_terms():
    assert [t for h in LEXICON.hazards for t in h.exempt if t in h.terms] == []


def test_usual_names_of_parts_are_not_expanded():
    assert [short for short in ("pcb", "led", "psu", "lcd", "usb") if FOUND.abbreviation(short)] == []


def test_what_was_meant_differs_from_what_was_heard():
    assert [m.heard for m in LEXICON.mishearings if m.heard == m.meant] == []


def test_words_of_the_trade_are_not_repaired_without_a_neighbour():
    terms = {*FOUND.heads, *FOUND.fasteners, *FOUND.tools, *FOUND.verb_forms}
    assert [m.heard for m in LEXICON.mishearings if not m.before and not m.after and m.heard in terms] == []


def test_loading_and_indexing_take_well_under_a_tenth_of_a_second():
    from miner.lexicon import loading

    best = 1.0
    for _ in range(5):
        start = time.perf_counter()
        loading._assemble(*loading._merged({}, (), lexicon_files()))
        best = min(best, time.perf_counter() - start)
    assert best < 0.1


def test_the_lexicon_needs_no_language_library():
    code = "import sys; from miner.lexicon import load_lexicon; load_lexicon(); print('spacy' in sys.modules)"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "False"
