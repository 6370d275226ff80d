"""Who may talk to the server, and what a page of it may do.

- It listens on the loopback address unless told otherwise. The start address carries a token that works once and is
  exchanged for a session cookie; beyond loopback, and wherever several editors work, a password is asked instead.
- The Host header must name this server (so that a foreign name resolving to this machine gets nowhere), and whatever
  changes something must come from a page of ours (Origin) and carry the session's own form token.
- Pages load nothing from elsewhere and run no script but the one file served here.

The connection itself is plain HTTP: beyond a trusted network, put a proxy with TLS in front and name its address, so
that its Host and Origin are known and cookies travel encrypted only.
"""

from __future__ import annotations

import hmac
import ipaddress
import secrets
import socket
import time
from dataclasses import dataclass, field
from hashlib import sha256

from starlette.datastructures import Headers, MutableHeaders
from starlette.requests import Request
from starlette.responses import PlainTextResponse, RedirectResponse, Response
from starlette.types import ASGIApp, Message, Receive, Scope, Send

LARGEST_BODY = 4_000_000  # bytes; decisions of a long recording, with room to spare
PAGE_POLICY = (
    "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self'; media-src 'self'; "
    "form-action 'self'; base-uri 'none'; frame-ancestors 'none'"
)
DOCUMENT_POLICY = "default-src 'none'; style-src 'unsafe-inline'; frame-ancestors 'none'; sandbox"
"""For whole documents that carry their own style sheet and need neither script nor form: pictures, published pages."""

_HEADERS = {
    "x-content-type-options": "nosniff",
    "referrer-policy": "same-origin",
    "cross-origin-opener-policy": "same-origin",
    "cross-origin-resource-policy": "same-origin",
    "permissions-policy": "camera=(), microphone=(), geolocation=()",
    "x-frame-options": "DENY",
}
_OPEN_PATHS = ("/start", "/login", "/static/")
_SAFE = ("GET", "HEAD")
_PATIENCE, _LOCK = 5, 30.0  # wrong passwords in a row, and the seconds to wait after them


@dataclass(slots=True)
class Session:
    """One browser that was let in: its form token, and the name under which it decides."""

    form_token: str
    who: str


@dataclass(slots=True)
class Gate:
    """Lets browsers in. With a password the start token is not used, so that every editor gives a name.

    `hosts` are the Host headers under which this server is meant, `behind` those of a proxy that speaks TLS.
    """

    hosts: frozenset[str]
    password: str | None = None
    token: str | None = None
    who: str = "editor"
    behind: frozenset[str] = frozenset()
    sessions: dict[str, Session] = field(default_factory=dict)
    _failures: int = 0
    _locked_until: float = 0.0

    def admit_token(self, given: str) -> str | None:
        """A new session for the start token, once; None if it is wrong or spent."""
        if self.token is None or not same_token(given, self.token):
            return None
        self.token = None
        return self._admit(self.who)

    def admit_password(self, given: str, who: str) -> str | None:
        """A new session for the password; None if it is wrong, or too many wrong ones came before."""
        if self.password is None or self.locked():
            return None
        if not same_token(given, self.password):
            self._failures += 1
            if self._failures >= _PATIENCE:
                self._failures, self._locked_until = 0, time.monotonic() + _LOCK
            return None
        self._failures = 0
        return self._admit(who)

    def origin(self, host: str) -> str:
        """Where requests under a Host header must come from; empty if the header names another server."""
        host = host.casefold()
        return f"https://{host}" if host in self.behind else f"http://{host}" if host in self.hosts else ""

    def locked(self) -> bool:
        """Whether nobody is let in for the moment."""
        return time.monotonic() < self._locked_until

    def session(self, headers: Headers) -> Session | None:
        """The session of a request, by its cookie."""
        request = Request({"type": "http", "headers": headers.raw})
        return self.sessions.get(request.cookies.get(self.cookie, ""))

    @property
    def cookie(self) -> str:
        """Name of the cookie; one for each port, since browsers keep cookies for a whole host."""
        return f"miner_review_{sha256(' '.join(sorted(self.hosts)).encode()).hexdigest()[:8]}"

    def set_cookie(self, response: Response, name: str, *, secure: bool) -> Response:
        """The session in a cookie that no script reads and no other site sends."""
        response.set_cookie(self.cookie, name, httponly=True, samesite="strict", path="/", secure=secure)
        return response

    def _admit(self, who: str) -> str:
        name = secrets.token_urlsafe(32)
        self.sessions[name] = Session(secrets.token_urlsafe(32), who)
        return name


def is_loopback(host: str) -> bool:
    """Whether an address can be reached from this machine only."""
    if host.casefold() == "localhost":
        return True
    try:
        return ipaddress.ip_address(host.strip("[]")).is_loopback
    except ValueError:
        return False


def hosts_for(host: str, port: int) -> frozenset[str]:
    """The Host headers under which a server is meant, when it listens on `host`."""
    names = {"localhost", "127.0.0.1", "[::1]"}
    if not is_loopback(host):
        names |= {_bracketed(host), socket.gethostname(), socket.getfqdn()}
        if host in ("0.0.0.0", "::"):  # noqa: S104  # compared, not bound
            names |= _own_addresses()
    return frozenset(name.casefold() if port == 80 else f"{name.casefold()}:{port}" for name in names)


def _own_addresses() -> set[str]:
    try:
        found = socket.getaddrinfo(socket.gethostname(), None)
    except OSError:
        return set()
    return {_bracketed(str(one[4][0])) for one in found}


def _bracketed(host: str) -> str:
    return f"[{host}]" if ":" in host and not host.startswith("[") else host


def same_token(given: str, wanted: str) -> bool:
    """Compares secrets in a time that tells nothing of them."""
    return hmac.compare_digest(given.encode("utf-8", "surrogatepass"), wanted.encode())


class Guard:
    """ASGI middleware: refuses what the gate does not let pass, and sets the headers of every answer."""

    def __init__(self, app: ASGIApp, gate: Gate) -> None:
        self.app, self.gate = app, gate

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer one request: with a refusal, or with what the application makes of it."""
        if scope["type"] != "http":
            if scope["type"] == "lifespan":
                await self.app(scope, receive, send)
            return
        headers = Headers(scope=scope)
        session = self.gate.session(headers)
        scope.setdefault("state", {})["session"] = session
        refusal = self._refusal(scope, headers, session)
        target: ASGIApp = refusal or self.app
        await target(scope, _limited(receive), _with_headers(send))

    def _refusal(self, scope: Scope, headers: Headers, session: Session | None) -> Response | None:
        origin = self.gate.origin(headers.get("host", ""))
        if not origin:
            return PlainTextResponse("This server is not known under that name.", 421)
        if scope["method"] not in (*_SAFE, "POST"):
            return PlainTextResponse("Not a method of this server.", 405)
        if scope["method"] == "POST":
            if headers.get("origin", "").casefold() != origin:
                return PlainTextResponse("This does not come from a page of this server.", 403)
            if headers.get("sec-fetch-site", "same-origin") != "same-origin":
                return PlainTextResponse("This does not come from a page of this server.", 403)
            length = headers.get("content-length", "0")
            if not length.isdigit() or int(length) > LARGEST_BODY:
                return PlainTextResponse("Too much at once.", 413)
        if session is None and not str(scope["path"]).startswith(_OPEN_PATHS):
            if self.gate.password is not None and scope["method"] in _SAFE:
                return RedirectResponse("/login", 303)
            return PlainTextResponse("Open the start address that the command printed; it works once.", 401)
        return None


def _limited(receive: Receive) -> Receive:
    """Ends a body that grows beyond the limit without having said so."""
    seen = 0

    async def limited() -> Message:
        nonlocal seen
        message = await receive()
        seen += len(message.get("body", b""))
        return {"type": "http.disconnect"} if seen > LARGEST_BODY else message

    return limited


def _with_headers(send: Send) -> Send:
    async def with_headers(message: Message) -> None:
        if message["type"] == "http.response.start":
            headers = MutableHeaders(scope=message)
            for name, value in _HEADERS.items():
                headers.setdefault(name, value)
            headers.setdefault("content-security-policy", PAGE_POLICY)
            headers.setdefault("cache-control", "no-store")
        await send(message)

    return with_headers
