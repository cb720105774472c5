"""What headers say, and which column is read as what."""

import pytest

from diagnose.batch.probe.headings import read_heading
from diagnose.errors import UnusableInput
from tests.probe.written import read, texts

# Common practice, no source: headers as loggers and controllers write them.
HEADINGS = [
    ("Beer (°C)", "beer_temperature", "C"),
    ("BeerTemp", "beer_temperature", ""),
    ("beer_temp_f", "beer_temperature", "F"),
    ("Wort [F]", "beer_temperature", "F"),
    ("Fermenter Temperature (deg F)", "beer_temperature", "F"),
    ("Gärtemperatur °C", "beer_temperature", "C"),
    ("Probe Temp", "beer_temperature", ""),
    ("Bière (℃)", "beer_temperature", "C"),
    ("Room Temp", "air_temperature", ""),
    ("Ambient °F", "air_temperature", "F"),
    ("fridge_c", "air_temperature", "C"),
    ("Raumtemperatur", "air_temperature", ""),
    ("Temperature", "temperature", ""),
    ("Temp (Â°F)", "temperature", "F"),
    ("degC", "temperature", "C"),
    ("Sensor 2 (°C)", "temperature", "C"),
    ("Set Point", "set_point", ""),
    ("SetPoint_F", "set_point", "F"),
    ("Target temp", "set_point", ""),
    ("Solltemperatur", "set_point", ""),
    ("Beer Setting", "set_point", ""),
    ("SG", "gravity", "SG"),
    ("Specific Gravity", "gravity", "SG"),
    ("Gravity (°P)", "gravity", "P"),
    ("Extrakt °P", "gravity", "P"),
    ("Plato", "gravity", "P"),
    ("Brix", "gravity", "Bx"),
    ("Gravity points", "gravity", "points"),
    ("Gravity sensor temp", "temperature", ""),
    ("Pressure (psi)", "pressure", "psi"),
    ("kPa", "pressure", "kPa"),
    ("Druck [bar]", "pressure", "bar"),
    ("Battery", "battery", ""),
    ("vbat (mV)", "battery", "mV"),
    ("RSSI", "other", ""),
    ("Angle", "other", ""),
    ("Humidity (%)", "other", "%"),
    ("Original Gravity", "other", ""),
    ("Remark", "comment", ""),
    ("Kommentar", "comment", ""),
    ("Sensor C", "device", ""),
    ("Device", "device", ""),
    ("Value", "", ""),
    ("", "", ""),
]


@pytest.mark.parametrize(("header", "part", "unit"), HEADINGS)
def test_a_header_names_its_part_and_unit(header: str, part: str, unit: str) -> None:
    heading = read_heading(header)
    assert (heading.part, heading.unit) == (part, unit)


# Source: worked out by hand. Header and a row, and the roles that follow.
ROLES = [
    ("time,beer,room,set point", "19,18,20", "beer_temperature air_temperature set_point"),
    ("time,temp,gravity,battery", "19,1.050,3.9", "beer_temperature gravity battery"),
    ("time,temp,room temp", "19,18", "beer_temperature air_temperature"),
    ("time,temp 1,temp 2", "19,18", "beer_temperature unknown"),
    ("time,beer,temp", "19,18", "beer_temperature unknown"),
    ("time,value", "19", "beer_temperature"),
    ("time,note,rssi,beer", "hop,-70,19", "comment unknown beer_temperature"),
    ("time,angle,gravity,temp", "45.5,1.050,19", "unknown gravity beer_temperature"),
    ("time,beer (C),beer (F)", "19,66", "beer_temperature unknown"),
]


@pytest.mark.parametrize(("header", "row", "roles"), ROLES)
def test_columns_get_their_parts(header: str, row: str, roles: str) -> None:
    log = read(f"{header}\n2024-07-01 12:00Z,{row}\n2024-07-01 12:15Z,{row}\n")
    assert " ".join(column.role for column in log.columns) == roles


def test_every_column_says_why() -> None:
    log = read("time,beer,x,note\n2024-07-01 12:00Z,19,1,\n2024-07-01 12:15Z,19,2,\n")
    assert all(column.why for column in log.columns)


def test_without_a_header_values_tell_gravity_from_degrees() -> None:
    log = read(
        "1,2024-07-01 12:00Z,19.5,1.050\n2,2024-07-01 12:15Z,19.6,1.049\n"
        "3,2024-07-01 12:30Z,19.4,1.048\n"
    )
    assert [column.role for column in log.columns] == ["unknown", "beer_temperature", "gravity"]


def test_a_part_given_by_values_alone_is_asked_about() -> None:
    assert "by its values alone" in texts(
        read("2024-07-01 12:00Z,19.5\n2024-07-01 12:15Z,19.6\n"), "ask"
    )


def test_two_nameless_temperatures_are_asked_about() -> None:
    log = read("time,temp 1,temp 2\n2024-07-01 12:00Z,19,18\n2024-07-01 12:15Z,19,18\n")
    assert "'temp 1' was read as the beer's" in texts(log, "ask")


def test_air_does_not_stand_in_for_beer() -> None:
    log = read("time,room (C)\n2024-07-01 12:00Z,19\n2024-07-01 12:15Z,19\n")
    assert "no column is the beer's own" in texts(log, "warn")


def test_several_sensors_in_one_column_are_refused() -> None:
    with pytest.raises(UnusableInput, match=r"sensor: found 2 sensors in one column \(a, b\)"):
        read("time,sensor,value\n2024-07-01 12:00Z,a,19\n2024-07-01 12:00Z,b,15\n")


def test_numbered_sensors_in_one_column_are_refused() -> None:
    with pytest.raises(UnusableInput, match="2 sensor numbers in one column"):
        read("time,sensor,temp\n2024-07-01 12:00Z,1,19\n2024-07-01 12:00Z,2,15\n")


def test_another_header_further_down_is_refused() -> None:
    with pytest.raises(UnusableInput, match=r":4: found another header"):
        read(
            "time,beer,air\n2024-07-01 12:00Z,1,2\n2024-07-01 12:15Z,1,2\n"
            "time,air,beer\n2024-07-01 13:00Z,2,1\n"
        )


def test_cells_that_are_no_number_count_as_missing_and_are_said() -> None:
    log = read("time,beer\n2024-07-01 12:00Z,19\n2024-07-01 12:15Z,warm\n2024-07-01 12:30Z,19\n")
    assert "1 cell of beer held no number, such as 'warm'" in texts(log, "warn")


# Common practice, no source: the air of a fridge swings by far more than the beer in it.
@pytest.mark.parametrize(
    ("header", "is_warned"),
    [
        ("time,air (C)", True),
        ("time,set point (C)", True),
        ("time,beer (C)", False),
        ("time,beer (C),air (C)", False),
    ],
)
def test_only_a_log_without_the_beer_s_own_temperature_is_cautioned(
    header: str, is_warned: bool
) -> None:
    cells = ",".join(["18.5"] * header.count(","))
    rows = [f"2026-03-14T{hour:02}:00:00Z,{cells}" for hour in range(24)]
    warned = "no column is the beer's own temperature" in texts(
        read("\n".join([header, *rows])), "warn"
    )
    assert warned is is_warned
