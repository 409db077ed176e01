"""The real settings on a throw-away data folder, so that no test can touch a grower's own."""

import atexit
import os
import shutil
import tempfile

# Before the import: the settings make the folder and its secret key while they are read.
os.environ["KNOTBED_DATA_DIR"] = tempfile.mkdtemp(prefix="knotbed-pytest-")
atexit.register(shutil.rmtree, os.environ["KNOTBED_DATA_DIR"], ignore_errors=True)

from api.settings import *  # noqa: E402, F403
