"""Taking one garden away in a file, and bringing such a file to a server."""
