"""Write everything to one file: ``make_backup FILE``; the server may go on serving."""

from pathlib import Path
from typing import Any

from django.core.management.base import BaseCommand, CommandError, CommandParser

from gardens.services.backup.keep import make_backup
from gardens.services.backup.manifest import BadBackup


class Command(BaseCommand):
    help = "Used by 'python3 manage.py backup'."

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("file", type=Path)

    def handle(self, *args: Any, file: Path, **options: Any) -> None:
        try:
            kept = make_backup(file=file)
        except (BadBackup, OSError) as trouble:
            raise CommandError(f"{trouble} No backup was made; your data is as it was.") from None
        self.stdout.write(
            f"Backup written: {file}, {kept.n_bytes / 1e6:.1f} MB, "
            f"{kept.n_photos} photos and papers. "
            "Keep it where only you can read it. The secret key is not in it."
        )
        if kept.n_elsewhere:
            self.stderr.write(
                f"{kept.n_elsewhere} photos or papers lie in the bucket of KNOTBED_PHOTOS_URL "
                "and are not in this file. Keep a copy of the bucket as well."
            )
        if kept.n_missing:
            self.stderr.write(
                f"Of {kept.n_missing} photos or papers the file is missing on this server, and so "
                "in the backup. A phone that still holds them sends them again."
            )
