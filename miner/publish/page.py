"""The draft as one page that needs nothing else: no server and no request; everything said is escaped.

Its one script, allowed by its digest, lets an editor decide on findings and carry the decisions away as JSON.
"""

from __future__ import annotations

from base64 import b64encode
from functools import cache
from hashlib import sha256
from typing import TYPE_CHECKING

from miner.model.draft import Draft
from miner.publish import wording
from miner.publish.graph_picture import picture
from miner.publish.outline import general_findings, sections, severity_totals
from miner.resources import shared_file

if TYPE_CHECKING:
    from jinja2 import Template


def write(draft: Draft) -> bytes:
    """The page as a UTF-8 HTML file."""
    return render(draft).encode()


def render(draft: Draft) -> str:
    """The page as HTML text."""
    from markupsafe import Markup

    script = shared_file("templates", "page.js").read_text(encoding="utf-8")
    page = _template().render(
        script=Markup(script),  # noqa: S704  # shipped with the package
        script_digest="sha256-" + b64encode(sha256(script.encode()).digest()).decode(),
        draft=draft,
        sections=sections(draft),
        general=general_findings(draft),
        totals=severity_totals(draft.findings),
        graph=Markup(picture(draft)),  # noqa: S704  # made by this package, with every word in it escaped
    )
    return page.rstrip() + "\n"


@cache
def _template() -> Template:
    from jinja2 import Environment, StrictUndefined

    environment = Environment(autoescape=True, undefined=StrictUndefined, trim_blocks=True, lstrip_blocks=True)
    names = ("SAFETY", "SEVERITY_WORDS", "SIGNAL_WORDS")
    environment.globals.update({name: getattr(wording, name) for name in names})
    shared = (wording.clock, wording.span, wording.fastener_words, wording.joint_words, wording.same_words)
    environment.filters.update({one.__name__: one for one in shared})
    environment.filters.update(
        {
            one.__name__: one
            for one in (wording.count_words, wording.size_words, wording.amount, wording.suggestion_words)
        }
    )
    return environment.from_string(shared_file("templates", "page.html.j2").read_text(encoding="utf-8"))
