"""The forms: each is checked, turned into decisions, saved in one act, and answered with the page it came from."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from urllib.parse import quote, urlencode

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response

from miner.decisions import exchange
from miner.decisions.decision import Decision
from miner.decisions.store import Collision
from miner.errors import DecisionError
from miner.review import editing
from miner.review.library import Entry, Library
from miner.review.pages import page
from miner.review.reading import view_of
from miner.review.requests import Form, entry_of, form_of, session_of
from miner.review.security import Session
from miner.review.views import RecordingView


class Deciding:
    """What editors send."""

    def __init__(self, library: Library) -> None:
        self.library = library

    async def decide(self, request: Request) -> Response:
        """A decision on an item."""
        return await self._answer(request, editing.decide)

    async def again(self, request: Request) -> Response:
        """A decision whose evidence changed is kept or dropped."""
        return await self._answer(request, editing.keep_or_drop)

    async def undo(self, request: Request) -> Response:
        """An act is taken back."""
        form = await form_of(request)

        def work() -> Response:
            session, entry = session_of(request), entry_of(request, self.library)
            if session is None or not form["act"].isdigit():
                raise DecisionError("there is no such decision to take back", remedy="Load the page anew.")
            outcome = entry.store.undo(int(form["act"]), who=session.who)
            view = view_of(self.library, entry, form.filters)
            if isinstance(outcome, Collision):
                return _collided(view, session, outcome, form, "")
            return _back(view, outcome.act, outcome.decisions[0].item, form)

        return await run_in_threadpool(work)

    async def take_in(self, request: Request) -> Response:
        """Decisions from a file."""
        form = await form_of(request)
        data = form.files.get("file", b"")

        def work() -> Response:
            session, entry = session_of(request), entry_of(request, self.library)
            new, kept = _take_in(self.library, entry, data, session.who if session else "")
            return RedirectResponse(f"/r/{entry.key}?saved=import&new={new}&kept={kept}", 303)

        return await run_in_threadpool(work)

    async def _answer(self, request: Request, decisions_of: Callable[[editing.Desk], Sequence[Decision]]) -> Response:
        form = await form_of(request)

        def work() -> Response:
            session, entry = session_of(request), entry_of(request, self.library)
            before = view_of(self.library, entry, form.filters)
            desk = editing.Desk(before.decided, before.latest, form.values, form.several.get("settles", ()))
            outcome = entry.store.save(decisions_of(desk), who=session.who if session else "")
            after = view_of(self.library, entry, form.filters)
            if isinstance(outcome, Collision):
                return _collided(after, session, outcome, form, request.url.path)
            return _back(after, outcome.act, form["item"], form)

        return await run_in_threadpool(work)


def _take_in(library: Library, entry: Entry, data: bytes, who: str) -> tuple[int, int]:
    """Save what a file holds and this store does not decide otherwise; how many were taken, and how many not."""
    draft = library.draft(entry)
    latest = {one.item: one for one in entry.store.current()}
    decisions = exchange.read(data.decode("utf-8", "replace"), draft.recording.id)
    new, kept = exchange.incoming(exchange.completed(decisions, draft), latest)
    if new and isinstance(entry.store.save(new, who=who), Collision):
        raise DecisionError("someone decided on the same items meanwhile", remedy="Import the file again.")
    return len(new), kept


def _back(view: RecordingView, act: int, item: str, form: Form) -> Response:
    """To the page, at the place where the editor goes on: the next open finding, else what was just changed."""
    query = "&".join(part for part in (view.filters.query, urlencode({"saved": act})) if part)
    return RedirectResponse(f"/r/{view.entry.key}?{query}#{quote(_anchor(view, item, form))}", 303)


def _anchor(view: RecordingView, item: str, form: Form) -> str:
    if form["row"]:
        return form["row"] if form["row"].startswith("e-") else "order"
    finding = item if item.startswith("finding:") else next(iter(form.several.get("settles", ())), "")
    if finding:
        if finding.removeprefix("finding:") in view.order and finding not in view.standing:
            return f"f-{finding.removeprefix('finding:')}"
        following = view.next_open(finding)
        if following:
            return f"f-{following}"
    known = view.decided.items.get(item)
    if known is None:
        return "main"
    standing = {step.id for procedure in view.draft.procedures for step in procedure.steps}
    return known.id if known.id in standing else known.id.partition(".")[0]


def _collided(view: RecordingView, session: Session | None, collision: Collision, form: Form, again: str) -> Response:
    """Both versions side by side; what was sent can be sent again on top of what is stored now."""
    theirs = {one.item: one for one in collision.theirs}
    pairs = [(one, theirs[one.item]) for one in collision.mine if one.item in theirs]
    fields = [(name, value) for name, values in form.several.items() for value in values]
    renewed = [(name, _renewed(name, value, theirs)) for name, value in fields]
    values = {"pairs": pairs, "fields": renewed, "again": again}
    return page("collision.html.j2", session, status=409, view=view, **values)


def _renewed(name: str, value: str, theirs: dict[str, Decision]) -> str:
    item = name.removeprefix("v:")
    return str(theirs[item].version) if name != item and item in theirs else value
