"""A guided entry from question to question, with the terminal and the disk passed in."""

from collections.abc import Callable
from typing import Protocol

from diagnose.answers.caution import CautionLine
from diagnose.answers.guided import Asked, SittingAnswer, Suspect
from diagnose.batch.entries import UNKNOWN
from diagnose.consult.diagnosing import diagnose
from diagnose.consult.guided import Sitting, answered
from diagnose.consult.guided_asking import Asking
from diagnose.consult.guided_reading import cleaned
from diagnose.consult.guided_standing import has_moved
from diagnose.consult.guided_text import leaves_of
from diagnose.consult.guided_why import why

STOP = ("stop", "quit", "exit", "q")
HELP = ("help", "why", "h")
# Before so many first facts are in, a ranking says more of home brewing than of this beer.
SHOW_AFTER = 4


class Talk(Protocol):
    """Where questions go to and answers come from."""

    def ask(self, asked: Asked) -> None:
        """Put a question."""

    def say(self, sentence: str) -> None:
        """Say a sentence about the last answer."""

    def offer(self, offers: tuple[str, ...]) -> None:
        """Show the texts that the last answer may have meant."""

    def warn(self, caution: CautionLine) -> None:
        """Say what is dangerous, before anything else."""

    def rank(self, suspects: tuple[Suspect, ...]) -> None:
        """Show the first suspects."""

    def hear(self) -> str | None:
        """The next line typed; None where no more will come."""


Keep = Callable[[str, str], None]


def hold(sitting: Sitting, talk: Talk, keep: Keep) -> Sitting:
    """Ask until nothing is worth asking or the brewer stops; every answer is kept at once.

    Args:
        sitting: the record to begin with.
        talk: the terminal.
        keep: puts (the text there before, the text after) on the disk.

    Returns:
        The sitting after the last answer.
    """
    shown: tuple[Suspect, ...] = ()
    warned: tuple[CautionLine, ...] = ()
    while (asking := sitting.question) is not None:
        for caution in (one for one in sitting.dangers if one not in warned):
            talk.warn(caution)
        warned = (*warned, *sitting.dangers)
        if _is_to_be_shown(sitting, asking) and has_moved(shown, sitting.standing.suspects):
            shown = sitting.standing.suspects
            talk.rank(shown)
        talk.ask(asking.shown())
        after = _settle(sitting, asking, (talk, keep))
        if after is None:
            return sitting
        sitting = after
    talk.say("Nothing that can be answered here is worth asking any more.")
    return sitting


def _is_to_be_shown(sitting: Sitting, asking: Asking) -> bool:
    return bool(sitting.standing.suspects) and (
        asking.gain is not None or len(sitting.past) >= SHOW_AFTER
    )


def _settle(sitting: Sitting, asking: Asking, world: tuple[Talk, Keep]) -> Sitting | None:
    """The sitting after the question is answered; None where the brewer stops."""
    talk, keep = world
    while True:
        typed = talk.hear()
        line = None if typed is None else cleaned(typed)
        if line is None or line.casefold() in STOP:
            return None
        if line.casefold() in HELP:
            for sentence in why(sitting, asking):
                talk.say(sentence)
            continue
        step = answered(sitting, asking, line)
        if step.sitting.text != sitting.text:
            keep(sitting.text, step.sitting.text)
        for sentence in step.said:
            talk.say(sentence)
        if step.sitting.offers:
            talk.offer(step.sitting.offers)
        sitting = step.sitting
        if step.settled:
            return sitting


def summed_up(sitting: Sitting) -> SittingAnswer:
    """What a record comes to at the end of a sitting."""
    diagnosis = diagnose(sitting.rules, sitting.standing.consultation)
    leaves = list(leaves_of(sitting.document.data))
    unknown = sum(leaf.strip().casefold() in UNKNOWN for leaf in leaves)
    return SittingAnswer(
        record=str(sitting.path),
        answered=len(leaves) - unknown,
        not_known=unknown,
        suspects=sitting.standing.suspects,
        verdict=diagnosis.verdict,
        verdict_text=diagnosis.verdict_text,
        cautions=diagnosis.cautions,
        next_=diagnosis.next_,
    )
