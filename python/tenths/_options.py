"""Options: keyword arguments whose names, defaults and meanings the core knows."""

import functools
import inspect

from . import _tenths

_POSITIONAL, _BY_NAME = inspect.Parameter.POSITIONAL_OR_KEYWORD, inspect.Parameter.KEYWORD_ONLY


def takes(record, *positional):
    """Gives a function of `**options` the signature and the documentation of the options of a record.

    Those that are named may also be given by position, in this order, after the function's own.
    """

    def decorate(function):
        *own, _ = inspect.signature(function).parameters.values()
        first = [one for one in own if one.kind is not one.KEYWORD_ONLY]
        last = own[len(first) :]
        # What the function takes itself, it explains itself.
        options = {name: told for name, *told in _tenths._options(record) if name not in {one.name for one in own}}
        by_name = [name for name in options if name not in positional]
        told = [_parameter(name, _POSITIONAL, options) for name in positional]
        told += [_parameter(name, _BY_NAME, options) for name in by_name]
        call = _by_position(function, len(first), positional)
        call.__signature__ = inspect.Signature([*first, *told, *last])
        meanings = "".join(f"\n    {name}: {_meaning(*told)}" for name, (_, *told) in options.items())
        call.__doc__ = f"{inspect.cleandoc(function.__doc__)}\n\nOptions:{meanings}\n"
        return call

    return decorate


def _meaning(meaning, choices):
    """The meaning of an option, and what it is chosen from."""
    told = " ".join(meaning.split())
    return f"{told} One of {', '.join(map(repr, choices))}." if choices else told


def _parameter(name, kind, options):
    return inspect.Parameter(name, kind, default=options[name][0])


def _by_position(function, own, names):
    """The function, which takes arguments of these names by position after its own."""
    if not names:
        return function

    @functools.wraps(function)
    def call(*args, **options):
        if len(args) > own + len(names):
            raise TypeError(f"{function.__name__} takes {own + len(names)} arguments by position, not {len(args)}")
        for name, value in zip(names, args[own:]):
            if name in options:
                raise TypeError(f"{function.__name__} got '{name}' twice")
            options[name] = value
        return function(*args[:own], **options)

    return call
