"""The pages that only show something. They run in worker threads, since they read files."""

from __future__ import annotations

from itertools import groupby
from typing import Any

from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response

from miner.decisions import exchange
from miner.model.draft import Fastener
from miner.publish.graph_picture import write as write_graph
from miner.review import media
from miner.review.context import transcript
from miner.review.editing import Desk, find_step
from miner.review.filters import Filters
from miner.review.library import Entry, Library, Row
from miner.review.pages import page
from miner.review.requests import entry_of, session_of
from miner.review.security import DOCUMENT_POLICY
from miner.review.views import RecordingView

_DOCUMENT = {"content-security-policy": DOCUMENT_POLICY}


def view_of(library: Library, entry: Entry, filters: Filters) -> RecordingView:
    """A recording with everything its pages show."""
    decided = library.decided(entry)
    latest = {one.item: one for one in entry.store.current()}
    folder = entry.path.parent
    folders = [folder, *([library.media] if library.media and library.media.is_dir() else [])]
    found = media.media_of(decided.mined, folder, library.media)
    player = "" if found is None else "video" if media.is_video(found) else "audio"
    return RecordingView(entry, decided, latest, transcript(decided.mined, folders), filters, player)


class Reading:
    """Pages of the drafts in a library."""

    def __init__(self, library: Library) -> None:
        self.library = library

    def _view(self, request: Request) -> RecordingView:
        return view_of(self.library, entry_of(request, self.library), Filters.of(request.query_params))

    def index(self, request: Request) -> Response:
        """The list of drafts; a single draft is opened at once."""
        entries = self.library.entries()
        if len(entries) == 1:
            return RedirectResponse(f"/r/{next(iter(entries))}", 303)
        query, state = request.query_params.get("q", "")[:200], request.query_params.get("state", "")
        rows = self.library.rows()
        shown = [row for row in rows if _passes(row, query.casefold(), state)]
        return page("index.html.j2", session_of(request), rows=shown, total=len(rows), q=query, state=state)

    def recording(self, request: Request) -> Response:
        """One recording: procedures, steps, findings, order of removal."""
        view, message = self._view(request), ""
        if (saved := request.query_params.get("saved", "")).isdigit():
            done = [one for one in view.latest.values() if one.act == int(saved)]
            message = "; ".join(f"{view.phrase(one)}: {view.name(one.item)}" for one in done)
            message = f"Saved. {message}" if message else ""
        elif request.query_params.get("saved") == "import":
            message = f"Imported: {request.query_params.get('new', '')[:6]} decisions taken over, "
            message += f"{request.query_params.get('kept', '')[:6]} left since this page has others."
        several = len(self.library.entries()) > 1
        return page("recording.html.j2", session_of(request), view=view, message=message, several=several)

    def edit(self, request: Request) -> Response:
        """The form for one item."""
        view = self._view(request)
        item, chosen = request.query_params.get("item", ""), request.query_params.get("finding", "")
        kind = item.partition(":")[0]
        answer = {"step": self._edit_step, "procedure": self._edit_procedure, "notice": self._edit_notice}.get(kind)
        if answer is None:
            raise HTTPException(404, "There is no such item.")
        return answer(request, view, item, chosen)

    def _edit_step(self, request: Request, view: RecordingView, item: str, chosen: str) -> Response:
        procedure, step = find_step(Desk(view.decided, view.latest, {}), item)
        place = procedure.steps.index(step)
        following = procedure.steps[place + 1] if place + 1 < len(procedure.steps) else None
        return page(
            "edit_step.html.j2",
            session_of(request),
            view=view,
            key=item,
            chosen=chosen,
            procedure=procedure,
            step=step,
            following=following,
            groups=(*step.fasteners, Fastener("")),
            halves=halves(step.text),
            open="",
        )

    def _edit_procedure(self, request: Request, view: RecordingView, item: str, chosen: str) -> Response:
        known = view.decided.items.get(item)
        found = next((one for one in view.draft.procedures if known and one.id == known.id), None)
        if found is None:
            raise HTTPException(404, "There is no such procedure.")
        return page("edit_procedure.html.j2", session_of(request), view=view, key=item, chosen=chosen, procedure=found)

    def _edit_notice(self, request: Request, view: RecordingView, item: str, chosen: str) -> Response:
        wanted = request.query_params.get("procedure", "")
        for procedure in view.draft.procedures:
            if item == "notice:new" and view.procedure_key(procedure.id) == wanted:
                found = None
            else:
                found = next((one for one in procedure.notices if view.notice_key(procedure.id, one) == item), None)
                if found is None:
                    continue
            values: dict[str, Any] = {"procedure": procedure, "notice": found, "key": item, "chosen": chosen}
            return page("edit_notice.html.j2", session_of(request), view=view, **values)
        raise HTTPException(404, "There is no such notice.")

    def transcript(self, request: Request) -> Response:
        """The words of the recording with their times."""
        return page("transcript.html.j2", session_of(request), view=self._view(request))

    def history(self, request: Request) -> Response:
        """Every decision, the last one first."""
        view = self._view(request)
        all_of_it = view.entry.store.history()
        acts = [(act, list(rows)) for act, rows in groupby(all_of_it, key=lambda one: one.act)]
        latest = {(one.item, one.version) for one in view.latest.values()}
        undoable = [act for act, rows in acts if all((one.item, one.version) in latest for one in rows)]
        return page("history.html.j2", session_of(request), view=view, acts=acts[::-1], undoable=undoable)

    def graph(self, request: Request) -> Response:
        """The picture of what comes off before what, as decided."""
        view = self._view(request)
        return Response(write_graph(view.decided.draft), media_type="image/svg+xml", headers=_DOCUMENT)

    def published(self, request: Request) -> Response:
        """What `miner publish` would write now."""
        from miner.publish import publication, publication_markdown

        view = self._view(request)
        if request.query_params.get("to") == "markdown":
            text = publication_markdown.render(view.decided.draft)
            return Response(text, media_type="text/plain; charset=utf-8", headers=_DOCUMENT)
        return Response(publication.render(view.decided.draft), media_type="text/html", headers=_DOCUMENT)

    def media(self, request: Request) -> Response:
        """The video or audio, or a range of it."""
        entry = entry_of(request, self.library)
        found = media.media_of(self.library.draft(entry), entry.path.parent, self.library.media)
        if found is None:
            raise HTTPException(404, "There is no media for this draft.")
        return media.response(found)

    def export(self, request: Request) -> Response:
        """The decisions that stand, as JSON."""
        view = self._view(request)
        text = exchange.export(view.decided.mined.recording.id, view.latest.values())
        headers = {"content-disposition": 'attachment; filename="decisions.json"'}
        return Response(text, media_type="application/json", headers=headers)


def _passes(row: Row, query: str, state: str) -> bool:
    product = f"{row.draft.recording.product} {row.draft.recording.model}" if row.draft else ""
    if query not in f"{row.name} {product} {row.entry.place}".casefold():
        return False
    return {"open": row.to_do > 0, "done": row.to_do == 0 and not row.problem}.get(state, True)


def halves(text: str) -> tuple[str, str]:
    """A sentence cut where a second operation most likely begins, as a first offer to the editor."""
    for mark in (". ", "; ", ", then ", " then ", ", and ", " and ", ", "):
        first, found, second = text.partition(mark)
        if found and second:
            return f"{first.rstrip('.')}.", second[:1].upper() + second[1:]
    return text, ""
