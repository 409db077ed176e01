"""What the demo garden needs besides its records: photos drawn by code."""
