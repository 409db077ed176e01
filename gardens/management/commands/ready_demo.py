"""Make a data folder ready for the demo: tables, the demo garden if there is none, a way in."""

import sys
from typing import Any

from django.conf import settings
from django.core.management import BaseCommand, CommandParser, call_command

from gardens.management.doorstep import pairing_address, show_pairing
from gardens.models import Garden
from gardens.services.demo import DEMO_USERNAME, kept_password


class Command(BaseCommand):
    """Talk goes to standard error; the one line on standard output is where the browser goes."""

    help = "Used by 'python3 manage.py demo'."

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("--origin", required=True, help="address on this computer")
        parser.add_argument("--lan", help="address in the home network")

    def handle(self, *, origin: str, lan: str | None, **options: Any) -> None:
        call_command("migrate", verbosity=0)
        if not Garden.objects.exists():
            self.stderr.write("  Filling the demo garden")
            call_command("load_demo", stdout=self.stderr)
        owner = Garden.objects.earliest("id").owner
        address = pairing_address(origin, owner)
        sys.stderr.write(f"\n  On this computer: {address}\n")
        password = kept_password(settings.DATA_DIR)
        if password and owner.check_password(password):
            sys.stderr.write(f"  or sign in as {DEMO_USERNAME} with the password {password}\n")
        if lan:
            show_pairing(sys.stderr, lan, owner)
        else:
            sys.stderr.write("  No home network was found, so no phone can reach it now.\n")
        sys.stderr.write("  Stop with Ctrl-C; what was entered stays.\n\n")
        self.stdout.write(address)
