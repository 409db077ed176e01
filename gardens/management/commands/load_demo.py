"""Load the demo garden into an empty house."""

from typing import Any

from django.core.management.base import BaseCommand
from django.utils import timezone

from gardens.services.demo import DEMO_PASSWORD, DEMO_USERNAME, load_demo


class Command(BaseCommand):
    """Say what was loaded, or that nothing had to be."""

    help = "Load the invented demo garden with its own account; a second run changes nothing."

    def handle(self, *args: Any, **options: Any) -> None:
        """Load it and name the account."""
        loaded = load_demo(now=timezone.now())
        if loaded is None:
            self.stdout.write(f'The account "{DEMO_USERNAME}" is here already; nothing changed.')
            return
        self.stdout.write(
            f"Demo garden loaded: {loaded.n_records} records, {loaded.n_photos} photos. "
            f'Sign in as "{DEMO_USERNAME}" with the password "{DEMO_PASSWORD}".'
        )
