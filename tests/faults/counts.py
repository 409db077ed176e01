"""How long a run of faults is, and what it was made of.

The checks run the small size. The long runs (``python3 manage.py soak``) ask for more in the
environment and read what was counted from a file.
"""

import json
import os
from collections import Counter
from collections.abc import Mapping
from pathlib import Path

TIMES = int(os.environ.get("FAULT_TIMES", "1"))
FIRST_SEED = int(os.environ.get("FAULT_FIRST_SEED", "0"))


class Counts(Counter[str]):
    """How often each thing happened, by its name."""


def tell(part: str, counts: Mapping[str, int]) -> None:
    """Say what a part was made of, so that a green result can be seen to have met something."""
    line = json.dumps({"part": part, "counts": counts}, sort_keys=True)
    print(line)
    if file := os.environ.get("FAULT_TOLD"):
        with Path(file).open("a", encoding="utf-8") as told:
            told.write(line + "\n")
