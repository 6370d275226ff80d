"""The page without a server: decisions made in it leave and come in as a file."""

import json

from desks import busy_draft
from samples import HOSTILE, small_draft

from miner.decisions import exchange
from miner.decisions.opening import Decided
from miner.publish.page import render


def opened(page_of, tmp_path, draft):
    (tmp_path / "draft.html").write_text(render(draft), encoding="utf-8")
    page = page_of()
    page.goto((tmp_path / "draft.html").as_uri())
    return page


def exported(page, path):
    with page.expect_download() as waiting:
        page.get_by_role("button", name="Export decisions").click()
    waiting.value.save_as(path)
    return path.read_text(encoding="utf-8")


def test_decisions_out_and_in(tmp_path, page_of):
    draft = busy_draft()
    page = opened(page_of, tmp_path, draft)
    page.get_by_label("Your name").fill("Ada")
    suggested = next(one for one in draft.findings if one.suggestion)
    page.locator(f'[id="{suggested.id}"]').get_by_role("button", name="Accept").click()
    other = next(one for one in draft.findings if one.id != suggested.id)
    block = page.locator(f'[id="{other.id}"]')
    block.get_by_label("Reason to dismiss").fill("two builds")
    block.get_by_role("button", name="Dismiss").click()
    assert page.locator("#done").inner_text().startswith(f"2 of {len(draft.findings)}")
    page.reload()
    assert page.locator("#done").inner_text().startswith("2 of")  # kept in this browser
    text = exported(page, tmp_path / "decisions.json")
    decisions = exchange.completed(exchange.read(text, draft.recording.id), draft)
    decided = Decided.of(draft, decisions)
    assert len(decided.settled) == 2
    assert decided.matched.again == ()
    assert any(step.text == suggested.suggestion.to for p in decided.draft.procedures for step in p.steps)
    fresh = opened(page_of, tmp_path, draft)
    fresh.get_by_label("Import decisions").set_input_files(tmp_path / "decisions.json")
    fresh.wait_for_function("document.getElementById('done').textContent.startsWith('2 of')")
    fresh.get_by_role("button", name="Open again").first.click()
    assert fresh.locator("#done").inner_text().startswith("1 of")


def test_what_is_no_decision_file_is_told(tmp_path, page_of):
    page = opened(page_of, tmp_path, busy_draft())
    for content in ("{", json.dumps({"schema": "decisions/1", "recording": "other", "decisions": []})):
        (tmp_path / "wrong.json").write_text(content, encoding="utf-8")
        page.get_by_label("Import decisions").set_input_files(tmp_path / "wrong.json")
        page.wait_for_function("document.getElementById('said').textContent.startsWith('This file')")


def test_hostile_words_stay_words(tmp_path, page_of):
    page = opened(page_of, tmp_path, small_draft(HOSTILE))
    dialogs = []
    page.on("dialog", lambda one: (dialogs.append(one.message), one.dismiss()))
    page.get_by_role("button", name="Accept").first.click()
    page.reload()
    assert dialogs == []
    assert HOSTILE in page.locator("body").inner_text()
