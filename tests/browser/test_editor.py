"""An editor at work, by keyboard alone; two editors at one item; words that would do harm."""

import re
import subprocess
import sys

import pytest
from desks import busy_draft, put
from samples import HOSTILE, small_draft

from miner.decisions.opening import open_decided


@pytest.fixture
def folder(tmp_path):
    return put(tmp_path / "out", busy_draft())


def tab_to(page, selector, most=120):
    """Press Tab until the focus is where it is wanted."""
    for _ in range(most):
        page.keyboard.press("Tab")
        if page.evaluate("s => document.activeElement.matches(s)", selector):
            return
    raise AssertionError(f"Tab does not reach {selector}")


def focused(page):
    return page.evaluate("document.activeElement.id")


def correct(page, words):
    """From a finding, by keyboard: correct the step it is about, with the finding ticked as settled."""
    page.keyboard.press("e")
    page.wait_for_url("**/edit?**")
    tab_to(page, "#text")
    page.keyboard.press("Control+a")
    page.keyboard.type(words)
    assert page.locator("form.edit").first.locator("input[name=settles]:checked").count() == 1
    tab_to(page, "button[value=save]")
    with page.expect_navigation():
        page.keyboard.press("Enter")
    page.wait_for_url("**saved=**")


def dismiss(page, reason):
    page.keyboard.press("d")
    page.keyboard.type(reason)
    with page.expect_navigation():
        page.keyboard.press("Enter")
    page.wait_for_url("**saved=**")


def test_a_draft_is_worked_through_by_keyboard_alone(folder, serve, page_of, picture):
    draft = busy_draft()
    assert len(draft.findings) >= 20
    page = page_of()
    page.goto(serve(folder, "--name", "Ada"))
    assert f"0 of {len(draft.findings)}" in page.content()
    page.keyboard.press("n")
    first = focused(page)
    assert first.startswith("f-")
    for number in range(3):
        correct(page, f"Corrected wording {number}.")
        assert focused(page).startswith("f-")  # the next open finding has the focus
    dismiss(page, "two builds are in use")
    dismiss(page, "heard again: it is right; n a d")
    assert page.get_by_role("status").inner_text().startswith("Saved.")
    picture(page, "after-five-decisions-1280")
    page.reload()
    assert f"5 of {len(draft.findings)}" in page.locator("#progress-words").inner_text()
    with page.expect_navigation():
        page.keyboard.press("u")
    assert f"4 of {len(draft.findings)}" in page.locator("#progress-words").inner_text()
    page.keyboard.press("Tab")
    page.keyboard.press("n")
    dismiss(page, "decided after all")
    states = [decision.state for _, decision in open_decided(folder).settled]
    assert sorted(states) == ["corrected"] * 3 + ["dismissed"] * 2
    target = folder / "published.html"
    command = [sys.executable, "-m", "miner", "publish", str(folder), "--to", "html", "-o", str(target)]
    assert subprocess.run(command, check=False, capture_output=True).returncode == 0
    published = target.read_text(encoding="utf-8")
    assert all(f"Corrected wording {number}." in published for number in range(3))
    page.goto(target.as_uri())
    picture(page, "published-1280")


def test_single_keys_can_be_switched_off_and_never_act_in_fields(folder, serve, page_of):
    page = page_of()
    page.goto(serve(folder))
    page.keyboard.press("n")
    page.keyboard.press("d")
    page.keyboard.type("anne hums")
    assert page.evaluate("document.activeElement.value") == "anne hums"
    page.locator("#use-keys").uncheck()
    page.reload()
    before = focused(page)
    page.keyboard.press("n")
    assert focused(page) == before
    assert not page.locator("#use-keys").is_checked()


def test_two_editors_at_one_finding(folder, serve, page_of, picture, axe):
    address = serve(folder, password="long and secret")
    pages = []
    for name in ("Ada", "Bo"):
        page = page_of()
        page.goto(address)
        page.get_by_label("Your name").fill(name)
        page.get_by_label("Password").fill("long and secret")
        page.get_by_role("button", name="Come in").click()
        page.wait_for_url("**/r/**")
        page.keyboard.press("n")
        pages.append(page)
    dismiss(pages[0], "first")
    pages[1].keyboard.press("d")
    pages[1].keyboard.type("second")
    pages[1].keyboard.press("Enter")
    alert = pages[1].get_by_role("alert")
    alert.wait_for()
    assert "Nothing was saved" in alert.inner_text()
    text = pages[1].locator("main").inner_text()
    assert "Ada" in text
    assert "first" in text
    assert "second" in text
    assert axe(pages[1]) == []
    picture(pages[1], "collision-1280")
    pages[1].get_by_role("button", name="Save mine over it").click()
    pages[1].wait_for_url("**saved=**")
    ((_, decision),) = open_decided(folder).settled
    assert (decision.reason, decision.who, decision.version) == ("second", "Bo", 2)


@pytest.mark.parametrize("words", [HOSTILE, '"><img src=x onerror="document.title=1">', "javascript:alert(1)"])
def test_hostile_words_do_nothing(tmp_path, serve, page_of, words):
    page = page_of()
    dialogs = []
    page.on("dialog", lambda one: (dialogs.append(one.message), one.dismiss()))
    page.goto(serve(put(tmp_path / "out", small_draft(words))))
    title = page.title()
    for link in ("Transcript", "As published"):
        page.get_by_role("link", name=link, exact=True).click()
        assert page.locator("img[src=x]").count() == 0
        page.go_back()
    page.keyboard.press("n")
    page.keyboard.press("e")
    assert page.locator("main img").count() == 0
    assert dialogs == []
    assert title != "1"
    assert words in page.locator("body").inner_text()


def test_edges_are_rejected_on_the_page(folder, serve, page_of):
    page = page_of()
    page.goto(serve(folder))
    page.get_by_role("button", name=re.compile("^Reject ")).first.press("Enter")
    page.wait_for_url("**saved=**")
    assert focused(page) in ("", "e-1")
    assert open_decided(folder).draft.graph_.edges == ()


def test_without_scripts_everything_still_works(folder, serve, page_of):
    page = page_of(java_script_enabled=False)
    page.goto(serve(folder))
    finding = page.locator("article.finding").first
    finding.get_by_label("Reason to dismiss").fill("no script")
    finding.get_by_role("button", name="Dismiss").click()
    assert len(open_decided(folder).settled) == 1


def test_the_player_jumps_and_repeats(tmp_path, serve, page_of, picture):
    import io
    import wave
    from dataclasses import replace

    draft = busy_draft()
    put(tmp_path / "out", replace(draft, recording=replace(draft.recording, media="talk.wav")))
    made = io.BytesIO()
    with wave.open(made, "wb") as sound:
        sound.setnchannels(1)
        sound.setsampwidth(1)
        sound.setframerate(8000)
        sound.writeframes(bytes([128]) * 8000 * int(draft.recording.duration + 5))
    (tmp_path / "out" / "talk.wav").write_bytes(made.getvalue())
    page = page_of()
    page.goto(serve(tmp_path / "out"))
    page.wait_for_function("document.getElementById('player').readyState >= 1")
    page.keyboard.press("n")
    link = page.locator(".finding:focus .sides a.moment").first
    start, end = (float(link.get_attribute(name)) for name in ("data-start", "data-end"))
    page.keyboard.press("h")
    page.wait_for_function("t => Math.abs(document.getElementById('player').currentTime - t) < 3", arg=start)
    page.evaluate("t => { document.getElementById('player').currentTime = t }", max(end, start + 1.5) + 1)
    page.wait_for_function("t => Math.abs(document.getElementById('player').currentTime - t) < 3", arg=start)
    picture(page, "player-1280")
    page.keyboard.press("s")
    assert page.evaluate("document.getElementById('player').paused")
