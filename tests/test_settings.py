"""Options of a project."""

import pytest

from miner.errors import SettingsError
from miner.settings import Settings, load_settings


def test_the_nearest_file_counts(tmp_path):
    inner = tmp_path / "a" / "b"
    inner.mkdir(parents=True)
    (tmp_path / "pyproject.toml").write_text(
        '[tool.miner]\nfail_on = "warning"\nlexicon = ["t.toml"]\n', encoding="utf-8"
    )
    assert load_settings(inner) == Settings(lexicon=(tmp_path / "t.toml",), fail_on="warning")
    (tmp_path / "a" / "pyproject.toml").write_text("[tool.other]\n", encoding="utf-8")
    assert load_settings(inner).fail_on == "warning"
    (tmp_path / "a" / "miner.toml").write_text('ignore = ["stutter"]\n', encoding="utf-8")
    assert load_settings(inner) == Settings(ignore=("stutter",))


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ('ignor = ["a"]', "Did you mean 'ignore'"),
        ("ignore = 3", "no list"),
        ('fail_on = "maybe"', "error, warning, remark, never"),
        ("ignore = [", "cannot read"),
    ],
)
def test_what_is_wrong_is_told(tmp_path, text, said):
    (tmp_path / "miner.toml").write_text(text, encoding="utf-8")
    with pytest.raises(SettingsError, match=said) as caught:
        load_settings(tmp_path)
    assert "miner.toml" in str(caught.value)
