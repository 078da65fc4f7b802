"""Names of a module that are made when they are first asked for, so that an import takes no longer than what is used."""

import importlib


def attend(space, parts, make=vars):
    """Gives the globals of a module the two functions by which it finds such names and lists them.

    `parts` has for each module of this package the names that come from it; `make` gives them all, from the module.
    """
    module = space["__name__"]
    homes = {name: home for home, names in parts.items() for name in names}

    def __getattr__(name):
        if name not in homes:
            raise AttributeError(f"module {module!r} has no attribute {name!r}", name=name)
        made = make(importlib.import_module(f"tenths.{homes[name]}"))
        for part in parts[homes[name]]:
            # Where two threads make it at once, both get the first one.
            space.setdefault(part, made[part])
        return space[name]

    def __dir__():
        return sorted({*space, *homes})

    space["__getattr__"], space["__dir__"] = __getattr__, __dir__
    return homes.keys()
