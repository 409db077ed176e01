#!/usr/bin/env python3
"""The door of Knotbed: demo, serve, test, setup, bench, lock, audit, and every Django command."""

import sys

if sys.version_info < (3, 11):  # noqa: UP036  (written so that an old Python can read it)
    sys.exit("Knotbed needs Python 3.11 or newer; this one is %d.%d." % sys.version_info[:2])  # noqa: UP031

if __name__ == "__main__":
    from api.bootstrap.door import enter

    code = enter(sys.argv)
    if code is None:
        from django.core.management import execute_from_command_line

        execute_from_command_line(sys.argv)
    sys.exit(code)
