"""Who is let in, from where, and what a page may do."""

import pytest
from clients import HOST, make_client
from desks import busy_draft, put
from samples import HOSTILE, small_draft
from starlette.testclient import TestClient

from miner.errors import InputError, SettingsError
from miner.review.app import make_app
from miner.review.library import Library
from miner.review.security import LARGEST_BODY, PAGE_POLICY, Gate, hosts_for, is_loopback
from miner.review.serving import serve

OWN = {"origin": f"http://{HOST}"}


def test_nobody_comes_in_without_the_token(folder, key):
    client = make_client(folder)
    for path in ("/", f"/r/{key}", f"/r/{key}/decisions.json", f"/r/{key}/media", "/start?token=guess", "/start"):
        assert client.get(path).status_code == 401, path
    assert client.post(f"/r/{key}/decide", headers=OWN).status_code == 401


def test_the_token_works_once(folder):
    client = make_client(folder, follow=False)
    assert client.head("/start?token=once").status_code == 401  # a look ahead does not spend it
    answer = client.get("/start?token=once")
    assert answer.status_code == 303
    cookie = answer.headers["set-cookie"].lower()
    assert "httponly" in cookie
    assert "samesite=strict" in cookie
    client.cookies.clear()
    assert client.get("/start?token=once").status_code == 401


@pytest.mark.parametrize("host", ["evil.example", "127.0.0.1", "127.0.0.1:80", "localhost.evil.example:8000", ""])
def test_a_foreign_host_header_is_refused(client, host):
    assert client.get("/", headers={"host": host}).status_code == 421


@pytest.mark.parametrize(
    "origin", ["http://evil.example", "null", "https://127.0.0.1:8000", "http://127.0.0.1:8001", None]
)
def test_a_foreign_origin_changes_nothing(client, key, origin):
    headers = {"origin": origin} if origin else {}
    assert client.post(f"/r/{key}/undo", data={"act": "1"}, headers=headers).status_code == 403


def test_a_cross_site_request_is_refused_whatever_its_origin(client, key):
    headers = {**OWN, "sec-fetch-site": "cross-site"}
    assert client.post(f"/r/{key}/undo", headers=headers).status_code == 403


@pytest.mark.parametrize("token", [None, "", "guess"])
def test_a_form_without_the_session_token_is_refused(client, key, token):
    data = {"act": "1"} | ({"form_token": token} if token is not None else {})
    for name in ("undo", "decide", "again", "import"):
        assert client.post(f"/r/{key}/{name}", data=data, headers=OWN).status_code == 403


def test_other_methods_and_large_bodies(client, key):
    assert client.put("/", headers=OWN).status_code == 405
    assert client.delete(f"/r/{key}", headers=OWN).status_code == 405
    headers = {**OWN, "content-length": str(LARGEST_BODY + 1)}
    assert client.post(f"/r/{key}/import", content=b"x", headers=headers).status_code == 413


def test_every_answer_carries_the_policy(client, key):
    for path in ("/", f"/r/{key}", f"/r/{key}/transcript", f"/r/{key}/history", "/static/review.js", "/nothing"):
        headers = client.get(path).headers
        assert headers["content-security-policy"] == PAGE_POLICY
        assert headers["x-content-type-options"] == "nosniff"
    assert "unsafe" not in PAGE_POLICY
    for path in (f"/r/{key}/graph.svg", f"/r/{key}/published?to=html", f"/r/{key}/published?to=markdown"):
        policy = client.get(path).headers["content-security-policy"]
        assert "script-src" not in policy
        assert "default-src 'none'" in policy


def test_no_page_holds_a_script_or_style_of_its_own(client, key):
    for path in (f"/r/{key}", f"/r/{key}/transcript", f"/r/{key}/history"):
        text = client.get(path).text
        assert text.count("<script") == 1
        assert 'style="' not in text
        assert "<style" not in text
        assert " onclick" not in text


@pytest.mark.parametrize(
    "words", [HOSTILE, '"><img src=x onerror=alert(1)>', "' onfocus='alert(1)' '", "{{ 7*7 }}", "\x00\u202e</li>"]
)
def test_hostile_words_are_words(tmp_path, words):
    client = make_client(put(tmp_path / "out", small_draft(words)))
    text = client.get("/start?token=once").text
    key = next(iter(Library.at(tmp_path / "out").entries()))
    pages = [
        text,
        *(client.get(f"/r/{key}{path}").text for path in ("", "/transcript", "/history", "/published?to=html")),
    ]
    pages.append(client.get(f"/r/{key}/edit", params={"item": step_key(tmp_path / "out")}).text)
    for one in pages:
        assert "<img src=x" not in one
        assert '<script>alert("1")' not in one
        assert "onfocus='alert" not in one
        assert (words in one) or words != "{{ 7*7 }}"


def step_key(folder):
    from miner.decisions.opening import open_decided

    return open_decided(folder).items.key("step", "p01.s01")


def test_hostile_recordings_names_and_filters(client, key):
    text = client.get(
        f"/r/{key}", params={"check": '"><script>alert(1)</script>', "severity": "<b>", "saved": "<i>"}
    ).text
    assert "<script>alert(1)" not in text
    assert "<b>" not in text
    assert client.get("/", params={"q": "<script>"}).status_code == 200


@pytest.mark.parametrize(
    "path",
    ["/r/..%2f..%2fetc%2fpasswd", "/r/%2e%2e/draft.json", "/static/..%2freview.css", "/static/../../pyproject.toml",
     "/r/nothing", "/r/nothing/media", "/static/recording.html.j2"],
)  # fmt: skip
def test_no_path_leads_out(client, path):
    assert client.get(path).status_code == 404


def test_a_link_out_of_the_folder_is_not_served(tmp_path):
    put(tmp_path / "secret", busy_draft())
    put(tmp_path / "out" / "one", busy_draft())
    (tmp_path / "out" / "two").mkdir()
    (tmp_path / "out" / "two" / "draft.json").symlink_to(tmp_path / "secret" / "draft.json")
    (tmp_path / "out" / "three").symlink_to(tmp_path / "secret", target_is_directory=True)
    assert [entry.place for entry in Library.at(tmp_path / "out").entries().values()] == ["one"]


def test_a_password_where_others_can_reach(folder):
    with pytest.raises(SettingsError, match="no password"):
        serve(Library.at(folder), host="0.0.0.0", ready=print)
    assert is_loopback("127.0.0.1")
    assert is_loopback("::1")
    assert is_loopback("localhost")
    assert not is_loopback("0.0.0.0")
    assert not is_loopback("desk.example")
    assert "desk.example:8080" in hosts_for("desk.example", 8080)
    assert "desk.example" in hosts_for("desk.example", 80)
    assert hosts_for("127.0.0.1", 8000) == {"localhost:8000", "127.0.0.1:8000", "[::1]:8000"}


def test_the_password_lets_in_by_name(folder, key):
    client = make_client(folder, password="long and secret")
    assert "Password" in client.get("/").text
    assert client.get("/start?token=").status_code == 401
    wrong = client.post("/login", data={"who": "Bo", "password": "guess"}, headers=OWN)
    assert wrong.status_code == 403
    assert client.post("/login", data={"who": "", "password": "long and secret"}, headers=OWN).status_code == 403
    assert client.post("/login", data={"who": "Bo", "password": "long and secret"}).status_code == 403  # no origin
    right = client.post("/login", data={"who": "Bo", "password": "long and secret"}, headers=OWN)
    assert right.status_code == 200
    assert 'value="Bo"' in client.get(f"/r/{key}").text


def test_guessing_passwords_is_stopped(folder):
    client = make_client(folder, password="long and secret")
    for _ in range(5):
        client.post("/login", data={"who": "Bo", "password": "guess"}, headers=OWN)
    answer = client.post("/login", data={"who": "Bo", "password": "long and secret"}, headers=OWN)
    assert answer.status_code == 429


def test_a_folder_without_drafts_is_told(tmp_path):
    with pytest.raises(InputError, match="no draft"):
        Library.at(tmp_path)
    with pytest.raises(InputError, match="no draft"):
        Library.at(tmp_path / "nothing")


def test_behind_a_proxy_with_tls(folder):
    gate = Gate(frozenset({HOST}), "long and secret", behind=frozenset({"desk.example"}))
    client = TestClient(make_app(Library.at(folder), gate), base_url="https://desk.example", follow_redirects=False)
    data = {"who": "Bo", "password": "long and secret"}
    assert client.post("/login", data=data, headers={"origin": "http://desk.example"}).status_code == 403
    answer = client.post("/login", data=data, headers={"origin": "https://desk.example"})
    assert "secure" in answer.headers["set-cookie"].lower()
    for public in ("http://desk.example", "https://desk.example/path", "desk.example"):
        with pytest.raises(SettingsError):
            serve(Library.at(folder), password="x", public=public, ready=print)
    with pytest.raises(SettingsError, match="no password"):
        serve(Library.at(folder), public="https://desk.example", ready=print)
