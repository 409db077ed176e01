"""Put a backup in the place of the present data: ``restore_backup FILE``."""

from pathlib import Path
from typing import Any

from django.core.management.base import BaseCommand, CommandError, CommandParser

from gardens.services.backup.keep import restore_backup
from gardens.services.backup.manifest import BadBackup


class Command(BaseCommand):
    help = "Used by 'python3 manage.py restore'."

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("file", type=Path)

    def handle(self, *args: Any, file: Path, **options: Any) -> None:
        try:
            done = restore_backup(file=file)
        except (BadBackup, OSError) as trouble:
            raise CommandError(f"{trouble} Nothing was put back; your data is as it was.") from None
        self.stdout.write(
            f"Put back: the backup of {done.made_at}, {done.n_photos} photos and papers. "
            f"What was here before lies in {done.aside}. Start the server; "
            "phones send again what the backup lacks."
        )
