"""Addresses of the server and what answers them; what pages show is in `views.py`, what forms do in `editing.py`."""

from __future__ import annotations

from starlette.applications import Starlette
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import PlainTextResponse, RedirectResponse, Response
from starlette.routing import Route
from starlette.types import ASGIApp

from miner.errors import MinerError
from miner.review.deciding import Deciding
from miner.review.library import Library
from miner.review.pages import page, problem, static
from miner.review.reading import Reading
from miner.review.requests import form_of, session_of
from miner.review.security import Gate, Guard


def make_app(library: Library, gate: Gate) -> ASGIApp:
    """The server as an ASGI application, guarded by the gate."""
    pages, forms, doors = Reading(library), Deciding(library), Doors(gate)
    routes = [
        Route("/start", doors.start, methods=["GET"]),
        Route("/login", doors.login, methods=["GET"]),
        Route("/login", doors.come_in, methods=["POST"]),
        Route("/name", doors.rename, methods=["POST"]),
        Route("/static/{name}", lambda request: static(request.path_params["name"]), methods=["GET"]),
        Route("/", pages.index, methods=["GET"]),
        Route("/r/{key}", pages.recording, methods=["GET"]),
        Route("/r/{key}/edit", pages.edit, methods=["GET"]),
        Route("/r/{key}/transcript", pages.transcript, methods=["GET"]),
        Route("/r/{key}/history", pages.history, methods=["GET"]),
        Route("/r/{key}/graph.svg", pages.graph, methods=["GET"]),
        Route("/r/{key}/published", pages.published, methods=["GET"]),
        Route("/r/{key}/media", pages.media, methods=["GET"]),
        Route("/r/{key}/decisions.json", pages.export, methods=["GET"]),
        Route("/r/{key}/decide", forms.decide, methods=["POST"]),
        Route("/r/{key}/again", forms.again, methods=["POST"]),
        Route("/r/{key}/undo", forms.undo, methods=["POST"]),
        Route("/r/{key}/import", forms.take_in, methods=["POST"]),
    ]
    handlers = {HTTPException: _http_problem, MinerError: _miner_problem}
    return Guard(Starlette(routes=routes, exception_handlers=handlers), gate)


class Doors:
    """How a browser comes in, and under which name it decides."""

    def __init__(self, gate: Gate) -> None:
        self.gate = gate

    def start(self, request: Request) -> Response:
        """The start address: its token is exchanged for a session, once."""
        name = self.gate.admit_token(request.query_params.get("token", "")) if request.method == "GET" else None
        if name is None:
            if session_of(request) is not None:
                return RedirectResponse("/", 303)
            return PlainTextResponse("This start address was used before, or is wrong. Start the command again.", 401)
        return self._let_in(request, name)

    def login(self, request: Request) -> Response:  # noqa: ARG002  # what a route is given
        """The form that asks for name and password."""
        if self.gate.password is None:
            return PlainTextResponse("Open the start address that the command printed; it works once.", 401)
        return page("login.html.j2", None, wrong="", who="")

    async def come_in(self, request: Request) -> Response:
        """A name and a password."""
        form = await form_of(request, signed=False)
        who = " ".join(form["who"].split())[:80]
        name = self.gate.admit_password(form["password"], who) if who else None
        if name is None:
            locked = self.gate.locked()
            wrong = "Too many wrong passwords. Wait half a minute." if locked else "The password is wrong."
            return page("login.html.j2", None, status=429 if locked else 403, wrong=wrong, who=who)
        return self._let_in(request, name)

    def _let_in(self, request: Request, name: str) -> Response:
        secure = self.gate.origin(request.headers.get("host", "")).startswith("https:")
        return self.gate.set_cookie(RedirectResponse("/", 303), name, secure=secure)

    async def rename(self, request: Request) -> Response:
        """Another name for the decisions to come."""
        form, session = await form_of(request), session_of(request)
        if session is not None and (who := " ".join(form["who"].split())[:80]):
            session.who = who
        return RedirectResponse("/", 303)


async def _http_problem(request: Request, error: Exception) -> Response:
    status = error.status_code if isinstance(error, HTTPException) else 500
    detail = error.detail if isinstance(error, HTTPException) else ""
    return problem(session_of(request), "This is not to be had", detail, status=status)


async def _miner_problem(request: Request, error: Exception) -> Response:
    what = f"{error.what.rstrip('.')}. {error.remedy}" if isinstance(error, MinerError) else ""
    key = request.path_params.get("key", "")
    return problem(session_of(request), "This could not be done", what[:1].upper() + what[1:], back=f"/r/{key}")
