"""What runs before anything is installed: the standard library only, and no Django settings.

It makes the virtual environment, installs the locked packages, builds the web app and hands over.
"""
