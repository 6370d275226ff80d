"""Every page under the accessibility rules, light and dark, wide and narrow; and nothing wider than the screen."""

import re

import pytest
from desks import busy_draft, put
from samples import small_draft

from miner.decisions.decision import Decision
from miner.decisions.items import Items
from miner.decisions.store import DecisionStore
from miner.publish.page import render

SIZES = [(width, scheme) for width in (1280, 390) for scheme in ("light", "dark")]


@pytest.fixture
def folder(tmp_path):
    """Two drafts; in one of them every kind of state occurs."""
    draft = busy_draft()
    items = Items.of(draft)
    store = DecisionStore(put(tmp_path / "out" / "one", draft) / "decisions.sqlite")
    first, second = draft.findings[:2]
    step = items.key("step", draft.procedures[1].steps[0].id)
    store.save([Decision(f"finding:{first.id}", "dismissed", reason="two builds are in use")], who="Ada")
    store.save([Decision(f"finding:{second.id}", "corrected", {"items": [step]}),
                Decision(step, "corrected", {"text": "Take the lid off."})], who="Bo")  # fmt: skip
    store.save([Decision("step:gone", "corrected", {"text": "x"})], who="Ada")
    put(tmp_path / "out" / "two", small_draft())
    return tmp_path / "out"


@pytest.mark.parametrize(("width", "scheme"), SIZES)
def test_pages(folder, serve, page_of, axe, picture, width, scheme):
    page = page_of(width, scheme)
    page.goto(serve(folder))
    seen = {}

    def look(name):
        seen[name] = axe(page)
        room = page.evaluate("document.documentElement.scrollWidth")
        assert room <= width, f"{name} is {room} wide"
        picture(page, f"{name}-{width}-{scheme}")

    look("list")
    page.get_by_role("link", name="e2-service-script").first.click()
    address = page.url
    look("recording")
    page.keyboard.press("n")
    picture(page, f"finding-{width}-{scheme}")
    page.evaluate("document.getElementById('order').scrollIntoView()")
    picture(page, f"order-{width}-{scheme}")
    page.get_by_role("link", name=re.compile("^Edit step")).first.click()
    for summary in page.locator("summary").all():
        summary.click()
    look("edit-step")
    for name, text in (("edit-procedure", "^Edit procedure"), ("add-notice", "^Add a notice")):
        page.goto(address)
        page.get_by_role("link", name=re.compile(text)).first.click()
        look(name)
    for name in ("transcript", "history"):
        page.goto(f"{address}/{name}")
        look(name)
    page.goto(f"{address}?check=nothing")
    look("filtered")
    page.goto(f"{address}/published?to=html")
    seen["published"] = axe_in_sandbox(page, axe)
    picture(page, f"published-{width}-{scheme}")
    assert {name: found for name, found in seen.items() if found} == {}


def axe_in_sandbox(page, axe):
    """A published page forbids all scripts, also the rules' own; its text is judged in a page without the policy."""
    html = page.evaluate("document.documentElement.outerHTML")
    page.goto("about:blank")
    page.set_content(re.sub(r"<meta http-equiv[^>]*>", "", html))
    return axe(page)


@pytest.mark.parametrize(("width", "scheme"), SIZES)
def test_static_page(tmp_path, page_of, axe, picture, width, scheme):
    (tmp_path / "draft.html").write_text(render(busy_draft()), encoding="utf-8")
    page = page_of(width, scheme)
    page.goto((tmp_path / "draft.html").as_uri())
    assert axe(page) == []
    assert page.evaluate("document.documentElement.scrollWidth") <= width
    picture(page, f"static-{width}-{scheme}")


def test_login_and_problem(folder, serve, page_of, axe, picture):
    page = page_of()
    page.goto(serve(folder, password="long and secret"))
    assert axe(page) == []
    page.get_by_label("Your name").fill("Ada")
    page.get_by_label("Password").fill("wrong")
    page.keyboard.press("Enter")
    page.get_by_role("alert").wait_for()
    assert axe(page) == []
    picture(page, "login-1280")
