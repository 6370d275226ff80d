"""Layers, overriding, removal, and errors that name file, line, key and the nearest known key."""

from pathlib import Path

import pytest

from miner.errors import LexiconError
from miner.lexicon import load_lexicon
from miner.lexicon.lookup import lookup


@pytest.fixture
def layer(tmp_path: Path):
    def write(text: str, name: str = "own.toml") -> Path:
        path = tmp_path / name
        path.write_text(text, encoding="utf-8")
        return path

    return write


def test_a_layer_adds_an_entry(layer):
    added = load_lexicon([layer('[[head]]\nterm = "flux gate"\ntrade = "ours"\n')])
    assert lookup(added).head("flux gates").trade == "ours"
    assert lookup(load_lexicon()).head("flux gate") is None


def test_a_layer_replaces_an_entry_as_a_whole(layer):
    own = load_lexicon([layer('[[action]]\nverb = "remove"\neffect = "detach"\n')])
    assert lookup(own).action("remove").idioms == ()
    assert len(own.actions) == len(load_lexicon().actions)


def test_an_entry_can_be_removed_and_a_later_layer_wins(layer):
    gone = layer('[[head]]\nterm = "cover"\nremove = true\n', "a.toml")
    back = layer('[[head]]\nterm = "cover"\ntrade = "again"\n', "b.toml")
    assert lookup(load_lexicon([gone])).head("cover") is None
    assert lookup(load_lexicon([gone, back])).head("cover").trade == "again"
    assert lookup(load_lexicon([back, gone])).head("cover") is None


def test_synonyms_are_overridden_by_their_first_term(layer):
    own = load_lexicon([layer('synonym = [{ terms = ["print head", "writing head"] }]')])
    assert lookup(own).synonyms_of("print head") == ("writing head",)


def test_the_version_is_that_of_the_content(layer):
    path = layer('[[supply]]\nterm = "chalk"\n')
    assert load_lexicon([path]).version == load_lexicon([path]).version != load_lexicon().version
    assert load_lexicon() is load_lexicon()
    assert len(load_lexicon().version) == 64


def test_windows_line_ends_and_a_byte_order_mark_change_nothing(tmp_path):
    unix, windows = tmp_path / "a.toml", tmp_path / "b.toml"
    unix.write_bytes(b'[[supply]]\nterm = "chalk"\n')
    windows.write_bytes(b'\xef\xbb\xbf[[supply]]\r\nterm = "chalk"\r\n')
    assert load_lexicon([unix]) == load_lexicon([windows])


@pytest.mark.parametrize(
    ("text", "line", "what", "remedy"),
    [
        ('[[heads]]\nterm = "x"\n', 1, "unknown table `heads`", "`head`"),
        (
            '[[head]]\nterm = "x"\n\n[[head]]\nterm = "y"\nmodifier = ["a"]\n',
            6,
            "unknown key `modifier`",
            "`modifiers`",
        ),
        ('head = [\n  { term = "x" },\n  { term = "y", trades = "z" },\n]\n', 3, "unknown key `trades`", "`trade`"),
        ('[[action]]\nverb = "zap"\neffect = "destroy"\n', 3, "`effect` of `zap`", "one of undo"),
        ('[[action]]\nverb = "zap"\n', 2, "`zap` in `action` lacks `effect`", "Add `effect`"),
        ('[[action]]\nverb = "zap"\neffect = "undo"\nnoun = "yes"\n', 4, "`noun` of `zap`", "true or false"),
        ('[[head]]\nterm = "x"\nmodifiers = "a"\n', 3, "`modifiers` of `x`", "a list of texts"),
        ('[[lengths]]\nsource = "s"\nlengths_mm = ["3"]\n', 3, "`lengths_mm` of `s`", "a list of numbers"),
        ('[[head]]\ntrade = "x"\n', 2, "`head` entry has no `term`", "`term`"),
        ('head = "cover"\n', 1, "`head` is not a list", "[[head]]"),
        ("[[head]]\nterm = \n", 2, "is no TOML", "Mend"),
    ],
)
def test_a_mistake_is_told_with_its_line_and_the_way_out(layer, text, line, what, remedy):
    with pytest.raises(LexiconError) as caught:
        load_lexicon([layer(text)])
    assert caught.value.where.endswith(f"own.toml:{line}")
    assert what in caught.value.what
    assert remedy in caught.value.remedy


def test_a_missing_file_and_a_wrong_encoding_are_told(tmp_path):
    with pytest.raises(LexiconError, match="cannot be read"):
        load_lexicon([tmp_path / "none.toml"])
    latin = tmp_path / "latin.toml"
    latin.write_bytes('[[head]]\nterm = "é"\n'.encode("latin-1"))
    with pytest.raises(LexiconError, match="UTF-8"):
        load_lexicon([latin])
