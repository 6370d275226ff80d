"""How long the browser takes with a long recording and with many drafts: printed, with a generous bound."""

from dataclasses import replace

from desks import busy_draft, long_draft, put

BOUND = 5000  # milliseconds; the aim is a thousand, on a machine with nothing else to do
READY = """() => {
  const t = performance.getEntriesByType("navigation")[0];
  return [t.responseEnd, t.domContentLoadedEventEnd, t.loadEventEnd];
}"""


def ready(page, address, name):
    page.goto(address)
    page.wait_for_function("performance.getEntriesByType('navigation')[0].loadEventEnd > 0")
    answered, usable, loaded = page.evaluate(READY)
    print(f"\n{name}: answered after {answered:.0f} ms, usable after {usable:.0f} ms, loaded after {loaded:.0f} ms")
    return usable


def test_a_recording_of_500_steps(tmp_path, serve, page_of):
    page = page_of()
    page.goto(serve(put(tmp_path / "out", long_draft(500))))
    assert page.locator("li.step").count() == 500
    assert min(ready(page, page.url, "500 steps") for _ in range(3)) < BOUND


def test_200_drafts(tmp_path, serve, page_of):
    draft = busy_draft()
    for number in range(200):
        titled = replace(draft, recording=replace(draft.recording, title=f"Recording {number}"))
        put(tmp_path / "out" / f"{number:03}", titled)
    page = page_of()
    page.goto(serve(tmp_path / "out"))
    assert page.locator("table.drafts tbody tr").count() == 200
    assert min(ready(page, page.url, "200 drafts") for _ in range(3)) < BOUND
    page.get_by_label("Title, product or place").fill("recording 199")
    page.keyboard.press("Enter")
    page.wait_for_url("**q=**")
    assert page.locator("table.drafts tbody tr").count() == 1
