"""The real settings, with a fault put in: an error that quotes what was sent, as databases do."""

from tests.end_to_end.server_settings import *  # noqa: F403


class Fault:
    """Fails on request, below everything that answers for failures."""

    def __init__(self, get_response):
        self.get_response = get_response

    def __call__(self, request):
        if request.GET.get("fail") == "cause":
            try:
                raise KeyError(request.body)
            except KeyError as cause:
                raise RuntimeError(f"row contains {request.body!r}") from cause
        return self.get_response(request)


MIDDLEWARE += ["tests.end_to_end.failing_settings.Fault"]  # noqa: F405
