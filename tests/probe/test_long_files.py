"""A long file is read in bulk, to the very same numbers and notes as line by line."""

from datetime import UTC, datetime, timedelta
from pathlib import Path
from tempfile import TemporaryDirectory

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from diagnose.batch.probe import abreast, numbers, packed, ticks
from diagnose.batch.probe.bytewise import plain_numbers, view
from diagnose.batch.probe.clock import read_clock
from diagnose.batch.probe.figures import sort_columns
from diagnose.batch.probe.packed import PackedRows
from diagnose.batch.probe.raw import RawLog, read_raw
from diagnose.batch.probe.stamps import read_stamp
from diagnose.batch.probe.table import Table, lay_out
from diagnose.batch.probe.ticks import read_ticks, shape_of
from diagnose.errors import UnusableInput
from tests.probe.written import START

ROWS = 1200
# Common practice, no source: ways of writing a moment, from the plainest to the oddest.
DATES = [
    "%Y-%m-%dT%H:%M:%SZ",
    "%Y-%m-%d %H:%M:%S",
    "%Y-%m-%d %H:%M:%S.250+02:00",
    "%d.%m.%Y %H:%M",
    "%m/%d/%Y %I:%M:%S %p",
    "%d %b %Y %H:%M",
    "%s",
    "%s000",
]
# What may stand in place of a row or of a cell: the first as it is, the second for the reading.
ODD_ROWS = [
    "",
    "time{0}beer{0}note",
    "reset",
    '2024-10-13 12:00{0}"19.5"{0}"half',
    '2024-10-13 12:00{0}19.5{0}"hops\nand bag"',
    "2024-02-30 12:00{0}19.5{0}",
    "2024-10-13 24:00{0}19.5{0}",
    "2024-10-13 12:00{0}19.5",
    "2024-10-13 12:00{0}19.5{0}{0}{0}7",
    "2024-10-13 12:61{0}19.5{0}",
    '"',
]
ODD_CELLS = ["", "nan", "-127", " 19.5 ", "19.5 C", "1e1", "1,5", ".5", "-.5", "19.", "--", "warm"]
ODD_CELLS += [
    "+3",
    "-0.0",
    "1.052",
    "12345678.25",
    "123456789012345",
    "0.1234567891",
    "19.55",
    "1.2.3",
]


def raw_of(text: str) -> RawLog:
    with TemporaryDirectory() as folder:
        path = Path(folder) / "probe.csv"
        path.write_bytes(text.encode())
        return read_raw(path)


def written(
    dates: str,
    sign: str,
    odd_rows: dict[int, str],
    odd_cells: dict[int, str],
    *,
    time_last: bool = False,
) -> str:
    turn = -1 if time_last else 1
    lines = [sign.join(("time", "beer", "note")[::turn])]
    for row in range(ROWS):
        when = START + timedelta(minutes=7 * row)
        said = dates.replace("%s", f"{when.timestamp():.0f}")
        cells = [when.strftime(said), odd_cells.get(row, f"{18 + row % 37 / 10:.1f}"), ""]
        lines.append(odd_rows[row].format(sign) if row in odd_rows else sign.join(cells[::turn]))
    return "\n".join(lines)


def said_by(table: Table) -> tuple[object, ...]:
    """Everything that is made of a table's rows, to be compared."""
    clock, columns = read_clock(table, zone="Europe/Berlin", day_first=True), sort_columns(table)
    values = [np.nan_to_num(one.values, nan=-999.5).tolist() for one in columns.figures]
    names = [(one.at, one.unit) for one in columns.figures]
    words = [(one.at, one.texts) for one in columns.words]
    notes = (*table.notes, *clock.notes, *columns.notes)
    head = (table.header, table.delimiter, table.width, table.lines.tolist(), clock.order.tolist())
    times = (clock.utc_s.tolist(), clock.date_order, clock.repeated_hour.tolist())
    return (*head, *times, columns.decimal_sign, values, names, words, notes)


def read_or_refused(raw: RawLog, *, line_by_line: bool) -> tuple[object, ...] | str:
    try:
        return said_by(lay_out(raw, line_by_line=line_by_line))
    except UnusableInput as refusal:
        return str(refusal)


places = st.integers(0, ROWS - 1)


# Law: reading in bulk changes nothing.
@settings(max_examples=60, deadline=None, derandomize=True)
@given(
    st.sampled_from(DATES),
    st.sampled_from([",", ";", "\t"]),
    st.dictionaries(places, st.sampled_from(ODD_ROWS), max_size=6),
    st.dictionaries(places, st.sampled_from(ODD_CELLS), max_size=30),
    st.booleans(),
    st.sampled_from(["", "\n", "\n\n"]),
)
def test_a_long_file_is_read_as_if_line_by_line(
    dates: str,
    sign: str,
    odd_rows: dict[int, str],
    odd_cells: dict[int, str],
    time_last: bool,
    end: str,
) -> None:
    text = written(dates, sign, odd_rows, odd_cells, time_last=time_last)
    raw = raw_of(text + end)
    assert read_or_refused(raw, line_by_line=False) == read_or_refused(raw, line_by_line=True)


@pytest.mark.parametrize("dates", DATES)
def test_a_long_file_is_read_in_bulk(dates: str) -> None:
    table = lay_out(raw_of(written(dates, ",", {700: "reset"}, {})))
    assert isinstance(table.rows, PackedRows)
    assert len(table.rows.odd) < 20


# Common practice, no source: a date and a time of day in neighbouring columns.
APART = ["%Y-%m-%d %H:%M:%S", "%d.%m.%Y %H:%M", "%m/%d/%Y %I:%M:%S %p"]
ODD_CLOCKS = ["", "24:00", "noon", "12:61", " 12:00", "12:00Z", "1:05 pm", "12:00:00.5"]


def apart(dates: str, sign: str, odd_clocks: dict[int, str], odd_cells: dict[int, str]) -> str:
    """The same, the date and the time of day in two columns."""
    lines = [sign.join(("date", "clock", "beer"))]
    for row in range(ROWS):
        day, clock = (START + timedelta(minutes=7 * row)).strftime(dates).split(" ", 1)
        reading = odd_cells.get(row, f"{18 + row % 37 / 10:.1f}")
        lines.append(sign.join((day, odd_clocks.get(row, clock), reading)))
    return "\n".join(lines)


# Law: nor is anything changed where the date and the time of day stand apart.
@settings(max_examples=60, deadline=None, derandomize=True)
@given(
    st.sampled_from(APART),
    st.sampled_from([",", ";", "\t", "|"]),
    st.dictionaries(places, st.sampled_from(ODD_CLOCKS), max_size=6),
    st.dictionaries(places, st.sampled_from(ODD_CELLS), max_size=6),
)
def test_dates_and_times_apart_are_read_as_if_line_by_line(
    dates: str, sign: str, odd_clocks: dict[int, str], odd_cells: dict[int, str]
) -> None:
    raw = raw_of(apart(dates, sign, odd_clocks, odd_cells))
    assert read_or_refused(raw, line_by_line=False) == read_or_refused(raw, line_by_line=True)


@pytest.mark.parametrize("dates", APART)
def test_dates_and_times_apart_are_read_in_bulk(dates: str) -> None:
    assert isinstance(lay_out(raw_of(apart(dates, ";", {}, {}))).rows, PackedRows)


# Law: neither do several processors, nor where the text is cut among them.
@settings(max_examples=30, deadline=None, derandomize=True)
@given(st.integers(1, 4), st.integers(200, 3000), st.integers(16, 400))
def test_the_number_of_processors_changes_nothing(
    processors: int, block_bytes: int, block_rows: int
) -> None:
    raw = raw_of(written(DATES[0], ",", {700: "reset", 300: ""}, {40: "-127", 900: "19.55"}))
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(abreast, "processors", lambda: processors)
        patch.setattr(abreast, "FEW_ROWS", 1)
        patch.setattr(packed, "BLOCK_BYTES", block_bytes)
        patch.setattr(ticks, "BLOCK_ROWS", block_rows)
        patch.setattr(numbers, "BLOCK_ROWS", block_rows)
        found = read_or_refused(raw, line_by_line=False)
    assert found == read_or_refused(raw, line_by_line=True)


@pytest.mark.parametrize("end", ["", "\n", "\n\n", "\n \n", "\r\n"])
def test_the_end_of_the_file_changes_no_row(end: str) -> None:
    table = lay_out(raw_of(written(DATES[0], ",", {}, {}) + end))
    assert table.lines.tolist() == list(range(2, ROWS + 2))


def in_text(cells: list[str]) -> tuple[bytes, np.ndarray, np.ndarray]:
    """Cells in the middle of a text, with the places where they begin and end."""
    front = "x" * 40
    text = front + "\n".join(cells) + front
    ends = np.cumsum([len(cell) + 1 for cell in cells]) - 1 + len(front)
    return text.encode(), ends - np.array([len(cell) for cell in cells]), ends


# Law: `float` is what a plain number is worth, to the last bit and the sign of a zero.
number_texts = st.from_regex(r"\A[+-]?[0-9]{0,9}(\.[0-9]{0,9})?[ e.,x-]?\Z")


@settings(max_examples=200, deadline=None, derandomize=True)
@given(st.lists(number_texts.filter(lambda text: "\n" not in text), min_size=1, max_size=40))
def test_a_plain_number_is_what_float_makes_of_it(cells: list[str]) -> None:
    text, starts, ends = in_text(cells)
    read = plain_numbers(view(text), starts, ends, mark=".")
    for cell, value, decimals in zip(cells, read.values.tolist(), read.decimals, strict=True):
        assert decimals == -2 or str(float(cell)) == str(value)


@pytest.mark.parametrize(
    "cell", ["19.5", "-127", "0", "-0.25", "1052", "3.90625", "66.4250030517578"]
)
def test_a_plain_number_is_known_as_one(cell: str) -> None:
    text, starts, ends = in_text([cell])
    assert plain_numbers(view(text), starts, ends, mark=".").values.tolist() == [float(cell)]


# Law: every time that is read in bulk is read as by itself.
times = st.tuples(
    st.datetimes(datetime(2000, 1, 1), datetime(2098, 12, 31)), st.sampled_from(DATES)
).map(
    lambda pair: (
        pair[0].replace(tzinfo=UTC).strftime(pair[1].replace("%s", str(int(pair[0].timestamp()))))
    )
)
broken = st.builds(
    lambda text, at, sign: text[: at % len(text)] + sign + text[at % len(text) + 1 :],
    times,
    st.integers(0, 30),
    st.sampled_from("0179:.- /Zx"),
)


@settings(max_examples=150, deadline=None, derandomize=True)
@given(st.lists(st.one_of(times, times, broken), min_size=1, max_size=30))
def test_a_time_read_in_bulk_is_the_one_read_by_itself(cells: list[str]) -> None:
    text, starts, ends = in_text(cells)
    stamps, read = read_ticks(view(text), starts.astype(np.int32), ends.astype(np.int32))
    for row in np.flatnonzero(read):
        alone, day = read_stamp(cells[row].strip()), stamps.which[row]
        assert alone is not None
        assert (alone.year, alone.month, alone.day) == (
            stamps.years[day],
            stamps.months[day],
            stamps.days[day],
        )
        assert alone.seconds == stamps.seconds[row]
        assert str(alone.offset_s) == str(float(stamps.offsets_s[day]))


@pytest.mark.parametrize("cell", ["9/1/2024 1:05 PM", "2024-10-13T12:00:00.123Z", "1.9.2024 7:05"])
def test_a_time_in_figures_has_a_shape(cell: str) -> None:
    assert shape_of(cell) is not None
