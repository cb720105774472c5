"""Time zones by their names."""

from zoneinfo import ZoneInfo, ZoneInfoNotFoundError


def zone_called(name: str) -> ZoneInfo | None:
    """The zone of the IANA list with this name; None where there is none."""
    try:
        return ZoneInfo(name)
    except (ZoneInfoNotFoundError, ValueError, OSError):
        return None
