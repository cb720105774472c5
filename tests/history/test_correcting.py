"""An instrument that was off: what is offered, what a correction writes, and taking it back.

Offsets are plain subtraction; 5 F are 25/9 C by definition.
"""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from diagnose.documents import parse_yaml
from diagnose.history.correcting import off_checks
from diagnose.history.correcting_text import Rewritten, corrected, rewritten
from diagnose.history.kinds import InstrumentCheck
from diagnose.history.noting import write_note
from diagnose.units import Field, read_quantity
from tests.cli.running import written
from tests.history.stores import later, record

KEY = "house-pale-2026-05-02"
MASH = "{at: 152 F, ph: 5.40}  # in the tun"
OFF = ("instrument", "mash thermometer", "--reads", "72 F", "--true", "67 F")


@pytest.fixture
def doubtful(history, tmp_path):
    """Three batches, and a thermometer found 5 F high after a good check before the second."""
    for month in (3, 5, 7):
        day = f"2026-0{month}-02"
        text = record(batch=f"beer {month}", brewed=day, mash=MASH)
        history("add", written(tmp_path, text, f"{month}.yaml"))
    good = ("instrument", "mash thermometer", "--reads", "67 F", "--true", "67 F")
    history(*good, "--on", "2026-04-01")
    history(*OFF, "--on", "2026-06-01")
    return history


# (as typed, what the instrument reads too much in the field's unit, as put right)
TYPED = [
    ("152 F", Field.TEMPERATURE, 25 / 9, "147.0 F"),
    ("66.7 C", Field.TEMPERATURE, 2.0, "64.7 C"),
    ("18-20 C", Field.TEMPERATURE, 1.0, "17.0 to 19.0 C"),
    ("64-68 F", Field.TEMPERATURE, 5 / 9, "63.0-67.0 F"),
    ("1.050", Field.GRAVITY, 0.004, "1.046"),
    ("1.048-1.052", Field.GRAVITY, 0.004, "1.044-1.048"),
    ("5.4", Field.PH, 0.2, "5.20"),
]


@pytest.mark.parametrize(("typed", "field", "offset", "right"), TYPED, ids=[t[0] for t in TYPED])
def test_an_entry_is_put_right_in_the_scale_it_was_typed_in(typed, field, offset, right):
    assert corrected(read_quantity(typed, field), offset) == right


@given(st.floats(0, 100), st.floats(-6, 6), st.sampled_from(["C", "F"]))
def test_what_is_written_reads_back_as_the_reading_less_the_offset(figure, offset, scale):
    reading = read_quantity(f"{figure:.1f} {scale}", Field.TEMPERATURE)
    again = read_quantity(corrected(reading, offset), Field.TEMPERATURE)
    assert again.value == pytest.approx(reading.value - offset, abs=0.06)


# (a record, how it reads with pitch.at put right)
TEXTS = [
    ("pitch: {at: 66 F}\n", "pitch: {at: 61.0 F}  # pitch.at read 66 F (why)\n"),
    ("pitch:\n  at: '66 F'\n", "pitch:\n  at: '61.0 F'  # pitch.at read 66 F (why)\n"),
    ("pitch: {at: 66 F}  # warm\n", "pitch: {at: 61.0 F}  # warm  # pitch.at read 66 F (why)\n"),
    (
        "note: größer\npitch: {at: 66 F}",
        "note: größer\npitch: {at: 61.0 F}  # pitch.at read 66 F (why)\n",
    ),
]


@pytest.mark.parametrize(("text", "right"), TEXTS)
def test_the_text_changes_at_its_spot_and_says_what_was_read(text, right):
    entry = Rewritten(("pitch", "at"), "66 F", "61.0 F")
    assert rewritten(text, [entry], "why") == right
    assert parse_yaml(right, "again").data["pitch"]["at"] == "61.0 F"


def test_only_batches_between_the_good_check_and_the_bad_one_are_offered(doubtful):
    answer = doubtful("correct", "mash thermometer", "--json").json
    (batch,) = answer["batches"]
    assert (batch["batch"], answer["applied"]) == ("beer-5-2026-05-02", False)
    assert batch["entries"] == [{"entry": "mash.at", "typed": "152 F", "corrected": "147.0 F"}]


def test_looking_changes_nothing(doubtful):
    before = doubtful("list", "--json").json
    doubtful("correct", "mash thermometer")
    assert doubtful("list", "--json").json == before


# The commands that offer it
@pytest.mark.parametrize("typed", [("list",), ("learn",), ("show", "beer-5")], ids=lambda t: t[0])
def test_a_correction_is_offered_until_it_is_done(doubtful, typed):
    offer = "'faultwort history correct \"mash thermometer\"'"
    assert offer in " ".join(doubtful(*typed).out.split())
    doubtful("correct", "mash thermometer", "--apply")
    assert offer not in " ".join(doubtful(*typed).out.split())


def test_a_correction_is_a_new_version_that_keeps_what_was_typed(doubtful):
    doubtful("correct", "mash thermometer", "--apply")
    shown = doubtful("show", "beer-5", "--json").json
    entries = {one["key"]: one["typed"] for one in shown["entries"]}
    assert (entries["mash.at"], entries["mash.ph"]) == ("147.0 F", "5.40")
    change = {"entry": "mash.at", "was": "152 F", "now": "147.0 F"}
    assert shown["versions"][1]["changed"] == [change]


def test_done_twice_it_is_done_once(doubtful):
    for _ in range(2):
        doubtful("correct", "mash thermometer", "--apply")
    assert len(doubtful("show", "beer-5", "--json").json["versions"]) == 2


def test_undo_takes_it_back_and_it_is_offered_again(doubtful):
    doubtful("correct", "mash thermometer", "--apply")
    doubtful("undo", "beer-5")
    (batch,) = doubtful("correct", "mash thermometer", "--json").json["batches"]
    assert batch["entries"][0]["typed"] == "152 F"


def test_a_thermometer_whose_name_says_nothing_is_asked_what_it_read(history, tmp_path):
    history("add", written(tmp_path, record(mash=MASH), "pale.yaml"))
    history("instrument", "glass one", *OFF[2:], "--on", "2026-06-01")
    done = history("correct", "glass one", "--apply")
    assert (done.code, "--only mash" in done.err) == (2, True)
    (batch,) = history("correct", "glass one", "--only", "mash", "--apply", "--json").json[
        "batches"
    ]
    assert [one["entry"] for one in batch["entries"]] == ["mash.at"]


def test_an_instrument_in_order_is_not_corrected(history):
    history("instrument", "probe", "--reads", "20.2 C", "--true", "20 C")
    done = history("correct", "probe")
    assert (done.code, "which no check found off" in done.err) == (2, True)


# (reads less true in C, whether that is off)
@pytest.mark.parametrize(("offset", "off"), [(0.0, False), (0.5, False), (0.6, True), (-2.8, True)])
def test_an_instrument_is_off_beyond_what_a_home_check_can_show(store, offset, off):
    note = InstrumentCheck(instrument="probe", reads=20 + offset, true=20.0, unit="C")
    write_note(store, note, later(1))
    assert bool(off_checks(store)) is off


# Source of the table: the entries of a record, misspelt.
@pytest.mark.parametrize(
    ("only", "near"), [("masch", "mash"), ("fermentaton", "fermentation"), ("pich.at", "pitch.at")]
)
def test_a_misspelt_part_is_refused_with_the_near_one(doubtful, only, near):
    done = doubtful("correct", "mash thermometer", "--only", only)
    assert (done.code, near in done.err.partition("wanted")[2]) == (2, True)


def test_a_part_may_be_one_of_a_list(doubtful):
    assert doubtful("correct", "mash thermometer", "--only", "mash.rests[2].at").code == 0


def test_many_batches_are_told_in_short(history, tmp_path):
    for month in range(1, 10):
        for day in ("03", "17"):
            on = f"2026-0{month}-{day}"
            text = record(batch=f"beer {on}", brewed=on, mash=MASH)
            history("add", written(tmp_path, text, f"{on}.yaml"))
    history(*OFF, "--on", "2026-12-01")
    lines = history("correct", "mash thermometer").out.splitlines()
    assert len(lines) < 45
    assert "mash.at: 18" in lines
    assert len(history("correct", "mash thermometer", "--json").json["batches"]) == 18
