"""The shipped rule base and the names of the shipped cases, read once for every test."""

from datetime import date
from functools import cache
from pathlib import Path

from diagnose.knowledge import RuleBase, load_rules
from diagnose.shipped import shipped

RULES = shipped("rules")
CASES = shipped("cases")
# Every case plays before this day, so that no entry is refused as one of the future.
TODAY = date(2026, 11, 24)


@cache
def rule_base() -> RuleBase:
    return load_rules(RULES)


@cache
def case_folders() -> tuple[Path, ...]:
    """The worked cases; the accounts in cases/field are the exam and play no part as lessons."""
    return tuple(sorted(path for path in CASES.iterdir() if (path / "case.yaml").is_file()))


def case_ids() -> list[str]:
    return [folder.name for folder in case_folders()]
