"""How much of what is limited has been used up, in the window of time that runs."""

from django.db import models


class Allowance(models.Model):
    """What one phone or one garden (``subject``) has used of one deed.

    Two windows run side by side: times in the short one, an amount in the long one. A window is
    told by its number since 1970.
    """

    deed = models.CharField(max_length=16)
    subject = models.UUIDField()
    short_window = models.BigIntegerField()
    n_times = models.BigIntegerField()
    long_window = models.BigIntegerField()
    amount = models.BigIntegerField()

    class Meta:
        constraints = [
            models.UniqueConstraint(fields=["deed", "subject"], name="allowance_once_per_subject")
        ]
