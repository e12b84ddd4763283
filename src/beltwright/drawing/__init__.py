"""Drawings: shapes of the machine to SVG and to true-size paper, and charts."""
