"""Four faults of the server, each planted by replacing one function; the product carries none.

A simulation that does not see them proves nothing. The phone's own four are in the phone's tests.
"""

from gardens.services import batch, journal, merge, push


def without(part):
    """Return the merge rule with one part of what it found thrown away."""

    def forgetful(state, values, edit, **options):
        merged = merge.merge_values(state, values, edit, **options)
        getattr(merged, part).clear()
        return merged

    return forgetful


def no_device_test(state, name, edit):
    return state.field_versions.get(name, [0, ""])[0] > edit.base


def forgets_repeats(self, mutation):
    self.known.clear()
    return taken(self, mutation)


def any_history(garden, high):
    pass


taken = batch.Batch.take
# name: (where it is looked up, under which name, what stands there instead)
PLANTED = {
    "nodedupe": ((batch.Batch,), "take", forgets_repeats),
    "selfconflict": ((merge,), "is_foreign", no_device_test),
    "noprev": ((batch,), "merge_values", without("previous")),
    "dropconflict": ((batch,), "merge_values", without("aside")),
    "any history": ((push, journal), "check_mark", any_history),
}
