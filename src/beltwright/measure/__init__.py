"""Readings to values: what a tape, bathroom scales and a phone say, with how sure it is.

Every reading becomes a `Measured` value with its ±, or is refused in words. Files are read with a
bound on their size; nothing in here writes.
"""
