"""Labels of readings and parts: subgroups, phases and ratings, none of them missing."""

import numpy

from . import _frames
from ._readings import check_order, refuse_unordered
from ._tenths import DomainError


def numbered(name, what, values, fix, order=None):
    """Numbers from 0 for labels, in the order in which they first occur, in an array of the shape of the labels.

    ``what`` is what one of them is called, ``fix`` what to do where one is missing. ``order`` has the numbers of labels that
    are known already, and takes the new ones.
    """
    labels, order = _array(name, what, values, fix), {} if order is None else order
    flat = labels.ravel().tolist()
    try:
        numbers = [order.setdefault(label, len(order)) for label in flat]
    except TypeError:
        raise DomainError(f"{name}: rows of different lengths have no table; give rows of one length") from None
    for label, number in order.items():
        if _is_missing(label):
            raise DomainError(f"{_place(name, what, labels.shape, numbers.index(number))} is missing. Fix: {fix}")
    return numpy.array(numbers, dtype=int).reshape(labels.shape)


def grouped(table, subgroup):
    """Readings with those of a subgroup together, and the sizes of the subgroups: by one size for all, or by labels."""
    size = _size(subgroup)
    if size is not None:
        beyond = len(table) % size
        if beyond:
            raise DomainError(
                f"{len(table)} readings do not fill subgroups of {size}. Fix: give a label for each reading, or leave out the last {beyond}"
            )
        return table, [size] * (len(table) // size)
    places = numbered("subgroup", "label", subgroup, "give each reading a label, or leave the reading out")
    if places.shape != (len(table),):
        raise DomainError(f"{places.size} labels of subgroups were given; expected one for each of {len(table)} readings")
    return table[numpy.argsort(places, kind="stable")], numpy.bincount(places).tolist()


def phases(values):
    """Numbers from 0 for the phases of points, one more at each change; a phase that comes back is refused."""
    order = {}
    numbers = numbered("phases", "label", values, "give each point a label", order)
    if numbers.ndim != 1:
        raise TypeError("phases must be a list with the label of each point")
    seen, last = -1, -1
    for place, number in enumerate(numbers.tolist()):
        if number != last and number <= seen:
            label = list(order)[number]
            raise DomainError(f"phase {label!r} comes back at point {place + 1}. Fix: give the later stretch a label of its own")
        seen, last = max(seen, number), number
    return numbers.tolist()


def ratings(values, reference):
    """Numbers for ratings and for the true ones, which are one and the same label only where they are written alike."""
    check_order(ratings=values, reference=reference)
    order, fix = {}, "leave the part out"
    table = numbered("ratings", "rating", values, fix, order)
    truth = [] if reference is None else numbered("reference", "rating", reference, fix, order).ravel().tolist()
    written = {}
    for label in order:
        other = written.setdefault(" ".join(str(label).split()).casefold(), label)
        if other is not label:
            raise DomainError(f"{other!r} and {label!r} are one rating written in two ways. Fix: write each rating one way")
    return table, truth


def _size(subgroup):
    """A whole number that stands for the size of all subgroups."""
    if isinstance(subgroup, (list, tuple)) or numpy.ndim(subgroup):
        return None
    size = subgroup.item() if hasattr(subgroup, "item") else subgroup
    if isinstance(size, bool) or not isinstance(size, int) or size < 2:
        raise DomainError(f"subgroup must be a whole number of 2 or more, or a label for each reading, not {subgroup!r:.40}")
    return size


def _array(name, what, values, fix):
    """Labels as they are, in an array: a list keeps 1 apart from '1'."""
    if isinstance(values, numpy.ma.MaskedArray):
        mask = numpy.ma.getmaskarray(values)
        if mask.any():
            raise DomainError(f"{_place(name, what, mask.shape, int(mask.argmax()))} is masked. Fix: {fix}")
        values = values.data
    if _frames.is_frame(values):
        columns = _frames.columns(name, values).values()
        return numpy.array([column.to_list() for column in columns], dtype=object).T
    refuse_unordered(name, values)
    return numpy.asarray(values, dtype=object if isinstance(values, (list, tuple)) else None)


def _place(name, what, shape, flat):
    return f"{name}: {what} {', '.join(str(k + 1) for k in numpy.unravel_index(flat, shape))}"


def _is_missing(label):
    """None, NaN, what pandas puts for them, and empty text."""
    if label is None or type(label).__name__ in ("NAType", "NaTType") or label != label:
        return True
    return isinstance(label, str) and not label.strip()
