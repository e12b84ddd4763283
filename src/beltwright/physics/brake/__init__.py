"""Brake torque, stopping, and the heat of it."""
