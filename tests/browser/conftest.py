"""A real server, a real browser, and what accessibility rules say of a page."""

from __future__ import annotations

import os
import re
import shutil
import subprocess
import sys
from pathlib import Path

import pytest
from samples import ROOT

CHROMIUM = os.environ.get("CHROMIUM") or shutil.which("chromium")
FLAGS = [
    "--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run",
    "--disable-background-networking", "--disable-component-update", "--disable-sync",
]  # fmt: skip
PICTURES = ROOT / "out" / "browser"
RULES = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]

SERVE = "import typer; from miner.cli.review import review; typer.run(review)"


@pytest.fixture(scope="session")
def browser():
    if CHROMIUM is None:
        pytest.skip("there is no chromium; apt-get install chromium")
    from playwright.sync_api import sync_playwright

    with sync_playwright() as playwright:
        started = playwright.chromium.launch(executable_path=CHROMIUM, args=FLAGS)
        yield started
        started.close()


@pytest.fixture
def page_of(browser):
    """A new page in a browser of its own (cookies apart); errors of scripts and of the policy fail the test."""
    contexts, faults = [], []

    def made(width=1280, scheme="light", **options):
        context = browser.new_context(viewport={"width": width, "height": 900}, color_scheme=scheme, **options)
        contexts.append(context)
        page = context.new_page()
        page.set_default_timeout(15_000)
        page.on("pageerror", lambda error: faults.append(str(error)))
        page.on("console", lambda one: faults.append(one.text) if "Content Security Policy" in one.text else None)
        return page

    yield made
    for context in contexts:
        context.close()
    assert faults == []


@pytest.fixture
def serve():
    """Starts `miner review` over a folder; gives the address it prints."""
    running = []

    def started(folder, *arguments, password=None):
        extra = ["--password"] if password else []
        process = subprocess.Popen(
            [sys.executable, "-c", SERVE, str(folder), *extra, *arguments],
            stderr=subprocess.PIPE, text=True, env={**os.environ, **({"MINER_PASSWORD": password} if password else {})},
        )  # fmt: skip
        running.append(process)
        line = process.stderr.readline()
        return re.search(r"http://\S+", line).group()

    yield started
    for process in running:
        process.terminate()
        process.wait(20)
        process.stderr.close()


@pytest.fixture(scope="session")
def axe():
    """The accessibility rules, run in a page; gives what they object to."""
    package = pytest.importorskip("axe_playwright_python", reason="axe-playwright-python carries the rules")
    source = (Path(package.__file__).parent / "axe.min.js").read_text(encoding="utf-8")

    def violations(page):
        page.evaluate(source)
        found = page.evaluate("rules => axe.run(document, {runOnly: rules})", RULES)
        return [
            f"{one['id']}: {one['help']} ({'; '.join(node['html'][:120] for node in one['nodes'][:3])})"
            for one in found["violations"]
        ]

    return violations


@pytest.fixture
def picture():
    """Keeps a screenshot where no commit takes it."""
    PICTURES.mkdir(parents=True, exist_ok=True)

    def kept(page, name, **options):
        page.screenshot(path=PICTURES / f"{name}.png", **options)

    return kept
