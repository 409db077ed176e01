import socket
import threading
import time

from api.bootstrap import opener, serving


def test_the_browser_is_opened_once_the_server_answers(monkeypatch):
    opened = []
    monkeypatch.setattr(opener.webbrowser, "open", lambda address: opened.append(address) or True)
    with socket.socket() as server:
        server.bind(("127.0.0.1", 0))
        address = f"http://127.0.0.1:{server.getsockname()[1]}/pair#secret"
        waiting = threading.Thread(target=opener.main, args=(address,))
        waiting.start()
        time.sleep(0.2)
        assert opened == []
        server.listen()
        waiting.join(10)
    assert opened == [address]


def test_a_server_that_never_answers_opens_nothing(monkeypatch):
    monkeypatch.setattr(opener.webbrowser, "open", lambda address: 1 / 0)
    with socket.socket() as silent:
        silent.bind(("127.0.0.1", 0))
        assert not opener.main(f"http://127.0.0.1:{silent.getsockname()[1]}/", patience_s=0.3)


def test_without_a_screen_no_browser_is_opened(monkeypatch):
    monkeypatch.setattr(serving.sys, "platform", "linux")
    monkeypatch.delenv("DISPLAY", raising=False)
    monkeypatch.delenv("WAYLAND_DISPLAY", raising=False)
    assert not serving.can_open_browser()
    monkeypatch.setenv("DISPLAY", ":0")
    assert serving.can_open_browser()
