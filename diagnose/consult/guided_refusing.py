"""An entry that can be read and cannot be true: why, and what may have been meant."""

import re

from diagnose.consult.guided_asking import Asking
from diagnose.consult.guided_reading import NotRead
from diagnose.documents.document import dotted
from diagnose.errors import UnusableInput

_SCALE = re.compile(r"(?<=\d)(\s*°?\s*)([CF])\b", re.IGNORECASE)


def cannot_be(asking: Asking, typed: str, refused: UnusableInput) -> NotRead:
    """Why an entry is refused, with the other scale on offer where that would be true.

    Args:
        asking: the question that was put.
        typed: the answer as typed.
        refused: what the record makes of it.
    """
    fault = refused.faults[0]
    where = "" if fault.key == dotted(asking.path) else f" ({fault.key})"
    other = _SCALE.sub(lambda m: m[1] + ("F" if m[2] in "Cc" else "C"), typed)
    meant = [other] if "did you mean" in fault.wanted and other != typed else []
    end = "" if fault.wanted.endswith("?") else "."
    return NotRead(f"{fault.found}{where} cannot be: wanted {fault.wanted}{end}", *meant)
