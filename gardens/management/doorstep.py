"""What a person reads in the terminal when a server is about to start."""

from typing import Any, TextIO

import segno

from gardens.services.pairing import mint_token

HTTP_LINE = (
    "Over plain http a phone cannot open the app again without a signal: keep its tab open.\n"
    "  With https it can; README.md says how."
)


def pairing_address(origin: str, account: Any) -> str:
    """Return an address that signs one phone or browser in, once, within 15 minutes."""
    return f"{origin}/pair#{mint_token(account)}"


def show_pairing(out: TextIO, origin: str, account: Any) -> None:
    """Draw the code a phone scans to be signed in."""
    address = pairing_address(origin, account)
    out.write("\n  Scan this with a phone in the same network; it signs the phone in:\n\n")
    segno.make(address, error="l").terminal(out, compact=True, border=2)
    out.write(f"\n  or open there: {address}\n")
    out.write("  It works once, within 15 minutes. Start again for another one.\n\n")
    out.write(f"  {HTTP_LINE}\n")
