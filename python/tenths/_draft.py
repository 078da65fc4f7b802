"""A whole plan from the features of a part."""

import json

from ._plain import plain
from ._tenths import _draft_plan


def draft_plan(
    *, units, material, quantity, features, name=None, number=None, length=None, bar=None, standards=None
):
    """A plan drafted from the features of a part: a proposal, with its operations in a workable order and their reasons.

    ``units`` is 'inch' or 'metric', ``material`` a name of the table of materials or a dict as a plan has it. ``features`` is a
    list of dicts, each with its ``kind``: steps and outside threads in their order along the part, holes and inside threads from
    the first end unless ``end`` is 'second', and flats, knurls, grooves, chamfers and cross holes, ``on`` the step before or the
    one of that place in the list. The page on drafts has every field. Numbers are in ``units``; text, a Size and Limits have
    their own. ``length`` is the length over all, ``bar`` the limits of the bar or a dict, ``name`` and ``number`` those of the
    part, ``standards`` the shop's own standard values as ``Plan.from_json`` takes them.

        >>> plan = tenths.draft_plan(
        ...     units="metric", material="SAE 1045", quantity=25,
        ...     features=[{"kind": "step", "diameter": "20 h9", "length": 25, "roughness": 1.6},
        ...               {"kind": "hole", "diameter": 8, "depth": 20}])
        >>> [line["kind"] for line in plan.evaluate().to_dict()["operations"]]
        ['saw', 'face', 'turn', 'turn', 'drill', 'face', 'deburr', 'inspect']
        >>> plan.assumptions[0].place
        '/characteristics/0/requirement'

    Read the assumptions and the findings before anything is cut. What cannot be made is a DomainError whose ``faults`` have
    their places in the request.
    """
    request = {
        "units": units,
        "material": material,
        "quantity": quantity,
        "name": name,
        "number": number,
        "length": length,
        "bar": bar,
        "features": list(features),
    }
    given = {key: value for key, value in request.items() if value is not None}
    return _draft_plan(json.dumps(given, default=plain, allow_nan=False), standards)
