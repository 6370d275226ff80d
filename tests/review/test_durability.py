"""Nothing that was acknowledged is lost when the server is killed in the middle of its work."""

import os
import re
import signal
import subprocess
import sys
import threading
import time
from html import unescape

import pytest
from clients import hidden
from desks import long_draft, put
from httpx2 import Client, HTTPError

from miner.decisions.store import DecisionStore, standing

SERVE = "import typer; from miner.cli.review import review; typer.run(review)"


@pytest.fixture
def server(tmp_path):
    folder = put(tmp_path / "out", long_draft(250, 250))
    process = subprocess.Popen(
        [sys.executable, "-c", SERVE, str(folder), "--name", "Ada"], stderr=subprocess.PIPE, text=True
    )
    address = re.search(r"http://\S+", process.stderr.readline()).group()
    yield folder, process, address
    process.kill()
    process.wait()
    process.stderr.close()


@pytest.mark.skipif(not hasattr(signal, "SIGKILL"), reason="there is no SIGKILL here")
def test_acknowledged_decisions_survive_sigkill(server):
    folder, process, address = server
    base = address.partition("/start")[0]
    acknowledged = []
    with Client(base_url=base, headers={"origin": base}, timeout=20) as client:
        page = client.get(address, follow_redirects=True)
        page = client.get(str(page.url), follow_redirects=True) if not page.text else page
        path = re.search(r'action="(/r/[^"/]*)/decide"', page.text).group(1)
        items = [unescape(one) for one in re.findall(r'name="item" value="(finding:[^"]*)"', page.text)]
        token = hidden(page.text, f"{path}/decide")["form_token"]

        def stream():
            for item in items:
                data = {"form_token": token, "item": item, f"v:{item}": "0", "do": "dismiss", "reason": "seen"}
                try:
                    answer = client.post(f"{path}/decide", data=data)
                except HTTPError:
                    return
                if answer.status_code == 303 and "saved=" in answer.headers["location"]:
                    acknowledged.append(item)

        thread = threading.Thread(target=stream)
        thread.start()
        deadline = time.monotonic() + 30
        while len(acknowledged) < 12 and time.monotonic() < deadline:
            time.sleep(0.005)
        os.kill(process.pid, signal.SIGKILL)
        process.wait(10)
        thread.join(30)
    assert len(acknowledged) >= 12
    assert len(acknowledged) < len(items)  # it was killed in the middle
    stored = standing(DecisionStore(folder / "decisions.sqlite").current())
    assert set(acknowledged) <= set(stored)
    assert len(stored) <= len(acknowledged) + 1  # at most the one whose answer was under way
