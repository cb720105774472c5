"""A paired test with "no difference" among its answers, against scipy and the laws it keeps."""

from math import inf, isfinite

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import optimize, stats

from diagnose.errors import UnusableInput
from diagnose.sensory import METHODS, PairedAnswers, dprime_from_share, read_paired_answers

COUNT = st.integers(0, 12)
ANSWERS = st.builds(PairedAnswers, COUNT, COUNT, COUNT).filter(
    lambda seen: seen.first + seen.neither + seen.second > 0
)
ALL_GIVEN = st.builds(PairedAnswers, *[st.integers(1, 12)] * 3)


@settings(max_examples=40)
@given(ANSWERS)
def test_swapping_the_beers_turns_the_distance_round(seen):
    there = read_paired_answers(seen)
    back = read_paired_answers(PairedAnswers(seen.second, seen.neither, seen.first))
    ends = there.dprime.value, there.dprime.low, there.dprime.high, there.p
    turned = -back.dprime.value, -back.dprime.high, -back.dprime.low, back.p
    assert ends == pytest.approx(turned, abs=1e-6)


@settings(max_examples=40)
@given(ANSWERS)
def test_an_interval_contains_its_distance(seen):
    found = read_paired_answers(seen).dprime
    assert found.low - 1e-9 <= found.value <= found.high + 1e-9


@settings(max_examples=40)
@given(ANSWERS, st.integers(1, 20))
def test_more_who_name_neither_do_not_change_the_p(seen, more):
    other = PairedAnswers(seen.first, seen.neither + more, seen.second)
    assert read_paired_answers(other).p == read_paired_answers(seen).p


@settings(max_examples=40)
@given(st.integers(0, 20), st.integers(0, 20))
def test_the_p_is_scipys_for_the_tasters_who_chose(first, second):
    theirs = stats.binomtest(second, first + second).pvalue if first + second else 1.0
    found = read_paired_answers(PairedAnswers(first, 5, second))
    assert found.p == pytest.approx(theirs, abs=1e-9)


@settings(max_examples=40)
@given(st.integers(1, 20), st.integers(1, 20))
def test_where_everybody_chose_it_is_the_plain_paired_test(first, second):
    more = max(first, second)
    plain = dprime_from_share(METHODS["2-afc"], more / (first + second))
    found = read_paired_answers(PairedAnswers(first, 0, second))
    assert (abs(found.dprime.value), found.bar) == pytest.approx((plain, 0.0), abs=1e-9)


def _surprise(at, seen):
    """Negative log likelihood by scipy alone."""
    spread = stats.norm(loc=at[0], scale=2**0.5)
    chances = spread.cdf(-at[1]), spread.cdf(at[1]) - spread.cdf(-at[1]), spread.sf(at[1])
    counts = seen.first, seen.neither, seen.second
    return -sum(
        n * stats.norm.logcdf(stats.norm.ppf(p)) for n, p in zip(counts, chances, strict=True)
    )


@settings(max_examples=15)
@given(ALL_GIVEN)
def test_distance_and_bar_are_those_of_a_search(seen):
    found = read_paired_answers(seen)
    start = [found.dprime.value + 0.2, found.bar * 1.3]
    best = optimize.minimize(_surprise, start, args=(seen,), method="Nelder-Mead", tol=1e-8)
    assert [found.dprime.value, found.bar] == pytest.approx(best.x.tolist(), abs=1e-4)


@settings(max_examples=15)
@given(ALL_GIVEN)
def test_the_interval_leaves_no_difference_out_just_when_the_likelihood_p_is_small(seen):
    found = read_paired_answers(seen)
    inside = found.dprime.low <= 0.0 <= found.dprime.high
    assert inside is (found.likelihood_p >= 0.05)


def test_tasters_who_name_one_beer_only_have_no_upper_end():
    found = read_paired_answers(PairedAnswers(0, 3, 7)).dprime
    assert (found.value, found.high, isfinite(found.low)) == (inf, inf, True)


def test_tasters_who_all_name_neither_tell_nothing_of_the_distance():
    found = read_paired_answers(PairedAnswers(0, 9, 0))
    assert (found.dprime.value, found.dprime.low, found.dprime.high, found.p) == (0, -inf, inf, 1)


# Source of the table: the list of bad input.
@pytest.mark.parametrize(
    ("seen", "wanted"),
    [
        (PairedAnswers(0, 0, 0), "at least one taster"),
        (PairedAnswers(-1, 3, 5), "0 or more right answers"),
        (PairedAnswers(3, -1, 5), "0 or more right answers"),
    ],
)
def test_counts_that_cannot_be_are_refused(seen, wanted):
    with pytest.raises(UnusableInput, match=wanted):
        read_paired_answers(seen)
