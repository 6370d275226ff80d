"""Checks of TOML values against the types of an entry's fields."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import fields
from functools import cache
from types import UnionType
from typing import Any, Literal, get_args, get_origin, get_type_hints

Check = Callable[[Any], tuple[Any, str]]
"""Takes a TOML value; gives the value to store and, where it is wrong, what was expected (else an empty text)."""


@cache
def checks_of(entry: type) -> dict[str, Check]:
    """A check for each field of an entry class, by the field's name."""
    hints = get_type_hints(entry)
    return {field.name: _check(hints[field.name]) for field in fields(entry)}


def _check(hint: Any) -> Check:
    origin, arguments = get_origin(hint), get_args(hint)
    if origin is UnionType:  # `str | None`: TOML has no null, an absent key stands for it
        return _check(next(argument for argument in arguments if argument is not type(None)))
    if origin is Literal:
        return lambda value: (value, "" if value in arguments else "one of " + ", ".join(arguments))
    if origin is tuple:
        return _numbers if arguments[0] is float else _texts
    return _switch if hint is bool else _text


def _text(value: Any) -> tuple[Any, str]:
    return value, "" if isinstance(value, str) else "a text in quotes"


def _switch(value: Any) -> tuple[Any, str]:
    return value, "" if isinstance(value, bool) else "true or false"


def _texts(value: Any) -> tuple[Any, str]:
    if isinstance(value, list) and all(isinstance(item, str) for item in value):
        return tuple(value), ""
    return value, "a list of texts"


def _numbers(value: Any) -> tuple[Any, str]:
    if isinstance(value, list) and all(isinstance(item, int | float) and item is not True for item in value):
        return tuple(float(item) for item in value), ""
    return value, "a list of numbers"
