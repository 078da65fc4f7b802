"""Options: keyword arguments whose names, defaults and meanings the core knows."""

import functools
import inspect

from . import _tenths


def takes(record, positional=0):
    """Gives a function of `**options` the signature and the documentation of the options of a record.

    The first `positional` of them may also be given by position, after the function's own.
    """
    options = _tenths._options(record)

    def decorate(function):
        *own, _ = inspect.signature(function).parameters.values()
        own = {by_name: [one for one in own if (one.kind is one.KEYWORD_ONLY) == by_name] for by_name in (False, True)}
        kinds = [inspect.Parameter.POSITIONAL_OR_KEYWORD] * positional
        kinds += [inspect.Parameter.KEYWORD_ONLY] * (len(options) - positional)
        told = [inspect.Parameter(name, kind, default=default) for kind, (name, default, _) in zip(kinds, options)]
        call = _by_position(function, len(own[False]), [name for name, _, _ in options[:positional]])
        call.__signature__ = inspect.Signature([*own[False], *told, *own[True]])
        meanings = "".join(f"\n    {name}: {' '.join(meaning.split())}" for name, _, meaning in options)
        call.__doc__ = f"{inspect.cleandoc(function.__doc__)}\n\nOptions:{meanings}\n"
        return call

    return decorate


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
