"""Gauge studies: what is taken for readings of parts by appraisers in trials."""

import numpy

from . import _frames, _labels, _tenths
from ._options import takes
from ._readings import check_order, floats, readings, row
from ._tenths import DomainError

_BLOCK = 1 << 21  # bytes
_LINES = ("part", "appraiser", "interaction", "repeatability")
_FIGURES = (
    "mean",
    *(f"ss_{line}" for line in _LINES),
    *(f"ms_{line}" for line in _LINES),
    *(f"f_{line}" for line in _LINES[:3]),
    *(f"p_{line}" for line in _LINES[:3]),
    *(f"variance_{of}" for of in ("repeatability", "appraiser", "interaction", "reproducibility", "gauge", "part", "total")),
)


@takes("StudyOptions", "method", "tolerance", "study_multiplier", "pool_interaction")
def gauge_study(data, *, part="part", appraiser="appraiser", trial="trial", value="value", **options):
    """A study of repeatability and reproducibility.

    ``data`` is an array of parts × appraisers × trials, or a tidy DataFrame with a row for each reading and the columns
    ``part``, ``appraiser`` and ``value``, and ``trial`` where it has one. ``method`` is ``anova``, ``average_range`` or
    ``nested``, where each appraiser has parts of their own. Every appraiser measures every part the same number of times;
    anything else is refused.
    """
    if _frames.is_frame(data):
        table = _tidy(_frames.of_pandas(data), options.get("method") == "nested", part, appraiser, trial, value)
    else:
        table = readings("data", data)
    if table.ndim != 3:
        hint = ". Fix: use gauge_studies for many studies" if table.ndim == 4 else ""
        raise DomainError(f"data must be parts × appraisers × trials, not {table.ndim} dimensions{hint}")
    return _tenths._gauge_study(table.tobytes(), table.shape, options)


def gauge_studies(data, method="anova", pool_interaction=False):
    """Many studies of one layout by analysis of variance: an array of studies × parts × appraisers × trials.

    Gives a dict of arrays with a figure for each study: ``mean``; ``ss_``, ``ms_``, ``f_`` and ``p_`` of ``part``,
    ``appraiser``, ``interaction`` and ``repeatability``; and ``variance_`` of these and of ``reproducibility``, ``gauge`` and
    ``total``. A figure that a study does not have is NaN. ``pandas.DataFrame`` takes the dict as it is.
    """
    table = floats("data", data)
    if table.ndim != 4:
        raise DomainError(f"data must be studies × parts × appraisers × trials, not {table.ndim} dimensions")
    table = numpy.require(table, requirements="CA")
    options = {"method": method, "pool_interaction": pool_interaction}
    figures = numpy.empty((len(_FIGURES), len(table)))
    # In blocks that stay in the cache. What is wrong with the layout or the options is refused with the first block.
    block = max(1, _BLOCK // max(1, table[:1].nbytes))
    for start in range(0, max(1, len(table)), block):
        some = table[start : start + block]
        try:
            made = _tenths._gauge_studies(some, table.shape[1:], options)
        except DomainError:
            readings("data", table)  # says which one is missing, if one is
            raise
        figures[:, start : start + block] = made.reshape(len(_FIGURES), -1)
    return dict(zip(_FIGURES, figures))


def gauge_linearity(references, data, *, confidence=0.95):
    """How the bias of a gauge changes over its range.

    ``data`` has a row of readings for each of the ``references``, or is one row with a reference for each reading.
    """
    check_order(references=references, data=data)
    references, table = row("references", references), readings("data", data)
    if table.ndim == 2:
        if table.shape[0] != references.size:
            raise DomainError(f"{table.shape[0]} rows of readings were given; expected one for each of {references.size} references")
        references, table = numpy.repeat(references, table.shape[1]), table.ravel()
    return _tenths._gauge_linearity(references.tobytes(), row("data", table).tobytes(), confidence)


def gauge_stability(data, *, confidence=0.95):
    """Whether a gauge reads one master the same from day to day: a control chart, and the drift of its points.

    ``data`` is one row of readings, or a table with a row for each session.
    """
    table = readings("data", data)
    sizes = numpy.array([table.shape[1]] if table.ndim == 2 else [], dtype=float)
    table = table.ravel() if table.ndim == 2 else row("data", table)
    return _tenths._gauge_stability(table.tobytes(), sizes.tobytes(), confidence)


def attribute_agreement(ratings, reference=None, *, confidence=0.95):
    """How far appraisers agree who judge parts by attributes: kappa of Fleiss and of Cohen, with their errors.

    ``ratings`` is an array of parts × appraisers × trials, or of parts × appraisers, of labels of any kind, such as ``"ok"``
    and ``"reject"``. ``reference`` has the true one of each part.
    """
    table, truth = _labels.ratings(ratings, reference)
    if table.ndim == 2:
        table = table[:, :, None]
    if table.ndim != 3:
        raise DomainError(f"ratings must be parts × appraisers × trials, not {table.ndim} dimensions")
    return _tenths._attribute_agreement(table.ravel().tolist(), table.shape, truth, confidence)


def _tidy(frame, nested, part, appraiser, trial, value):
    """Parts × appraisers × trials from a frame with a row for each reading."""
    for column in (part, appraiser, value):
        if column not in frame.columns:
            raise DomainError(f"the frame has no column {column!r}; it has {', '.join(map(repr, frame.columns))}")
        if frame[column].isna().any():
            row = int(frame[column].isna().to_numpy().argmax()) + 1
            raise DomainError(f"row {row} has no {column}. Fix: leave the part out of the study")
    if not len(frame):
        raise DomainError("the frame has no rows; expected one for each reading")
    values = readings(value, frame[value])
    trials = frame[trial].tolist() if trial in frame.columns else [None] * len(frame)
    cells, met = {}, set()
    for of_part, of_appraiser, of_trial, reading in zip(frame[part].tolist(), frame[appraiser].tolist(), trials, values.tolist()):
        if of_trial is not None:
            if (of_part, of_appraiser, of_trial) in met:
                raise DomainError(f"part {of_part}, appraiser {of_appraiser} has trial {of_trial} twice")
            met.add((of_part, of_appraiser, of_trial))
        cells.setdefault((of_part, of_appraiser), []).append(reading)
    return _table(cells, _nested(cells) if nested else _crossed(cells))


def _crossed(cells):
    """Rows of the cells of each part, with a cell for every appraiser."""
    parts, appraisers = (list(dict.fromkeys(key[k] for key in cells)) for k in (0, 1))
    return [[(part, appraiser) for appraiser in appraisers] for part in parts]


def _nested(cells):
    """Rows of cells, of which the first has each appraiser's first part, and so on."""
    own = {}
    for part, appraiser in cells:
        own.setdefault(appraiser, []).append((part, appraiser))
    if len({len(parts) for parts in own.values()}) > 1:
        counts = ", ".join(f"{appraiser}: {len(parts)}" for appraiser, parts in own.items())
        raise DomainError(f"each appraiser must measure the same number of parts, not {counts}")
    return [list(row) for row in zip(*own.values())]


def _table(cells, order):
    """The cells of a study as an array, if each has as many trials."""
    count = max((len(cell) for cell in cells.values()), default=0)
    for of_part, of_appraiser in (key for row in order for key in row):
        got = len(cells.get((of_part, of_appraiser), ()))
        if got != count:
            raise DomainError(
                f"part {of_part}, appraiser {of_appraiser} has {got} readings, and others have {count}: every appraiser "
                "measures every part the same number of times. Fix: measure again, or leave the part out"
            )
    return numpy.array([[cells[key] for key in row] for row in order], dtype=float)
