"""The calendar as an iCalendar file (RFC 5545): all-day events, the same bytes each time."""

from collections.abc import Iterator

from drylay.counting import counted
from drylay.upkeep.model import Calendar, Item, Visit

#: RFC 5545, 3.1: no content line is longer than so many octets, its line end not counted.
MOST_OCTETS = 75
PRODUCT = "-//drylay//inspection calendar//EN"
#: RFC 5545, 3.3.11: what is escaped in a text. A line feed becomes a backslash and an n.
ESCAPES = str.maketrans({"\\": "\\\\", ";": "\\;", ",": "\\,", "\n": "\\n"})


@counted
def calendar_ics(calendar: Calendar) -> bytes:
    """Return a calendar as an iCalendar file in UTF-8, one event of a whole day for each visit.

    UIDs come of the plan and the visit, DTSTAMP of the hand-over day: a calendar made again
    replaces its former self, and the same one gives the same bytes.

    Source: RFC 5545 sections 3.1 (lines and folding), 3.3.11 (escaping), 3.6.1 (events).
    """
    lines = [
        "BEGIN:VCALENDAR",
        "VERSION:2.0",
        f"PRODID:{PRODUCT}",
        "CALSCALE:GREGORIAN",
    ]
    for visit in calendar.visits:
        lines += _event(calendar, visit)
    lines.append("END:VCALENDAR")
    return b"".join(folded(line) for line in lines)


def _event(calendar: Calendar, visit: Visit) -> list[str]:
    summary = f"{visit.title}: {calendar.title}"
    return [
        "BEGIN:VEVENT",
        f"UID:{calendar.plan_id}-{visit.kind}-{visit.day:%Y%m%d}@drylay.invalid",
        f"DTSTAMP:{calendar.handed_over:%Y%m%d}T000000Z",
        f"DTSTART;VALUE=DATE:{visit.day:%Y%m%d}",
        f"SUMMARY:{escaped(summary)}",
        f"DESCRIPTION:{escaped(chr(10).join(_told(visit)))}",
        "TRANSP:TRANSPARENT",
        "END:VEVENT",
    ]


def _told(visit: Visit) -> Iterator[str]:
    for number, item in enumerate(visit.items, 1):
        yield f"{number}. {item.what} ({', '.join(item.where)}); {item.who}."
        yield from (f"   {text}" for text in figures_told(item))
        if item.if_not:
            yield f"   If not: {item.if_not}; {item.then_by}."
        yield f"   Why: {item.rule} ({item.source.kind}: {item.source.title})."


def figures_told(item: Item) -> tuple[str, ...]:
    """Return what an item's figures are, each in a line: "... goes in: 5 mm at most"."""
    return tuple(
        hold.check + (f": {hold.limit:g} {hold.unit} at most" if hold.limit is not None else "")
        for hold in item.holds
    )


def escaped(text: str) -> str:
    """Return a text as a value of type TEXT; what is no line feed and cannot be printed goes."""
    kept = "".join(sign if sign.isprintable() or sign == "\n" else " " for sign in text)
    return kept.translate(ESCAPES)


def folded(line: str) -> bytes:
    """Return a line in octets, folded: no sign is torn, each further part begins with a space."""
    parts: list[bytes] = [b""]
    for sign in line:
        octets = sign.encode("utf-8", "replace")
        if len(parts[-1]) + len(octets) > MOST_OCTETS - (len(parts) > 1):
            parts.append(b"")
        parts[-1] += octets
    return b"\r\n ".join(parts) + b"\r\n"
