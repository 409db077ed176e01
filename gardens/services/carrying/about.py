"""What a person reads who opens a garden's file and has never seen one."""

ABOUT = """\
{name}: a garden kept with Knotbed

This file holds one whole garden as it stood at change {head}.

  garden.json     every record: beds, plantings, root checks, ratings, samples, conflicts
  journal.jsonl   every change ever made, in order, one on each line
  blobs/          the photos
  papers/         PDFs: reports and forms of laboratories
  tables/         the same records as tables (CSV) that any spreadsheet opens

To bring it to a server, sign in there, open "Take the garden with you" on the screen of the
phone, and choose this file under "Bring a garden here". Nothing is brought before you have seen
what would be, and bringing it twice changes nothing.

In the tables, text that a spreadsheet might run as a formula begins with an apostrophe ('). The
tables are for reading: they are not read when the garden is brought back. Moments are UTC.
A grade belongs to the scale beside it (gall_scale).

The file also holds what was deleted and older values, and the grower's name and address if they
were entered. The numbers of phones are replaced by others. It holds no passwords.
"""


def about(*, name: str, head: str) -> bytes:
    """Return the text of the file's README."""
    return ABOUT.format(name=name or "A garden", head=head).replace("\n", "\r\n").encode()
