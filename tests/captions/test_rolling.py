"""Scrolling captions. Facts: issue threads of caption tools on repeats, 10 ms cues and carried lines."""

from itertools import pairwise

from hypothesis import given
from hypothesis import strategies as st
from recordings import recording, text_of
from samples import FIXTURES

from miner.captions.rolling import remove_repeats
from miner.readers import read_recording, webvtt

LINES = ["okay hi everybody welcome", "back to the bench", "today i have got", "a big robot", "with two dogs in it"]


def scrolled(lines: list[str]) -> list[str]:
    return [lines[0], *(f"{old} {new}" for old, new in pairwise(lines))]


def test_the_line_before_is_taken_off_and_the_rest_is_timed_over_its_cue():
    found = remove_repeats(recording(*scrolled(LINES)))
    assert text_of(found) == " ".join(LINES)
    assert (found.cues[1].words[0].start, found.cues[1].words[-1].end) == (2.0, 4.0)
    assert [repair.kind for repair in found.repairs] == ["rolling"]


def test_capitals_and_commas_may_differ():
    texts = scrolled(LINES)
    texts[2] = texts[2].replace("back to", "Back, to")
    assert text_of(remove_repeats(recording(*texts))) == " ".join(LINES)


def test_short_lines_among_others():
    lines = [*LINES, "yeah", "yeah", "so this one comes", "off"]
    assert text_of(remove_repeats(recording(*scrolled(lines)))) == " ".join(lines)


def test_cues_that_grow_word_by_word():
    words = "take the cover off and put it down".split()
    texts = [" ".join(words[: n + 1]) for n in range(len(words))]
    assert text_of(remove_repeats(recording(*texts))) == " ".join(words)


def test_cues_of_ten_milliseconds_and_inline_times():
    lines = [line.split() for line in LINES]
    blocks, at = ["WEBVTT"], 0.0
    for old, new in zip([[], *lines], lines, strict=False):
        timed = new[0] + "".join(f"<00:00:{at + n / 4:06.3f}><c> {word}</c>" for n, word in enumerate(new) if n)
        blocks.append(f"00:00:{at:06.3f} --> 00:00:{at + 2:06.3f}\n{' '.join(old) or ' '}\n{timed}")
        blocks.append(f"00:00:{at + 2:06.3f} --> 00:00:{at + 2.01:06.3f}\n{' '.join(new)}\n ")
        at += 2.01
    cues = webvtt.read("\n\n".join(blocks), "a.vtt").cues
    found = remove_repeats(recording("x").__class__("a", "a.vtt", "vtt", "0", cues))
    assert text_of(found) == " ".join(LINES)
    assert [round(word.start, 2) for word in found.cues[1].words] == [2.01, 2.26, 2.51, 2.76]


def test_what_was_said_twice_stays():
    for texts in (
        ["yeah yeah", "yeah that is it", "and off it comes", "off it comes then", "good"],
        ["take it all the way out", "all the way out i said", "and put it down", "next one", "is the fan"],
        ["one two three", "one two three", "and lift", "the lid", "off"],
        ["lift it off", "lift it off", "lift it off", "lift it off"],
    ):
        before = recording(*texts)
        assert remove_repeats(before) is before


def test_the_dev_style_recording_halves_and_reads_straight():
    before = read_recording(FIXTURES / "trades" / "ventilation-unit-captions.srt")
    found = remove_repeats(before)
    assert 0.45 < len(list(found.words())) / len(list(before.words())) < 0.55
    keys = [word.text for word in found.words()]
    doubles = sum(keys[at : at + 4] == keys[at + 4 : at + 8] for at in range(len(keys)))
    assert doubles == 0


WORD = st.from_regex(r"[a-z]{2,6}", fullmatch=True)


@given(st.lists(st.lists(WORD, min_size=3, max_size=6, unique=True), min_size=3, max_size=12))
def test_scrolling_any_lines_gives_them_back(lines):
    flat = [word for line in lines for word in line]
    if len(set(flat)) == len(flat):
        texts = [" ".join(line) for line in lines]
        assert text_of(remove_repeats(recording(*scrolled(texts)))) == " ".join(texts)


@given(st.lists(st.lists(WORD, min_size=1, max_size=8).map(" ".join), max_size=12))
def test_captions_with_no_carried_words_are_left_alone(texts):
    words = " ".join(texts).split()
    if len(set(words)) == len(words):
        before = recording(*texts)
        assert remove_repeats(before) is before
