"""Shafts, hubs, axles and chains under load."""
