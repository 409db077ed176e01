"""Photos in a bucket that speaks S3: on another machine, or several servers beside one another.

Such a store takes a file whole or not at all and shows it to everybody at once.
"""

import io
from collections.abc import Collection, Iterator
from concurrent.futures import ThreadPoolExecutor
from contextlib import contextmanager, suppress
from functools import cache
from typing import Any, BinaryIO
from uuid import UUID

from botocore.config import Config
from botocore.exceptions import BotoCoreError, ClientError
from django.core.files.base import ContentFile
from storages.backends.s3 import S3Storage

from gardens.photo_store.address import BucketAddress
from gardens.photo_store.refusals import StoreAway, StoreFull

ASKED_AT_ONCE = 8
CALM = Config(
    connect_timeout=3,
    read_timeout=10,
    retries={"mode": "standard", "total_max_attempts": 2},
    max_pool_connections=4 * ASKED_AT_ONCE,
    s3={"addressing_style": "path"},
)
FULL = {"QuotaExceeded", "InsufficientStorage", "EntityTooLarge"}
# What the store answers when name, secret or bucket are wrong: waiting will not help.
REFUSED = {401, 403, 404}


class Bucket:
    """One bucket, or a folder in it."""

    def __init__(self, address: BucketAddress) -> None:
        self.address = address
        self._storage = S3Storage(
            bucket_name=address.bucket,
            location=address.folder,
            endpoint_url=address.endpoint,
            region_name=address.region,
            access_key=address.key,
            secret_key=address.secret,
            client_config=CALM,
            file_overwrite=True,
            default_acl=None,
            object_parameters={"ContentType": "image/jpeg"},
        )

    def present(self, names: Collection[str]) -> set[str]:
        """Return those of some names the bucket has."""
        with _refusals(), ThreadPoolExecutor(ASKED_AT_ONCE) as pool:
            return {
                name
                for name, is_there in zip(names, pool.map(self._has, names), strict=True)
                if is_there
            }

    def _has(self, name: str) -> bool:
        return bool(self._storage.exists(name))

    def open(self, name: str) -> BinaryIO:
        """Fetch a file; raises ``FileNotFoundError`` or ``StoreAway``."""
        with _refusals(), self._storage.open(name, "rb") as file:
            return io.BytesIO(file.read())

    def write(self, name: str, data: bytes) -> None:
        """Send a file; returns when the bucket has said that it is kept."""
        with _refusals():
            self._storage.save(name, ContentFile(data))

    def discard(self, garden_id: UUID) -> None:
        """Remove the garden's files; one that stays is only room lost."""
        prefix = "/".join(filter(None, [self.address.folder, str(garden_id), ""]))
        with suppress(StoreAway), _refusals():
            self._storage.bucket.objects.filter(Prefix=prefix).delete()

    def knock(self) -> str:
        """Ask the bucket for nothing; return what is wrong for good, or nothing.

        Raises ``StoreAway`` when it does not answer.
        """
        try:
            with _refusals():
                self._storage.connection.meta.client.head_bucket(Bucket=self.address.bucket)
        except StoreAway as away:
            status = _status_of(away.__cause__)
            if status in REFUSED:
                return WRONG[status]
            raise
        return ""


WRONG = {
    401: "does not know the key",
    403: "does not let this key in",
    404: "has no bucket of this name",
}


@contextmanager
def _refusals() -> Iterator[None]:
    try:
        yield
    except ClientError as error:
        if error.response.get("Error", {}).get("Code") in FULL:
            raise StoreFull from error
        raise StoreAway from error
    except (BotoCoreError, OSError) as error:
        if isinstance(error, FileNotFoundError):
            raise
        raise StoreAway from error


def _status_of(error: Any) -> int:
    response = error.response if isinstance(error, ClientError) else {}
    return int(response.get("ResponseMetadata", {}).get("HTTPStatusCode", 0))


@cache
def bucket_at(address: BucketAddress) -> Bucket:
    """Return the bucket at an address, with connections that are kept."""
    return Bucket(address)
