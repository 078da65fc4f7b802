"""Cutting plans."""

from collections.abc import Mapping

from . import _tenths
from ._options import takes


@takes("CuttingOptions", "kerf", "end_trim")
def cutting_plan(pieces, bars, *, units=None, threads=1, progress=None, **options):
    """Plans how to cut pieces from bars, and proves that no plan is better.

    ``pieces`` are pairs ``(length, count)``; ``bars`` are lengths or ``(length, how many or None, price or None)``. A length is
    text or a Size, or with ``units`` ('mm' or 'in') a number. Pieces fit where their lengths, with one kerf between
    neighbours, fit in the bar less its ``end_trim``, as ``parts_per_bar`` counts.

    The plan costs least where all bars have a price; without prices it takes the fewest bars of one length, or the
    least total length of several. It ends after ``time_limit`` seconds (None: never) or ``work_limit`` steps with the best plan
    found: ``proven`` then is False, and ``gap`` says how far it may be from the best. ``threads`` changes nothing: one thread does
    the work, since each step of the search needs the prices of the one before. ``progress`` is True for a bar, or a function of
    the fraction of the limits that is used.

    >>> plan = tenths.cutting_plan([("2100 mm", 7), ("1500 mm", 7), ("1150 mm", 7)], ["6 m"], kerf="3 mm")
    >>> plan.bars, plan.proven
    (6, True)
    """
    return _tenths._cutting_plan(pieces, bars, units, threads, progress, options)


@takes("CuttingOptions", "kerf", "end_trim")
def shared_cutting_plan(orders, bars, *, units=None, threads=1, progress=None, **options):
    """One cutting plan for several orders, whose pieces share the bars, with each order's share of bars and cost.

    ``orders`` is a dict from the name of an order to its pieces, ``(length, count)`` each, or a list of ``(name, pieces)``. All
    else is as ``cutting_plan`` takes it. What is lost to cuts, trim and leftovers is borne in proportion to what the pieces of
    an order take. ``.plan`` is the plan, ``.shares`` the orders, and ``.cuts`` says what is cut for whom: pieces of one length go
    to the order that was given first until it has them all.

    >>> made = tenths.shared_cutting_plan({"A": [("4 m", 2)], "B": [("2 m", 2)]}, [("6 m", None, 30)])
    >>> made.plan.bars, [(share.order, share.cost) for share in made.shares]
    (2, [('A', 40.0), ('B', 20.0)])
    """
    orders = list(orders.items()) if isinstance(orders, Mapping) else orders
    return _tenths._shared_cutting_plan(orders, bars, units, threads, progress, options)
