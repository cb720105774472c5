"""The entries a guided record asks for about cleaning and kit.

What a choice writes is what a record may hold; a test holds each against the record.
"""

from typing import Final

from diagnose.consult.guided_slots import YES_NO, Slot, at, same

KIT: Final = (
    Slot(
        at("cleaning.cleaner"),
        "What was the kit cleaned with?",
        "word",
        choices=(
            *same("percarbonate", "caustic"),
            ("detergent", "washing-up liquid or other detergent"),
            ("none", "nothing"),
            ("other", "something else"),
        ),
    ),
    Slot(
        at("cleaning.rinsed"),
        "Was the cleaner rinsed off?",
        "word",
        choices=(("yes", "yes"), ("no", "no"), ("no-rinse", "no-rinse kind")),
    ),
    Slot(
        at("cleaning.sanitiser"),
        "What was the kit sanitised with?",
        "word",
        choices=(
            ("acid no-rinse", "no-rinse acid"),
            *same("iodine", "bleach", "peracetic", "heat"),
            ("none", "nothing"),
            ("other", "something else"),
        ),
    ),
    Slot(
        at("equipment.metal"),
        "Did rust, chipped enamel, bare brass or new steel touch wort or beer?",
        "word",
        choices=(("none", "no"), ("suspect", "yes, or perhaps")),
    ),
    Slot(
        at("equipment.shared_with_sour_or_wild"),
        "Has this fermenter, hose or tap ever held sour or wild beer?",
        "word",
        choices=YES_NO,
    ),
)
