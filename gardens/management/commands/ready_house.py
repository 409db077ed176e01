"""Make a data folder ready for real use: settings checked, tables, the first account."""

import getpass
import io
import sys
from collections.abc import Sequence
from typing import Any

from django.conf import settings
from django.core.exceptions import ValidationError
from django.core.management import BaseCommand, CommandError, CommandParser, call_command

from gardens.services import first_account

NO_TERMINAL = (
    "There is no account yet and nobody to ask; start it once in a terminal to make the first one."
)


class Command(BaseCommand):
    """Never loads the demo garden."""

    help = "Used by 'python3 manage.py serve'."
    requires_system_checks: Sequence[str] = []  # they are run below, with those for https

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("--origin", required=True, help="address the server will have")

    def handle(self, *, origin: str, **options: Any) -> None:
        quiet = io.StringIO()  # it says on standard output that it has nothing to say
        call_command("check", deploy=settings.HTTPS, stdout=quiet, stderr=self.stderr)
        call_command("migrate", verbosity=0)
        if first_account.is_needed():
            if not sys.stdin.isatty():
                raise CommandError(NO_TERMINAL)
            self.ask_for_account()
        sys.stderr.write(f"\n  Open {origin} and sign in. Stop with Ctrl-C.\n\n")

    def ask_for_account(self) -> None:
        """Ask until name and password are taken."""
        sys.stderr.write("\n  The first account of this garden server.\n")
        while True:
            sys.stderr.write("  Name: ")
            username = sys.stdin.readline().strip()
            password = getpass.getpass("  Password, 8 characters or more: ")
            if password != getpass.getpass("  The same again: "):
                sys.stderr.write("  The two passwords differ. Nothing was made; try again.\n")
                continue
            try:
                first_account.create(username=username, password=password)
            except ValidationError as error:
                sys.stderr.write("".join(f"  {line}\n" for line in error.messages))
                continue
            return
