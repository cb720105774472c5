"""Which unit a column is in: as named, as answered, or by range; and what is refused."""

import numpy as np
import pytest

from diagnose.batch.probe import ProbeLog
from diagnose.batch.probe.flaws import ALWAYS_FAULTS
from diagnose.errors import UnusableInput
from tests.probe.written import read, texts

CLOSE_SG = 0.0005  # the approximation from Plato against the tables


def column(header: str, values: list[float], *, temperature_unit: str | None = None) -> ProbeLog:
    rows = [f"2024-07-01 {hour:02d}:00Z,{value}" for hour, value in enumerate(values)]
    return read("\n".join([f"time,{header}", *rows]), temperature_unit=temperature_unit)


# Source: definitions of the units; ranges are judgement. Header, values, unit, first value in C.
TEMPERATURES = [
    ("temp", [19.0, 19.5, 20.0], "C", 19.0),
    ("temp", [68.0, 68.5, 69.0], "F", 20.0),
    ("temp", [2.0, 1.0, -1.0], "C", 2.0),
    ("temp", [-127.0, 68.0, 85.0, 68.2, 68.1], "F", -88.333),
    ("temp (F)", [34.0, 33.5, 33.0], "F", 1.111),
    ("temp (°C)", [34.0, 36.5, 38.0], "C", 34.0),
    ("temp [K]", [293.15, 293.2, 293.3], "K", 20.0),
]


@pytest.mark.parametrize(("header", "values", "unit", "first_c"), TEMPERATURES)
def test_a_temperature_is_read_in_its_unit(
    header: str, values: list[float], unit: str, first_c: float
) -> None:
    log = column(header, values)
    found = log.series["beer_temperature"].values[0]
    assert (log.columns[0].unit, round(float(found), 3)) == (unit, first_c)


# Source: common practice, no source; what loggers write for a fault.
@pytest.mark.parametrize("fault", ALWAYS_FAULTS)
def test_fault_values_however_many_do_not_hide_the_unit(fault: float) -> None:
    log = column("temp", [68.0, fault, fault, 68.5, 68.5, 69.0, fault, fault, fault])
    assert log.columns[0].unit == "F"


@pytest.mark.parametrize("values", [[33.0, 34.0, 35.0], [38.0, 37.0, 36.0], [150.0, 151.0, 152.0]])
def test_a_temperature_that_could_be_either_is_refused_with_both_readings(
    values: list[float],
) -> None:
    with pytest.raises(
        UnusableInput, match=r":2: temp: .*read as C they stand, read as F they are"
    ):
        column("temp", values)


@pytest.mark.parametrize(("answer", "first_c"), [("C", 34.0), ("°F", 1.111), ("fahrenheit", 1.111)])
def test_an_answer_settles_the_unit(answer: str, first_c: float) -> None:
    log = column("temp", [34.0, 36.0, 38.0], temperature_unit=answer)
    assert log.series["beer_temperature"].values[0] == pytest.approx(first_c, abs=0.001)


def test_an_answer_goes_before_the_header_and_is_said() -> None:
    log = column("temp (C)", [68.0, 68.5, 69.0], temperature_unit="F")
    assert "read as F, as answered" in texts(log, "warn")


def test_an_answer_that_is_no_unit_is_refused() -> None:
    with pytest.raises(UnusableInput, match="temperature_unit: found 'K'; wanted C or F"):
        column("temp", [20.0, 20.0, 20.0], temperature_unit="K")


@pytest.mark.parametrize(("header", "value"), [("temp (C)", 68.0), ("temp (F)", 19.0)])
def test_a_unit_that_hardly_fits_is_asked_about(header: str, value: float) -> None:
    assert f"{header!r} says" in texts(column(header, [value, value, value]), "ask")


def test_a_column_that_cannot_tell_follows_the_others() -> None:
    log = read("time,beer (F),room\n2024-07-01 12:00Z,68,40\n2024-07-01 12:15Z,68,41\n")
    assert log.series["air_temperature"].values[0] == pytest.approx(4.444, abs=0.001)


def test_a_column_of_units_beside_the_numbers_is_used() -> None:
    log = read("time,temp,temp unit\n2024-07-01 12:00Z,36,F\n2024-07-01 12:15Z,36,F\n")
    assert log.series["beer_temperature"].values[0] == pytest.approx(2.222, abs=0.001)


def test_units_behind_the_numbers_are_used() -> None:
    log = read("time;temp\n2024-07-01 12:00Z;36,0 °F\n2024-07-01 12:15Z;36,2 °F\n")
    assert log.columns[0].unit == "F"


def test_two_units_in_one_column_are_refused() -> None:
    with pytest.raises(UnusableInput, match="C and F in one column"):
        read("time,temp\n2024-07-01 12:00Z,20 C\n2024-07-01 12:15Z,68 F\n")


# Source: 12 P = 1.0484 and 20 P = 1.0830 in common brewing tables (from memory).
GRAVITIES = [
    ("SG", [1.052, 1.040, 1.012], "SG", 1.052),
    ("gravity", [1.052, 1.040, 1.012], "SG", 1.052),
    ("gravity", [1052.0, 1040.0, 1012.0], "SG x 1000", 1.052),
    ("SG", [1052.0, 1040.0, 998.0], "SG x 1000", 1.052),
    ("gravity", [52.0, 40.0, 12.0], "points", 1.052),
    ("gravity (points)", [30.0, 20.0, 8.0], "points", 1.030),
    ("gravity (°P)", [12.0, 8.0, 3.0], "P", 1.0484),
    ("gravity (°P)", [1.1, 1.0, 1.0], "P", 1.0043),
    ("Plato", [20.0, 8.0, 3.0], "P", 1.0830),
    ("gravity", [12.0, 8.0, 3.0], "P", 1.0484),
    ("Brix", [12.0, 8.0, 6.0], "Bx", 1.0484),
]


@pytest.mark.parametrize(("header", "values", "unit", "first_sg"), GRAVITIES)
def test_a_gravity_is_read_in_its_unit(
    header: str, values: list[float], unit: str, first_sg: float
) -> None:
    log = column(header, values)
    found = log.series["gravity"].values[0]
    assert (log.columns[0].unit, abs(found - first_sg) < CLOSE_SG) == (unit, True)


def test_a_gravity_without_a_unit_that_is_no_sg_is_asked_about() -> None:
    assert "read as degrees Plato" in texts(column("gravity", [12.0, 8.0, 3.0]), "ask")


# Source: definitions of the units.
PRESSURES = [("pressure (psi)", 14.5038), ("pressure (kPa)", 100.0), ("pressure (mbar)", 1000.0)]


@pytest.mark.parametrize(("header", "one_bar"), PRESSURES)
def test_a_pressure_is_read_in_bar(header: str, one_bar: float) -> None:
    series = column(header, [one_bar, one_bar, one_bar]).series["pressure"]
    np.testing.assert_allclose(series.values, 1.0, atol=1e-4)


# Source: worked out by hand. Cells as written and the value they hold.
DECIMALS = [
    ("1.052,5", 1.0525),
    ("1,052.5", 1.0525),
    ("1 052,5", 1.0525),
    ("1'052.5", 1.0525),
]


@pytest.mark.parametrize(("cell", "sg"), DECIMALS)
def test_signs_that_part_thousands_are_no_decimal_signs(cell: str, sg: float) -> None:
    log = read(f"time;gravity\n2024-07-01 12:00Z;{cell}\n2024-07-01 12:15Z;{cell}\n")
    assert log.series["gravity"].values[0] == pytest.approx(sg)
