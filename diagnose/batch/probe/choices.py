"""What a brewer says of a logger's file that the file itself cannot tell."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from unicodedata import normalize

from diagnose.batch.probe.log import Role
from diagnose.errors import Fault, UnusableInput

# The parts a column can be given, in a brewer's words.
PART_WORDS: dict[str, Role] = {
    "beer": "beer_temperature",
    "air": "air_temperature",
    "set point": "set_point",
    "gravity": "gravity",
    "pressure": "pressure",
    "battery": "battery",
    "nothing": "unknown",
}


@dataclass(frozen=True)
class Choices:
    """Answers about one file; None or empty where nothing is said.

    `zone` is that of its clock, `temperature_unit` C or F, `day_first` how its dates are written;
    `parts` gives a column, by its header or its number from 1, one of `PART_WORDS`.
    """

    zone: str | None = None
    temperature_unit: str | None = None
    day_first: bool | None = None
    parts: Mapping[str, str] = field(default_factory=dict)

    def __bool__(self) -> bool:
        return self != Choices()

    def before(self, others: "Choices") -> "Choices":
        """These answers, and others where these say nothing."""
        return Choices(
            zone=others.zone if self.zone is None else self.zone,
            temperature_unit=self.temperature_unit or others.temperature_unit,
            day_first=others.day_first if self.day_first is None else self.day_first,
            parts={**others.parts, **self.parts},
        )

    def in_words(self) -> str:
        """The answers as a brewer would give them."""
        dates = {None: "", True: "day first", False: "month first"}[self.day_first]
        said = [self.temperature_unit or "", dates, self.zone or ""]
        said += [f"{column} is {part}" for column, part in self.parts.items()]
        return ", ".join(one for one in said if one)


def parts_from(said: Sequence[str]) -> dict[str, str]:
    """Parts of columns from such words as "temp 2=beer".

    Raises:
        UnusableInput: no equals sign, or a part that nobody knows.
    """
    parts: dict[str, str] = {}
    for one in said:
        column, equals, part = one.rpartition("=")
        words = " ".join(part.lower().replace("_", " ").split())
        if not equals or not column.strip() or words not in PART_WORDS:
            wanted = f"COLUMN=PART, a part being one of {', '.join(PART_WORDS)}"
            raise UnusableInput(Fault("--column", 0, "", repr(one), wanted))
        parts[column.strip()] = words
    return parts


def plain_name(header: str) -> str:
    """A header without differences of case, spacing and form."""
    return " ".join(normalize("NFKC", header).casefold().split())
