"""The real settings, with the web app taken from a folder of the test's own."""

import os
from pathlib import Path

from api.settings import *  # noqa: F403

WEB_DIR = WHITENOISE_ROOT = Path(os.environ["KNOTBED_TEST_WEB"])

# Browsers and figures do in a minute what people do in a season.
for _allowance in ALLOWANCES.values():  # noqa: F405
    _allowance |= {"most_times": 10**9, "most_a_day": 10**15}
