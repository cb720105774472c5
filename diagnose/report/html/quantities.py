"""Quantities in narrow places."""


def unbroken(quantity: str) -> str:
    """A quantity that breaks before its bracket alone: "10.4 C", then "(51 F)"."""
    return quantity.replace(" ", "\u00a0").replace("\u00a0(", " (")
