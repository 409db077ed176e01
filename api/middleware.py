"""Rules every answer and every request obeys: content policy, and no other site's requests.

Not for sessions or CSRF tokens: see ``authentication``.
"""

from collections.abc import Callable

from django.http import HttpRequest, HttpResponseBase

from api.errors import Problem, problem_response

Answer = Callable[[HttpRequest], HttpResponseBase]

CONTENT_POLICY = (
    "default-src 'self'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self'; "
    "img-src 'self' blob: data:; "
    "connect-src 'self'; worker-src 'self'; manifest-src 'self'; object-src 'none'; "
    "base-uri 'none'; frame-ancestors 'none'; form-action 'self'; "
    "require-trusted-types-for 'script'; trusted-types svelte-trusted-html default"
)
PERMISSIONS = "camera=(self), geolocation=(), microphone=()"


class PageRules:
    """Put the content policy on every answer, above WhiteNoise so that its files get it too."""

    def __init__(self, get_response: Answer) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponseBase:
        response = self.get_response(request)
        response.headers.setdefault("Content-Security-Policy", CONTENT_POLICY)
        response.headers.setdefault("Permissions-Policy", PERMISSIONS)
        response.headers.setdefault("Cross-Origin-Resource-Policy", "same-origin")
        return response


class OwnPagesOnly:
    """Refuse a change that the browser says no page of this address asked for."""

    def __init__(self, get_response: Answer) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponseBase:
        asked_from = request.headers.get("Sec-Fetch-Site", "same-origin")
        if request.method not in ("GET", "HEAD", "OPTIONS") and asked_from != "same-origin":
            return problem_response(Problem("wrong_origin"))
        return self.get_response(request)
