"""Django's settings, from the environment only; README.md lists every variable.

Not for reading spellings: ``environment`` does, and remembers what it could not read.
"""

import re
from pathlib import Path

from api import environment

BASE_DIR = Path(__file__).resolve().parent.parent
DATA_DIR = environment.read_data_dir(BASE_DIR / "data")
PHOTOS_DIR = DATA_DIR / "photos"
PHOTOS_BUCKET = environment.read_photos_bucket()
WEB_DIR = BASE_DIR / "webbuild"

SECRET_KEY = environment.read_secret_key(DATA_DIR)
DEBUG = environment.read_flag("KNOTBED_DEBUG")
HTTPS = environment.read_flag("KNOTBED_HTTPS")
ALLOWED_HOSTS = environment.read_list(
    "KNOTBED_ALLOWED_HOSTS",
    "localhost,127.0.0.1,[::1]",
    r"\*|\.?[A-Za-z0-9-]+(\.[A-Za-z0-9-]+)*|\[[0-9a-fA-F:]+\]",
    "knotbed.E005",
    "garden.example.org or 192.168.1.20 (no http://, no port)",
)
CSRF_TRUSTED_ORIGINS = environment.read_list(
    "KNOTBED_TRUSTED_ORIGINS",
    "",
    r"https?://[A-Za-z0-9.\[\]:*-]+",
    "knotbed.E006",
    "https://garden.example.org",
)
KNOTBED_PROBLEMS = environment.problems

INSTALLED_APPS = [
    "django.contrib.auth",
    "django.contrib.contenttypes",
    "django.contrib.sessions",
    "rest_framework",
    "drf_spectacular",
    "gardens",
]
MIDDLEWARE = [
    "api.middleware.PageRules",
    "django.middleware.security.SecurityMiddleware",
    "whitenoise.middleware.WhiteNoiseMiddleware",
    "django.contrib.sessions.middleware.SessionMiddleware",
    "django.middleware.common.CommonMiddleware",
    "api.middleware.OwnPagesOnly",
    "django.middleware.csrf.CsrfViewMiddleware",
    "django.contrib.auth.middleware.AuthenticationMiddleware",
]
ROOT_URLCONF = "api.urls"
WSGI_APPLICATION = "api.wsgi.application"
APPEND_SLASH = False

DATABASES = {"default": environment.read_database(DATA_DIR)}
DEFAULT_AUTO_FIELD = "django.db.models.BigAutoField"
AUTH_PASSWORD_VALIDATORS = [
    {"NAME": "django.contrib.auth.password_validation.MinimumLengthValidator"},
    {"NAME": "django.contrib.auth.password_validation.CommonPasswordValidator"},
]

# Django hands TIME_ZONE to every child process as TZ, so anything but UTC would leak into tools.
TIME_ZONE = "UTC"
USE_TZ = True
USE_I18N = False

SESSION_COOKIE_NAME = "__Host-knotbed-session" if HTTPS else "knotbed-session"
SESSION_COOKIE_AGE = 180 * 24 * 3600
SESSION_COOKIE_SECURE = HTTPS
SESSION_COOKIE_HTTPONLY = True
SESSION_COOKIE_SAMESITE = "Lax"
CSRF_USE_SESSIONS = True
CSRF_HEADER_NAME = "HTTP_X_CSRFTOKEN"
SECURE_HSTS_SECONDS = 30 * 24 * 3600 if HTTPS else 0
# Framing is refused by the content policy, https asked for by the server that stands in front, and
# other names of the domain are not ours to speak for.
SILENCED_SYSTEM_CHECKS = ["security.W002", "security.W005", "security.W008", "security.W021"]
if HTTPS:
    # A proxy that does the encrypting says so; without one, nobody gains by claiming it.
    SECURE_PROXY_SSL_HEADER = ("HTTP_X_FORWARDED_PROTO", "https")
SECURE_REFERRER_POLICY = "same-origin"
SECURE_CROSS_ORIGIN_OPENER_POLICY = "same-origin"

STATIC_URL = "static/"
WHITENOISE_ROOT = WEB_DIR
WHITENOISE_AUTOREFRESH = False
WHITENOISE_USE_FINDERS = False
WHITENOISE_ALLOW_ALL_ORIGINS = False
WHITENOISE_MIMETYPES = {".webmanifest": "application/manifest+json"}


def WHITENOISE_IMMUTABLE_FILE_TEST(path: str, url: str) -> bool:
    """Tell whether a file's name carries its hash, so that a browser may keep it for ever."""
    return re.match(r"^/(assets/.+-[\w-]{8}\.\w+|engine/.+)$", url) is not None


def WHITENOISE_ADD_HEADERS_FUNCTION(headers: dict[str, str], path: str, url: str) -> None:
    """Make browsers ask each time for the files that say which version of the app is current."""
    if url in ("/", "/index.html", "/sw.js", "/manifest.webmanifest"):
        headers["Cache-Control"] = "no-cache"


REST_FRAMEWORK = {
    "DEFAULT_RENDERER_CLASSES": ["rest_framework.renderers.JSONRenderer"],
    "DEFAULT_PARSER_CLASSES": ["api.sync.parse.StrictJSONParser"],
    "DEFAULT_AUTHENTICATION_CLASSES": ["api.authentication.PhoneSession"],
    "DEFAULT_PERMISSION_CLASSES": ["rest_framework.permissions.IsAuthenticated"],
    "DEFAULT_CONTENT_NEGOTIATION_CLASS": "api.negotiation.OneForm",
    "EXCEPTION_HANDLER": "api.errors.answer_problem",
    "DEFAULT_SCHEMA_CLASS": "drf_spectacular.openapi.AutoSchema",
}
SPECTACULAR_SETTINGS = {
    "TITLE": "Knotbed",
    "DESCRIPTION": "Root ratings, photos and soil samples of a garden, in step on every phone.",
    "VERSION": "1",
    "SERVE_INCLUDE_SCHEMA": False,
    "SCHEMA_PATH_PREFIX": "/api/v1",
    "COMPONENT_SPLIT_REQUEST": False,
    "ENUM_GENERATE_CHOICE_DESCRIPTION": False,
}

# So many times in a window, and so much a day: items of one device, bytes into one garden, exports.
ALLOWANCES = {
    "push": {"window_s": 60, "most_times": 60, "most_a_day": 20_000},
    "photo": {"window_s": 60, "most_times": 120, "most_a_day": 500_000_000},
    "export": {"window_s": 3600, "most_times": 2, "most_a_day": 48},
    "arrival": {"window_s": 3600, "most_times": 10, "most_a_day": 60},
}

LOGGING = {
    "version": 1,
    "disable_existing_loggers": False,
    "formatters": {"without_words": {"()": "api.logs.WithoutWords"}},
    "handlers": {"console": {"class": "logging.StreamHandler", "formatter": "without_words"}},
    "root": {"handlers": ["console"], "level": "WARNING"},
}
