"""Why photos could not be kept or found."""


class StoreFull(Exception):
    """There is no room for the photo."""


class StoreAway(Exception):
    """The place where photos are kept cannot be asked just now, or does not let this server in."""
