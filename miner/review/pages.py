"""Templates filled in; whatever was said in a recording is escaped on its way into a page."""

from __future__ import annotations

from functools import cache
from hashlib import sha256
from typing import TYPE_CHECKING, Any

from starlette.responses import HTMLResponse, Response

from miner.publish import wording
from miner.resources import shared_file
from miner.review import forms
from miner.review.filters import STATES
from miner.review.security import Session
from miner.review.wording import STATE_WORDS

if TYPE_CHECKING:
    from jinja2 import Environment

_STATIC = {"review.css": "text/css", "review.js": "text/javascript", "mark.svg": "image/svg+xml"}


def page(template: str, session: Session | None, *, status: int = 200, **values: Any) -> HTMLResponse:
    """One page; the names of `values` are those of the template."""
    html = _environment().get_template(template).render(session=session, stamp=_stamp(), **values)
    return HTMLResponse(html, status)


def problem(session: Session | None, title: str, what: str, *, back: str = "/", status: int = 422) -> HTMLResponse:
    """A page that says what cannot be done, and leads back."""
    return page("problem.html.j2", session, status=status, title=title, what=what, back=back)


def static(name: str) -> Response:
    """The style sheet or the script; 404 for anything else."""
    if name not in _STATIC:
        return Response("There is no such file.", 404, media_type="text/plain")
    return Response(_static(name), media_type=_STATIC[name], headers={"cache-control": "max-age=86400"})


@cache
def _static(name: str) -> bytes:
    return shared_file("templates", "review", "static", name).read_bytes()


@cache
def _stamp() -> str:
    """Changes with the files, so that a browser never shows a page with an old style sheet."""
    return sha256(b"".join(_static(name) for name in _STATIC)).hexdigest()[:12]


@cache
def _environment() -> Environment:
    from jinja2 import Environment, FunctionLoader, StrictUndefined

    def load(name: str) -> str:
        return shared_file("templates", "review", name).read_text(encoding="utf-8")

    made = Environment(
        autoescape=True, undefined=StrictUndefined, trim_blocks=True, lstrip_blocks=True, loader=FunctionLoader(load)
    )
    names = ("SEVERITY_WORDS", "SIGNAL_WORDS", "PHASE_WORDS")
    made.globals.update({name: getattr(wording, name) for name in names})
    made.globals.update(STATES=STATES, STATE_WORDS=STATE_WORDS, DRIVES=forms.DRIVES)
    made.globals.update(KINDS=("replace", "remove", "install", "inspect", "adjust", "test"))
    made.globals.update(MODES=("reverse", "explicit", "none"))
    filters = (wording.clock, wording.fastener_words, wording.joint_words, wording.same_words)
    made.filters.update({one.__name__: one for one in (*filters, forms.shown, forms.count_shown)})
    made.tests["decided_in"] = lambda finding, view: view.decision(finding) is not None
    return made
