"""Asking at the start whether the place for photos lets this server in."""

from typing import Any

from django.conf import settings
from django.core.management import CommandError

from gardens.photo_store.refusals import StoreAway


def check_photo_store(stderr: Any) -> None:
    """Stop a start that could never keep a photo; only warn of a place that does not answer.

    Records are taken without it, and photos wait on the phones.
    """
    address = settings.PHOTOS_BUCKET
    if address is None:
        return
    from gardens.photo_store.bucket import bucket_at  # its library is slow to import

    place = f"The place for photos ({address.endpoint or 's3'}, bucket {address.bucket})"
    try:
        wrong = bucket_at(address).knock()
    except StoreAway:
        stderr.write(f"  {place} does not answer. Photos wait on the phones until it does.\n")
        return
    if wrong:
        raise CommandError(
            f"{place} {wrong}. No data was touched. Check KNOTBED_PHOTOS_URL, KNOTBED_PHOTOS_KEY "
            "and KNOTBED_PHOTOS_SECRET."
        )
