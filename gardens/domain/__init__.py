"""What is known: pure functions and frozen values, with the standard library alone.

Not for storing, asking or printing. No clock, chance, file or network: days, tables and
seeds come in as arguments; errors go out as codes.
"""
