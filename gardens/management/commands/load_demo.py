"""Load the demo garden into an empty house."""

from typing import Any

from django.conf import settings
from django.core.management.base import BaseCommand, CommandParser
from django.utils import timezone

from gardens.services.demo import DEMO_USERNAME, kept_password, load_demo, make_password


class Command(BaseCommand):
    """Say what was loaded, or that nothing had to be."""

    help = "Load the invented demo garden with its own account; a second run changes nothing."

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("--password", help="for tests; without it one is made and kept")

    def handle(self, *args: Any, password: str | None, **options: Any) -> None:
        """Load it and name the account."""
        data_dir = settings.DATA_DIR
        password = password or kept_password(data_dir) or make_password(data_dir)
        loaded = load_demo(now=timezone.now(), password=password)
        if loaded is None:
            self.stdout.write(f'The account "{DEMO_USERNAME}" is here already; nothing changed.')
            return
        self.stdout.write(
            f"Demo garden loaded: {loaded.n_records} records, {loaded.n_photos} photos. "
            f'Sign in as "{DEMO_USERNAME}" with the password "{password}".'
        )
