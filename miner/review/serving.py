"""The server started: address checked, token made, uvicorn run until it is stopped."""

from __future__ import annotations

import secrets
import socket
import sys
from collections.abc import Callable
from urllib.parse import urlsplit

from miner.errors import SettingsError
from miner.review.app import make_app
from miner.review.library import Library
from miner.review.security import Gate, hosts_for, is_loopback


def serve(
    library: Library,
    *,
    host: str = "127.0.0.1",
    port: int = 0,
    password: str | None = None,
    who: str = "editor",
    public: str | None = None,
    ready: Callable[[str], None],
) -> None:
    """Serve until interrupted; `ready` is told the address to open once the server listens.

    Args:
        library: the drafts.
        host: address to listen on; anything beyond loopback needs a password.
        port: 0 for any free one.
        password: asked of everyone who comes in, together with a name; without it a start token lets one browser in.
        who: the name under which that browser decides.
        public: the https address of a proxy in front, which also needs a password.
        ready: called with the address.

    Raises:
        SettingsError: no password for an address that others can reach, or the address cannot be used.
    """
    import uvicorn

    if password is None and (public or not is_loopback(host)):
        raise SettingsError(
            f"{public or host} can be reached by others, and no password is set",
            remedy="Add --password, or leave --host and --public away to serve this machine only.",
        )
    behind = _behind(public)
    listening = _listen(host, port)
    number = int(listening.getsockname()[1])
    token = None if password is not None else secrets.token_urlsafe(32)
    gate = Gate(hosts_for(host, number), password, token, who, behind)
    shown = "localhost" if host in ("0.0.0.0", "::") else f"[{host}]" if ":" in host else host  # noqa: S104  # compared
    address = f"{public.rstrip('/')}/" if public else f"http://{shown}:{number}/"
    ready(address if token is None else f"{address}start?token={token}")
    config = uvicorn.Config(
        make_app(library, gate),
        log_level="warning",
        access_log=False,  # the start address would stand in it
        server_header=False,
        proxy_headers=False,
        timeout_graceful_shutdown=3,
    )
    with listening:
        uvicorn.Server(config).run(sockets=[listening])


def _behind(public: str | None) -> frozenset[str]:
    """The Host header that a proxy passes on."""
    if public is None:
        return frozenset()
    parts = urlsplit(public)
    if parts.scheme != "https" or not parts.netloc or parts.path not in ("", "/"):
        raise SettingsError(f"{public} is no https address of a whole host", remedy="Give --public https://HOST.")
    return frozenset({parts.netloc.casefold()})


def _listen(host: str, port: int) -> socket.socket:
    try:
        family, kind, _, _, address = socket.getaddrinfo(host, port, type=socket.SOCK_STREAM)[0]
        made = socket.socket(family, kind)
        if sys.platform != "win32":
            made.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        made.bind(address)
        made.listen(128)
    except (OSError, OverflowError) as error:
        raise SettingsError(
            f"cannot listen on {host}, port {port} ({getattr(error, 'strerror', None) or error})",
            remedy="Choose another --host or --port.",
        ) from None
    return made
