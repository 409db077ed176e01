"""Everything between a fresh clone and a listening server, for the demo and for real use."""

import os
import subprocess
import sys
from pathlib import Path
from typing import NoReturn

from . import network, packages, webapp
from .places import ROOT, venv_python
from .steps import Trouble, hand_over


def set_up() -> None:
    """Install the runtime packages and build the web app; a second call does nothing."""
    packages.provide(packages.RUNTIME, packages.FONTS)
    webapp.build()


def demo(data: Path, port: int, *, browser: bool) -> NoReturn:
    """Serve the made-up garden on this computer and to phones on the same network."""
    network.check_port("0.0.0.0", port)
    set_up()
    lan = network.lan_address()
    env = environment(data, network.allowed_hosts(lan))
    # The demo never touches a database or a bucket of the grower's own.
    for name in ("DATABASE_URL", "KNOTBED_PHOTOS_URL"):
        env.pop(name, None)
    origin = f"http://127.0.0.1:{port}"
    argv = ["ready_demo", "--origin", origin]
    if lan:
        argv += ["--lan", f"http://{lan}:{port}"]
    address = ready(argv, env)
    if browser and can_open_browser():
        open_later(address)
    listen("0.0.0.0", port, env)


def own(data: Path, host: str, port: int) -> NoReturn:
    """Serve the grower's own records; the first account is asked for, never made up."""
    network.check_port(host, port)
    set_up()
    lan = network.lan_address() if host == "0.0.0.0" else host
    env = environment(data, network.allowed_hosts(lan))
    address = f"http://{'127.0.0.1' if host == '0.0.0.0' else host}:{port}"
    ready(["ready_house", "--origin", address], env)
    listen(host, port, env)


def keep(command: str, file: Path, data: Path | None) -> NoReturn:
    """Make a backup or put one back, of the folder given, else of the one the settings name."""
    packages.require()
    given = {} if data is None else {"KNOTBED_DATA_DIR": str(data.resolve())}
    os.chdir(ROOT)
    hand_over([str(venv_python()), "manage.py", command, str(file)], os.environ | given)


def environment(data: Path, hosts: str) -> dict[str, str]:
    """Return the environment a server is set up by; what the caller has set already wins."""
    made = {"KNOTBED_ALLOWED_HOSTS": hosts}
    return made | os.environ | {"KNOTBED_DATA_DIR": str(data)}


def ready(argv: list[str], env: dict[str, str]) -> str:
    """Let Django make the data folder ready; return the one line it answers with.

    What a person reads goes to standard error, the answer to standard output.
    """
    done = subprocess.run(
        [str(venv_python()), "manage.py", *argv],
        cwd=ROOT,
        env=env,
        stdout=subprocess.PIPE,
        text=True,
        check=False,
    )
    if done.returncode != 0:
        raise Trouble("The server was not started; the lines above say why.")
    return done.stdout.strip()


# A thread stays with a request while its body comes in: two phones on a slow line, three photos
# each, would hold up everybody if there were only a few. Idle ones end by themselves.
THREADS = 32


def listen(host: str, port: int, env: dict[str, str]) -> NoReturn:
    """Become the web server: one process, because SQLite has one writer."""
    argv = [str(venv_python()), "-m", "granian", "--interface", "wsgi", "--workers", "1"]
    argv += ["--blocking-threads", str(THREADS), "--host", host, "--port", str(port), "--no-ws"]
    os.chdir(ROOT)
    hand_over([*argv, "api.wsgi:application"], env)


def can_open_browser() -> bool:
    """Say whether there is a screen; without one a text browser could take the terminal over."""
    if sys.platform.startswith(("win", "darwin", "cygwin")):
        return True
    return bool(os.environ.get("DISPLAY") or os.environ.get("WAYLAND_DISPLAY"))


def open_later(address: str) -> None:
    """Open the browser from a small process of its own, as soon as the server answers."""
    subprocess.Popen(
        [sys.executable, "-m", "api.bootstrap.opener"],
        cwd=ROOT,
        env=os.environ | {"KNOTBED_OPEN": address},  # not in argv: it holds a pairing secret
        stdin=subprocess.DEVNULL,
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
        start_new_session=True,
    )
