"""Print the link that pairs a phone with an account: ``pairing_link --origin URL``."""

from typing import Any

from django.core.management.base import BaseCommand, CommandError, CommandParser

from gardens.selectors.names import people
from gardens.services.pairing import mint_token


class Command(BaseCommand):
    help = "Print a link that signs one more phone in. It works once, for 15 minutes."

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("--origin", required=True, help="e.g. https://garden.example.org")
        parser.add_argument("--username", help="needed when there are several accounts")

    def handle(self, *args: Any, origin: str, username: str | None, **options: Any) -> None:
        accounts = people()
        if username:
            accounts = accounts.filter(username=username)
        found = list(accounts[:2])
        if len(found) != 1:
            raise CommandError(
                "There is no such account. Nothing was changed. Make one, then try again."
                if not found
                else "There are several accounts. Nothing was changed. Add --username NAME."
            )
        self.stdout.write(f"{origin.rstrip('/')}/pair#{mint_token(found[0])}")
