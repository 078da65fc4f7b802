"""Mass of bars of any form, and hardness in the units of a namespace."""

import re

from . import _formula, _tenths

__all__ = ["faces"]


def faces(units, module):
    """The functions of this module for the namespace of a unit system."""
    length, mass, long, one = {
        "inch": ("inches", "pounds", "foot", 12.0),
        "metric": ("millimetres", "kilograms", "metre", 1000.0),
    }[units]

    def bar_mass(form, size, length, density, *, wall=None, thickness=None, width=None):
        given = {"wall": wall, "thickness": thickness, "width": width}
        given = {name: value for name, value in given.items() if value is not None}
        formula = _formula.find(units, _tenths._bar_mass_formula(form, list(given)))
        return formula(size, *given.values(), length, density)

    def bar_mass_per_length(form, size, density, *, wall=None, thickness=None, width=None):
        return bar_mass(form, size, one, density, wall=wall, thickness=thickness, width=width)

    def compare_hardness(hardness, scale=None):
        if isinstance(hardness, str):
            written = re.fullmatch(r"\s*(\d+\.?\d*)\s*([A-Za-z]+)\s*", hardness)
            if written is None or scale not in (None, written[2]):
                raise _tenths.DomainError(f"hardness must be text such as '45 HRC', or a number with its scale, not {hardness!r}")
            hardness, scale = written.groups()
        if scale is None:
            raise TypeError(f"a hardness of {hardness} needs its scale. Fix: give '{hardness} HRC', or the scale as HRC, HRB, HB or HV")
        return _tenths._compare_hardness(units, float(hardness), scale)

    bar_mass.__doc__ = f"""Mass of a bar in {mass}, from its form, size and length in {length}, and its density.

    A 'round' goes by its diameter, a 'hexagon' and a 'square' across flats, a 'tube' by its outside diameter with `wall`, a
    'flat' by its width with `thickness`, and a 'plate' by its thickness with `width`. Each form is a formula too:
    `round_bar_mass`, `hexagon_bar_mass`, `square_bar_mass`, `tube_mass`, `flat_bar_mass` and `plate_mass`. Arrays give arrays.
    """
    bar_mass_per_length.__doc__ = f"""Mass of a {long} of bar in {mass}: `bar_mass` of that length."""
    compare_hardness.__doc__ = """What a hardness compares with on other scales: a comparison by a table, no conversion.

    `compare_hardness("45 HRC")` or `compare_hardness(45, "HRC")`, on the scales HRC, HRB, HB or HV, by ISO 18265 Table A.1 for
    unalloyed and low-alloy steels and cast steel, hot rolled or heat treated. Scatter of ±25 HV or ±85 MPa is usual, and
    other metals differ: where a drawing states a hardness, measure in its own scale; where it states a strength, pull a
    test piece. What the table does not have is None.
    """
    made = {"bar_mass": bar_mass, "bar_mass_per_length": bar_mass_per_length, "compare_hardness": compare_hardness}
    for name, function in made.items():
        function.__module__, function.__qualname__ = module, name
    return made
