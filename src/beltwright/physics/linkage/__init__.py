"""Rods between levers and arms: where the arm goes, what the hand needs, the dead point."""
