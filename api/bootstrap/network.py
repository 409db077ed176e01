"""Addresses and ports of this computer."""

import contextlib
import socket

from .steps import Trouble


def lan_address() -> str | None:
    """Return this computer's address on the home network, or None when it has none.

    Connecting a datagram socket sends nothing; it only asks the system which way it would go.
    """
    with contextlib.closing(socket.socket(socket.AF_INET, socket.SOCK_DGRAM)) as probe:
        try:
            probe.connect(("192.0.2.1", 9))
        except OSError:
            return None
        address = str(probe.getsockname()[0])
    return None if address.startswith(("127.", "0.")) else address


def allowed_hosts(*more: str | None) -> str:
    """Return the names a browser may call this computer by, as one comma-separated setting."""
    name = socket.gethostname()
    names = ["localhost", "127.0.0.1", "[::1]", name, f"{name}.local", *more]
    return ",".join(dict.fromkeys(n for n in names if n))


def check_port(host: str, port: int) -> None:
    """Raise Trouble when the port cannot be had."""
    family = socket.AF_INET6 if ":" in host else socket.AF_INET
    with contextlib.closing(socket.socket(family, socket.SOCK_STREAM)) as probe:
        probe.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        try:
            probe.bind((host, port))
        except OSError as error:
            raise Trouble(
                f"Port {port} on {host} cannot be used ({error.strerror}); "
                f"choose another one, for example: --port {port + 1}"
            ) from error
