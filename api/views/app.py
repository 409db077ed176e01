"""The web app's one page, for every address that is not the API's or a file's.

Nothing here changes anything, so no token is asked for: the refusal would be a page of Django's.
"""

from django.conf import settings
from django.http import HttpRequest, HttpResponse
from django.views.decorators.csrf import csrf_exempt
from django.views.decorators.http import require_safe

from api.errors import Problem, problem_response

NOT_BUILT = (
    "The web app is not built yet. No data is touched.\n"
    "Run: python3 manage.py setup\nthen start the server again.\n"
)


@csrf_exempt
@require_safe
def app_page(request: HttpRequest) -> HttpResponse:
    """Answer with the app's page, whatever screen the address names."""
    page = settings.WEB_DIR / "index.html"
    if not page.is_file():
        return HttpResponse(NOT_BUILT, status=503, content_type="text/plain; charset=utf-8")
    return HttpResponse(page.read_bytes(), headers={"Cache-Control": "no-cache"})


@csrf_exempt
def no_such_address(request: HttpRequest) -> HttpResponse:
    """Answer an API address or a file that does not exist; never with the app's page."""
    return problem_response(Problem("not_found"))
