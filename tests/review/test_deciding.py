"""Decisions made over the pages, as an editor's browser sends them."""

import json
from dataclasses import replace

import pytest
from clients import OWN_HEADERS, hidden, make_client
from desks import busy_draft, put
from samples import FIXTURES

from miner.decisions.opening import open_decided
from miner.review.context import transcript
from miner.review.library import Library


@pytest.fixture
def path(key):
    return f"/r/{key}"


def finding(number=0, **wanted):
    found = [one for one in busy_draft().findings if all(bool(getattr(one, k)) == v for k, v in wanted.items())]
    return f"finding:{found[number].id}"


def test_one_draft_is_opened_at_once(client):
    assert str(client.get("/").url).rpartition("/r/")[1] == "/r/"


def test_accept_without_a_suggestion(client, path, folder):
    item = finding(suggestion=False)
    answer = client.fill(f"{path}/decide", client.get(path).text, item=item, do="accept")
    assert "Saved." in answer.text
    assert [decision.state for _, decision in open_decided(folder).settled] == ["accepted"]
    assert "1 of" in answer.text


def test_accept_a_suggestion_corrects_the_step(client, path, folder):
    item = finding(suggestion=True)
    client.fill(f"{path}/decide", client.get(path).text, item=item, do="accept")
    wanted = next(one.suggestion for one in busy_draft().findings if f"finding:{one.id}" == item)
    decided = open_decided(folder)
    assert wanted.to in [step.text for p in decided.draft.procedures for step in p.steps]
    page = client.get(path).text
    client.fill(f"{path}/undo", page)
    assert open_decided(folder).draft == decided.mined


def test_dismiss_needs_a_reason(client, path, folder):
    item = finding()
    page = client.get(path).text
    answer = client.fill(f"{path}/decide", page, item=item, do="dismiss", reason="  ")
    assert answer.status_code == 422
    assert "reason" in answer.text
    client.fill(f"{path}/decide", page, item=item, do="dismiss", reason="two builds <b>")
    ((_, decision),) = open_decided(folder).settled
    assert (decision.state, decision.reason, decision.who) == ("dismissed", "two builds <b>", "Ada")
    shown = client.get(path).text
    assert "two builds &lt;b&gt;" in shown
    client.fill(f"{path}/decide", shown, item=item, do="reopen")
    assert open_decided(folder).settled == ()


def edit(client, path, folder, name="p02.s01", chosen=None):
    key = open_decided(folder).items.key("step", name)
    params = {"item": key} | ({"finding": chosen} if chosen else {})
    return key, client.get(f"{path}/edit", params=params).text


STEP = {
    "action": "",
    "part": "",
    "from": "",
    "manner": "",
    "condition": "",
    "tools": "",
    "supplies": "",
    "phase": "remove",
}


def test_correct_a_step_and_settle_a_finding(client, path, folder):
    one = next(one for one in busy_draft().findings if any(side.step == "p02.s01" for side in one.evidence))
    key, page = edit(client, path, folder, chosen=f"finding:{one.id}")
    assert "checked" in page.partition("This settles")[2]
    fields = {**STEP, "text": "Undo the screws.", "part": "lid", "tools": "T10 driver\nspudger; brush"}
    fields |= {
        "g0-kind": "screw",
        "g0-count": "2 or 3",
        "g0-length_mm": "8,5 mm",
        "g0-drive": "hexalobular",
        "g0-captive": "1",
    }
    values = hidden(page, f"{path}/decide", key)
    versions = {f"v:finding:{one.id}": "0", "settles": f"finding:{one.id}"}
    answer = client.post(f"{path}/decide", data={**values, **versions, **fields, "do": "save"}, headers=OWN_HEADERS)
    assert answer.status_code == 200
    decided = open_decided(folder)
    step = decided.draft.procedures[1].steps[0]
    assert (step.text, step.part, step.tools) == ("Undo the screws.", "lid", ("T10 driver", "spudger", "brush"))
    group = step.fasteners[0]
    assert (group.count, group.count_alternatives, group.length_mm, group.captive) == (None, (2, 3), 8.5, True)
    assert [decision.state for _, decision in decided.settled] == ["corrected"]
    # taking the correction back opens the finding again
    again = client.get(f"{path}/edit", params={"item": key}).text
    client.fill(f"{path}/decide", again, item=key, do="reopen")
    assert open_decided(folder).draft == decided.mined


@pytest.mark.parametrize(
    ("field", "value"), [("g0-count", "many"), ("g0-length_mm", "-3"), ("phase", "never"), ("text", "")]
)
def test_what_cannot_be_is_told(client, path, folder, field, value):
    key, page = edit(client, path, folder)
    fields = {**STEP, "text": "Undo.", "g0-kind": "screw", field: value}
    answer = client.fill(f"{path}/decide", page, item=key, do="save", **fields)
    assert answer.status_code == 422
    assert open_decided(folder).draft == open_decided(folder).mined


def test_split_join_move_remove(client, path, folder):
    procedure = next(p for p in busy_draft().procedures if len(p.steps) >= 4)
    place = busy_draft().procedures.index(procedure)
    names = [step.id for step in procedure.steps]

    def steps():
        return open_decided(folder).draft.procedures[place].steps

    key, page = edit(client, path, folder, names[0])
    client.fill(f"{path}/decide", page, item=key, do="split", part1="One.", part2="Two.")
    assert [step.text for step in steps()[:2]] == ["One.", "Two."]
    second = f"{key}/2"
    page = client.get(f"{path}/edit", params={"item": second}).text
    client.fill(f"{path}/decide", page, item=second, do="save", **{**STEP, "text": "Two, better."})
    assert steps()[1].text == "Two, better."
    key, page = edit(client, path, folder, names[2])
    following = open_decided(folder).items.key("step", names[3])
    client.fill(f"{path}/decide", page, item=key, do="join", text="Both.", **{"with": following})
    assert names[3] not in [step.id for step in steps()]
    key, page = edit(client, path, folder, names[1])
    client.fill(f"{path}/decide", page, item=key, do="move", after="")
    assert steps()[0].id == names[1]
    page = client.get(f"{path}/edit", params={"item": key}).text
    client.fill(f"{path}/decide", page, item=key, do="remove")
    assert names[1] not in [step.id for step in steps()]
    history = client.get(f"{path}/history").text
    for word in ("Split", "Joined with", "Placed after", "Taken out"):
        assert word in history


def test_retitle_and_notices(client, path, folder):
    items = open_decided(folder).items
    key = items.key("procedure", "p02")
    page = client.get(f"{path}/edit", params={"item": key}).text
    fields = {
        "title": "Another title",
        "subject": "lid",
        "kind": "replace",
        "install": "reverse",
        "prerequisites": "tank\ntray",
    }
    client.fill(f"{path}/decide", page, item=key, do="save", **fields)
    made = open_decided(folder).draft.procedures[1]
    assert (made.title, [one.part for one in made.prerequisites]) == ("Another title", ["tank", "tray"])
    step = items.key("step", "p02.s01")
    page = client.get(f"{path}/edit", params={"item": "notice:new", "procedure": key}).text
    fields = {"kind": "warning", "text": "It is hot.", "step": step}
    client.fill(f"{path}/decide", page, item="notice:new", do="add", **fields)
    notice = open_decided(folder).draft.procedures[1].notices[-1]
    assert (notice.kind, notice.text, notice.step) == ("warning", "It is hot.", "p02.s01")
    added = next(one.item for one in open_decided(folder).matched.holding if one.item.startswith("notice:new-"))
    page = client.get(f"{path}/edit", params={"item": added}).text
    client.fill(f"{path}/decide", page, item=added, do="save", kind="danger", text="It is very hot.", step="")
    notice = open_decided(folder).draft.procedures[1].notices[-1]
    assert (notice.kind, notice.text, notice.step) == ("danger", "It is very hot.", None)


def test_edges(client, path, folder):
    items = open_decided(folder).items
    key = items.key("edge", "a>b")
    client.fill(f"{path}/decide", client.get(path).text, item=key, do="reject", row="e-1")
    assert open_decided(folder).draft.graph_.edges == ()
    client.fill(f"{path}/decide", client.get(path).text, item=key, do="reopen")
    client.fill(f"{path}/decide", client.get(path).text, item=key, do="confirm")
    assert open_decided(folder).draft.graph_.edges[0].kind == "stated"
    assert client.get(f"{path}/graph.svg").headers["content-type"] == "image/svg+xml"


def test_the_second_editor_is_told_and_sees_both(folder, path):
    editors = []
    for name in ("Ada", "Bo"):
        editor = make_client(folder, who=name)
        editor.get("/start?token=once")
        editors.append(editor)
    item = finding()
    pages = [editor.get(path).text for editor in editors]
    editors[0].fill(f"{path}/decide", pages[0], item=item, do="dismiss", reason="first here")
    answer = editors[1].fill(f"{path}/decide", pages[1], item=item, do="dismiss", reason="second here")
    assert answer.status_code == 409
    for words in ("Nothing was saved", "by Ada", "first here", "second here"):
        assert words in answer.text
    assert open_decided(folder).settled[0][1].reason == "first here"
    values = hidden(answer.text, f"{path}/decide")
    editors[1].post(f"{path}/decide", data=values, headers=OWN_HEADERS)
    assert open_decided(folder).settled[0][1].reason == "second here"
    assert len(editors[1].get(f"{path}/history").text.split("Dismissed by")) == 3


def test_filters(client, path):
    draft = busy_draft()
    everything = client.get(path).text
    errors = client.get(path, params={"severity": "error"}).text
    assert everything.count('<article class="finding') == len(draft.findings)
    assert errors.count('<article class="finding') == sum(one.severity == "error" for one in draft.findings)
    client.fill(f"{path}/decide", everything, item=finding(), do="dismiss", reason="x")
    assert client.get(path, params={"state": "decided"}).text.count('<article class="finding') == 1
    only = client.get(path, params={"state": "decided", "only": "1"}).text
    assert only.count('<li class="step"') < everything.count('<li class="step"')


def test_after_a_decision_the_next_open_finding_follows(client, path):
    page = client.get(path, params={"severity": "error"})
    first, second = [part.partition('"')[0] for part in page.text.split('id="f-')[1:3]]
    client.follow_redirects = False
    answer = client.fill(f"{path}/decide", page.text, item=f"finding:{first}", do="dismiss", reason="x")
    assert answer.headers["location"].endswith(f"#f-{second}")
    assert "severity=error" in answer.headers["location"]


def test_a_remined_draft_keeps_decisions_and_asks_about_changed_ones(client, path, folder):
    draft = busy_draft()
    key, page = edit(client, path, folder)
    client.fill(f"{path}/decide", page, item=key, do="save", **{**STEP, "text": "Mine."})
    procedure = draft.procedures[1]
    step = replace(procedure.steps[0], spoken=f"{procedure.steps[0].spoken} all of them", text="Anew.")
    procedures = list(draft.procedures)
    procedures[1] = replace(procedure, steps=(step, *procedure.steps[1:]))
    put(folder, replace(draft, procedures=tuple(procedures)))
    shown = client.get(path).text
    assert "To be looked at again" in shown
    assert open_decided(folder).draft.procedures[1].steps[0].text == "Anew."
    client.fill(f"{path}/again", shown, item=key, do="keep")
    assert open_decided(folder).draft.procedures[1].steps[0].text == "Mine."
    assert "To be looked at again" not in client.get(path).text


def test_export_and_import(client, path, folder, tmp_path):
    client.fill(f"{path}/decide", client.get(path).text, item=finding(), do="dismiss", reason="x")
    exported = client.get(f"{path}/decisions.json").text
    assert json.loads(exported)["schema"] == "decisions/1"
    other_folder = put(tmp_path / "other" / "out", busy_draft())
    other = make_client(other_folder)
    page = other.get("/start?token=once").text
    there = f"/r/{next(iter(Library.at(other_folder).entries()))}"
    values = hidden(page, f"{there}/import")
    files = {"file": ("decisions.json", exported)}
    answer = other.post(f"{there}/import", data=values, files=files, headers=OWN_HEADERS)
    assert "1 decisions taken over" in answer.text
    assert len(open_decided(other_folder).settled) == 1
    broken = other.post(f"{there}/import", data=values, files={"file": ("x.json", "{")}, headers=OWN_HEADERS)
    assert broken.status_code == 422


def test_what_is_published_shows_open_errors_in_front_and_in_place(client, path):
    text = client.get(f"{path}/published?to=html").text
    errors = [one for one in busy_draft().findings if one.severity == "error"]
    assert f"Not released: {len(errors)} open errors" in text
    assert text.count("Open error.") >= len(errors)
    markdown = client.get(f"{path}/published?to=markdown").text
    assert markdown.index("Not released") < markdown.index("**Open error:**")


def test_a_broken_draft_does_not_hide_the_others(tmp_path):
    put(tmp_path / "out" / "good", busy_draft())
    (tmp_path / "out" / "bad").mkdir()
    (tmp_path / "out" / "bad" / "draft.json").write_text("{}", encoding="utf-8")
    client = make_client(tmp_path / "out")
    text = client.get("/start?token=once").text
    assert "not a draft/1 document" in text
    assert "good" in text
    keys = {entry.place: key for key, entry in Library.at(tmp_path / "out").entries().items()}
    assert client.get(f"/r/{keys['bad']}").status_code == 422


def test_the_transcript_beside_the_draft_gives_the_context():
    from miner.drafting import draft as mine

    made = mine(FIXTURES / "quellwood" / "e2-service-script.srt")
    found = transcript(made, [FIXTURES / "quellwood"])
    assert found.complete
    step = made.procedures[1].steps[0]
    before, after = found.around(step.start, step.end)
    assert before
    assert after
    assert not transcript(made, []).complete
    assert not transcript(replace(made, recording=replace(made.recording, source="../x.srt")), [FIXTURES]).complete
