"""Forms of the page turned into decisions: pure functions of the form and of what was decided so far."""

from __future__ import annotations

import secrets
from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace

from miner.decisions.changes import checked, fastener_values
from miner.decisions.decision import Basis, Changes, Decision, State
from miner.decisions.items import Items, step_id_of, step_key
from miner.decisions.matching import carried
from miner.decisions.opening import Decided
from miner.decisions.suggesting import suggested
from miner.errors import DecisionError
from miner.model.draft import Fastener, Procedure, Step
from miner.model.finding import Finding
from miner.review import forms


@dataclass(frozen=True, slots=True)
class Desk:
    """What lies before the editor: the draft with its decisions, the latest decision on each item, the form."""

    decided: Decided
    latest: Mapping[str, Decision]
    form: Mapping[str, str]
    settles: tuple[str, ...] = ()  # keys of findings that the editor ticked

    @property
    def items(self) -> Items:
        """The items of the draft as mined."""
        return self.decided.items

    def version(self, key: str) -> int:
        """The version of an item that the form had in view; 0 if it says none."""
        given = self.form.get(f"v:{key}", "0")
        return int(given) if given.isdigit() and len(given) < 10 else 0

    def decision(self, key: str, state: State, changes: Changes, reason: str = "") -> Decision:
        """A decision on an item, at the version that the form had in view."""
        item = self.items.get(key)
        basis = item.basis if item else self.latest[key].basis if key in self.latest else Basis()
        return Decision(key, state, checked(key, changes), reason, basis, version=self.version(key))

    def corrected(self, key: str, changes: Changes) -> tuple[Decision, ...]:
        """A correction on top of earlier ones of the same item, with the findings that it settles."""
        earlier = self.latest[key].changes if key in self.latest and self.latest[key].state != "open" else {}
        main = self.decision(key, "corrected", {**earlier, **changes})
        return (main, *(self.decision(one, "corrected", {"items": [key]}) for one in self.settles))


def find_step(desk: Desk, key: str) -> tuple[Procedure, Step]:
    """A step of the decided draft with its procedure.

    Raises:
        DecisionError: there is none under that key (any more).
    """
    try:
        wanted = step_id_of(desk.items, key)
    except KeyError:
        wanted = ""
    for procedure in desk.decided.draft.procedures:
        for step in procedure.steps:
            if step.id == wanted:
                return procedure, step
    raise _missing()


def decide(desk: Desk) -> tuple[Decision, ...]:
    """What the form decides.

    Raises:
        DecisionError: something is missing in it, or cannot be so.
    """
    item = desk.form.get("item", "")
    handler = _HANDLERS.get((item.partition(":")[0], desk.form.get("do", "")))
    if handler is None:
        raise DecisionError("this cannot be done here", remedy="Load the page anew.")
    return handler(desk, item)


def _missing() -> DecisionError:
    return DecisionError("the item is not in this draft any more", remedy="Load the page anew.")


def find_finding(desk: Desk, key: str) -> Finding:
    """A finding of the mined draft by its key."""
    for finding in desk.decided.mined.findings:
        if f"finding:{finding.id}" == key:
            return finding
    raise _missing()


def correction_of(finding: Finding, decided: Decided) -> tuple[str, Changes] | None:
    """Key of the item that accepting a finding corrects, and how; None where the finding only says what is wrong."""
    if finding.suggestion is None:
        return None
    made = suggested(finding.suggestion, decided.draft)
    if made is None:
        return None
    kind, name, changes = made
    items = decided.items
    return (step_key(items, name) if kind == "step" else items.key(kind, name)), changes


def _accept(desk: Desk, item: str) -> tuple[Decision, ...]:
    correction = correction_of(find_finding(desk, item), desk.decided)
    if correction is None:
        return (desk.decision(item, "accepted", {}, forms.words(desk.form.get("reason", "")) or ""),)
    key, changes = correction
    target = replace(desk, settles=()).corrected(key, changes)
    return (desk.decision(item, "accepted", {"items": [key]}), *target)


def _dismiss(desk: Desk, item: str) -> tuple[Decision, ...]:
    find_finding(desk, item)
    reason = forms.words(desk.form.get("reason", ""))
    if reason is None:
        raise DecisionError(
            "a finding is dismissed with a reason, and none was given", remedy="Say why in a few words."
        )
    return (desk.decision(item, "dismissed", {}, reason[:1000]),)


def _reopen(desk: Desk, item: str) -> tuple[Decision, ...]:
    """Take a decision back; a finding that only the correction of this item settled is open again with it."""
    freed = [] if item.startswith("finding:") else settled_by(item, desk.latest)
    return tuple(desk.decision(key, "open", {}) for key in (item, *freed))


def settled_by(item: str, latest: Mapping[str, Decision]) -> list[str]:
    """Keys of the findings that the correction of an item settled."""
    found = (one for one in latest.values() if one.kind == "finding" and one.state != "open")
    return [one.item for one in found if one.changes.get("items") == [item]]


def _step_fields(desk: Desk, item: str) -> tuple[Decision, ...]:
    _, step = find_step(desk, item)
    typed = {name: forms.value_of(name, desk.form.get(name, "")) for name in forms.STEP_FIELDS}
    changes: Changes = {name: value for name, value in typed.items() if value != forms.step_value(step, name)}
    fasteners = forms.fasteners_from(desk.form, "g", step)
    if fasteners != fastener_values(step.fasteners):
        changes["fasteners"] = fasteners
    return _changed(desk, item, changes)


def _changed(desk: Desk, item: str, changes: Changes) -> tuple[Decision, ...]:
    if not changes and not desk.settles:
        raise DecisionError("nothing was changed", remedy="Change a field, or tick what this settles.")
    if not changes:
        return tuple(desk.decision(one, "corrected", {"items": [item]}) for one in desk.settles)
    return desk.corrected(item, changes)


def _split(desk: Desk, item: str) -> tuple[Decision, ...]:
    _, step = find_step(desk, item)
    if "/" in item:
        raise DecisionError("a part of a split step is not split again", remedy="Take the first split back instead.")
    parts = []
    for number in ("1", "2"):
        text = forms.words(desk.form.get(f"part{number}", ""))
        if text is None:
            raise DecisionError("a part of the step has no words", remedy="Give both parts their wording.")
        groups = tuple(one for n, one in enumerate(step.fasteners) if desk.form.get(f"goes{n}", "1") == number)
        parts.append({"text": text, "fasteners": fastener_values(groups)})
    made = desk.corrected(item, {"split": parts})
    kept = {name: value for name, value in made[0].changes.items() if name not in ("text", "fasteners")}
    return (replace(made[0], changes=kept), *made[1:])


def _join(desk: Desk, item: str) -> tuple[Decision, ...]:
    procedure, step = find_step(desk, item)
    following = procedure.steps[step.number] if step.number < len(procedure.steps) else None
    if following is None or step_key(desk.items, following.id) != desk.form.get("with"):
        raise DecisionError("the next step is another one now", remedy="Load the page anew.")
    groups: tuple[Fastener, ...] = (*step.fasteners, *following.fasteners)
    text = forms.words(desk.form.get("text", "")) or f"{step.text} {following.text}"
    tools = list(dict.fromkeys((*step.tools, *following.tools)))
    changes = {"join": desk.form["with"], "text": text, "fasteners": fastener_values(groups), "tools": tools}
    return desk.corrected(item, changes)


def _move(desk: Desk, item: str) -> tuple[Decision, ...]:
    procedure, step = find_step(desk, item)
    after = desk.form.get("after", "")
    keys = [step_key(desk.items, one.id) for one in procedure.steps if one.id != step.id]
    if after and after not in keys:
        raise DecisionError("there is no such place in this procedure", remedy="Choose a step of the list.")
    return desk.corrected(item, {"after": after})


def _remove(desk: Desk, item: str) -> tuple[Decision, ...]:
    return desk.corrected(item, {"removed": True})


def _procedure_fields(desk: Desk, item: str) -> tuple[Decision, ...]:
    known = desk.items.get(item)
    found = next((one for one in desk.decided.draft.procedures if known and one.id == known.id), None)
    if found is None:
        raise _missing()
    now = {
        **{name: getattr(found, name) for name in ("title", "subject", "kind")},
        "install": found.install.mode,
        "prerequisites": [one.part for one in found.prerequisites],
    }
    typed = {name: forms.value_of(name, desk.form.get(name, "")) for name in now}
    return _changed(desk, item, {name: value for name, value in typed.items() if value != now[name]})


def _notice_fields(desk: Desk, item: str) -> tuple[Decision, ...]:
    changes: Changes = {
        "kind": desk.form.get("kind", ""),
        "text": forms.words(desk.form.get("text", "")) or "",
        "step": desk.form.get("step") or None,
    }
    return desk.corrected(item, changes)


def _add_notice(desk: Desk, item: str) -> tuple[Decision, ...]:
    home = desk.form.get("procedure", "")
    place = desk.items.get(desk.form.get("step") or home)
    if desk.items.get(home) is None or place is None:
        raise _missing()
    key = f"notice:new-{secrets.token_hex(5)}"
    made = _notice_fields(desk, key)
    return (replace(made[0], changes={**made[0].changes, "procedure": home}, basis=place.basis), *made[1:])


def _confirm(desk: Desk, item: str) -> tuple[Decision, ...]:
    return desk.corrected(item, {"verdict": "confirmed"})


def _reject(desk: Desk, item: str) -> tuple[Decision, ...]:
    return desk.corrected(item, {"verdict": "rejected"})


def keep_or_drop(desk: Desk) -> tuple[Decision, ...]:
    """What becomes of a decision whose evidence changed."""
    item = desk.form.get("item", "")
    found = next((one for one in desk.decided.matched.again if one.decision.item == item), None)
    if found is None:
        raise _missing()
    if desk.form.get("do") == "drop":
        return (desk.decision(item, "open", {}, "dropped: its evidence changed"),)
    kept = carried(found)
    if not kept:
        raise DecisionError("nothing in this draft is like it", remedy="Drop it, and correct the draft anew.")
    return tuple(replace(one, version=desk.version(one.item)) for one in kept)


_HANDLERS: dict[tuple[str, str], Callable[[Desk, str], tuple[Decision, ...]]] = {
    ("finding", "accept"): _accept,
    ("finding", "dismiss"): _dismiss,
    ("finding", "reopen"): _reopen,
    ("step", "save"): _step_fields,
    ("step", "split"): _split,
    ("step", "join"): _join,
    ("step", "move"): _move,
    ("step", "remove"): _remove,
    ("step", "reopen"): _reopen,
    ("procedure", "save"): _procedure_fields,
    ("procedure", "reopen"): _reopen,
    ("notice", "save"): _notice_fields,
    ("notice", "remove"): _remove,
    ("notice", "reopen"): _reopen,
    ("notice", "add"): _add_notice,
    ("edge", "confirm"): _confirm,
    ("edge", "reject"): _reject,
    ("edge", "reopen"): _reopen,
}
