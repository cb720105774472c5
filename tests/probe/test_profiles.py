"""Answers kept for a layout of columns: used for the next file that has it, and for no other."""

from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from diagnose.batch.probe.choices import PART_WORDS, Choices, parts_from
from diagnose.batch.probe.profile_file import (
    forget_profile,
    keep_profile,
    profile_place,
    read_profiles,
)
from diagnose.batch.probe.profile_text import profiles_in, text_of
from diagnose.batch.probe.profiles import Profile, Profiles, profile_for
from diagnose.batch.probe.reading import Reading, read_with
from diagnose.errors import StoreUnusable, UnusableInput
from tests.probe.written import NOW, texts

# Nobody can tell whether this is a cold store in C or a hot one in F, nor which is the beer.
ROWS = "2024-07-01 12:00,34,40\n2024-07-01 12:15,36,41\n2024-07-01 12:30,38,42\n"
OPEN = "time,temp 1,temp 2\n" + ROWS
ANSWERS = Choices("Europe/Berlin", "F", None, {"temp 2": "beer"})
NOON_IN_BERLIN_S = 1_719_828_000.0  # 2024-07-01 10:00 UTC


def read(folder: Path, text: str, choices: Choices, profiles: Profiles | None = None) -> Reading:
    path = folder / "probe.csv"
    path.write_text(text, "utf-8")
    return read_with(path, choices, profiles, now=NOW)


@pytest.fixture
def garage(tmp_path: Path) -> Profile:
    """The profile that the answers make for the open file."""
    return profile_for(read(tmp_path, OPEN, ANSWERS).layout, ANSWERS)


def test_the_next_file_with_the_same_columns_is_read_with_the_saved_answers(
    tmp_path: Path, garage: Profile
) -> None:
    log = read(tmp_path, OPEN, Choices(), Profiles({"garage": garage})).log
    first_c = log.series["beer_temperature"].values[0]
    assert (log.profile, round(float(first_c), 3)) == ("garage", 4.444)
    assert log.times_utc_s[0] == NOON_IN_BERLIN_S


def test_a_file_says_which_profile_it_was_read_with(tmp_path: Path, garage: Profile) -> None:
    log = read(tmp_path, OPEN, Choices(), Profiles({"garage": garage})).log
    assert "saved profile 'garage': F, Europe/Berlin, temp 2 is beer" in texts(log, "info")


def test_what_is_said_now_goes_before_what_was_saved(tmp_path: Path, garage: Profile) -> None:
    said = Choices(temperature_unit="C")
    log = read(tmp_path, OPEN, said, Profiles({"garage": garage})).log
    assert log.series["beer_temperature"].values[0] == 40.0
    assert log.times_utc_s[0] == NOON_IN_BERLIN_S


# Judgement: what makes a header another, and what does not.
SAME = [
    "TIME,Temp 1,TEMP  2\n",
    "\ufeff time , temp 1 ,temp 2\n",
    "Garage log\ntime,temp 1,temp 2\n",
]
OTHER = ["time,temp 2,temp 1\n", "time,temp 1,temp 3\n", "when,temp 1,temp 2\n"]


@pytest.mark.parametrize(
    ("header", "used"), [(h, "garage") for h in SAME] + [(h, "") for h in OTHER]
)
def test_a_profile_is_for_one_layout_whatever_case_and_spacing(
    tmp_path: Path, garage: Profile, header: str, used: str
) -> None:
    said = Choices(temperature_unit="F")
    log = read(tmp_path, header + ROWS, said, Profiles({"garage": garage})).log
    assert log.profile == used


def test_columns_parted_by_another_sign_are_another_layout(tmp_path: Path, garage: Profile) -> None:
    said = Choices(temperature_unit="F")
    text = OPEN.replace(",", ";")
    assert read(tmp_path, text, said, Profiles({"garage": garage})).log.profile == ""


def test_of_several_fitting_profiles_none_is_used_and_it_is_asked(
    tmp_path: Path, garage: Profile
) -> None:
    said = Choices(temperature_unit="F")
    log = read(tmp_path, OPEN, said, Profiles({"garage": garage, "shed": garage})).log
    assert (log.profile, "(garage, shed)" in texts(log, "ask")) == ("", True)


def test_a_profile_asked_for_by_name_is_used_among_several(tmp_path: Path, garage: Profile) -> None:
    both = Profiles({"garage": garage, "shed": garage}, named="shed")
    assert read(tmp_path, OPEN, Choices(), both).log.profile == "shed"


@pytest.mark.parametrize(
    ("named", "said"),
    [
        ("shed", "found no saved profile 'shed'; wanted one of garage"),
        ("garage", r"found columns 'time', 'beer'.*'garage' is for: 'time', 'temp 1', 'temp 2'"),
    ],
)
def test_a_profile_asked_for_that_does_not_fit_is_refused(
    tmp_path: Path, garage: Profile, named: str, said: str
) -> None:
    with pytest.raises(UnusableInput, match=said):
        read(
            tmp_path,
            "time,beer\n2024-07-01 12:00,19\n",
            Choices(),
            Profiles({"garage": garage}, named=named),
        )


@pytest.mark.parametrize("said", ["temp 2=beer", "TEMP 2 = Beer", "3=beer"])
def test_a_column_is_told_its_part_by_name_or_number(tmp_path: Path, said: str) -> None:
    choices = Choices(temperature_unit="C", parts=parts_from([said]))
    log = read(tmp_path, OPEN, choices).log
    assert log.series["beer_temperature"].values.tolist() == [40.0, 41.0, 42.0]


def test_a_column_told_to_be_nothing_is_left_aside(tmp_path: Path) -> None:
    choices = Choices(temperature_unit="C", parts=parts_from(["temp 1=nothing"]))
    log = read(tmp_path, OPEN, choices).log
    assert [column.role for column in log.columns] == ["unknown", "beer_temperature"]


def test_an_answer_about_no_column_is_refused(tmp_path: Path) -> None:
    with pytest.raises(UnusableInput, match=r":2: column: found 'temp 9'; wanted .*2 'temp 1'"):
        read(tmp_path, OPEN, Choices(parts={"temp 9": "beer"}))


@pytest.mark.parametrize("said", ["temp 2", "=beer", "temp 2=wort kettle"])
def test_a_part_that_is_none_is_refused(said: str) -> None:
    with pytest.raises(UnusableInput, match="wanted COLUMN=PART"):
        parts_from([said])


# Law: a profile comes back from its file as it went in, whatever the columns are called.
columns = st.lists(st.text(st.characters(codec="utf-8", exclude_categories=["C"])), max_size=4)
profiles_of = st.builds(
    Profile,
    columns=columns.map(tuple),
    delimiter=st.sampled_from(["comma", "semicolon", "tab", "pipe"]),
    unit=st.sampled_from([None, "C", "F"]),
    dates=st.sampled_from([None, "day first", "month first"]),
    zone=st.sampled_from([None, "Europe/Berlin", "+02:00", "-05:00", "UTC"]),
    parts=st.dictionaries(
        st.sampled_from(["temp 2", "no", "3", "12:30"]), st.sampled_from([*PART_WORDS])
    ),
)


@settings(max_examples=100, deadline=None, derandomize=True)
@given(st.dictionaries(st.sampled_from(["garage", "no", "1.0", "12:30"]), profiles_of))
def test_profiles_come_back_as_they_were_saved(saved: dict[str, Profile]) -> None:
    assert profiles_in(text_of(saved), "profiles") == saved


def test_a_profile_is_kept_and_read_back(tmp_path: Path, garage: Profile) -> None:
    place = tmp_path / "new" / "profiles.yaml"
    assert keep_profile(place, "garage", garage) is False
    assert read_profiles(place) == {"garage": garage}


def test_keeping_under_a_name_again_replaces_and_says_so(tmp_path: Path, garage: Profile) -> None:
    place = tmp_path / "profiles.yaml"
    keep_profile(place, "garage", garage)
    later = garage.model_copy(update={"unit": "C"})
    assert keep_profile(place, "garage", later) is True
    assert read_profiles(place)["garage"].unit == "C"


def test_a_forgotten_profile_is_gone_and_the_others_stay(tmp_path: Path, garage: Profile) -> None:
    place = tmp_path / "profiles.yaml"
    keep_profile(place, "garage", garage)
    keep_profile(place, "shed", garage)
    forget_profile(place, "garage")
    assert list(read_profiles(place)) == ["shed"]


def test_nothing_is_left_beside_the_file(tmp_path: Path, garage: Profile) -> None:
    keep_profile(tmp_path / "profiles.yaml", "garage", garage)
    assert sorted(path.name for path in tmp_path.iterdir()) == ["probe.csv", "profiles.yaml"]


@pytest.mark.parametrize("name", ["", " garage", "a/b", "x" * 41, "gar\nage"])
def test_a_name_that_is_none_is_refused(tmp_path: Path, garage: Profile, name: str) -> None:
    with pytest.raises(UnusableInput, match="--save-profile: found"):
        keep_profile(tmp_path / "profiles.yaml", name, garage)


DAMAGED = [
    b"profiles: {garage: {columns: [a], delimiter: dash}}\n",
    b"profiles:\n - a\n",
    b"\xff",
    b"{",
]


@pytest.mark.parametrize("raw", DAMAGED)
def test_a_damaged_file_is_said_and_never_written_over(
    tmp_path: Path, garage: Profile, raw: bytes
) -> None:
    place = tmp_path / "profiles.yaml"
    place.write_bytes(raw)
    with pytest.raises(StoreUnusable, match="mend the file with saved profiles"):
        keep_profile(place, "garage", garage)
    assert place.read_bytes() == raw


# Source: XDG Base Directory Specification 0.8; the other systems' usual folders, from memory.
PLACES = [
    ({"XDG_CONFIG_HOME": "/c", "HOME": "/h"}, "linux", "/c/faultwort/probe_profiles.yaml"),
    ({"XDG_CONFIG_HOME": "c", "HOME": "/h"}, "linux", "/h/.config/faultwort/probe_profiles.yaml"),
    (
        {"HOME": "/h"},
        "darwin",
        "/h/Library/Application Support/faultwort/probe_profiles.yaml",
    ),
    ({"FAULTWORT_PROFILES": "/p.yaml", "HOME": "/h"}, "linux", "/p.yaml"),
    ({"FAULTWORT_PROFILES": "", "HOME": "/h"}, "linux", "None"),
    ({}, "linux", "None"),
]


@pytest.mark.parametrize(("environ", "platform", "place"), PLACES)
def test_profiles_are_kept_in_the_users_own_folder(
    environ: dict[str, str], platform: str, place: str
) -> None:
    assert str(profile_place(environ, platform)) == place


def test_answers_complete_one_another() -> None:
    first = Choices(zone="UTC", parts={"a": "beer"})
    others = replace(ANSWERS, parts={"a": "air", "b": "air"})
    assert first.before(others) == Choices("UTC", "F", None, {"a": "beer", "b": "air"})
