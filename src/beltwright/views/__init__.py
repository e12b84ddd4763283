"""Findings and machines as scenes, charts and printed tables."""
