"""What `diagnose` is told to suppose; nothing is imported for it where it is told nothing."""

from collections.abc import Iterable
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from diagnose.answers import Diagnosis
    from diagnose.consult import Consultation
    from diagnose.knowledge import RuleBase


def with_supposed(
    rules: "RuleBase",
    consultation: "Consultation",
    diagnosis: "Diagnosis",
    typed: tuple[Iterable[str], Iterable[str], Iterable[str]],
) -> "Diagnosis":
    """The diagnosis with the ranking as supposed beside it; as it is where nothing is supposed.

    Args:
        rules: the rule base.
        consultation: the batch as recorded.
        diagnosis: what came of it.
        typed: what is supposed, what is left out, and the words typed with the record.

    Raises:
        UnusableInput: something typed is not understood, or no record may hold it.
    """
    suppose, without, taste = (tuple(one) for one in typed)
    if not suppose and not without:
        return diagnosis
    from diagnose.cli.loading import today
    from diagnose.consult import Supposition, with_what_if

    what = Supposition(suppose, without, taste, today())
    return with_what_if(rules, consultation, diagnosis, what)
