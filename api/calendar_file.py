"""Things due as an iCalendar file (RFC 5545), for calendar programs to read.

Not for reading calendars: nothing comes back this way.
"""

from collections.abc import Iterable
from datetime import UTC, date, datetime, time, timedelta

from icalendar import Calendar
from icalendar import Event as CalendarEvent

from gardens.selectors.calendars import Event

CONTENT_TYPE = "text/calendar; charset=utf-8"


def calendar_file(events: Iterable[Event], *, name: str, origin: str, today: date) -> bytes:
    """Return the file: all-day events, the same bytes all day for the same things due.

    ``origin`` is the address of this server; each event links to its bed there.
    """
    calendar = Calendar()
    calendar.add("prodid", "-//Knotbed//Due//EN")
    calendar.add("version", "2.0")
    calendar.add("method", "PUBLISH")
    calendar.add("name", name)
    # Programs older than RFC 7986 read the name and how often to ask under these.
    calendar.add("x-wr-calname", name)
    calendar.add("x-published-ttl", "PT6H")
    stamp = datetime.combine(today, time(), UTC)
    for event in events:
        calendar.add_component(_event(event, origin, stamp))
    content: bytes = calendar.to_ical()
    return content


def _event(event: Event, origin: str, stamp: datetime) -> CalendarEvent:
    made = CalendarEvent()
    made.add("uid", f"{event.uid}@knotbed")
    made.add("dtstamp", stamp)
    made.add("dtstart", event.on)
    # The end of an all-day event is the first day after it.
    made.add("dtend", event.until + timedelta(days=1))
    made.add("summary", event.words)
    made.add("location", event.garden)
    made.add("transp", "TRANSPARENT")
    if event.bed is not None:
        made.add("url", f"{origin}/beds/{event.bed}")
    return made
