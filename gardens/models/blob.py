"""The bytes of a photo that the server holds: named by the upload's hash, stored under its own."""

from django.db import models


class Blob(models.Model):
    """One stored picture; ``sha256`` names what was sent, ``stored_sha256`` the file kept."""

    garden = models.ForeignKey("gardens.Garden", models.CASCADE, related_name="blobs")
    sha256 = models.CharField(max_length=64)
    stored_sha256 = models.CharField(max_length=64)
    n_bytes = models.IntegerField()
    width_px = models.IntegerField()
    height_px = models.IntegerField()
    stored_at = models.DateTimeField(auto_now_add=True)

    class Meta:
        constraints = [
            models.UniqueConstraint(fields=["garden", "sha256"], name="blob_once_per_garden")
        ]
