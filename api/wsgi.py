"""The door a web server opens: ``granian --interface wsgi api.wsgi:application``.

Not for development tricks: a setting that cannot be read stops the server here, before it listens.
"""

import gc
import os

from django.core.wsgi import get_wsgi_application

os.environ.setdefault("DJANGO_SETTINGS_MODULE", "api.settings")
application = get_wsgi_application()

import api.urls  # noqa: E402, F401  (else the first request would pay for loading every view)
from gardens.checks import refuse_to_start  # noqa: E402  (needs Django set up)

refuse_to_start()

# What was loaded so far stays: looking through it for waste stops every thread for 0.1 s, and that
# again and again while phones push.
gc.collect()
gc.freeze()
