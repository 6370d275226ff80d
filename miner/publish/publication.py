"""What is published after the editor's decisions: the procedures alone, as one page that needs nothing else.

Errors on which nobody decided stand in front and again in place. What was said but is no part of the work (the words
as transcribed, remarks, repairs) stays in the draft; the time beside each step leads back to it.
"""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING

from miner.model.draft import Draft
from miner.publish import wording
from miner.publish.marks import marked_in_front, open_errors
from miner.publish.outline import sections

if TYPE_CHECKING:
    from jinja2 import Template


def write(draft: Draft) -> bytes:
    """The page as a UTF-8 HTML file."""
    return render(draft).encode()


def render(draft: Draft) -> str:
    """The page as HTML text; the draft's findings are those on which nobody decided."""
    errors = open_errors(draft)
    return _template().render(draft=draft, sections=sections(draft), errors=errors).rstrip() + "\n"


@cache
def _template() -> Template:
    from jinja2 import Environment, StrictUndefined

    from miner.resources import shared_file

    environment = Environment(autoescape=True, undefined=StrictUndefined, trim_blocks=True, lstrip_blocks=True)
    environment.globals.update(
        SAFETY=wording.SAFETY, SIGNAL_WORDS=wording.SIGNAL_WORDS, marked_in_front=marked_in_front
    )
    shared = (wording.clock, wording.fastener_words, wording.joint_words)
    environment.filters.update({one.__name__: one for one in shared})
    return environment.from_string(shared_file("templates", "publication.html.j2").read_text(encoding="utf-8"))
