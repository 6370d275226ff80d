"""What each format says, and that nothing said in a recording can break it."""

import csv
import io
import itertools
import re
from dataclasses import replace
from html.parser import HTMLParser

import pytest
from samples import FIXTURES, HOSTILE, gold_draft, small_draft

from miner.model.draft import Draft, Fastener
from miner.publish.markdown import render as markdown
from miner.publish.outline import fastener_totals, sections
from miner.publish.page import render as page
from miner.publish.registry import FORMATS, find_format, write_all

DRAFTS = [small_draft(), small_draft(HOSTILE), gold_draft(), Draft(small_draft().recording)]


class Page(HTMLParser):
    """Elements with their attributes, ids, and the text outside of styles."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.elements: list[tuple[str, dict[str, str | None]]] = []
        self.text, self._open = "", []
        self.feed(text)

    def handle_starttag(self, tag, attrs):
        self.elements.append((tag, dict(attrs)))
        self._open.append(tag)

    def handle_endtag(self, tag):
        while self._open and self._open.pop() != tag:
            pass

    def handle_data(self, data):
        if "style" not in self._open:
            self.text += data


@pytest.mark.parametrize("draft", DRAFTS)
def test_formats_are_stable_and_whole(draft):
    assert set(write_all(draft)) == {"draft.json", "draft.md", "fasteners.csv", "graph.svg", "draft.html"}
    assert write_all(draft) == write_all(Draft.from_json(draft.to_json()))


def test_an_unknown_format_lists_the_known_ones():
    with pytest.raises(Exception, match="markdown"):
        find_format("pdf")
    assert find_format("html").media_type == "text/html"


@pytest.mark.parametrize("draft", DRAFTS)
def test_the_page_asks_nothing_of_anyone(draft):
    made = Page(page(draft))
    for tag, attributes in made.elements:
        assert tag != "script" or not attributes  # the page's own, allowed by its digest
        assert tag not in ("link", "img", "iframe", "object", "form", "base")
        assert not any(name.startswith("on") for name in attributes)
        for name in ("src", "href", "srcset", "action"):
            assert (attributes.get(name) or "#").startswith("#")
    assert "default-src 'none'" in page(draft)
    assert "@import" not in page(draft)
    assert not re.search(r"url\((?!#)", page(draft))


@pytest.mark.parametrize("draft", DRAFTS)
def test_the_page_is_sound(draft):
    made = Page(page(draft))
    ids = [attributes["id"] for _, attributes in made.elements if "id" in attributes]
    assert len(ids) == len(set(ids))
    for _, attributes in made.elements:
        if "href" in attributes:
            assert attributes["href"][1:] in ids
        if "aria-labelledby" in attributes:
            assert set(attributes["aria-labelledby"].split()) <= set(ids)
    headings = [int(tag[1]) for tag, _ in made.elements if re.fullmatch("h[1-6]", tag)]
    assert headings[0] == 1
    assert headings.count(1) == 1
    assert all(later <= now + 1 for now, later in itertools.pairwise(headings))


def test_the_page_shows_what_was_said_as_text():
    text = " ".join(Page(page(small_draft(HOSTILE))).text.split())
    assert HOSTILE in text
    for words in (
        "DANGER",
        "2 x M4 x 16 screw, PH2, captive",
        "no heading was spoken",
        "Inferred, not said",
        "three screws",
    ):
        assert words in text


@pytest.mark.parametrize(("render", "danger", "note"), [(page, ">DANGER<", ">NOTE<"), (markdown, "**DANGER", "**NOTE")])
def test_notices_stand_in_front_of_their_step(render, danger, note):
    text = render(small_draft())
    assert text.index(danger) < text.index(note) < text.index("Take out the two screws")


def test_markdown_escapes_what_was_said():
    text = markdown(small_draft(HOSTILE))
    assert "<script>" not in text
    assert "*bold*" not in text.replace("\\*bold\\*", "")


def test_markdown_says_everything_an_editor_needs():
    text = markdown(small_draft())
    for words in (
        "Must be out already", "no procedure removes it", "Preparations", "Tools", "Fasteners", "### Removal", "### Reassembly",
        "Inferred by reversing the removal", "### Checks afterwards", "### Findings", "count-mismatch", "Suggested", "0:05, p01.s01",
        "Findings about the whole recording", "Changes to the transcript", "local codes", "_if fitted:_", "Inferred, not said: part",
        "Only in one variant: with two leads",
    ):  # fmt: skip
        assert words in text, words


def test_every_step_and_finding_of_a_fixture_is_in_both_documents():
    draft = gold_draft()
    for made in (markdown(draft).replace("\\", ""), Page(page(draft)).text):
        flat = " ".join(made.split())
        for procedure in draft.procedures:
            for step in procedure.steps:
                assert " ".join(step.text.split()) in flat
        for finding in draft.findings:
            assert " ".join(finding.message.split()) in flat


def test_the_schedule_has_a_row_a_group():
    draft = gold_draft()
    rows = list(csv.DictReader(io.StringIO(find_format("csv").write(draft).decode("utf-8-sig"))))
    assert len(rows) == sum(len(step.fasteners) for p in draft.procedures for step in p.steps)
    first = next(iter(csv.DictReader(io.StringIO(find_format("csv").write(small_draft()).decode("utf-8-sig")))))
    assert first["fastener"] == "2 x M4 x 16 screw, PH2, captive, 1.2 N m"
    assert (first["length_mm"], first["captive"], first["time"]) == ("16", "yes", "0:05")


@pytest.mark.parametrize("start", ["=1+1", "+1", "-1", "@a", "\tb"])
def test_the_schedule_holds_no_formulas(start):
    text = find_format("csv").write(small_draft(start)).decode("utf-8-sig")
    assert all(not cell.startswith(("=", "+", "-", "@", "\t")) for row in csv.reader(io.StringIO(text)) for cell in row)


def test_fastener_totals_add_up_and_say_what_is_open():
    procedure = small_draft().procedures[0]
    step = procedure.steps[0]

    def totals(*groups):
        return fastener_totals(replace(procedure, steps=(replace(step, fasteners=groups),)))

    two, open_, unsaid = Fastener("screw", 2), Fastener("screw", count_alternatives=(2, 3)), Fastener("screw")
    assert totals(two, two, Fastener("clip", 1)) == (("screw", "4"), ("clip", "1"))
    assert totals(two, open_) == (("screw", "4 to 5"),)
    assert totals(two, unsaid) == (("screw", "2 and more (number not said)"),)
    assert totals(unsaid) == (("screw", "not said"),)


def test_a_finding_stands_in_full_once():
    draft = small_draft()
    twin = replace(draft.procedures[0], id="p02")
    finding = replace(draft.findings[0], procedures=("p01", "p02"))
    first, second = sections(replace(draft, procedures=(draft.procedures[0], twin), findings=(finding,)))
    assert first.findings == second.elsewhere == (finding,)
    assert first.elsewhere == second.findings == ()


def test_every_format_has_a_meaning():
    assert len({one.name for one in FORMATS}) == len({one.file for one in FORMATS}) == len(FORMATS)
    assert all(one.meaning for one in FORMATS)
    assert FIXTURES.is_dir()
