"""A known series, written in any layout, reads back as it was."""

from datetime import datetime, timedelta
from itertools import product

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.probe.written import START, read, seconds

# Common practice, no source: the ways in which loggers write a moment.
DATES = {
    "iso with Z": "%Y-%m-%dT%H:%M:%SZ",
    "iso with offset": "%Y-%m-%d %H:%M:%S+00:00",
    "year first, slashes": "%Y/%m/%d %H:%M:%S UTC",
    "dots": "%d.%m.%Y %H:%M:%SZ",
    "day first": "%d/%m/%Y %H:%M:%S Z",
    "month first": "%m/%d/%Y %I:%M:%S %p UTC",
    "named month": "%d %b %Y %H:%M:%S GMT",
    "named month first": "%b %d, %Y %I:%M:%S %p GMT",
    "weekday": "%a, %d %b %Y %H:%M:%S +0000",
    "compact": "%Y%m%dT%H%M%SZ",
    "epoch": "",
}
DELIMITERS = [",", ";", "\t", "|"]
ENCODINGS = ["utf-8", "utf-8-sig", "utf-16", "latin-1"]
LAYOUTS = list(product(DELIMITERS, [".", ","], sorted(DATES), ENCODINGS))
# Hundredths are written, so the values come back to within rounding of a sum.
CLOSE = 1e-9

temperatures = st.lists(st.integers(400, 2800), min_size=30, max_size=120)
layouts = st.sampled_from(LAYOUTS)
quickly = settings(max_examples=60, deadline=None, derandomize=True)


def written(values: list[int], layout: tuple[str, str, str, str]) -> str:
    delimiter, decimal, dates, _ = layout
    rows = [delimiter.join(("When", "Bier (°C)", "Remark"))]
    for number, value in enumerate(values):
        when = START + timedelta(hours=number)
        text = f"{value / 100:.2f}".replace(".", decimal)
        quoted = f'"{text}"' if decimal == delimiter else text
        rows.append(delimiter.join((f'"{moment(when, dates)}"', quoted, "")))
    return "\n".join(rows) + "\n"


def moment(when: datetime, dates: str) -> str:
    return when.strftime(DATES[dates]) if DATES[dates] else f"{when.timestamp():.0f}"


@quickly
@given(temperatures, layouts)
def test_values_read_back_equal_from_any_layout(
    values: list[int], layout: tuple[str, str, str, str]
) -> None:
    log = read(written(values, layout), encoding=layout[3])
    np.testing.assert_allclose(
        log.series["beer_temperature"].values, np.array(values) / 100, atol=CLOSE
    )


@quickly
@given(temperatures, layouts)
def test_times_read_back_equal_from_any_layout(
    values: list[int], layout: tuple[str, str, str, str]
) -> None:
    log = read(written(values, layout), encoding=layout[3])
    wanted = [seconds(START + timedelta(hours=number)) for number in range(len(values))]
    assert log.times_utc_s.tolist() == wanted


@pytest.mark.parametrize("dates", sorted(DATES))
def test_every_way_of_writing_a_date_is_known(dates: str) -> None:
    log = read(written([1900] * 40, (";", ".", dates, "utf-8")))
    assert log.times_utc_s[0] == seconds(START)


@quickly
@given(st.permutations(range(40)))
def test_the_order_of_the_rows_does_not_matter(order: list[int]) -> None:
    header, *rows = written(list(range(1800, 1840)), (";", ",", "iso with Z", "utf-8")).splitlines()
    log = read("\n".join([header, *(rows[place] for place in order)]))
    assert np.round(log.series["beer_temperature"].values * 100).tolist() == list(range(1800, 1840))
