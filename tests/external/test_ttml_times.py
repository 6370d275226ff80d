"""TTML time expressions against the grammar of TTML2 and a second reader.

Sources: W3C TTML2, "Time Value Expressions" (w3c/ttml2), w3c/imsc issue 383 (an offset needs its metric). Second
reader: ttconv, run with 25 frames and 90000 ticks a second; it moves 60 seconds into range, which is not followed.
"""

from xml.etree import ElementTree

import pytest

from miner.errors import InputError
from miner.readers.ttml_time import Rates, rates_of, time_of

RATES = Rates(frames=25, ticks=90000)
PARAMETERS = 'xmlns:ttp="http://www.w3.org/ns/ttml#parameter"'

VALUES = [
    ("00:00:01.5", 1.5),
    ("01:02:03", 3723.0),
    ("100:00:00", 360000.0),
    ("1.5h", 5400.0),
    ("2m", 120.0),
    ("3.25s", 3.25),
    ("500ms", 0.5),
    ("10f", 0.4),
    ("90000t", 1.0),
    ("00:00:01:12", 1.48),
]


@pytest.mark.parametrize(("expression", "seconds"), VALUES)
def test_published_values(expression, seconds):
    assert time_of(expression, RATES, "a.ttml") == pytest.approx(seconds, abs=1e-12)


@pytest.mark.parametrize("expression", ["1.5", "1:02:03", "00:60:00", "00:00:60", "00:00:01:25", "", "-1s", "1 s"])
def test_what_the_grammar_refuses(expression):
    with pytest.raises(InputError, match=r"is no time"):
        time_of(expression, RATES, "a.ttml")


@pytest.mark.parametrize(
    ("attributes", "frames", "ticks"),
    [
        ("", 30.0, 1.0),
        ('ttp:frameRate="25"', 25.0, 25.0),
        ('ttp:frameRate="24" ttp:frameRateMultiplier="1000 1001"', 24000 / 1001, 24000 / 1001),
        ('ttp:tickRate="90000"', 30.0, 90000.0),
        ('ttp:frameRate="25" ttp:subFrameRate="2"', 25.0, 50.0),
    ],
)
def test_rates_of_the_root(attributes, frames, ticks):
    rates = rates_of(ElementTree.fromstring(f"<tt {PARAMETERS} {attributes}/>"), "a.ttml")
    assert (rates.frames, rates.ticks) == (pytest.approx(frames), pytest.approx(ticks))


@pytest.mark.parametrize("expression", [expression for expression, _ in VALUES])
def test_a_second_reader_agrees(expression):
    reader = pytest.importorskip("ttconv.imsc.reader")
    text = (
        f'<tt xmlns="http://www.w3.org/ns/ttml" {PARAMETERS} xml:lang="en" ttp:frameRate="25" ttp:tickRate="90000">'
        f'<body><div><p begin="{expression}" end="200h">a</p></div></body></tt>'
    )
    model = reader.to_model(ElementTree.ElementTree(ElementTree.fromstring(text)))
    (division,) = model.get_body()
    (paragraph,) = division
    assert float(paragraph.get_begin()) == pytest.approx(time_of(expression, RATES, "a.ttml"), abs=1e-9)
