"""A browser-like client of the review server."""

import re
from html import unescape

from starlette.testclient import TestClient

from miner.review.app import make_app
from miner.review.library import Library
from miner.review.security import Gate

HOST = "127.0.0.1:8000"
OWN_HEADERS = {"origin": f"http://{HOST}"}


class Client(TestClient):
    """Sends what a browser sends from our own pages, and fills in forms as they stand on a page."""

    def fill(self, path, page, **fields):
        """Post a form that stands on `page`; hidden fields are taken from the form with the same item."""
        values = hidden(page, path, fields.get("item"), fields.get("act"))
        return self.post(path, data={**values, **fields}, headers=OWN_HEADERS)


def hidden(page, path, item=None, act=None):
    """The hidden fields of the first form that posts to `path` (about `item`)."""
    for form in re.findall(rf'<form[^>]*action="{re.escape(path)}".*?</form>', page, re.DOTALL):
        fields = dict(re.findall(r'type="hidden" name="([^"]*)" value="([^"]*)"', form))
        fields = {unescape(name): unescape(value) for name, value in fields.items()}
        if (item is None or fields.get("item") == item) and (act is None or fields.get("act") == act):
            return fields
    raise AssertionError(f"no form to {path} about {item}")


def make_client(folder, *, password=None, token="once", who="Ada", media=None, follow=True):
    gate = Gate(frozenset({HOST}), password, None if password else token, who)
    app = make_app(Library.at(folder, media), gate)
    return Client(app, base_url=f"http://{HOST}", follow_redirects=follow)
