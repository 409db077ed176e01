"""What ReportLab asks of Pillow at its start. JPEGs are embedded as they are, without it."""


class Image:
    """A name for ``isinstance``; no picture is ever one."""
