"""Make a data folder ready for real use: settings checked, tables, the first account."""

import getpass
import io
import sys
from collections.abc import Callable, Sequence
from functools import partial
from typing import Any

from django.conf import settings
from django.core.exceptions import ValidationError
from django.core.management import BaseCommand, CommandError, CommandParser, call_command

from gardens.management.photo_place import check_photo_store
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
        check_photo_store(self.stderr)
        if first_account.is_needed():
            if not sys.stdin.isatty():
                raise CommandError(NO_TERMINAL)
            self.ask_for_account()
        sys.stderr.write(f"\n  Open {origin} and sign in. Stop with Ctrl-C.\n\n")

    def ask_for_account(self) -> None:
        """Ask for each answer until it is taken, then make the account."""
        sys.stderr.write("\n  The first account of this garden server.\n")
        try:
            username = ask(read_name, first_account.check_name)
            password = ask(read_password, partial(first_account.check_password, username))
            while getpass.getpass("  The same again: ") != password:
                sys.stderr.write("  The two passwords differ. Nothing was made; try again.\n")
                password = ask(read_password, partial(first_account.check_password, username))
        except EOFError:
            raise CommandError("The answers ended before there was an account.") from None
        first_account.create(username=username, password=password)


def ask(read: Callable[[], str], check: Callable[[str], None]) -> str:
    """Read an answer, say at once what is wrong with it, and read it again until nothing is."""
    while True:
        answer = read()
        try:
            check(answer)
        except ValidationError as error:
            sys.stderr.write("".join(f"  {line}\n" for line in error.messages))
        else:
            return answer


def read_name() -> str:
    """Read a line without its end."""
    sys.stderr.write("  Name: ")
    sys.stderr.flush()
    line = sys.stdin.readline()
    if not line:
        raise EOFError
    return line.strip()


def read_password() -> str:
    """Read a line that the terminal does not show."""
    return getpass.getpass("  Password, 8 characters or more: ")
