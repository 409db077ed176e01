"""The door a web server opens: ``granian --interface wsgi api.wsgi:application``.

Not for development tricks: a setting that cannot be read stops the server here, before it listens.
"""

import os

from django.core.wsgi import get_wsgi_application

os.environ.setdefault("DJANGO_SETTINGS_MODULE", "api.settings")
application = get_wsgi_application()

from gardens.checks import refuse_to_start  # noqa: E402  (needs Django set up)

refuse_to_start()
