"""Tells whether bytes are a JPEG as this program writes them: pixels and nothing beside them.

Such a photo is kept as it is, so that a garden brought back is the same garden to the byte; any
other is drawn anew. The markers are those of ISO/IEC 10918-1 (from memory).
"""

START, END, SCAN = 0xD8, 0xD9, 0xDA
# JFIF header, quantisation and Huffman tables, baseline frame, restart interval.
ALLOWED = {0xE0, 0xDB, 0xC4, 0xC0, 0xDD}
JFIF_BYTES = 16  # longer ones hold a thumbnail


def is_plain(data: bytes) -> bool:
    """Tell whether the JPEG holds one picture, no notes, no place, and nothing after its end."""
    if data[:2] != bytes((0xFF, START)):
        return False
    at = 2
    while at + 4 <= len(data) and data[at] == 0xFF:
        marker, n_bytes = data[at + 1], int.from_bytes(data[at + 2 : at + 4], "big")
        if marker == SCAN:
            return _ends_once(data[at + 2 + n_bytes :])
        if marker not in ALLOWED or (marker == 0xE0 and n_bytes != JFIF_BYTES):
            return False
        at += 2 + n_bytes
    return False


def _ends_once(scan: bytes) -> bool:
    """Tell whether the first marker in the scan, but for stuffing and restarts, is the last."""
    at = scan.find(0xFF)
    while 0 <= at < len(scan) - 1:
        follows = scan[at + 1]
        if follows != 0 and not 0xD0 <= follows <= 0xD7:
            return follows == END and at + 2 == len(scan)
        at = scan.find(0xFF, at + 2)
    return False
