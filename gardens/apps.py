"""The one Django app of the project."""

from django.apps import AppConfig


class GardensConfig(AppConfig):
    """Registers the models and the system checks."""

    name = "gardens"

    def ready(self) -> None:
        from gardens import checks  # noqa: F401  (registers them)
