"""Sampling plans: the figures of tests/published/sampling*.csv, and what the objects do."""

import pathlib
import pickle

import numpy
import pytest

import tenths
from tenths import DomainError, Switching, sampling_plan, staged_plan, two_point_plan, variables_plan, zero_acceptance_plan

FOLDER = pathlib.Path(__file__).parent.parent / "published"


def lines(name):
    text = (FOLDER / name).read_text(encoding="utf-8")
    return [line.split(";") for line in text.splitlines() if not line.startswith("# ")]


def plan_of(call, given):
    lot = int(given["lot"]) if "lot" in given else None
    if call == "standard":
        return sampling_plan(lot, float(given["aql"]), given["level"], given["severity"])
    if call == "stages":
        return staged_plan(given["samples"], lot)
    if call == "zero":
        return zero_acceptance_plan(lot, ltpd=float(given["ltpd"]), risk=float(given["risk"]))
    risks = float(given["producer_risk"]), float(given["consumer_risk"])
    if call == "variables":
        return variables_plan(float(given["aql"]), float(given["ltpd"]), *risks, given["sigma"])
    return two_point_plan(float(given["aql"]), float(given["ltpd"]), *risks)


def figure_of(call, words, quantity):
    given = dict(word.partition("=")[::2] for word in words.split(" "))
    plan = plan_of(call, given)
    if hasattr(plan, quantity):
        found = getattr(plan, quantity)
        if not callable(found):
            return found
    if call == "variables":
        return plan.acceptance_probability(float(given["p"]))
    model = given.get("model", "binomial")
    if "worst" in given:
        return getattr(plan.worst_outgoing(model), quantity)
    performance = plan.performance(float(given["p"]), model)
    assert plan.acceptance_probability(float(given["p"]), model) == performance.acceptance_probability
    return getattr(performance, quantity)


def test_published_plans():
    assert len(lines("sampling.csv")) >= 140
    for call, words, quantity, figure, _seen, _source in lines("sampling.csv"):
        got = figure_of(call, words, quantity)
        if isinstance(got, float):
            within = 0.5 * 10.0 ** -len(figure.partition(".")[2])
            assert abs(got - float(figure)) <= within * (1 + 1e-9) + 1e-13 * float(figure), (words, quantity)
        else:
            assert str(got) == figure, (words, quantity)


def test_every_cell_of_the_master_table():
    lots = {row[7]: int(row[1] or 600_000) for row in lines("sampling_code_letters.csv")}
    cells = lines("sampling_single_normal.csv")
    assert len(cells) == 416
    for letter, aql, _cell, plan_letter, size, accept, reject, _seen, _source in cells:
        plan = sampling_plan(600_000, float(aql), "III") if letter == "R" else sampling_plan(lots[letter], float(aql))
        assert (plan.code_letter, plan.plan_letter) == (letter, plan_letter)
        assert plan.sample_size == min(int(size), plan.lot) and plan.whole_lot == (plan.sample_size == plan.lot)
        assert (plan.accept, plan.reject) == (int(accept), int(reject))


@pytest.mark.libraries
def test_an_array_has_a_curve():
    plan = sampling_plan(1000, 1.0)
    p = numpy.array([[0.0, 0.01], [0.02, 1.0]])
    chances = plan.acceptance_probability(p)
    assert chances.shape == (2, 2) and chances[0, 0] == 1 and chances[0, 1] == plan.acceptance_probability(0.01)
    assert isinstance(plan.acceptance_probability(0.01), float)
    assert list(plan.acceptance_probability([0.01])) == [chances[0, 1]]
    curve = plan.curve([0.01, 0.02])
    assert [point.acceptance_probability for point in curve] == [chances[0, 1], chances[1, 0]]
    frame = curve.to_frame()
    assert list(frame["fraction"]) == [0.01, 0.02] and "average_total_inspection" in frame
    assert plan.aoql() == plan.worst_outgoing().average_outgoing_quality


def test_variables_are_judged():
    plan = variables_plan(1.0, 8.0)
    assert plan == pickle.loads(pickle.dumps(plan)) and repr(plan).startswith("<variables plan: 28 pieces, k = 1.8212")
    assert plan.judge(10, 0.5, lower=9.0) == "accepted" and plan.judge(10, 0.6, lower=9.0) == "rejected"
    assert plan.judge(10, 0.5, lower=9, upper=10.9) == "rejected"
    own = tenths.VariablesPlan(plan.sample_size, plan.k)
    assert own.acceptance_probability(0.02) == plan.acceptance_probability(0.02)
    for make, why in (
        (lambda: plan.judge(10, 0.5), "a lower or an upper limit is missing"),
        (lambda: plan.judge(10, 0.5, lower=11, upper=9), "the lower limit must be less than the upper limit, not 11"),
        (lambda: tenths.VariablesPlan(1, 1.8), "2 or more where sigma is unknown"),
        (lambda: variables_plan(1, 8, sigma="guessed"), "expected known or unknown"),
    ):
        with pytest.raises(DomainError) as raised:
            make()
        assert why in str(raised.value)


@pytest.mark.libraries
def test_a_plan_shows_itself():
    plan = sampling_plan(1000, 1.0)
    assert repr(plan) == "<single sampling plan: 80 pieces, accept on 2, reject on 3>"
    assert plan == pickle.loads(pickle.dumps(plan)) and plan != sampling_plan(1000, 0.65)
    assert plan.samples == "80/2/3" and staged_plan(plan.samples).sample_size == 80
    assert list(plan.to_frame()["sample_size"]) == [80]
    double = staged_plan([(50, None, 4), (50, 1, 4), (50, 4, 5)], lot=1000)
    assert double.samples == "50/-/4, 50/1/4, 50/4/5" and double.kind == "multiple" and double.judge([0, 1]) == "accepted"
    assert double == staged_plan(double.samples, 1000)
    assert [double.judge(found) for found in (1, 2, [2, 1], [2, 0, 3])] == [
        "next sample",
        "next sample",
        "next sample",
        "rejected",
    ]


def test_inspection_switches():
    plan, state = sampling_plan(1000, 1.0), Switching()
    for found in (0, 3, 0, 3):
        state = state.after(plan, found)
    assert (state.severity, state.lots) == ("tightened", 4)
    tightened = sampling_plan(1000, 1.0, severity=state.severity)
    for _ in range(5):
        state = state.after(tightened, [0])
    assert state.severity == "normal"
    for _ in range(10):
        state = state.after(plan, 1, steady=True)
    assert state.severity == "reduced" and state == pickle.loads(pickle.dumps(state))
    assert Switching().after_all("A3 R0 A R").severity == "tightened"
    with pytest.raises(DomainError, match="the plan is for normal inspection, and the next lot is under tightened"):
        Switching("tightened").after(plan, 0)
    assert str(Switching().after(plan, 0)) == "normal inspection after 1 lot"
    with pytest.raises(DomainError, match="do not decide on the lot yet"):
        Switching().after(staged_plan("50/1/4, 50/4/5"), 2)


@pytest.mark.parametrize(
    ("make", "why"),
    [
        (lambda: sampling_plan(1000, 1.2), "an AQL of 1.2 % is not in the tables; expected e.g. 1 or 1.5"),
        (lambda: sampling_plan(1, 1.0), "a lot must have 2 to 1 000 000 000 pieces, not 1"),
        (lambda: sampling_plan(-5, 1.0), "lot must be a whole number, zero or more, not -5"),
        (lambda: sampling_plan(1000, 1.0, "IV"), "`IV` is not an inspection level; expected S-1, S-2"),
        (lambda: sampling_plan(1000, 1.0, severity="strict"), "expected normal, tightened or reduced"),
        (lambda: sampling_plan(1000, 1.0, standard="ISO 3951"), "`ISO 3951` is not a standard; expected ISO 2859-1"),
        (lambda: sampling_plan(1000, 1.0, kind="double"), "was not seen in print, so none is given. Fix: take"),
        (lambda: sampling_plan(1000, 1.0, severity="reduced"), "was not seen in print"),
        (lambda: sampling_plan(1000, 1.0).acceptance_probability(1.5), "must be from 0 to 1, not 1.5; 1 % is 0.01"),
        (lambda: sampling_plan(1000, 1.0).acceptance_probability([0.1, float("nan")]), "not NaN"),
        (lambda: sampling_plan(1000, 1.0).acceptance_probability(0.0123, "hypergeometric"), "is 12.3 pieces"),
        (lambda: sampling_plan(1000, 1.0).acceptance_probability(0.01, "normal"), "expected binomial"),
        (lambda: sampling_plan(1000, 1.0).judge(81), "has 80 pieces, not 81"),
        (lambda: staged_plan("80/2"), "`80/2` is not a list of samples; expected pieces, acceptance"),
        (lambda: staged_plan([(80, 3, 3)]), "must be below its rejection number"),
        (lambda: staged_plan([(80, 3, 10**10)]), "reject must be at most 1000"),
        (lambda: zero_acceptance_plan(ltpd=0), "the LTPD in percent must be greater than 0 and less than 100, not 0"),
        (lambda: two_point_plan(2, 1), "the LTPD in percent must be greater than the AQL, not 1"),
    ],
)
def test_refusals(make, why):
    with pytest.raises(DomainError) as raised:
        make()
    assert why in str(raised.value)


def test_wrong_types():
    for make in (
        lambda: sampling_plan(1000.5, 1.0),
        lambda: sampling_plan("1000", 1.0),
        lambda: staged_plan([(80, 3)]),
        lambda: staged_plan(80),
        lambda: zero_acceptance_plan(100),
        lambda: zero_acceptance_plan(100, ltpd=1, aql=1),
        lambda: tenths.SamplingPlan(),
    ):
        with pytest.raises(TypeError):
            make()


@pytest.mark.parametrize(
    ("call", "why"),
    [
        (lambda: tenths.zero_acceptance_plan(ltpd="5%"), "ltpd must be a number, not '5%'"),
        (lambda: tenths.zero_acceptance_plan(aql=True), "aql must be a number, not True"),
        (lambda: tenths.zero_acceptance_plan(ltpd=5, risk="10%"), "risk must be a number, not '10%'"),
        (lambda: tenths.variables_plan(1, 5).judge("10", 0.1, lower=9), "mean must be a number, not '10'"),
        (lambda: tenths.variables_plan(1, 5).judge(10, 0.1, lower="9 mm"), "lower must be a number, not '9 mm'"),
        (lambda: tenths.sampling_plan(1000, 1.0).performance(True), "p must be a number, not True"),
        (lambda: tenths.sampling_plan(1000, 1.0).acceptance_probability(True), "p must be a number, not True"),
    ],
)
def test_what_is_not_a_number_is_refused_by_its_name(call, why):
    with pytest.raises(TypeError, match=why):
        call()
