"""What stands for a device in a garden's file: the merge rule trusts the real id.

A veil is a UUID of version 8 (RFC 9562: made as its maker likes), so one that comes back is known
for a veil and stays as it is: a garden taken away, brought back and taken away is the same file.
"""

import hashlib
from collections.abc import Mapping
from typing import Any
from uuid import UUID

VEIL = 8


def veiled(garden: UUID, device: UUID) -> UUID:
    """Return the veil of a device in a garden."""
    if device.version == VEIL:
        return device
    digest = hashlib.sha256(f"device of {garden} {device}".encode()).digest()
    number = int.from_bytes(digest[:16], "big")
    number = number & ~(0xF << 76) | VEIL << 76
    return UUID(int=number & ~(0x3 << 62) | 0x2 << 62)


def veiled_text(garden: UUID, device: UUID | None) -> str | None:
    """Return the veil as text, or nothing for what the server itself did."""
    return None if device is None else str(veiled(garden, device))


def veiled_versions(garden: UUID, versions: Mapping[str, list[Any]]) -> dict[str, list[Any]]:
    """Return field versions (number of a change, device) with every device veiled."""
    return {
        name: [seq, device and veiled_text(garden, UUID(device))]
        for name, (seq, device) in versions.items()
    }
