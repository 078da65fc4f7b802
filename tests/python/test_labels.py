"""Labels of subgroups, phases and ratings: how they are taken, and which are refused with their place."""

import math

import numpy
import pytest
import tenths
from tenths import DomainError, attribute_agreement, control_chart, metric

DATA = [10.0, 10.1, 9.9, 10.2, 9.8, 10.0]
LABELS = ["a", "a", "b", "b", "c", "c"]


def _calls(labels):
    """Every call that takes a label for each reading or point."""
    return (
        ("subgroup", lambda: metric.capability(DATA, (9, 11), labels)),
        ("subgroup", lambda: control_chart("xbar_r", DATA, subgroup=labels)),
        ("phases", lambda: control_chart("i_mr", DATA, phases=labels)),
    )


@pytest.mark.parametrize("missing", [None, math.nan, "", " ", numpy.datetime64("NaT", "D")])
def test_a_missing_label_is_refused_with_its_place(missing):
    for name, call in _calls([*LABELS[:4], missing, "c"]):
        with pytest.raises(DomainError, match=rf"^{name}: label 5 is missing\. Fix: "):
            call()
    for ratings, reference in (([["ok", "ok"], ["ok", missing]], None), ([["ok"] * 2] * 2, ["ok", missing])):
        with pytest.raises(DomainError, match=r"(ratings: rating 2, 2|reference: rating 2) is missing\. Fix: leave the part out"):
            attribute_agreement(ratings, reference)


def test_a_masked_label_is_refused_with_its_place():
    for name, call in _calls(numpy.ma.array(LABELS, mask=[0, 0, 0, 1, 0, 0])):
        with pytest.raises(DomainError, match=rf"^{name}: label 4 is masked"):
            call()
    masked = numpy.ma.array([["ok", "ok"], ["ok", "no"], ["no", "no"]], mask=[[0, 0], [0, 1], [0, 0]])
    with pytest.raises(DomainError, match="ratings: rating 2, 2 is masked. Fix: leave the part out"):
        attribute_agreement(masked)
    with pytest.raises(DomainError, match="reference: rating 2 is masked"):
        attribute_agreement(masked.data, masked[:, 1])


@pytest.mark.libraries
def test_missing_labels_of_pandas_are_refused():
    import pandas

    for column in (
        pandas.Series([*LABELS[:5], None]),
        pandas.Series([1, 1, 2, 2, 3, None], dtype="Int64"),
        pandas.Series(pandas.to_datetime(["2026-01-05"] * 5 + [None])),
        pandas.Categorical([*LABELS[:5], None]),
    ):
        for name, call in _calls(column):
            with pytest.raises(DomainError, match=f"^{name}: label 6 is missing"):
                call()


def test_a_whole_number_is_the_size_of_all_subgroups():
    assert control_chart("xbar_r", DATA, subgroup=2) == control_chart("xbar_r", DATA, sizes=2)
    assert metric.capability(DATA, (9, 11), 2) == metric.capability(DATA, (9, 11), LABELS)
    for size, why in ((4, "6 readings do not fill subgroups of 4"), (1, "2 or more"), (True, "2 or more"), (2.0, "2 or more")):
        with pytest.raises(DomainError, match=why):
            control_chart("xbar_r", DATA, subgroup=size)
        with pytest.raises(DomainError, match=why):
            metric.capability(DATA, (9, 11), size)


def test_phases_are_a_list_and_come_once():
    with pytest.raises(TypeError, match="phases must be a list with the label of each point"):
        control_chart("i_mr", DATA, phases=1)
    with pytest.raises(TypeError, match=r"phases must be a list or an array, not generator\. Fix: list\(phases\)"):
        control_chart("i_mr", DATA, phases=(label for label in LABELS))
    with pytest.raises(DomainError, match="phase 'a' comes back at point 5"):
        control_chart("i_mr", DATA, phases=list("aabbaa"))


@pytest.mark.parametrize(
    ("ratings", "reference", "why"),
    [
        ([["ok", "OK"], ["ok", "ok"]], None, "'ok' and 'OK' are one rating written in two ways"),
        ([["ok", "ok "], ["ok", "ok"]], None, "'ok' and 'ok ' are one rating"),
        ([["ok", "bad"], ["bad", "ok"]], ["OK", "BAD"], "'ok' and 'OK' are one rating"),
        ([["1", 1], [1, 1]], None, "'1' and 1 are one rating"),
        ([[0, 1], [1, 1]], ["0", "1"], "0 and '0' are one rating"),
        ([["ok", "ok"], ["ok"]], None, "rows of different lengths"),
    ],
)
def test_a_rating_is_written_one_way(ratings, reference, why):
    with pytest.raises(DomainError, match=why):
        attribute_agreement(ratings, reference)


def test_ratings_of_different_kinds_stay_apart():
    mixed = attribute_agreement([["1", 2], [2, 2], ["1", "1"]])
    assert mixed == attribute_agreement([["a", "b"], ["b", "b"], ["a", "a"]])


@pytest.mark.libraries
def test_ratings_may_be_a_frame():
    import pandas

    frame = pandas.DataFrame({"Kim": ["ok", "bad", "ok"], "Lee": ["ok", "bad", "bad"]}, index=[3, 1, 2])
    truth = pandas.Series(["ok", "bad", "ok"], index=[3, 1, 2])
    assert attribute_agreement(frame, truth) == attribute_agreement(frame.to_numpy(), truth.tolist())
    with pytest.raises(DomainError, match="ratings and reference have different indexes"):
        attribute_agreement(frame, truth.sort_index())
