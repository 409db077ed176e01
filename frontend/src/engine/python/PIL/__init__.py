"""Stands in for Pillow on the phone, where ReportLab only wants to find a name to import."""

# The reader of PDFs asks which Pillow there is; with this it opens no pictures.
__version__ = "0"
