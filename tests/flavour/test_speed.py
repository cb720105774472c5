"""Reading is quick enough for a screen that answers while someone types."""

from time import perf_counter

from tests.flavour.shipped import read

SENTENCE = (
    "a hint of something buttrey on the burp, no corn or cabbage, papery after 3 weeks in the keg"
)
SECONDS = 0.015


def test_a_sentence_is_read_within_a_blink() -> None:
    def once() -> float:
        start = perf_counter()
        read(SENTENCE)
        return perf_counter() - start

    assert min(once() for _ in range(5)) < SECONDS


def test_a_very_long_text_takes_no_more_than_its_length_deserves() -> None:
    start = perf_counter()
    read("no butter, corn and wibble or maybe smoke, " * 300)
    assert perf_counter() - start < 100 * SECONDS
