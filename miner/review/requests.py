"""What every answer needs of a request: its session, its recording, its form."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import cast

from starlette.datastructures import UploadFile
from starlette.exceptions import HTTPException
from starlette.requests import Request

from miner.review.filters import Filters
from miner.review.library import Entry, Library
from miner.review.security import Session, same_token


@dataclass(frozen=True, slots=True)
class Form:
    """A form that came from a page of this session; `values` holds the last value of each field."""

    values: dict[str, str]
    several: dict[str, tuple[str, ...]]
    files: dict[str, bytes] = field(default_factory=dict)

    def __getitem__(self, name: str) -> str:
        return self.values.get(name, "")

    @property
    def filters(self) -> Filters:
        """What the page that held the form showed."""
        return Filters.parse(self["view"])


def session_of(request: Request) -> Session | None:
    """The session that the guard found."""
    return cast("Session | None", request.state.session)


def entry_of(request: Request, library: Library) -> Entry:
    """The recording that an address names."""
    found = library.entries().get(request.path_params["key"])
    if found is None:
        raise HTTPException(404, "There is no such draft here.")
    return found


async def form_of(request: Request, *, signed: bool = True) -> Form:
    """The form of a request; with `signed` it must carry the form token of the session."""
    async with request.form(max_files=1, max_fields=5000) as data:
        session = session_of(request)
        token = data.get("form_token")
        if signed and (session is None or not isinstance(token, str) or not same_token(token, session.form_token)):
            raise HTTPException(403, "The form is not from this session. Load the page anew.")
        several: dict[str, tuple[str, ...]] = {}
        files = {}
        for name, value in data.multi_items():
            if isinstance(value, UploadFile):
                files[name] = await value.read()
            else:
                several[name] = (*several.get(name, ()), value)
    return Form({name: values[-1] for name, values in several.items()}, several, files)
