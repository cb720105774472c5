"""Cases and diagnoses made by hand, with nothing in them but what is scored."""

from collections.abc import Mapping
from pathlib import Path

from diagnose.answers import Diagnosis, FaultGroup, NextStep, RankedCause, Understood
from diagnose.casebook import Case

QUESTION = NextStep(id="course", kind="question", text="?", gain_bits=1.0, minutes=1.0, answers=())


def account(
    truth: tuple[str, ...], verdict: str, *, also: tuple[str, ...] = (), scored: bool = True
) -> Case:
    """A real account with its confirmed answer."""
    exam = {
        **{"truth": truth, "also": also, "verdict": verdict},
        **{"tier": "A", "scored": scored, "source": "made by hand"},
    }
    card = {"id": "made", "title": "t", "story": "s", "teaches": "t", "expect": {}, "exam": exam}
    return Case.model_validate({"card": card, "folder": Path("made")})


def group(chances: Mapping[str, float], here: float = 0.0) -> FaultGroup:
    """A group of words with these suspects, and the share of the beer itself."""
    causes = tuple(RankedCause.model_construct(id=k, responsible=p) for k, p in chances.items())
    return FaultGroup.model_construct(causes=causes, expected_here=here)


def answer(
    *groups: FaultGroup,
    verdict: str = "separated",
    asks: bool = False,
    words: Mapping[str, str] | None = None,
) -> Diagnosis:
    """A diagnosis with these groups; `words` are descriptors and whether reported or absent."""
    heard = (words or {}).items()
    return Diagnosis.model_construct(
        faults=groups,
        verdict=verdict,
        next_=(QUESTION,) if asks else (),
        understood=tuple(Understood.model_construct(descriptor=w, state=s) for w, s in heard),
    )
