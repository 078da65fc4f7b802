"""Cutting plans."""

from . import _tenths
from ._options import takes


@takes("CuttingOptions", positional=2)
def cutting_plan(pieces, bars, *, units=None, threads=1, progress=None, **options):
    """Plans how to cut pieces from bars, and proves that no plan is better.

    ``pieces`` are pairs ``(length, count)``; ``bars`` are lengths or ``(length, how many or None, price or None)``. A length is
    text or a Size, or with ``units`` ('mm' or 'in') a number. Pieces fit where their lengths, with one kerf between
    neighbours, fit in the bar less its ``end_trim``, as ``parts_per_bar`` counts.

    The plan costs least where all bars have a price; without prices it takes the fewest bars of one length, or the
    least total length of several. It ends after ``time_limit`` seconds (None: never) or ``work_limit`` steps with the best plan
    found: ``proven`` then is False, and ``gap`` says how far it may be from the best. ``threads`` is the most threads that it
    may use, which changes nothing in the result; today one does the work. ``progress`` is True for a bar, or a function of
    the fraction of the limits that is used.

    >>> plan = tenths.cutting_plan([("2100 mm", 7), ("1500 mm", 7), ("1150 mm", 7)], ["6 m"], kerf="3 mm")
    >>> plan.bars, plan.proven
    (6, True)
    """
    return _tenths._cutting_plan(pieces, bars, units, threads, progress, options)
