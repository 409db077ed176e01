"""Stands in for Pillow on the phone, where ReportLab only wants to find a name to import."""
