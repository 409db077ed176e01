"""Wait until the server answers, then open the browser once. Run as a process of its own."""

import os
import socket
import time
import webbrowser
from urllib.parse import urlsplit


def main(address: str, *, patience_s: float = 30) -> bool:
    """Open `address` when its port answers within the time; say whether it did."""
    target = urlsplit(address)
    end = time.monotonic() + patience_s
    while time.monotonic() < end:
        try:
            socket.create_connection((target.hostname or "", target.port or 80), 1).close()
        except OSError:
            time.sleep(0.1)
            continue
        return webbrowser.open(address)
    return False


if __name__ == "__main__":
    main(os.environ["KNOTBED_OPEN"])
