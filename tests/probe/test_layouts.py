"""Ugly layouts and what is understood of them."""

from hashlib import sha256
from pathlib import Path

import pytest

from diagnose.batch.probe import read_probe_log
from tests.probe.written import beer_log, note_with, read, read_bytes

TIDY = "2024-10-13T12:00:00Z,19.5\n2024-10-13T12:15:00Z,19.6\n2024-10-13T12:30:00Z,19.4\n"
SEMI = TIDY.replace(",", ";")
COMMA = SEMI.replace(".", ",")
FIELDS = ("delimiter", "decimal_sign", "encoding", "header_line", "preamble_lines", "date_order")

# From memory: layouts met in loggers' exports; values invented.
LAYOUTS = [
    ("plain comma", "time,beer\n" + TIDY, "comma point ASCII 1 none year-first"),
    ("semicolon, decimal comma", "time;beer\n" + COMMA, "semicolon comma ASCII 1 none year-first"),
    ("semicolon, point", "time;beer\n" + SEMI, "semicolon point ASCII 1 none year-first"),
    ("tab", "time\tbeer\n" + TIDY.replace(",", "\t"), "tab point ASCII 1 none year-first"),
    ("pipe", "time|beer\n" + TIDY.replace(",", "|"), "pipe point ASCII 1 none year-first"),
    ("no header", TIDY, "comma point ASCII none none year-first"),
    (
        "decimal comma in quotation marks",
        'time,beer\n2024-10-13T12:00Z,"19,5"\n2024-10-13T12:15Z,"19,6"\n',
        "comma comma ASCII 1 none year-first",
    ),
    (
        "everything in quotation marks",
        '"time","beer"\n"2024-10-13 12:00Z","19.5"\n"2024-10-13 12:15Z","19.6"\n',
        "comma point ASCII 1 none year-first",
    ),
    (
        "five lines of preamble",
        "Fermenter log\nSerial;0815\nExported;2024-11-01 10:00\n\nsep=;\ntime;beer\n" + COMMA,
        "semicolon comma ASCII 6 5 year-first",
    ),
    (
        "comments for a preamble",
        "# logger 7\n# time,beer\n" + TIDY,
        "comma point ASCII 2 1 year-first",
    ),
    (
        "a second line of units",
        "time;beer;gravity\n;°C;°P\n2024-10-13 12:00Z;19,5;12,1\n2024-10-13 13:00Z;19,6;12,0\n",
        "semicolon comma UTF-8 1 none year-first",
    ),
    (
        "date and time apart, day first",
        "date,clock,beer\n13.10.2024,12:00,19.5\n13.10.2024,12:15,19.6\n",
        "comma point ASCII 1 none day-first",
    ),
    (
        "month first with AM and PM",
        "date,beer\n10/13/2024 11:45 AM,67.1\n10/13/2024 12:00 PM,67.2\n",
        "comma point ASCII 1 none month-first",
    ),
    (
        "seconds since 1970",
        "ts,beer\n1728820800,19.5\n1728821700,19.6\n",
        "comma point ASCII 1 none seconds-since-1970",
    ),
    (
        "milliseconds since 1970",
        "ts,beer\n1728820800000,19.5\n1728821700000,19.6\n",
        "comma point ASCII 1 none seconds-since-1970",
    ),
    (
        "a delimiter inside remarks",
        'time,beer,note\n2024-10-13 12:00Z,19.5,"hops; bag, 50 g"\n2024-10-13 12:15Z,19.6,\n',
        "comma point ASCII 1 none year-first",
    ),
    (
        "old line ends",
        ("time,beer\n" + TIDY).replace("\n", "\r"),
        "comma point ASCII 1 none year-first",
    ),
    ("blank lines", "\n\ntime,beer\n\n" + TIDY + "\n\n", "comma point ASCII 3 none year-first"),
]


@pytest.mark.parametrize(
    ("text", "wanted"), [row[1:] for row in LAYOUTS], ids=[row[0] for row in LAYOUTS]
)
def test_a_layout_is_understood(text: str, wanted: str) -> None:
    layout = read(text).layout
    found = [getattr(layout, field).what.replace(" ", "-") for field in FIELDS]
    assert " ".join(found) == wanted


@pytest.mark.parametrize("text", [row[1] for row in LAYOUTS], ids=[row[0] for row in LAYOUTS])
def test_every_layout_gives_a_beer_temperature(text: str) -> None:
    values = read(text).series["beer_temperature"].values
    assert values[0] == pytest.approx(19.5, abs=0.01)


# Source: the encodings' own definitions.
ENCODINGS = [
    ("utf-8", "UTF-8"),
    ("utf-8-sig", "UTF-8"),
    ("utf-16", "UTF-16"),
    ("utf-16-le", "UTF-16"),
    ("utf-16-be", "UTF-16"),
    ("utf-32", "UTF-32"),
    ("latin-1", "Latin-1"),
    ("cp1252", "Latin-1"),
]


@pytest.mark.parametrize(("encoding", "wanted"), ENCODINGS)
def test_an_encoding_is_told(encoding: str, wanted: str) -> None:
    log = read("time;Würze (°F)\n2024-10-13 12:00Z;68\n2024-10-13 12:15Z;68\n", encoding=encoding)
    assert (log.layout.encoding.what, log.columns[0].header) == (wanted, "Würze (°F)")


def test_every_fact_has_a_reason() -> None:
    layout = read(LAYOUTS[0][1]).layout
    assert all(getattr(layout, field).why for field in FIELDS)


def test_the_fingerprint_is_that_of_the_file() -> None:
    raw = ("time,beer\r\n" + TIDY).encode()
    assert read_bytes(raw).sha256 == sha256(raw).hexdigest()


def test_a_stray_quotation_mark_swallows_no_row() -> None:
    rows = [f'2024-10-13 12:{minute}Z,19.5,"half' for minute in range(10, 20)]
    assert read("\n".join(["time,beer,note", *rows])).times_utc_s.size == 10


def test_a_remark_over_two_lines_stays_one_cell() -> None:
    log = read('time,beer,note\n2024-10-13 12:00Z,19.5,"hops\nand bag"\n2024-10-13 12:15Z,19.6,\n')
    assert not [note for note in log.notes if note.level == "warn"]


def test_the_header_may_be_repeated_further_down() -> None:
    log = read("time,beer\n" + TIDY + "time,beer\n2024-10-13T13:00Z,19.3\n")
    assert note_with(log, "repeated the header").level == "info"


def test_a_header_that_names_one_column_too_few_is_moved() -> None:
    log = read("time,beer\n1,2024-10-13T12:00Z,19.5\n2,2024-10-13T12:15Z,19.6\n")
    assert [column.header for column in log.columns] == ["", "beer"]


def test_bytes_left_by_a_power_cut_are_skipped() -> None:
    raw = ("time,beer\n" + TIDY).encode() + b"\x00" * 64 + b"\n2024-10-13T13:00Z,19.3\n"
    assert note_with(read_bytes(raw), "power cut").level == "warn"


def test_each_time_keeps_the_line_it_came_from() -> None:
    assert beer_log([19.0, 19.1, 19.2]).lines.tolist() == [2, 3, 4]


def test_dates_without_a_time_of_day_are_read_as_noon() -> None:
    log = read("date,SG\n2024-10-13,1.050\n2024-10-14,1.040\n2024-10-15,1.031\n")
    assert log.times_utc_s[0] % 86_400 == 43_200


def test_readings_taken_at_midnight_stay_at_midnight() -> None:
    log = read("time,SG\n2024-10-13 00:00,1.050\n2024-10-14 00:00,1.040\n2024-10-15 00:00,1.031\n")
    assert log.times_utc_s[0] % 86_400 == 0


def test_a_column_of_dates_at_midnight_takes_its_time_from_the_next() -> None:
    log = read("d;t;beer\n2024-10-13 00:00:00;12:00;19,5\n2024-10-13 00:00:00;12:15;19,6\n")
    assert log.times_utc_s[1] - log.times_utc_s[0] == 900


def test_the_name_is_the_files_own() -> None:
    assert beer_log([19.0, 19.1]).name == "probe.csv"


def test_the_reader_can_be_called_with_the_path_alone(tmp_path: Path) -> None:
    path = tmp_path / "log.csv"
    path.write_text("time,beer\n" + TIDY)
    assert read_probe_log(path).times_utc_s.size == 3


def test_a_first_reading_above_a_broken_row_is_not_lost() -> None:
    log = read("time,beer\n2024-07-01 12:00Z,19\nreset,why\n2024-07-01 12:15Z,19\n")
    assert log.lines.tolist() == [2, 4]
