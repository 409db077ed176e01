"""Where a bucket is and what lets a server in."""

from dataclasses import dataclass, field


@dataclass(frozen=True)
class BucketAddress:
    """A bucket that speaks S3; ``repr`` leaves the secret out."""

    bucket: str
    folder: str
    endpoint: str | None
    region: str | None
    key: str
    secret: str = field(repr=False)
