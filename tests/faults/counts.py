"""What a run of faults was made of, so that a green result can be seen to have met something."""

from collections import Counter


class Counts(Counter[str]):
    """How often each thing happened, by its name."""

    def told(self) -> str:
        """Return the counts as one line, the names in order."""
        return ", ".join(f"{name}: {n:,}" for name, n in sorted(self.items()))
