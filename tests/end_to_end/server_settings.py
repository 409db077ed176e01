"""The real settings, with the web app taken from a folder of the test's own."""

import os
from pathlib import Path

from api.settings import *  # noqa: F403

WEB_DIR = WHITENOISE_ROOT = Path(os.environ["KNOTBED_TEST_WEB"])
