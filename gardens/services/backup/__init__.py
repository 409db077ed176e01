"""One file with everything this server keeps, made while it serves, and putting one back."""
